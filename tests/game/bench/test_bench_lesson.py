"""A lesson on the Bench: A and B stop at impact, run to rest, and the Bench's own comes back."""

from dataclasses import replace
from itertools import combinations
from math import radians

import pygame
import pytest

from game.app.frame import App
from game.bench.lesson import LEAVE_FIRST, NO_PLAYER, STOPPED
from game.bench.screen import Bench
from game.draw.camera import Rect
from game.draw.lesson import impact_words
from game.library.settings import Settings
from game.text.lesson import COUNTING, TITLES
from game.ui import TextBlock
from physics.results import TurfAction
from tests.ui_events import key

L, ESCAPE = key(pygame.K_l, 0, "l"), key(pygame.K_ESCAPE)
SPACE = key(pygame.K_SPACE, 0, " ")


def bench(size: tuple[int, int] = (1280, 800), **settings: object) -> tuple[App, Bench]:
    app = App.headless(size, Settings(**settings), "Bench")  # type: ignore[arg-type]
    assert isinstance(app.screen, Bench)
    app.frame([], 0.016)
    return app, app.screen


def until_impact(app: App, screen: Bench) -> None:
    for _ in range(3000):
        if screen.stopped:
            return
        app.frame([], 0.05)
    raise AssertionError("it never stopped at impact")


def test_l_shows_two_strokes_stopped_at_impact_then_to_rest() -> None:
    app, screen = bench()
    app.frame([L], 0.016)
    assert screen.in_lesson
    first, second = screen.state.kept_shot, screen.state.shot
    assert first
    assert second
    assert first.strike.turf is not TurfAction.DIG
    assert second.strike.turf is TurfAction.DIG
    until_impact(app, screen)
    before = pygame.surfarray.array3d(app.surface).copy()
    assert screen.moving
    for _ in range(round(STOPPED / 0.05) + 2):
        app.frame([], 0.05)
    assert not screen.stopped
    assert (pygame.surfarray.array3d(app.surface) != before).any()
    for _ in range(2000):
        app.frame([], 0.05)
        if screen.ribbon.at_end:
            break
    assert screen.ribbon.at_end
    words = " ".join(shares for _, shares, _ in screen.case_words())
    assert screen.lesson
    assert screen.lesson.cases[0].solid
    assert f"{screen.lesson.cases[0].solid.of_100} of 100 solid" in words
    assert len(screen.lesson.table) == 8


def test_strokes_are_said_to_be_played_only_while_they_are() -> None:
    app, screen = bench()
    poll, app.worker.poll = app.worker.poll, list  # type: ignore[method-assign]
    app.frame([L], 0.016)
    assert app.toast.sentence == f"{TITLES['lean']}: the strokes are being played."
    app.worker.poll = poll  # type: ignore[method-assign]
    app.frame([], 0.016)
    assert screen.in_lesson
    assert app.toast.sentence == ""


@pytest.mark.parametrize("leave", [L, ESCAPE])
@pytest.mark.parametrize("played", [False, True])
def test_the_benchs_own_comes_back_untouched(leave: pygame.event.Event, played: bool) -> None:
    app, screen = bench(reduced_motion=True)
    screen.set_control("shaft_lean", radians(8))
    screen.lie_on("tight")
    if played:
        app.frame([SPACE], 0.016)
    for _ in range(3):
        app.frame([], 0.016)
    app.toast.hide()
    own, time, address = screen.state, screen.ribbon.time, screen.at_address
    app.frame([], 0.0)
    app.toast.hide()
    app.frame([], 0.0)
    picture = pygame.surfarray.array3d(app.surface).copy()
    app.frame([L], 0.016)
    assert screen.in_lesson
    assert screen.state != own
    for _ in range(5):
        app.frame([], 0.05)
    app.frame([leave], 0.016)
    app.toast.hide()
    app.frame([], 0.0)
    assert not screen.in_lesson
    assert screen.state == own
    assert (screen.ribbon.time, screen.at_address) == (time, address)
    box = pygame.Rect(0, 40, 940, 400)  # course
    now = pygame.surfarray.array3d(app.surface)
    same = now[box.x : box.right, box.y : box.bottom] == picture[box.x : box.right, box.y : box.bottom]
    assert same.all()


