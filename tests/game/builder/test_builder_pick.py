"""Picking and snapping: the nearest thing within reach, the body under the hand, the place it means."""

import pytest

from game.builder.model.edits import (
    KINDS,
    STARTS,
    add_hazard,
    handles,
    insert_point,
    new_draft,
    set_value,
)
from game.builder.model.handles import DragHandle
from game.builder.model.pick import Picker
from game.builder.model.profile import height, profile
from levels.draft import Draft

PLAIN = new_draft("plain green")
SLOPE = new_draft("slope up")


def named(d: Draft, label: str) -> DragHandle:
    return next(h for h in handles(d) if h.label == label)


@pytest.mark.parametrize("start", STARTS)
def test_every_handle_is_found_at_its_place(start: str) -> None:
    picker = Picker(new_draft(start))
    for handle in picker.handles:
        found = picker.nearest(handle.x, handle.y, 0.01)
        assert found is not None
        assert (found.x, found.y) == pytest.approx((handle.x, handle.y))


def test_nothing_is_found_out_of_reach() -> None:
    picker = Picker(PLAIN)
    assert picker.nearest(1.5, 0.0, 0.4) is None
    assert picker.nearest(1.5, 0.0, 0.0) is None
    assert picker.nearest(3.3, 0.4, 0.51) == named(PLAIN, "point 2")
    assert picker.nearest(3.3, 0.4, 0.49) is None


def test_the_nearest_counts_and_the_ball_before_a_point_under_it() -> None:
    picker = Picker(insert_point(PLAIN, 0.0))
    ball = picker.nearest(0.1, 0.1, 1.0)
    assert ball is not None
    assert ball.kind == "ball"
    hole = Picker(PLAIN).nearest(9.7, 0.2, 1.0)
    assert hole is not None
    assert hole.kind == "hole"


INSIDE = {
    "water": (6.0, -0.01), "wall": (6.1, 0.3), "lip": (5.98, 0.06), "tree": (6.9, 3.9),
    "out_of_bounds": (12.0, 0.4),
}  # fmt: skip
OUTSIDE = {
    "water": (6.0, 0.3), "wall": (5.9, 0.3), "lip": (5.7, 0.06), "tree": (6.9, 1.2),
    "out_of_bounds": (12.3, 0.4),
}  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_a_body_is_met_where_the_ball_meets_it(kind: str) -> None:
    d = add_hazard(PLAIN, kind, INSIDE[kind][0] if kind == "out_of_bounds" else 6.0)
    picker = Picker(d)
    body = picker.inside(*INSIDE[kind])
    assert body is not None
    assert body.loc == ("hazards", 0)
    assert picker.inside(*OUTSIDE[kind]) is None


def test_the_body_with_the_nearest_edge_counts() -> None:
    d = add_hazard(add_hazard(PLAIN, "tree", 6.0), "wall", 6.0)
    d = set_value(d, ("hazards", 0, "radius_m"), 3.0)
    body = Picker(d).inside(6.1, 0.3)
    assert body is not None
    assert body.loc == ("hazards", 1)


def test_places_snap_to_things_then_ground_then_grid() -> None:
    picker = Picker(SLOPE)
    assert picker.snap(3.04, 0.42, 0.5, 0.1) == (3.0, 0.4, "point")
    x, y, what = picker.snap(6.1, 0.85, 0.5, 0.1)
    assert (x, what) == (6.0, "ground")
    assert y == pytest.approx(height(profile(SLOPE), 6.0))
    assert picker.snap(6.1, 3.2, 0.5, 0.1) == (6.0, 3.0, "grid")
    assert picker.snap(6.1, 3.2, 0.0, 0.1) == (6.1, 3.2, "")
    assert picker.snap(3.0, 0.4) == (3.0, 0.4, "")


def test_what_is_dragged_does_not_hold_itself() -> None:
    picker = Picker(SLOPE)
    point = named(SLOPE, "point 3")
    assert picker.snap(3.04, 0.42, 0.0, 0.1, point) == (3.04, 0.42, "")
    assert picker.snap(1.02, 0.02, 0.0, 0.1, point) == (1.0, 0.0, "point")
    d = add_hazard(SLOPE, "tree", 6.0)
    tree = named(d, "tree 1")
    top = named(d, "tree 1, middle of the canopy")
    assert Picker(d).snap(top.x, top.y, 0.0, 0.1, tree)[2] == ""


def test_a_draft_without_ground_can_be_asked() -> None:
    picker = Picker(set_value(PLAIN, ("ground",), None))
    assert picker.inside(0.0, 0.0) is None
    assert picker.snap(0.4, 0.4, 0.5, 0.1) == (0.5, 0.5, "grid")
