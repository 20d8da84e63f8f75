"""A pupil's answer in sentences for the coach: what was tried and how it went, what was planned and done."""

from datetime import date

from game.text.notebook import task_title
from game.text.units import METRIC, UnitSystem
from levels.answers import AnswerFile
from levels.intervals import Estimate
from levels.review import Review, TaskReview
from physics.address import CONTROLS

__all__ = [
    "HONEST", "MARKS_LEGEND", "error_name", "error_words", "filled_words", "gone_wrong_words", "next_words",
    "outside_words", "plan_done_words", "reviewed_heading", "short_day", "short_days",
    "shown_error_words", "task_words", "waiting_words",
]  # fmt: skip

MARKS_LEGEND = (
    "A mark a try, over its day; filled when the goal was met. Enter or a click on a task shows the shot "
    "with the set-up that is named."
)
HONEST = "Simulated shots with a preset's spread: no measure of skill. Nobody is ranked."


def _days(count: int) -> str:
    return f"{count} {'day' if count == 1 else 'days'}"


def short_day(day: date) -> str:
    """A day as it fits under a mark."""
    return f"{day.day} {day:%b}"


def short_days(days: tuple[date, ...], most: int = 6) -> str:
    """Days after each other; of many the first and the last ones."""
    if len(days) > most:
        return f"{short_day(days[0])} to {short_day(days[-1])}, {len(days)} days"
    return ", ".join(short_day(day) for day in days)


def reviewed_heading(found: Review) -> str:
    """Who practised how much."""
    shots = f"{found.shots_done} {'shot' if found.shots_done == 1 else 'shots'}"
    return f"{found.pupil}: {shots} on {_days(len(found.days))}"


def task_words(task: TaskReview, units: UnitSystem = METRIC) -> tuple[str, ...]:
    """How one task went, a sentence or two a line. The set-up is said by `error_words`."""
    if not task.tries:
        return ("Not tried.",)
    tries = f"{task.tries} {'try' if task.tries == 1 else 'tries'} on {_days(task.days)}"
    met = f", goal met in {_good(task.met)}" if task.met else ""
    stands = "passed" if task.passed else "not passed yet"
    flag = f"; it looks {task.flag}" if task.flag else ""
    out = [f"{tries}{met}; {stands}{flag}."]
    told = []
    if task.first_gap is not None and task.last_gap is not None:
        gaps = f"{units.near(task.first_gap)} off at first, {units.near(task.last_gap)} at last"
        told.append(f"Predictions {gaps}.")
    if task.causes_asked:
        told.append(f"Cause named right {task.causes_right} of {task.causes_asked} times.")
    if told:
        out.append(" ".join(told))
    if task.first_test:
        again = f"retest {_good(task.retest)}" if task.retest else "no retest yet"
        out.append(f"First test {_good(task.first_test)}, {again}.")
    if task.changed:
        out.append("Some shots were at another version of this scenario.")
    return tuple(out)


def error_name(task: TaskReview) -> str:
    """The set-up error that came most often with a miss; "" where none stands out."""
    if task.error is None:
        return ""
    way = "more" if task.error.way > 0 else "less"
    return f"{CONTROLS[task.error.control].label}, {way} than in the coach's set-up"


def error_words(task: TaskReview) -> str:
    """That error, and how often it came; "" where none stands out."""
    if task.error is None:
        return ""
    count, missed = task.error.count, task.error.missed
    often = "In the one miss" if missed == 1 else f"In {count} of {missed} misses"
    return f"{often}: {error_name(task)}."


def shown_error_words(pupil: str, task: TaskReview) -> str:
    """What a shot that is shown for that error is an example of."""
    return f"{pupil}, {task_title(task.title)}. {error_words(task)}"


def _good(found: Estimate | None) -> str:
    return "none" if found is None else f"{round(found.value * found.count)} of {found.count}"


def plan_done_words(found: Review) -> tuple[tuple[str, str], ...]:
    """What was planned, and what was done: a term and its words each."""
    out = [("Practised", short_days(found.days) or "on no day")]
    if found.shots_planned is not None:
        often = {0: "on no day", 1: "on one day"}.get(found.drill_days, f"on {found.drill_days} days")
        out.append(("Drill", f"{found.shots_planned} shots planned; that many {often}"))
        done = f"done {short_day(found.retest_done)}" if found.retest_done else "not done yet"
        planned = short_day(found.retest_planned) if found.retest_planned else "none"
        out.append(("Retest", f"planned {planned}; {done}"))
    out.append(("Outside", outside_words(found.outside)))
    if found.strangers:
        out.append(("Unknown", f"the answer has {', '.join(found.strangers)}, which this pack has not"))
    return tuple(out)


def outside_words(told: tuple[tuple[date, int, int], ...]) -> str:
    """Drills outside, as they were told: nobody measured them."""
    if not told:
        return "nothing told"
    each = "; ".join(f"{short_day(day)}, {good} of {shots}" for day, shots, good in told[-4:])
    return f"{each} came off, as the player tells it"


def next_words(titles: tuple[str, ...]) -> str:
    """Tasks of the next assignment by title."""
    return "; ".join(task_title(title) for title in titles) or "nothing"


def filled_words(answer: AnswerFile) -> str:
    """What to know of an assignment that was filled in."""
    return f"Filled in from the answer of {answer.pupil}; change what you like, then write it."


def waiting_words(answer: AnswerFile) -> tuple[str, str]:
    """That the assignment is not at hand, and how to give it."""
    return (
        f"{answer.pupil} answers an assignment that is not among your packs",
        f"Its id is {answer.assignment}. Drop the pack on this window too, or copy its file name and "
        "press Ctrl+V.",
    )


def gone_wrong_words(wanted: str, other: str) -> str:
    """That another pack was given."""
    own = f"has the id {other}" if other else "asks for no answer"
    return f"That pack {own}; the answer needs the one with the id {wanted}."
