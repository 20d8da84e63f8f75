"""Left-handed and reduced motion reach every picture of every screen that shows a golfer or a ball."""

import pygame
import pytest
from ui_events import key

from game.app.frame import App
from game.bench.screen import Bench
from game.ladder.screen import LadderScreen
from game.library.settings import Settings
from game.play.round import begin
from game.play.screen import Play
from levels.files import load_library

BOTH = [(False, False), (True, True), (True, False), (False, True)]


def opened(screen, left: bool, still: bool) -> App:
    app = App.headless((1280, 800), Settings(left_handed=left, reduced_motion=still), screen)
    for _ in range(4):
        app.frame([], 0.016)
    return app


@pytest.mark.parametrize(("left", "still"), BOTH)
def test_the_bench_hands_them_on(left: bool, still: bool) -> None:
    app = opened("Bench", left, still)
    screen = app.screen
    assert isinstance(screen, Bench)
    stages, golfer = screen.pictures.stages, screen.pictures.golfer
    assert [(s.left_handed, s.still) for s in stages] == [(left, still)] * 2
    assert (golfer.mirrored, golfer.still) == (left, still)


def test_a_lesson_on_the_bench_keeps_them() -> None:
    app = opened("Bench", True, True)
    app.frame([key(pygame.K_l, 0, "l")], 0.016)
    for _ in range(6):
        app.frame([], 0.016)
    pictures = app.screen.pictures
    assert app.screen.in_lesson
    assert all(s.left_handed and s.still for s in pictures.stages)
    assert pictures.golfer.mirrored
    assert pictures.golfer.still
    assert all(t.still for t in pictures.turfs)


@pytest.mark.parametrize(("left", "still"), BOTH)
def test_play_hands_them_on(left: bool, still: bool) -> None:
    r = begin("one", load_library("harrow-fen-plain-chip"))
    app = opened(lambda host: Play(host, r), left, still)
    picture = app.screen.picture
    assert (picture.stage.left_handed, picture.stage.still) == (left, still)
    assert (picture.turf.still, picture.golfer.still) == (still, still)


@pytest.mark.parametrize(("left", "still"), BOTH)
def test_the_ladder_hands_them_on(left: bool, still: bool) -> None:
    screen = opened("Ladder", left, still).screen
    assert isinstance(screen, LadderScreen)
    assert (screen.row().mirrored, screen.row().still) == (left, still)
