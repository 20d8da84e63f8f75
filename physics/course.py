"""The ground a shot is played over, and what stands on it. Origin under the ball, x to the hole."""

from dataclasses import dataclass, field

from physics.surfaces import SURFACES

__all__ = ["Course", "Ground", "Hole", "Lie", "Lip", "OutOfBounds", "Tree", "Wall", "Water", "level_course"]

# The plain course: m of the ball's surface and of fringe before the green; of ground behind and beyond.
LIE, FRINGE, BEYOND = 2.0, 1.0, 60.0


@dataclass(frozen=True)
class Ground:
    """Profile as points (m), left to right; surfaces[i] covers the stretch from point i to i + 1."""

    x: tuple[float, ...]
    y: tuple[float, ...]
    surfaces: tuple[str, ...]


@dataclass(frozen=True)
class Lie:
    """How the ball sits: the surface under it (None: the ground's own) and an extra lift in m.

    A negative lift presses the ball down (an old divot, a plugged ball in sand).
    """

    surface: str | None = None
    lift: float = 0.0


@dataclass(frozen=True)
class Hole:
    """Hole of the Rules (108 mm) at x (m), with or without its flagstick."""

    x: float
    flagstick: bool = True


@dataclass(frozen=True)
class Water:
    """Water from left to right (m), surface at `level` (m)."""

    left: float
    right: float
    level: float


@dataclass(frozen=True)
class Wall:
    """Upright wall or boards standing at x, `height` above the ground there, `thickness` deep (m)."""

    x: float
    height: float
    thickness: float = 0.15


@dataclass(frozen=True)
class Lip:
    """Turf lip of a bunker: an overhanging edge at x, `height` over the sand side, reaching `overhang`
    back toward the player (m)."""

    x: float
    height: float
    overhang: float = 0.05


@dataclass(frozen=True)
class Tree:
    """Tree: trunk at x, `trunk` high to the canopy centre, canopy of `radius` (m)."""

    x: float
    trunk: float
    radius: float
    density: float = 0.5  # share of a straight line through the middle that meets wood


@dataclass(frozen=True)
class OutOfBounds:
    """Everything beyond x is out; side +1 beyond toward the target, -1 behind the player."""

    x: float
    side: int = 1


Hazard = Water | Wall | Lip | Tree | OutOfBounds


@dataclass(frozen=True)
class Course:
    """Everything outside the player. `wind` is the speed at 10 m height along +x (m/s)."""

    ground: Ground
    lie: Lie = Lie()
    hole: Hole | None = None
    hazards: tuple[Hazard, ...] = ()
    wind: float = 0.0
    green_speed: float = 3.05  # m on the Stimpmeter (10 ft)
    firmness: float = 1.0  # 0.5 soft, 1 reference green, 1.5 firm
    name: str = field(default="level green", compare=False)


def level_course(surface: str, hole: float, name: str = "") -> Course:
    """Level ground (hole in m from the ball): the ball's surface, a strip of fringe, and green behind.

    >>> level_course("fairway", 8.0).ground.surfaces
    ('fairway', 'fringe', 'green')
    """
    edge = LIE + FRINGE
    xs = (-BEYOND, LIE, edge, hole + BEYOND)
    ground = Ground(xs, (0.0, 0.0, 0.0, 0.0), (surface, "fringe", "green"))
    return Course(ground, hole=Hole(hole), name=name or f"level, from {SURFACES[surface].label}")
