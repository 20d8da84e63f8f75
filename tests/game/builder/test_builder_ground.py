"""Shaping the ground: each edit does what its name says, and the ground stays one a ball can lie on."""

from itertools import pairwise
from math import hypot
from random import Random

import pytest
from any_edit import EDITS, any_edit, stroke

from game.builder.model.edits import (
    STARTS,
    add_bunker,
    delete_point,
    drag,
    draw_ground,
    handles,
    insert_point,
    move_point,
    new_draft,
    paint,
    set_value,
    smooth,
)
from game.builder.model.history import History
from game.builder.model.profile import height, profile, profile_surface
from levels.draft import Draft, library_text
from levels.files import library

PLAIN = new_draft("plain green")
DRAFTS = [*(new_draft(kind) for kind in STARTS), *(Draft.parse(library_text(name)) for name in library())]
SHAPING = ("add a point", "move a point", "delete a point", "smooth", "paint", "draw", "add a bunker")


def xs(d: Draft) -> list[float]:
    return [p.x for p in profile(d)]


def at(d: Draft, x: float) -> float:
    return height(profile(d), x)


@pytest.mark.parametrize("kind", STARTS)
def test_every_start_is_legal(kind: str) -> None:
    assert new_draft(kind).problems() == ()


@pytest.mark.parametrize("name", SHAPING)
def test_no_edit_breaks_a_sound_ground(name: str) -> None:
    for seed in range(150):
        rng = Random(seed)
        start = rng.choice(DRAFTS)
        for _ in range(3):
            start = EDITS[rng.choice(SHAPING)](start, rng) if rng.random() < 0.7 else start
        if [p for p in start.problems() if p.loc[0] == "ground"] or max(
            abs(p.y) for p in profile(start)
        ) > 15:
            continue  # a ground as high as the stage may be sunk beyond it
        edited = EDITS[name](start, rng)
        assert [p.told for p in edited.problems() if p.loc[0] == "ground"] == [], seed


@pytest.mark.parametrize("seed", range(80))
def test_no_edit_minds_a_broken_draft(seed: int) -> None:
    rng = Random(seed)
    d = rng.choice(DRAFTS)
    for loc in rng.sample([("ground",), ("hazards",), ("hole",), ("goal",), ("ground", 1, "x_m"), ("limits",),
                           ("hazards", 0, "x_m"), ("open_controls",), ("clubs",), ("lie",)], 3):  # fmt: skip
        d = set_value(d, loc, rng.choice([None, "odd", [], {}, [1], 3]))
    for _ in range(30):
        any_edit(d, rng)


def test_a_point_comes_in_on_the_line_with_its_surface() -> None:
    d = insert_point(new_draft("slope up"), 2.0)
    assert d.at(("ground", 2)) == {"x_m": 2.0, "y_m": 0.2, "surface": "fairway"}
    assert insert_point(d, 2.0) is d


def test_a_point_beyond_an_end_leads_the_ground_on() -> None:
    d = insert_point(insert_point(PLAIN, 30.0), -12.0)
    assert d.problems() == ()
    assert (xs(d)[0], xs(d)[-1]) == (-12.0, 30.0)
    assert [p.surface for p in profile(d)][-2:] == ["fringe", None]


def test_there_is_an_end_to_points() -> None:
    d = PLAIN
    for k in range(600):
        d = insert_point(d, -7.9 + k * 0.05)
    assert len(xs(d)) == 500
    assert d.problems() == ()


def test_a_point_stays_between_its_neighbours() -> None:
    assert xs(move_point(PLAIN, 1, 99.0, 0.0))[1] == pytest.approx(3.999)
    assert xs(move_point(PLAIN, 1, -99.0, 0.0))[1] == pytest.approx(-7.999)


def test_the_ends_leave_room_for_ball_and_hole() -> None:
    assert xs(move_point(new_draft("plain green"), 0, 2.0, 0.0))[0] == -0.5
    d = delete_point(delete_point(PLAIN, 1), 1)
    assert xs(move_point(d, len(xs(d)) - 1, 0.0, 0.0))[-1] == pytest.approx(20.001)
    assert xs(move_point(PLAIN, 4, 0.0, 0.0))[-1] == pytest.approx(20.001)


