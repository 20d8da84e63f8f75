"""Hazards and the shot: put in where the rules allow, moved, sized, and everything shifted with the ball."""

from random import Random

import pytest
from any_edit import any_edit

from game.builder.model.edits import (
    KINDS,
    STARTS,
    DragHandle,
    add_hazard,
    drag,
    duplicate_hazard,
    handles,
    move_ball,
    move_hazard,
    move_hole,
    new_draft,
    remove_hazard,
    resize_hazard,
    set_lie,
    set_value,
    toggle_club,
    toggle_control,
)
from game.builder.model.hazard_edits import standing
from game.builder.model.profile import height, profile
from levels.draft import Draft, library_text
from levels.files import library

PLAIN = new_draft("plain green")
DRAFTS = [*(new_draft(kind) for kind in STARTS), *(Draft.parse(library_text(name)) for name in library())]


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("x", [-200.0, -8.0, -1.0, 0.0, 0.05, 4.0, 10.0, 25.99, 200.0])
@pytest.mark.parametrize("start", STARTS)
def test_a_new_hazard_is_legal_wherever_it_is_dropped(kind: str, x: float, start: str) -> None:
    d = add_hazard(new_draft(start), kind, x)
    assert d.problems() == ()
    assert len(d.at(("hazards",))) == len(new_draft(start).at(("hazards",))) + 1


def test_a_new_hazard_stands_where_it_is_dropped_if_it_may() -> None:
    assert add_hazard(PLAIN, "tree", 6.25).at(("hazards", 0, "x_m")) == 6.25
    water = add_hazard(PLAIN, "water", 6.0).at(("hazards", 0))
    assert (water["left_m"], water["right_m"]) == (5.0, 7.0)


def test_there_is_an_end_to_hazards() -> None:
    d = PLAIN
    for _ in range(60):
        d = add_hazard(d, "wall", 6.0)
    assert len(d.at(("hazards",))) == 50
    assert duplicate_hazard(d, 0) is d
    assert add_hazard(PLAIN, "windmill", 6.0) is PLAIN


def test_what_stands_keeps_clear_of_ball_and_hole() -> None:
    d = add_hazard(PLAIN, "wall", 5.0)
    for dx in (-5.0, 5.0, -5.02, 4.97):
        assert move_hazard(d, 0, dx, 0.0).problems() == ()
    assert move_hazard(d, 0, 1.0, 9.0).at(("hazards", 0, "x_m")) == 6.0


def test_only_water_goes_up_and_down() -> None:
    d = add_hazard(PLAIN, "water", 5.0)
    before, after = d.at(("hazards", 0)), move_hazard(d, 0, 0.5, -0.2).at(("hazards", 0))
    assert after == {
        **before,
        "left_m": 4.5,
        "right_m": 6.5,
        "level_m": pytest.approx(before["level_m"] - 0.2),
    }


def test_a_stake_never_puts_ball_or_hole_out() -> None:
    d = add_hazard(add_hazard(PLAIN, "out_of_bounds", 15.0), "out_of_bounds", -5.0)
    assert move_hazard(move_hazard(d, 0, -99.0, 0.0), 1, 99.0, 0.0).problems() == ()


def test_a_duplicate_is_alike_and_beside() -> None:
    d = duplicate_hazard(add_hazard(PLAIN, "tree", 6.0), 0)
    one, two = d.at(("hazards",))
    assert two == {**one, "x_m": 6.5}
    assert d.problems() == ()
    assert duplicate_hazard(add_hazard(PLAIN, "water", 6.0), 0).problems() == ()
    assert remove_hazard(d, 1) == add_hazard(PLAIN, "tree", 6.0)
    assert duplicate_hazard(d, 9) is d


SIZES = [
    ("water", "left_m", (4.2, 0.0), 4.2), ("water", "right_m", (7.5, 0.0), 7.5),
    ("water", "level_m", (6.0, -0.3), -0.3), ("wall", "height_m", (6.0, 1.25), 1.25),
    ("wall", "thickness_m", (6.4, 0.3), 0.4), ("lip", "height_m", (6.0, 0.3), 0.3),
    ("lip", "overhang_m", (5.8, 0.1), 0.2), ("tree", "trunk_m", (6.0, 5.0), 5.0),
    ("tree", "radius_m", (4.0, 3.0), 2.0), ("tree", "radius_m", (8.0, 3.0), 2.0),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "key", "place", "value"), SIZES)
