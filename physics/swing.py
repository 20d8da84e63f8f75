"""The intended swing: two links, arms and club, about a hub, driven like a pendulum.

The stroke is a curve with one degree of freedom, the arm angle `a`: the club turns `release` times
as fast as the arms, and the reach of the arms shortens where they fold. Speed along the curve is
the energy of a driven pendulum: hub torque plus gravity. Both links turn in a plane inclined by
the lie of the club; side-view heights are in-plane heights times sin(lie).

The address promises a shaft lean, the motion delivers one of its own (`motion_lean`): the handle leads
more the longer the follow-through and less the more the head is released, and a ball further back is
met earlier in the turn, with more lean. What is delivered beyond the promise is the lean added by
impact. Ball position, lean, release and follow-through agree when it is none.

Form of the two-link dynamics: Jorgensen (1994), Cochran & Stobbs (1968); derived here from the
Lagrangian with a reach that may change.
"""

from math import asin, atan, cos, radians, sin, sqrt, tan, tanh
from typing import NamedTuple

import numpy as np

from physics.compiled import law
from physics.constants import GRAVITY
from physics.equipment import BALL_RADIUS
from physics.head import edge_centre, lowest_point

__all__ = [
    "Links", "Stroke", "arm_acceleration", "arm_rate", "club_angle", "edge", "edge_velocity",
    "fold", "hub_follows", "lean_of", "links", "motion_lean", "plane_angle",
]  # fmt: skip

REACH = 0.62  # m, hub to wrist, about Jorgensen's 0.615 (from memory)
ARM_INERTIA = 1.15  # kg m2 about the hub, arms and shoulders (Jorgensen, from memory)
ARM_MOMENT = 2.3  # kg m, first moment of both arms: 7 kg at 0.33 m, assumed
HUB_TORQUE = 12.0  # N m; assumed so that 45 degrees of arm turn bring a wedge to about 6-7 m/s
EASY_TURN = radians(45)  # arm turn up to which that torque serves; a longer swing is driven harder:
HARDER = 1.25  # power of the turn over EASY_TURN, assumed so that 130 degrees bring a wedge to 18 m/s
WRIST = 0.07  # m, wrist line below the grip end of a club held a little short, assumed
FOOT = 0.10  # m, breadth of a foot: weight moves between the middles of the feet, assumed
FOLD = 0.060  # m the arms draw in when they fold, assumed
FOLD_SPREAD = 0.25  # rad of arm turn over which most of the fold happens, assumed
FOLD_AFTER = 0.45  # rad of arm turn after the ball at which the arms of the shortest one fold, assumed
FOLD_LATEST = 1.0  # rad later than that for the longest, assumed
FINISH = (0.5, 1.2)  # arm turn after the ball over the turn before it, short and long, assumed
# Lean (rad) a motion brings to a ball plumb under the hub. FITTED once, to the three set-ups that
# coaches call matched (common practice, tests/physics/test_match.py): low runner, standard chip, high soft.
PLAIN_RELEASE, PLAIN_FOLLOW = 1.0, 0.6
PLAIN_LEAN = radians(2.2)
HELD = radians(5.5)  # more for each unit of follow-through: the handle keeps going
THROWN = radians(7.0)  # less for each unit of release: the head catches the hands up
FOLLOWING = 0.15  # share of the handle's offset the hub goes along with, feet together, assumed
HELD_BETWEEN = 0.45  # m of stance between which the hub stays where it is, assumed
UNFELT = 0.7  # share of the height a motion gains or loses against the address that nobody feels, assumed


class Stroke(NamedTuple):
    """Every control as a number (SI, rad), and how far this one stroke strays from the intention."""

    ball_position: float
    shaft_lean: float
    stance_width: float
    face_open: float
    lead_weight: float
    swing_length: float
    release: float
    follow_through: float
    lean_change: float
    drop: float
    depth: float
    speed: float = 1.0  # factor on the head speed
    along: float = 0.0  # m, low point toward the target
    up: float = 0.0  # m, hub higher


