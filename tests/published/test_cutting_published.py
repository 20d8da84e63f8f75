"""Cutting law against closed forms, a large blade and golf-sized arithmetic.

Reece 1964 and McKyes 1985 for the equation, both seen in quotation only. The large blade (delta 20, phi 35
deg, 1800 kg/m3, 0.5 m deep, 1 m wide) is an exercise whose author is lost: from memory, recomputed by hand.
Golf-sized figures are derived from the same equation by a separate search over planes, 0.5 %.
"""

from math import cos, degrees, exp, pi, radians, sqrt

import pytest

from physics.cutting import cutting_factors, cutting_force, easiest_plane, reece_force


@pytest.mark.parametrize("rake_deg", [45, 60, 90])
def test_frictionless_cohesive_wedge(rake_deg):
    """Derived: phi = delta = 0, weightless: beta = 90 - a/2, Nc = 1/cos^2(a/2); at 90 it is 2c. Exact."""
    rake = radians(rake_deg)
    beta, stress = easiest_plane(0.5, 0.0, rake, 0.0, 1e4, 0.0, 0.0, 0.0)
    assert beta == pytest.approx(pi / 2 - rake / 2, abs=1e-5)
    assert stress / 1e4 == pytest.approx(1.0 / cos(rake / 2) ** 2, rel=1e-5)


@pytest.mark.parametrize(("rake_deg", "nc"), [(45, 1.1716), (90, 2.0)])
def test_frictionless_cohesion_factor(rake_deg, nc):
    """The same derived closed form through the factor itself, 0.01 %."""
    rake = radians(rake_deg)
    assert cutting_factors(rake, pi / 2 - rake / 2, 0.0, 0.0)[1] == pytest.approx(nc, rel=1e-4)


def test_smooth_wall_is_rankine_passive():
    """Derived: a = 90, delta = 0, phi = 30: beta 30, Ng Kp/2 = 1.5, Nq Kp = 3, Nc 2 sqrt(Kp), Nv 2. Exact."""
    phi = radians(30)
    beta, stress = easiest_plane(0.5, 0.0, pi / 2, 1800.0, 0.0, phi, 0.0, 0.0)
    assert degrees(beta) == pytest.approx(30.0, abs=1e-4)
    assert stress / (1800.0 * 9.81 * 0.5) == pytest.approx(1.5, rel=1e-6)
    ng, nc, _, nq, nv = cutting_factors(pi / 2, beta, phi, 0.0)
    assert (ng, nc, nq, nv) == pytest.approx((1.5, 2.0 * sqrt(3.0), 3.0, 2.0), rel=1e-5)


@pytest.mark.parametrize(
    ("rake", "beta", "ng", "whole", "drag", "pull"),
    [
        (30, 35.59, 1.714, 7.57, 5.80, 4.86),
        (60, 28.11, 1.820, 8.03, 7.91, 1.39),
        (90, 16.17, 4.162, 18.37, 17.26, -6.28),
    ],
)
@pytest.mark.parametrize("start", [0.0, 1.0])
def test_large_blade(rake, beta, ng, whole, drag, pull, start):
    """From memory, recomputed; weight only: angles to 0.03 deg, factor to 0.1 %, kN to the last digit."""
    a, phi, delta = radians(rake), radians(35), radians(20)
    found_drag, found_pull, plane = cutting_force(0.5, 1.0, 0.0, a, 1800.0, 0.0, phi, delta, start)
    assert degrees(plane) == pytest.approx(beta, abs=0.03)
    assert cutting_factors(a, plane, phi, delta)[0] == pytest.approx(ng, rel=1e-3)
    assert found_drag / 1e3 == pytest.approx(drag, abs=6e-3)
    assert found_pull / 1e3 == pytest.approx(pull, abs=6e-3)
    assert sqrt(found_drag**2 + found_pull**2) / 1e3 == pytest.approx(whole, abs=6e-3)


def test_large_blade_in_sticky_soil():
    """Same blade, rake 60, c 10 kPa, adhesion 5 kPa: beta 28.2 deg and 25.1 kN from memory, 25.14 derived."""
    found = min(
        (
            reece_force(0.5, 1.0, 0.0, radians(60), b / 1e4, 1800.0, 1e4, 5e3, 0.0, radians(35), radians(20))[
                0
            ],
            b / 1e4,
        )
        for b in range(3000, 8000)
    )
    assert found[0] == pytest.approx(25.14e3, rel=1e-3)
    assert degrees(found[1]) == pytest.approx(28.2, abs=0.2)


WIDTH, PHI, STEEL = 0.070, radians(30), radians(20)


@pytest.mark.parametrize(
    ("rake", "beta", "nc", "nv", "drag", "pull"),
    [
        (34, 47.97, 1.568, 0.658, 6.70, 4.86),
        (45, 42.48, 1.897, 0.907, 9.07, 4.23),
        (75, 27.49, 4.062, 1.855, 21.30, -1.86),
        (90, 20.00, 7.403, 2.694, 36.60, -13.32),
    ],
)
def test_wedge_sized_blade_at_rest(rake, beta, nc, nv, drag, pull):
    """Derived: 5 mm deep, 70 mm wide, c 15 kPa, phi 30, delta 20, 1600 kg/m3."""
    found = cutting_force(5e-3, WIDTH, 0.0, radians(rake), 1600.0, 15e3, PHI, STEEL, 0.0)
    assert found[0] == pytest.approx(drag, rel=5e-3)
    assert found[1] == pytest.approx(pull, rel=5e-3)
    assert degrees(found[2]) == pytest.approx(beta, abs=0.02)
    factors = cutting_factors(radians(rake), found[2], PHI, STEEL)
    assert (factors[1], factors[4]) == pytest.approx((nc, nv), rel=1e-3)


