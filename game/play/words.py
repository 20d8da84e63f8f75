"""What the loop says: short and without numbers for a junior until asked, with lengths for the others."""

from collections.abc import Sequence

from game.play.round import Round, Step, goal_count
from game.play.tally import Tally
from game.text.goals import task_sentences
from game.text.units import system_of
from game.text.verdict import gap_sentences, goal_clause, stop_sentence
from levels.scenario import Scenario
from levels.scoring import Verdict
from levels.teaching import Goal
from physics.equipment import FLAGSTICK
from physics.results import Outcome

__all__ = [
    "NO_PREDICTION", "SAND_WORDS", "STRIKE_WORDS", "gap_lines", "goal_tally", "hint_label", "hint_line",
    "how_it_went", "result_lines", "step_heading", "target_of", "task_lines", "to_call", "why_line",
]  # fmt: skip

CLOSE = 0.5  # m from the hole that is close, as in physics.cause
STRIKE_WORDS = {  # at most 12 short words each
    "solid": "The ball goes as far as the swing sends it.",
    "fat": "The club digs or drags before it meets the ball.",
    "thin": "The edge meets the ball, low and fast.",
}
SAND_WORDS = {
    "solid": "The sand lifts the ball out.",
    "fat": "Too much sand stops the ball short.",
    "thin": "Too little sand: the ball comes out low and fast.",
}
MISSING = {"landing": "where the ball lands", "stop": "where it stops", "strike": "how it is struck"}
NO_PREDICTION = "No prediction this time."
_HEADINGS = {
    Step.CARD: ("Your task", "Your task"),
    Step.EXAMPLE: ("One way to do it", "Watch this one first"),
    Step.SET: ("Set it up", "Set it up"),
    Step.CALL: ("Predict the shot", "What will happen?"),
    Step.PLAY: ("The shot", "Watch the club, then the ball"),
    Step.RESULT: ("The result", "How it went"),
}  # fmt: skip


def target_of(scenario: Scenario) -> float:
    """Metres about the hole in which strokes count: what the task asks, else the height of a flagstick."""
    return scenario.goal.leave_m or FLAGSTICK.height


def step_heading(step: Step, junior: bool) -> str:
    """The line over the card."""
    return _HEADINGS[step][int(junior)]


def task_lines(goal: Goal, junior: bool, numbers: bool = True, yards: bool = False) -> tuple[str, ...]:
    """What has to be done."""
    return task_sentences(goal, system_of(yards), numbers or not junior)


def hint_line(number: int, words: str, numbers: bool = True) -> str:
    """A hint as it is told; `number` counts from 1."""
    return f"Hint {number}. {words}" if numbers else f"Hint: {words}"


def hint_label(shown: int, total: int, numbers: bool = True) -> str:
    """What the button for the next hint says, once so many are shown."""
    if numbers:
        return f"Hint {shown + 1} of {total}"
    return "Last hint" if shown and shown + 1 == total else "Another hint" if shown else "A hint"


_COUNTS = (
    "none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip


def goal_tally(goal: Goal, results: Sequence[bool], numbers: bool = True) -> Tally:
    """How far the goal is, and the same in words; counts in letters where numbers are not shown."""
    made = goal_count(goal, results)
    told = f"{_count(made.good, numbers)} of {_count(made.wanted, numbers)}"
    if made.in_a_row:
        told += ", in a row"
    elif made.shots > made.wanted:
        told += f", in the last {_count(made.shots, numbers)} shots"
    return Tally(made.marks, told if numbers else told.capitalize())


def _count(number: int, numbers: bool) -> str:
    return str(number) if numbers else _COUNTS[number]


def gap_lines(r: Round, numbers: bool = True, yards: bool = False) -> tuple[str, ...]:
    """Called against what happened, or that nothing was called."""
    if r.gap is None:
        return (NO_PREDICTION,) if r.uncalled else ()
    return gap_sentences(r.gap, system_of(yards), numbers or not r.junior)


def to_call(unset: Sequence[str]) -> str:
    """What is still to be predicted, in a sentence that names the way without."""
    told = [MISSING[what] for what in unset]
    listed = " and ".join(([", ".join(told[:-1])] if told[:-1] else []) + told[-1:])
    return f"Predict {listed}, or press S to play without."


def how_it_went(r: Round) -> str:
    """What the shot did for the task, in a word or two."""
    if r.verdict and r.verdict.met:
        return "Solved" if r.done else "Goal met"
    return "Not this time" if r.done else "Not yet"


_GOALS = {
    "land_between_m": "Landing", "must_clear": "Height", "ceiling_m": "Ceiling", "strike": "Strike",
    "match_deg": "Handle",
}  # fmt: skip


def result_lines(
    r: Round, verdict: Verdict, numbers: bool = True, yards: bool = False
) -> tuple[str, ...]:  # fmt: skip
    """What the shot was worth: each goal, and where it ended."""
    if r.junior and not numbers:
        return (_junior_end(verdict),)
    units = system_of(yards)
    goals = tuple(
        f"{_GOALS[mark.kind]} {'done' if mark.met else 'not yet'}: {goal_clause(mark, verdict, units)}"
        for mark in verdict.goals if mark.kind != "leave_m"
    )  # fmt: skip
    return (*goals, stop_sentence(verdict, units))


def _junior_end(verdict: Verdict) -> str:
    match verdict.outcome:
        case Outcome.HOLED:
            return "The ball is in the hole!"
        case Outcome.WATER:
            return "The ball went into the water."
        case Outcome.OUT:
            return "The ball went out of bounds."
        case Outcome.LOST:
            return "The ball never stopped."
    if verdict.leave <= CLOSE:
        return "The ball stopped close to the hole."
    return "The ball went past the hole." if verdict.past > 0.0 else "The ball stopped short of the hole."


def why_line(right: bool, words: str, of_the_shot: bool = True) -> str:
    """What is said once a cause is picked; `words` are the right one. Nothing is marked wrong: the shot is
    asked where the question is about it, else the cause is told."""
    if right:
        return "Yes, that is what the shot shows." if of_the_shot else "Yes, that is the cause."
    return f"The shot shows another cause. {words}" if of_the_shot else f"There is another cause. {words}"
