"""The turf fills the Bench: by key and by button, there and back, with everything that works in it."""

from math import radians

import pygame
import pytest

from game.app.frame import App
from game.draw.camera import Rect
from game.draw.type import LEADING
from game.library.settings import Settings
from game.shot_view.back_row import CAPITAL, CAPITALS
from game.shot_view.turf_frame import WHOLE
from game.text.cautions import LEFT_NOTE
from game.ui.widget import walk
from tests.game.bench.test_bench import SPACE, bench, run
from tests.ui_events import key, press, release

Z, ESC, PLUS = key(pygame.K_z, 0, "z"), key(pygame.K_ESCAPE), key(pygame.K_PLUS, 0, "+")


def test_one_key_fills_the_stage_and_the_same_or_escape_goes_back():
    app, screen = bench()
    small = screen.places.turf
    for back in (Z, ESC):
        app.frame([Z], 0.016)
        assert screen.views == ("Turf",)
        assert screen.places.turf.w * screen.places.turf.h > 0.6 * 1280 * 800
        app.frame([back], 0.016)
        assert screen.places.turf == small
        assert "Course" in screen.views


def test_a_button_does_it_by_mouse():
    app, screen = bench()
    for label in ("Large turf", "Back"):
        button = next(w for w in walk(screen.widgets) if w.label == label)
        at = (button.rect.x + 8, button.rect.y + 8)
        app.frame([press(*at), release(*at)], 0.016)
        assert screen.fill.on is (label == "Large turf")


def test_playing_scrubbing_and_slow_time_work_while_it_is_large():
    app, screen = bench()
    app.frame([Z, SPACE], 0.016)
    assert screen.state.shot
    assert screen.ribbon.playing
    run(app, 1.0)
    app.frame([key(pygame.K_h, 0, "h")], 0.016)
    assert screen.ribbon.pace_words
    app.frame([key(pygame.K_RIGHTBRACKET, 0, "]")], 0.016)
    assert screen.fill.on
    assert not screen.ribbon.playing


def test_a_and_b_stand_beside_each_other_at_one_scale_and_look_closer_together():
    app, screen = bench()
    screen.compare()
    screen.set_control("lean_change", radians(9))
    app.frame([Z, SPACE], 0.016)
    a, b = screen.places.turf, screen.places.second[1]
    assert not a.overlaps(b)
    assert a.w == b.w
    for event in (PLUS, PLUS):
        app.frame([event], 0.016)
    first, second = screen.pictures.turfs
    assert first.camera.scale == second.camera.scale
    assert first.closer != WHOLE
    app.frame([key(pygame.K_0, 0, "0")], 0.016)
    assert first.closer == second.closer == WHOLE


def test_the_scar_stays_for_the_next_shot_and_goes_with_the_ground():
    app, screen = bench()
    screen.set_control("lean_change", radians(9))
    app.frame([SPACE], 0.016)
    shot = screen.state.shot
    screen.set_control("lean_change", 0.0)
    app.frame([], 0.016)
    turf, stage = screen.pictures.turfs[0], screen.pictures.stages[0]
    assert turf.scars.on(screen.state.course).shots == stage.scars.shots == (shot,)
    screen.lie_on("soft")
    app.frame([], 0.016)
    assert not turf.scars.on(screen.state.course).shots


def test_at_every_size_all_parts_stand_inside_and_apart():
    for size, scale in (((1024, 640), 2.0), ((1280, 800), 1.0), ((3840, 2160), 2.0)):
        app, screen = bench(size, text_scale=scale, left_handed=True)
        app.frame([Z], 0.016)
        places = screen.places
        for box in (places.ribbon, screen.fill.row.rect):
            assert app.box.holds(box)
            assert not box.overlaps(places.turf)
        buttons = [w for w in screen.fill.row.parts]
        assert all(b.rect.h >= 24 and b.rect.w >= 24 for b in buttons)


def test_the_guides_turn_closes_the_large_turf_so_that_its_words_and_slider_show():
    app = App.headless((1280, 800), Settings(reduced_motion=True), "Bench")
    bench = app.screen
    bench.welcome()
    for _ in range(3):
        app.frame([], 0.016)
    bench.ribbon.seek(bench.ribbon.line.end)
    bench.fill.toggle()
    bench.play_or_pause()
    app.frame([], 0.016)
    assert bench.stage == "try"
    assert not bench.fill.on
    assert bench.parts.guide.label


def test_left_handers_are_told_why_course_and_turf_look_opposite_ways():
    notes = []
    for left in (False, True):
        app = App.headless((1280, 800), Settings(reduced_motion=True, left_handed=left), "Bench")
        notes.append(app.screen.note)
    assert LEFT_NOTE not in notes[0]
    assert LEFT_NOTE in notes[1]


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800), (1920, 1080), (3840, 2160)])
@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_its_words_can_be_read_from_the_back_row_of_the_window_they_are_shown_in(size, scale):
    app, screen = bench(size, text_scale=scale, reduced_motion=True)
    app.frame([Z], 0.016)
    turf = screen.pictures.turfs[0]
    words = [*turf.said.words, *(named.word for named in turf.named)]
    assert len(words) > 4
    for word in words:
        assert word.box.h / LEADING * CAPITAL >= CAPITALS * size[1] - 1.0, word.text
        assert Rect(0, 0, screen.places.turf.w, screen.places.turf.h).holds(word.box), word.text
