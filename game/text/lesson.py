"""Lessons in words: titles, what each case did, and what its numbers show on every lie."""

from math import isnan, radians

from game.text.quantity import angle_words, percent
from game.text.units import METRIC, UnitSystem
from levels.lessons import LessonCase, OnLie, PlayedLesson
from physics.cause import ground_of
from physics.results import Contact, Outcome, Shot, TurfAction
from physics.surfaces import SURFACES

__all__ = [
    "BUTTONS",
    "COUNTING",
    "TITLES",
    "angle_name",
    "case_name",
    "did_words",
    "lesson_told",
    "lies_words",
    "measure_word",
    "shares_later",
    "shares_words",
    "shown_words",
    "stop_words",
    "turf_did",
]  # fmt: skip

TITLES = {
    "lean": "Why excess lean digs",
    "release": "Head past the hands too early",
    "bounce": "Bounce saves you",
}
BUTTONS = {"lean": "Why lean digs", "release": "Head too early", "bounce": "Bounce saves"}
NAMES = {
    "matched": "Lean as set", "forward": "Handle further forward",
    "held": "Ball back, head held", "early": "Ball back, head released",
    "moved": "Ball forward, head released",
    "much": "Much bounce", "little": "Little bounce",
}  # fmt: skip
SHOWS_LOSS = {
    "lean": "The extra lean costs", "release": "The early head costs", "bounce": "Less bounce costs",
}  # fmt: skip
SMALL = radians(0.5)
COUNTING = "How often it comes off is being counted \N{HORIZONTAL ELLIPSIS}"
FEW_OR_MANY = (
    (0.85, "nearly all are"), (0.6, "most are"), (0.4, "about half are"), (0.1, "few are"),
    (0.0, "hardly any is"),
)  # fmt: skip


def case_name(made: PlayedLesson, case: LessonCase, numbers: bool = True) -> str:
    """What sets the case apart: `9° further forward`."""
    if numbers and case.name == "forward":
        more = case.motion.lean_change - made.cases[0].motion.lean_change
        return f"Handle {angle_words(more)} further forward"
    if numbers and case.name in ("much", "little"):
        return f"{angle_words(case.setup.club.bounce)} of bounce"
    return NAMES[case.name]


def measure_word(made: PlayedLesson) -> str:
    """What the strokes of the table are counted by."""
    return "as set" if made.by_promise else "solid"


def shares_words(case: LessonCase, numbers: bool = True) -> str:
    """How often the player's own strokes of the case come off, or that they are being counted."""
    if case.solid is None or case.as_set is None:
        return COUNTING
    if not numbers:
        return _of_many(next(words for least, words in FEW_OR_MANY if case.solid.value >= least))
    return _of_100(case.solid.of_100, case.as_set.of_100)


def shares_later(numbers: bool = True) -> tuple[str, ...]:
    """The longest that `shares_words` may come to be."""
    return (_of_100(100, 100),) if numbers else tuple(_of_many(words) for _, words in FEW_OR_MANY)


def _of_many(how_many: str) -> str:
    return f"Of many such strokes {how_many} solid."


def _of_100(solid: int, as_set: int) -> str:
    return f"{solid} of 100 solid, {as_set} of 100 as set."


def did_words(case: LessonCase, numbers: bool = True) -> str:
    """What the sole did and what the ball kept of what its own loft at impact would give unspoilt: more lean
    means less loft and a longer ball, so two cases may stop near each other and be worlds apart."""
    strike = case.shot.strike
    if strike.contact is Contact.MISSED:
        return f"{turf_did(case.shot)}, the ball is missed"
    if not numbers:
        return f"{turf_did(case.shot)}: {_junior_ball(case)}"
    verb = "keeps" if case.kept <= 1.0 else "goes"
    kept = f"the ball {verb} {percent(case.kept)} of the distance its loft gives"
    return f"{turf_did(case.shot)}, {strike.contact.value}: {kept}"


def _junior_ball(case: LessonCase) -> str:
    if case.shot.strike.solid:
        return "a good strike"
    return "too short" if case.kept < 1.0 else "too long"


