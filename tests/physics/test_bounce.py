"""Landing law from inside: what no turf can do."""

from dataclasses import replace
from math import atan2, cos, hypot, pi, radians, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.bounce import land, plugs, turf_restitution
from physics.compiled import as_record
from physics.equipment import BALL
from physics.surfaces import SURFACES, Surface

RECORDS = {name: as_record(s) for name, s in SURFACES.items()}
names = st.sampled_from(sorted(SURFACES))
R = BALL.radius


def kinetic(vx: float, vy: float, spin: float) -> float:
    """Per mass (m2/s2); solid sphere."""
    return 0.5 * (vx * vx + vy * vy) + 0.2 * (R * spin) ** 2


@settings(max_examples=500, deadline=None)
@given(names, st.floats(0.01, 40.0), st.floats(-pi, pi), st.floats(-1000.0, 1000.0), st.floats(-1.2, 1.2))
def test_no_landing_gains_energy_or_enters_the_ground(
    name: str, v: float, way: float, spin: float, tilt: float
) -> None:
    vx, vy = v * cos(way), v * sin(way)
    ux, uy, turn = land(vx, vy, spin, tilt, RECORDS[name])
    assert kinetic(ux, uy, turn) <= kinetic(vx, vy, spin) * (1.0 + 1e-9)
    before, after = vy * cos(tilt) - vx * sin(tilt), uy * cos(tilt) - ux * sin(tilt)
    assert after >= -1e-9
    if before < 0.0:
        assert after <= -before + 1e-9


def published(vx: float, down: float, spin: float, surface: Surface) -> tuple[float, float, float]:
    """Penner 2002 as printed, on level ground: no limit anywhere."""
    v, angle = hypot(vx, down), atan2(vx, down)
    tilt = radians(15.4) * (v / 18.6) * (angle / radians(44.4)) * surface.crater
    x, y = v * sin(angle - tilt), v * cos(angle - tilt)
    e = surface.bounce * (0.510 - 0.0375 * y + 0.000903 * y * y)
    mu = min(surface.bounce_friction, 2.0 * abs(x + R * spin) / (7.0 * (1.0 + e) * y))
    push = mu * (1.0 + e) * y * (1.0 if x + R * spin > 0.0 else -1.0)
    rx = x - push
    return rx * cos(tilt) - e * y * sin(tilt), rx * sin(tilt) + e * y * cos(tilt), spin - 2.5 * push / R


def test_chips_that_land_at_eighteen_degrees_or_more_bounce_as_published() -> None:
    """The reference green, at the speeds at which chips land; flatter, the limit is there to be seen."""
    for v in np.linspace(0.5, 7.0, 14):
        for down in np.radians(np.linspace(18.0, 90.0, 37)):
            for spin in (0.0, 100.0, 250.0, 400.0, 600.0):
                vx, vy = float(v * cos(down)), float(v * sin(down))
                want = published(vx, vy, spin, SURFACES["green"])
                assert land(vx, -vy, spin, 0.0, RECORDS["green"]) == pytest.approx(want, rel=1e-9, abs=1e-9)
    vx, vy = 6.0 * cos(radians(14.0)), 6.0 * sin(radians(14.0))
    assert published(vx, vy, 0.0, SURFACES["green"])[1] > vy
    own = turf_restitution(vy)  # what a grazing ball may have back; up to 0.95 at 18 degrees
    most = own + (0.95 - own) * 14.0 / 18.0
    assert land(vx, -vy, 0.0, 0.0, RECORDS["green"])[1] == pytest.approx(most * vy, rel=1e-6)


@pytest.mark.parametrize("name", sorted(SURFACES))
def test_energy_never_rises_in_thousands_of_landings(name: str) -> None:
    """Skims and drops, topspin and backspin; up no faster than the cap, never into the ground."""
    rng = np.random.default_rng(20)
    for _ in range(5000):
        v, down, spin = 30.0 * rng.random() ** 2, 0.5 * pi * rng.random() ** 2, rng.uniform(-900.0, 900.0)
        vx, vy = v * cos(down), -v * sin(down)
        ux, uy, turn = land(vx, vy, spin, 0.0, RECORDS[name])
        assert kinetic(ux, uy, turn) <= kinetic(vx, vy, spin) * (1.0 + 1e-12)
        assert -1e-12 <= uy <= -0.95 * vy * (1.0 + 1e-9)


@pytest.mark.parametrize("name", sorted(SURFACES))
def test_limit_sets_in_without_a_jump(name: str) -> None:
    """Up to 10 m/s a thousandth of a degree never changes a rebound by a thousandth of the speed."""
    downs = np.radians(np.linspace(0.01, 30.01, 30_001))
    for v in (1.0, 3.0, 6.0, 10.0):
        for spin in (-200.0, 0.0, 300.0, 600.0):
            hits = [(v * cos(d), -v * sin(d)) for d in downs]
            out = np.array([land(vx, vy, spin, 0.0, RECORDS[name]) for vx, vy in hits])
            assert np.abs(np.diff(out, axis=0) * (1.0, 1.0, R)).max() < 1e-3 * v


