"""The notebook in sentences: an attempt, a field of the map, the plan of a day."""

from datetime import date, timedelta

from game.text.quantity import decimal
from game.text.units import METRIC, UnitSystem
from levels.attempts import Attempt
from levels.intervals import Estimate
from levels.practice import Rhythm
from levels.strengths import ENOUGH, Strength
from physics.results import Outcome
from physics.surfaces import SURFACES

__all__ = [
    "EMPTY_HISTORY",
    "EMPTY_MAP",
    "LAW_CHANGED",
    "MAP_LEGEND",
    "NOT_SKILL",
    "attempt_lines",
    "attempt_title",
    "day_heading",
    "field_title",
    "nudge_words",
    "planned_words",
    "strength_words",
    "task_title",
]  # fmt: skip

CLUB = "Harrow Fen: "
NOT_SKILL = "These are numbers of simulated shots with a preset's spread, not of your skill on grass."
EMPTY_HISTORY = (
    "Nothing is written down yet. Every shot you play on the Bench or in a scenario comes here by itself, "
    "with what you predicted and why it went as it did, and can be seen again on the Bench."
)
EMPTY_MAP = (
    "Here grows a map of the shots you play: from which lie, how high, how far, and how they come off. "
    f"From {ENOUGH} tries of a kind it says which to seek and which to be careful with."
)
MAP_LEGEND = (
    "Each arc is a kind of shot (low, standard, high); the thicker, the more tries. The bar below it is the "
    "strokes to hole out with their range: left is fewer. Disc: seek. Triangle: be careful. Broken line: too "
    "few tries to say."
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
_ADVICE = {
    "seek": "Seek it.",
    "careful": "Be careful with it.",
    "": "Neither to seek nor to be careful with.",
}


# ---- an attempt


def attempt_title(one: Attempt) -> str:
    """What was played, on ground where the club's name goes without saying."""
    if one.task.title:
        return task_title(one.task.title)
    away = "" if one.distance is None else f", {METRIC.far(one.distance)} to the hole"
    return f"Bench, from {_lie(one.lie)}{away}"


def task_title(title: str) -> str:
    """A scenario's title where the club's name goes without saying."""
    name = title.removeprefix(CLUB)
    return name[:1].upper() + name[1:]


def attempt_lines(one: Attempt, units: UnitSystem = METRIC, numbers: bool = True) -> tuple[str, ...]:
    """How it was struck and where it ended, the prediction beside it, and the cause that was named."""
    return tuple(line for line in (_ended(one, units, numbers), _called(one, units), _cause(one)) if line)


def _ended(one: Attempt, units: UnitSystem, numbers: bool) -> str:
    told = _STRIKES.get(one.result.strike, one.result.strike.capitalize())
    leave = one.result.leave
    if end := _ENDS.get(Outcome(one.result.outcome)):
        told = f"{told}, {end}"
    elif leave is not None:
        told = f"{told}, {units.near(leave)} from the hole" if numbers else told
    else:
        told = f"{told}, stopped at {units.far(one.result.rest)}"
    worth = (
        "" if one.result.met is None else "; the goal is met" if one.result.met else "; the goal is missed"
    )
    return f"{told}{worth}."


def _called(one: Attempt, units: UnitSystem) -> str:
    call, out = one.call, []
    if call is None:
        return ""
    if call.landing is not None:
        was = "never landed" if one.result.carry is None else f"was {units.far(one.result.carry)}"
        out.append(f"landing {units.far(call.landing)}, {was}")
    if call.stop is not None:
        out.append(f"stop {units.far(call.stop)}, was {units.far(one.result.rest)}")
    if call.strike is not None:
        out.append(f"{call.strike}, {'right' if one.strike_right else 'not so'}")
    return f"Predicted: {'; '.join(out)}."


def _cause(one: Attempt) -> str:
    if one.cause is None:
        return ""
    return "Cause named: right." if one.cause.right else f"Cause named wrongly; it was: {one.cause.true}"


def _lie(name: str) -> str:
    return SURFACES[name].label if name in SURFACES else name


def day_heading(day: date, today: date) -> str:
    """A day as people say it."""
    near = {today: "Today, ", today - timedelta(days=1): "Yesterday, "}.get(day, "")
    year = "" if day.year == today.year else f" {day.year}"
    return f"{near}{day:%A} {day.day} {day:%B}{year}"


# ---- the map


def field_title(field: Strength) -> str:
    """A field of the map by name."""
    low, high = field.place.band
    away = f"{decimal(low)} to {decimal(high)} m" if high < 100.0 else f"beyond {decimal(low)} m"
    return f"From {_lie(field.place.lie)}, {field.place.family} shot, {away}"


def strength_words(field: Strength, units: UnitSystem = METRIC) -> str:
    """What a field of the map says, with how surely."""
    tries = f"{field.tries} {'try' if field.tries == 1 else 'tries'}"
    if field.advice == "too little":
        return f"{tries} of {ENOUGH}: too little to say yet."
    told = [_ADVICE[field.advice], f"Over {tries}:"]
    if field.strokes:
        told.append(f"{_range(field.strokes, 2)} strokes to hole out,")
    if field.solid:
        s = field.solid
        told.append(f"{100 * s.value:.0f} % solid ({100 * s.low:.0f} to {100 * s.high:.0f}),")
    if field.gap:
        g = field.gap
        told.append(
            f"predictions {units.near(g.value)} off ({units.near(g.low)} to {units.near(g.high)}, "
            f"{g.count} predicted)."
        )
    else:
        told.append("nothing predicted.")
    return " ".join(told)


def _range(found: Estimate, places: int) -> str:
    return f"{decimal(found.value, places)} ({decimal(found.low, places)} to {decimal(found.high, places)})"


# ---- the plan


def planned_words(part: str, step: int) -> str:
    """Why this shot now, and how hard it is set."""
    hard = {-2: "much wider goal", -1: "wider goal", 1: "narrower goal", 2: "much narrower goal"}.get(step)
    told = _PARTS.get(part, part)
    return f"{told}, {hard}" if hard else told


def nudge_words(rhythm: Rhythm) -> str:
    """The proposal of a rest."""
    return f"You have practised for {rhythm.minutes} minutes and more: a rest would do now."
