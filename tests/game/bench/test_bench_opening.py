"""The guided first minute: on every lie what is named next, tried, does what was promised."""

from dataclasses import replace
from math import degrees, radians

import pygame
import pytest

from game.app.first_start import Prepare
from game.app.frame import App
from game.bench.model import GROUNDS, State
from game.bench.opening import next_dig
from game.bench.screen import Bench
from game.library.settings import Settings
from game.text.opening import GUIDE_END
from game.ui.widget import walk
from levels.opening import LEAN, NextMove, dug_in
from physics.shot import play
from tests.ui_events import key

SPACE, ESCAPE, L = key(pygame.K_SPACE, 0, " "), key(pygame.K_ESCAPE), key(pygame.K_l, 0, "l")
RIGHT, LEFT = key(pygame.K_RIGHT), key(pygame.K_LEFT)


def begun(ground: str = "fairway", **settings) -> tuple[App, Bench]:
    """The pupil's turn on a lie: the lesson was watched to its end."""
    app = App.headless((1280, 800), Settings(reduced_motion=True, **settings), "Bench")
    screen = app.screen
    assert isinstance(screen, Bench)
    screen.lie_on(ground)
    screen.welcome()
    app.frame([], 0.016)
    assert screen.in_lesson
    app.frame([SPACE], 0.016)  # from impact to rest
    app.frame([SPACE], 0.016)  # your turn
    app.frame([], 0.016)
    assert not screen.in_lesson
    return app, screen


def follow(app: App, screen: Bench) -> NextMove:
    """Do what the guide names with the arrow keys, on the control it has put the focus on, and play."""
    thing = screen.thing
    assert thing
    assert app.focus.widget is screen._named
    if thing.asked is NextMove.LIE:
        for _ in GROUNDS:
            if screen.state.ground != thing.lie:
                assert app.focus.widget is screen.parts.ground  # nobody takes it away on the way there
                app.frame([LEFT if GROUNDS.index(thing.lie) < screen.parts.ground.index else RIGHT], 0.016)
        assert screen.state.ground == thing.lie
        app.frame([], 0.016)
        return thing.asked
    for _ in range(40):
        if not screen.ready:
            app.frame([RIGHT if screen.state.now.value(LEAN) < thing.value else LEFT], 0.016)
    assert screen.ready
    assert screen._named is screen.parts.go
    app.frame([SPACE], 0.016)
    app.frame([], 0.016)
    return thing.asked


@pytest.mark.parametrize(
    ("ground", "detail"), [*((g, "junior") for g in GROUNDS), ("mat", "player"), ("wet_sand", "coach")]
)
def test_on_every_lie_the_named_next_thing_does_what_was_promised(ground, detail):
    app, screen = begun(ground, detail=detail)
    dug, turns = False, []
    for _ in range(6):
        if screen.stage == "end":
            break
        assert screen.thing, screen.guide_words
        if detail == "junior":
            assert not any(c.isdigit() for c in screen.guide_words)
            for sentence in screen.guide_words.split(". "):
                assert len(sentence.split()) <= 12, sentence
        seed, promised = screen.state.seed, screen.thing
        turns.append(follow(app, screen))
        shot = screen.state.shot
        if promised.asked is NextMove.LIE:
            assert screen.state.seed == seed
            assert promised.now
            assert screen.thing
            assert screen.thing.asked is NextMove.ADD
        elif promised.asked is NextMove.ADD:
            dug = True
            assert dug_in(shot)
        elif promised.asked is NextMove.MEND:
            assert shot.strike.solid
    assert dug
    assert screen.stage == "end", turns
    assert screen.guide_words.endswith(GUIDE_END)


def test_more_lean_than_named_digs_too():
    state = State()
    least = round(degrees(next_dig(state).value))
    for lean in range(least, 16):
        now = state.now.with_value(LEAN, radians(lean))
        assert dug_in(play(state.course, now.setup, now.motion, state.spread, state.seed)), lean
    less = state.now.with_value(LEAN, radians(least - 1))
    assert not dug_in(play(state.course, less.setup, less.motion, state.spread, state.seed))


@pytest.mark.parametrize("when", ["lesson", "turn", "played"])
def test_one_key_skips_it_at_any_time_and_leaves_the_bench_as_it_was(when):
    app = App.headless((1280, 800), Settings(reduced_motion=True), "Bench")
    screen = app.screen
    app.frame([], 0.016)
    own = screen.state
    screen.welcome()
    app.frame([], 0.016)
    if when != "lesson":
        app.frame([SPACE], 0.016)
        app.frame([SPACE], 0.016)
    if when == "played":
        follow(app, screen)
        own = screen.state
    app.frame([ESCAPE], 0.016)
    assert not screen.guided
    assert not screen.in_lesson
    assert screen.state == own
    assert screen.guide_words == ""


def test_what_is_played_instead_is_told_and_the_next_thing_is_named():
    app, screen = begun()
    app.frame([SPACE], 0.016)  # as it stands, nothing moved
    app.frame([], 0.016)
    assert screen.state.shot.strike.solid
    assert "came off" in screen.guide_words
    assert screen.thing.asked is NextMove.ADD


def test_another_player_or_club_is_worked_out_anew_and_a_machine_ends_it():
    app, screen = begun()
    screen.change(replace(screen.state, player="beginner"))
    app.frame([], 0.016)
    assert screen.thing or screen.stage == "end"
    screen.change(replace(screen.state, player="exact"))
    app.frame([], 0.016)
    assert not screen.guided


def test_the_guide_opens_on_the_first_start_only():
    for asks in (True, False):
        app = App.headless(
            (1280, 800), Settings(reduced_motion=True), lambda a, asks=asks: Prepare(a, (), asks)
        )
        for _ in range(3):
            app.frame([key(pygame.K_RETURN)] if isinstance(app.screen, Prepare) else [], 0.016)
        app.frame([], 0.016)
        assert isinstance(app.screen, Bench)
        assert app.screen.guided is asks


@pytest.mark.parametrize("detail", ["junior", "coach"])
def test_with_large_text_the_control_that_is_next_and_the_words_are_both_in_sight(detail):
    _, screen = begun(detail=detail, text_scale=2.0)
    guide, named = screen.parts.guide, screen._named
    assert screen.tight
    for widget in (guide, named):
        assert screen.parts.controls.rect.y <= widget.rect.y
        assert widget.rect.bottom <= screen.parts.controls.rect.bottom + 1


def test_with_large_text_the_named_control_is_at_hand_after_a_shot_too():
    app = App.headless((1024, 640), Settings(detail="junior", text_scale=2.0, reduced_motion=True), "Bench")
    screen = app.screen
    screen.welcome()
    for _ in range(4):  # to rest, one's turn, and a stroke with nothing moved
        app.frame([SPACE], 0.016)
        app.frame([], 0.016)
    assert screen.state.shot
    assert screen.tight
    assert screen.thing
    assert app.focus.widget is screen._named
    assert screen._named in list(walk(screen.widgets))
    column = screen.parts.controls.rect
    assert column.y <= screen._named.rect.y
    assert screen._named.rect.bottom <= column.bottom
    follow(app, screen)
    assert screen.stage in ("try", "end")
