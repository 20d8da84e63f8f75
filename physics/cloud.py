"""The same shot many times with a player's spread, and what it is worth in expected strokes.

The strokes run in a compiled loop, split over threads (the laws hold no interpreter lock); the few
balls that meet rigid scenery are walked on one by one by the same code a single shot uses.
"""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from math import hypot, nan
from typing import Any

import numpy as np
from numpy.typing import NDArray

from physics.address import Motion, Setup
from physics.ballstate import BallState
from physics.compiled import as_record, law
from physics.corridor import ball_start, bench, standard_of, strike_stray, stroke_of
from physics.course import Course
from physics.putting import PUTTERS, Putter, expected_strokes, lost_ball_strokes, putts_table
from physics.putting import putting_lie as putting_lie
from physics.run import HOLED, NO_LOG, REST, SCENERY, run_ball
from physics.shot import finish_run, lie_of
from physics.sole import Soil
from physics.spread import Spread, draw_strays
from physics.strike import LOG_COLUMNS
from physics.swing import Stroke
from physics.terrain import Field, build_field, segment_at, surface_names

__all__ = ["Cloud", "cloud", "play_many", "worth"]

Floats = NDArray[np.float64]
WORKERS = 2
NO_STRIKE_LOG = np.zeros((0, LOG_COLUMNS))
COLUMNS = 19
(
    MET, SOLID, HEAD_LOSS, LEAD, DEPTH, SPEED, LAUNCH, SPIN,
    CARRY, LANDING, REST_X, CODE, DOUBLE, HIT_TIME, KIND, AS_SET, STRUCK, LEAN, SET,
) = range(COLUMNS)  # fmt: skip


@dataclass(frozen=True, eq=False)
class Cloud:
    """`n` strokes of one player. Arrays have shape (n,), SI, rad; nan where a stage did not happen."""

    met: NDArray[np.int64] = field(repr=False)  # 0 missed, 1 face, 2 edge below, 3 edge above the equator
    kind: NDArray[np.int64] = field(repr=False)  # what the strike was: codes of physics.quality
    solid: NDArray[np.bool_] = field(repr=False)
    as_set: NDArray[np.bool_] = field(repr=False)
    struck_gap: Floats = field(repr=False)  # logarithm of distance against nothing in the way
    lean: Floats = field(repr=False)  # rad at the ball
    head_loss: Floats = field(repr=False)  # share of the head speed turf took before the ball
    lead: Floats = field(repr=False)
    depth: Floats = field(repr=False)
    carry: Floats = field(repr=False)
    landing_angle: Floats = field(repr=False)
    rest: Floats = field(repr=False)
    lateral: Floats = field(repr=False)
    code: NDArray[np.int64] = field(repr=False)  # codes of physics.run
    leave: Floats = field(repr=False)  # m to the hole, nan without one
    strokes: Floats = field(repr=False)  # expected strokes to hole out, this one included; nan without a hole

    @property
    def solid_share(self) -> float:
        """Share of strokes struck solid, or splashed from sand as they should."""
        return float(self.solid.mean())

    @property
    def as_set_share(self) -> float:
        """Share of strokes whose ball did what the address promised."""
        return float(self.as_set.mean())

    @property
    def mean_strokes(self) -> float:
        """Expected strokes to hole out, this one included."""
        return float(self.strokes.mean())


@law
def _strokes(
    table: Field, club: Any, surface: Any, lift: float, ground: float, tilt: float, base: Stroke,
    strays: Floats, hole: float, work: Soil, strike_log: Floats, log: Floats, out: Floats, states: Floats,
    start: int, stop: int,
) -> None:  # fmt: skip
    """Strokes start..stop of a cloud into rows of `out` (n, COLUMNS) and ball states (n, 6)."""
    standard = standard_of(club, surface, lift, base, work, strike_log)
    for i in range(start, stop):
        struck = strike_stray(club, surface, lift, base, strays[i], work, strike_log, False, standard)
        blow, quality = struck.blow, struck.quality
        row = out[i]
        row[MET], row[SOLID], row[HEAD_LOSS] = blow.met, quality.solid, quality.head_loss
        row[KIND], row[AS_SET], row[STRUCK], row[LEAN] = (
            quality.kind,
            quality.as_set,
            quality.struck_gap,
            blow.lean,
        )
        row[SET] = quality.set_gap
        row[LEAD], row[DEPTH], row[DOUBLE], row[HIT_TIME] = blow.lead, blow.deepest, blow.double, blow.time
        if blow.met == 0:
            row[SPEED:CODE] = nan
            row[REST_X], row[CODE] = 0.0, REST
            continue
        x, y, vx, vy = ball_start(blow, ground, tilt)
        row[SPEED], row[LAUNCH], row[SPIN] = hypot(vx, vy), np.arctan2(vy, vx), blow.spin
        run = run_ball(table, x, y, vx, vy, blow.spin, hole * strays[i, 6], True, log)
        row[CODE], row[CARRY], row[LANDING], row[REST_X] = run.code, run.carry, run.landing_angle, run.x
        state = states[i]
        state[0], state[1], state[2], state[3], state[4], state[5] = (
            run.t, run.x, run.y, run.vx, run.vy, run.spin,
        )  # fmt: skip


