"""What the loop says: short and without numbers for a junior until asked, with lengths for the others."""

from collections.abc import Sequence
from math import isnan

from game.play.round import Pips, Round, Step, pips
from levels.facts import goals_asked
from levels.scoring import Match, PredictionGap, Verdict, prediction_gap, tasks
from levels.teaching import Goal
from physics.results import Outcome

__all__ = [
    "SAND_WORDS", "STRIKE_WORDS", "gap_lines", "goal_pips", "hint_label", "hint_line", "lead", "match_lines",
    "result_lines", "stroke_lines", "task_lines", "why_line",
]  # fmt: skip

NEAR = 0.25  # m a junior's mark may be off and still count as there, assumed
CLOSE = 0.5  # m from the hole that is close, as in physics.cause
STRIKE_WORDS = {  # at most 12 short words each
    "dig": "The front edge cuts into the turf.",
    "brush": "The belly of the club skims the grass.",
    "thin": "The edge meets the ball, low and fast.",
}
SAND_WORDS = {
    "dig": "The front edge cuts deep into the sand.",
    "brush": "The club slides through the sand under the ball.",
    "thin": "The edge meets the ball, low and fast.",
}
_JUNIOR_TASKS = {
    "leave_m": "Stop the ball near the hole.",
    "land_between_m": "Land the ball on the right stretch.",
    "must_clear": "Fly the ball over the trouble.",
    "match_deg": "Bring the handle back where you set it.",
}
_JUNIOR_STRIKES = {
    "solid": "Meet the ball with the face.",
    "clean": "Meet the ball before the ground.",
    "brush": "Brush the grass and leave no mark.",
    "splash": "Let the sand carry the ball out.",
}
_LEADS = {
    Step.CARD: ("Your task", "Your task"),
    Step.EXAMPLE: ("One way to do it", "Watch this one first"),
    Step.SET: ("Set it up", "Set it up"),
    Step.CALL: ("Call the shot", "What will happen?"),
    Step.PLAY: ("The shot", "Watch the club, then the ball"),
    Step.GAP: ("Called and played", "Your call and the shot"),
    Step.WHY: ("Say why", "Why was it so?"),
    Step.VERDICT: ("What it was worth", "How it went"),
}  # fmt: skip


def lead(step: Step, junior: bool) -> str:
    """The line over the card."""
    return _LEADS[step][int(junior)]


def task_lines(goal: Goal, junior: bool, numbers: bool = True, yards: bool = False) -> tuple[str, ...]:
    """What has to be done."""
    if not junior or numbers:
        return tasks(goal, yards)
    told = [_JUNIOR_TASKS.get(kind) or _JUNIOR_STRIKES[goal.strike or "solid"] for kind in goals_asked(goal)]
    if goal.successes > 1:
        told.append("Do it more than once.")
    return tuple(told)


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


def goal_pips(goal: Goal, results: Sequence[bool], numbers: bool = True) -> Pips:
    """How far the goal is; counts in letters where numbers are not shown."""
    made = pips(goal, results)
    if numbers:
        return made
    words = [_COUNTS[int(w.strip(","))] + w[len(w.strip(",")) :] if w.strip(",").isdigit() else w
             for w in made.words.split()]  # fmt: skip
    return Pips(made.marks, " ".join(words).capitalize())


def gap_lines(r: Round, numbers: bool = True, yards: bool = False) -> tuple[str, ...]:
    """Called against what happened."""
    if r.shot is None or r.gap is None:
        return ()
    if not r.junior or numbers:
        return prediction_gap(r.call, r.shot, yards).words
    return _junior_gap(r.gap, r.call.landing is not None, r.call.stop is not None)


def _junior_gap(gap: PredictionGap, landing: bool, stop: bool) -> tuple[str, ...]:
    told = []
    for called, off, verb in ((landing, gap.landing, "landed"), (stop, gap.stop, "stopped")):
        if called and isnan(off):
            told.append(f"The ball never {verb}.")
        elif called and abs(off) <= NEAR:
            told.append(f"The ball {verb} on your mark.")
        elif called:
            told.append(f"The ball {verb} {'past' if off > 0 else 'short of'} your mark.")
    if gap.strike_called:
        same = gap.strike_right
        told.append("You saw the strike coming." if same else f"The club did not {_verb(gap.strike_called)}; "
                    f"it was a {gap.strike_was}.")  # fmt: skip
    return tuple(told)


def _verb(strike: str) -> str:
    return "catch it thin" if strike == "thin" else strike


_GOALS = {
    "land_between_m": "Landing", "must_clear": "Height", "strike": "Strike", "match_deg": "Handle",
}  # fmt: skip


def _small(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]


def result_lines(r: Round, verdict: Verdict, numbers: bool = True) -> tuple[str, ...]:
    """What the shot was worth: each goal, and where it ended."""
    if r.junior and not numbers:
        return (_junior_end(r, verdict),)
    goals = tuple(f"{_GOALS[mark.kind]} {'done' if mark.met else 'not yet'}: {_small(mark.told)}"
                  for mark in verdict.goals if mark.kind != "leave_m")  # fmt: skip
    return (*goals, verdict.words.split(". ")[0].rstrip(".") + ".")


def stroke_lines(verdict: Verdict, match: Match | None) -> tuple[str, ...]:
    """The shot and its set-up counted in strokes."""
    told = [part.rstrip(".") + "." for part in verdict.words.split(". ")[1:]]
    if match:
        many = f"Played many times this set-up takes {match.strokes:.2f} strokes on average"
        told.append(f"{many}." if isnan(match.best) else f"{many}; the coach's takes {match.best:.2f}.")
    return tuple(told)


def _junior_end(r: Round, verdict: Verdict) -> str:
    assert r.shot is not None
    match r.shot.run.outcome:
        case Outcome.HOLED:
            return "The ball is in the hole!"
        case Outcome.WATER:
            return "The ball went into the water."
        case Outcome.OUT | Outcome.LOST:
            return "The ball went too far away."
    if verdict.leave <= CLOSE:
        return "The ball stopped close to the hole."
    return "The ball rolled past the hole." if verdict.past > 0.0 else "The ball stopped short of the hole."


_LEAN = {
    "matched": "The handle came back where you set it.",
    "close": "The handle came back nearly where you set it.",
    "apart": "The handle came back away from where you set it.",
    "fighting itself": "Swing and set-up fought each other at the handle.",
    "not met": "The club never met the ball.",
}
_SHARES = (  # least share of the reference's gain, plain words; assumed steps
    (0.95, "This set-up forgives as much as the coach's."),
    (0.80, "This set-up forgives nearly as much as the coach's."),
    (0.55, "This set-up leaves less room for a slip."),
    (0.0, "This set-up leaves little room for a slip."),
)


def match_lines(match: Match) -> tuple[str, ...]:
    """How forgiving the set-up is, and the coach's look at the handle."""
    told = [] if isnan(match.share) else [next(w for least, w in _SHARES if match.share >= least)]
    return (*told, _LEAN[match.lean])


def why_line(right: bool, words: str, of_the_shot: bool = True) -> str:
    """What is said once a cause is picked; `words` are the right one. Nothing is marked wrong: the shot is
    asked where the question is about it, else the cause is told."""
    if right:
        return "Yes, that is what the shot shows." if of_the_shot else "Yes, that is the cause."
    return f"The shot shows another cause. {words}" if of_the_shot else f"There is another cause. {words}"
