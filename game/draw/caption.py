"""What the picture says in words: the first sentence leads, the rest follow, a few facts close."""

from math import hypot, isfinite

from game.draw.camera import Rect
from game.draw.type import Type, Word
from game.text.units import METRIC
from physics.results import Outcome, Shot

__all__ = ["FactRows", "facts_of", "place_caption"]

FactRows = tuple[tuple[str, str], ...]  # label and value
BESIDE = 0.05  # m off the line from which short and past no longer tell the distance left


def facts_of(shot: Shot) -> FactRows:
    """Where it came down, where it stopped, what is left: read from the Shot."""
    run = shot.run
    if run.outcome is Outcome.MISSED:
        return (("outcome", run.outcome.value),)
    facts = []
    if isfinite(run.carry):  # nan when the ball never came down on land
        facts += [("carry", METRIC.far(run.carry)), ("roll", METRIC.far(run.rest - run.carry))]
    hole = shot.course.hole
    if run.outcome is not Outcome.REST:
        return (*facts, ("outcome", run.outcome.value))
    if hole is not None:
        left = run.rest - hole.x
        if abs(shot.lateral) >= BESIDE:
            facts.append(("from the hole", METRIC.far(hypot(left, shot.lateral))))
        else:
            facts.append(("past the hole" if left > 0 else "short of the hole", METRIC.far(abs(left))))
    return tuple(facts)


def _lines(type_: Type, width: float, sentences: tuple[str, ...]) -> list[tuple[str, str, str]]:
    """Lines as (text, role, tone); an empty text is half a line of air."""
    out: list[tuple[str, str, str]] = []
    for i, sentence in enumerate(sentences):
        role = "lead" if i == 0 else "body"
        if i == 1:
            out.append(("", "body", "ink"))
        out += [(line, role, "ink") for line in type_.wrap(sentence, role, width)]
    return out


def place_caption(
    type_: Type, box: Rect, sentences: tuple[str, ...], facts: FactRows
) -> tuple[tuple[Word, ...], bool]:
    """Everything placed from the top of the box, and whether all of it fits; lines below its foot are
    left out."""
    out: list[Word] = []
    y = box.y
    for text, role, tone in _lines(type_, box.w, sentences):
        high = type_.line(role)
        if text:
            out.append(type_.word(text, role, box.x, y, tone))
        y += high if text else 0.5 * high
    if facts and sentences:
        y += 0.7 * type_.line("body")
    x = box.x
    for label, value in facts:
        gap, space = type_.line("label") * 1.1, type_.width(" ", "label")
        w = type_.width(label, "label") + space * 1.6 + type_.width(value, "strong")
        if x > box.x and x + w > box.right:
            x, y = box.x, y + type_.line("label") * 1.1
        first = type_.word(label, "label", x, y, "muted")
        out += [first, type_.word(value, "strong", first.box.right + space * 1.6, y, "ink")]
        x += w + gap
    inside = tuple(w for w in out if w.box.bottom <= box.bottom + 0.5)
    return inside, len(inside) == len(out)
