"""The whole walk: what must hold whatever the course, and each way it can end."""

from dataclasses import replace
from math import atan, cos, hypot, isfinite, isnan, sin, sqrt

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from physics.constants import GRAVITY
from physics.course import Course, Ground, Hazard, Hole, OutOfBounds, Tree, Wall, Water
from physics.equipment import BALL, HOLE_RADIUS
from physics.flight import FLIGHT_STEP
from physics.run import (
    HOLED,
    LOST,
    NO_LOG,
    OUT,
    REST,
    SCENERY,
    WATER,
    BallRun,
    capture_speed,
    run_ball,
)
from physics.surfaces import SURFACES
from physics.terrain import Field, build_field, height_at, nearest

R = BALL.radius
HILLS = Ground(
    (-3.0, 0.5, 2.0, 2.3, 3.8, 4.0, 6.0, 7.0, 9.0, 12.0),
    (0.0, 0.0, 0.1, -0.5, -0.5, 0.35, 0.3, 0.15, 0.45, 0.4),
    ("fairway", "fairway", "rough", "sand", "sand", "fringe", "green", "green", "green"),
)
FIELDS = {
    "level": build_field(Course(Ground((-5.0, 60.0), (0.0, 0.0), ("green",)))),
    "hills": build_field(Course(HILLS)),
}
Result = BallRun


def play(field: Field, v: float, angle: float, spin: float, **more: object) -> Result:
    """From the ground at x = 0 through the air."""
    args: dict[str, object] = {"offset": 0.0, "airborne": True, "log": NO_LOG, **more}
    return run_ball(field, 0.0, height_at(field, 0.0) + R, v * cos(angle), v * sin(angle), spin, **args)  # type: ignore[arg-type]


def putt(field: Field, v: float, offset: float = 0.0, x: float = 0.0, skip: int = -1) -> Result:
    """Rolling from x on level ground."""
    return run_ball(field, x, R, v, 0.0, -v / R, offset, False, NO_LOG, skip)


def level(hole: Hole | None = None, *hazards: Hazard, surface: str = "green") -> Field:
    return build_field(Course(Ground((-9.0, 60.0), (0.0, 0.0), (surface,)), hole=hole, hazards=hazards))


launches = {
    "v": st.floats(0.0, 20.0),
    "angle": st.floats(-0.5, 3.6),
    "spin": st.floats(-300.0, 900.0),
    "where": st.sampled_from(sorted(FIELDS)),
}


@settings(max_examples=300, deadline=None)
@given(**launches)
def test_walk_is_finite_above_ground_and_never_gains_energy(
    v: float, angle: float, spin: float, where: str
) -> None:
    field, log = FIELDS[where], np.zeros((6000, 7))
    out = play(field, v, angle, spin, log=log)
    rows = log[: out.logged]
    assert out.code == REST
    assert all(isfinite(q) for q in out[:8])
    assert np.isfinite(rows).all()
    assert (np.diff(rows[:, 0]) >= 0.0).all()
    energy = GRAVITY * rows[:, 2] + 0.5 * (rows[:, 3] ** 2 + rows[:, 4] ** 2) + 0.2 * (R * rows[:, 5]) ** 2
    assert (np.diff(energy) <= 1e-6 * (1.0 + energy[0])).all()
    assert min(nearest(field, x, y)[0] for x, y in rows[:, 1:3]) > -1e-6


def sunk_start(course: Course, depth: float) -> tuple[float, float]:
    """Centre of a ball pressed `depth` into the ground at x = 0, along the slope's normal."""
    ground = course.ground
    slope = (ground.y[2] - ground.y[1]) / (ground.x[2] - ground.x[1])
    tilt = atan(slope)
    return -(R - depth) * sin(tilt), ground.y[1] - slope * ground.x[1] + (R - depth) * cos(tilt)


