"""Landing law against Penner 2002 ("The run of a golf ball"), arithmetic derived from his formulas."""

from math import cos, degrees, radians, sin

import pytest

from physics.bounce import crater_tilt, land, restitution
from physics.compiled import as_record
from physics.surfaces import SURFACES

GREEN = as_record(SURFACES["green"])  # crater and bounce scale 1, friction 0.40


@pytest.mark.parametrize(
    ("speed", "e"),
    [(0, 0.5100), (2, 0.4386), (5, 0.3451), (8, 0.2678), (10, 0.2253), (12, 0.1900), (15, 0.1507),
     (18, 0.1276), (20, 0.1212), (25, 0.1200)],
)  # fmt: skip
def test_restitution(speed: float, e: float) -> None:
    """Tolerance 1e-4 (rounding of the table)."""
    assert restitution(float(speed)) == pytest.approx(e, abs=1e-4)


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
    """Tolerance 0.2 %, and half a unit of the table's last digit."""
    a = radians(angle)
    assert degrees(crater_tilt(v, a)) == pytest.approx(tilt, abs=0.005)
    got = land(v * sin(a), -v * cos(a), float(spin), 0.0, GREEN)
    assert got[0] == pytest.approx(x, rel=0.002, abs=5e-4)
    assert got[1] == pytest.approx(y, rel=0.002, abs=5e-4)
    assert got[2] == pytest.approx(out, rel=0.002, abs=0.05)
