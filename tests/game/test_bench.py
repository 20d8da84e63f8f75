from itertools import combinations
from math import radians

import pygame
import pytest

from game.app import App
from game.screens.bench import VIEWS, Bench
from game.settings import Settings
from game.ui.widget import walk
from tests.ui_events import key

SPACE = key(pygame.K_SPACE, 0, " ")


def bench(size=(1280, 800), **settings) -> tuple[App, Bench]:
    app = App.headless(size, Settings(**settings), "Bench")
    assert isinstance(app.screen, Bench)
    app.frame([], 0.016)
    return app, app.screen


def run(app: App, seconds: float, dt: float = 0.05) -> None:
    for _ in range(round(seconds / dt)):
        app.frame([], dt)


def played(app: App) -> None:
    """One shot, seen to its end."""
    app.frame([SPACE], 0.016)
    run(app, 20.0, 0.2)


def test_the_bench_is_the_first_screen_and_space_plays_a_shot():
    app, screen = bench()
    assert app.titles[0] == "Bench"
    app.frame([SPACE], 0.016)
    assert screen.state.shot is not None
    assert screen.ribbon.playing
    assert not screen.at_address


def test_space_pauses_and_goes_on_without_a_new_shot():
    app, screen = bench()
    app.frame([SPACE], 0.016)
    run(app, 1.0)
    shot = screen.state.shot
    app.frame([SPACE], 0.016)
    assert not screen.ribbon.playing
    time = screen.ribbon.time
    run(app, 0.5)
    assert screen.ribbon.time == time
    app.frame([SPACE], 0.016)
    assert screen.ribbon.playing
    assert screen.state.shot is shot


def test_the_end_is_not_told_before_it_is_seen():
    app, screen = bench()
    app.frame([SPACE], 0.016)
    run(app, 0.5)
    assert screen.said.text == ""
    run(app, 20.0, 0.2)
    assert "landed" in screen.said.text


def test_every_control_shows_at_once_and_leaves_a_ghost():
    app, screen = bench(detail="coach")
    played(app)
    before = pygame.surfarray.array3d(app.surface)
    for name, slider in screen.panel.sliders.items():
        intent = screen.intent
        slider.handle(key(pygame.K_PAGEUP))
        assert screen.intent != intent, name
        assert screen.at_address
    app.frame([], 0.016)
    assert (pygame.surfarray.array3d(app.surface) != before).any()
    assert screen.old != screen.intent
    assert screen._scene().ghost is screen.state.shot


def test_a_change_asks_for_new_likely_stops_and_a_machine_has_none():
    app, screen = bench()
    first = screen.stops
    assert len(first) == 500
    screen._set("swing_length", radians(60))
    app.frame([], 0.016)
    assert screen.stops != first
    screen._player.set(0)
    app.frame([], 0.016)
    assert screen.stops == ()


def test_the_next_shot_leaves_the_last_as_ghost():
    app, screen = bench()
    played(app)
    first = screen.state.shot
    played(app)
    assert screen._scene().ghost is first
    assert screen.state.shot.seed == first.seed + 1


def test_why_names_what_cost_most_and_r_plays_it_repaired():
    app, screen = bench(reduced_motion=True)
    app.frame([key(pygame.K_r, 0, "r")], 0.016)
    assert "W" in app.toast.sentence
    screen._set("lean_change", radians(12))
    app.frame([key(pygame.K_w, 0, "w")], 0.016)
    app.frame([], 0.016)
    assert screen._cost.label.startswith("What cost most")
    repair = screen.repair
    app.frame([key(pygame.K_r, 0, "r")], 0.016)
    app.frame([], 0.016)
    assert screen.state.now.value(repair.control) == pytest.approx(repair.best)
    assert screen.state.shot is not None


