"""A landing on turf or sand: the rigid bounce off ground that the ball itself has tilted.

Penner 2002, "The run of a golf ball" (coefficients from memory); slip or roll while touching after
Daish. Measured bounces (Biber et al. 2023) scatter widely about this law: a baseline, not truth.
"""

from math import atan2, cos, hypot, radians, sin
from typing import Any

from physics.compiled import law
from physics.equipment import BALL_RADIUS
from physics.surfaces import SAND

__all__ = ["SETTLE", "crater_tilt", "land", "plugs", "settles", "turf_restitution"]

_TILT = radians(15.4)  # ground turned by a landing at _TILT_SPEED and _TILT_ANGLE; Penner 2002
_TILT_SPEED = 18.6  # m/s
_TILT_ANGLE = radians(44.4)  # from the normal
_SOFTEST = 0.12  # restitution at 20 m/s and above; Penner 2002
_LIVELIEST = 0.95  # no turf gives more back, assumed
_SKIM = radians(18.0)  # from the ground: flatter landings make less and less of a crater, assumed
SETTLE = 0.12  # m/s, a slower rebound ends the bounces, assumed (0.7 mm high)
PLUG_ANGLE = radians(35.0)  # from the normal: steeper into sand stays there, assumed
PLUG_REBOUND = 0.5  # m/s, unless the sand throws it out faster than this, assumed
_TRIES, _CLOSE = 40, 1e-9  # for the greatest tilt allowed: most tries, share of the speed into the ground
_LEVEL = radians(90.0)


@law
def turf_restitution(speed: float) -> float:
    """Normal restitution of reference turf at a normal speed (m/s); Penner 2002."""
    return 0.510 - 0.0375 * speed + 0.000903 * speed * speed if speed <= 20.0 else _SOFTEST


@law
def crater_tilt(speed: float, angle: float) -> float:
    """Turn of reference turf (rad) by a landing at `speed` and `angle` from the normal (rad); Penner 2002."""
    return _TILT * (speed / _TILT_SPEED) * (angle / _TILT_ANGLE)


@law
def _turned(along: float, into: float, spin: float, tilt: float, surface: Any) -> tuple[float, float, float]:
    """Bounce off ground turned by `tilt` (rad) towards the ball: along, up (m/s), spin; gains no energy."""
    c, s = cos(tilt), sin(tilt)
    vx, vy = along * c - into * s, along * s + into * c
    e = min(_LIVELIEST, max(0.0, turf_restitution(vy) * surface.bounce))
    slip = vx + BALL_RADIUS * spin
    grip = 2.0 * abs(slip) / (7.0 * (1.0 + e) * vy)
    if surface.bounce_friction < grip:
        push = surface.bounce_friction * (1.0 + e) * vy * (1.0 if slip > 0.0 else -1.0)
        rx, out = vx - push, spin - 2.5 * push / BALL_RADIUS
    else:
        rx = (5.0 * vx - 2.0 * BALL_RADIUS * spin) / 7.0
        out = -rx / BALL_RADIUS
    return rx * c - e * vy * s, rx * s + e * vy * c, out


@law
def _rebound(along: float, into: float, spin: float, surface: Any) -> tuple[float, float, float]:
    """Bounce off level ground for a ball with along >= 0 and into > 0: along, up (m/s), spin.

    The tilt is a stand-in for the crater, the ground is not really turned: the formula can send a
    skimming ball up faster than it came, and one with much backspin into the ground. Neither can be.
    There the ground turns only as far as the rebound allows: a lesser tilt is still a bounce off
    rigid ground, so nothing gains energy. Below 18 degrees what may be given back falls from
    _LIVELIEST to the turf's own restitution at 0: a grazing ball leaves no crater, and hops die out.
    Steeper landings at chip speeds are the published law. Over some 12 m/s the formula turns skimmed
    ground by 20 degrees and more, far outside its data, and the limit sets in with a jump.
    """
    angle = atan2(along, into)
    tilt = min(angle, crater_tilt(hypot(along, into), angle) * surface.crater)
    out = _turned(along, into, spin, tilt, surface)
    own = min(_LIVELIEST, max(0.0, turf_restitution(into) * surface.bounce))
    most = into * (own + (_LIVELIEST - own) * min(1.0, (_LEVEL - angle) / _SKIM))
    if 0.0 <= out[1] <= most:
        return out
    side, goal = (1.0, most) if out[1] > most else (-1.0, 0.0)
    low, high = 0.0, tilt  # rule of false position, Illinois form, from the side that is allowed
    over = side * (out[1] - goal)
    out = _turned(along, into, spin, low, surface)  # up at e times its speed into the ground
    under = side * (out[1] - goal)
    for _ in range(_TRIES):
        mid = (low * over - high * under) / (over - under)
        there = _turned(along, into, spin, mid, surface)
        gap = side * (there[1] - goal)
        if gap > 0.0:
            high, over, under = mid, gap, 0.5 * under
        else:
            low, out, under, over = mid, there, gap, 0.5 * over
            if gap > -_CLOSE * into:
                break
    return out


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