def test_a_point_under_the_ball_moves_all_other_ground() -> None:
    d = insert_point(PLAIN, 0.0).insert(
        ("hazards", 0), {"kind": "water", "left_m": 5.0, "right_m": 6.0, "level_m": -0.25}
    )
    up = move_point(d, 1, 0.0, 0.5)
    assert at(up, 0.0) == 0.0
    assert [p.y for p in profile(up)] == [-0.5, 0.0, -0.5, -0.5, -0.5, -0.5]
    assert up.at(("hazards", 0, "level_m")) == -0.75
    assert move_point(d, 1, 0.0, 0.0) is d


def test_slopes_stop_short_of_walls() -> None:
    d = move_point(PLAIN, 2, 3.1, 25.0)
    assert d.problems() == () or all(p.loc[0] != "ground" for p in d.problems())
    assert at(d, 3.1) == pytest.approx(0.1 * 10.4, abs=0.5)


def test_points_that_are_needed_stay() -> None:
    two = delete_point(delete_point(delete_point(PLAIN, 1), 1), 1)
    assert len(xs(two)) == 2
    assert delete_point(two, 0) is two
    near = insert_point(PLAIN, 0.6).put(("hole", "x_m"), 25.0)
    assert delete_point(near, len(xs(near)) - 1) is near


def test_the_last_point_can_go_and_its_surface_with_it() -> None:
    d = delete_point(PLAIN, 4)
    assert d.problems() == ()
    assert d.at(("ground",))[-1] == {"x_m": 20.0, "y_m": 0.0}


def test_paint_covers_its_stretch_and_nothing_else() -> None:
    d = paint(PLAIN, 6.0, 8.5, "sand")
    ground = profile(d)
    assert [profile_surface(ground, x) for x in (5.99, 6.0, 8.49, 8.5, 3.5)] == [
        "green",
        "sand",
        "sand",
        "green",
        "fringe",
    ]
    assert all(at(d, x) == at(PLAIN, x) for x in (-3.0, 5.0, 7.0, 15.0))


def test_painting_it_back_leaves_no_points_behind() -> None:
    assert paint(paint(PLAIN, 6.0, 8.5, "sand"), 5.0, 9.0, "green") == PLAIN
    assert paint(PLAIN, 5.0, 9.0, "green") == PLAIN


def test_painting_keeps_the_shape_and_what_the_coach_put_there() -> None:
    shaped = insert_point(new_draft("slope up"), 6.0)
    assert 6.0 in xs(paint(shaped, 5.0, 8.0, "green"))
    bunker = new_draft("bunker between")
    painted = paint(bunker, 2.0, 6.0, "rough")
    assert all(at(painted, x) == pytest.approx(at(bunker, x)) for x in (2.5, 2.7, 3.0, 4.0, 4.9, 5.3))


def bend(d: Draft, left: float, right: float) -> float:
    """Sum of the changes of slope in a stretch."""
    ground = [p for p in profile(d) if left <= p.x <= right]
    slopes = [(b.y - a.y) / (b.x - a.x) for a, b in pairwise(ground)]
    return max(abs(b - a) for a, b in pairwise(slopes))


def test_smoothing_eases_corners_and_keeps_ends_and_surfaces() -> None:
    rough = new_draft("bunker between")
    eased = smooth(rough, 2.0, 6.0)
    assert eased.problems() == ()
    assert bend(eased, 2.0, 6.0) < 0.6 * bend(rough, 2.0, 6.0)
    for x in (-5.0, 2.0, 6.0, 20.0):
        assert at(eased, x) == pytest.approx(at(rough, x), abs=1e-5)
    for x in (1.0, 2.6, 4.9, 5.1, 5.7, 19.0):
        assert profile_surface(profile(eased), x) == profile_surface(profile(rough), x)


def test_smoothing_again_and_again_adds_no_more_points() -> None:
    d = smooth(new_draft("bunker between"), 2.0, 6.0)
    most = len(xs(d)) + 6
    for _ in range(20):
        d = smooth(d, 2.0, 6.0)
    assert len(xs(d)) <= most
    level = smooth(PLAIN, 5.0, 15.0)
    assert level == PLAIN