def test_compare_plays_the_same_stroke_with_both_in_step_at_the_ball():
    app, screen = bench(reduced_motion=True)
    app.frame([key(pygame.K_c, 0, "c")], 0.016)
    screen._set("lean_change", radians(9))
    app.frame([], 0.016)
    assert "lean change" in screen._between.label
    app.frame([SPACE], 0.016)
    a, b = screen.state.shot, screen.state.second_shot
    assert (a.seed, a.stray) == (b.seed, b.stray)
    scene = screen._scene()
    assert scene.together is b
    assert a.strike.time + scene.apart == pytest.approx(b.strike.time)
    app.frame([key(pygame.K_c, pygame.KMOD_LSHIFT, "C")], 0.016)
    assert screen.state.second == screen.state.now
    app.frame([key(pygame.K_c, 0, "c")], 0.016)
    assert not screen.state.comparing


def test_numbers_are_copied_as_text(monkeypatch):
    app, screen = bench(reduced_motion=True)
    copied = []
    monkeypatch.setattr(pygame.scrap, "put_text", copied.append)
    ctrl_c = key(pygame.K_c, pygame.KMOD_LCTRL)
    app.frame([ctrl_c], 0.016)
    assert copied == []
    app.frame([SPACE], 0.016)
    app.frame([key(pygame.K_n, 0, "n")], 0.016)
    app.frame([ctrl_c], 0.016)
    assert "carry\t" in copied[0]
    assert screen.numbers


def test_a_junior_has_two_controls_short_words_and_no_numbers():
    app, screen = bench(detail="junior", reduced_motion=True)
    assert set(screen.panel.names) == {"shaft_lean", "lean_change"}
    app.frame([SPACE], 0.016)
    app.frame([], 0.016)
    words = screen.said.text
    assert not any(c.isdigit() for c in words)
    assert all(len(s.split()) <= 12 for s in words.split("."))
    labels = [text for text, _, _ in screen._scene().marks]
    assert "stopped" in labels
    assert not any(c.isdigit() for c in "".join(labels))
    screen.toggle_numbers()
    assert any(c.isdigit() for text, _, _ in screen._scene().marks for c in text)


def test_other_ground_clears_the_scene():
    app, screen = bench()
    played(app)
    screen._ground.set(3)
    app.frame([], 0.016)
    assert screen.state.shot is None
    assert screen.ribbon.line is None


def test_what_the_view_cannot_show_is_said():
    _, screen = bench()
    assert "not left and right" in screen.note
    assert "illustrative" in screen.note


def test_the_help_lists_the_keys_of_the_bench():
    app, screen = bench()
    app.frame([key(pygame.K_SLASH, 0, "?")], 0.016)
    assert app.screen is not screen
    assert any("compare" in w.caption for w in walk(app.screen.widgets))


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800), (1920, 1080)])
@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
@pytest.mark.parametrize("detail", ["junior", "coach"])
def test_nothing_overlaps_and_everything_is_inside(size, scale, detail):
    app, screen = bench(size, text_scale=scale, detail=detail, reduced_motion=True)
    app.frame([key(pygame.K_c, 0, "c")] if detail == "coach" else [], 0.016)
    app.frame([SPACE], 0.016)
    for view in range(len(VIEWS)):
        screen.show_view(view)
        app.frame([], 0.016)
        tops = [w for w in screen.widgets if w is not screen.golfer]
        boxes = [w.rect for w in tops] + list({id(r): r for r in screen._shown_areas()}.values())
        for a, b in combinations(boxes, 2):
            assert not a.inset(0.6).overlaps(b.inset(0.6)), (view, a, b)
        for box in boxes:
            assert app.box.holds(box, 1.0), (view, box)
        for w in walk(tops):
            if w.focusable and w.enabled and not w.parts and w.group != "phrases":
                assert min(w.rect.w, w.rect.h) >= 24, w.label


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_every_control_can_be_reached_and_seen(scale):
    app, _ = bench((1024, 640), text_scale=scale, detail="coach")
    for _ in app.focus.stops():
        app.frame([key(pygame.K_TAB)], 0.016)
        widget = app.focus.widget
        assert widget is not None
        assert not widget.within or widget.within.rect.holds(widget.rect, 1.0), widget.label
