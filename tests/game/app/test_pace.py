"""Frames come while something moves or has just happened, and not otherwise."""

from math import inf

import pygame

from game.app.frame import App
from game.app.pace import AWAKE, AWAY, FRAME, LONGEST, Pace
from game.ui.toast import Toast


def rested() -> Pace:
    pace = Pace()
    pace.pass_time(2.0 * AWAKE)
    return pace


def test_frames_follow_each_other_while_something_moves_or_has_just_happened() -> None:
    assert Pace().wait(False, inf) == 0.0
    assert rested().wait(True, inf) == 0.0
    pace = rested()
    pace.stir()
    pace.pass_time(0.9 * AWAKE)
    assert pace.wait(False, inf) == 0.0


def test_a_window_at_rest_waits_until_words_are_to_go() -> None:
    assert rested().wait(False, inf) == LONGEST
    assert rested().wait(False, 3.0) == 3.0
    assert rested().wait(False, 0.0) == FRAME


def test_a_hidden_window_looks_seldom_even_while_a_shot_runs() -> None:
    pace = Pace(hidden=True)
    assert pace.wait(False, 1.0) == LONGEST
    assert pace.wait(True, 1.0) == pace.step == AWAY > FRAME


def test_a_sentence_says_when_it_goes() -> None:
    toast = Toast()
    assert toast.due == inf
    toast.say("Ready.")
    before = toast.due
    toast.update(1.0)
    assert toast.due == before - 1.0


def test_a_frame_says_whether_anything_happened_and_draws_only_what_is_seen() -> None:
    app = App.headless(screen="Settings")
    app.frame([], 0.016)
    app.surface.fill((1, 2, 3))
    assert app.frame([], 0.016, seen=False) is False
    assert app.surface.get_at((5, 5))[:3] == (1, 2, 3)
    assert app.frame(
        [pygame.event.Event(pygame.MOUSEMOTION, pos=(9, 9), rel=(0, 0), buttons=(0, 0, 0))], 0.016
    )
    assert app.surface.get_at((5, 5))[:3] != (1, 2, 3)


def test_a_surface_that_grew_by_itself_is_laid_out_anew() -> None:
    app = App.headless((1024, 640), screen="Settings")
    assert app.box.w == 1024
    app.surface = pygame.Surface((1400, 900), 0, 32)
    app.frame([], 0.016)
    assert (app.box.w, app.surface.get_size()) == (1400, (1400, 900))
