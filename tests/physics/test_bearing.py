"""Behaviour of the plate and bearing laws; numbers from outside are in tests/published."""

from math import inf, sqrt

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from numba import njit

from physics import bearing
from physics.bearing import (
    bearing_pressure,
    bekker_pressure,
    bekker_sinkage,
    bekker_work,
    clegg_peak_pressure,
    clegg_stiffness,
    janosi_shear,
    plate_pressure,
    prandtl_nc,
    terzaghi_nc,
    virgin_pressure,
)

GROUND = (80e6, 600e3, 0.25, 5e-3, 0.2)  # stiffness, yield, rebound, cover, cover share
grounds = st.tuples(
    st.floats(1e7, 3e8),
    st.one_of(st.floats(5e4, 2e6), st.just(inf)),
    st.floats(0.05, 0.9),
    st.floats(0.0, 8e-3),
    st.floats(0.05, 1.0),
)


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("prandtl_nq", (0.5,)),
        ("prandtl_nc", (0.5,)),
        ("meyerhof_ng", (0.5,)),
        ("vesic_ng", (0.5,)),
        ("terzaghi_nq", (0.5,)),
        ("terzaghi_nc", (0.5,)),
        ("bearing_pressure", (2e4, 0.5)),
        ("strip_capacity", (2e4, 1e3, 1.6e4, 0.02, 30.0, 18.0, 16.0)),
        ("bekker_pressure", (5e3, 1.5e6, 0.7, 0.02, 0.005)),
        ("bekker_sinkage", (5e3, 1.5e6, 0.7, 0.02, 4e4)),
        ("bekker_work", (5e3, 1.5e6, 0.7, 0.02, 0.005)),
        ("janosi_shear", (1e3, 5e4, 0.5, 0.003, 0.004)),
        ("clegg_stiffness", (2.25, 80.0, 0.45, 0.05)),
        ("clegg_peak_pressure", (2.25, 80.0, 0.05)),
        ("virgin_pressure", (6e-3, 80e6, 6e5, 5e-3, 0.2)),
        ("plate_pressure", (6e-3, 6.05e-3, *GROUND)),
    ],
)
def test_compiled_and_plain_agree(name, arguments):
    """Every law gives the same number compiled and as plain Python, and not zero."""
    compiled = getattr(bearing, name)
    assert compiled(*arguments) == pytest.approx(compiled.py_func(*arguments), rel=1e-12)
    assert compiled(*arguments) > 0.0


@pytest.mark.parametrize("factor", [prandtl_nc, terzaghi_nc])
def test_cohesion_factor_has_no_step_at_zero_friction(factor):
    """The limit value joins the formula smoothly on both sides of the switch."""
    assert factor(0.9e-6) == pytest.approx(factor(1.1e-6), rel=1e-5)


def test_bearing_pressure_grows_with_cohesion_and_friction():
    assert bearing_pressure(40e3, 0.5) == pytest.approx(2.0 * bearing_pressure(20e3, 0.5))
    assert bearing_pressure(20e3, 0.6) > bearing_pressure(20e3, 0.5)


@given(z=st.floats(1e-5, 0.1), n=st.floats(0.1, 1.2), b=st.floats(0.01, 0.2))
@settings(max_examples=50, deadline=None)
def test_sinkage_undoes_pressure_and_work_is_its_integral(z, n, b):
    soil = (5e3, 1.5e6, n, b)
    assert bekker_sinkage(*soil, bekker_pressure(*soil, z)) == pytest.approx(z, rel=1e-9)
    step = 1e-4 * z
    slope = (bekker_work(*soil, z + step) - bekker_work(*soil, z - step)) / (2.0 * step)
    assert slope == pytest.approx(bekker_pressure(*soil, z), rel=1e-6)


def test_nothing_presses_above_the_ground():
    assert bekker_pressure(5e3, 1.5e6, 0.7, 0.02, -1e-3) == 0.0
    assert bekker_work(5e3, 1.5e6, 0.7, 0.02, -1e-3) == 0.0
    assert bekker_sinkage(5e3, 1.5e6, 0.7, 0.02, 0.0) == 0.0
    assert janosi_shear(1e3, 5e4, 0.5, -1e-3, 0.004) == 0.0
    assert plate_pressure(-1e-3, 0.0, *GROUND) == 0.0