def test_a_stroke_becomes_the_ground_between_its_ends() -> None:
    way = [(5.0 + k / 20, 0.3 * ((k - 50) / 50) ** 2 - 0.3) for k in range(101)]
    for hand in (way, way[::-1]):
        d = draw_ground(PLAIN, hand)
        assert d.problems() == ()
        assert all(abs(at(d, x) - y) < 0.0105 for x, y in way)
        assert len(xs(d)) < 30
        assert at(d, 12.0) == 0.0


def test_the_later_way_of_a_hand_going_back_counts() -> None:
    d = draw_ground(PLAIN, [(5.0, 0.0), (7.0, 1.0), (6.0, 0.5), (8.0, 0.5), (9.0, 0.0)])
    assert at(d, 7.0) == pytest.approx(0.5)


def test_a_stroke_over_surfaces_leaves_them_in_place() -> None:
    d = draw_ground(PLAIN, [(2.0, 0.0), (3.3, 0.2), (5.0, 0.2)])
    ground = profile(d)
    assert [profile_surface(ground, x) for x in (2.5, 3.0, 3.9, 4.0)] == [
        "fairway",
        "fringe",
        "fringe",
        "green",
    ]


def test_a_stroke_over_the_ball_is_laid_under_it() -> None:
    d = draw_ground(PLAIN, [(-1.0, 0.4), (1.0, 0.6)])
    assert at(d, 0.0) == 0.0
    assert at(d, 10.0) == -0.5


def test_a_stroke_beyond_the_end_leads_the_ground_on() -> None:
    d = draw_ground(PLAIN, [(25.0, 0.0), (33.0, 1.0)])
    assert d.problems() == ()
    assert xs(d)[-1] == 33.0


@pytest.mark.parametrize(
    "points", [[], [(1.0, 1.0)], [(1.0, 1.0), (1.0, 2.0)], [(float("nan"), 0.0), (2.0, 0.0)]]
)
def test_no_stroke_changes_nothing(points: list[tuple[float, float]]) -> None:
    assert draw_ground(PLAIN, points) is PLAIN


def test_the_simplified_stroke_keeps_within_a_centimetre() -> None:
    for seed in range(30):
        rng = Random(seed)
        hand = sorted((6.0 + 6.0 * rng.random(), 0.2 * rng.random()) for _ in range(12))
        hand = [p for a, p in zip([(0.0, 0.0), *hand], hand, strict=False) if p[0] - a[0] > 0.05]
        d = draw_ground(PLAIN, hand)
        assert all(abs(at(d, x) - y) < 0.05 for x, y in hand if hypot(x, y))
    assert draw_ground(PLAIN, stroke(Random(3))).problems() == ()


def test_a_bunker_is_hollow_sand_and_lip_in_one() -> None:
    d = add_bunker(PLAIN, 5.0, 7.5, 0.6)
    assert d.problems() == ()
    assert min(p.y for p in profile(d)) == pytest.approx(-0.6)
    assert [profile_surface(profile(d), x) for x in (4.9, 5.1, 7.4, 7.6)] == [
        "green",
        "sand",
        "sand",
        "green",
    ]
    assert d.at(("hazards", 0, "kind")) == "lip"
    assert d.at(("hazards", 0, "x_m")) == 7.5


def test_a_bunker_around_the_ball_leaves_the_ball_at_nought() -> None:
    d = add_bunker(PLAIN, -1.0, 1.5, 0.5)
    assert d.problems() == ()
    assert at(d, 0.0) == pytest.approx(0.0, abs=1e-6)
    assert at(d, 10.0) > 0.4


def test_pulls_of_one_drag_count_from_its_start_and_do_not_add_up() -> None:
    start = insert_point(PLAIN, 0.0)
    point = next(h for h in handles(start) if h.label == "point 2")
    history = History(start)
    for y in (0.2, 0.9, 0.5, 0.5):
        history.do("drag", drag(start, point, 0.0, y), "drag 1")
    assert [p.y for p in profile(history.draft)] == [-0.5, 0.0, -0.5, -0.5, -0.5, -0.5]
    history.undo()
    assert history.draft == start