def test_ball_that_starts_in_the_ground_pays_for_its_way_out() -> None:
    """Lies up to 23 mm deep, struck any way: energy never rises, out is above ground, else it lies there."""
    rng, log, stayed = np.random.default_rng(10), np.zeros((8000, 7)), 0
    for _ in range(100):
        x = (-9.0, -rng.uniform(0.3, 3.0), rng.uniform(0.1, 1.5), rng.uniform(2.0, 6.0), 60.0)
        slope = rng.uniform(-0.15, 0.15)
        y = (0.0, slope * x[1], slope * x[2], rng.uniform(-0.4, 0.4), rng.uniform(-0.4, 0.4))
        course = Course(Ground(x, y, tuple(rng.choice(sorted(SURFACES), 4))))
        field = build_field(course)
        for k in range(20):
            start = sunk_start(course, rng.choice([1e-3, 3e-3, 15e-3, rng.uniform(0.0, 0.023)]))
            v, up, spin = 12.0 * rng.random() ** 2, rng.uniform(-0.4, 0.6), rng.uniform(-300.0, 700.0)
            angle = up if k % 2 else rng.uniform(-0.6, 3.8)
            out = run_ball(field, *start, v * cos(angle), v * sin(angle), spin, 0.0, True, log)
            rows = log[: out.logged]
            assert out.code == REST
            assert np.isfinite(rows).all()
            height, speed2 = rows[:, 2], rows[:, 3] ** 2 + rows[:, 4] ** 2
            energy = GRAVITY * height + 0.5 * speed2 + 0.2 * (R * rows[:, 5]) ** 2
            assert np.diff(energy).max(initial=0.0) <= 1e-9 * (1.0 + energy[0])
            gaps = np.array([nearest(field, *row[1:3])[0] for row in rows])
            clear = np.flatnonzero(gaps > -2e-7)
            assert len(clear) == 0 or gaps[clear[0] :].min() > -1e-6
            stayed += len(clear) == 0
    assert 50 < stayed < 1000  # both ways are tried


def test_slow_ball_stays_in_its_hollow_and_a_quick_one_leaves_it_slower() -> None:
    """15 mm deep: the way out costs 2 g 15 mm, a speed of 0.54 m/s."""
    field, low = level(None, surface="green"), R - 0.015
    stays = run_ball(field, 0.0, low, 0.5, -0.05, 0.0, 0.0, True, NO_LOG)
    assert stays.code == REST
    assert stays.y == pytest.approx(low, abs=1e-3)
    log = np.zeros((4000, 7))
    n = run_ball(field, 0.0, low, 2.0, -0.05, 0.0, 0.0, True, log).logged
    first = log[:n][log[:n, 6] == 1.0][0]
    free = run_ball(field, 0.0, R, 2.0, -0.05, 0.0, 0.0, True, log).logged
    other = log[:free][log[:free, 6] == 1.0][0]
    assert first[2] == pytest.approx(R, abs=1e-6)
    paid = float(hypot(other[3], other[4]) ** 2 - hypot(first[3], first[4]) ** 2)
    assert paid == pytest.approx(2.0 * GRAVITY * 0.015, rel=0.01)


@settings(max_examples=60, deadline=None)
@given(**launches)
def test_log_never_changes_the_result(v: float, angle: float, spin: float, where: str) -> None:
    field = FIELDS[where]
    logs = NO_LOG, np.zeros((5, 7)), np.zeros((4000, 7))
    results = [play(field, v, angle, spin, log=log) for log in logs]
    bare = [(*r[:7], *r[8:]) for r in results]
    assert np.array_equal(bare[0], bare[1], equal_nan=True)
    assert np.array_equal(bare[0], bare[2], equal_nan=True)
    assert results[0].logged == 0
    assert results[1].logged <= 5


@settings(max_examples=60, deadline=None)
@given(st.floats(3.0, 20.0), st.floats(0.2, 1.2), st.floats(0.0, 900.0))
def test_halving_the_step_hardly_moves_the_stop(v: float, angle: float, spin: float) -> None:
    """1 cm or 0.5 %."""
    a, b = (play(FIELDS["level"], v, angle, spin, step=h) for h in (FLIGHT_STEP, FLIGHT_STEP / 2))
    assert a.x == pytest.approx(b.x, abs=0.01, rel=0.005)


@settings(max_examples=60, deadline=None)
@given(st.floats(0.3, 4.0), st.floats(0.0, 0.06), st.booleans())
def test_sideways_offset_mirrors(v: float, offset: float, airborne: bool) -> None:
    field = level(Hole(2.0))
    left, right = (
        run_ball(field, 0.0, R, v, v * airborne, 0.0, side * offset, airborne, NO_LOG) for side in (-1.0, 1.0)
    )
    assert np.array_equal(left, right, equal_nan=True)


