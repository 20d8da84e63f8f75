"""The page for one Shot: nothing overlaps, everything is drawn, in both themes and at all sizes."""

from dataclasses import replace
from itertools import combinations
from math import cos, sin

import numpy as np
import pygame
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from game.draw.camera import Rect
from game.draw.caption import facts_of
from game.draw.clubhead import head_shape
from game.draw.page import PageContents, page_layout
from game.draw.picture import draw_shot, save_png
from game.draw.turf import poses
from game.text.cautions import NOTE, PRESET_NOTE
from physics.address import Motion, Setup
from physics.equipment import BAG
from physics.face import open_face
from physics.head import FACE_LENGTH, reach_of_face
from physics.shot import play
from physics.spread import PLAYERS
from tests.game.golden import WRITE, same_picture
from tests.game.synthetic import bunker, level, made_up, missed, parkland

SENTENCES = (
    "Handle came back 9° further forward, so bounce fell from 10° to 1° and the leading edge dug 6 mm.",
    "The ball came first, and the divot stayed shallow.",
)
SIZES = [(1024, 640), (1280, 800), (1600, 1000), (1920, 1080)]
SHOTS = {
    "chip": made_up(),
    "high": made_up(parkland(), carry=9.5, rest=12.4, apex=2.6, club="LW", spread=PLAYERS["club"]),
    "long": made_up(carry=24.0, rest=60.0, apex=9.0),
    "bunker": made_up(bunker(), carry=6.5, rest=7.6, apex=2.2, depth=0.015, club="SW-high"),
    "missed": missed(),
    "beside": made_up(carry=12.9, rest=13.05),
}


def asked(shot, stops=()):
    return PageContents(shot, SENTENCES, facts_of(shot), stops=stops)


@pytest.mark.parametrize("text_scale", [1.0, 1.3, 1.5, 2.0])
@pytest.mark.parametrize("size", SIZES, ids=lambda s: f"{s[0]}x{s[1]}")
@pytest.mark.parametrize("name", list(SHOTS))
def test_nothing_overlaps(name, size, text_scale):
    p = page_layout(asked(SHOTS[name], stops=(12.0, 12.5, 13.2)), size, text_scale)
    check(p)


def check(p):
    page = Rect(0, 0, *p.size)
    for a, b in combinations(p.words, 2):
        assert not a.box.overlaps(b.box), (a.text, b.text)
    panels = [panel for panel in (p.course, p.turf, p.golfer) if panel]
    for a, b in combinations(panels, 2):
        assert not a.overlaps(b)
    for word in p.words:
        assert page.holds(word.box), word.text
    for word in p.labels:
        assert p.turf.holds(word.box), word.text
    for word in p.titles:
        assert p.course.holds(word.box), word.text
    for word in p.said + p.rest:
        assert not any(panel.overlaps(word.box) for panel in panels), word.text
    assert p.turf.h > 0.2 * p.size[1], "the turf window must stay large enough to read"


@settings(max_examples=25, deadline=None)
@given(st.floats(0.5, 30), st.floats(0.1, 30), st.floats(0.02, 8), st.floats(1.0, 2.0))
def test_nothing_overlaps_wherever_the_ball_goes(carry, roll, apex, text_scale):
    check(page_layout(asked(made_up(carry=carry, rest=carry + roll, apex=apex)), (1280, 800), text_scale))


@pytest.mark.parametrize("text_scale", [1.0, 2.0])
@pytest.mark.parametrize("size", SIZES, ids=lambda s: f"{s[0]}x{s[1]}")
def test_every_sentence_is_there_whole(size, text_scale):
    p = page_layout(asked(SHOTS["chip"]), size, text_scale)
    assert p.whole
    assert " ".join(SENTENCES) in " ".join(w.text for w in p.said)


def test_text_at_200_percent_is_twice_as_large():
    small, large = (page_layout(asked(SHOTS["chip"]), (1600, 1000), s).type for s in (1.0, 2.0))
    assert large.size("body") == 2 * small.size("body")


def test_too_many_words_step_down_rather_than_vanish():
    p = page_layout(PageContents(SHOTS["chip"], SENTENCES * 2), (1024, 640), 2.0)
    assert p.whole
    assert 1.0 <= p.type.stretch < 2.0


def test_notes_say_what_the_view_leaves_out():
    def said(shot):
        return " ".join(w.text for w in page_layout(asked(shot)).rest)

    assert NOTE in said(SHOTS["chip"])
    assert PRESET_NOTE not in said(SHOTS["chip"])
    assert PRESET_NOTE in said(SHOTS["high"])


@pytest.mark.parametrize("name", list(SHOTS))
def test_course_is_drawn_to_true_scale_and_inside_its_strip(name):
    p = page_layout(asked(SHOTS[name]))
    run = SHOTS[name].run
    for x, y in zip(run.x, run.y, strict=True):
        px, py = p.camera.at(x, y)
        assert p.course.x <= px <= p.course.right
        assert p.titles[-1].box.bottom <= py <= p.course.bottom


def test_low_chip_does_not_leave_the_sky_empty():
    p = page_layout(asked(made_up(carry=15, rest=24, apex=1.5)))
    assert p.course.h <= 0.45 * p.size[1]


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("size", [(1024, 640), (1600, 1000)], ids=["small", "large"])
def test_picture_is_drawn_without_a_display(dark, size):
    assert not pygame.display.get_init()
    page = draw_shot(SHOTS["chip"], SENTENCES, size, dark)
    assert page.get_size() == size
    pixels = pygame.surfarray.array3d(page)
    p = page_layout(asked(SHOTS["chip"]), size)
    for box in (p.course, p.turf, p.golfer):
        part = pixels[int(box.x) : int(box.right), int(box.y) : int(box.bottom)]
        assert len(np.unique(part.reshape(-1, 3), axis=0)) > 30
    assert (pixels.mean() < 90) == dark


