"""What the player sets (Setup) and what the player does (Motion), with the limits of each control."""

from dataclasses import dataclass
from math import radians

from physics.equipment import BAG, Club

__all__ = ["CONTROLS", "Control", "Motion", "Setup"]


@dataclass(frozen=True)
class Setup:
    """The address. Lengths in m, angles in rad; + is toward the target."""

    club: Club = BAG["SW"]
    ball_position: float = -0.02  # ball from the middle of the stance
    shaft_lean: float = radians(5)  # handle toward the target, as seen face-on
    stance_width: float = 0.17  # between the heels
    face_open: float = 0.0
    lead_weight: float = 0.62  # share on the lead foot


@dataclass(frozen=True)
class Motion:
    """The stroke. `release` is the club's turning rate over the arms' through the strike.

    `follow_through`: 1 long, handle well away from the body; 0 short, arms fold at the ball.
    `lean_change`: shaft lean at the ball minus lean at address. `drop`: share of the reach lost
    to that change which the player makes up by sinking. `depth`: how far under the turf surface
    the sole is aimed at the ball.
    """

    swing_length: float = radians(45)  # arm turn back from the ball
    release: float = 1.0
    follow_through: float = 0.6
    lean_change: float = 0.0
    drop: float = 1.0
    depth: float = 1.5e-3  # the usual one on fairway; `surfaces.SURFACES[...].usual_depth` elsewhere


@dataclass(frozen=True)
class Control:
    """One control: where it lives, its limits and how the edges show it."""

    name: str
    owner: str  # "setup" or "motion"
    label: str
    low: float  # SI
    high: float  # SI
    unit: str  # shown: deg, mm, cm, %, ""
    scale: float  # shown value = SI value * scale
    plain: str  # one sentence for a junior


_DEG = 57.29577951308232
CONTROLS: dict[str, Control] = {
    c.name: c
    for c in (
        Control("ball_position", "setup", "ball position", -0.12, 0.12, "cm", 100.0,
                "Where the ball lies between your feet."),
        Control("shaft_lean", "setup", "shaft lean", radians(-10), radians(20), "deg", _DEG,
                "How far the handle leans toward the target."),
        Control("stance_width", "setup", "stance width", 0.05, 0.45, "cm", 100.0,
                "The gap between your heels."),
        Control("face_open", "setup", "face open", 0.0, radians(40), "deg", _DEG,
                "How far the face is turned to the sky."),
        Control("lead_weight", "setup", "lead weight", 0.40, 0.85, "%", 100.0,
                "How much of you stands on the front foot."),
        Control("swing_length", "motion", "swing length", radians(10), radians(130), "deg", _DEG,
                "How far the arms swing back."),
        Control("release", "motion", "release", 0.4, 2.0, "", 1.0,
                "How fast the club passes the hands."),
        Control("follow_through", "motion", "follow-through", 0.0, 1.0, "", 1.0,
                "How far the handle travels away from you after the strike."),
        Control("lean_change", "motion", "lean change", radians(-10), radians(15), "deg", _DEG,
                "How much further forward the handle comes back."),
        Control("drop", "motion", "drop", 0.0, 1.5, "", 1.0,
                "How much you sink to reach the ball again."),
        Control("depth", "motion", "aimed depth", -0.010, 0.020, "mm", 1000.0,
                "How deep the sole is meant to brush."),
    )
}  # fmt: skip