def test_space_goes_on_at_once_and_shows_it_again_from_rest() -> None:
    app, screen = bench(reduced_motion=True)
    app.frame([L], 0.016)
    assert screen.stopped  # nothing moves: the heads stand at impact until asked
    app.frame([], 10.0)
    assert screen.stopped
    app.frame([SPACE], 0.016)
    assert screen.ribbon.at_end
    app.frame([SPACE], 0.016)
    assert screen.stopped


def test_keys_that_would_change_the_set_up_say_how_to_leave() -> None:
    app, screen = bench(reduced_motion=True)
    app.frame([L], 0.016)
    state = screen.state
    for code in (pygame.K_s, pygame.K_c, pygame.K_x, pygame.K_w, pygame.K_r, pygame.K_n):
        screen.handle(key(code))
        assert screen.state == state
    assert app.toast.sentence == LEAVE_FIRST


def test_another_lesson_from_within_keeps_the_first_own() -> None:
    app, screen = bench(reduced_motion=True)
    own = screen.state
    app.frame([L], 0.016)
    screen.learn("bounce")
    app.frame([], 0.016)
    assert screen.lesson
    assert screen.lesson.name == "bounce"
    app.frame([ESCAPE], 0.016)
    assert screen.state == own


def test_a_machine_has_no_lesson() -> None:
    app, screen = bench()
    screen.change(replace(screen.state, player="exact"))
    app.frame([L], 0.016)
    assert not screen.in_lesson
    assert app.toast.sentence == NO_PLAYER


def test_a_junior_reads_no_numbers() -> None:
    app, screen = bench(detail="junior", reduced_motion=True)
    app.frame([L], 0.016)
    cases = [words for did, shares, _ in screen.case_words() for words in (did, shares)]
    said = " ".join((*cases, *screen.lesson_words()))
    assert not any(c.isdigit() for c in said)
    shot = screen.state.shot
    assert shot
    words = impact_words(app.theme.type, Rect(0, 0, 400, 250), shot, numbers=False)
    assert [w.text for w in words] == ["bounce", "lean"]


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800), (1920, 1080)])
@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_parts_stand_apart_in_a_lesson(size: tuple[int, int], scale: float) -> None:
    app, screen = bench(size, text_scale=scale, reduced_motion=True)
    app.frame([L], 0.016)
    at = screen.places
    assert at.second
    boxes = [at.turf, at.second[1], screen.ribbon.rect]
    for a, b in combinations(boxes, 2):
        assert not a.inset(0.6).overlaps(b.inset(0.6))
    for rect, shot in zip((at.turf, at.second[1]), (screen.state.kept_shot, screen.state.shot), strict=True):
        assert shot
        own = Rect(0, 0, rect.w, rect.h)
        words = impact_words(app.theme.type, own, shot, numbers=True)
        assert all(own.holds(word.box) for word in words)
        assert not words[0].box.overlaps(words[1].box)


@pytest.mark.parametrize(("detail", "scale"), [("player", 1.0), ("junior", 2.0)])
def test_nothing_jumps_while_the_lies_are_counted(detail: str, scale: float) -> None:
    app, screen = bench((1024, 640), detail=detail, text_scale=scale, reduced_motion=True)
    thinks, poll = app.worker, app.worker.poll
    thinks.poll = lambda: []  # type: ignore[method-assign]
    app.frame([L], 0.016)

    def part() -> None:
        """Let the worker do one part and tell of it."""
        step, thinks.step = thinks.step, lambda: False  # type: ignore[method-assign]
        step()
        poll()
        thinks.step = step  # type: ignore[method-assign]
        app.frame([], 0.016)

    def places() -> list[tuple[float, float]]:
        """Where every block stands, but the last, which grows."""
        columns = [screen.parts.words, screen.parts.words_a, screen.parts.controls]
        blocks = [w for column in columns for w in column.items if isinstance(w, TextBlock)]
        return [(w.rect.y, w.rect.h) for w in blocks[: -len(screen.lesson_words()[2:])]]

    while not screen.in_lesson:
        part()
    assert screen.lesson
    assert screen.case_words()[0][1] == COUNTING
    before, told = places(), len(screen.lesson_words())
    assert told == 3
    while not screen.lesson.whole:
        part()
        assert places() == before
        assert screen.lesson.whole or len(screen.lesson_words()) == told
    assert screen.case_words()[0][1] != COUNTING
