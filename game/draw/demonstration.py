"""The coach's picture of lean: one chip with more and more of it, and the same small mistake in each."""

from dataclasses import dataclass
from math import exp, hypot, isnan

import pygame

from game.draw import turf
from game.draw.camera import Rect
from game.draw.palette import DARK, LIGHT, Palette
from game.draw.pen import sheet
from game.draw.type import Type, Word
from game.text.cautions import NOTE, PRESET_NOTE
from game.text.quantity import angle_words, percent
from game.text.units import METRIC
from physics.cause import ground_of
from physics.results import Contact, Outcome, Shot, TurfAction

__all__ = ["Case", "DemonstrationLayout", "demonstration_layout", "draw_demonstration"]

SIZE = (1600, 760)
ZOOM = 3


@dataclass(frozen=True)
class Case:
    """One lean: the stroke that came in low, and how often the player's own strokes stay solid."""

    extra: float  # rad of lean beyond the address
    shot: Shot
    low: float  # m the sole came in lower than the same stroke is aimed
    solid: float  # share of the player's strokes aimed where the chip was aimed
    strokes: int  # how many those were

    @property
    def lost(self) -> float:
        """Share of the head speed the ground took before the ball; all of it when the ball was missed."""
        k = self.shot.strike
        return 1.0 if k.contact is Contact.MISSED else k.head_loss

    @property
    def kept(self) -> float:
        """About how far the ball goes, over how far the same stroke sends it with nothing in the way."""
        return exp(self.shot.strike.struck_gap)


@dataclass(frozen=True)
class DemonstrationLayout:
    """Where everything goes: windows and bars one a case, words in their places."""

    unit: float
    type: Type
    windows: tuple[Rect, ...]
    labels: tuple[tuple[Word, ...], ...]  # inside each window
    bars: tuple[Rect, ...]
    words: tuple[Word, ...]


def draw_demonstration(
    made: tuple[Case, ...], size: tuple[int, int] = SIZE, dark: bool = False
) -> pygame.Surface:
    """The picture of `size` px, one window a case; needs no display."""
    palette = DARK if dark else LIGHT
    p = demonstration_layout(made, size)
    page = pygame.Surface(size, 0, 32)
    page.fill(palette.paper)
    for case, box, labels in zip(made, p.windows, p.labels, strict=True):
        pen = sheet(box.w, box.h, ZOOM)
        inner = tuple(word.moved(-box.x, -box.y) for word in labels)
        turf.draw_turf(pen, Rect(0, 0, box.w, box.h), case.shot, palette, (), inner, p.unit)
        page.blit(pen.shrink(), (round(box.x), round(box.y)))
    for case, bar in zip(made, p.bars, strict=True):
        _draw_bar(page, bar, case.solid, palette)
    for word in (*p.words, *(w for labels in p.labels for w in labels)):
        p.type.draw(page, word, getattr(palette, word.tone))
    return page


# ---- layout


def demonstration_layout(made: tuple[Case, ...], size: tuple[int, int]) -> DemonstrationLayout:
    """Columns side by side under the caption; the windows take the height that the words leave."""
    w, h = size
    unit = min(w / SIZE[0], h / SIZE[1])
    type_ = Type(max(unit, 0.8))
    margin, gap = 44 * unit, 26 * unit
    head = _caption(type_, made, Rect(margin, 0.7 * margin, w - 2 * margin, h))
    notes = _lines(type_, _notes(made[0].strokes), "small", "muted", margin, 0.0, w - 2 * margin)
    foot = h - 0.6 * margin - notes[-1].box.bottom
    notes = tuple(word.moved(0, foot) for word in notes)
    wide = (w - 2 * margin - gap * (len(made) - 1)) / len(made)
    under = max(_under(type_, case, Rect(0, 0, wide, 0))[0][-1].box.bottom for case in made)
    top = head[-1].box.bottom + 0.5 * gap
    room = Rect(margin, top, wide, notes[0].box.y - 0.8 * gap - top)
    windows, bars, words = [], [], [*head, *notes]
    for i, case in enumerate(made):
        x = margin + i * (wide + gap)
        title = type_.word(_lean(case), "lead", x, room.y, "ink")
        tall = max(min(room.h - title.box.h - under - 8 * unit, 1.3 * wide), 1.0)
        windows.append(Rect(round(x), round(title.box.bottom), round(wide), round(tall)))
        below, bar = _under(type_, case, Rect(x, title.box.bottom + tall + 8 * unit, wide, 0))
        bars.append(bar)
        words += [title, *below]
    labels = tuple(turf.labels(type_, box, c.shot) for box, c in zip(windows, made, strict=True))
    return DemonstrationLayout(unit, type_, tuple(windows), labels, tuple(bars), tuple(words))


