"""Slide, roll and hole through the walk itself, against closed forms and what others wrote.

The Stimpmeter's release speed of 1.83 m/s (6.00 ft/s) is from memory: many repeat it, its maker's own text
was not seen. The laws take the same figure, so these checks hold the arithmetic of rolling, not the figure.
"""

from dataclasses import replace
from math import cos, radians, sin, sqrt, tan

import pytest
from scipy.integrate import solve_ivp

from physics.compiled import as_record
from physics.constants import FOOT, GRAVITY
from physics.course import Course, Ground
from physics.equipment import BALL, HOLE_RADIUS
from physics.roll import slide_pull
from physics.run import NO_LOG, REST, capture_speed, run_ball
from physics.surfaces import SURFACES
from physics.terrain import build_field

R = BALL.radius
RELEASE = 1.83  # m/s, Stimpmeter, from memory


def rolled(speed: float, spin: float, feet: float, slope_deg: float = 0.0) -> float:
    """Way along the ground (m) of a ball put on a plane green of that speed and slope."""
    b = radians(slope_deg)
    long = 100.0
    ground = Ground((-long * cos(b), long * cos(b)), (-long * sin(b), long * sin(b)), ("green",))
    field = build_field(Course(ground, green_speed=feet * FOOT))
    x, y = -R * sin(b), R * cos(b)
    out = run_ball(field, x, y, speed * cos(b), speed * sin(b), spin, 0.0, False, NO_LOG)
    assert out.code == REST
    return (out.x - x) / cos(b)


@pytest.mark.parametrize("feet", [6, 8, 9, 10, 11, 12, 13, 14])
def test_stimpmeter_distance(feet: float) -> None:
    """A ball released rolling at 1.83 m/s (from memory) runs the green's speed (derived): 0.1 %."""
    assert rolled(RELEASE, -RELEASE / R, feet) == pytest.approx(feet * FOOT, rel=1e-3)


@pytest.mark.parametrize(("slope", "down", "up"), [(1, 12.86, 8.18), (2, 18.02, 6.92), (3, 30.08, 6.00)])
def test_slope_on_a_ten_foot_green(slope: float, down: float, up: float) -> None:
    """Derived table (5/7 g sin b), which takes the braking as that of level ground: 0.3 % for its cosine."""
    assert rolled(RELEASE, -RELEASE / R, 10, -slope) / FOOT == pytest.approx(down, rel=0.006)
    assert rolled(RELEASE, -RELEASE / R, 10, slope) / FOOT == pytest.approx(up, rel=0.003)


@pytest.mark.parametrize("slope", [1.0, 2.0, 2.5])
def test_brede_slope_formula(slope: float) -> None:
    """Brede 1990: level = 2 up down / (up + down); tolerance 0.1 ft."""
    up, down = (rolled(RELEASE, -RELEASE / R, 10, s) / FOOT for s in (slope, -slope))
    assert 2.0 * up * down / (up + down) == pytest.approx(10.0, abs=0.1)


def test_ball_runs_away_over_the_critical_slope() -> None:
    """Stimp 10 holds a ball up to 4.48 deg (derived)."""
    for slope, stays in ((4.4, True), (4.6, False)):
        b = radians(slope)
        g = Ground((-5.0, 5.0), (-5.0 * tan(b), 5.0 * tan(b)), ("green",))
        field = build_field(Course(g, green_speed=10 * FOOT))
        out = run_ball(field, -R * sin(b), R * cos(b), 0.0, 0.0, 0.0, 0.0, False, NO_LOG)
        assert (out.t == 0.0) is stays


def test_slide_to_roll_check() -> None:
    """v0 = 2 m/s, mu = 0.4, no spin: t = 0.1456 s, d = 0.2496 m, then 10/7 m/s (derived): 0.5 %."""
    a, turn, t = slide_pull(2.0, 0.0, 1, 0.0, as_record(replace(SURFACES["green"], slide=0.4)))
    assert t == pytest.approx(0.1456, rel=0.005)
    assert 2.0 * t + 0.5 * a * t * t == pytest.approx(0.2496, rel=0.005)
    assert 2.0 + a * t == pytest.approx(1.4286, rel=0.005)
    assert turn * t == pytest.approx(-(2.0 + a * t) / R)


@pytest.mark.parametrize(("u", "spin"), [(3.0, 0.0), (2.0, 150.0), (1.0, 500.0), (4.0, -400.0)])
def test_walk_agrees_with_an_integrator(u: float, spin: float) -> None:
    """SciPy DOP853 on Coulomb slide until grip, then v^2 / 2a of roll: 1e-6."""
    surface = SURFACES["green"]
    mu, brake = surface.slide, RELEASE**2 / (2.0 * 10 * FOOT)

    def rate(_: float, s: list[float]) -> list[float]:
        way = 1.0 if start > 0.0 else -1.0
        return [s[1], -way * mu * GRAVITY, -way * 2.5 * mu * GRAVITY / R]

    def grip(_: float, s: list[float]) -> float:
        return s[1] + R * s[2]

    start = u + R * spin
    grip.terminal = True  # type: ignore[attr-defined]
    got = solve_ivp(rate, (0.0, 20.0), [0.0, u, spin], "DOP853", events=grip, rtol=1e-10, atol=1e-12)
    x, v = got.y_events[0][0][:2]
    assert v == pytest.approx((5.0 * u - 2.0 * R * spin) / 7.0, rel=1e-8)  # the 5/7 law
    assert rolled(u, spin, 10) == pytest.approx(x + v * abs(v) / (2.0 * brake), rel=1e-6)


@pytest.mark.parametrize(("share", "v"), [(0.0, 1.63), (0.25, 1.528), (0.5, 1.223), (0.75, 0.713)])
def test_capture_speed_falls_off_as_published(share: float, v: float) -> None:
    """Penner 2002 (putting, from memory): 1.63 (1 - (d/R)^2); the free-fall part is the same curve from 1.31:
    0.1 %.
    """
    assert capture_speed(share * HOLE_RADIUS) * 1.63 / 1.31 == pytest.approx(v, rel=1e-3)


def test_free_fall_limit() -> None:
    """Derived: a ball falls its radius in 0.066 s and meanwhile passes 2 R_h - R at 1.31 m/s: 0.5 %."""
    fall = sqrt(2.0 * R / GRAVITY)
    assert fall == pytest.approx(0.066, abs=5e-4)
    assert capture_speed(0.0) == pytest.approx((2.0 * HOLE_RADIUS - R) / fall, rel=0.005)
