"""The notebook in sentences: an attempt, a field of the map, the plan of a day."""

from collections.abc import Sequence
from datetime import date, timedelta
from math import inf

from game.text.quantity import decimal, plural, significant
from game.text.units import METRIC, UnitSystem
from levels.attempts import Attempt
from levels.intervals import Estimate
from levels.practice import BLOCK, REVIEW_DAYS, REVIEW_EVERY, Rhythm
from levels.strengths import ENOUGH, Strength
from physics.results import Outcome
from physics.surfaces import SURFACES

__all__ = [
    "EMPTY_HISTORY",
    "EMPTY_MAP",
    "LAW_CHANGED",
    "MAP_LEGEND",
    "MAP_LEGEND_JUNIOR",
    "NOT_SKILL",
    "UNREADABLE",
    "attempt_lines",
    "attempt_title",
    "attempts_told",
    "day_heading",
    "field_title",
    "lie_words",
    "map_words",
    "nudge_words",
    "part_title",
    "planned_words",
    "strength_words",
    "task_title",
    "why_words",
]  # fmt: skip

CLUB = "Harrow Fen: "
NOT_SKILL = "These are numbers of simulated shots with a preset's spread, not of your skill on grass."
EMPTY_HISTORY = (
    "Every shot you play on the Bench or in a scenario comes here by itself, with a small picture, what you "
    "predicted and why it went as it did. Play one, and from there a map of your shots and a plan grow."
)
UNREADABLE = "Nothing of it can be read here now; mending looks for every sound row."
EMPTY_MAP = (
    "Here grows a map of the shots you play: from which lie, how high, how far, and how they come off. "
    f"From {ENOUGH} tries of a kind it says which to seek and which to be careful with."
)
_ARCS = "Each arc is a kind of shot: low, standard, high. The thicker, the more tries. "
_SIGNS = "Diamond: seek it. Triangle: be careful. Broken: too few tries to say."
MAP_LEGEND_JUNIOR = f"{_ARCS}{_SIGNS}"
MAP_LEGEND = (
    f"{_ARCS}{_SIGNS} In the earth below: strokes to hole out, from 1 at the left of each stretch to 4 at "
    "its right, with their range; the fine lines are 2 and 3."
)
LAW_CHANGED = "A law has changed since that shot: it comes out otherwise now than it is written down."
_STRIKES = {
    "solid": "Solid", "fat": "Fat", "thin": "Thin", "weak": "Off the face weakly", "twice": "Met twice",
    "missed": "Missed the ball",
}  # fmt: skip
_ENDS = {
    Outcome.HOLED: "in the hole", Outcome.WATER: "in the water", Outcome.OUT: "out of bounds",
    Outcome.MISSED: "the ball lies where it lay", Outcome.STUCK: "stuck in the turf",
    Outcome.LOST: "still rolling after two minutes",
}  # fmt: skip
_PARTS = {
    "blocked": "one thing again and again", "serial": "in turn", "mixed": "mixed",
    "review": "review: is it still there?",
}  # fmt: skip
_NEAR = ((1.0, "close to the hole"), (3.0, "near the hole"), (inf, "far from the hole"))  # m, assumed
TRUE_CALL = 1.0  # m a prediction may be off and still have come true for a junior, assumed
_SHORT = {"blocked": "in a row", "serial": "in turn", "mixed": "mixed", "review": "review"}
_TURNS = ("first", "again", "once more")  # of REVIEW_DAYS
_WHY = {
    "blocked": f"{BLOCK} shots in a row show what it asks.",
    "serial": "In turn with the others, so that every stroke is thought anew.",
    "mixed": "In no order, as on a course: every shot is chosen afresh.",
}
_ADVICE = {
    "seek": "Seek it: it costs fewer strokes than your other shots from there.",
    "careful": "Be careful with it: it costs more strokes than your other shots from there.",
    "": "Neither to seek nor to be careful with, as far as this can tell.",
}
_SOLID = (  # share of solid strikes, assumed steps
    (0.8, "Nearly all come off solid."), (0.5, "More than half come off solid."),
    (0.0, "Few come off solid."),
)  # fmt: skip


