"""What a scenario's goals look at, for one Shot or a whole cloud of strokes, and which strokes meet them.

One set of rules judges both, so a scenario is proved by what it is played by.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import nan, radians
from typing import Any

import numpy as np
from numpy.typing import NDArray

from levels.scenario import Scenario
from levels.teaching import Goal
from physics.address import Motion, Setup
from physics.cloud import cloud, worth
from physics.compiled import as_record, law
from physics.corridor import ball_start, bench, strike_stray, stroke_of
from physics.course import Course
from physics.equipment import BALL_RADIUS
from physics.flight import FLIGHT_STEP, fly_step
from physics.putting import PUTTERS
from physics.quality import NO_STANDARD, SPLASHED
from physics.results import Contact, Outcome, Shot
from physics.run import HOLED, LOST, NO_LOG, OUT, REST, WATER, run_ball
from physics.runlog import TOUCHING
from physics.shot import PHASES, lie_of
from physics.sole import Soil
from physics.spread import PLAYERS, Spread, draw_strays
from physics.strike import LOG_COLUMNS
from physics.swing import Stroke
from physics.terrain import Field, build_field, height_at

__all__ = [
    "CLEAN_GAP", "COUNT", "SEED", "Facts", "cloud_facts", "goals_asked", "goals_met", "meets", "passed",
    "shot_facts", "success_share",
]  # fmt: skip

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

COUNT, SEED = 120, 0  # strokes behind a mark: a share of them is known to about 0.05, assumed enough
CLEAN_GAP = 0.095  # logarithm of distance: a clean strike goes within a tenth of the unspoilt one, assumed
BRUSH_DEPTH = 3.0e-3  # m of marked ground that is still a brush, as in physics.shot, assumed
TOUCHED = PHASES[int(TOUCHING)]  # letter of a ball at a wall, lip, tree or the hole
_CODES = {Outcome.HOLED: HOLED, Outcome.WATER: WATER, Outcome.OUT: OUT, Outcome.LOST: LOST}


@dataclass(frozen=True, eq=False)
class Facts:
    """What the goals look at, one entry a stroke, shape (n,). SI, rad; nan where it did not happen."""

    leave: Floats
    strokes: Floats  # to hole out, this one included
    carry: Floats
    solid: Flags
    splashed: Flags
    struck_gap: Floats  # logarithm of distance against the same stroke with nothing in the way
    depth: Floats  # of the mark; in a cloud that behind the ball counts only where a brush is asked for
    lean_off: Floats  # shaft lean at the ball minus at address
    height: Floats  # ball's bottom over the ground at the place to clear; nan if never over it
    apex: Floats  # highest point of the ball's bottom over where it lay, until it rests or meets scenery


# ---- facts of one shot


def _shot_height(shot: Shot, x: float) -> float:
    """Height (m) of the ball's bottom over the ground where its first flight passes x; nan if never."""
    r = shot.run
    end = len(r.phase) - len(r.phase.lstrip("f"))
    xs = np.array(r.x[: end + 1])
    over = np.flatnonzero(xs >= x)
    if not end or not len(over):
        return nan
    k = max(int(over[0]), 1)
    share = (x - xs[k - 1]) / (xs[k] - xs[k - 1])
    y = r.y[k - 1] + share * (r.y[k] - r.y[k - 1])
    return float(y - BALL_RADIUS - height_at(build_field(shot.course), x))


def _shot_apex(shot: Shot) -> float:
    """Greatest height (m) of the ball's bottom over where it lay, until scenery; nan for a ball not met."""
    if not shot.launch:
        return nan
    ys = np.array(shot.run.y)
    touched = shot.run.phase.find(TOUCHED)
    # the first row is the ball on its lie, struck or not
    return float(ys[: touched + 1 if touched >= 0 else len(ys)].max() - BALL_RADIUS - lie_of(shot.course)[1])


