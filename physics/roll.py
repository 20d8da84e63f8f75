"""Sliding and rolling on one straight piece of ground, in closed form: no time steps.

u is the speed along the ground (+ toward the target), s the place along it, spin + for backspin.
Rolling without slip is u = -R spin. Slopes act on a solid sphere: 5/7 of gravity's pull while
rolling (rigid-body mechanics, derived).
"""

from math import cos, inf, sin, sqrt, tan
from typing import Any

from physics.compiled import law
from physics.constants import GRAVITY
from physics.equipment import BALL_RADIUS

__all__ = ["crossing", "reach_time", "roll_pull", "slide_pull", "slips", "slope_holds"]

_SLIP = 1e-9  # m/s, slower slip counts as rolling


@law
def slips(u: float, spin: float, tilt: float, surface: Any) -> int:
    """+1 or -1: way the touching point slides over the ground; 0 when the ball rolls.

    A rolling ball slides off a slope too steep for its grip: tan(tilt) > 7/2 mu (derived).
    """
    slip = u + BALL_RADIUS * spin
    if slip > _SLIP:
        return 1
    if slip < -_SLIP:
        return -1
    if abs(tan(tilt)) > 3.5 * surface.slide:
        return -1 if tilt > 0.0 else 1
    return 0


@law
def slide_pull(u: float, spin: float, way: int, tilt: float, surface: Any) -> tuple[float, float, float]:
    """Sliding the `way` given: acceleration (m/s2), rate of spin (rad/s2), time (s) until it rolls.

    Coulomb friction mu g on a solid sphere; on the level the slip of v + R spin dies in
    2 (v + R spin) / (7 mu g), leaving (5 v - 2 R spin) / 7 (derived; textbook result).
    """
    press = GRAVITY * cos(tilt)
    drag = way * surface.slide * press
    pull = -GRAVITY * sin(tilt)
    loss = 3.5 * surface.slide * press - way * pull  # rate at which |slip| falls
    time = abs(u + BALL_RADIUS * spin) / loss if loss > 0.0 else inf
    return pull - drag, -2.5 * drag / BALL_RADIUS, time


@law
def slope_holds(tilt: float, surface: Any) -> bool:
    """Whether a ball left on this slope stays: rolling resistance against 5/7 of the pull."""
    return bool(5.0 / 7.0 * abs(sin(tilt)) <= surface.roll * cos(tilt))


@law
def roll_pull(u: float, tilt: float, surface: Any) -> float:
    """Acceleration (m/s2) while rolling: resistance roll g against the motion, and the slope's pull."""
    pull = -5.0 / 7.0 * GRAVITY * sin(tilt)
    way = u if u != 0.0 else pull
    brake = float(surface.roll * GRAVITY * cos(tilt))
    return pull - brake if way > 0.0 else pull + brake


@law
def crossing(gap: float, u: float, a: float) -> float:
    """Time (s) until a mark `gap` >= 0 ahead is passed outward at speed u, acceleration a; or inf."""
    if gap <= 0.0:
        if u > 0.0 or (u == 0.0 and a > 0.0):
            return 0.0
        return -2.0 * u / a if a > 0.0 else inf
    square = u * u + 2.0 * a * gap
    if square < 0.0 or (u <= 0.0 and a <= 0.0):
        return inf
    root = sqrt(square)
    return 2.0 * gap / (u + root) if u >= 0.0 else (root - u) / a  # the form without cancellation


@law
def reach_time(s: float, u: float, a: float, first: float, last: float) -> tuple[float, int]:
    """Time until s leaves first..last, and by which end: -1 first, +1 last, 0 never."""
    ahead = crossing(last - s, u, a)
    back = crossing(s - first, -u, -a)
    if ahead == inf and back == inf:
        return inf, 0
    return (ahead, 1) if ahead <= back else (back, -1)
