"""Causes by replay: the same strokes with one component taken out, and what that alone recovers.

Two families, kept apart. What the player *set*: each control out of place (`physics.agreement`) put back to
the value that agrees with the rest, over strokes that both set-ups share, with the standard error of the
gain. What one stroke *strayed*: each component of its `Stray` set to nought and the stroke played again.
A gain is in expected strokes where there is a hole; else in logarithms of distance: of the launch against
the one that the address promised for what was set, of the place of rest against the unstrayed stroke's for
what strayed, both held at 1.
"""

from collections.abc import Callable, Sequence
from concurrent.futures import Executor, ThreadPoolExecutor
from dataclasses import astuple, dataclass, fields, replace
from enum import StrEnum
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from physics.address import CONTROLS, Intention
from physics.agreement import misplaced
from physics.cloud import CODE, REST_X, SET, WORKERS, play_many, worth
from physics.course import Course
from physics.putting import PUTTERS
from physics.spread import EXACT, Spread, Stray, draw_strays
from physics.terrain import Field

__all__ = [
    "WORTH", "Origin", "Removal", "clear_gain", "gap_error", "reaching", "set_removals", "stray_removals",
    "stroke_costs", "stroke_removals", "told_cause",
]  # fmt: skip

Floats = NDArray[np.float64]
WORTH = 0.02  # expected strokes a cause must cost, or a repair gain, to be named; assumed
SURE = 2.0  # standard errors a gain must be above nought to be named, assumed
ROUNDS = (24, 72, 240, 480)  # strokes each set-up has played after a round, assumed
ENOUGH = 240  # strokes after which a sure gain is told even where another may gain as much, assumed
CLEAR = 2.5  # standard errors by which one removal must beat the next to need no more strokes, assumed
LEAST = 0.3  # strokes of spread between two set-ups at least while they have played FEW, for a few strokes
FEW = 24  # may be alike by chance; less of it the more they have played; assumed
REACHES = np.exp(np.linspace(-1.2, 1.2, 13))  # of the swing length now, tried for reaching the hole, assumed
FINER = np.exp((-0.1, 0.1))  # to either side of the best of them
REACH_STROKES, REACH_SEED = 12, 7919  # strokes each is tried with, and how far their seed stands off; assumed
REACHED = 0.08  # share by which a swing may be longer or shorter than the best and still be in place, assumed
FARTHEST = 1.0  # logarithm of distance beyond which without a hole all is lost alike


class Origin(StrEnum):
    """Whose a component is."""

    SET = "set"  # a control the player set
    STRAYED = "strayed"  # what this stroke did by chance


@dataclass(frozen=True)
class Removal:
    """A component taken out: from `was` to `back` (SI). `gain` in expected strokes, + when it recovers,
    `error` its standard error over so many common `strokes`; `lean_off` as in `agreement.Misplaced`."""

    origin: Origin
    component: str  # a control of CONTROLS, or a field of Stray
    was: float
    back: float
    gain: float
    error: float = 0.0
    strokes: int = 1
    lean_off: float = 0.0


def clear_gain(gain: float, error: float) -> bool:
    """Whether a gain is worth a word, and sure."""
    return gain >= WORTH and gain >= SURE * error


def told_cause(removals: Sequence[Removal]) -> Removal | None:
    """The removal that recovers most; None where none is worth a word."""
    best = max(removals, key=lambda r: r.gain, default=None)
    return best if best is not None and clear_gain(best.gain, best.error) else None


def stroke_costs(course: Course, stroke: Intention, strays: Floats, spread: Spread, seed: int) -> Floats:
    """What each stroke with these strays, shape (n, 7), costs: expected strokes to hole out with the putter
    of that player, or what it fell off the promise where there is no hole."""
    out, table = play_many(course, stroke.setup, stroke.motion, strays, seed, workers=1)
    if course.hole is None:
        return np.minimum(np.abs(out[:, SET]), FARTHEST)
    return _expected(course, table, out, strays, spread)


