"""Play one shot: the whole corridor, recorded on one time line."""

from bisect import bisect_right
from dataclasses import replace
from math import atan, atan2, isnan, nan
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from physics.address import Motion, Setup
from physics.ballstate import BallState
from physics.compiled import as_record
from physics.corridor import (
    ball_start,
    bench,
    launch_of,
    standard_of,
    strike_stray,
    stroke_of,
)
from physics.course import Course
from physics.equipment import BALL
from physics.head import lowest_point
from physics.quality import FAT, MISSED, SOLID, SPLASHED, THIN, TOPPED, TWICE, Quality
from physics.results import (
    Contact,
    Knock,
    Launch,
    Meeting,
    Outcome,
    Phase,
    Run,
    Shot,
    SoleTrace,
    Strike,
    SwingTrace,
    TurfAction,
)
from physics.run import HOLED, LOST, OUT, REST, SCENERY, WATER, run_ball
from physics.runlog import AT_STICK
from physics.scenery import contact
from physics.sole import CELL, GROUND_LEFT
from physics.spread import EXACT, Spread, Stray, draw_strays
from physics.strike import LOG_COLUMNS, Blow
from physics.surfaces import MAT, SURFACES, Surface
from physics.swing import Links, arm_acceleration, arm_rate, edge, edge_velocity, reach
from physics.terrain import Field, build_field, height_at

__all__ = ["finish_run", "lie_of", "play", "replay"]

Floats = NDArray[np.float64]
CODES = {REST: Outcome.REST, HOLED: Outcome.HOLED, WATER: Outcome.WATER, OUT: Outcome.OUT, LOST: Outcome.LOST}
KINDS = {
    MISSED: Contact.MISSED, SOLID: Contact.SOLID, FAT: Contact.FAT, THIN: Contact.THIN,
    TOPPED: Contact.TOPPED, SPLASHED: Contact.SPLASHED, TWICE: Contact.TWICE,
}  # fmt: skip
MEETINGS = (Meeting.NONE, Meeting.FACE, Meeting.EDGE, Meeting.EDGE_ABOVE)
PHASES = "fbsrc.c"  # letters of the codes 0-6 of a run's log
HANDOVERS = 60  # scenery contacts before a ball counts as lost
FLAT_SPOT = 2.0e-3  # m over the lowest leading edge
BEARING_ANGLE = 0.035  # rad (2 deg) of sole to its motion below which the edge does the work, assumed
DIG_DEPTH = 1.5e-3  # m of edge in the ground that counts as digging once nothing bears, assumed
BRUSH_DEPTH = 3.0e-3  # m of pressed ground that still counts as a brush, assumed
ROOM = 4096


def lie_of(course: Course) -> tuple[Surface, float, float]:
    """Surface under the ball, ground height (m) and slope (rad) at the ball."""
    g = course.ground
    i = min(max(bisect_right(g.x, 0.0) - 1, 0), len(g.surfaces) - 1)
    rise = (g.y[i + 1] - g.y[i]) / (g.x[i + 1] - g.x[i])
    name = course.lie.surface or g.surfaces[i]
    return SURFACES[name], g.y[i] - rise * g.x[i], atan(rise)


def play(course: Course, setup: Setup, motion: Motion, spread: Spread = EXACT, seed: int = 0) -> Shot:
    """Play one shot of a player with that spread. The same arguments give the same Shot.

    >>> from physics.course import level_course
    >>> shot = play(level_course("fairway", 8.0), Setup(), Motion())
    >>> str(shot.strike.contact), str(shot.run.outcome)
    ('solid', 'at rest')
    >>> round(shot.run.carry), round(shot.run.rest)  # m
    (3, 8)
    """
    return replay(course, setup, motion, spread, seed, draw_strays(spread, seed, 1)[0])


def replay(course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int, strayed: Floats) -> Shot:
    """Play one shot whose stray, shape (7,), is given (one row of a cloud, a repaired stroke)."""
    surface, ground, tilt = lie_of(course)
    work, log = bench(), np.zeros((ROOM, LOG_COLUMNS))
    club, ground_record, stroke = as_record(setup.club), as_record(surface), stroke_of(setup, motion)
    standard = standard_of(club, ground_record, course.lie.lift, stroke, work, log[:0])
    blow, link, loft, bounce, azimuth, quality = strike_stray(
        club, ground_record, course.lie.lift, stroke, strayed, work, log, True, standard
    )
    field = build_field(course)
    stray = Stray(*(float(v) for v in strayed))
    _, edge_y, edge_lean = edge(link, link.arm_ball)
    low = -(edge_y + lowest_point(work.elements, edge_lean))
    strike = _strike(blow, quality, loft, bounce, surface, work.pressed, work.cut, log[: blow.logged], low)
    launch, run = None, _still(field, blow)
    if blow.met:
        speed, angle = launch_of(blow)
        launch = Launch(speed, angle + tilt, blow.spin, azimuth)
        run = _run(course, field, blow, ground, tilt, stray.aim, seed)
    return Shot(
        course, setup, motion, spread, seed, stray, _swing(link), strike, launch, run,
        lateral=run.rest * stray.aim,
    )  # fmt: skip


