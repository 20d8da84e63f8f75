"""The Shot and its stages: frozen values on one time line, zero at first touch of the ball's place.

Traces are tuples of floats so that Shots compare, hash and store without loss. Time 0 is the
moment the intended swing would bring the leading edge to the ball; the swing before it is
negative. SI, angles in rad.
"""

from dataclasses import dataclass, field
from enum import StrEnum

from physics.address import Motion, Setup
from physics.course import Course
from physics.spread import Spread, Stray

__all__ = [
    "Contact", "Launch", "Outcome", "Phase", "Run", "Shot", "SoleTrace", "Strike", "SwingTrace", "TurfAction",
]  # fmt: skip

Trace = tuple[float, ...]


class Contact(StrEnum):
    """Where the ball was met."""

    CLEAN = "clean"  # the face, ball first or nearly so
    FAT = "fat"  # turf first, with a lead distance and speed lost
    THIN = "thin"  # leading edge below the equator
    TOPPED = "topped"  # leading edge above the equator
    MISSED = "missed"


class TurfAction(StrEnum):
    """What the sole did in the turf."""

    NONE = "no turf"
    BRUSH = "brush"  # skid shallower than 2 mm
    SKID = "skid"
    DIG = "dig"


class Outcome(StrEnum):
    """How the shot ended."""

    REST = "at rest"
    HOLED = "holed"
    WATER = "in water"
    OUT = "out of bounds"
    MISSED = "missed the ball"
    STUCK = "stuck in the turf"
    LOST = "still moving after two minutes"


class Phase(StrEnum):
    """Phase of the ball's run, one code letter a sample."""

    FLIGHT = "f"
    BOUNCE = "b"  # the sample of a landing, after the bounce
    SLIDE = "s"
    ROLL = "r"
    CONTACT = "c"  # rigid contact: rim, flagstick, lip, tree, wall
    REST = "."


@dataclass(frozen=True)
class SwingTrace:
    """The whole swing in the side view, from the top of the backswing to the finish."""

    t: Trace  # s
    hub: tuple[Trace, Trace]  # x, y of the hub
    hands: tuple[Trace, Trace]
    head: tuple[Trace, Trace]  # leading edge
    lean: Trace  # shaft lean, + handle toward the target
    speed: Trace  # head speed
    low_point: float  # x of the intended lowest leading edge, from the ball
    flat_spot: float  # m, stretch within 2 mm of the lowest height
    attack: float  # rad at the ball, + upward, intended


@dataclass(frozen=True)
class SoleTrace:
    """Head and turf in time, actual, through the strike."""

    t: Trace
    edge: tuple[Trace, Trace]  # leading edge x, y
    lean: Trace
    speed: Trace
    pressure: tuple[Trace, ...]  # Pa, one row a time, one column a sole element
    arm: Trace  # in-plane arm angle (rad)
    club: Trace  # in-plane club angle (rad)


@dataclass(frozen=True)
class Strike:
    """The strike: turf, then ball (or the other way round)."""

    contact: Contact
    turf: TurfAction
    double_hit: bool
    playable: bool  # face met the ball and turf took < 10 % of the speed before it
    lead: float  # m of ground touched before the ball
    depth: float  # m, deepest cut or pressed ground
    length: float  # m, length of the divot or brush
    speed_before: float  # m/s, head speed before any turf
    speed_at_ball: float
    speed_after: float  # m/s once clear of ball and turf
    lean: float  # at the ball
    loft: float  # dynamic loft at the ball
    bounce: float  # effective bounce at the ball
    attack: float  # actual attack angle at the ball, + up
    edge_height: float  # m, leading edge over the surface the ball sits on
    spin_loft: float
    cushion: float  # m of turf or sand between face and ball
    time: float  # s of ball contact (nan when missed)
    divot: tuple[Trace, Trace]  # x, ground height after
    sole: SoleTrace = field(repr=False)
    low: float = 0.0  # m the sole was headed below the turf surface at the ball; negative: above it


@dataclass(frozen=True)
class Launch:
    """Ball just after the club. spin + is backspin (rad/s)."""

    speed: float
    angle: float
    spin: float
    azimuth: float  # where the open face points, shown as a label only


@dataclass(frozen=True)
class Run:
    """From launch to rest. x, y are the ball's centre; phase is one letter a sample."""

    t: Trace
    x: Trace
    y: Trace
    vx: Trace
    vy: Trace
    spin: Trace
    phase: str
    carry: float  # x of the first landing
    landing_angle: float  # rad, steepness of the first landing, positive down
    landing_speed: float
    apex: float  # greatest height of the ball's bottom over its place at rest
    rest: float  # x
    outcome: Outcome


@dataclass(frozen=True)
class Shot:
    """Everything that happened. Course, setup, motion, spread and seed replay it; `stray` is what the
    seed made of the spread this time, and `lateral` how far beside the target line the ball rests."""

    course: Course
    setup: Setup
    motion: Motion  # as intended
    spread: Spread
    seed: int
    stray: Stray
    swing: SwingTrace = field(repr=False)
    strike: Strike
    launch: Launch | None
    run: Run
    lateral: float = 0.0  # m
