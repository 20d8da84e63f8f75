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
    "Contact", "Knock", "Launch", "Meeting", "Outcome", "Phase", "Run", "Shot", "SoleTrace", "Strike",
    "SwingTrace", "TurfAction",
]  # fmt: skip

Trace = tuple[float, ...]


class Contact(StrEnum):
    """What the strike was, judged by what it did to the ball (`physics.quality`)."""

    MISSED = "missed"
    SOLID = "solid"  # the ball left as the same stroke sends it with nothing in the way
    FAT = "fat"  # ground first: the ball fell well short of that
    THIN = "thin"  # the leading edge, or the low face, sent it well past that
    TOPPED = "topped"  # leading edge above the equator
    SPLASHED = "splashed"  # carried by sand as the stroke meant it
    TWICE = "hit twice"


class Meeting(StrEnum):
    """Which part of the head met the ball first: geometry alone."""

    NONE = "nothing"
    FACE = "face"
    EDGE = "edge"  # the rounded leading edge, below the ball's equator
    EDGE_ABOVE = "edge above the middle"


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
    promised: float  # shaft lean of the address
    by_motion: float  # lean that ball position, release and follow-through alone bring to the ball
    delivered: float  # lean on its way to the ball: by the motion, by habit and by what this stroke strayed

    @property
    def lean_added(self) -> float:
        """Lean added by impact (rad): delivered beyond what the address promised."""
        return self.delivered - self.promised


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
    met: Meeting
    solid: bool  # solid, or splashed from sand as it should be
    as_set: bool  # solid, and the ball did what the address promised
    struck_gap: float  # logarithm of distance against the same stroke with nothing in the way; - shorter
    set_gap: float  # the same against the stroke with the lean that was set
    head_loss: float  # share of the head speed ground took before the ball; judges nothing
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
    stream: float  # N s the ball had from thrown sand before the club was there
    time: float  # s of ball contact (nan when missed)
    divot: tuple[Trace, Trace]  # x, ground height after
    sole: SoleTrace = field(repr=False)
    low: float = 0.0  # m the sole was headed below the turf surface at the ball; negative: above it
    edge_depth: float = 0.0  # m the leading edge cut into turf or sand; 0 where only the sole pressed


@dataclass(frozen=True)
class Launch:
    """Ball just after the club. spin + is backspin (rad/s)."""

    speed: float
    angle: float
    spin: float
    azimuth: float  # where the open face points, shown as a label only


@dataclass(frozen=True)
class Knock:
    """Something standing on the course that turned or slowed the ball on its way."""

    time: float  # s, on the shot's time line
    what: str  # wall, lip, trunk, branch, leaves, stick, rim or cup


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
    knocks: tuple[Knock, ...] = ()  # in order of time; several of one kind in a row are one


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