def test_left_hander_is_the_mirror_image_of_a_right_hander():
    p = page_layout(asked(SHOTS["chip"]), (1024, 640))
    both = [
        pygame.surfarray.array3d(draw_shot(SHOTS["chip"], SENTENCES, (1024, 640), left_handed=m))
        for m in (False, True)
    ]
    box = p.golfer
    x, y, w, h = int(box.x), int(box.y), int(box.w), int(box.h) - 4
    plain, mirrored = (v[x : x + w, y : y + h].astype(int) for v in both)
    assert np.abs(plain - mirrored).mean() > 2
    turf = slice(int(p.turf.x), int(p.turf.right)), slice(int(p.turf.y), int(p.turf.bottom))
    assert np.array_equal(both[0][turf], both[1][turf])


def test_ghost_and_stops_change_the_course_only():
    plain = pygame.surfarray.array3d(draw_shot(SHOTS["chip"], SENTENCES, (1024, 640)))
    ghost = made_up(carry=5.0, rest=11.0)
    more = pygame.surfarray.array3d(draw_shot(SHOTS["chip"], SENTENCES, (1024, 640), ghost=ghost))
    p = page_layout(asked(SHOTS["chip"]), (1024, 640))
    assert not np.array_equal(plain[:, : int(p.course.h)], more[:, : int(p.course.h)])
    assert np.array_equal(plain[:, int(p.course.h) + 60 :], more[:, int(p.course.h) + 60 :])


def test_distance_left_counts_what_is_beside_the_line():
    straight, wide = SHOTS["chip"], replace(SHOTS["chip"], lateral=1.2)
    assert facts_of(straight)[-1] == ("short of the hole", "0.9 m")
    assert facts_of(wide)[-1] == ("from the hole", "1.5 m")


def test_real_shot_is_drawn():
    shot = play(level(), Setup(ball_position=-0.02), Motion())
    check(page_layout(asked(shot)))
    assert poses(shot)
    assert draw_shot(shot, SENTENCES, (1024, 640)).get_size() == (1024, 640)


@pytest.mark.parametrize("club", list(BAG))
def test_drawn_head_has_the_true_loft_and_bounce(club):
    outline, strips = head_shape(BAG[club], 0.0)
    (x0, y0), (x1, y1) = outline[0], outline[-1]
    assert np.arctan2(x0 - x1, y1 - y0) == pytest.approx(open_face(BAG[club], 0.0).loft)
    first, last = strips[2, :2], strips[-1, :2]
    assert np.arctan2(first[1] - last[1], first[0] - last[0]) == pytest.approx(BAG[club].bounce, abs=0.02)
    back = outline[-8:-1]
    behind = [(x0 - x) * cos(BAG[club].loft) + (y0 - y) * sin(BAG[club].loft) for x, y in back]
    assert min(behind) > 0.004, "the back of the blade must stay behind its face"


@pytest.mark.parametrize("opened", [0.0, 0.5])
@pytest.mark.parametrize("club", list(BAG))
def test_drawn_edge_and_face_are_those_that_hit_the_ball(club, opened):
    """Round the edge and up the face every point is on the outline of the laws, and no other part of the
    head stands out before it."""
    outline, strips = head_shape(BAG[club], opened)
    loft, radius = open_face(BAG[club], opened).loft, BAG[club].edge_radius
    away = [reach_of_face(0.0, 0.0, 0.0, loft, radius, x, y) for x, y in outline]
    around = len(outline) - len(strips) - 8
    assert [d for d, *_ in away[:around]] == pytest.approx([0.0] * around, abs=1e-9)
    assert away[-1][0] == pytest.approx(0.0, abs=1e-9)
    assert (away[0][3], away[-1][3]) == pytest.approx((0.0, FACE_LENGTH), abs=1e-9)
    assert outline[around - 1] == pytest.approx((0.0, 0.0), abs=1e-9), "the leading edge is the origin"
    turns = np.diff(np.unwrap([np.arctan2(ny, nx) for _, nx, ny, _ in away[:around]]))
    assert max(abs(turns)) < 0.4, "the arc is drawn smooth"


def test_png_is_written_and_a_missing_directory_is_named(tmp_path):
    file = save_png(tmp_path / "out.png", SHOTS["chip"], SENTENCES, size=(1024, 640))
    assert pygame.image.load(str(file)).get_size() == (1024, 640)
    with pytest.raises(FileNotFoundError, match="no directory"):
        save_png(tmp_path / "nowhere" / "out.png", SHOTS["chip"])


@pytest.mark.parametrize(
    ("name", "dark"), [("chip", False), ("chip", True), ("high", False), ("bunker", True)]
)
def test_picture_looks_as_it_was_kept(name, dark, tmp_path):
    page = draw_shot(SHOTS[name], SENTENCES, (1600, 1000), dark)
    same_picture(page, f"{name}-{'dark' if dark else 'light'}", tmp_path)


def test_kept_picture_tells_a_difference(tmp_path, monkeypatch):
    monkeypatch.delenv(WRITE, raising=False)
    page = draw_shot(SHOTS["chip"], SENTENCES, (1600, 1000))
    pygame.draw.rect(page, (255, 0, 0), (0, 0, 400, 200))
    with pytest.raises(AssertionError, match="pixels differ"):
        same_picture(page, "chip-light", tmp_path)
    assert {f.name for f in tmp_path.iterdir()} == {
        f"chip-light-{k}.png" for k in ("actual", "expected", "diff")
    }
