"""A landing on turf or sand: the rigid bounce off ground that the ball itself has tilted.

Penner 2002, "The run of a golf ball" (coefficients from memory); slip or roll while touching after
Daish. Measured bounces (Biber et al. 2023) scatter widely about this law: a baseline, not truth.
"""

from math import atan2, cos, hypot, radians, sin
from typing import Any

from physics.compiled import law
from physics.equipment import BALL
from physics.surfaces import SAND

__all__ = ["SETTLE", "crater_tilt", "land", "plugs", "restitution", "settles"]

_TILT = radians(15.4)  # ground turned by a landing at _TILT_SPEED and _TILT_ANGLE; Penner 2002
_TILT_SPEED = 18.6  # m/s
_TILT_ANGLE = radians(44.4)  # from the normal
_SOFTEST = 0.12  # restitution at 20 m/s and above; Penner 2002
_LIVELIEST = 0.95  # no turf gives more back, assumed
SETTLE = 0.12  # m/s, a slower rebound ends the bounces, assumed (0.7 mm high)
PLUG_ANGLE = radians(35.0)  # from the normal: steeper into sand stays there, assumed
PLUG_REBOUND = 0.5  # m/s, unless the sand throws it out faster than this, assumed
_RADIUS = BALL.radius


@law
def restitution(speed: float) -> float:
    """Normal restitution of reference turf at a normal speed (m/s); Penner 2002."""
    return 0.510 - 0.0375 * speed + 0.000903 * speed * speed if speed <= 20.0 else _SOFTEST


@law
def crater_tilt(speed: float, angle: float) -> float:
    """Turn of reference turf (rad) under a landing at `speed` and `angle` from the normal (rad, >= 0).

    Penner's rule grows with the angle up to the 44.4 degrees it was given at. A flatter ball digs
    less: from there the turn goes down with its normal speed (assumed), or a skimming ball
    would leave faster upward than it came.
    """
    tilt = _TILT * (speed / _TILT_SPEED) * (angle / _TILT_ANGLE)
    if angle > _TILT_ANGLE:
        tilt *= max(0.0, cos(angle)) / cos(_TILT_ANGLE)
    return min(tilt, angle)


@law
def _rebound(along: float, into: float, spin: float, surface: Any) -> tuple[float, float, float]:
    """Bounce off level ground for a ball with along >= 0 and into > 0: along, up (m/s), spin."""
    speed, angle = hypot(along, into), atan2(along, into)
    tilt = min(angle, crater_tilt(speed, angle) * surface.crater)
    vx, vy = speed * sin(angle - tilt), speed * cos(angle - tilt)
    e = min(_LIVELIEST, max(0.0, restitution(vy) * surface.bounce))
    slip = vx + _RADIUS * spin
    grip = 2.0 * abs(slip) / (7.0 * (1.0 + e) * vy)
    if surface.bounce_friction < grip:
        push = surface.bounce_friction * (1.0 + e) * vy * (1.0 if slip > 0.0 else -1.0)
        rx, out = vx - push, spin - 2.5 * push / _RADIUS
    else:
        rx = (5.0 * vx - 2.0 * _RADIUS * spin) / 7.0
        out = -rx / _RADIUS
    up = rx * sin(tilt) + e * vy * cos(tilt)
    # The tilt is a stand-in for the crater, the ground is not really turned: with strong backspin
    # the formula can send the ball into it, and a skimming one up faster than it came. Neither
    # can be; clamping only takes energy away from the first, and keeps the second passive.
    up = min(max(up, 0.0), _LIVELIEST * into)
    return rx * cos(tilt) - e * vy * sin(tilt), up, out


@law
def land(vx: float, vy: float, spin: float, tilt: float, surface: Any) -> tuple[float, float, float]:
    """Velocity and spin after meeting ground tilted by `tilt` (rad); unchanged if not moving into it."""
    c, s = cos(tilt), sin(tilt)
    along, into = vx * c + vy * s, vx * s - vy * c
    if into <= 0.0:
        return vx, vy, spin
    side = 1.0 if along >= 0.0 else -1.0
    out, up, turn = _rebound(side * along, into, side * spin, surface)
    out *= side
    return out * c - up * s, out * s + up * c, side * turn


@law
def settles(vx: float, vy: float, tilt: float) -> bool:
    """Whether a rebound is too slow off the ground to count as a bounce."""
    return vy * cos(tilt) - vx * sin(tilt) < SETTLE


@law
def plugs(vx: float, vy: float, rebound: float, tilt: float, surface: Any) -> bool:
    """Whether a ball that came with (vx, vy) and would leave at `rebound` (m/s, normal) stays in the sand."""
    into = vx * sin(tilt) - vy * cos(tilt)
    along = abs(vx * cos(tilt) + vy * sin(tilt))
    return bool(surface.kind == SAND and rebound < PLUG_REBOUND and atan2(along, into) < PLUG_ANGLE)
