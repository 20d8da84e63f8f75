"""What to change, in words: a repair with the reason that belongs to it, and the one cause of a shot.

Player's words carry numbers, a junior's are short and carry none.
"""

from dataclasses import dataclass

from game.text.junior import advice, plain_value
from game.text.quantity import shown_control
from physics.address import Intention
from physics.agreement import LEANERS
from physics.removal import Origin, clear_gain
from physics.repair import Kind, Repair

__all__ = ["ADDED_UP", "CAUSES", "TO_PLAN", "Cause", "cause_of", "mismatch_words", "repair_words"]

WHERE = {"back": "Ball back", "middle": "Ball in the middle", "forward": "Ball forward"}
# what each part wants less and more of, where ball, lean and motion do not agree
WANTS = {
    "release": ("{ball} wants less release", "{ball} wants more release"),
    "follow_through": ("{ball} wants a shorter follow-through", "{ball} wants a longer follow-through"),
    "shaft_lean": ("This motion wants less shaft lean", "This motion wants more shaft lean"),
    "ball_position": ("This motion wants the ball back more", "This motion wants the ball forward more"),
}  # fmt: skip
NOTHING = "Nothing in the set-up stands out. What is left is how strokes differ."
NOTHING_JUNIOR = "Your set-up is good. Keep it the same."


def mismatch_words(repair: Repair, stroke: Intention, played: bool = True, junior: bool = False) -> str:
    """Which part does not agree with the others and what comes of it; "" where a repair is of another kind.

    >>> stroke = Intention().with_values({"ball_position": -0.07, "release": 1.6})
    >>> off = Repair("release", "release", 1.6, 0.7, 0.4, lean_off=-0.2)
    >>> mismatch_words(off, stroke)
    'Ball back wants less release: the head passed the hands early.'
    """
    if repair.kind is not Kind.MENDS or not repair.lean_off:
        return ""
    early = repair.lean_off < 0.0
    if junior:
        return "The club passed your hands too soon." if early else "The handle came back too far forward."
    if played:
        what = "the head passed the hands early" if early else "the handle came back too far forward"
    else:
        what = "the head passes the hands early" if early else "the handle comes back too far forward"
    if repair.control not in LEANERS:
        return f"{what[0].upper()}{what[1:]}, and ball, lean and motion did not ask for it." if played else (
            f"{what[0].upper()}{what[1:]}, and ball, lean and motion do not ask for it."
        )  # fmt: skip
    ball = WHERE[plain_value("ball_position", stroke.value("ball_position"))]
    return f"{WANTS[repair.control][repair.best > repair.now].format(ball=ball)}: {what}."


def repair_words(
    repair: Repair | None, stroke: Intention, junior: bool = False, played: bool = True, off: str = ""
) -> str:
    """What cost most in a stroke just played, or advice on a set-up. None: nothing was found. `off` is the
    label of the part that a repair makes up for."""
    if repair is None or not clear_gain(repair.gain, repair.error):
        return NOTHING_JUNIOR if junior else NOTHING
    why = mismatch_words(repair, stroke, played, junior)
    if junior:
        do = advice(repair.control, repair.now, repair.best)
        return " ".join(s for s in (why, do) if s)
    values = repair.best, repair.now
    best, now = (shown_control(repair.control, v) for v in values)
    if best == now:
        best, now = (shown_control(repair.control, v, 1) for v in values)
    gain = f"{best} instead of {now} would save about {repair.gain:.2f} strokes a shot."
    label = repair.label
    if repair.kind is Kind.MAKES_UP:
        return f"The {off} is out of place. A change of the {label} would make up for it: {gain}"
    if repair.kind is Kind.IMPROVES or not played:
        return " ".join(
            s for s in (why, f"The set-up would gain most from a change of the {label}: {gain}") if s
        )
    return " ".join(s for s in (f"What cost most: {label}.", why, gain) if s)


# ---- the cause of one shot


@dataclass(frozen=True)
class Cause:
    """One cause in plain words: whose component it is, which way it was off (+1 more, -1 less, 0 either), and
    what it does to the strike: causes of one `effect` and one `sense` can pass for each other."""

    words: str
    origin: Origin | None = None
    component: str = ""
    way: int = 0
    effect: str = ""
    sense: int = 0


TO_PLAN = Cause("The strike went to plan. The set-up made this shot.")
ADDED_UP = Cause("Small things added up. No one of them did it alone.", Origin.STRAYED)


def _pair(
    origin: Origin, component: str, more: str, less: str, effect: str, sense: int = 1
) -> tuple[Cause, Cause]:
    """The two ways a component can be off."""
    return (
        Cause(more, origin, component, 1, effect, sense),
        Cause(less, origin, component, -1, effect, -sense),
    )


CAUSES: tuple[Cause, ...] = (
    *_pair(Origin.STRAYED, "speed", "The swing was faster than you meant.",
           "The swing was slower than you meant.", "length"),
    *_pair(Origin.STRAYED, "along", "The club reached its low point too late.",
           "The club reached its low point too soon.", "low point"),
    *_pair(Origin.STRAYED, "up", "The club came in too high.",
           "The club came in too low, into the ground.", "height"),
    *_pair(Origin.STRAYED, "lean", "The handle came back too far forward.",
           "The club passed your hands too soon.", "handle"),
    *_pair(Origin.STRAYED, "face", "The face came back too open.", "The face came back too closed.", "face"),
    *_pair(Origin.STRAYED, "drop", "You sank too far at the ball.", "You stayed too tall at the ball.",
           "height", -1),
    Cause("The ball started off line.", Origin.STRAYED, "aim", 0, "line"),
    *_pair(Origin.SET, "swing_length", "The swing was too long for this hole.",
           "The swing was too short for this hole.", "length"),
    *_pair(Origin.SET, "ball_position", "The ball lay too far forward in the stance.",
           "The ball lay too far back in the stance.", "ball"),
    *_pair(Origin.SET, "shaft_lean", "The shaft leaned too far forward at address.",
           "The shaft leaned too little at address.", "handle"),
    *_pair(Origin.SET, "release", "Too much release for this ball position.",
           "Too little release for this ball position.", "handle", -1),
    *_pair(Origin.SET, "follow_through", "The finish was too long for this ball position.",
           "The finish was too short for this ball position.", "handle"),
    *_pair(Origin.SET, "lean_change", "You always bring the handle back too far forward.",
           "You always let the club pass your hands.", "handle"),
    *_pair(Origin.SET, "depth", "The club was aimed too deep.", "The club was aimed too high.", "height", -1),
    *_pair(Origin.SET, "drop", "You meant to sink too far.", "You meant to stay too tall.", "height", -1),
    *_pair(Origin.SET, "face_open", "The face was set too open.", "The face was set too square.", "face"),
    *_pair(Origin.SET, "lead_weight", "Too much weight was on the lead foot.",
           "Too little weight was on the lead foot.", "low point"),
    *_pair(Origin.SET, "stance_width", "Your feet were too far apart.", "Your feet were too close together.",
           "stance"),
)  # fmt: skip


def cause_of(origin: Origin, component: str, off: float) -> Cause:
    """The cause in words of a component that was off by so much. KeyError where there is none."""
    way = 1 if off > 0.0 else -1
    for cause in CAUSES:
        if (cause.origin, cause.component) == (origin, component) and cause.way in (way, 0):
            return cause
    raise KeyError(f"no words for {component}")