def test_a_size_follows_its_handle(kind: str, key: str, place: tuple[float, float], value: float) -> None:
    d = add_hazard(PLAIN, kind, 6.0)
    assert resize_hazard(d, 0, key, *place).at(("hazards", 0, key)) == pytest.approx(value)


@pytest.mark.parametrize("kind", KINDS)
def test_sizes_stay_within_their_limits(kind: str) -> None:
    d = add_hazard(PLAIN, kind, 15.0)
    for handle in (h for h in handles(d) if h.kind == "size"):
        for x, y in ((-1e6, -1e6), (1e6, 1e6), (15.0, 0.0)):
            told = [p for p in drag(d, handle, x, y).problems() if "out of bounds" not in p.sentence]
            assert told == [] or handle.loc[-1] in ("left_m", "right_m", "level_m")


def test_a_size_of_another_kind_is_none() -> None:
    d = add_hazard(PLAIN, "tree", 6.0)
    assert resize_hazard(d, 0, "level_m", 1.0, 1.0) is d
    assert resize_hazard(d, 1, "trunk_m", 1.0, 1.0) is d
    assert resize_hazard(d, 0, "kind", 1.0, 1.0) is d


def test_a_stake_turns_round() -> None:
    d = add_hazard(PLAIN, "out_of_bounds", 15.0)
    assert resize_hazard(d, 0, "side", 14.0, 1.0).at(("hazards", 0, "side")) == "behind"


@pytest.mark.parametrize("d", DRAFTS, ids=lambda d: d.at(("title",)))
def test_every_handle_dragged_nowhere_leaves_a_sound_course(d: Draft) -> None:
    for handle in handles(d):
        assert drag(d, handle, handle.x, handle.y).problems() == (), handle


@pytest.mark.parametrize("d", DRAFTS, ids=lambda d: d.at(("title",)))
def test_handles_follow_the_hand(d: Draft) -> None:
    wide = ("point", "size", "hazard", "ball", "hole", "clear", "land")
    assert {h.kind for h in handles(d)} <= set(wide)
    assert len({h.loc for h in handles(d)}) == len(handles(d))
    assert len({h.label for h in handles(d)}) == len(handles(d))
    for h in handles(d):
        if h.kind == "land":
            moved = next(n for n in handles(drag(d, h, h.x + 0.05, 0.0)) if n.loc == h.loc)
            assert moved.x == pytest.approx(h.x + 0.05)
        if h.kind == "clear":
            moved = next(n for n in handles(drag(d, h, h.x + 0.2, h.y + 0.3)) if n.loc == h.loc)
            assert (moved.x, moved.y) == pytest.approx((h.x + 0.2, h.y + 0.3), abs=2e-3)


def test_an_unknown_handle_does_nothing() -> None:
    assert drag(PLAIN, DragHandle(("title",), "title", 0, 0, "title"), 1.0, 1.0) is PLAIN


# the shot


def test_the_hole_stays_on_green_clear_of_what_stands() -> None:
    for x in (-9.0, 0.0, 4.0, 19.99, 400.0):
        assert move_hole(PLAIN, x).problems() == ()
    wall = add_hazard(PLAIN, "wall", 12.0)
    assert move_hole(wall, 12.0).problems() == ()
    assert move_hole(wall, 14.0).at(("hole", "x_m")) == 14.0


def test_without_green_the_hole_goes_anywhere() -> None:
    d = set_value(set_value(PLAIN, ("ground", 2, "surface"), "rough"), ("hole",), None)
    assert move_hole(d, 7.0).at(("hole", "x_m")) == 7.0


