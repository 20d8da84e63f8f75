"""Ball, hole and the bag of clubs.

Lofts, lies and lengths follow published trade tables (7-iron 29-34 degrees and 37-37.25 in, half-inch
steps, wedges 52-64 degrees in 35-35.75 in, lie 62-64.5); values marked `assumed` are engineering
choices inside the trade range beside them.
"""

from dataclasses import dataclass
from math import degrees, radians

from physics.constants import INCH

__all__ = [
    "BAG",
    "BALL",
    "BALL_MASS",
    "BALL_RADIUS",
    "FLAGSTICK",
    "HOLE_DEPTH",
    "HOLE_RADIUS",
    "Ball",
    "Club",
    "club_named",
]


@dataclass(frozen=True)
class Ball:
    """Ball of the Rules: at most 45.93 g, at least 42.67 mm (Equipment Rules, part 4)."""

    mass: float = 0.04593  # kg
    radius: float = 0.021335  # m
    inertia: float = (
        0.4 * 0.04593 * 0.021335**2
    )  # kg m2, solid sphere; measured 0.400 m R^2, MDPI Proceedings 49(1):47, 2020


BALL = Ball()
BALL_MASS, BALL_RADIUS = BALL.mass, BALL.radius  # as plain numbers, for compiled laws
HOLE_RADIUS = 0.054  # m, Rules of Golf: 108 mm across
HOLE_DEPTH = 0.1016  # m, Rules of Golf: at least


@dataclass(frozen=True)
class Flagstick:
    """Equipment Rules part 8: at most 19 mm thick low down; height usual in the trade, assumed."""

    radius: float = 0.0095
    height: float = 2.13


FLAGSTICK = Flagstick()


@dataclass(frozen=True)
class Club:
    """One club, shaft vertical, face square. SI, angles in rad."""

    name: str
    label: str
    loft: float
    lie: float
    bounce: float  # sole below the leading edge
    sole_width: float  # m, leading to trailing edge
    camber: float  # m, radius of the sole
    edge_radius: float  # m, radius of the leading edge
    length: float  # m, grip end to sole along the shaft
    head_mass: float  # kg
    shaft_mass: float = 0.110  # kg, assumed (steel, 100-125 g)
    grip_mass: float = 0.050  # kg, assumed (45-52 g)
    grind: float = 0.65  # share of the bounce an open face gains that heel relief leaves, assumed in 0.5-0.8

    @property
    def short(self) -> str:
        """The name on a button: sand wedges by their bounce, as they are sold; else the name of files."""
        return f"SW-{round(degrees(self.bounce))}" if self.name.startswith("SW-") else self.name


def _club(
    name: str, label: str, loft: float, lie: float, bounce: float,
    sole_mm: float, camber_mm: float, length: float, head: float, edge_mm: float = 2.0,
) -> Club:  # fmt: skip
    return Club(
        name, label, radians(loft), radians(lie), radians(bounce),
        sole_mm / 1e3, camber_mm / 1e3, edge_mm / 1e3, length, head,
    )  # fmt: skip


# Loft, lie, length: trade tables. Sole 18-28 mm, camber 25-60 mm, head 0.27-0.305 kg:
# from memory there; each value assumed inside its range.
BAG: dict[str, Club] = {
    c.name: c
    for c in (
        _club("7i", "7-iron", 33, 62.5, 5, 18, 60, 37.0 * INCH, 0.272),
        _club("8i", "8-iron", 37, 63.0, 5.5, 18.5, 58, 36.5 * INCH, 0.278),
        _club("9i", "9-iron", 41, 63.5, 6, 19, 55, 36.0 * INCH, 0.284),
        _club("PW", "pitching wedge", 46, 64.0, 6, 19.5, 50, 35.75 * INCH, 0.290),
        _club("GW", "gap wedge 50/8", 50, 64.0, 8, 20.5, 45, 35.5 * INCH, 0.295),
        _club("GW-high", "gap wedge 52/12", 52, 64.0, 12, 22, 42, 35.5 * INCH, 0.297),
        _club("SW-low", "sand wedge 54/6", 54, 64.0, 6, 20, 42, 35.25 * INCH, 0.300),
        _club("SW", "sand wedge 56/10", 56, 64.0, 10, 22, 40, 35.25 * INCH, 0.300),
        _club("SW-high", "sand wedge 56/14", 56, 64.0, 14, 25, 36, 35.25 * INCH, 0.303),
        _club("LW-low", "lob wedge 60/4", 60, 64.0, 4, 19, 40, 35.0 * INCH, 0.300),
        _club("LW", "lob wedge 60/8", 60, 64.0, 8, 21, 38, 35.0 * INCH, 0.302),
        _club("LW-high", "lob wedge 58/12", 58, 64.0, 12, 24, 36, 35.0 * INCH, 0.303),
    )
}


def club_named(name: str) -> Club:
    """The club of that name in the bag. KeyError names the allowed ones.

    >>> club_named("SW").label
    'sand wedge 56/10'
    """
    try:
        return BAG[name]
    except KeyError:
        raise KeyError(f"no club '{name}' in the bag; allowed: {', '.join(BAG)}") from None