def _trace(values: Any) -> tuple[float, ...]:
    return tuple(float(v) for v in values)


# ---- the swing


def _swing(link: Links) -> SwingTrace:
    """The intended swing from top to finish, stepped in time at 2 ms (fourth order), zero at the ball."""
    dt, arm, rate, rows, t = 2.0e-3, link.arm_top, 0.0, [], 0.0
    while arm < link.arm_finish and t < 4.0:
        rows.append((t, arm))
        if rate < 1.0e-9:  # the top: the rate starts as acceleration times time
            rate = arm_acceleration(link, arm + 2.0e-4) * dt
            arm += 0.5 * rate * dt
        else:
            k1 = arm_rate(link, arm)
            k2 = arm_rate(link, arm + 0.5 * dt * k1)
            k3 = arm_rate(link, arm + 0.5 * dt * k2)
            arm += dt / 6.0 * (k1 + 4.0 * k2 + k3) if k3 > 0.0 else 0.5 * dt * k1
            if k1 < 0.02 and arm > link.arm_ball:
                break
        t += dt
    times = np.array([r[0] for r in rows])
    arms = np.array([r[1] for r in rows])
    zero = float(np.interp(link.arm_ball, arms, times))
    reaches = np.array([reach(link, a) for a in arms])
    points = np.array([edge(link, a) for a in arms])
    velocity = np.array([edge_velocity(link, a) for a in arms])
    hands_x = link.hub_x + reaches * np.sin(arms)
    hands_y = link.hub_y - link.sine * reaches * np.cos(arms)
    low, flat = flat_spot(link)
    attack = edge_velocity(link, link.arm_ball)
    return SwingTrace(
        t=_trace(times - zero),
        hub=(_trace(np.full(len(arms), link.hub_x)), _trace(np.full(len(arms), link.hub_y))),
        hands=(_trace(hands_x), _trace(hands_y)),
        head=(_trace(points[:, 0]), _trace(points[:, 1])),
        lean=_trace(points[:, 2]),
        speed=_trace(np.hypot(velocity[:, 0], velocity[:, 1])),
        low_point=low,
        flat_spot=flat,
        attack=atan2(attack[1], attack[0]),
        promised=link.promised,
        by_motion=link.by_motion,
        delivered=link.delivered,
    )


def flat_spot(link: Links) -> tuple[float, float]:
    """Low point x (m) of the intended leading edge, and the stretch within 2 mm of that height (m)."""
    arms = np.linspace(link.arm_ball - 0.5, link.arm_ball + 0.5, 2001)
    points = np.array([edge(link, a) for a in arms])
    i = int(points[:, 1].argmin())
    near = points[points[:, 1] < points[i, 1] + FLAT_SPOT, 0]
    return float(points[i, 0]), float(near.max() - near.min())


# ---- the strike


def _strike(
    blow: Blow,
    quality: Quality,
    loft: float,
    bounce: float,
    surface: Surface,
    pressed: Floats,
    cut: Floats,
    log: Floats,
    low: float,
) -> Strike:
    ground = np.maximum(cut, cut + pressed * (1.0 - surface.rebound**2))
    # No ground is deeper than the head went: a column pressed first and cut later counts once.
    ground = np.minimum(ground, max(blow.deepest, cut.max()))
    touched = np.flatnonzero(ground > 0.3e-3)
    a, b = (int(touched[0]), int(touched[-1]) + 1) if len(touched) else (0, 0)
    xs = GROUND_LEFT + CELL * (np.arange(a, b) + 0.5)
    depth = float(max(blow.deepest, ground.max()))
    edge_depth = 0.0 if surface.kind == MAT else float(max(cut.max(), blow.dug))
    sole = SoleTrace(
        t=_trace(log[:, 0]), edge=(_trace(log[:, 1]), _trace(log[:, 2])), lean=_trace(log[:, 3]),
        speed=_trace(log[:, 4]), pressure=tuple(_trace(row) for row in log[:, 7:]),
        arm=_trace(log[:, 5]), club=_trace(log[:, 6]),
    )  # fmt: skip
    return Strike(
        contact=KINDS[quality.kind],
        met=MEETINGS[blow.met],
        turf=_turf_action(blow, edge_depth, len(touched) > 0, bounce),
        double_hit=bool(blow.double),
        solid=bool(quality.solid),
        as_set=bool(quality.as_set),
        struck_gap=quality.struck_gap,
        set_gap=quality.set_gap,
        head_loss=quality.head_loss,
        lead=blow.lead,
        depth=depth,
        length=(b - a) * CELL,
        speed_before=blow.speed_before,
        speed_at_ball=blow.speed_at_ball,
        speed_after=blow.speed_after,
        lean=blow.lean,
        loft=loft - blow.lean,
        bounce=bounce - blow.lean,
        attack=blow.attack,
        edge_height=blow.edge_height,
        spin_loft=loft - blow.lean - blow.attack,
        cushion=blow.cushion,
        stream=blow.stream,
        time=blow.time,
        divot=(_trace(xs), _trace(-ground[a:b])),
        sole=sole,
        low=low,
        edge_depth=edge_depth,
    )


