"""How far one stroke strays from the intention: three illustrative players.

No published spreads of low point, height or lean exist for chipping. The presets are assumed; only
their order (speed 2-3 % to 8-10 %, more for less practised players) has support in the putting
literature. The club player's height and drop spreads were set on fairway: a matched chip is solid
between 8 and 9 times in 10, a low runner 8, a high soft shot 3 in 4 (common practice: 8 in 10). They
were not set to any other surface. Show them as illustrative.
"""

from dataclasses import astuple, dataclass
from math import radians

import numpy as np
from numpy.typing import NDArray

__all__ = ["EXACT", "PLAYERS", "Spread", "Stray", "draw_strays"]


@dataclass(frozen=True)
class Spread:
    """Standard deviations of one player's strokes (SI, rad)."""

    name: str
    label: str
    speed: float  # share of the head speed
    along: float  # m, low point along the line
    up: float  # m, height of the low point
    lean: float  # shaft lean at the ball
    face: float  # face opening
    drop: float  # share of lost reach made up: the further from address, the less sure the ground
    aim: float  # start line; only how far beside the hole the ball passes
    putter: str = "ninety"  # who putts out: a name of physics.putting.PUTTERS


@dataclass(frozen=True)
class Stray:
    """What one stroke did differently. `speed` is a factor, `drop` and the rest are added."""

    speed: float = 1.0
    along: float = 0.0
    up: float = 0.0
    lean: float = 0.0
    face: float = 0.0
    drop: float = 0.0
    aim: float = 0.0


EXACT = Spread("exact", "machine (no spread)", 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, "tour")
PLAYERS: dict[str, Spread] = {
    s.name: s
    for s in (
        EXACT,
        Spread(
            "steady", "steady", 0.04, 0.008, 0.002, radians(1.0), radians(1.0), 0.20, radians(1.5), "tour"
        ),
        Spread("club", "club player", 0.08, 0.016, 0.0035, radians(2.5), radians(2.0), 0.40, radians(2.5)),
        Spread("beginner", "beginner", 0.14, 0.035, 0.009, radians(4.0), radians(3.5), 0.60, radians(4.0)),
    )
}
MOST = 3.0  # standard deviations at which a draw is held: a stroke beyond is another shot, assumed


def draw_strays(spread: Spread, seed: int, count: int) -> NDArray[np.float64]:
    """`count` strokes of a player, shape (count, 7) in the order of Stray; same seed, same strokes.

    >>> draw_strays(PLAYERS["club"], seed=1, count=5).shape
    (5, 7)
    """
    normal = np.random.default_rng(seed).standard_normal((count, 7))
    scale = np.array(astuple(spread)[2:9], dtype=np.float64)
    strays: NDArray[np.float64] = np.clip(normal, -MOST, MOST) * scale
    strays[:, 0] += 1.0
    return strays