class Linkage(NamedTuple):
    """Arms and club as two links: hub, measures, inertia and the poses of one stroke, not yet driven."""

    hub_x: float
    hub_y: float
    sine: float
    reach: float
    length: float
    arm_inertia: float
    arm_moment: float
    club_mass: float
    club_moment: float
    club_inertia: float
    arm_ball: float
    club_ball: float
    arm_top: float
    arm_finish: float
    release: float
    fold_at: float


class Links(NamedTuple):
    """Two links set up for one stroke: the fields of `Linkage` in their order, then drive and account."""

    hub_x: float
    hub_y: float
    sine: float  # sin of the plane's inclination
    reach: float
    length: float  # wrist to leading edge
    arm_inertia: float
    arm_moment: float
    club_mass: float
    club_moment: float
    club_inertia: float
    arm_ball: float  # arm angle at the ball, in plane
    club_ball: float
    arm_top: float
    arm_finish: float
    release: float
    fold_at: float
    torque: float
    brake: float  # torque after the ball
    energy_ball: float
    speed: float
    arm_address: float
    hub_drop: float
    promised: float  # shaft lean (rad) of the address
    by_motion: float  # the lean the motion alone brings to the ball
    delivered: float  # the lean at the ball: by the motion, by habit and by what this stroke strays


@law
def plane_angle(lean: float, sine: float) -> float:
    """In-plane club angle (rad) that shows as `lean` face-on; lean forward is a negative angle."""
    return -atan(tan(lean) * sine)


@law
def lean_of(club: float, sine: float) -> float:
    """Shaft lean seen face-on (rad) of an in-plane club angle."""
    return -atan(tan(club) / sine)


@law
def fold(arm: float, at: float) -> tuple[float, float, float]:
    """How far the arms have drawn in (m) at an arm angle, and its first two derivatives (m/rad)."""
    t = tanh((arm - at) / FOLD_SPREAD)
    rate = 0.5 * FOLD / FOLD_SPREAD * (1.0 - t * t)
    return 0.5 * FOLD * (1.0 + t), rate, -2.0 * t * rate / FOLD_SPREAD


@law
def club_angle(link: Links | Linkage, arm: float) -> float:
    """Intended in-plane club angle at an arm angle."""
    return link.club_ball + link.release * (arm - link.arm_ball)


@law
def reach(link: Links | Linkage, arm: float) -> float:
    """Intended reach hub to wrist (m); at the ball it is the reach of the address."""
    return link.reach - fold(arm, link.fold_at)[0] + fold(link.arm_ball, link.fold_at)[0]


@law
def edge(link: Links, arm: float) -> tuple[float, float, float]:
    """Intended leading edge x, y (m) and shaft lean (rad) at an arm angle."""
    club = club_angle(link, arm)
    r = reach(link, arm)
    x = link.hub_x + r * sin(arm) + link.length * sin(club)
    y = link.hub_y - link.sine * (r * cos(arm) + link.length * cos(club))
    return x, y, lean_of(club, link.sine)


@law
def potential(link: Links | Linkage, arm: float) -> float:
    """Potential energy (J) of arms and club on the inclined plane."""
    r = reach(link, arm)
    moment = (link.arm_moment + link.club_mass * r) * cos(arm) + link.club_moment * cos(club_angle(link, arm))
    return -GRAVITY * link.sine * moment


@law
def whole_inertia(link: Links, arm: float) -> float:
    """Inertia (kg m2) of the one-degree-of-freedom stroke about the arm angle."""
    lag = arm - club_angle(link, arm)
    r = reach(link, arm)
    drawn = fold(arm, link.fold_at)[1]
    cross = link.club_moment * link.release * (r * cos(lag) - drawn * sin(lag))
    return (
        link.arm_inertia
        + link.club_mass * (r * r + drawn * drawn)
        + 2.0 * cross
        + link.club_inertia * link.release**2
    )


@law
def arm_rate(link: Links, arm: float) -> float:
    """Arm turning rate (rad/s) from the work done since the top, or since the ball when past it."""
    if arm <= link.arm_ball:
        work = link.torque * (arm - link.arm_top) + potential(link, link.arm_top) - potential(link, arm)
    else:
        work = link.energy_ball + link.brake * (arm - link.arm_ball) - potential(link, arm)
    return link.speed * sqrt(max(2.0 * work / whole_inertia(link, arm), 0.0))


