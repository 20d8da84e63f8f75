"""Bottom of the arc and first touch of club and ball: exact plane geometry (derived).

Arc: circle of radius R in a plane inclined to the ground, osculating radius R / sin(plane).
"""

from math import asin, atan, cos, degrees, radians, sin, sqrt, tan

import pytest

from physics.contact_geometry import (
    arc_attack,
    arc_height,
    clean_contact_height,
    edge_contact_normal,
)
from physics.equipment import BALL


@pytest.mark.parametrize(
    ("reach", "plane", "millimetre", "attack", "height"),
    [
        (1.45, 62, -50, -1.74, 0.76),
        (1.45, 62, -100, -3.49, 3.05),
        (1.45, 62, -150, -5.25, 6.87),
        (1.30, 64, -100, -3.97, 3.46),
    ],
)
@pytest.mark.parametrize("plain", [False, True], ids=["compiled", "plain"])
def test_bottom_of_the_arc(reach, plane, millimetre, attack, height, plain):
    """Derived: 0.01 deg and 0.01 mm; also against the exact inclined circle, 0.5 % (next order u^2/R^2)."""
    u, radius = millimetre / 1e3, reach / sin(radians(plane))
    rise, slope = (f.py_func if plain else f for f in (arc_height, arc_attack))
    assert degrees(slope(u, radius)) == pytest.approx(attack, abs=0.01)
    assert rise(u, radius) * 1e3 == pytest.approx(height, abs=0.01)
    turn = asin(u / reach)
    assert rise(u, radius) == pytest.approx(reach * sin(radians(plane)) * (1 - cos(turn)), rel=5e-3)
    assert slope(u, radius) == pytest.approx(atan(sin(radians(plane)) * tan(turn)), rel=5e-3)


@pytest.mark.parametrize(("millimetre", "chord"), [(2, 161), (4, 228), (6, 280), (10, 361)])
def test_free_arc_is_longer_than_real_divots(millimetre, chord):
    """Undisturbed circle of 1.63 m: chord at a depth (mm, last digit); divots are nearer 100 mm
    (Patton, Turf & Rec 2018), so the turf must turn the club up."""
    assert arc_height(0.5e-3 * chord, 1.63) * 1e3 == pytest.approx(millimetre, rel=0.01)
    assert chord > 100


@pytest.mark.parametrize(
    ("loft", "millimetre"),
    [(20, 14.04), (30, 10.67), (40, 7.62), (45, 6.25), (50, 4.99), (56, 3.65), (46, 5.99)],
)
def test_highest_edge_that_still_strikes_clean(loft, millimetre):
    """Derived: r (1 - sin loft), ball 42.67 mm; half the last digit printed."""
    assert clean_contact_height(BALL.radius, radians(loft)) * 1e3 == pytest.approx(millimetre, abs=6e-3)


@pytest.mark.parametrize("loft_deg", [20, 46, 56])
def test_clean_limit_touches_face_and_edge_at_once(loft_deg):
    """Derived by a second construction: at the limit the face line through the edge is tangent to the ball
    at the edge itself, so the edge's contact normal is the face normal."""
    loft = radians(loft_deg)
    height = clean_contact_height(BALL.radius, loft)
    edge = (-sqrt(BALL.radius**2 - (BALL.radius - height) ** 2), height - BALL.radius)
    distance = -(edge[0] * cos(loft) + edge[1] * sin(loft))
    assert distance == pytest.approx(BALL.radius, rel=1e-12)
    assert edge_contact_normal(BALL.radius, height) == pytest.approx(loft, abs=1e-12)


@pytest.mark.parametrize(
    ("millimetre", "elevation"), [(5, 50.0), (8, 38.7), (10, 32.1), (12, 25.9), (15, 17.3), (18, 9.0)]
)
@pytest.mark.parametrize("plain", [False, True], ids=["compiled", "plain"])
def test_thin_contact_normal(millimetre, elevation, plain):
    """Derived: asin(1 - h/r); 0.06 deg (one digit printed)."""
    law = edge_contact_normal.py_func if plain else edge_contact_normal
    assert degrees(law(BALL.radius, millimetre / 1e3)) == pytest.approx(elevation, abs=0.06)


def test_edge_above_the_equator_points_down():
    """Derived: at the equator level, above it down, never beyond straight down."""
    assert edge_contact_normal(BALL.radius, BALL.radius) == pytest.approx(0.0, abs=1e-12)
    assert edge_contact_normal(BALL.radius, 1.5 * BALL.radius) == pytest.approx(radians(-30))
    assert edge_contact_normal(BALL.radius, 3.0 * BALL.radius) == pytest.approx(radians(-90))


@pytest.mark.parametrize("plain", [False, True], ids=["compiled", "plain"])
def test_lean_buys_margin(plain):
    """10 deg of lean on a 56-degree face raises the clean limit from 3.65 to 5.99 mm (derived)."""
    law = clean_contact_height.py_func if plain else clean_contact_height
    gain = law(BALL.radius, radians(46)) - law(BALL.radius, radians(56))
    assert gain * 1e3 == pytest.approx(5.99 - 3.65, abs=0.01)
