"""The two links in motion: what the swing intends, and how arms, club and reach move under a load.

Three coordinates: arm angle, club angle, reach. The torques of the intended motion (inverse
dynamics) drive them; a load on the head enters through its Jacobian. The reach lets the arms give:
two links in line under a fixed hub would carry any upward push, and no bounce could ever lift the
head. Equations: two-link Lagrangian (form of Jorgensen 1994) with a moving reach, derived.
"""

from math import cos, sin
from typing import NamedTuple

from physics.compiled import law
from physics.constants import GRAVITY
from physics.swing import (
    Links,
    arm_acceleration,
    arm_rate,
    club_angle,
    fold,
    lean_of,
    reach,
)

__all__ = [
    "Drive",
    "HeadPose",
    "Limbs",
    "drive_at",
    "halfway",
    "head_pose",
    "kicked",
    "knocked",
    "next_drive",
    "rewound",
]

# kg that move with the club when the arms give. About 1 kg of hands and forearms (assumed) along the
# shaft, in series with the club cocking out of the plane about the wrists (0.33 kg at the head):
# sin^2 64 / (1.0 + 0.46) + cos^2 64 / 0.33 = 1 / 0.88 kg upright (derived), which this value gives.
ARM_GIVE_MASS = 0.25
ARM_STIFFNESS = 1.0e3  # N/m of elbows and shoulders, assumed
ARM_DAMPING = 15.0  # N s/m, about a quarter of critical, assumed


class Drive(NamedTuple):
    """What the swing intends at one arm angle."""

    on_arm: float  # N m
    on_club: float  # N m
    along: float  # N, along the arms
    arm_turn: float  # rad/s
    reach: float  # m
    reach_rate: float  # m/s
    arm: float  # rad


class Limbs(NamedTuple):
    """Arms, club and reach: where they are, how fast, and the acceleration of the last step."""

    arm: float
    club: float
    reach: float
    arm_turn: float
    club_turn: float
    reach_rate: float
    arm_up: float
    club_up: float
    reach_up: float


class HeadPose(NamedTuple):
    """The head in the side view: leading edge, lean, velocity, turning rate (counter-clockwise)."""

    x: float
    y: float
    lean: float
    vx: float
    vy: float
    turn: float
    pitch: float  # turning rate of the head per turning rate of the club


@law
def drive_at(link: Links, arm: float) -> Drive:
    """Torques, pull and pace of the intended swing at an arm angle (inverse dynamics)."""
    rate = arm_rate(link, arm)
    speed_up = arm_acceleration(link, arm)
    club = club_angle(link, arm)
    r = reach(link, arm)
    _, drawn, curled = fold(arm, link.fold_at)
    r1 = -drawn * rate
    r2 = -curled * rate * rate - drawn * speed_up
    lag = arm - club
    club_rate = link.release * rate
    club_up = link.release * speed_up
    weight = GRAVITY * link.sine
    cm, cs = link.club_mass, link.club_moment
    on_arm = (
        (link.arm_inertia + cm * r * r) * speed_up
        + 2.0 * cm * r * r1 * rate
        + r * cs * (club_up * cos(lag) + club_rate**2 * sin(lag))
        + (link.arm_moment + cm * r) * weight * sin(arm)
    )
    on_club = (
        link.club_inertia * club_up
        + cs * ((r2 - r * rate * rate) * sin(lag) + (r * speed_up + 2.0 * r1 * rate) * cos(lag))
        + cs * weight * sin(club)
    )
    along = (
        (cm + ARM_GIVE_MASS) * r2
        - cm * r * rate * rate
        + cs * (club_up * sin(lag) - club_rate**2 * cos(lag))
        - cm * weight * cos(arm)
    )
    return Drive(on_arm, on_club, along, rate, r, r1, arm)


@law
def next_drive(link: Links, drive: Drive, step: float) -> Drive:
    """The drive one time step later along the intended swing (midpoint rule); held once it has ended."""
    middle = drive.arm + 0.5 * step * drive.arm_turn
    return drive_at(link, min(drive.arm + step * arm_rate(link, middle), link.arm_finish))


@law
def drive_between(a: Drive, b: Drive, share: float) -> Drive:
    """Drive between two knots, linear."""
    return Drive(
        a.on_arm + share * (b.on_arm - a.on_arm),
        a.on_club + share * (b.on_club - a.on_club),
        a.along + share * (b.along - a.along),
        a.arm_turn + share * (b.arm_turn - a.arm_turn),
        a.reach + share * (b.reach - a.reach),
        a.reach_rate + share * (b.reach_rate - a.reach_rate),
        a.arm + share * (b.arm - a.arm),
    )


@law
def accelerations(
    link: Links, r: float, lag: float, on_arm: float, on_club: float, on_reach: float
) -> tuple[float, float, float]:
    """Solve the mass matrix of (arm, club, reach) for the right-hand sides; impulses give kicks."""
    m_aa = link.arm_inertia + link.club_mass * r * r
    m_ac = r * link.club_moment * cos(lag)
    m_cr = link.club_moment * sin(lag)
    m_rr = link.club_mass + ARM_GIVE_MASS
    # arm and reach do not couple, so both are put in terms of the club
    whole = link.club_inertia - m_ac * m_ac / m_aa - m_cr * m_cr / m_rr
    club = (on_club - m_ac * on_arm / m_aa - m_cr * on_reach / m_rr) / whole
    return (on_arm - m_ac * club) / m_aa, club, (on_reach - m_cr * club) / m_rr


