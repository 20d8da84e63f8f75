"""Opening and leaning the face against exact three-dimensional rotation.

Rodrigues rotation of face and sole normals about the shaft, derived by hand; lie 64 deg.
Tolerance 0.02 deg where two digits are printed.
"""

from dataclasses import replace
from math import cos, degrees, radians, sin, tan

import numpy as np
import pytest

from physics.equipment import BAG, Club
from physics.face import FaceOpen, opened_face


def open_face(club: Club, opened: float) -> FaceOpen:
    """The exact geometry, before heel relief takes its share of the bounce."""
    return FaceOpen(*opened_face(club.lie, club.loft, club.bounce, opened))


WEDGE = replace(BAG["SW"], loft=radians(56), bounce=radians(10), lie=radians(64))
LOB = replace(BAG["LW"], loft=radians(60), bounce=radians(8), lie=radians(64))


@pytest.mark.parametrize(
    ("club", "opened", "loft", "azimuth", "bounce"),
    [
        (WEDGE, 0, 56.0, 0.0, 10.0),
        (WEDGE, 10, 60.36, 9.58, 14.25),
        (WEDGE, 20, 64.59, 20.78, 18.16),
        (WEDGE, 30, 68.48, 34.45, 21.68),
        (WEDGE, 45, 72.88, 61.94, 26.05),
        (LOB, 20, 68.58, 21.38, 16.25),
    ],
)
def test_opened_wedges(club, opened, loft, azimuth, bounce):
    """Derived by turning both normals about the shaft by hand; two digits printed."""
    found = open_face(club, radians(opened))
    assert degrees(found.loft) == pytest.approx(loft, abs=0.02)
    assert degrees(found.azimuth) == pytest.approx(azimuth, abs=0.02)
    assert degrees(found.bounce) == pytest.approx(bounce, abs=0.02)


def turned(axis, angle):
    """Rotation matrix about a unit axis, shape (3, 3)."""
    x, y, z = axis
    cross = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    return np.eye(3) + sin(angle) * cross + (1 - cos(angle)) * cross @ cross


@pytest.mark.parametrize("opened_deg", [-5, 3, 15, 40])
def test_same_as_turning_the_vectors(opened_deg):
    """Derived by a second route: rotate the two normals with a matrix and read the angles off. 1e-9 rad."""
    shaft = np.array([0.0, cos(WEDGE.lie), sin(WEDGE.lie)])
    turn = turned(shaft, -radians(opened_deg))
    face = turn @ np.array([cos(WEDGE.loft), 0.0, sin(WEDGE.loft)])
    sole = turn @ np.array([sin(WEDGE.bounce), 0.0, -cos(WEDGE.bounce)])
    found = open_face(WEDGE, radians(opened_deg))
    assert found.loft == pytest.approx(np.arcsin(face[2]), abs=1e-9)
    assert found.azimuth == pytest.approx(np.arctan2(-face[1], face[0]), abs=1e-9)
    assert found.bounce == pytest.approx(np.arctan2(sole[0], -sole[2]), abs=1e-9)


def test_small_openings():
    """Derived to first order: loft and bounce gain o cos(lie) (0.44 a degree), azimuth o sin(lie).

    The printed azimuth o sin l/(1 - o cos l tan L) carries one more order, checked at 1 deg to 1 %.
    """
    o = radians(1.0)
    found = open_face(WEDGE, o)
    assert (found.loft - WEDGE.loft) / o == pytest.approx(cos(WEDGE.lie), abs=0.01)
    assert (found.bounce - WEDGE.bounce) / o == pytest.approx(cos(WEDGE.lie), abs=0.01)
    azimuth = o * sin(WEDGE.lie) / (1 - o * cos(WEDGE.lie) * tan(WEDGE.loft))
    assert found.azimuth == pytest.approx(azimuth, rel=0.01)


def test_open_then_lean():
    """Derived: open 20, then lean 10 forward: loft 55.07, azimuth 15.42, bounce 8.16.

    Lean turns about the horizontal axis to the golfer, so bounce falls by exactly the lean;
    the leaned face is built from the opened one's loft and azimuth.
    """
    found = open_face(WEDGE, radians(20))
    assert degrees(found.bounce) - 10.0 == pytest.approx(8.16, abs=0.02)
    x = cos(found.loft) * cos(found.azimuth)
    y = -cos(found.loft) * sin(found.azimuth)
    z = sin(found.loft)
    lean = radians(10)
    leaned_x, leaned_z = x * cos(lean) + z * sin(lean), z * cos(lean) - x * sin(lean)
    assert degrees(np.arcsin(leaned_z)) == pytest.approx(55.07, abs=0.02)
    assert degrees(np.arctan2(-y, leaned_x)) == pytest.approx(15.42, abs=0.02)


def test_flatter_lie_gains_more():
    """Derived: a flatter lie turns more of the opening into loft and bounce."""
    flat = replace(WEDGE, lie=radians(60))
    assert open_face(flat, 0.2).loft > open_face(WEDGE, 0.2).loft
    assert open_face(flat, 0.2).bounce > open_face(WEDGE, 0.2).bounce
