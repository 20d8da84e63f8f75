"""The compiled ground against plain geometry."""

from math import atan, hypot, inf, isnan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.course import Course, Ground, Hole, OutOfBounds, Tree, Wall, Water
from physics.equipment import BALL, HOLE_RADIUS
from physics.hole import half_chord
from physics.scenery import scenery_boxes
from physics.surfaces import SURFACES, green
from physics.terrain import (
    build_field,
    clearance,
    entry,
    height_at,
    nearest,
    segment_at,
    slope_at,
)

XS = (-2.0, 1.0, 2.0, 2.3, 4.0, 4.2, 9.0)
YS = (0.0, 0.0, 0.4, -0.3, -0.3, 0.5, 0.2)
GROUND = Ground(XS, YS, ("fairway", "rough", "rough", "sand", "sand", "green"))
FIELD = build_field(Course(GROUND))


@given(st.floats(-1.9, 8.9))
def test_height_is_the_profile(x: float) -> None:
    assert height_at(FIELD, x) == pytest.approx(float(np.interp(x, XS, YS)), abs=1e-12)


def test_ground_goes_on_level() -> None:
    assert height_at(FIELD, -50.0) == 0.0
    assert height_at(FIELD, 70.0) == 0.2
    assert slope_at(FIELD, 70.0) == 0.0
    assert slope_at(FIELD, 1.5) == pytest.approx(atan(0.4))


def test_surfaces_lie_where_the_course_puts_them() -> None:
    rolls = [FIELD.surfaces[FIELD.ground[segment_at(FIELD, x)].surface].roll for x in (-30.0, 1.5, 3.0, 6.0)]
    assert rolls == [SURFACES[n].roll for n in ("fairway", "rough", "sand")] + [green(3.05).roll]


@settings(max_examples=300, deadline=None)
@given(st.floats(0.0, 6.0), st.floats(-1.0, 3.0))
def test_nearest_is_the_least_distance(x: float, y: float) -> None:
    """Against a dense walk along the profile."""
    px = np.union1d(np.linspace(-2.0, 9.0, 40001), XS)
    brute = float(np.min(np.hypot(px - x, np.interp(px, XS, YS) - y)))
    gap, _, _ = nearest(FIELD, x, y)
    assert abs(gap + BALL.radius) == pytest.approx(brute, abs=4e-4)
    if brute > 1e-3:
        assert (gap + BALL.radius > 0.0) == (y > np.interp(x, XS, YS))
    if gap > -BALL.radius:
        assert clearance(FIELD, x, y) <= gap + 1e-12


def test_tilt_at_a_ridge_faces_the_ball() -> None:
    """Straight above the ridge at (2, 0.4) the ground is met as if level."""
    gap, tilt, _ = nearest(FIELD, 2.0, 0.5)
    assert tilt == pytest.approx(0.0, abs=1e-12)
    assert gap == pytest.approx(0.1 - BALL.radius)


def test_rolling_ball_stays_off_hollow_knots() -> None:
    """The ends of neighbouring pieces at a hollow give the same centre."""
    left, right = FIELD.ground[3], FIELD.ground[4]  # down to (2.3, -0.3), then level

    def centre(g: object, s: float) -> tuple[float, float]:
        c, d = np.cos(g.tilt), np.sin(g.tilt)  # type: ignore[attr-defined]
        return g.x + s * c - BALL.radius * d, g.y + s * d + BALL.radius * c  # type: ignore[attr-defined]

    a, b = centre(left, left.last), centre(right, right.first)
    assert hypot(a[0] - b[0], a[1] - b[1]) < 1e-12


@pytest.mark.parametrize(
    ("way", "share"),
    [
        ((0.0, 0.5, 4.0, 0.5), 0.25),
        ((4.0, 0.5, 0.0, 0.5), 0.5),
        ((1.5, 0.5, 9.0, 9.0), 0.0),
        ((0.0, 2.0, 4.0, 2.0), 2.0),
        ((0.0, 0.5, 0.9, 0.5), 2.0),
        ((1.5, 3.0, 1.5, -1.0), 0.5),
    ],
)
def test_entry_of_a_box(way: tuple[float, float, float, float], share: float) -> None:
    assert entry(*way, 1.0, 0.0, 2.0, 1.0) == pytest.approx(share)


def test_scenery_is_numbered_as_the_scenery_counts_it() -> None:
    hazards = (Water(5.0, 6.0, -0.1), Wall(3.0, 0.5), Tree(7.0, 3.0, 1.0), OutOfBounds(20.0))
    course = Course(Ground((0.0, 40.0), (0.0, 0.0), ("green",)), hole=Hole(9.0), hazards=hazards)
    field = build_field(course)
    boxes = scenery_boxes(course, 0.0)
    assert boxes[field.cup][4] == "hole"
    assert [tuple(b) for b in field.boxes[: field.cup]] == [b[:4] for b in boxes[: field.cup]]
    assert len(field.boxes) == field.cup + 1  # the flagstick
    assert (field.lo, field.hi) == (-inf, 20.0)
    assert field.water.shape == (1, 4)
    assert isnan(FIELD.hole)


def test_firmness_touches_turf_and_leaves_sand() -> None:
    soft, firm = (build_field(Course(GROUND, firmness=f)) for f in (0.5, 1.5))
    for x, same in ((0.0, False), (1.5, False), (3.0, True), (6.0, False)):
        a, b = (f.surfaces[f.ground[segment_at(f, x)].surface] for f in (soft, firm))
        assert bool(a.bounce == b.bounce) is same
        assert same or (a.bounce < b.bounce and a.crater > b.crater)


def test_half_chord() -> None:
    assert half_chord(0.0) == HOLE_RADIUS
    assert half_chord(0.6 * HOLE_RADIUS) == pytest.approx(0.8 * HOLE_RADIUS)
    assert half_chord(-0.06) == 0.0