# ---- an attempt


def attempts_told(count: int) -> str:
    """How many attempts the notebook holds.

    >>> attempts_told(1), attempts_told(40)
    ('1 shot is written down.', '40 shots are written down.')
    """
    return f"{plural(str(count), 'shot')} {'is' if count == 1 else 'are'} written down."


def attempt_title(one: Attempt) -> str:
    """What was played, on ground where the club's name goes without saying."""
    if one.task.title:
        return task_title(one.task.title)
    away = "" if one.distance is None else f", {METRIC.far(one.distance)} to the hole"
    return f"Bench, from {lie_words(one.lie)}{away}"


def task_title(title: str) -> str:
    """A scenario's title where the club's name goes without saying."""
    name = title.removeprefix(CLUB)
    return name[:1].upper() + name[1:]


def attempt_lines(one: Attempt, units: UnitSystem = METRIC, numbers: bool = True) -> tuple[str, ...]:
    """How it was struck and where it ended, the prediction beside it, and the cause that was named."""
    told = (_ended(one, units, numbers), _called(one, units, numbers), _cause(one))
    return tuple(line for line in told if line)


def _ended(one: Attempt, units: UnitSystem, numbers: bool) -> str:
    told = _STRIKES.get(one.result.strike, one.result.strike.capitalize())
    leave = one.result.leave
    if end := _ENDS.get(Outcome(one.result.outcome)):
        told = f"{told}, {end}"
    elif leave is not None:
        told = f"{told}, {units.near(leave)} from the hole" if numbers else f"{told}, {_near(leave)}"
    else:
        told = f"{told}, stopped at {units.far(one.result.rest)}"
    worth = (
        "" if one.result.met is None else "; the goal is met" if one.result.met else "; the goal is missed"
    )
    return f"{told}{worth}."


def _called(one: Attempt, units: UnitSystem, numbers: bool) -> str:
    call, out = one.call, []
    if call is None:
        return ""
    if not numbers:
        gaps = [abs(g) for g in (one.stop_gap, _landing_gap(one)) if g is not None]
        came = all(gap <= TRUE_CALL for gap in gaps) and one.strike_right is not False
        return "Your prediction came true." if came else "Your prediction was off."
    if call.landing is not None:
        was = "never landed" if one.result.carry is None else f"was {units.far(one.result.carry)}"
        out.append(f"landing {units.far(call.landing)}, {was}")
    if call.stop is not None:
        out.append(f"stop {units.far(call.stop)}, was {units.far(one.result.rest)}")
    if call.strike is not None:
        out.append(f"{call.strike}, {'right' if one.strike_right else 'not so'}")
    return f"Predicted: {'; '.join(out)}."


def _landing_gap(one: Attempt) -> float | None:
    """How far (m) beyond the call it landed; endless where it never did, None where nothing was called."""
    if one.call is None or one.call.landing is None:
        return None
    return inf if one.result.carry is None else one.result.carry - one.call.landing


def _near(leave: float) -> str:
    """How far from the hole, for juniors."""
    return next(words for most, words in _NEAR if leave <= most)


def _cause(one: Attempt) -> str:
    if one.cause is None:
        return ""
    return "Cause named: right." if one.cause.right else f"Cause named wrongly; it was: {one.cause.true}"


def lie_words(name: str) -> str:
    """A lie as people say it."""
    return SURFACES[name].label if name in SURFACES else name


def day_heading(day: date, today: date) -> str:
    """A day as people say it."""
    near = {today: "Today, ", today - timedelta(days=1): "Yesterday, "}.get(day, "")
    year = "" if day.year == today.year else f" {day.year}"
    return f"{near}{day:%A} {day.day} {day:%B}{year}"


# ---- the map


