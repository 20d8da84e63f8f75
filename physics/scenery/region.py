"""A region: the box round one piece of scenery, and what is inside it."""

from dataclasses import dataclass

from physics.equipment import BALL
from physics.scenery.solid import Box, Solid

__all__ = ["MARGIN", "Cup", "Graze", "Leaves", "SceneryRegion", "around", "overlap"]

MARGIN = 0.01  # m between ball and scenery where the corridor hands over, assumed


@dataclass(frozen=True)
class Cup:
    """Opening of the hole in the plane of the ball's path (m): its two edges and its floor."""

    left: float
    right: float
    rim: float  # y of the lower edge
    floor: float


@dataclass(frozen=True)
class Graze:
    """A stick met so far off its centre that the ball passes: once, within `reach` of x and below `top`,
    the velocity along x is multiplied by `passed`."""

    x: float
    reach: float
    top: float
    passed: float


@dataclass(frozen=True)
class Leaves:
    """Disc of leaves: speed falls by the factor e every 1 / `per_metre` of way."""

    x: float
    y: float
    radius: float
    per_metre: float


@dataclass(frozen=True)
class SceneryRegion:
    """Scenery of one kind, the box (m) of ball centres that may meet it, and its solids."""

    kind: str
    box: Box
    solids: tuple[Solid, ...]
    cup: Cup | None = None
    graze: Graze | None = None
    leaves: Leaves | None = None


def around(left: float, bottom: float, right: float, top: float) -> Box:
    """Box of the ball centres within MARGIN of touching the rectangle."""
    reach = BALL.radius + MARGIN
    return left - reach, bottom - reach, right + reach, top + reach


def overlap(a: Box, b: Box) -> bool:
    """Whether two boxes share a point."""
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]