@settings(max_examples=100, deadline=None)
@given(st.floats(0.5, 15.0), st.floats(-0.2, 1.4), st.floats(-300.0, 900.0))
def test_walk_mirrors_on_level_ground(v: float, angle: float, spin: float) -> None:
    field = FIELDS["level"]
    a = play(field, v, angle, spin)
    b = run_ball(field, 30.0, R, -v * cos(angle), v * sin(angle), -spin, 0.0, True, NO_LOG)
    assume(abs(a.x) < 25.0)
    assert 30.0 - b.x == pytest.approx(a.x, abs=1e-6)


def test_landing_is_told() -> None:
    log = np.zeros((2000, 7))
    out = play(FIELDS["level"], 9.0, 0.8, 300.0, log=log)
    rows = log[: out.logged]
    first = rows[rows[:, 6] == 1.0][0]
    assert out.carry == first[1]
    assert 0.8 < out.landing_angle < 0.9  # steeper down than up: drag
    assert 8.0 < out.landing_speed < 9.0
    assert out.apex == pytest.approx(rows[:, 2].max(), abs=2e-4)
    assert list(rows[[0, -1], 6]) == [0.0, 5.0]
    assert {1.0, 2.0, 3.0} <= set(rows[:, 6])
    ground = rows[rows[:, 6] == 3.0]
    assert np.diff(ground[:, 0]).max() <= 0.02 + 1e-9


def test_a_putt_never_lands() -> None:
    out = putt(FIELDS["level"], 1.0)
    assert all(isnan(q) for q in out[8:11])
    assert out.apex == R


def test_backspin_bites_and_spins_back() -> None:
    field = FIELDS["level"]
    out = run_ball(field, 0.0, R, 0.5, 0.0, 600.0, 0.0, False, NO_LOG)
    assert out.x < -0.5


def handing(field: Field) -> Field:
    """The same field, but the walk hands the hole over, so that a test sees where it is met."""
    return field._replace(joined=True)


@pytest.mark.parametrize("offset", [0.0, 0.02, 0.04])
def test_slow_roll_drops_and_fast_roll_meets_the_rim(offset: float) -> None:
    """Speeds at the rim just under and over the limit; the hole begins half a chord before its middle."""
    field, limit = handing(level(Hole(2.0))), capture_speed(offset)
    way = 2.0 - sqrt(HOLE_RADIUS**2 - offset**2)
    brake = field.surfaces[0].roll * GRAVITY
    slow, fast = (sqrt((limit * f) ** 2 + 2.0 * brake * way) for f in (0.999, 1.001))
    out = putt(field, slow, offset)
    assert out.code == HOLED
    assert out.x == 2.0
    assert out.y < 0.0
    out = putt(field, fast, offset)
    assert out.code == SCENERY + field.cup
    assert out.x == pytest.approx(way, abs=1e-9)
    assert hypot(out.vx, out.vy) == pytest.approx(1.001 * limit, rel=1e-6)


def test_roll_beside_the_hole_goes_on() -> None:
    assert putt(level(Hole(2.0)), 1.7, HOLE_RADIUS + 1e-6)[:3] == putt(FIELDS["level"], 1.7)[:3]


def test_hole_that_was_just_left_is_not_met_again() -> None:
    field = handing(level(Hole(2.0)))
    out = putt(field, 3.0, x=2.0, skip=field.cup)
    assert out.code == REST
    assert out.x > 5.0
    assert putt(field, 3.0, x=2.0).code == SCENERY + field.cup
    assert putt(field, 0.5, x=2.0, skip=field.cup).x < 2.3
    back = putt(field, -3.0, x=3.0, skip=field.cup)  # left behind: counts again
    assert back.code == SCENERY + field.cup


def test_flying_ball_meets_flagstick_only_within_reach() -> None:
    for flag, offset, hit in ((True, 0.0, True), (True, 0.035, False), (False, 0.0, False)):
        field = handing(level(Hole(2.0, flag)))
        out = play(field, 8.0, 0.4, 0.0, offset=offset)
        assert (out.code == SCENERY + field.cup and out.y > 0.3) is hit


