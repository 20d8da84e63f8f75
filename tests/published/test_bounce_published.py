"""Landing law against Penner 2002 ("The run of a golf ball"), from memory; arithmetic derived."""

from math import cos, degrees, radians, sin

import pytest

from physics.bounce import crater_tilt, land, turf_restitution
from physics.compiled import as_record
from physics.surfaces import SURFACES

GREEN = as_record(SURFACES["green"])  # crater and bounce scale 1, friction 0.40


@pytest.mark.parametrize(
    ("speed", "e"),
    [(0, 0.5100), (2, 0.4386), (5, 0.3451), (8, 0.2678), (10, 0.2253), (12, 0.1900), (15, 0.1507),
     (18, 0.1276), (20, 0.1212), (25, 0.1200)],
)  # fmt: skip
def test_restitution(speed: float, e: float) -> None:
    """Derived from the polynomial of Penner 2002 (from memory): 1e-4 (rounding of the table)."""
    assert turf_restitution(float(speed)) == pytest.approx(e, abs=1e-4)


@pytest.mark.parametrize(
    ("v", "angle", "spin", "tilt", "x", "y", "out"),
    [
        (18.6, 44.4, 0, 15.40, 5.610, 3.889, -301.9),
        (18.6, 44.4, 350, 15.40, 3.553, 3.323, -201.9),
        (18.6, 44.4, 900, 15.40, 0.948, 2.605, 31.6),
        (12.0, 40.0, 250, 8.95, 2.510, 2.684, -135.8),
        (10.0, 35.0, 150, 6.53, 2.225, 2.468, -116.8),
    ],
)  # fmt: skip
def test_bounce_table(
    v: float, angle: float, spin: float, tilt: float, x: float, y: float, out: float
) -> None:
    """Derived from Penner 2002 (from memory), by hand: 0.2 %, and half a unit of the last digit."""
    a = radians(angle)
    assert degrees(crater_tilt(v, a)) == pytest.approx(tilt, abs=0.005)
    got = land(v * sin(a), -v * cos(a), float(spin), 0.0, GREEN)
    assert got[0] == pytest.approx(x, rel=0.002, abs=5e-4)
    assert got[1] == pytest.approx(y, rel=0.002, abs=5e-4)
    assert got[2] == pytest.approx(out, rel=0.002, abs=0.05)


@pytest.mark.parametrize("angle", [0.0, 20.0, 44.4, 60.0, 72.0, 85.0])
def test_crater_tilt_is_linear_in_speed_and_angle(angle: float) -> None:
    """Penner 2002 (from memory) at every angle, flat landings too: 15.4 degrees at 18.6 m/s and 44.4."""
    for v in (1.0, 6.0, 20.0):
        assert degrees(crater_tilt(v, radians(angle))) == pytest.approx(15.4 * v / 18.6 * angle / 44.4)


def test_flat_landing_of_a_low_runner() -> None:
    """6 m/s at 20 degrees (70 from the normal), 150 rad/s: tilt 7.832, v_x 5.306, v_y 2.801, e 0.4120,
    mu_c 0.614 (slips); v_rx 3.724, v_ry 1.154, turned back 3.532 and 1.651 (derived; tolerance 0.2 %).
    """
    a = radians(70.0)
    got = land(6.0 * sin(a), -6.0 * cos(a), 150.0, 0.0, GREEN)
    assert got == pytest.approx((3.532, 1.651, -35.40), rel=0.002)
