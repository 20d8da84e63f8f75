"""Rows of a run's log: the ball at one instant and the phase it is in. Picture only, never a result."""

import numpy as np
from numpy.typing import NDArray

from physics.compiled import law

__all__ = [
    "AT_STICK", "BOUNCING", "FLYING", "NO_LOG", "RESTING", "ROLLING", "SLIDING", "TOUCHING", "Floats",
    "Instant", "log_row",
]  # fmt: skip

Floats = NDArray[np.float64]
Instant = tuple[float, float, float, float, float, float]  # t, x, y, vx, vy, spin

FLYING, BOUNCING, SLIDING, ROLLING, TOUCHING, RESTING = 0.0, 1.0, 2.0, 3.0, 4.0, 5.0
AT_STICK = 6.0  # touching, and it was the flagstick that turned the ball since the row before
NO_LOG = np.zeros((0, 7))  # hand it to a law as an argument: as a global it would be read-only


@law
def log_row(log: Floats, n: int, state: Instant, phase: float) -> int:
    """Write one row; a full log keeps its newest row last."""
    if log.shape[0] == 0:
        return 0
    row = min(n, int(log.shape[0]) - 1)
    for k in range(6):
        log[row, k] = state[k]
    log[row, 6] = phase
    return row + 1
