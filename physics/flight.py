"""Air: drag, lift, spin decay and wind on a flying ball, and the fixed step that carries it on.

State is x, y (centre, m), vx, vy (m/s) and spin (rad/s, + backspin for a ball going to +x).
Below 18 m/s the drag of two golf balls differs by 0.1 and more (Lyu, Kensrud et al. 2018), so
the simplest textbook laws are used and the spread is owned up to, not fitted away.
"""

from math import log, log1p, pi, sqrt

from physics.compiled import law
from physics.constants import GRAVITY
from physics.equipment import BALL_MASS, BALL_RADIUS

__all__ = ["AIR_DENSITY", "FLIGHT_STEP", "ROUGHNESS", "air_force", "fly_step", "hermite", "wind_at"]

AIR_DENSITY = 1.204  # kg/m3 at 20 C, sea level
ROUGHNESS = 0.01  # m, roughness length of short grass; common practice, assumed
WIND_HEIGHT = 10.0  # m, height at which a wind is told (meteorological practice)
FLIGHT_STEP = 0.010  # s; keeps the landing within 1 mm of an exact solution (tests/published)
DRAG_LOW = 0.5  # below DRAG_SPEED; Giordano & Nakanishi, Computational Physics (from memory)
DRAG_SPEED = 14.0  # m/s, above it the coefficient is 7/v; same source
SPIN_DECAY = 8.95e-4  # 1/m; derived from 0.0004 per mph and second (Dewhurst 2015)

_PUSH = AIR_DENSITY * pi * BALL_RADIUS**2 / (2.0 * BALL_MASS)  # 1/m, rho A / 2m
_WIND_SHARE = 1.0 / log(1.0 + WIND_HEIGHT / ROUGHNESS)


@law
def wind_at(height: float, wind: float) -> float:
    """Wind (m/s) at a height (m) over the ground; neutral log law through `wind` at 10 m, 0 at 0."""
    if wind == 0.0 or height <= 0.0:
        return 0.0
    return wind * log1p(height / ROUGHNESS) * _WIND_SHARE


@law
def air_force(height: float, vx: float, vy: float, spin: float, wind: float) -> tuple[float, float, float]:
    """Acceleration x, y (m/s2), gravity included, and rate of spin (rad/s2).

    Forces go with the velocity through the air: C_D as above; C_L = S/(2S + 1), S = R spin/v
    (Cross, sports balls, from memory), at right angles, up for backspin.
    """
    rx = vx - wind_at(height, wind)
    v = sqrt(rx * rx + vy * vy)
    if v < 1e-9:
        return 0.0, -GRAVITY, 0.0
    rim = BALL_RADIUS * spin
    lift = rim / (2.0 * abs(rim) + v)
    drag = DRAG_LOW if v <= DRAG_SPEED else DRAG_LOW * DRAG_SPEED / v
    push = _PUSH * v
    ax = push * (-drag * rx - lift * vy)
    ay = push * (-drag * vy + lift * rx) - GRAVITY
    return ax, ay, -SPIN_DECAY * v * spin


@law
def fly_step(
    x: float, y: float, vx: float, vy: float, spin: float, h: float, wind: float, floor: float
) -> tuple[float, float, float, float, float]:
    """State after h seconds, one classical Runge-Kutta step. `floor`: ground height (m) under the ball."""
    z = y - floor
    ax1, ay1, as1 = air_force(z, vx, vy, spin, wind)
    k = 0.5 * h
    vx2, vy2 = vx + k * ax1, vy + k * ay1
    ax2, ay2, as2 = air_force(z + k * vy, vx2, vy2, spin + k * as1, wind)
    vx3, vy3 = vx + k * ax2, vy + k * ay2
    ax3, ay3, as3 = air_force(z + k * vy2, vx3, vy3, spin + k * as2, wind)
    vx4, vy4 = vx + h * ax3, vy + h * ay3
    ax4, ay4, as4 = air_force(z + h * vy3, vx4, vy4, spin + h * as3, wind)
    s = h / 6.0
    return (
        x + s * (vx + 2.0 * (vx2 + vx3) + vx4),
        y + s * (vy + 2.0 * (vy2 + vy3) + vy4),
        vx + s * (ax1 + 2.0 * (ax2 + ax3) + ax4),
        vy + s * (ay1 + 2.0 * (ay2 + ay3) + ay4),
        spin + s * (as1 + 2.0 * (as2 + as3) + as4),
    )


@law
def hermite(q: float, h: float, p0: float, v0: float, p1: float, v1: float) -> tuple[float, float]:
    """Place and speed at share q in 0..1 of a step h: cubic through both ends (Hermite)."""
    d = p1 - p0
    a = h * v0 - d
    b = d - h * v1
    r = 1.0 - q
    place = r * p0 + q * p1 + q * r * (r * a + q * b)
    speed = d + (r - q) * (r * a + q * b) + q * r * (b - a)
    return place, speed / h
