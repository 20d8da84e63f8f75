"""What the player sets (Setup) and does (Motion), both as one Intention, and the limits of each control."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import radians
from typing import Any, Self

from physics.equipment import BAG, Club, club_named

__all__ = ["CONTROLS", "Control", "Intention", "Motion", "Setup"]


@dataclass(frozen=True)
class Setup:
    """The address. Lengths in m, angles in rad; + is toward the target.

    >>> back = Setup(BAG["PW"], ball_position=-0.05, shaft_lean=radians(8))
    >>> back.club.label, back.stance_width
    ('pitching wedge', 0.17)
    """

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

    >>> longer = Motion(swing_length=radians(60))
    >>> longer.release
    1.0
    """

    swing_length: float = radians(45)  # arm turn back from the ball
    release: float = 1.0
    follow_through: float = 0.6
    lean_change: float = 0.0
    drop: float = 1.0
    depth: float = 1.5e-3  # the usual one on fairway; `surfaces.SURFACES[...].usual_depth` elsewhere


@dataclass(frozen=True)
class Control:
    """One control: where it lives, its limits and how the edges show it.

    >>> lean = CONTROLS["shaft_lean"]
    >>> f"{lean.label}: {lean.low * lean.scale:.0f} to {lean.high * lean.scale:.0f} {lean.unit}"
    'shaft lean: -10 to 20 deg'
    """

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
        Control("lead_weight", "setup", "weight on lead foot", 0.40, 0.85, "%", 100.0,
                "How much of your weight stands on the lead foot."),
        Control("swing_length", "motion", "swing length", radians(10), radians(130), "deg", _DEG,
                "How far the arms swing back."),
        Control("release", "motion", "release", 0.4, 2.0, "", 1.0,
                "How fast the club passes the hands."),
        Control("follow_through", "motion", "follow-through", 0.0, 1.0, "", 1.0,
                "How far the handle travels away from you after the strike."),
        Control("lean_change", "motion", "lean added by impact", radians(-10), radians(15), "deg", _DEG,
                "How much further forward you bring the handle back."),
        Control("drop", "motion", "dip", 0.0, 1.5, "", 1.0,
                "How much you dip to reach the ball again."),
        Control("depth", "motion", "intended depth", -0.010, 0.020, "mm", 1000.0,
                "How deep the sole is meant to brush."),
    )
}  # fmt: skip


@dataclass(frozen=True)
class Intention:
    """The stroke a player means to play: set-up and motion, each control read and set by its name.

    >>> from math import degrees
    >>> plain = Intention()
    >>> round(degrees(plain.value("shaft_lean")))
    5
    >>> pressed = plain.with_club("7i").with_value("shaft_lean", radians(90))  # held to the limit
    >>> pressed.setup.club.label, round(degrees(pressed.value("shaft_lean")))
    ('7-iron', 20)
    """

    setup: Setup = Setup()
    motion: Motion = Motion()

    def value(self, name: str) -> float:
        """Value (SI) of a control. KeyError for an unknown one."""
        return float(getattr(self.setup if CONTROLS[name].owner == "setup" else self.motion, name))

    def with_value(self, name: str, value: float) -> Self:
        """With one control at another value (SI), held to its limits. KeyError for an unknown one."""
        return self.with_values({name: value})

    def with_values(self, values: Mapping[str, float]) -> Self:
        """With these controls at other values (SI), each held to its limits. KeyError for an unknown one."""
        changes: dict[str, dict[str, Any]] = {"setup": {}, "motion": {}}
        for name, value in values.items():
            control = CONTROLS[name]
            changes[control.owner][name] = min(max(value, control.low), control.high)
        setup, motion = replace(self.setup, **changes["setup"]), replace(self.motion, **changes["motion"])
        return replace(self, setup=setup, motion=motion)

    def with_club(self, name: str) -> Self:
        """With another club in hand. KeyError names the clubs of the bag."""
        return replace(self, setup=replace(self.setup, club=club_named(name)))
