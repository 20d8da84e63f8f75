"""What a set-up is worth to a player: strokes to hole out, how near, how often it ends badly.

Expected strokes to hole out are E = 1 + E[strokes from the leave], putted out by the player's own putter
(`physics.putting`). Chance inside a flagstick's length (2.13 m, common practice). A stroke is a disaster,
by this rule (assumed), when it costs a penalty, ends in sand, or leaves more than two thirds of the way it
had: duffed, or as far over as it was short.

Ranges come from the players it might be: their strokes are one bank, weighed anew for each of them.
"""

from dataclasses import dataclass, fields
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from levels.player_file import KnownPlayer
from levels.strokes import ManyStrokes, strike_kinds
from physics.address import Motion, Setup
from physics.bank import Floats, row_strays, stray_weights
from physics.cloud import CARRY, CODE, KIND, REST_X, SOLID, play_many, worth
from physics.course import Course
from physics.equipment import FLAGSTICK
from physics.putting import PUTTERS, Putter
from physics.run import HOLED, LOST, OUT, REST, WATER
from physics.surfaces import SAND, SURFACES
from physics.terrain import surface_names

__all__ = [
    "GAINED_LITTLE", "INSIDE", "Strokes", "Value", "difference", "played_strokes", "shown_strokes",
    "strokes_of_strays", "worth_of",
]  # fmt: skip

Flags = NDArray[np.bool_]
INSIDE = FLAGSTICK.height  # m
GAINED_LITTLE = 2.0 / 3.0  # of the way to the hole still left, assumed
WORST = 0.2
OUTER = (0.1, 0.9)
NORMAL_OUTER = 1.2815515655446004  # standard normal quantile of 90 %


@dataclass(frozen=True, eq=False)
class Strokes:
    """Strokes of one set-up, arrays of shape (n,): where each ended (m), its code of `physics.run`, carry,
    the way left (m), strokes to hole out with it; its kind of `physics.quality`, solid, and each way to end
    badly."""

    rest: Floats
    code: NDArray[np.int64]
    carry: Floats
    leave: Floats
    strokes: Floats
    kind: NDArray[np.int64]
    solid: Flags
    penalty: Flags
    sand: Flags
    little: Flags

    @property
    def disaster(self) -> Flags:
        """Whether it ended badly in any way."""
        return self.penalty | self.sand | self.little

    def then(self, more: "Strokes") -> "Strokes":
        """These, then more of the same set-up."""
        pairs = ((getattr(self, f.name), getattr(more, f.name)) for f in fields(self))
        return Strokes(*(np.concatenate(pair) for pair in pairs))


@dataclass(frozen=True)
class Value:
    """What a set-up is worth. Chances are shares of strokes, ranges reach from 10 to 90 %."""

    strokes: float
    error: float  # standard error of the strokes
    low: float
    high: float
    inside: float
    disaster: float
    penalty: float
    sand: float
    little: float
    worst_fifth: float  # mean strokes of the worst fifth
    solid: float
    leave: float  # m, median
    depth: float  # m from the 10 to the 90 % stop: how far apart the balls end
    roll: float  # share of the way a middle ball rolls


def played_strokes(
    course: Course, setup: Setup, motion: Motion, player: KnownPlayer, seed: int, count: int,
    workers: int = 1, start: int = 0,
) -> Strokes:  # fmt: skip
    """Play `count` strokes of a player, of which the first `start` have been played, and look where they
    end. ValueError without a hole."""
    strays = row_strays(player.rows, seed, count)[start:]
    return strokes_of_strays(course, setup, motion, strays, PUTTERS[player.spread.putter], seed, workers)


def strokes_of_strays(
    course: Course, setup: Setup, motion: Motion, strays: Floats, putter: Putter, seed: int = 0,
    workers: int = 1,
) -> Strokes:  # fmt: skip
    """Strokes with given strays, shape (n, 7), in the order of Stray. ValueError without a hole."""
    if course.hole is None:
        raise ValueError("a course without a hole cannot be chosen on")
    rows, table = play_many(course, setup, motion, strays, seed, workers)
    code, rest = rows[:, CODE].astype(np.int64), rows[:, REST_X]
    side = rest * strays[:, 6]
    values = worth(course, table, rest, side, rows[:, CODE], putter)
    sandy = np.array([SURFACES[name].kind == SAND for name in surface_names(course)])
    piece = np.maximum(np.searchsorted(table.ground.x, rest, side="right") - 1, 0)  # terrain.segment_at
    under = sandy[table.ground.surface[piece]]
    penalty = np.isin(code, (WATER, OUT, LOST))
    far = values[:, 0] > GAINED_LITTLE * abs(course.hole.x)
    resting = (code == REST) & ~penalty
    return Strokes(
        rest, code, rows[:, CARRY], values[:, 0], values[:, 1],
        rows[:, KIND].astype(np.int64), rows[:, SOLID] > 0,
        penalty, resting & under, resting & far & ~under,
    )  # fmt: skip


def shown_strokes(made: Strokes) -> ManyStrokes:
    """The same strokes as they are drawn, one dot each."""
    leaves = np.where((made.code == REST) | (made.code == HOLED), made.leave, np.inf)
    return ManyStrokes(
        tuple(made.rest.tolist()), tuple(leaves.tolist()), strike_kinds(made.kind), tuple(made.solid.tolist())
    )


def worth_of(made: Strokes, player: KnownPlayer, seed: int) -> Value:
    """The value of strokes that `played_strokes` played with this player and seed."""
    n = len(made.strokes)
    error = float(made.strokes.std(ddof=1)) / sqrt(n)
    mean = float(made.strokes.mean())
    low, high = mean - NORMAL_OUTER * error, mean + NORMAL_OUTER * error
    if len(player.rows) > 1:
        strays = row_strays(player.rows, seed, n)
        each = made.strokes @ stray_weights(strays, player.rows, player.rows)
        low, high = (float(v) for v in np.quantile(each, OUTER))
    worst = np.sort(made.strokes)[-max(round(WORST * n), 1) :]
    stop = np.where(made.code == HOLED, np.nan, made.rest)
    real = stop[~np.isnan(stop)]
    ends = np.quantile(real, OUTER) if len(real) else np.zeros(2)
    roll = (made.rest - made.carry) / np.where(np.abs(made.rest) < 0.1, np.nan, made.rest)
    return Value(
        mean, error, low, high, float((made.leave <= INSIDE).mean()), float(made.disaster.mean()),
        float(made.penalty.mean()), float(made.sand.mean()), float(made.little.mean()), float(worst.mean()),
        float(made.solid.mean()), float(np.median(made.leave)), float(ends[1] - ends[0]),
        float(np.nanmedian(roll)) if np.isfinite(roll).any() else 0.0,
    )  # fmt: skip


def difference(one: Strokes, other: Strokes) -> tuple[float, float]:
    """Mean strokes of one over another, and its standard error: the same strays were played with both."""
    apart = one.strokes - other.strokes
    return float(apart.mean()), float(apart.std(ddof=1)) / sqrt(len(apart))