@law
def arm_acceleration(link: Links, arm: float) -> float:
    """Arm angular acceleration (rad/s2): derivative of half the squared rate along the arc.

    One-sided at the ball, where the drive turns into the brake; central elsewhere. Step 1e-4 rad
    leaves a relative error under 1e-6.
    """
    h = 1.0e-4
    low, high = arm - h, arm + h
    if low < link.arm_ball < high:
        low, high = (arm - h, min(arm, link.arm_ball)) if arm <= link.arm_ball else (arm, high)
        if high - low < 0.5 * h:
            low = high - h
    return 0.5 * (arm_rate(link, high) ** 2 - arm_rate(link, low) ** 2) / (high - low)


@law
def edge_velocity(link: Links, arm: float) -> tuple[float, float]:
    """Intended velocity of the leading edge (m/s)."""
    rate = arm_rate(link, arm)
    club = club_angle(link, arm)
    r = reach(link, arm)
    draw = -fold(arm, link.fold_at)[1]
    vx = rate * (draw * sin(arm) + r * cos(arm) + link.length * link.release * cos(club))
    vy = rate * link.sine * (-draw * cos(arm) + r * sin(arm) + link.length * link.release * sin(club))
    return vx, vy


@law
def hub_follows(stance_width: float) -> float:
    """Share of the handle's offset that the hub goes along with at address.

    A narrow stance lets the body lean with the handle, a wide one holds it between the feet: what
    coaches use stance width for (common practice); the numbers are assumed.
    """
    return FOLLOWING * max(0.0, 1.0 - stance_width / HELD_BETWEEN)


@law
def motion_lean(release: float, follow_through: float) -> float:
    """Lean (rad) that a motion brings to a ball plumb under the hub."""
    return PLAIN_LEAN + HELD * (follow_through - PLAIN_FOLLOW) - THROWN * (release - PLAIN_RELEASE)


@law
def head_behind(loft: float, lean: float, edge_radius: float) -> float:
    """x (m) of the leading edge when a head on the level touches a ball at 0.

    The centre of the rounded edge, one radius up, is then a ball's and an edge's radius off the ball:
    along the face's normal where the face is steep enough to be met, else straight (derived).
    """
    off, up = BALL_RADIUS + edge_radius, BALL_RADIUS - edge_radius
    s = sin(loft - lean)
    if s * off < up and loft - lean < 1.5:
        centre = (up * s - off) / cos(loft - lean)
    else:
        centre = -2.0 * sqrt(BALL_RADIUS * edge_radius)
    return centre - edge_centre(edge_radius, lean)[0]


@law
def arm_for(
    hub_x: float, length: float, loft: float, edge_radius: float, lean: float, sine: float
) -> tuple[float, float]:
    """Arm and club angle (in plane) with the head at the ball and the shaft at `lean`."""
    club = plane_angle(lean, sine)
    head_x = head_behind(loft, lean, edge_radius)
    return asin(clip((head_x - hub_x - length * sin(club)) / REACH)), club


@law
def lean_at_ball(
    hub_x: float, length: float, loft: float, edge_radius: float, sine: float, release: float, plumb: float
) -> float:
    """Lean (rad) at the ball of a motion that has the lean `plumb` when its head is under the hub.

    The club turns `release` times as fast as the arms, so a ball further back is met earlier in the
    turn, with more lean: derived. Steps on the place of the head until rounding.
    """
    club0 = plane_angle(plumb, sine)
    arm0 = asin(clip(-length * sin(club0) / REACH))
    arm = arm0
    for _ in range(30):
        club = club0 + release * (arm - arm0)
        head_x = head_behind(loft, lean_of(club, sine), edge_radius)
        gap = hub_x + REACH * sin(arm) + length * sin(club) - head_x
        step = gap / (REACH * cos(arm) + length * release * cos(club))
        arm = min(max(arm - step, -1.2), 1.2)
        if abs(step) < 1e-13:
            break
    return lean_of(club0 + release * (arm - arm0), sine)


