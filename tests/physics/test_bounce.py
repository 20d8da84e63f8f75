"""Landing law from inside: what no turf can do."""

from dataclasses import replace
from math import cos, hypot, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.bounce import land, plugs, restitution
from physics.compiled import as_record
from physics.equipment import BALL
from physics.surfaces import SURFACES

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
    assert vy == pytest.approx(restitution(5.0) * 5.0)
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