@law
def head_pose(link: Links, limbs: Limbs) -> HeadPose:
    """Place and motion of the head, from those of the limbs."""
    ca, sa, cc, sc = cos(limbs.arm), sin(limbs.arm), cos(limbs.club), sin(limbs.club)
    r, length, sine = limbs.reach, link.length, link.sine
    x = link.hub_x + r * sa + length * sc
    y = link.hub_y - sine * (r * ca + length * cc)
    vx = limbs.reach_rate * sa + r * ca * limbs.arm_turn + length * cc * limbs.club_turn
    vy = sine * (-limbs.reach_rate * ca + r * sa * limbs.arm_turn + length * sc * limbs.club_turn)
    pitch = sine / (sc * sc + sine * sine * cc * cc)
    return HeadPose(x, y, lean_of(limbs.club, sine), vx, vy, pitch * limbs.club_turn, pitch)


@law
def halfway(limbs: Limbs, dt: float) -> Limbs:
    """Half a drift, with the speeds foreseen for the middle of the step."""
    h = 0.5 * dt
    return Limbs(
        limbs.arm + h * limbs.arm_turn,
        limbs.club + h * limbs.club_turn,
        limbs.reach + h * limbs.reach_rate,
        limbs.arm_turn + h * limbs.arm_up,
        limbs.club_turn + h * limbs.club_up,
        limbs.reach_rate + h * limbs.reach_up,
        limbs.arm_up, limbs.club_up, limbs.reach_up,
    )  # fmt: skip


@law
def kicked(
    link: Links, limbs: Limbs, mid: Limbs, drive: Drive, fx: float, fy: float, moment: float, pitch: float,
    dt: float,
) -> Limbs:  # fmt: skip
    """The limbs a step on: one kick by drive and load at the middle, and the second half of the drift."""
    lag = mid.arm - mid.club
    ca, sa, cc, sc = cos(mid.arm), sin(mid.arm), cos(mid.club), sin(mid.club)
    r, r1, av, cv = mid.reach, mid.reach_rate, mid.arm_turn, mid.club_turn
    cm, cs, length, sine = link.club_mass, link.club_moment, link.length, link.sine
    weight = GRAVITY * sine
    give = ARM_STIFFNESS * (drive.reach - r) + ARM_DAMPING * (drive.reach_rate - r1)
    arm_up, club_up, reach_up = accelerations(
        link, r, lag,
        drive.on_arm + (fx * r * ca + fy * sine * r * sa)
        - 2.0 * cm * r * r1 * av - r * cs * sin(lag) * cv * cv - (link.arm_moment + cm * r) * weight * sa,
        drive.on_club + (fx * length * cc + fy * sine * length * sc + moment * pitch)
        + cs * (r * av * av * sin(lag) - 2.0 * r1 * av * cos(lag)) - cs * weight * sc,
        drive.along + (fx * sa - fy * sine * ca) + give
        + cm * r * av * av + cs * cv * cv * cos(lag) + cm * weight * ca,
    )  # fmt: skip
    arm_turn = limbs.arm_turn + dt * arm_up
    club_turn = limbs.club_turn + dt * club_up
    reach_rate = limbs.reach_rate + dt * reach_up
    h = 0.5 * dt
    return Limbs(
        mid.arm + h * arm_turn, mid.club + h * club_turn, r + h * reach_rate,
        arm_turn, club_turn, reach_rate, arm_up, club_up, reach_up,
    )  # fmt: skip


@law
def rewound(limbs: Limbs, time: float) -> Limbs:
    """The limbs a moment (s, within the last step) earlier."""
    return Limbs(
        limbs.arm - time * limbs.arm_turn,
        limbs.club - time * limbs.club_turn,
        limbs.reach - time * limbs.reach_rate,
        limbs.arm_turn - time * limbs.arm_up,
        limbs.club_turn - time * limbs.club_up,
        limbs.reach_rate - time * limbs.reach_up,
        limbs.arm_up, limbs.club_up, limbs.reach_up,
    )  # fmt: skip


@law
def knocked(link: Links, limbs: Limbs, pitch: float, px: float, py: float, jx: float, jy: float) -> Limbs:
    """The limbs after the head gave the impulse (jx, jy) N s away at (px, py) m from its leading edge."""
    r, sine = limbs.reach, link.sine
    arm, club, out = accelerations(
        link, r, limbs.arm - limbs.club,
        -(jx * r * cos(limbs.arm) + jy * sine * r * sin(limbs.arm)),
        -link.length * (jx * cos(limbs.club) + jy * sine * sin(limbs.club)) - (px * jy - py * jx) * pitch,
        -(jx * sin(limbs.arm) - jy * sine * cos(limbs.arm)),
    )  # fmt: skip
    return Limbs(
        limbs.arm, limbs.club, r,
        limbs.arm_turn + arm, limbs.club_turn + club, limbs.reach_rate + out,
        limbs.arm_up, limbs.club_up, limbs.reach_up,
    )  # fmt: skip
