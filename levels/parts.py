"""The parts of a scenario as its file writes them: degrees, mm, cm and m named in the keys.

Every part converts itself to the plain value of `physics`. Limits stand in each field; those of the
controls come from `physics.address.CONTROLS`. All other limits are assumed: wide enough for any
short-game shot, narrow enough that a slip of the pen is noticed.
"""

from math import radians
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from levels.rules import Number, limited_number, one_of
from physics import course
from physics.address import CONTROLS, Control, Intention, Motion, Setup
from physics.equipment import BAG
from physics.spread import PLAYERS
from physics.surfaces import SURFACES

__all__ = [
    "FILE_KEYS", "ClubName", "ControlName", "HazardTable", "HoleTable", "LieTable", "LipTable",
    "MotionTable", "OutOfBoundsTable", "Part", "PlayerName", "PointTable", "SetupTable", "TreeTable",
    "WallTable", "WaterTable", "file_value", "si_value",
]  # fmt: skip

SurfaceName = Annotated[str, *one_of(SURFACES, "surface")]
ClubName = Annotated[str, *one_of(BAG, "club in the bag")]
PlayerName = Annotated[str, *one_of(PLAYERS, "player")]
ControlName = Annotated[str, *one_of(CONTROLS, "control")]

X_LOW, X_HIGH, RISE = -50, 150, 30  # m, the stage of a short game


class Part(BaseModel):
    """Base of every part: no unknown keys, never changed, numbers finite."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class PointTable(Part):
    """A point of the ground's profile and the surface from here to the next point."""

    x_m: Number = limited_number("distance from the ball, + toward the target", X_LOW, X_HIGH, "m")
    y_m: Number = limited_number("height over the ground under the ball", -RISE, RISE, "m")
    surface: SurfaceName | None = Field(
        default=None, description=f"surface up to the next point, left out at the last: {', '.join(SURFACES)}"
    )


class LieTable(Part):
    """How the ball sits."""

    surface: SurfaceName | None = Field(
        default=None,
        description=f"surface under the ball, left out for the ground's own: {', '.join(SURFACES)}",
    )
    lift_mm: Number = limited_number("how far the ball is raised, - for pressed down", -30, 60, "mm", 0.0)

    def physics(self) -> course.Lie:
        """The lie in SI."""
        return course.Lie(self.surface, self.lift_mm / 1000.0)


class HoleTable(Part):
    """The hole and its flagstick."""

    x_m: Number = limited_number("distance of the hole from the ball", 0.5, 100, "m")
    flagstick: Annotated[bool, Field(strict=True)] = Field(
        default=True, description="true with the flagstick in, false without"
    )

    def physics(self) -> course.Hole:
        """The hole in SI."""
        return course.Hole(self.x_m, self.flagstick)


class WaterTable(Part):
    """Water between two places."""

    kind: Literal["water"]
    left_m: Number = limited_number("where the water begins", X_LOW, X_HIGH, "m")
    right_m: Number = limited_number("where the water ends", X_LOW, X_HIGH, "m")
    level_m: Number = limited_number("height of its surface", -RISE, RISE, "m")

    def physics(self) -> course.Water:
        """The water in SI."""
        return course.Water(self.left_m, self.right_m, self.level_m)


class WallTable(Part):
    """Upright wall or boards."""

    kind: Literal["wall"]
    x_m: Number = limited_number("where the wall stands", X_LOW, X_HIGH, "m")
    height_m: Number = limited_number("height over the ground there", 0.05, 10, "m")
    thickness_m: Number = limited_number("thickness", 0.02, 2, "m", 0.15)

    def physics(self) -> course.Wall:
        """The wall in SI."""
        return course.Wall(self.x_m, self.height_m, self.thickness_m)


class LipTable(Part):
    """Overhanging turf edge of a bunker."""

    kind: Literal["lip"]
    x_m: Number = limited_number("where the edge is", X_LOW, X_HIGH, "m")
    height_m: Number = limited_number("height over the sand side", 0.01, 2, "m")
    overhang_m: Number = limited_number("how far it reaches back toward the player", 0, 0.5, "m", 0.05)

    def physics(self) -> course.Lip:
        """The lip in SI."""
        return course.Lip(self.x_m, self.height_m, self.overhang_m)


class TreeTable(Part):
    """Trunk and round canopy."""

    kind: Literal["tree"]
    x_m: Number = limited_number("where the trunk stands", X_LOW, X_HIGH, "m")
    trunk_m: Number = limited_number("height of the middle of the canopy over the ground", 0.5, 30, "m")
    radius_m: Number = limited_number("radius of the canopy", 0.2, 10, "m")
    density: Number = limited_number("share of a line through the middle that meets wood", 0, 1, "", 0.5)

    def physics(self) -> course.Tree:
        """The tree in SI."""
        return course.Tree(self.x_m, self.trunk_m, self.radius_m, self.density)


class OutOfBoundsTable(Part):
    """Everything beyond a stake is out of bounds."""

    kind: Literal["out_of_bounds"]
    x_m: Number = limited_number("where the stake stands", X_LOW, X_HIGH, "m")
    side: Literal["target", "behind"] = Field(
        default="target",
        description="which side is out: 'target' beyond the stake, 'behind' on the player's side",
    )

    def physics(self) -> course.OutOfBounds:
        """The boundary in SI."""
        return course.OutOfBounds(self.x_m, 1 if self.side == "target" else -1)


HazardTable = Annotated[
    WaterTable | WallTable | LipTable | TreeTable | OutOfBoundsTable, Field(discriminator="kind")
]

_SUFFIX = {"deg": "_deg", "cm": "_cm", "mm": "_mm", "%": "_percent", "": ""}
FILE_KEYS: dict[str, str] = {c.name: c.name + _SUFFIX[c.unit] for c in CONTROLS.values()}


def file_value(control: Control, si: float) -> float:
    """The SI value of a control as files write it."""
    return round(si * control.scale, 9)


def si_value(control: Control, value: float) -> float:
    """A value of a control, as files write it, in SI."""
    return radians(value) if control.unit == "deg" else value / control.scale


def _control(name: str) -> Any:
    c = CONTROLS[name]
    return limited_number(
        c.label, file_value(c, c.low), file_value(c, c.high), c.unit, file_value(c, Intention().value(name))
    )


def _values(table: Part, owner: str) -> dict[str, float]:
    return {
        c.name: si_value(c, getattr(table, FILE_KEYS[c.name])) for c in CONTROLS.values() if c.owner == owner
    }


class SetupTable(Part):
    """The address a player begins with."""

    club: ClubName = Field(default=Setup().club.name, description=f"club in hand: {', '.join(BAG)}")
    ball_position_cm: Number = _control("ball_position")
    shaft_lean_deg: Number = _control("shaft_lean")
    stance_width_cm: Number = _control("stance_width")
    face_open_deg: Number = _control("face_open")
    lead_weight_percent: Number = _control("lead_weight")

    def physics(self) -> Setup:
        """The address in SI."""
        return Setup(club=BAG[self.club], **_values(self, "setup"))


class MotionTable(Part):
    """The stroke a player begins with."""

    swing_length_deg: Number = _control("swing_length")
    release: Number = _control("release")
    follow_through: Number = _control("follow_through")
    lean_change_deg: Number = _control("lean_change")
    drop: Number = _control("drop")
    depth_mm: Number = _control("depth")

    def physics(self) -> Motion:
        """The stroke in SI."""
        return Motion(**_values(self, "motion"))