@pytest.mark.parametrize("x", [-2.0, 0.75, 1.5])
def test_all_else_stays_where_it_is_when_the_ball_moves(x: float) -> None:
    for d in DRAFTS:
        moved = move_ball(d, x)
        went = d.at(("hole", "x_m")) - moved.at(("hole", "x_m"))
        up = height(profile(d), went)
        assert went == pytest.approx(x, abs=0.2)  # a wall in the way is stepped round
        assert height(profile(moved), 0.0) == pytest.approx(0.0, abs=1e-6)
        for was, now in zip(handles(d), handles(moved), strict=True):
            if was.kind != "ball":
                assert (now.x + went, now.y + up) == pytest.approx((was.x, was.y), abs=2e-6)
        assert not [p.told for p in moved.problems() if p.loc[0] in ("ground", "hole")]


def test_the_ball_goes_and_comes_back() -> None:
    for d in DRAFTS:
        back = move_ball(move_ball(d, 1.0), -1.0)
        assert [h.loc for h in handles(back)] == [h.loc for h in handles(d)]
        for a, b in zip(handles(back), handles(d), strict=True):
            assert (a.x, a.y) == pytest.approx((b.x, b.y), abs=3e-6)


def test_the_ball_stays_before_the_hole_and_on_the_ground() -> None:
    assert move_ball(PLAIN, 99.0).at(("hole", "x_m")) == 0.5
    assert profile(move_ball(PLAIN, -99.0))[0].x == -0.5
    assert move_ball(PLAIN, 0.0) is PLAIN


def test_water_moves_with_the_ground_when_the_ball_goes_uphill() -> None:
    d = add_hazard(new_draft("slope up"), "water", 6.0)
    before, moved = d.at(("hazards", 0)), move_ball(d, 3.0)
    assert moved.at(("hazards", 0, "level_m")) == pytest.approx(before["level_m"] - 0.4)
    assert moved.at(("hazards", 0, "left_m")) == pytest.approx(before["left_m"] - 3.0)


def test_the_lie_is_set_and_kept_within_limits() -> None:
    d = set_lie(PLAIN, "sand", -99.0)
    assert d.at(("lie",)) == {"surface": "sand", "lift_mm": -30.0}
    assert set_lie(d, None, 3.04).at(("lie",)) == {"lift_mm": 3.0}


def test_a_closed_control_takes_its_limits_and_reference_along() -> None:
    d = set_value(PLAIN, ("limits", "shaft_lean_deg"), [0.0, 10.0])
    d = set_value(d, ("reference",), {"family": "low", "shaft_lean_deg": 4.0, "ball_position_cm": 2.0})
    assert d.problems() == ()
    closed = toggle_control(d, "shaft_lean")
    assert closed.problems() == ()
    assert closed.at(("limits",)) == {}
    assert closed.at(("reference",)) == {"family": "low", "ball_position_cm": 2.0}
    assert toggle_control(closed, "shaft_lean").at(("open_controls",)) == PLAIN.at(("open_controls",))
    assert toggle_control(d, "magic") is d


def test_a_club_taken_away_is_nobodys_default() -> None:
    d = set_value(PLAIN, ("reference",), {"club": "SW"})
    taken = toggle_club(d, "SW")
    assert taken.problems() == ()
    assert taken.at(("clubs",)) == ["GW-high", "LW"]
    assert (taken.at(("default_setup", "club")), taken.at(("reference", "club"))) == ("GW-high", "GW-high")
    none = toggle_club(toggle_club(taken, "LW"), "GW-high")
    assert none.problems() == ()
    assert toggle_club(PLAIN, "PW").at(("clubs",))[0] == "PW"


def test_a_value_on_a_path_that_leads_nowhere_changes_nothing() -> None:
    assert set_value(PLAIN, ("title", "deeper"), 1) is PLAIN
    assert set_value(PLAIN, ("lie", "surface"), None) is PLAIN


def test_edits_given_twice_give_the_same() -> None:
    for seed in range(60):
        d = Random(seed).choice(DRAFTS)
        assert any_edit(d, Random(seed))[1] == any_edit(d, Random(seed))[1]


def test_a_kind_that_is_a_list_keeps_nothing_away() -> None:
    rows = [{"kind": ["lip"], "x_m": 4.0}, {"kind": "lip", "x_m": 5.0}]
    ((left, right),) = standing(Draft({"hazards": rows}))
    assert left < 5.0 < right
