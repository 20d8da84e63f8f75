"""The head's outline: one arc of sole with a rounded edge in front of it."""

from math import asin, atan2, cos, radians, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.equipment import BAG, Club
from physics.head import (
    EDGE_ELEMENTS,
    EDGE_UNDERSIDE,
    ELEMENTS,
    FACE_LENGTH,
    edge_centre,
    lowest_point,
    reach_of_face,
    sole_elements,
)
from physics.sole import working_bounce

clubs = st.sampled_from([BAG[name] for name in sorted(BAG)])
bounces = st.floats(radians(-2), radians(35))


def strips(club: Club, bounce: float) -> np.ndarray:
    out = np.full((ELEMENTS, 5), np.nan)
    sole_elements(bounce, club.sole_width, club.camber, club.edge_radius, out)
    return out


@settings(deadline=None)
@given(clubs, bounces)
def test_sole_is_an_arc_whose_chord_has_the_width_and_the_bounce(club: Club, bounce: float) -> None:
    sole = strips(club, bounce)[EDGE_ELEMENTS:]
    half = asin(club.sole_width / (2.0 * club.camber))
    assert sole[:, 4].sum() == pytest.approx(2.0 * half * club.camber)
    first, last = sole[0, :2], sole[-1, :2]
    assert atan2(first[1] - last[1], first[0] - last[0]) == pytest.approx(bounce, abs=1e-12)
    centre = sole[:, :2] - club.camber * sole[:, 2:4]  # one centre for all strips
    assert np.ptp(centre, axis=0) == pytest.approx([0.0, 0.0], abs=1e-12)
    ends = [centre[0] + club.camber * np.array([sin(s), -cos(s)]) for s in (bounce + half, bounce - half)]
    assert np.hypot(*(ends[0] - ends[1])) == pytest.approx(club.sole_width)


@settings(deadline=None)
@given(clubs, bounces)
def test_edge_is_round_from_the_leading_edge_to_the_sole(club: Club, bounce: float) -> None:
    out = strips(club, bounce)
    edge = out[:EDGE_ELEMENTS]
    centre = edge[:, :2] - club.edge_radius * edge[:, 2:4]
    lead = centre[0] + club.edge_radius * np.array([sin(EDGE_UNDERSIDE), -cos(EDGE_UNDERSIDE)])
    assert lead == pytest.approx([0.0, 0.0], abs=1e-12)
    assert np.ptp(centre, axis=0) == pytest.approx([0.0, 0.0], abs=1e-12)
    start = bounce + asin(club.sole_width / (2.0 * club.camber))
    sole_centre = out[-1, :2] - club.camber * out[-1, 2:4]
    joint = [c + r * np.array([sin(start), -cos(start)])
             for c, r in ((centre[0], club.edge_radius), (sole_centre, club.camber))]  # fmt: skip
    assert joint[0] == pytest.approx(joint[1], abs=1e-12)
    assert np.hypot(out[:, 2], out[:, 3]) == pytest.approx(np.ones(ELEMENTS))
    assert (np.diff(out[:, 0]) < 0.0).all()  # from the leading to the trailing edge


@settings(deadline=None)
@given(clubs, bounces, st.floats(-0.3, 0.5))
def test_lowest_point_against_a_turned_outline(club: Club, bounce: float, lean: float) -> None:
    out = strips(club, bounce)
    turned = (out[:, 0] + 1j * out[:, 1]) * np.exp(-1j * lean)  # leaning forward is clockwise
    assert lowest_point(out, lean) == pytest.approx(min(0.0, turned.imag.min()), abs=1e-15)
    assert lowest_point.py_func(out, lean) == lowest_point(out, lean)  # type: ignore[attr-defined]


@settings(deadline=None)
@given(clubs, bounces, st.floats(-0.3, 0.5))
def test_lean_takes_bounce_off_one_for_one(club: Club, bounce: float, lean: float) -> None:
    assert working_bounce(strips(club, bounce), lean) == pytest.approx(bounce - lean, abs=1e-12)


def test_bounce_keeps_the_edge_off_the_ground_and_lean_brings_it_down() -> None:
    club = BAG["SW-high"]
    heights = [-lowest_point(strips(club, club.bounce), radians(d)) for d in (0, 4, 8, 12, 16, 20)]
    assert (np.diff(heights) < 0.0).all()
    start = club.bounce + asin(club.sole_width / (2.0 * club.camber))
    whole = club.camber * (1.0 - cos(start)) + club.edge_radius * (cos(start) - cos(EDGE_UNDERSIDE))
    assert heights[0] == pytest.approx(whole, abs=0.1e-3)  # derived; strips miss the very bottom