@pytest.mark.parametrize(
    ("rake", "beta", "whole", "drag", "pull"),
    [(34, 38.54, 25.22, 20.41, 14.83), (45, 31.01, 32.36, 29.33, 13.68)],
)
def test_wedge_sized_blade_at_chip_speed(rake, beta, whole, drag, pull):
    """Derived: the same soil at 7 m/s; the plane flattens and the force grows three- to fourfold."""
    found = cutting_force(5e-3, WIDTH, 7.0, radians(rake), 1600.0, 15e3, PHI, STEEL, 0.0)
    assert found[0] == pytest.approx(drag, rel=2e-3)
    assert found[1] == pytest.approx(pull, rel=2e-3)
    assert sqrt(found[0] ** 2 + found[1] ** 2) == pytest.approx(whole, rel=2e-3)
    assert degrees(found[2]) == pytest.approx(beta, abs=0.02)


@pytest.mark.parametrize(("speed", "drag"), [(0.0, 0.137), (3.0, 4.77), (7.0, 25.3), (15.0, 115.8)])
def test_dry_sand_blade(speed, drag):
    """Derived: no cohesion, phi 33, delta 20, rake 34, 10 mm deep: drag by speed, last digit printed."""
    found = cutting_force(0.010, WIDTH, speed, radians(34), 1550.0, 0.0, radians(33), STEEL, 0.0)
    assert found[0] == pytest.approx(drag, rel=3e-3)


MASS = 0.34  # kg, head with its share of shaft
FAIRWAY = (1600.0, 20e3, radians(30), radians(20))  # density, cohesion, phi, delta


def slowed(distance, soil, root_line=0.0, speed=7.0):
    """Speed left after cutting `distance` m at 6 mm depth, rake 45, 0.1 mm steps (midpoint)."""
    beta, step, run = 0.0, 1e-4, 0.0
    energy = 0.5 * MASS * speed**2
    while run < distance - 0.5 * step and energy > 0.0:
        drag, _, beta = cutting_force(6e-3, WIDTH, sqrt(2 * energy / MASS), radians(45), *soil, beta)
        half = max(energy - 0.5 * step * (drag + root_line * WIDTH), 0.0)
        drag, _, beta = cutting_force(6e-3, WIDTH, sqrt(2 * half / MASS), radians(45), *soil, beta)
        energy -= step * (drag + root_line * WIDTH)
        run += step
    return sqrt(max(energy, 0.0) * 2 / MASS)


def test_fat_strike_loses_speed():
    """60 mm of fairway: static draft 14.5 N; 7 -> 6.025 m/s, and the closed form
    V^2 = (V0^2 + A/B) e^(-2 B x/m) - A/B with B 0.502 N s2/m2 gives 6.029 (derived), 0.1 %."""
    still = cutting_force(6e-3, WIDTH, 0.0, radians(45), *FAIRWAY, 0.0)[0]
    assert still == pytest.approx(14.5, abs=0.05)
    left = slowed(0.060, FAIRWAY)
    assert left == pytest.approx(6.025, rel=1e-3)
    # The closed form fixes draft A and slope B; B is how drag grows with v^2 up to 7 m/s.
    rise = (cutting_force(6e-3, WIDTH, 7.0, radians(45), *FAIRWAY, 0.0)[0] - still) / 49.0
    ratio = still / rise
    closed = sqrt((49.0 + ratio) * exp(-2 * rise * 0.060 / MASS) - ratio)
    assert rise == pytest.approx(0.502, rel=0.01)
    assert closed == pytest.approx(6.029, rel=1e-3)
    assert left == pytest.approx(closed, rel=2e-3)


@pytest.mark.parametrize(
    ("root_line", "speeds"),
    [(500.0, (6.37, 5.71, 5.00, 3.36)), (1000.0, (6.04, 4.98, 3.70, 0.0))],
)
def test_root_mat_stops_a_chunk(root_line, speeds):
    """Line force of the root mat added: speed after 20, 40, 60, 100 mm (derived).

    The printed speeds are the closed form with draft A and slope B held (0.006 m/s). The law finds
    its plane anew at every speed; drag is concave in v^2, so it lies above that chord and the head
    ends slower, by at most 1 %.
    """
    draft, rise = 14.5 + root_line * WIDTH, 0.502
    for distance, speed in zip((0.020, 0.040, 0.060, 0.100), speeds, strict=True):
        square = (49.0 + draft / rise) * exp(-2.0 * rise * distance / MASS) - draft / rise
        assert sqrt(max(square, 0.0)) == pytest.approx(speed, abs=6e-3)
        left = slowed(distance, FAIRWAY, root_line)
        assert left == pytest.approx(speed, rel=0.01)
        assert left <= speed + 6e-3


@pytest.mark.parametrize(
    ("soil", "speed"),
    [
        ((1700.0, 40e3, radians(35), STEEL), 5.53),
        ((1600.0, 20e3, radians(30), STEEL), 6.03),
        ((1800.0, 8e3, radians(15), STEEL), 6.24),
        ((1750.0, 4e3, radians(36), STEEL), 6.31),
        ((1550.0, 0.3e3, radians(33), STEEL), 6.47),
    ],
    ids=["firm", "fairway", "soft", "wet sand", "dry sand"],
)
def test_speed_left_by_surface(soil, speed):
    """60 mm at 6 mm depth without root mat, steel friction 20 deg throughout (derived), last digit."""
    assert slowed(0.060, soil) == pytest.approx(speed, abs=6e-3)