def _run_past_costs(
    course: Course, stroke: Intention, strays: Floats, spread: Spread, seed: int
) -> Floats:  # fmt: skip
    """The same of strokes that were not played, but the hole stops no ball: one that runs at the flagstick
    far too fast would else count as the best, and a start line a finger's breadth off as the cause."""
    _, table = play_many(course, stroke.setup, stroke.motion, strays[:1], seed, workers=1)
    bare = replace(course, hole=None)
    out, _ = play_many(bare, stroke.setup, stroke.motion, strays, seed, workers=1)
    return _expected(course, table, out, strays, spread)


def _expected(course: Course, table: Field, out: Floats, strays: Floats, spread: Spread) -> Floats:
    """Expected strokes from where each ball ended."""
    rest, putter = out[:, REST_X], PUTTERS[spread.putter]
    return worth(course, table, rest, rest * strays[:, 6], out[:, CODE], putter)[:, 1]


# ---- what the player set


def reaching(course: Course, spread: Spread, seed: int = 0) -> Callable[[Intention], float] | None:
    """The swing length (rad) with which this player's strokes do best, as a function of the stroke; its own
    where that is near enough. None without a hole: then no swing is too long."""
    if course.hole is None:
        return None
    count = 1 if spread == EXACT else REACH_STROKES
    strays = draw_strays(spread, seed + REACH_SEED, count)
    control = CONTROLS["swing_length"]

    def cost(stroke: Intention, swing: float) -> Floats:
        tried = stroke.with_value("swing_length", swing)
        return stroke_costs(course, tried, strays, spread, seed)

    def reach(stroke: Intention) -> float:
        now = stroke.motion.swing_length
        costs: dict[float, Floats] = {}

        def best() -> float:
            return min(costs, key=lambda s: float(costs[s].mean()))

        with ThreadPoolExecutor(WORKERS) as pool:
            for scales in (REACHES, FINER):
                middle = best() if costs else now
                swings = {float(min(max(middle * k, control.low), control.high)) for k in scales}
                new = sorted(swings - costs.keys())
                costs |= dict(zip(new, pool.map(lambda s: cost(stroke, s), new), strict=True))
        found = best()
        gain, error = _gap(cost(stroke, now), costs[found])
        in_place = abs(found / now - 1.0) <= REACHED or gain < max(WORTH, error)
        return now if in_place else found

    return reach


def set_removals(
    course: Course, intention: Intention, spread: Spread, seed: int = 0,
    rounds: Sequence[int] = ROUNDS,
) -> tuple[Removal, ...]:  # fmt: skip
    """What putting each control out of place back recovers, best first; plays on until one clearly does.

    >>> from physics.course import level_course
    >>> from physics.spread import PLAYERS
    >>> course, club = level_course("fairway", 8.0), PLAYERS["club"]
    >>> long = Intention().with_value("swing_length", 1.6)
    >>> set_removals(course, long, club)[0].component
    'swing_length'
    """
    found = misplaced(course, intention, reaching(course, spread, seed))
    rounds = (1,) if spread == EXACT else rounds
    strays = draw_strays(spread, seed, rounds[-1])
    strokes = [intention, *(intention.with_value(m.control, m.agrees) for m in found)]
    costs = np.zeros((len(strokes), 0))
    with ThreadPoolExecutor(WORKERS) as pool:
        for count in rounds if found else ():
            fresh = strays[costs.shape[1] : count]
            costs = np.hstack([costs, _played(course, strokes, fresh, spread, seed, pool)])
            if _settled(costs):
                break
    out = []
    for m, own in zip(found, costs[1:], strict=True):
        gain, error = _gap(costs[0], own)
        out.append(Removal(Origin.SET, m.control, m.now, m.agrees, gain, error, costs.shape[1], m.lean_off))
    return tuple(sorted(out, key=lambda r: -r.gain))


def _played(
    course: Course, strokes: Sequence[Intention], strays: Floats, spread: Spread, seed: int, pool: Executor
) -> Floats:
    """Costs, shape (strokes, strays)."""
    return np.array(list(pool.map(lambda s: stroke_costs(course, s, strays, spread, seed), strokes)))


def _gap(costs: Floats, other: Floats) -> tuple[float, float]:
    """How much more the first cost than the second over common strokes, and its standard error."""
    more = costs - other
    return float(more.mean()), gap_error(more)


