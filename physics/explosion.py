"""The explosion shot: a wedge of sand ploughed by the face carries the ball.

An edge under the ball pushes a wedge of grains up a shear plane (Percier et al. 2011; Gravish,
Umbanhowar & Goldman 2014). The plane is the one of least force of the earth-moving equation with its
momentum term, so the wedge's speed and the drag on the head belong together (`physics.cutting`). Two
stages carry the ball (derived; magnitudes assumed, no measurement of ball speed from sand is published):

1. The wedge reaches the ball and its stream drags it along: C rho A v^2 with the relative speed, as for
   a dense granular jet that stagnates on a body (Holloman, Deshpande & Wadley 2015).
2. The sand left between face and ball is packed and hands on the rest: an almost dead blow along the
   face's normal, rubbing as sand does. With a few grains left the clean blow comes back.
"""

from math import exp, hypot, pi, sin, sqrt
from typing import Any

from physics.compiled import law
from physics.equipment import BALL_RADIUS

__all__ = ["CARRIED", "packed_film", "sand_blow", "stream_force", "wedge_speed"]

DRAG = 1.2  # of a body in a stream of grains, 1-2 (from memory)
FILM_SHARE = 0.30  # of the edge's depth that stays between face and ball once packed, assumed
DEAD = 1.5e-3  # m of packed sand, about three grains, that takes 63 % of the rebound, assumed
SQUARE = 2.0e-3  # m of it that turns the blow from the nearest point to the face's normal, assumed
CARRIED = 2.0e-3  # m of packed sand from which the sand, not the club, plays the ball, assumed


@law
def wedge_speed(speed: float, rake: float, beta: float) -> float:
    """Speed (m/s) of the wedge up its shear plane, `beta` over the horizontal, before a face of that rake.

    The triangle of speeds of metal cutting: v sin a / sin(a + b) (derived).
    """
    return speed * sin(rake) / sin(rake + beta)


@law
def stream_force(
    depth: float,
    ahead: float,
    over: float,
    speed: float,
    rake: float,
    beta: float,
    vx: float,
    vy: float,
    density: float,
) -> tuple[float, float]:
    """Force (N) of the wedge on a ball that moves with (vx, vy), its near lower side `ahead` of the edge
    and its lowest point `over` the edge.

    None before the shear plane has come under the ball, nor once the ball has left the stream. The
    stream is as thick as continuity makes it, and presses on the share of the ball's section it covers.
    """
    if depth <= 0.0 or speed <= 0.0 or ahead * sin(beta) > depth * sqrt(1.0 - sin(beta) ** 2):
        return 0.0, 0.0
    v = wedge_speed(speed, rake, beta)
    if over > depth * speed / v or ahead < -2.0 * BALL_RADIUS:
        return 0.0, 0.0
    wx, wy = v * sqrt(1.0 - sin(beta) ** 2) - vx, v * sin(beta) - vy
    thick = depth * speed / v
    area = pi * BALL_RADIUS * BALL_RADIUS * min(1.0, thick / (2.0 * BALL_RADIUS))
    push = DRAG * density * area * hypot(wx, wy)
    return (push * wx, push * wy) if wx > 0.0 else (0.0, 0.0)


@law
def packed_film(depth: float) -> float:
    """Sand (m) that stays packed between face and ball for an edge `depth` under the sand."""
    return FILM_SHARE * max(depth, 0.0)


@law
def sand_blow(
    film: float, near_x: float, near_y: float, face_x: float, face_y: float, surface: Any
) -> tuple[float, float, float, float]:
    """Normal (unit), friction and rebound scale of a blow through `film` m of packed sand.

    Without sand: the nearest point, the clean friction, the whole rebound.
    """
    bare = exp(-film / SQUARE)
    nx, ny = bare * near_x + (1.0 - bare) * face_x, bare * near_y + (1.0 - bare) * face_y
    long = hypot(nx, ny)
    steel = sin(surface.steel_angle) / sqrt(1.0 - sin(surface.steel_angle) ** 2)
    rubbing = steel + (surface.face_friction - steel) * exp(-film / DEAD)
    return nx / long, ny / long, rubbing, exp(-film / DEAD)
