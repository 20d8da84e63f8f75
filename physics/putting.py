"""How many more strokes a leave is worth: chance to hole a putt, putts and strokes to hole out.

Two-error model of Broadie 2012 (Interfaces 42(2), eq. 5): direction and length of a putt err
independently; it drops if its line meets the hole and it would stop 0 to 2/3 yd past. The
strokes from other lies are Table 9 of the same paper (tour players 2003-2010).
"""

from dataclasses import dataclass
from functools import lru_cache
from math import atan, erf, radians, sqrt

import numpy as np
from numpy.typing import NDArray

from physics.compiled import law
from physics.constants import YARD
from physics.surfaces import SURFACES

__all__ = [
    "PUTTERS", "Putter", "expected_putts", "expected_strokes", "lost_ball_strokes", "make", "make_chance",
    "putting_lie", "putts_table", "strokes_left",
]  # fmt: skip

Floats = NDArray[np.float64]

HOLE_YARDS = 2.125 / 36.0  # Rules of Golf: 4.25 in across
PAST = 0.5  # yd past the hole a putt is aimed; Broadie 2012
HOLED_UP_TO = 2.0 / 3.0  # yd past the hole a putt on line still drops; Broadie 2012


@dataclass(frozen=True)
class Putter:
    """A player's two errors."""

    name: str
    direction: float  # rad, standard deviation of the line
    distance: float  # standard deviation of the length, share of the aimed length


PUTTERS: dict[str, Putter] = {
    p.name: p
    for p in (
        Putter("tour", radians(1.46), 0.057),  # Broadie 2012
        Putter("scratch", radians(1.92), 0.050),  # derived, fitted to one-putt shares from memory
        Putter("ninety", radians(2.36), 0.080),  # likewise, for a player who scores 90
    )
}


@law
def _phi(z: float) -> float:
    """Normal distribution function."""
    return 0.5 * (1.0 + erf(z / sqrt(2.0)))


@law
def make_chance(distance: float, direction: float, spread: float) -> float:
    """Chance to hole a putt of `distance` (m); errors as in Putter. Broadie 2012, eq. 5."""
    d = max(distance, 1e-9) / YARD
    line = 2.0 * _phi(atan(HOLE_YARDS / d) / direction) - 1.0
    sd = spread * (d + PAST)
    return line * (_phi((HOLED_UP_TO - PAST) / sd) - _phi(-PAST / sd))


def make(distance: float, player: Putter) -> float:
    """Chance to hole a putt of `distance` (m)."""
    return make_chance(distance, player.direction, player.distance)


# ---- putts to hole out

GRID_STEP = 0.05  # sqrt(m) between rows of the table
GRID_ROWS = 161  # up to 8^2 = 64 m
NODES = 33  # of each error, over +-4 standard deviations
SETTLED = 1e-10  # strokes, change between rounds that ends the iteration


def _leaves(distance: float, player: Putter) -> tuple[Floats, Floats]:
    """Distances (m) left by the putts that miss, and the chance of each."""
    z = np.linspace(-4.0, 4.0, NODES)
    weight = np.exp(-0.5 * z * z)
    weight /= weight.sum()
    aimed = distance + PAST * YARD
    length = aimed * (1.0 + player.distance * z)[:, None]
    line = player.direction * z[None, :]
    left = np.hypot(length * np.cos(line) - distance, length * np.sin(line))
    share = weight[:, None] * weight[None, :]
    past = (length - distance) / YARD
    on_line = np.abs(line) <= atan(HOLE_YARDS * YARD / max(distance, 1e-9))
    missed = share * ~(on_line & (past >= 0.0) & (past <= HOLED_UP_TO))
    total = missed.sum()
    return left.ravel(), (missed / total if total > 0.0 else share).ravel()


