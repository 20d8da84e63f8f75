"""Flight against exact solutions, and the spin decay of Dewhurst 2015."""

from math import cos, degrees, pi, radians, sin

import numpy as np
import pytest
from scipy.integrate import solve_ivp

import physics.flight as flight
from physics.constants import GRAVITY
from physics.course import Course, Ground
from physics.equipment import BALL
from physics.flight import air_force
from physics.run import NO_LOG, run_ball
from physics.terrain import build_field

LEVEL = Ground((-300.0, 300.0), (0.0, 0.0), ("green",))
RPM = pi / 30.0


def first_landing(speed: float, angle: float, spin: float, wind: float = 0.0) -> tuple[float, float, float]:
    """Carry (m), apex (m) and landing angle (rad) of the walk itself on level ground."""
    out = run_ball(
        build_field(Course(LEVEL, wind=wind)), 0.0, BALL.radius, speed * cos(angle), speed * sin(angle),
        spin, 0.0, True, NO_LOG,
    )  # fmt: skip
    return out.carry, out.apex - BALL.radius, out.landing_angle


def exact_landing(speed: float, angle: float, spin: float, wind: float) -> float:
    """Carry (m) by DOP853 to 1e-10 with the law in plain Python."""

    def rate(_: float, s: np.ndarray) -> tuple[float, ...]:
        return s[2], s[3], *air_force(s[1], s[2], s[3], s[4], wind)

    def ground(_: float, s: np.ndarray) -> float:
        return float(s[1] - BALL.radius)

    ground.terminal, ground.direction = True, -1.0  # type: ignore[attr-defined]
    start = (0.0, BALL.radius, speed * cos(angle), speed * sin(angle), spin)
    found = solve_ivp(rate, (0.0, 20.0), start, "DOP853", events=ground, rtol=1e-10, atol=1e-12)
    return float(found.y_events[0][0][0])


def test_landing_within_a_millimetre_of_an_exact_solution() -> None:
    """SciPy DOP853, rtol 1e-10, over random launches; tolerance 1 mm.

    120 launches here; the full 1000 of the same stream stay within 0.2 mm (10 ms step).
    """
    chance = np.random.default_rng(7)
    for _ in range(120):
        speed, angle = chance.uniform(3.0, 25.0), radians(chance.uniform(5.0, 75.0))
        spin, wind = chance.uniform(0.0, 9000.0) * RPM, chance.uniform(-8.0, 8.0)
        assert first_landing(speed, angle, spin, wind)[0] == pytest.approx(
            exact_landing(speed, angle, spin, wind), abs=1e-3
        )


def test_spin_decay_of_a_drive() -> None:
    """Dewhurst 2015: 120 mph and 7097 rpm lose 340 rpm a second; tolerance 1 %."""
    loss = -air_force(10.0, 120 * 0.44704, 0.0, 7097 * RPM, 0.0)[2] / RPM
    assert loss == pytest.approx(340.0, rel=0.01)


@pytest.mark.parametrize(
    ("speed", "spin", "carry", "apex", "landing"),
    [(8.0, 1500, 5.99, 1.07, 36.0), (15.0, 3000, 19.86, 3.78, 38.7), (20.0, 5000, 34.41, 6.98, 41.5)],
)
def test_trajectory_table(speed: float, spin: float, carry: float, apex: float, landing: float) -> None:
    """Derived table of the same laws, 1 ms steps, launch 35 deg: 0.5 % (and the rounding of the table)."""
    far, high, steep = first_landing(speed, radians(35.0), spin * RPM)
    assert far == pytest.approx(carry, rel=0.005)
    assert high == pytest.approx(apex, rel=0.005, abs=0.005)
    assert degrees(steep) == pytest.approx(landing, rel=0.005, abs=0.05)


def test_no_air_gives_the_parabola(monkeypatch: pytest.MonkeyPatch) -> None:
    """R = v^2 sin 2a / g, exact (derived): 0.1 %. The step is run as plain Python with an air density of
    nothing.
    """
    monkeypatch.setattr(flight, "_PUSH", 0.0)
    monkeypatch.setattr(flight, "air_force", flight.air_force.py_func)  # type: ignore[attr-defined]
    v, angle = 15.0, radians(35.0)
    flown = 2.0 * v * sin(angle) / GRAVITY
    s = (0.0, 0.0, v * cos(angle), v * sin(angle), 300.0)
    for _ in range(100):
        s = flight.fly_step.py_func(*s, flown / 100.0, 0.0, 0.0)  # type: ignore[attr-defined]
    assert s[0] == pytest.approx(21.55, rel=1e-3)
    assert s[0] == pytest.approx(v * v * sin(2.0 * angle) / GRAVITY, rel=1e-9)
    assert s[1] == pytest.approx(0.0, abs=1e-9)