def turned_by(points: np.ndarray, lean: float) -> np.ndarray:
    """Points (n, 2) of the head frame as the head leans: clockwise."""
    z = (points[:, 0] + 1j * points[:, 1]) * np.exp(-1j * lean)
    return np.column_stack([z.real, z.imag])


def front_of(club: Club, loft: float, lean: float) -> np.ndarray:
    """Edge arc and face line as one run of points (n, 2) from the leading edge, written out from the radius
    and the loft alone: round from the underside to the face, up the face, round its top."""
    r = club.edge_radius
    centre = np.array([-r * sin(EDGE_UNDERSIDE), r * cos(EDGE_UNDERSIDE)])
    foot = loft + np.pi / 2.0  # direction of the face's normal, counted from straight down
    arc = np.linspace(EDGE_UNDERSIDE - 1.2, foot, 4001)
    up = np.linspace(0.0, FACE_LENGTH, 8001)
    normal, along = np.array([cos(loft), sin(loft)]), np.array([-sin(loft), cos(loft)])
    edge = centre + r * np.column_stack([np.sin(arc), -np.cos(arc)])
    face = centre + r * normal + up[:, None] * along
    top = np.linspace(foot, foot + 1.5, 4001)
    cap = centre + FACE_LENGTH * along + r * np.column_stack([np.sin(top), -np.cos(top)])
    return turned_by(np.vstack([edge, face, cap]), lean)


@settings(deadline=None, max_examples=60)
@given(
    clubs, st.floats(-0.3, 0.4), st.floats(0.0, 0.5), st.floats(0.005, 0.08), st.floats(-0.8, 1.1),
    st.floats(-1.0, 1.0),
)  # fmt: skip
def test_reach_of_face_is_the_distance_to_the_outline(
    club: Club, lean: float, opened: float, far: float, way: float, x: float
) -> None:
    """Brute force over 16000 points of edge and face, 1 um; points before the face, over it, under the edge.

    `way` is where the point lies, seen from the edge's centre and counted from the face's normal up.
    """
    loft = club.loft + opened
    look = loft - lean + way
    cx, cy = edge_centre(club.edge_radius, lean)
    point = np.array([cx, cy]) + (club.edge_radius + far) * np.array([cos(look), sin(look)])
    front = front_of(club, loft, lean)
    ways = np.hypot(*(front - point).T)
    y = 0.3 * x
    found, nx, ny, along = reach_of_face(x, y, lean, loft, club.edge_radius, x + point[0], y + point[1])
    assert found == pytest.approx(ways.min(), abs=1e-6)
    assert (nx, ny) == pytest.approx(tuple((point - front[ways.argmin()]) / ways.min()), abs=3e-3)
    assert along == pytest.approx((club.edge_radius + far) * sin(way), abs=1e-12)


@settings(deadline=None)
@given(clubs, bounces, st.floats(-0.3, 0.5))
def test_sole_edge_and_face_are_one_outline(club: Club, bounce: float, lean: float) -> None:
    """Tangent where they meet: the edge's strips lie on the arc that the ball meets, whose centre is one
    radius off sole, leading edge and face line."""
    r, out = club.edge_radius, strips(club, bounce)
    centre = np.array(edge_centre(r, lean))
    strip_centres = turned_by(out[:EDGE_ELEMENTS, :2] - r * out[:EDGE_ELEMENTS, 2:4], lean)
    assert strip_centres == pytest.approx(np.tile(centre, (EDGE_ELEMENTS, 1)), abs=1e-12)
    assert np.hypot(*centre) == pytest.approx(r)  # the leading edge itself lies on the arc
    sole = turned_by(out[EDGE_ELEMENTS:, :2] - club.camber * out[EDGE_ELEMENTS:, 2:4], lean)[0]
    assert np.hypot(*(sole - centre)) == pytest.approx(club.camber - r)  # arcs tangent from inside
    for steep in out[:EDGE_ELEMENTS, 2:4]:  # a point off the edge is as far from it by the face's own law
        away = turned_by(steep[None], lean)[0]
        bx, by = centre + (r + 0.01) * away
        assert reach_of_face(0.0, 0.0, lean, club.loft, r, bx, by)[0] == pytest.approx(0.01, abs=1e-12)
    nx, ny = cos(club.loft - lean), sin(club.loft - lean)
    foot = centre + r * np.array([nx, ny])  # face line starts there, square to that radius
    for up in (0.0, 0.5 * FACE_LENGTH, FACE_LENGTH):
        bx, by = foot + up * np.array([-ny, nx]) + 0.02 * np.array([nx, ny])
        assert reach_of_face(0.0, 0.0, lean, club.loft, r, bx, by) == pytest.approx(
            (0.02, nx, ny, up), abs=1e-12
        )