@pytest.mark.parametrize("name", sorted(SURFACES))
def test_grazing_ball_is_hardly_touched(name: str) -> None:
    """A tenth of a degree down at 6 m/s: the ground pushes so little that hardly any speed goes."""
    down = radians(0.1)
    vx, vy, _ = land(6.0 * cos(down), -6.0 * sin(down), 0.0, 0.0, RECORDS[name])
    assert vx > 0.99 * 6.0
    assert 0.0 < vy <= 0.95 * 6.0 * sin(down) * (1.0 + 1e-9)


@settings(max_examples=200, deadline=None)
@given(names, st.floats(1.0, 30.0), st.floats(0.1, 1.4), st.floats(-900.0, 900.0), st.floats(-0.6, 0.6))
def test_landing_mirrors(name: str, v: float, down: float, spin: float, tilt: float) -> None:
    vx, vy = v * cos(down), -v * sin(down)
    ux, uy, turn = land(vx, vy, spin, tilt, RECORDS[name])
    assert land(-vx, vy, -spin, -tilt, RECORDS[name]) == pytest.approx((-ux, uy, -turn), abs=1e-9)


@settings(max_examples=100, deadline=None)
@given(st.floats(1.0, 12.0), st.floats(0.4, 1.4), st.floats(-0.5, 0.5))
def test_tilted_ground_is_the_level_law_turned(v: float, down: float, tilt: float) -> None:
    green = RECORDS["green"]
    vx, vy, spin = v * cos(down), -v * sin(down), 150.0
    ux, uy, turn = land(vx, vy, spin, 0.0, green)
    c, s = cos(tilt), sin(tilt)
    got = land(vx * c - vy * s, vx * s + vy * c, spin, tilt, green)
    assert got == pytest.approx((ux * c - uy * s, ux * s + uy * c, turn), abs=1e-9)


def test_more_backspin_stops_the_ball_more_until_it_slips() -> None:
    out = [land(7.0, -7.0, spin, 0.0, RECORDS["green"])[0] for spin in (0, 150, 300, 450, 900, 1200)]
    assert out[0] > out[1] > out[2] > out[3] >= out[4]
    assert out[4] == pytest.approx(out[5])


def test_spin_is_kept_in_steps_once_slipping() -> None:
    """While it slips all the way the loss of spin does not depend on the spin."""
    turns = [land(7.0, -7.0, spin, 0.0, RECORDS["green"])[2] for spin in (900.0, 1000.0, 1200.0)]
    assert turns[1] - turns[0] == pytest.approx(100.0)
    assert turns[2] - turns[1] == pytest.approx(200.0)


def test_rigid_limit_without_crater() -> None:
    """No tilt: rebound is e times the normal speed, 5/7 of the other speed stays (no spin, grip)."""
    rigid = as_record(replace(SURFACES["green"], crater=0.0, bounce_friction=10.0))
    vx, vy, spin = land(4.0, -5.0, 0.0, 0.0, rigid)
    assert vx == pytest.approx(5.0 / 7.0 * 4.0)
    assert vy == pytest.approx(turf_restitution(5.0) * 5.0)
    assert spin == pytest.approx(-vx / R)


def test_a_departing_ball_is_left_alone() -> None:
    assert land(3.0, 1.0, 40.0, 0.1, RECORDS["green"]) == (3.0, 1.0, 40.0)


def test_softer_ground_gives_less_height() -> None:
    up = {n: land(4.0, -6.0, 200.0, 0.0, RECORDS[n])[1] for n in ("mat", "green", "fairway", "soft", "sand")}
    assert up["mat"] > up["green"] > up["fairway"] > up["soft"] > up["sand"] > 0.0


def test_skimming_ball_leaves_lower_than_it_came() -> None:
    vx, vy, _ = land(8.0, -2.0, 0.0, 0.0, RECORDS["green"])
    assert 0.0 < vy < 2.0
    assert hypot(vx, vy) < hypot(8.0, 2.0)


@pytest.mark.parametrize(
    ("name", "vx", "vy", "stays"),
    [("sand", 1.0, -8.0, True), ("sand", 8.0, -3.0, False), ("green", 1.0, -8.0, False)],
)
def test_only_steep_balls_plug_and_only_in_sand(name: str, vx: float, vy: float, stays: bool) -> None:
    assert plugs(vx, vy, 0.3, 0.0, RECORDS[name]) is stays