def _turf_action(blow: Blow, edge_depth: float, touched: bool, bounce: float) -> TurfAction:
    """Dig: the edge, not the sole, carries the head and goes in. Else a brush or a skid by depth."""
    if not touched:
        return TurfAction.NONE
    bears = blow.incidence > BEARING_ANGLE or bounce - blow.lean > BEARING_ANGLE
    if edge_depth > (2.0 * DIG_DEPTH if bears and not blow.stuck else DIG_DEPTH):
        return TurfAction.DIG
    return TurfAction.BRUSH if blow.deepest < BRUSH_DEPTH else TurfAction.SKID


# ---- the run


def _still(field: Field, blow: Blow) -> Run:
    """A ball that was never met."""
    y = height_at(field, 0.0) + BALL.radius
    one = (0.0,)
    outcome = Outcome.STUCK if blow.stuck else Outcome.MISSED
    return Run(one, one, (y,), one, one, one, Phase.REST.value, 0.0, 0.0, 0.0, 0.0, 0.0, outcome)


class Landing(NamedTuple):
    """A first landing; nan where there was none."""

    x: float  # m
    angle: float  # rad, down from level
    speed: float  # m/s


class RunEnd(NamedTuple):
    """The end of a ball's run through scenery: code of `physics.run`, the ball, log rows, first landing,
    and what was met (times from the start of the run)."""

    code: int
    ball: BallState
    rows: list[Floats]
    landing: Landing
    knocks: tuple[Knock, ...] = ()


def finish_run(
    course: Course, field: Field, state: BallState, code: int, offset: float, seed: int, log: Floats
) -> RunEnd:
    """Walk on from a scenery box to the end: scenery and ground in turn."""
    parts: list[Floats] = []
    landing = Landing(nan, nan, nan)
    knocks: tuple[Knock, ...] = ()
    for _ in range(HANDOVERS):
        if code < SCENERY:
            return RunEnd(code, state, parts, landing, knocks)
        met = contact(course, code - SCENERY, state, offset, seed, picture=log.shape[0] > 0)
        if log.shape[0]:
            parts.append(np.array([(*sample, 4.0) for sample in met.samples]).reshape(-1, 7))
        state = met.state
        knocks += tuple(Knock(t, what) for t, what in zip(met.met_at, met.met, strict=True))
        if met.outcome != "free":
            if met.outcome == "holed" and course.hole:  # wherever it rattles, it counts as in the hole
                return RunEnd(HOLED, replace(state, x=course.hole.x), parts, landing, knocks)
            return RunEnd(REST, state, parts, landing, knocks)
        out = run_ball(field, state.x, state.y, state.vx, state.vy, state.spin, offset, met.airborne, log)
        code = out.code
        if isnan(landing.x):
            landing = Landing(out.carry, out.landing_angle, out.landing_speed)
        if log.shape[0]:
            part = log[: out.logged].copy()
            part[:, 0] += state.t
            parts.append(part)
        state = BallState(state.t + out.t, out.x, out.y, out.vx, out.vy, out.spin)
    return RunEnd(LOST, state, parts, landing, knocks)


def _run(course: Course, field: Field, blow: Blow, ground: float, tilt: float, aim: float, seed: int) -> Run:
    x, y, vx, vy = ball_start(blow, ground, tilt)
    offset = course.hole.x * aim if course.hole else 0.0
    log = np.zeros((ROOM, 7))
    out = run_ball(field, x, y, vx, vy, blow.spin, offset, True, log)
    first = log[: out.logged].copy()
    state = BallState(out.t, out.x, out.y, out.vx, out.vy, out.spin)
    end = finish_run(course, field, state, out.code, offset, seed, log)
    landing = end.landing
    if not isnan(out.carry):
        landing = Landing(out.carry, out.landing_angle, out.landing_speed)
    rows = np.concatenate([first, *end.rows])
    rows[:, 0] += blow.time
    knocks = [Knock(k.time + blow.time, k.what) for k in end.knocks] + _stick_knocks(rows)
    t, xs, ys, vxs, vys, spins = (_trace(rows[:, k]) for k in range(6))
    letters = "".join(PHASES[int(v)] for v in rows[:, 6])
    return Run(
        t,
        xs,
        ys,
        vxs,
        vys,
        spins,
        phase=letters,
        carry=landing.x,
        landing_angle=landing.angle,
        landing_speed=landing.speed,
        apex=max(out.apex, float(rows[:, 2].max())) - BALL.radius - ground,
        rest=end.ball.x,
        outcome=CODES[end.code],
        knocks=_told_once(sorted(knocks, key=lambda knock: knock.time)),
    )


def _told_once(knocks: list[Knock]) -> tuple[Knock, ...]:
    """Without what follows its like."""
    return tuple(k for i, k in enumerate(knocks) if i == 0 or knocks[i - 1].what != k.what)


def _stick_knocks(rows: Floats) -> list[Knock]:
    """When the flagstick turned the ball in the law of the hole; rows as logged, times on the shot's line."""
    return [Knock(float(row[0]), "stick") for row in rows if row[6] == AT_STICK]