def gap_error(more: Floats) -> float:
    """Standard error of the mean of differences between common strokes; 0 of a single one.

    >>> round(gap_error(np.zeros(24)), 3), gap_error(np.zeros(1))
    (0.061, 0.0)
    """
    n = more.size
    return max(float(more.std()), LEAST * min(1.0, sqrt(FEW / n)) if n > 1 else 0.0) / sqrt(n)


def _settled(costs: Floats) -> bool:
    """Whether more strokes would hardly change which removal is told: rows are the stroke as set, then
    each removal."""
    means = costs.mean(axis=1)
    order = np.argsort(means[1:]) + 1
    gain, error = _gap(costs[0], costs[order[0]])
    if gain < WORTH - CLEAR * error:
        return True
    if gain < max(WORTH, CLEAR * error):
        return False
    if len(order) < 2 or costs.shape[1] >= ENOUGH:
        return True
    lead, off = _gap(costs[order[1]], costs[order[0]])
    return lead > CLEAR * off


# ---- one stroke


def stroke_removals(
    course: Course, intention: Intention, stray: Stray, spread: Spread, seed: int = 0
) -> tuple[Removal, ...]:  # fmt: skip
    """Both families over one stroke with that stray, best first: what it recovers to put back what was set
    out of place, and what without each part of the stray. The last, component "", is all the stray at once.
    """
    strayed = stray_removals(course, intention, stray, spread, seed)
    row, level = np.array([astuple(stray), astuple(Stray())]), []
    if course.hole is not None:
        base = float(stroke_costs(course, intention, row[:1], spread, seed)[0])  # what it did cost
        without = float(_run_past_costs(course, intention, row[1:], spread, seed)[0])
        for m in misplaced(course, intention, reaching(course, spread, seed)):
            mended = intention.with_value(m.control, m.agrees)
            gain = float(base - _run_past_costs(course, mended, row[:1], spread, seed)[0])
            level.append(Removal(Origin.SET, m.control, m.now, m.agrees, gain, lean_off=m.lean_off))
    else:
        base, without = _stray_costs(course, intention, row, spread, seed)
    whole = Removal(Origin.STRAYED, "", 1.0, 0.0, float(base - without))
    return (*sorted((*strayed, *level), key=lambda r: -r.gain), whole)


def stray_removals(
    course: Course, intention: Intention, stray: Stray, spread: Spread, seed: int = 0
) -> tuple[Removal, ...]:
    """What setting each component of one stroke's stray to nought recovers of that stroke, best first.

    >>> from physics.course import level_course
    >>> from physics.spread import PLAYERS
    >>> course, club = level_course("fairway", 8.0), PLAYERS["club"]
    >>> best = stray_removals(course, Intention(), Stray(speed=0.7, up=0.001), club)[0]
    >>> best.component, best.gain > 0.2
    ('speed', True)
    """
    names, plain, own = [f.name for f in fields(Stray)], astuple(Stray()), astuple(stray)
    moved = [i for i, (a, b) in enumerate(zip(own, plain, strict=True)) if a != b]
    rows = np.tile(np.array(own), (len(moved) + 2, 1))
    for row, i in enumerate(moved, 1):
        rows[row, i] = plain[i]
    rows[-1] = plain
    costs = _stray_costs(course, intention, rows, spread, seed)
    out = [Removal(Origin.STRAYED, names[i], own[i], plain[i], float(costs[0] - costs[row]))
           for row, i in enumerate(moved, 1)]  # fmt: skip
    return tuple(sorted(out, key=lambda r: -r.gain))


def _stray_costs(course: Course, intention: Intention, rows: Floats, spread: Spread, seed: int) -> Floats:
    """What one stroke costs with each of these strays; the first row is the stroke as it was played, the
    last the one that does not stray."""
    if course.hole is not None:
        played = stroke_costs(
            course, intention, rows[:1], spread, seed
        )  # the first row is the stroke as it was
        return np.concatenate([played, _run_past_costs(course, intention, rows[1:], spread, seed)])
    out, _ = play_many(course, intention.setup, intention.motion, rows, seed, workers=1)
    rest = np.maximum(out[:, REST_X], 0.01)
    gaps: Floats = np.minimum(np.abs(np.log(rest / rest[-1])), FARTHEST)
    return gaps