def _lines(
    type_: Type, text: str, role: str, tone: str, x: float, y: float, width: float
) -> tuple[Word, ...]:
    rows = type_.wrap(text, role, width)
    return tuple(type_.word(row, role, x, y + i * type_.line(role), tone) for i, row in enumerate(rows))


def _caption(type_: Type, made: tuple[Case, ...], box: Rect) -> tuple[Word, ...]:
    title = _lines(type_, "One chip, more and more lean", "title", "ink", box.x, box.y, box.w)
    return (*title, *_lines(type_, _said(made), "body", "ink", box.x, title[-1].box.bottom, box.w))


def _under(type_: Type, case: Case, box: Rect) -> tuple[tuple[Word, ...], Rect]:
    """What stands under a window: figures, the bar, and what the bar says."""
    words: list[Word] = []
    y = box.y
    for i, text in enumerate(_figures(case)):
        role = "strong" if i == 0 else "label"
        words += _lines(type_, text, role, "ink", box.x, y, box.w)
        y = words[-1].box.bottom
    bar = Rect(box.x, y + 0.4 * type_.line("label"), box.w, 0.4 * type_.line("label"))
    below = bar.bottom + 0.2 * type_.line("label")
    words += _lines(type_, f"{percent(case.solid)} solid", "label", "ink", box.x, below, box.w)
    return tuple(words), bar


def _draw_bar(page: pygame.Surface, bar: Rect, share: float, palette: Palette) -> None:
    box = pygame.Rect(round(bar.x), round(bar.y), round(bar.w), round(bar.h))
    pygame.draw.rect(page, palette.rule, box)
    pygame.draw.rect(page, palette.path, (box.x, box.y, round(box.w * share), box.h))
    pygame.draw.rect(page, palette.ink, box, 1)


# ---- words


def _lean(case: Case) -> str:
    return f"{angle_words(case.extra, signed=True)} lean" if case.extra > 0 else "Lean as set"


def _figures(case: Case) -> tuple[str, ...]:
    k, ground = case.shot.strike, ground_of(case.shot.course)
    if k.contact is Contact.MISSED:
        return (
            f"{k.turf.value}, {case.shot.run.outcome.value}",
            f"{k.depth * 1e3:.1f} mm into the {ground}",
        )
    return (
        f"{k.contact.value}: {percent(case.kept)} of its distance",
        f"{k.turf.value}, {k.depth * 1e3:.1f} mm deep; {percent(case.lost)} of the speed lost",
        f"loft {angle_words(k.loft)}, bounce {angle_words(k.bounce)} at impact",
        _leave(case.shot),
    )


def _leave(shot: Shot) -> str:
    hole, run = shot.course.hole, shot.run
    if run.outcome is not Outcome.REST:
        return run.outcome.value
    if hole is None:
        return f"stops after {METRIC.far(run.rest)}"
    return f"leaves {METRIC.far(hypot(run.rest - hole.x, shot.lateral))}"


def _said(made: tuple[Case, ...]) -> str:
    """What the four windows show, from their own numbers."""
    first, last = made[0], made[-1]
    start = f"The sole arrives {first.low * 1e3:.0f} mm too low in every window: the same small mistake."
    if isnan(first.shot.strike.bounce) or isnan(last.shot.strike.bounce) or len(made) < 2:
        return start
    return (
        f"{start} With the lean as set, {_left(first)}. "
        f"With {angle_words(last.extra)} more, {_left(last)}. "
        f"Over many strokes the share that stays solid goes from {percent(first.solid)} to "
        f"{percent(last.solid)}."
    )


def _left(case: Case) -> str:
    """What bounce was left, what the sole did with it, and what the ball kept."""
    did = {TurfAction.DIG: "the leading edge digs", TurfAction.NONE: "the club never touches the ground"}
    return (
        f"bounce is {angle_words(case.shot.strike.bounce)}, "
        f"{did.get(case.shot.strike.turf, 'the sole slides')} "
        f"and the ball keeps {percent(case.kept)} of its distance"
    )


def _notes(strokes: int) -> str:
    return (
        f"Distance: about, against the same stroke with nothing in the way. Solid: within a quarter of it. "
        f"Speed: of the head, taken by the ground before the ball. Bars: solid strokes out of {strokes} of a "
        f"club player who aims as the chip was aimed. {PRESET_NOTE} {NOTE}"
    )