def play_many(
    course: Course, setup: Setup, motion: Motion, strays: Floats, seed: int = 0, workers: int = WORKERS
) -> tuple[Floats, Field]:
    """Rows of COLUMNS for given strays, shape (n, 7). The rows do not depend on `workers`."""
    n = len(strays)
    surface, ground, tilt = lie_of(course)
    table = build_field(course)
    hole = course.hole.x if course.hole else 0.0
    out, states = np.zeros((n, COLUMNS)), np.zeros((n, 6))
    edges = np.linspace(0, n, (workers if n >= 32 else 1) + 1).astype(int)

    def part(a: int, b: int) -> None:
        _strokes(
            table, as_record(setup.club), as_record(surface), course.lie.lift, ground, tilt,
            stroke_of(setup, motion), strays, hole, bench(), NO_STRIKE_LOG, NO_LOG, out, states, a, b,
        )  # fmt: skip

    if len(edges) == 2:
        part(0, n)
    else:
        with ThreadPoolExecutor(workers) as pool:
            list(pool.map(part, edges[:-1].tolist(), edges[1:].tolist()))
    for i in np.flatnonzero(out[:, CODE] >= SCENERY):
        end = finish_run(
            course, table, BallState(*states[i]), int(out[i, CODE]), hole * strays[i, 6], seed, NO_LOG
        )
        out[i, CODE], out[i, REST_X] = end.code, end.ball.x
        if np.isnan(out[i, CARRY]):
            out[i, CARRY], out[i, LANDING] = end.landing.x, end.landing.angle
    return out, table


@law
def _worth(
    table: Field, lies: NDArray[np.int64], rest: Floats, lateral: Floats, code: Floats,
    player: Floats, tour: Floats, out: Floats,
) -> None:  # fmt: skip
    """Leave (m) and strokes to hole out, the one just played included, for each row of `out` (n, 2)."""
    start = lies[table.ground[segment_at(table, 0.0)].surface]
    for i in range(rest.size):
        leave = hypot(table.hole - rest[i], lateral[i])
        lie = lies[table.ground[segment_at(table, rest[i])].surface]
        if code[i] == HOLED:
            out[i, 0], out[i, 1] = 0.0, 1.0
        elif code[i] == REST:
            out[i, 0], out[i, 1] = leave, 1.0 + expected_strokes(leave, lie, player, tour)
        else:
            out[i, 0] = abs(table.hole)
            out[i, 1] = 1.0 + lost_ball_strokes(abs(table.hole), start, player, tour)


def worth(
    course: Course, table: Field, rest: Floats, lateral: Floats, code: Floats, putter: Putter
) -> Floats:
    """Leave (m) and expected strokes to hole out, this stroke included, shape (n, 2); nan without a hole.

    Water and out of bounds cost a penalty and are played again from here (out of bounds: Rules of
    Golf; for water the plainest of its options); so does a ball that never came to rest.
    """
    out = np.full((len(rest), 2), nan)
    if course.hole is None:
        return out
    names = surface_names(course)
    lies = np.array([putting_lie(name) for name in names])
    _worth(table, lies, rest, lateral, code, putts_table(putter), putts_table(PUTTERS["tour"]), out)
    return out


def cloud(
    course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int = 0, count: int = 500
) -> Cloud:
    """Play `count` strokes of a player and putt out like one. Same arguments, same cloud.

    >>> from physics.course import level_course
    >>> from physics.spread import PLAYERS
    >>> many = cloud(level_course("fairway", 8.0), Setup(), Motion(), PLAYERS["club"], count=200)
    >>> many.rest.shape
    (200,)
    >>> many.solid_share > 0.7, 2.0 < many.mean_strokes < 3.0
    (True, True)
    """
    strays = draw_strays(spread, seed, count)
    out, table = play_many(course, setup, motion, strays, seed)
    lateral = out[:, REST_X] * strays[:, 6]
    values = worth(course, table, out[:, REST_X], lateral, out[:, CODE], PUTTERS[spread.putter])
    return Cloud(
        met=out[:, MET].astype(np.int64),
        kind=out[:, KIND].astype(np.int64),
        solid=out[:, SOLID] > 0,
        as_set=out[:, AS_SET] > 0,
        struck_gap=out[:, STRUCK],
        lean=out[:, LEAN],
        head_loss=out[:, HEAD_LOSS],
        lead=out[:, LEAD],
        depth=out[:, DEPTH],
        carry=out[:, CARRY],
        landing_angle=out[:, LANDING],
        rest=out[:, REST_X],
        lateral=lateral,
        code=out[:, CODE].astype(np.int64),
        leave=values[:, 0],
        strokes=values[:, 1],
    )
