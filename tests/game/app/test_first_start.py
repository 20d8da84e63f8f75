"""The first start asks who plays, once, while the laws are compiled; nothing has to be answered."""

import itertools
from functools import partial

import pygame
import pytest

from game.app.first_start import PLAIN, Prepare
from game.app.frame import App
from game.library.settings import DETAILS, Settings, kept_settings
from game.ui.widget import walk
from tests.ui_events import key

STEPS = (("first", lambda: None), ("second", lambda: None))


def asking(home=None, **settings) -> App:
    return App.headless(
        settings=Settings(**settings), screen=partial(Prepare, steps=STEPS, asks=True), home=home
    )


def test_it_waits_for_the_answer_and_keeps_it(tmp_path):
    app = asking(tmp_path)
    for _ in range(4):
        app.frame([], 0.1)
    assert isinstance(app.screen, Prepare)
    assert not app.screen.moving  # all is ready: the window may rest
    app.frame([key(pygame.K_LEFT)], 0.1)  # from player to junior
    app.frame([key(pygame.K_TAB), key(pygame.K_RETURN)], 0.1)  # left-handed
    app.frame([key(pygame.K_TAB), key(pygame.K_RETURN)], 0.1)
    app.frame([], 0.1)
    assert app.screen.title == app.titles[0]
    assert kept_settings(tmp_path) == (Settings(detail="junior", left_handed=True), "")


@pytest.mark.parametrize("leave", [pygame.K_RETURN, pygame.K_ESCAPE])
def test_one_key_takes_it_as_it_stands(leave):
    app = asking()
    app.frame([key(leave)], 0.1)
    for _ in range(4):
        app.frame([], 0.1)
    assert app.screen.title == app.titles[0]
    assert app.settings == Settings()


def test_the_answer_may_come_before_all_is_ready():
    app = asking()
    poll, app.worker.poll = app.worker.poll, list
    app.frame([key(pygame.K_ESCAPE)], 0.1)
    app.frame([], 0.1)
    assert isinstance(app.screen, Prepare)
    assert app.screen.widgets == ()
    app.worker.poll = poll
    for _ in range(4):
        app.frame([], 0.1)
    assert app.screen.title == app.titles[0]


def test_each_choice_says_what_it_means():
    app = asking()
    for detail, plain in zip(DETAILS, PLAIN, strict=True):
        app.screen._plays(DETAILS.index(detail))
        assert app.screen._about.label == plain
        assert plain.lower().startswith(detail)


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800), (3840, 2160)])
@pytest.mark.parametrize("scale", [1.0, 2.0])
@pytest.mark.parametrize("first", [False, True])
def test_everything_has_its_place(size, scale, first, monkeypatch):
    monkeypatch.setattr("game.startup.first_time", lambda part: first)
    app = App.headless(size, Settings(text_scale=scale), partial(Prepare, steps=STEPS, asks=True))
    boxes = [w.rect for w in walk(app.screen.widgets)]
    for a, b in itertools.pairwise(boxes):
        assert a.bottom <= b.y
    foot = app.screen._rail.y + 2 * app.theme.gap + app.theme.type.line("label")
    assert foot <= app.box.bottom
