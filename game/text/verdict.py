"""What a shot was worth, in sentences: goal by goal, in strokes, against its set-up and against the call."""

from math import degrees, isnan

from game.text.quantity import decimal, plural
from game.text.strike_facts import return_of
from game.text.units import METRIC, UnitSystem
from levels.scoring import GoalMark, Match, PredictionGap, StrikeName, Verdict
from physics.results import Outcome

__all__ = [
    "gap_label", "gap_sentences", "goal_clause", "match_sentences", "stop_sentence", "stroke_sentences",
]  # fmt: skip

CLOSE_CALL = 0.05  # m, a gap too small to tell, assumed
NEAR_CALL = 0.25  # m a call may be off and still count as there where no numbers are told, assumed

_STRUCK = {
    StrikeName.MISSED: "the club never met the ball",
    StrikeName.THIN: "the strike was thin",
    StrikeName.TOPPED: "the edge caught the ball above its middle",
    StrikeName.WEAK: "the ball came off weak",
    StrikeName.FAT: "the strike was fat",
    StrikeName.TWICE: "the club met the ball twice",
    StrikeName.SPLASH: "the sand carried the ball",
    StrikeName.SOLID: "the strike was solid",
}
_LEAN = {
    "matched": "The handle came back where you set it.",
    "close": "The handle came back nearly where you set it.",
    "apart": "The handle came back away from where you set it.",
    "fighting itself": "Swing and set-up fought each other at the handle.",
    "not met": "The club never met the ball.",
}
_STRIKE_WAS = {  # the words of levels.scoring.strike_word
    "solid": "it was solid", "fat": "it was fat", "thin": "it was thin", "weak": "the ball came off weak",
    "twice": "the club met the ball twice", "missed": "the club missed the ball",
}  # fmt: skip
_SHARES = (  # least share of the reference's gain, plain words; assumed steps
    (0.95, "This set-up forgives as much as the coach's."),
    (0.80, "This set-up forgives nearly as much as the coach's."),
    (0.55, "This set-up leaves less room for a slip."),
    (0.0, "This set-up leaves little room for a slip."),
)


# ---- the shot


def goal_clause(mark: GoalMark, verdict: Verdict, units: UnitSystem = METRIC) -> str:
    """What the shot did about one goal, as a clause with its full stop: `it landed 3.4 m away.`"""
    match mark.kind:
        case "leave_m":
            return f"it {_stop(verdict, units)}."
        case "land_between_m":
            return "it never landed." if isnan(mark.value) else f"it landed {units.far(mark.value)} away."
        case "must_clear":
            if isnan(mark.value):
                return "it never flew that far."
            return f"it flew over {units.near(mark.value)} high."
        case "ceiling_m":
            return "it was not met." if isnan(mark.value) else f"it rose {units.near(mark.value)} high."
        case "match_deg":
            return _handle(mark)
        case _:
            deep = f"left a mark {decimal(mark.value * 1e3)} mm deep"
            left = deep if mark.value > 0.5e-3 else "left no mark"
            return f"{_STRUCK[verdict.struck]}. The club {left}."


def _handle(mark: GoalMark) -> str:
    """Where the handle came back against address, with the number where that decides or is much."""
    off = mark.value
    if isnan(off):
        return "the club never met the ball."
    kind, way = return_of(off), "forward of" if off > 0.0 else "behind"
    if kind == "matched" and mark.met:
        return "the handle came back where it was set."
    if kind != "off":
        far = plural(decimal(abs(degrees(off)), 1), "degree")
        return f"the handle came back nearly where it was set, {far} {way} it."
    return f"the handle came back {plural(decimal(abs(degrees(off))), 'degree')} {way} where it was set."


def _stop(verdict: Verdict, units: UnitSystem) -> str:
    match verdict.outcome:
        case Outcome.REST | Outcome.MISSED | Outcome.STUCK:
            side = "past it" if verdict.past > 0.0 else "short of it"
            told = f", {side}" if abs(verdict.past) > 0.5 * verdict.leave else ""  # else mostly beside it
            return f"stopped {units.far(verdict.leave)} from the hole{told}"
        case Outcome.LOST:
            return "never came to rest"
        case outcome:
            where = {Outcome.HOLED: "into the hole", Outcome.WATER: "into the water"}
            return f"went {where.get(outcome, 'out of bounds')}"


def stop_sentence(verdict: Verdict, units: UnitSystem = METRIC) -> str:
    """Where the ball ended."""
    return f"It {_stop(verdict, units)}."


def stroke_sentences(verdict: Verdict, match: Match | None = None) -> tuple[str, ...]:
    """The shot plural in strokes, and its set-up once it has been tried many times."""
    told = [f"From there it takes {verdict.strokes:.1f} strokes in all, this one included."]
    if not isnan(verdict.reference_strokes):
        told.append(f"A matched set-up takes {verdict.reference_strokes:.1f} on average.")
    if match:
        many = f"Played many times this set-up takes {match.strokes:.2f} strokes on average"
        told.append(f"{many}." if isnan(match.best) else f"{many}; the coach's takes {match.best:.2f}.")
    return tuple(told)


def match_sentences(match: Match) -> tuple[str, ...]:
    """How forgiving the set-up is, and the coach's look at the handle."""
    told = [] if isnan(match.share) else [next(w for least, w in _SHARES if match.share >= least)]
    return (*told, _LEAN[match.lean])


# ---- the call


def gap_sentences(gap: PredictionGap, units: UnitSystem = METRIC, numbers: bool = True) -> tuple[str, ...]:
    """Called against what happened, a sentence for each thing called; without numbers in a child's words."""
    both = ((gap.landing, "landed"), (gap.stop, "stopped"))
    places = [(off, verb) for off, verb in both if off is not None]
    if not numbers:
        return (*(_simple_gap(off, verb) for off, verb in places), *_simple_strike(gap))
    told = [_gap(off, verb, units) for off, verb in places]
    if gap.strike_called is not None:
        was = ", and so it was" if gap.strike_right else f"; {_STRIKE_WAS[gap.strike_was]}"
        told.append(f"You predicted {gap.strike_called}{was}.")
    return tuple(told)


def _gap(off: float, verb: str, units: UnitSystem) -> str:
    if isnan(off):
        return f"It never {verb}."
    if abs(off) < CLOSE_CALL:
        return f"It {verb} where you predicted."
    return f"It {verb} {units.far(abs(off))} {'further than' if off > 0 else 'short of'} your mark."


def _simple_gap(off: float, verb: str) -> str:
    if isnan(off):
        return f"The ball never {verb}."
    if abs(off) <= NEAR_CALL:
        return f"The ball {verb} on your mark."
    return f"The ball {verb} {'past' if off > 0 else 'short of'} your mark."


def _simple_strike(gap: PredictionGap) -> tuple[str, ...]:
    called = gap.strike_called
    if called is None:
        return ()
    if gap.strike_right:
        return ("You saw the strike coming.",)
    return (f"You said {called}; {_STRIKE_WAS[gap.strike_was]}.",)


def gap_label(off: float, verb: str, units: UnitSystem = METRIC, numbers: bool = True) -> str:
    """One gap (m) in a few words, to stand on a plate: `stopped 1.2 m past your mark`."""
    if isnan(off):
        return f"never {verb}"
    if abs(off) < CLOSE_CALL:
        return f"{verb} on your mark"
    size = f"{units.far(abs(off))} " if numbers else ""
    return f"{verb} {size}{'past' if off > 0 else 'short of'} your mark"
