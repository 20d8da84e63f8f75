"""The first start asks who plays, once, while the laws are compiled; nothing has to be answered."""

import itertools
from functools import partial

import numpy as np
import pygame
import pytest

from game.app.first_start import FIRST, OPENS, PLAIN, Prepare
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
    who, left, begin = walk(app.screen.widgets)
    stood = begin.rect
    for at in range(len(DETAILS)):
        app.screen._plays(at)
        about = app.screen._about
        told = about.rect.y + len(about.lines(app.theme, about.rect.w)) * app.theme.type.line(about.role)
        for a, b in itertools.pairwise((who.rect.bottom, about.rect.y, told, left.rect.y, begin.rect.y)):
            assert a <= b
        assert begin.rect == stood  # it stays under the pointer whoever plays
    foot = app.screen._rail.y + 2 * app.theme.gap + app.theme.type.line("label")
    assert foot <= app.box.bottom


def test_it_tells_how_far_it_is_and_promises_no_time_it_cannot_keep():
    app = asking()
    poll, app.worker.poll = app.worker.poll, list
    for _ in range(125):
        app.frame([], 1.0)
    screen = app.screen
    assert screen.words == "0 of 2 steps done, 2 min 05 s so far."
    screen.done = 1
    assert screen.words.startswith("1 of 2 steps done")
    assert screen.listed == ("first: done", "second: now")
    assert "slow computer" in FIRST
    assert "about a minute" not in FIRST
    app.worker.poll = poll


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800), (1920, 1080)])
def test_the_page_is_not_empty_after_begin_while_steps_are_left(size):
    app = App.headless(size, Settings(), partial(Prepare, steps=STEPS, asks=True))
    app.worker.poll = list
    app.frame([], 0.1)
    app.frame([key(pygame.K_RETURN)], 0.1)
    app.frame([], 0.1)
    screen = app.screen
    assert screen.widgets == ()
    assert screen._lists
    assert OPENS in " ".join(screen._said(app.theme, screen._rail.w))
    ink = pygame.surfarray.array3d(app.surface).astype(int)
    paper = np.array(app.theme.palette.paper)
    rows = (np.abs(ink - paper).sum(axis=2) > 60).any(axis=0)
    used = np.flatnonzero(rows[: round(app._foot.y)])
    assert used[-1] - used[0] > 0.18 * size[1]  # title, words, bar and steps


def test_kept_laws_are_told_to_be_loaded_and_new_ones_to_be_made():
    screen = asking().screen
    for screen.first, told in ((True, "made ready"), (False, "being loaded")):
        assert told in " ".join(screen._said(screen.app.theme, 4000.0))