def shot_facts(goal: Goal, shot: Shot) -> Facts:
    """The facts of one shot, n = 1."""
    k, r = shot.strike, shot.run
    putter = PUTTERS[shot.spread.putter]
    code = float(_CODES.get(r.outcome, REST))
    rest, lateral, end = (np.array([v]) for v in (r.rest, shot.lateral, code))
    values = worth(shot.course, build_field(shot.course), rest, lateral, end, putter)
    height = _shot_height(shot, goal.must_clear.x_m) if goal.must_clear else nan
    return Facts(
        values[:, 0], values[:, 1], np.array([r.carry if shot.launch else nan]), np.array([k.solid]),
        np.array([k.contact is Contact.SPLASHED]), np.array([k.struck_gap]), np.array([k.depth]),
        np.array([k.lean - shot.setup.shaft_lean]), np.array([height]), np.array([_shot_apex(shot)]),
    )  # fmt: skip


# ---- facts of a cloud


@law
def _free_height(table: Field, x: float, y: float, vx: float, vy: float, spin: float, at: float) -> float:
    """Height (m) of the ball's bottom over the ground where its flight passes x = `at`; nan if it landed."""
    while vx > 0.0:
        floor = height_at(table, x)
        if y - floor < BALL_RADIUS and vy < 0.0:
            return nan
        x1, y1, vx, vy, spin = fly_step(x, y, vx, vy, spin, FLIGHT_STEP, table.wind, floor)
        if x1 >= at:
            share = (at - x) / (x1 - x)
            height = y + share * (y1 - y) - height_at(table, at) - BALL_RADIUS
            return height if height > 0.0 else nan
        x, y = x1, y1
    return nan


@law
def _heights(
    table: Field, club: Any, surface: Any, lift: float, ground: float, tilt: float, base: Stroke,
    strays: Floats, at: float, work: Soil, log: Floats, out: Floats,
) -> None:  # fmt: skip
    """Height over x = `at` (m, nan for none) of each stroke, shape (n,)."""
    for i in range(len(strays)):
        blow = strike_stray(club, surface, lift, base, strays[i], work, log, False, NO_STANDARD).blow
        out[i] = nan
        if blow.met > 0:
            x, y, vx, vy = ball_start(blow, ground, tilt)
            out[i] = _free_height(table, x, y, vx, vy, blow.spin, at)


@law
def _apexes(
    table: Field, club: Any, surface: Any, lift: float, ground: float, tilt: float, base: Stroke,
    strays: Floats, hole: float, work: Soil, log: Floats, run_log: Floats, out: Floats,
) -> None:  # fmt: skip
    """Greatest height (m, nan for a ball not met) of each stroke's ball over its lie, shape (n,)."""
    for i in range(len(strays)):
        blow = strike_stray(club, surface, lift, base, strays[i], work, log, False, NO_STANDARD).blow
        out[i] = nan
        if blow.met > 0:
            x, y, vx, vy = ball_start(blow, ground, tilt)
            run = run_ball(table, x, y, vx, vy, blow.spin, hole * strays[i, 6], True, run_log)
            out[i] = run.apex - BALL_RADIUS - ground


@law
def _marks(
    club: Any, surface: Any, lift: float, base: Stroke, strays: Floats, work: Soil, log: Floats, out: Floats
) -> None:
    """Depth (m) of the whole mark of each stroke, before and behind the ball, shape (n,)."""
    for i in range(len(strays)):
        blow = strike_stray(club, surface, lift, base, strays[i], work, log, True, NO_STANDARD).blow
        out[i] = max(blow.deepest, work.cut.max())


def _marked(course: Course, setup: Setup, motion: Motion, strays: Floats) -> Floats:
    """Depths as the replay of each stroke shows them; a cloud's own strokes end with the ball."""
    out = np.full(len(strays), nan)
    surface, _, _ = lie_of(course)
    _marks(
        as_record(setup.club), as_record(surface), course.lie.lift, stroke_of(setup, motion), strays,
        bench(), np.zeros((0, LOG_COLUMNS)), out,
    )  # fmt: skip
    return out


def _cleared(goal: Goal, course: Course, setup: Setup, motion: Motion, strays: Floats) -> Floats:
    out = np.full(len(strays), nan)
    if goal.must_clear is not None:
        surface, ground, tilt = lie_of(course)
        _heights(
            build_field(course), as_record(setup.club), as_record(surface), course.lie.lift, ground, tilt,
            stroke_of(setup, motion), strays, goal.must_clear.x_m, bench(), np.zeros((0, LOG_COLUMNS)), out,
        )  # fmt: skip
    return out