@law
def sole_height(hub_y: float, arm: float, club: float, length: float, sine: float, low: float) -> float:
    """Height (m) of the lowest sole strip, `low` under the leading edge, in that pose."""
    return hub_y - sine * (REACH * cos(arm) + length * cos(club)) + low


@law
def club_weight(club: np.record) -> tuple[float, float, float]:
    """Mass (kg), first moment (kg m) and inertia (kg m2) of a club about the wrist."""
    length, shaft_at, grip_at = club.length - WRIST, 0.5 * club.length - WRIST, 0.06
    mass = club.head_mass + club.shaft_mass + club.grip_mass
    moment = club.head_mass * length + club.shaft_mass * shaft_at + club.grip_mass * grip_at
    inertia = (
        club.head_mass * length**2
        + club.shaft_mass * (club.length**2 / 12.0 + shaft_at**2)
        + club.grip_mass * grip_at**2
    )
    return mass, moment, inertia


@law
def links(club: np.record, stroke: Stroke, loft: float, elements: np.ndarray) -> Links:
    """Set the two links up for a stroke.

    The address pose (head behind the ball, sole just resting) fixes the hub's height. Lead weight,
    stance and a share of the handle's offset place it. The lean at the ball is the motion's own plus
    what the player adds. The reach that costs is made up by `drop` (a dip), except for the share that
    the motion costs or gains unasked: the address promised another. `loft` is that of the opened face,
    `elements` are the head's sole strips.
    """
    sine = sin(club.lie)
    length = club.length - WRIST
    hub_x = -stroke.ball_position + (stroke.lead_weight - 0.5) * (stroke.stance_width + FOOT) + stroke.along
    hub_x -= hub_follows(stroke.stance_width) * length * sin(plane_angle(stroke.shaft_lean, sine))
    arm_address, club_address = arm_for(hub_x, length, loft, club.edge_radius, stroke.shaft_lean, sine)
    rest = -lowest_point(elements, stroke.shaft_lean)
    hub_y = rest + sine * (REACH * cos(arm_address) + length * cos(club_address))

    plumb = motion_lean(stroke.release, stroke.follow_through)
    by_motion = lean_at_ball(hub_x, length, loft, club.edge_radius, sine, stroke.release, plumb)
    arm_motion, club_motion = arm_for(hub_x, length, loft, club.edge_radius, by_motion, sine)
    unasked = sole_height(hub_y, arm_motion, club_motion, length, sine, lowest_point(elements, by_motion))
    lean = by_motion + stroke.lean_change
    arm_ball, club_ball = arm_for(hub_x, length, loft, club.edge_radius, lean, sine)
    sole = sole_height(hub_y, arm_ball, club_ball, length, sine, lowest_point(elements, lean))
    hub_drop = stroke.drop * (sole - UNFELT * unasked) + stroke.depth
    hub_y += stroke.up - hub_drop

    mass, moment, inertia = club_weight(club)
    finish = arm_ball + stroke.swing_length * (FINISH[0] + (FINISH[1] - FINISH[0]) * stroke.follow_through)
    parts = (
        hub_x, hub_y, sine, REACH, length, ARM_INERTIA, ARM_MOMENT, mass, moment, inertia,
        arm_ball, club_ball, arm_ball - stroke.swing_length, finish, stroke.release,
        arm_ball + FOLD_AFTER + FOLD_LATEST * stroke.follow_through,
    )  # fmt: skip
    linkage = Linkage(*parts)
    torque = HUB_TORQUE * max(1.0, stroke.swing_length / EASY_TURN) ** HARDER
    energy_ball = torque * stroke.swing_length + potential(linkage, linkage.arm_top)
    brake = (potential(linkage, finish) - energy_ball) / (finish - arm_ball)
    return Links(
        *parts, torque, brake, energy_ball, stroke.speed,
        arm_address, hub_drop, stroke.shaft_lean, by_motion, lean,
    )  # fmt: skip


@law
def clip(value: float) -> float:
    """Sine kept just inside what an arm can reach."""
    return min(max(value, -0.95), 0.95)
