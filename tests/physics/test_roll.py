"""Closed forms of slide and roll from inside."""

from math import atan, inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.compiled import as_record
from physics.constants import GRAVITY
from physics.equipment import BALL
from physics.roll import crossing, reach_time, roll_pull, slide_pull, slips, slope_holds
from physics.surfaces import SURFACES, green

GREEN = as_record(green(3.05))
R = BALL.radius
some = st.integers(-5000, 5000).map(lambda n: n / 1000.0)


@settings(max_examples=300, deadline=None)
@given(st.floats(1e-3, 20.0), some, some)
def test_crossing_is_the_first_passage_outward(gap: float, u: float, a: float) -> None:
    t = crossing(gap, u, a)
    if t < inf:
        assert u * t + 0.5 * a * t * t == pytest.approx(gap, abs=1e-6 * (1.0 + abs(u * t)))
        assert u + a * t >= -1e-6
    else:
        assert a <= 0.0
        assert u <= 0.0 or u * u < -2.0 * a * gap


def test_ends_of_a_piece() -> None:
    assert reach_time(1.0, 2.0, 0.0, 0.0, 4.0) == (1.5, 1)
    assert reach_time(1.0, -2.0, 0.0, 0.0, 4.0) == (0.5, -1)
    assert reach_time(1.0, 0.0, 0.0, 0.0, 4.0) == (inf, 0)
    assert reach_time(4.0, 1.0, -1.0, 0.0, 4.0) == (0.0, 1)
    time, end = reach_time(0.0, 1.0, -1.0, 0.0, 4.0)
    assert time == pytest.approx(2.0)
    assert end == -1


def test_rolling_neither_slides_nor_holds_back_on_gentle_slopes() -> None:
    assert slips(2.0, -2.0 / R, 0.05, GREEN) == 0
    assert slips(2.0, 0.0, 0.0, GREEN) == 1
    assert slips(1.0, -2.0 / R, 0.0, GREEN) == -1
    assert slips(0.0, 0.0, 1.0, GREEN) == -1  # steeper than its grip: slides down, backward
    assert slips(0.0, 0.0, -1.0, GREEN) == 1


def test_slide_ends_rolling() -> None:
    for u, spin, tilt in ((3.0, 0.0, 0.0), (2.0, 400.0, 0.1), (1.0, -300.0, -0.1)):
        way = slips(u, spin, tilt, GREEN)
        a, turn, t = slide_pull(u, spin, way, tilt, GREEN)
        assert u + a * t + R * (spin + turn * t) == pytest.approx(0.0, abs=1e-12)


def test_slope_needed_to_run_away() -> None:
    """tan b = 7/5 of roll over g: just under holds, just over does not."""
    limit = atan(1.4 * GREEN.roll)
    assert slope_holds(limit * 0.999, GREEN)
    assert not slope_holds(limit * 1.01, GREEN)


def test_resistance_always_opposes() -> None:
    assert roll_pull(1.0, 0.0, GREEN) == pytest.approx(-GREEN.roll * GRAVITY)
    assert roll_pull(-1.0, 0.0, GREEN) == pytest.approx(GREEN.roll * GRAVITY)
    sand = as_record(SURFACES["sand"])
    assert roll_pull(1.0, 0.2, sand) < roll_pull(1.0, 0.0, sand) < roll_pull(1.0, -0.2, sand)