@lru_cache(maxsize=16)
def _table(player: Putter) -> Floats:
    grid = (np.arange(GRID_ROWS) * GRID_STEP) ** 2
    miss = [1.0 - make(float(d), player) for d in grid]
    leaves = [_leaves(float(d), player) for d in grid]
    putts = np.ones(GRID_ROWS)
    change = 1.0
    while change > SETTLED:  # a contraction: the chance to miss is below 1 everywhere
        after = [float(np.sum(p * np.interp(left, grid, putts))) for left, p in leaves]
        new = 1.0 + np.array(miss) * np.array(after)
        change = float(np.max(np.abs(new - putts)))
        putts = new
    putts.flags.writeable = False
    return putts


def putts_table(player: Putter) -> Floats:
    """Expected putts to hole out at (0.05 i)^2 m, shape (161,): E(d) = 1 + (1 - make) mean E(leave).

    Leaves are those of the two errors themselves, over the putts that miss; a missed putt is
    taken to run its full length. Read it with `expected_putts`.
    """
    return _table(player).copy()


@law
def expected_putts(distance: float, table: Floats) -> float:
    """Expected putts from `distance` (m) by a `putts_table`; straight between rows, level beyond 64 m."""
    place = sqrt(max(distance, 0.0)) / GRID_STEP
    i = min(int(place), table.size - 2)
    share = min(place - i, 1.0)
    return float((1.0 - share) * table[i] + share * table[i + 1])


# ---- strokes from any lie

PUTTING, FAIRWAY, ROUGH, BUNKER = 0, 1, 2, 3
_YARDS = np.array([10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0])
_STROKES = np.array(  # Broadie 2012, Table 9: fairway, rough, sand
    [
        [2.18, 2.40, 2.52, 2.60, 2.66, 2.70, 2.75, 2.80],
        [2.34, 2.59, 2.70, 2.78, 2.87, 2.91, 2.96, 3.02],
        [2.43, 2.53, 2.66, 2.82, 2.92, 3.15, 3.24, 3.23],
    ]
)
_LIES = {
    "green": PUTTING, "fringe": PUTTING, "tight": FAIRWAY, "fairway": FAIRWAY, "mat": FAIRWAY,
    "soft": ROUGH, "rough": ROUGH, "sand": BUNKER, "wet_sand": BUNKER,
}  # fmt: skip


def putting_lie(surface_name: str) -> int:
    """Column of the strokes table a surface counts as (soft turf as rough, mat as fairway: assumed)."""
    try:
        return _LIES[surface_name]
    except KeyError:
        raise KeyError(f"no surface '{surface_name}'; allowed: {', '.join(SURFACES)}") from None


@law
def expected_strokes(distance: float, lie: int, player: Floats, tour: Floats) -> float:
    """Strokes to hole out from `distance` (m) and a lie (0 putting, 1 fairway, 2 rough, 3 sand).

    `player`, `tour`: putts tables. Under 10 yd a lie costs over a putt what it costs at 10 yd; other
    players add to the tour's strokes what they lose putting from there, at most from 10 yd; beyond
    100 yd level. All three assumed.
    """
    if lie == PUTTING:
        return expected_putts(distance, player)
    yards = distance / YARD
    near = min(distance, _YARDS[0] * YARD)
    row = _STROKES[lie - 1]
    putts = expected_putts(near, player) - expected_putts(_YARDS[0] * YARD, tour)
    i = 0
    while i < _YARDS.size - 2 and yards > _YARDS[i + 1]:
        i += 1
    share = min(1.0, max(0.0, (yards - _YARDS[i]) / (_YARDS[i + 1] - _YARDS[i])))
    return float(row[i] + share * (row[i + 1] - row[i]) + putts)


@law
def lost_ball_strokes(distance: float, lie: int, player: Floats, tour: Floats) -> float:
    """Strokes still to come after water or out of bounds: one penalty, and the shot again from its start."""
    return 1.0 + expected_strokes(distance, lie, player, tour)


def strokes_left(distance: float, surface_name: str, player: Putter = PUTTERS["tour"]) -> float:
    """Strokes to hole out from `distance` (m) on the named surface.

    >>> round(strokes_left(3.0, "green"), 1), round(strokes_left(15.0, "rough"), 1)
    (1.6, 2.5)
    """
    tables = putts_table(player), putts_table(PUTTERS["tour"])
    return expected_strokes(distance, putting_lie(surface_name), *tables)