def field_title(field: Strength, units: UnitSystem = METRIC) -> str:
    """A field of the map by name."""
    low, high = field.place.band
    near, end = (significant(metres * units.far_scale) for metres in (low, high))
    away = f"beyond {near}" if high > 100.0 else f"{near} to {end}"
    away = f"{away} {units.far_unit}"
    return f"From {lie_words(field.place.lie)}, {field.place.family} shot, {away}"


def strength_words(field: Strength, units: UnitSystem = METRIC, numbers: bool = True) -> str:
    """What a field of the map says, with how surely; a sentence a line."""
    tries = f"{field.tries} {'try' if field.tries == 1 else 'tries'}"
    few = f"{tries} of {ENOUGH}: too little to say yet."
    told = [few if field.advice == "too little" else f"{_ADVICE[field.advice]} {tries}."]
    if not numbers:
        share = field.solid.value if field.solid and field.advice != "too little" else None
        return "\n".join(told if share is None else [*told, next(w for least, w in _SOLID if share >= least)])
    if field.strokes:
        told.append(f"Strokes to hole out: {_range(field.strokes, 2, 1.0)}.")
    if field.solid:
        s = field.solid
        told.append(f"Solid: {100 * s.value:.0f} % ({100 * s.low:.0f} to {100 * s.high:.0f}).")
    if field.gap:
        g = field.gap
        span = f"{units.near(max(g.low, 0.0))} to {units.near(g.high)}"
        told.append(f"Predictions were {units.near(g.value)} off ({span}; {g.count} predicted).")
    return "\n".join([*told, "In brackets: the range it lies in, 95 times out of 100."])


def map_words(fields: Sequence[Strength], units: UnitSystem = METRIC) -> str:
    """What stands out over the whole map, and how much of it is not known yet."""
    out = []
    for advice, title in (("seek", "To seek"), ("careful", "Careful with")):
        if named := [field_title(one, units) for one in fields if one.advice == advice]:
            out.append(f"{title}: {'; '.join(name[:1].lower() + name[1:] for name in named)}.")
    if not out:
        out.append("Nothing stands out yet.")
    if few := sum(one.advice == "too little" for one in fields):
        out.append(f"Too few tries in {few} of {len(fields)} arcs.")
    return "\n".join(out)


def _range(found: Estimate, places: int, least: float) -> str:
    low, high = decimal(max(found.low, least), places), decimal(found.high, places)
    return f"{decimal(found.value, places)} ({low} to {high})"


# ---- the plan


def planned_words(part: str, step: int) -> str:
    """Why this shot now, and how hard it is set."""
    hard = {-2: "much wider goal", -1: "wider goal", 1: "narrower goal", 2: "much narrower goal"}.get(step)
    told = _PARTS.get(part, part)
    return f"{told}, {hard}" if hard else told


def why_words(part: str, stage: int = 0, ago: int | None = None, tries: int = 0, passed: bool = False) -> str:
    """Why a shot is next, in a sentence or two. For a review: how many went well since the task was passed,
    and how many days ago that was. For what is played in a row: how often it was tried before, and whether
    it is passed by now."""
    if part == "blocked":
        return f"{_stands(tries, passed)} {_WHY[part]}"
    if part != "review":
        return _WHY[part]
    once = "You passed it" if ago is None else f"You passed it {ago} day{'' if ago == 1 else 's'} ago"
    if stage < len(REVIEW_DAYS):
        return f"{once}; it comes back {_TURNS[stage]} after {REVIEW_DAYS[stage]} days, so that it stays."
    return f"{once}; by now it comes back every {REVIEW_EVERY} days."


def _stands(tries: int, passed: bool) -> str:
    """How a task of the drill stands."""
    if passed:
        return "It is passed by now."
    if not tries:
        return "It is new."
    return f"You have tried it {'once' if tries == 1 else f'{tries} times'} and not passed it yet."


def part_title(part: str) -> str:
    """A part of practice in a word or two."""
    return _SHORT[part]


def nudge_words(rhythm: Rhythm) -> str:
    """The proposal of a rest."""
    return f"You have practised for {rhythm.minutes} minutes and more: a rest would do now."
