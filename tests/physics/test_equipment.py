"""The bag, the ball, and the face turned open."""

from dataclasses import replace
from itertools import pairwise
from math import degrees, radians

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.compiled import as_record
from physics.equipment import BAG, BALL, FLAGSTICK, HOLE_DEPTH, HOLE_RADIUS, Club, club_named
from physics.face import open_face, opened_face, opened_head

clubs = st.sampled_from([BAG[name] for name in sorted(BAG)])


def test_ball_hole_and_stick_conform() -> None:
    """Equipment Rules: at most 45.93 g, at least 42.67 mm; hole 108 mm, stick at most 19 mm thick."""
    assert BALL.mass <= 0.04593
    assert BALL.radius >= 0.04267 / 2.0
    assert BALL.inertia == pytest.approx(0.4 * BALL.mass * BALL.radius**2, rel=1e-9)
    assert pytest.approx(0.054) == HOLE_RADIUS
    assert pytest.approx(0.1016) == HOLE_DEPTH
    assert 2.0 * FLAGSTICK.radius <= 0.019


def test_bag_runs_from_long_and_strong_to_short_and_lofted() -> None:
    """Trade ranges; lengths never grow with loft along the set, wedges are the heaviest heads."""
    row = [BAG[n] for n in ("7i", "8i", "9i", "PW", "GW", "SW", "LW")]
    assert all(a.loft < b.loft and a.length >= b.length and a.head_mass <= b.head_mass
               for a, b in pairwise(row))  # fmt: skip
    for c in BAG.values():
        assert 30 <= degrees(c.loft) <= 62
        assert 62 <= degrees(c.lie) <= 65
        assert 3 <= degrees(c.bounce) <= 15
        assert 0.017 <= c.sole_width <= 0.028
        assert 0.025 <= c.camber <= 0.060
        assert c.sole_width < 2.0 * c.camber
        assert 0.88 <= c.length <= 0.95


def test_names_are_found_and_unknown_ones_told() -> None:
    assert all(club_named(name) is c and c.name == name for name, c in BAG.items())
    with pytest.raises(KeyError, match=r"no club '5i' in the bag; allowed: 7i, .*LW"):
        club_named("5i")


@settings(deadline=None)
@given(clubs)
def test_square_face_is_the_club_itself(c: object) -> None:
    face = open_face(c, 0.0)  # type: ignore[arg-type]
    assert (face.loft, face.bounce, face.azimuth) == pytest.approx((c.loft, c.bounce, 0.0), abs=1e-12)  # type: ignore[attr-defined]


@settings(deadline=None)
@given(clubs, st.floats(radians(1), radians(40)))
def test_opening_adds_loft_and_bounce_and_turns_the_face_away(c: object, opened: float) -> None:
    before, after = open_face(c, opened - radians(1)), open_face(c, opened)  # type: ignore[arg-type]
    assert after.loft > before.loft
    assert after.bounce > before.bounce
    assert after.azimuth > before.azimuth >= 0.0
    shut = open_face(c, -opened)  # type: ignore[arg-type]
    assert shut.bounce < c.bounce  # type: ignore[attr-defined]
    assert shut.azimuth < 0.0


@settings(deadline=None)
@given(clubs, st.floats(radians(-10), radians(40)), st.floats(0.0, 1.0))
def test_grind_leaves_a_share_of_the_bounce_an_open_face_gains(c: Club, opened: float, grind: float) -> None:
    """Loft and azimuth are the exact geometry's; a full sole keeps the whole gain, none at 0 (derived)."""
    loft, bounce, azimuth = opened_face(c.lie, c.loft, c.bounce, opened)
    ground = replace(c, grind=grind)
    face = open_face(ground, opened)
    assert (face.loft, face.azimuth) == (loft, azimuth)
    assert face.bounce - c.bounce == pytest.approx(grind * (bounce - c.bounce), abs=1e-12)
    assert opened_head(as_record(ground), opened) == (face.loft, face.bounce, face.azimuth)
    assert open_face(replace(c, grind=1.0), opened).bounce == pytest.approx(bounce, abs=1e-12)


def test_grind_of_the_bag_is_within_its_assumed_range() -> None:
    assert all(0.5 <= c.grind <= 0.8 for c in BAG.values())