def test_ball_that_drops_into_the_hole_from_the_air_meets_the_hole_at_the_ground() -> None:
    far = play(FIELDS["level"], 8.0, 0.9, 300.0).carry
    field = handing(level(Hole(far, flagstick=False)))
    out = play(field, 8.0, 0.9, 300.0)
    assert out.code == SCENERY + field.cup
    assert out.x == pytest.approx(far, abs=1e-6)
    assert out.y == pytest.approx(R, abs=1e-6)


def test_ball_thrown_back_by_the_stick_lands_before_the_hole() -> None:
    field = level(Hole(2.0))
    out = play(field, 8.0, 0.4, 0.0)
    assert out.code == REST
    assert out.x < 2.0
    assert out.carry < 2.0  # its first landing comes after the stick


def test_scenery_is_met_at_the_side_of_its_box_in_the_air_and_on_the_ground() -> None:
    field = level(None, Wall(3.0, 0.5), Tree(8.0, 4.0, 1.5))
    left = field.boxes[0][0]
    rolled = putt(field, 3.0)
    assert rolled.code == SCENERY
    assert rolled.x == pytest.approx(left, abs=1e-9)
    low = play(field, 8.0, 0.1, 0.0)
    assert low.code == SCENERY
    assert low.x == pytest.approx(left, abs=1e-4)
    high = play(field, 12.0, 0.7, 0.0)
    assert high.code == SCENERY + 2
    inside = run_ball(field, left + 0.01, R, 1.0, 0.0, 0.0, 0.0, False, NO_LOG)
    assert inside[:2] == (SCENERY, 0.0)
    assert inside.x == pytest.approx(left + 0.01)
    leaving = run_ball(field, left + 0.01, R, -1.0, 0.0, 1.0 / R, 0.0, False, NO_LOG, 0)
    assert leaving.code == REST


def test_water_takes_flying_and_rolling_balls() -> None:
    pond = Ground((-5.0, 3.0, 3.5, 6.0, 6.5, 20.0), (0.0, 0.0, -0.5, -0.5, 0.0, 0.0), ("green",) * 5)
    field = build_field(Course(pond, hazards=(Water(3.0, 6.5, -0.1),)))
    for out in (putt(field, 2.5), play(field, 6.5, 0.7, 0.0)):
        assert out.code == WATER
        assert 3.0 < out.x < 6.5
        assert out.y - R <= -0.1 + 1e-4
    flat = level(None, Water(1.0, 2.0, 0.0))
    wet = putt(flat, 3.0)
    assert wet.code == WATER
    assert wet.x == pytest.approx(1.0)


def test_out_of_bounds_is_judged_at_rest() -> None:
    stop = putt(FIELDS["level"], 2.0).x
    assert putt(level(None, OutOfBounds(stop - R - 0.01)), 2.0)[0] == OUT
    assert putt(level(None, OutOfBounds(stop - R + 0.01)), 2.0)[0] == REST
    assert putt(level(None, OutOfBounds(-stop + R + 0.01, -1)), -2.0)[0] == OUT


def test_ball_comes_to_rest_in_a_hollow_and_rolls_back_from_a_steep_face() -> None:
    bowl = Ground((-4.0, -1.0, 1.0, 4.0), (1.0, 0.0, 0.0, 1.0), ("green",) * 3)
    field = build_field(Course(bowl))
    out = putt(field, 4.0)
    assert out.code == REST
    assert -1.0 < out.x < 1.0
    notch = build_field(Course(Ground((-4.0, 0.0, 4.0), (2.0, 0.0, 2.0), ("green",) * 2)))
    out = play(notch, 3.0, 1.0, 0.0)
    assert out.code == REST
    assert abs(out.x) < 1e-6
    assert nearest(notch, out.x, out.y)[0] == pytest.approx(0.0, abs=1e-9)


def test_fast_ball_takes_off_over_a_ridge_and_slow_one_follows_the_ground() -> None:
    ridge = build_field(Course(Ground((-5.0, 1.0, 20.0), (0.0, 0.0, -9.5), ("rough",) * 2)))
    log = np.zeros((3000, 7))
    n = run_ball(ridge, 0.9, R, 3.0, 0.0, -3.0 / R, 0.0, False, log).logged
    assert 0.0 in log[1:n, 6]
    n = run_ball(ridge, 0.99, R, 0.35, 0.0, -0.35 / R, 0.0, False, log).logged
    assert 0.0 not in log[1:n, 6]