def _highest(goal: Goal, course: Course, setup: Setup, motion: Motion, strays: Floats) -> Floats:
    out = np.full(len(strays), nan)
    if goal.ceiling_m is not None:
        surface, ground, tilt = lie_of(course)
        _apexes(
            build_field(course), as_record(setup.club), as_record(surface), course.lie.lift, ground, tilt,
            stroke_of(setup, motion), strays, course.hole.x if course.hole else 0.0, bench(),
            np.zeros((0, LOG_COLUMNS)), NO_LOG, out,
        )  # fmt: skip
    return out


def cloud_facts(
    goal: Goal, course: Course, setup: Setup, motion: Motion, spread: Spread,
    seed: int = SEED, count: int = COUNT,
) -> Facts:  # fmt: skip
    """The facts of `count` strokes of a player; the same strokes as `physics.cloud.cloud`."""
    c = cloud(course, setup, motion, spread, seed, count)
    strays = draw_strays(spread, seed, count)
    height = _cleared(goal, course, setup, motion, strays)
    depth = _marked(course, setup, motion, strays) if goal.strike == "brush" else c.depth
    return Facts(
        c.leave, c.strokes, c.carry, c.solid, c.kind == SPLASHED, c.struck_gap, depth,
        c.lean - setup.shaft_lean, height, _highest(goal, course, setup, motion, strays),
    )  # fmt: skip


# ---- goals

_CHECKS = ("leave_m", "land_between_m", "must_clear", "ceiling_m", "strike", "match_deg")


def meets(kind: str, goal: Goal, f: Facts) -> Flags:
    """Which strokes meet one goal, shape (n,). Comparisons with nan are not met."""
    if kind == "leave_m" and goal.leave_m is not None:
        return f.leave <= goal.leave_m
    if kind == "land_between_m" and goal.land_between_m is not None:
        return (f.carry >= goal.land_between_m[0]) & (f.carry <= goal.land_between_m[1])
    if kind == "must_clear" and goal.must_clear is not None:
        return f.height >= goal.must_clear.height_m
    if kind == "ceiling_m" and goal.ceiling_m is not None:
        return f.apex <= goal.ceiling_m
    if kind == "match_deg" and goal.match_deg is not None:
        return np.abs(f.lean_off) <= radians(goal.match_deg)
    limit = {
        "solid": f.solid, "clean": np.abs(f.struck_gap) < CLEAN_GAP, "brush": f.depth < BRUSH_DEPTH,
        "splash": f.splashed,
    }  # fmt: skip
    return np.asarray(f.solid & limit[goal.strike or "solid"])


def goals_asked(goal: Goal) -> tuple[str, ...]:
    """Keys of the goals this table gives, in order."""
    return tuple(kind for kind in _CHECKS if getattr(goal, kind) is not None)


def goals_met(goal: Goal, facts: Facts) -> Flags:
    """Which strokes meet every goal, shape (n,)."""
    return np.asarray(np.all([meets(kind, goal, facts) for kind in goals_asked(goal)], axis=0))


def success_share(
    scenario: Scenario, setup: Setup, motion: Motion, seed: int = SEED, count: int = COUNT
) -> float:
    """Share of the scenario's player's strokes that meet every goal.

    >>> from levels.files import load_library
    >>> scenario = load_library("harrow-fen-after-rain")
    >>> by_default = success_share(scenario, scenario.setup(), scenario.motion())
    >>> by_default < success_share(scenario, *scenario.reference_shot())
    True
    """
    facts = cloud_facts(
        scenario.goal, scenario.course(), setup, motion, PLAYERS[scenario.player], seed, count
    )
    return float(goals_met(scenario.goal, facts).mean())


def passed(goal: Goal, results: Sequence[bool]) -> bool:
    """Whether the latest shots, oldest first, do what the goal asks: so many good ones of the last few."""
    run = best = 0
    for good in results[-goal.shots :]:
        run = run + 1 if good or not goal.in_a_row else 0
        best = max(best, run)
    if goal.in_a_row:
        return best >= goal.successes
    return sum(results[-goal.shots :]) >= goal.successes
