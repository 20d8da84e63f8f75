"""The page of cautions: shown once before real swings, read in full at every size, by keys alone."""

from dataclasses import replace
from pathlib import Path

import pygame
import pytest

from game.app.frame import App
from game.library.settings import Settings, kept_settings
from game.text.cautions import CAUTIONS
from game.ui.safety import SafetyPage, before_real_swings
from game.ui.widget import walk


def key(which: int) -> pygame.event.Event:
    return pygame.event.Event(pygame.KEYDOWN, key=which, unicode="", mod=0, scancode=0)


@pytest.fixture(params=[(1280, 800, 1.0), (1024, 640, 2.0)], ids=str)
def app(request: pytest.FixtureRequest, tmp_path: Path) -> App:
    w, h, scale = request.param
    return App.headless((w, h), Settings(text_scale=scale), "Settings", tmp_path)


def test_read_once_then_never_in_the_way(app: App, tmp_path: Path) -> None:
    done: list[int] = []
    before_real_swings(app, lambda: done.append(1))
    app.frame([], 0.0)
    assert isinstance(app.screen, SafetyPage)
    assert done == []
    labels = [widget.label for widget in walk(app.screen.widgets)]
    assert [caution for caution in CAUTIONS if caution not in labels] == []
    app.frame([key(pygame.K_RETURN)], 0.0)
    assert done == [1]
    assert not isinstance(app.screen, SafetyPage)
    assert kept_settings(tmp_path)[0].safety_read
    before_real_swings(app, lambda: done.append(2))
    assert done == [1, 2]


def test_escape_agrees_to_nothing(app: App) -> None:
    done: list[int] = []
    before_real_swings(app, lambda: done.append(1))
    app.frame([], 0.0)
    app.frame([key(pygame.K_ESCAPE)], 0.0)
    assert done == []
    assert not app.settings.safety_read
    assert not isinstance(app.screen, SafetyPage)


def test_every_line_can_be_brought_into_view(app: App) -> None:
    before_real_swings(app, lambda: None)
    app.frame([], 0.0)
    page = app.screen
    assert isinstance(page, SafetyPage)
    last = next(widget for widget in walk(page.widgets) if widget.label == CAUTIONS[-1])
    for _ in range(6):
        app.frame([key(pygame.K_PAGEDOWN)], 0.0)
    assert last.clip is not None
    assert last.clip.holds(last.rect, 1.0)
    assert replace(app.settings, safety_read=False) == app.settings
