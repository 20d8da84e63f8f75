"""Both leans on the Bench's golfer: told in words, drawn, and never over a knob."""

from math import radians

import pytest

from game.app.frame import App
from game.bench.parts import VIEWS
from game.bench.screen import Bench
from game.library.settings import Settings
from game.shot_view.leans import lean_words


@pytest.mark.parametrize(
    ("set_deg", "back_deg", "told", "junior"),
    [
        (5.0, 7.0, ("set 5°", "comes back 7°, nearly there"), ("set", "comes back nearly there")),
        (5.0, 3.0, ("set 5°", "comes back 3°, nearly there"), ("set", "comes back nearly there")),
        (5.0, 8.5, ("set 5°", "comes back 8°"), ("set", "comes back further forward")),
        (5.0, 5.9, ("matched, 5°",), ("matched",)),
        (2.0, -3.0, ("set 2°", "comes back −3°"), ("set", "comes back less forward")),  # noqa: RUF001
    ],
)
def test_words_of_the_leans(set_deg, back_deg, told, junior):
    assert lean_words(radians(set_deg), radians(back_deg), True) == told
    assert lean_words(radians(set_deg), radians(back_deg), False) == junior


def bench(size, lean_deg, **settings):
    app = App.headless(size, Settings(reduced_motion=True, **settings), "Bench")
    screen = app.screen
    assert isinstance(screen, Bench)
    screen.set_control("lean_change", radians(lean_deg))
    if screen.tight:
        screen.show_view(VIEWS.index("Golfer"))
    for _ in range(3):
        app.frame([], 0.05)
    return app, screen


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800), (1920, 1080)])
@pytest.mark.parametrize("lean", [-8.0, 0.0, 4.0, 12.0])
@pytest.mark.parametrize(
    "settings", [{}, {"left_handed": True}, {"detail": "junior"}, {"detail": "coach"}, {"text_scale": 2.0}]
)
def test_the_words_stand_clear_in_the_panel(size, lean, settings):
    _, screen = bench(size, lean, **settings)
    if "Golfer" not in screen.views:
        return
    mark, panel = screen.pictures.leans, screen.places.golfer
    assert mark.words
    assert panel.inset(-1).holds(mark.box)
    assert not any(mark.box.overlaps(knob.rect) for knob in screen.golfer.parts)


def test_the_words_follow_the_slider():
    app, screen = bench((1280, 800), 0.0)
    before = screen.pictures.leans.words
    screen.set_control("lean_change", radians(8))
    app.frame([], 0.05)
    assert screen.pictures.leans.words[0].startswith("set")
    assert screen.pictures.leans.words != before