def test_roll_is_exact_across_joints() -> None:
    """Cutting a plane into many pieces changes nothing."""
    whole = build_field(Course(Ground((0.0, 50.0), (0.0, 1.0), ("green",))))
    xs = np.linspace(0.0, 50.0, 201)
    cut = build_field(Course(Ground(tuple(xs), tuple(xs / 50.0), ("green",) * 200)))
    a, b = (run_ball(f, 1.0, 0.1, 3.0, 0.06, 0.0, 0.0, False, NO_LOG) for f in (whole, cut))
    assert a[:4] == pytest.approx(b[:4], abs=1e-7)


def test_steep_ball_stays_in_sand() -> None:
    field = level(None, surface="sand")
    out = play(field, 8.0, 1.35, 0.0)
    assert out.x == out.carry


def test_endless_descent_is_given_up() -> None:
    steep = build_field(Course(Ground((-1.0, 9000.0), (0.0, -2500.0), ("green",))))
    out = run_ball(steep, 0.0, R, 1.0, 0.0, -1.0 / R, 0.0, False, NO_LOG)
    assert out.code == LOST
    assert out.t == pytest.approx(120.0, abs=1.5)


def test_wind_carries() -> None:
    course = Course(Ground((-5.0, 60.0), (0.0, 0.0), ("green",)))
    with_it, against = (play(build_field(replace(course, wind=w)), 15.0, 0.7, 300.0)[8] for w in (5.0, -5.0))
    assert against < play(FIELDS["level"], 15.0, 0.7, 300.0).carry - 0.3
    assert with_it > play(FIELDS["level"], 15.0, 0.7, 300.0).carry + 0.3


def test_surfaces_rank_by_run() -> None:
    run = {n: (r := play(level(None, surface=n), 8.0, 0.7, 250.0))[2] - r[8] for n in SURFACES if n != "mat"}
    assert run["green"] > run["fringe"] > run["fairway"] > run["rough"] > run["sand"] >= 0.0


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0.1, 2.0), st.floats(-1.2, 1.2)), min_size=1, max_size=8),
    st.lists(st.sampled_from(sorted(SURFACES)), min_size=8, max_size=8),
    st.floats(0.0, 22.0),
    st.floats(-0.5, 3.6),
    st.floats(-400.0, 900.0),
)
def test_any_ground_brings_the_ball_to_rest_above_it(
    pieces: list[tuple[float, float]], names: list[str], v: float, angle: float, spin: float
) -> None:
    """Pieces of any width and tilt: no trap keeps the ball moving, none swallows it, none feeds it."""
    xs, ys = [-2.0, 0.5], [0.0, 0.0]
    for width, tilt in pieces:
        xs.append(xs[-1] + width)
        ys.append(ys[-1] + width * sin(tilt) / cos(tilt))
    course = Course(Ground(tuple(xs), tuple(ys), ("green", *names[: len(pieces)])))
    field, log = build_field(course), np.zeros((8000, 7))
    out = play(field, v, angle, spin, log=log)
    rows = log[: out.logged]
    assert out.code == REST
    assert out.y >= height_at(field, out.x)
    energy = GRAVITY * rows[:, 2] + 0.5 * (rows[:, 3] ** 2 + rows[:, 4] ** 2) + 0.2 * (R * rows[:, 5]) ** 2
    assert (np.diff(energy) <= 1e-5 * (1.0 + energy[0])).all()
    assert all(y >= height_at(field, x) for x, y in rows[:, 1:3])


def test_spinning_ball_caught_between_two_faces_rests() -> None:
    """Topspin drives it into the far face, the face and its weight push it back: no end without friction."""
    trap = build_field(Course(Ground((-2.0, 0.0, 2.0), (0.0, 0.0, 3.0), ("green", "green"))))
    for spin in (-90.0, -400.0):
        out = run_ball(trap, -0.05, R, 0.3, 0.0, spin, 0.0, False, NO_LOG)
        assert out.code == REST
        assert out.t < 5.0
