"""The lines of a pupil's own answer as people read them, before anything is handed on."""

from datetime import date

from game.text.answered import short_day
from game.text.notebook import task_title
from game.text.units import METRIC, UnitSystem
from levels.attempts import Attempt

__all__ = [
    "ALSO_IN_IT", "ASKS_PARENT", "BEING_READ", "NOTHING_YET", "SELF_TOLD", "WRITTEN", "counted_lines",
    "limit_words", "line_words", "outside_line_words",
]  # fmt: skip

ALSO_IN_IT = (
    "Each line also holds the club, where every control stood and the number that repeats the stroke's "
    "chance, so that your coach can see the very shot. Days are in it, no times of the clock, and nothing of "
    "your machine."
)
ASKS_PARENT = "A parent or guardian reads this page with you and writes the file."
BEING_READ = "Your lines are being read."
NOTHING_YET = "You have played nothing of this assignment yet: open one of its scenarios first."
SELF_TOLD = "You count these yourself; your coach reads them as told by you."
WRITTEN = "Your answer is in {file}; send that file to your coach."
_PARTS = {
    "blocked": "again and again",
    "serial": "in turn",
    "mixed": "mixed",
    "review": "review",
    "test": "test",
}


def line_words(one: Attempt, units: UnitSystem = METRIC) -> str:
    """What a line says of an attempt: day, task, how it went."""
    told = ["goal met" if one.result.met else "goal missed"]
    told.append("solid" if one.result.solid else "not solid")
    if one.stop_gap is not None:
        way = "beyond" if one.stop_gap >= 0.0 else "short of"
        told.append(f"{units.near(abs(one.stop_gap))} {way} the prediction")
    if one.cause:
        told.append("cause named right" if one.cause.right else "cause named wrongly")
    if one.hints:
        told.append("one hint" if one.hints == 1 else f"{one.hints} hints")
    if one.part:
        told.append(_PARTS[one.part])
    if one.passed:
        told.append("passed")
    return f"{short_day(one.day)}, {task_title(one.task.title or one.task.name)}: {', '.join(told)}"


def outside_line_words(day: date, shots: int, came_off: int) -> str:
    """A drill outside as the pupil tells it."""
    return f"{short_day(day)}, outside: {came_off} of {shots} came off"


def counted_lines(kept: int, struck: int) -> str:
    """How much will be in the file."""
    lines = f"{kept} {'line goes' if kept == 1 else 'lines go'} into the file"
    return f"{lines}, {struck} struck out." if struck else f"{lines}."


def limit_words(beyond: int, most: int, what: str = "lines") -> str:
    """Why the oldest are struck, where there are so many more than a file holds; "" where there are not.

    >>> limit_words(412, 3000)
    'The file holds 3000 lines at most: the oldest 412 are struck out. To take one in, strike another.'
    """
    if beyond <= 0:
        return ""
    oldest = "the oldest one is" if beyond == 1 else f"the oldest {beyond} are"
    return f"The file holds {most} {what} at most: {oldest} struck out. To take one in, strike another."
