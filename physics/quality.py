"""What a strike was, judged by what it did to the ball: solid, fat, thin, topped, splashed.

Two questions, kept apart. *Struck*: did the ball leave as the same stroke would send it with the head at
its intended height and no ground before the ball? *As set*: did it leave as the address promised, with
the lean that was set? A lean added by impact may be struck well and still not be as set. What the head
lost is a third figure, `head_loss`, and judges nothing.

Both compare launches by how far they would carry the ball: `distance_gap`. From sand the measure is
another: the same stroke, unspoilt, through the same sand (`Standard`), for there is no shot without it.
"""

from math import atan2, cos, hypot, log, sin
from typing import Any, NamedTuple

from physics.compiled import law
from physics.equipment import BALL_RADIUS
from physics.explosion import CARRIED
from physics.head import FACE_LENGTH, edge_centre
from physics.impact import oblique_impact
from physics.surfaces import SAND
from physics.swing import Links, arm_rate, edge, edge_velocity

__all__ = [
    "AS_FAR", "FAT", "MISSED", "NO_STANDARD", "SOLID", "SPLASHED", "THIN", "TOPPED", "TWICE", "Quality",
    "Standard", "clean_launch", "distance_gap", "quality_of",
]  # fmt: skip

MISSED, SOLID, FAT, THIN, TOPPED, SPLASHED, TWICE = range(7)
# A quarter more or less distance is what a golfer calls another shot (assumed): ln 1.25.
AS_FAR = 0.2231435513142098
# How the logarithm of distance changes: with that of speed, with launch angle (per rad) and with spin (per
# surface speed over ball speed). Derived by running the laws of flight and roll on a level green from
# launches of 35 to 61 degrees of loft at 4-12 m/s; tests/physics/test_quality.py does it again.
FURTHER_BY_SPEED = 1.9
SHORTER_BY_ANGLE = 0.85
SHORTER_BY_SPIN = 0.8


class Standard(NamedTuple):
    """What a stroke with nothing astray does to the ball in sand; zeros where there is no sand.

    Ball speed over intended head speed, launch angle (rad) and surface speed of the spin over head speed:
    as struck, and with the lean that was set.
    """

    struck_speed: float
    struck_angle: float
    struck_turn: float
    set_speed: float
    set_angle: float
    set_turn: float


class Quality(NamedTuple):
    """The judgement. Gaps are logarithms of distance, 0 as it should be, + further."""

    kind: int
    solid: int  # 1: struck solid, or splashed as it should
    as_set: int  # 1: solid, and the ball did what the address promised
    struck_gap: float
    set_gap: float
    head_loss: float  # share of the intended head speed that ground took before the ball


NO_STANDARD = Standard(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


@law
def distance_gap(
    speed: float, angle: float, turn: float, speed0: float, angle0: float, turn0: float
) -> float:
    """Logarithm of how much further a launch goes than another, about: both on one green.

    Ball speed (m/s), launch angle (rad) and surface speed of the backspin (m/s).
    """
    slow = max(speed0, 1e-3)
    return (
        FURTHER_BY_SPEED * log(max(speed, 1e-3) / slow)
        - SHORTER_BY_ANGLE * (angle - angle0)
        - SHORTER_BY_SPIN * (turn - turn0) / slow
    )


@law
def clean_launch(
    link: Links, loft: float, lean: float, edge_radius: float, head_mass: float, mu: float, raised: float
) -> tuple[float, float, float]:
    """Speed (m/s), launch angle (rad) and surface speed of the spin (m/s) of the intended blow with that
    lean, face on ball, nothing between.

    `raised`: how far the ball's lowest point lies over the ground (m).
    """
    _, y, _ = edge(link, link.arm_ball)
    vx, vy = edge_velocity(link, link.arm_ball)
    turn = link.release * arm_rate(link, link.arm_ball) * link.sine
    nx, ny = cos(loft - lean), sin(loft - lean)
    cx, cy = edge_centre(edge_radius, lean)
    # up the face to the point whose normal goes through the ball's middle; not below the face's foot
    rise = (raised + BALL_RADIUS - y - cy) - (BALL_RADIUS + edge_radius) * ny
    along = min(max(rise / max(nx, 0.1), 0.0), FACE_LENGTH)
    px, py = cx + edge_radius * nx - along * ny, cy + edge_radius * ny + along * nx
    bx, by, spin, _, _ = oblique_impact(vx - turn * py, vy + turn * px, nx, ny, head_mass, mu, 1.0)
    return hypot(bx, by), atan2(by, bx), spin * BALL_RADIUS


@law
def _kind(met: int, double: int, gap: float, lead: float, film: float, sand: bool) -> int:
    """The name of a strike whose launch was off by `gap`."""
    if met == 0 or met == 3:
        return TOPPED if met == 3 else MISSED
    if double == 1:
        return TWICE
    if abs(gap) <= AS_FAR:
        return SPLASHED if sand and film > CARRIED else SOLID
    if sand and film > CARRIED:
        return FAT if gap < 0.0 else THIN
    return FAT if met == 1 and gap < 0.0 and lead > 0.0 else THIN


@law
def quality_of(
    club: Any, surface: Any, lift: float, link: Links, loft: float, blow: Any, standard: Standard
) -> Quality:
    """Judge a strike. `loft` of the opened face (rad), `blow` of `strike_ball`, `standard` for sand."""
    if blow.met == 0:
        return Quality(MISSED, 0, 0, -9.0, -9.0, 1.0)
    speed, angle = hypot(blow.ball_vx, blow.ball_vy), atan2(blow.ball_vy, blow.ball_vx)
    turn = blow.spin * BALL_RADIUS
    sand = surface.kind == SAND and standard.struck_speed > 0.0
    if sand:
        v, k = blow.speed_before, standard
        struck = distance_gap(speed, angle, turn, k.struck_speed * v, k.struck_angle, k.struck_turn * v)
        as_set = distance_gap(speed, angle, turn, k.set_speed * v, k.set_angle, k.set_turn * v)
    else:
        raised, mass, mu = surface.ball_raise + lift, club.head_mass, surface.face_friction
        edge_radius = club.edge_radius
        v0, a0, w0 = clean_launch(link, loft, link.delivered, edge_radius, mass, mu, raised)
        v1, a1, w1 = clean_launch(link, loft, link.promised, edge_radius, mass, mu, raised)
        struck = distance_gap(speed, angle, turn, v0, a0, w0)
        as_set = distance_gap(speed, angle, turn, v1, a1, w1)
    kind = _kind(blow.met, blow.double, struck, blow.lead, blow.cushion, sand)
    solid = 1 if kind in (SOLID, SPLASHED) else 0
    return Quality(
        kind, solid, 1 if solid == 1 and abs(as_set) <= AS_FAR else 0, struck, as_set,
        1.0 - blow.speed_at_ball / blow.speed_before,
    )  # fmt: skip
