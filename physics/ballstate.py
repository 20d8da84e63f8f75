"""The ball at one instant, as the parts of its run hand it to one another."""

from dataclasses import dataclass

__all__ = ["BallState"]


@dataclass(frozen=True)
class BallState:
    """Ball's centre (m), velocity (m/s) and spin (rad/s, + backspin) at time t (s)."""

    t: float
    x: float
    y: float
    vx: float
    vy: float
    spin: float
