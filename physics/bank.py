"""One bank of strokes for every player: played once, then weighed anew for whoever is asked about.

Strays are drawn from many players at once and played by the same laws as any shot. What a player would
do follows from weights p(stray | player) / q(stray), q the mixture the strays were drawn from (balance
heuristic; Veach & Guibas 1995; Owen, Monte Carlo theory, ch. 9): no stroke is played again.

A player is a row of numbers: the logarithms of the seven standard deviations of `Spread`, in its order,
then two habits: by how much the average stroke is too fast (share) and too high (m). Many players are an
array (m, 9). Strokes are held at three standard deviations when drawn; the densities here leave that out,
one stroke in 50 of seven normal parts.
"""

from collections.abc import Iterator
from dataclasses import astuple
from math import log, pi

import numpy as np
from numpy.typing import NDArray

from physics.spread import MOST, Spread

__all__ = [
    "HABIT_SPEED", "HABIT_UP", "PARTS", "ROW", "effective", "in_pieces", "log_density", "log_mixture",
    "player_row", "row_spread", "row_strays", "stray_weights",
]  # fmt: skip

Floats = NDArray[np.float64]
PARTS = ("speed", "along", "up", "lean", "face", "drop", "aim")
ROW = len(PARTS) + 2
HABIT_SPEED, HABIT_UP = len(PARTS), len(PARTS) + 1
LEAST = 1e-6  # smallest standard deviation a row can hold: the machine's nought
AIM = PARTS.index("aim")
AT_ONCE = 4_000_000  # densities held at a time: a large bank under many players would fill the machine


def player_row(spread: Spread) -> Floats:
    """The row of a player without habits, shape (9,).

    >>> from physics.spread import PLAYERS
    >>> row_spread(player_row(PLAYERS["club"]), "club", "club player").up
    0.0035
    """
    scale = np.array(astuple(spread)[2:9], dtype=np.float64)
    return np.concatenate([np.log(np.maximum(scale, LEAST)), [0.0, 0.0]])


def row_spread(row: Floats, name: str, label: str, putter: str = "ninety") -> Spread:
    """The spread of a row; its habits are left out."""
    scale = {part: float(f"{v:.6g}") for part, v in zip(PARTS, np.exp(row), strict=False)}
    return Spread(name, label, putter=putter, **scale)


def row_strays(rows: Floats, seed: int, count: int) -> Floats:
    """`count` strokes of players who take turns, shape (count, 7) in the order of Stray.

    >>> from physics.spread import PLAYERS, draw_strays
    >>> one = player_row(PLAYERS["club"])[None, :]
    >>> bool(np.allclose(row_strays(one, 3, 50), draw_strays(PLAYERS["club"], 3, 50)))
    True
    """
    whose = rows[np.arange(count) % len(rows)]
    normal = np.random.default_rng(seed).standard_normal((count, len(PARTS)))
    strays: Floats = np.clip(normal, -MOST, MOST) * np.exp(whose[:, : len(PARTS)])
    strays[:, 0] += 1.0 + whose[:, HABIT_SPEED]
    strays[:, 2] += whose[:, HABIT_UP]
    return strays


def log_density(strays: Floats, rows: Floats, aim: bool = True) -> NDArray[np.float32]:
    """Logarithm of each stray's density under each player, shape (n, m); without `aim`, of the other six.

    A sum of squares taken apart into one product of matrices.
    """
    parts = len(PARTS) if aim else AIM
    off = strays[:, :parts].copy()
    off[:, 0] -= 1.0
    mean = np.zeros((len(rows), parts))
    mean[:, 0], mean[:, 2] = rows[:, HABIT_SPEED], rows[:, HABIT_UP]
    unit = np.exp(np.median(rows[:, :parts], axis=0))  # keeps single precision far from its ends
    off, mean, scale = off / unit, mean / unit, np.exp(rows[:, :parts]) / unit
    near = 1.0 / scale**2
    constant = -0.5 * (mean**2 * near).sum(1) - rows[:, :parts].sum(1) - 0.5 * parts * log(2.0 * pi)
    features = np.hstack([off**2, off]).astype(np.float32)
    factors = np.hstack([-0.5 * near, mean * near]).astype(np.float32)
    found: NDArray[np.float32] = features @ factors.T
    found += constant.astype(np.float32)
    return found


def log_mixture(strays: Floats, rows: Floats, aim: bool = True) -> Floats:
    """Logarithm of the density of strays whose players took turns, shape (n,)."""
    out = np.empty(len(strays))
    for piece in in_pieces(len(strays), len(rows)):
        each = log_density(strays[piece], rows, aim).astype(np.float64)
        most = each.max(axis=1)
        out[piece] = most + np.log(np.exp(each - most[:, None]).mean(axis=1))
    return out


def in_pieces(strokes: int, players: int) -> Iterator[slice]:
    """Strokes in pieces of which AT_ONCE densities, but one stroke at least, are held at a time.

    >>> [(p.start, p.stop) for p in in_pieces(10, AT_ONCE // 4)]
    [(0, 4), (4, 8), (8, 12)]
    """
    step = max(AT_ONCE // players, 1)
    return (slice(start, start + step) for start in range(0, strokes, step))


def stray_weights(strays: Floats, drawn_from: Floats, rows: Floats) -> Floats:
    """What each stroke counts for each player, shape (n, m), every column in all 1."""
    ratio = log_density(strays, rows).astype(np.float64) - log_mixture(strays, drawn_from)[:, None]
    weights = np.exp(ratio - ratio.max(axis=0))
    return np.asarray(weights / weights.sum(axis=0))


def effective(weights: Floats) -> float:
    """How many equal strokes (or players) so many weighted ones are worth (Kish 1965)."""
    total = float(weights.sum())
    return total * total / float((weights * weights).sum()) if total > 0.0 else 0.0
