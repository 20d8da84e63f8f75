"""The tip of a widget lies on nothing that is needed next, on any screen at any size."""

from functools import partial

import pygame
import pytest

from game.app.frame import App
from game.bench.screen import Bench
from game.draw.camera import Rect
from game.library.settings import Settings
from game.play.screen import Play
from game.ui.tooltip import PANE, kept_clear, place_tip, shown_part
from levels.files import load_library
from tests.ui_events import key, motion

SCREENS = {
    "Bench": "Bench", "Ladder": "Ladder", "Builder": "Builder", "Settings": "Settings", "chapters": "Play",
    "Play": partial(Play, scenario=load_library("harrow-fen-plain-chip")),
}  # fmt: skip


def compared(app):
    bench = Bench(app)
    bench.compare()
    return bench


@pytest.mark.parametrize(("size", "scale"), [((1024, 640), 2.0), ((1024, 640), 1.0), ((1280, 800), 1.0),
                                             ((1280, 800), 1.5), ((1920, 1080), 1.0)])  # fmt: skip
@pytest.mark.parametrize("name", [*SCREENS, "compare"])
def test_a_tip_covers_neither_its_widget_nor_the_next_nor_any_tab(name, size, scale):
    app = App.headless(size, Settings(text_scale=scale), compared if name == "compare" else SCREENS[name])
    for _ in range(3):
        app.frame([], 0.016)
    if name == "Play":
        app.frame([key(pygame.K_RETURN)], 0.016)
        app.frame([], 0.016)
    bounds, order, met = Rect(0, 0, app._foot.w, app._foot.y), app.focus.order(), 0
    for widget in order:
        own = shown_part(widget)
        if not widget.tooltip or own.h <= 0.0:
            continue
        clear = kept_clear(order, widget)
        tip = place_tip(app.theme, widget.tooltip, own, bounds, (), clear)
        assert bounds.holds(tip), widget.label
        if own.w * own.h < PANE * bounds.w * bounds.h:
            assert not tip.overlaps(own), widget.label
        for other in clear:
            if other.w * other.h < PANE * bounds.w * bounds.h:
                assert not tip.overlaps(other), widget.label
        met += 1
    assert met


def test_a_screen_opened_by_a_key_shows_no_tip_of_what_comes_to_lie_under_the_pointer():
    app = App.headless((1024, 640), Settings(text_scale=2.0), "Bench")
    app.frame([motion(512, 400)], 0.016)
    app.frame([key(pygame.K_F5)], 0.016)
    for _ in range(10):
        app.frame([], 0.2)
    assert app.focus.hovered
    assert app.focus.hovered.tooltip
    assert app.tip.widget is None
    app.frame([motion(100, 100)], 0.016)  # to another one, by hand
    for _ in range(10):
        app.frame([], 0.2)
    assert app.tip.widget is app.focus.hovered
