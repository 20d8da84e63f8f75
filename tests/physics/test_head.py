"""The head's outline: one arc of sole with a rounded edge in front of it."""

from math import asin, atan2, cos, radians, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.equipment import BAG, Club
from physics.head import EDGE_ELEMENTS, EDGE_UNDERSIDE, ELEMENTS, lowest_point, sole_elements
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