def test_clegg_spring_stops_the_hammer_at_its_peak_pressure():
    """A linear spring of that stiffness, pressed by the drop energy, ends at the peak pressure."""
    mass, gravities, drop, diameter = 2.25, 80.0, 0.45, 0.05
    stiffness = clegg_stiffness(mass, gravities, drop, diameter)
    area = 3.141592653589793 * diameter**2 / 4.0
    depth = sqrt(2.0 * mass * 9.81 * drop / (stiffness * area))
    assert stiffness * depth == pytest.approx(clegg_peak_pressure(mass, gravities, diameter), rel=1e-9)


def test_cover_is_soft_until_it_locks_up_and_the_soil_caps_it():
    stiffness, cap, _, cover, share = GROUND
    ground = (stiffness, cap, cover, share)
    assert virgin_pressure(2e-3, *ground) == pytest.approx(share * stiffness * 2e-3)
    assert virgin_pressure(6e-3, *ground) == pytest.approx(share * stiffness * cover + stiffness * 1e-3)
    assert virgin_pressure(0.05, *ground) == cap


@given(ground=grounds, deepest=st.floats(0.0, 0.02), depth=st.floats(-0.002, 0.025))
@settings(max_examples=200, deadline=None)
def test_pressure_is_continuous_never_tension_never_above_virgin(ground, deepest, depth):
    stiffness, cap, rebound, cover, share = ground
    pressure = plate_pressure(depth, deepest, *ground)
    assert 0.0 <= pressure <= virgin_pressure(depth, stiffness, cap, cover, share) + 1e-6
    step = 1e-9
    steepest = stiffness / rebound**2
    assert abs(plate_pressure(depth + step, deepest, *ground) - pressure) <= steepest * step * 1.01 + 1e-6


@njit
def cycle(deepest, stiffness, cap, rebound, cover, share):
    """Work per area put in going down to `deepest` and got back coming up (J/m2).

    Steps of the way up are finest at the bottom: stiff ground springs back within a micrometre.
    """
    n = 20000
    step = deepest / n
    given, back = 0.0, 0.0
    for i in range(n):
        depth = (i + 0.5) * step
        given += step * plate_pressure(depth, depth, stiffness, cap, rebound, cover, share)
        u = (i + 0.5) / n
        way, width = deepest * u**4, deepest * 4.0 * u**3 / n
        back += width * plate_pressure(deepest - way, deepest, stiffness, cap, rebound, cover, share)
    return given, back


@given(ground=grounds, deepest=st.floats(5e-4, 0.02))
@example(ground=(264062501.0, 50000.0, 0.05078125, 0.0, 1.0), deepest=0.01953125)
@settings(max_examples=100, deadline=None)
def test_a_load_cycle_gives_back_at_most_rebound_squared(ground, deepest):
    put_in, back = cycle(deepest, *ground)
    assert 0.0 < back <= put_in * ground[2] ** 2 * 1.02


def test_linear_ground_gives_back_exactly_rebound_squared():
    put_in, back = cycle(5e-3, 80e6, inf, 0.35, 0.0, 1.0)
    assert back / put_in == pytest.approx(0.35**2, rel=1e-3)


def test_reload_follows_the_line_it_came_up():
    """Pressed to 6 mm, let off to 5.95 mm and pressed again, the plate finds the same pressure."""
    top = plate_pressure(6e-3, 6e-3, *GROUND)
    part = plate_pressure(5.95e-3, 6e-3, *GROUND)
    assert part == pytest.approx(top - 80e6 / 0.25**2 * 0.05e-3)
    assert plate_pressure(5.0e-3, 6e-3, *GROUND) == 0.0  # the dent stays


def test_no_rebound_still_finite():
    assert plate_pressure(6e-3, 6e-3 + 1e-7, 80e6, 6e5, 0.0, 0.0, 1.0) < 6e5


def test_cover_alone_unloads_as_softly_as_it_loads():
    """Pressed within the cover, the way back follows the cover's stiffness, not the firm layer's."""
    stiffness, _, rebound, _, share = GROUND
    top = plate_pressure(3e-3, 3e-3, *GROUND)
    part = plate_pressure(2.95e-3, 3e-3, *GROUND)
    assert part == pytest.approx(top - share * stiffness / rebound**2 * 0.05e-3)