def turf_did(shot: Shot) -> str:
    """What the club did in the ground: `the leading edge digs`."""
    ground = ground_of(shot.course)
    if ground == "sand":
        return f"the club {'digs through' if shot.strike.turf is TurfAction.DIG else 'slides over'} the sand"
    return {
        TurfAction.DIG: "the leading edge digs", TurfAction.NONE: f"the club never touches the {ground}",
        TurfAction.BRUSH: "the sole brushes", TurfAction.SKID: "the sole slides",
    }[shot.strike.turf]  # fmt: skip


_ENDS = {
    Outcome.HOLED: "drops into the hole", Outcome.WATER: "ends in the water",
    Outcome.OUT: "ends out of bounds", Outcome.MISSED: "stays where it lay",
    Outcome.STUCK: "stays in the turf", Outcome.LOST: "is still moving after two minutes",
}  # fmt: skip


def stop_words(shot: Shot, units: UnitSystem = METRIC) -> str:
    """Where the ball ends, as what it does: `stops after 2.6 m`, `drops into the hole`."""
    return _ENDS.get(shot.run.outcome) or f"stops after {units.far(shot.run.rest)}"


def angle_name(word: str, angle: float, numbers: bool = True) -> str:
    """`bounce 5°`, and only `bounce` without numbers."""
    return f"{word} {angle_words(angle)}" if numbers and not isnan(angle) else word


def lesson_told(made: PlayedLesson, units: UnitSystem = METRIC, numbers: bool = True) -> tuple[str, ...]:
    """The lesson in sentences, each from its own numbers: mistake, first and second case, every lie."""
    first, last = made.cases[0], made.cases[1]
    stands = "" if made.forgiven else f" Even {_lower(case_name(made, first, numbers))} cannot stand it."
    if numbers:
        mistake = f"The sole arrives {made.low * 1e3:.0f} mm too low each time: one small mistake.{stands}"
    else:
        mistake = f"The club comes in a little too low each time.{stands}"
    out = [mistake]
    for case in (first, last):
        where = "" if case.shot.strike.contact is Contact.MISSED else f" and {stop_words(case.shot, units)}"
        out.append(
            f"{case_name(made, case, numbers)}: {_angles(made, case, numbers)}{did_words(case, numbers)}"
            f"{where if numbers else ''}."
        )
    return (*out, *shown_words(made, numbers))


def _angles(made: PlayedLesson, case: LessonCase, numbers: bool) -> str:
    strike = case.shot.strike
    if not numbers or isnan(strike.bounce):
        return ""
    lean = f"{angle_name('lean', strike.lean)}, " if made.name != "bounce" else ""
    return f"{lean}{angle_name('bounce', strike.bounce)} at impact, "


def shown_words(made: PlayedLesson, numbers: bool = True) -> tuple[str, ...]:
    """What the shares of every lie show: where the second case costs most and least, and where it gains."""
    if len(made.table) < 2:
        return ()
    out = []
    names = " to ".join(_lower(case_name(made, c, numbers)) for c in made.cases[:2])
    if made.worst:
        out.append(f"{SHOWS_LOSS[made.name]} most on {_change(made, made.worst, numbers)}")
    else:
        out.append(f"On no lie does it cost for sure, from {names}")
    if made.hidden:
        verb = "hardly shows on" if abs(made.hidden.fall) <= 2.0 * made.hidden.error else "shows least on"
        out.append(f"It {verb} {_change(made, made.hidden, numbers)}")
    if made.turned:
        lies = [_change(made, row, numbers) for row in made.turned]
        better = _lower(case_name(made, made.cases[1], numbers))
        out.append(f"{better[:1].upper()}{better[1:]} does better on {_listed(lies)}")
    return tuple(f"{sentence}." for sentence in out)


def lies_words(made: PlayedLesson, numbers: bool = True) -> tuple[str, ...]:
    """What the lies show once all are counted; until then, in one line, how many are."""
    if made.whole:
        return shown_words(made, numbers)
    so_far = f": {len(made.table)} of {len(made.lies)}" if numbers else ""
    return (f"Every lie is being counted{so_far} \N{HORIZONTAL ELLIPSIS}",)


def _change(made: PlayedLesson, row: OnLie, numbers: bool) -> str:
    label = SURFACES[row.lie].label
    if not numbers:
        return label
    first, second = row.measured(made.by_promise)[:2]
    return f"{label} ({first.of_100} of 100 {measure_word(made)} become {second.of_100})"


def _listed(parts: list[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]
