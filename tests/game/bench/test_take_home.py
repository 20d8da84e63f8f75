"""Taken home from the Bench: whole files, named in the toast, and no trace of a stopped one."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pygame
import pytest

from game.app.frame import App
from game.bench import shot_on_bench
from game.bench.screen import Bench
from game.handout import places
from game.library.settings import Settings
from game.shot_view.session import shown_with_spray
from game.text.clip import Film, OneShot
from game.text.recap import Recap
from physics.address import Motion, Setup
from physics.course import level_course
from physics.shot import play
from physics.spread import PLAYERS
from tests.ui_events import key

P, K = key(pygame.K_p, 0, "p"), key(pygame.K_k, 0, "k")
L, ESCAPE = key(pygame.K_l, 0, "l"), key(pygame.K_ESCAPE)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(places, "user_pictures_path", lambda: tmp_path / "pictures")
    return tmp_path / "pictures"


def bench(**settings: object) -> tuple[App, Bench]:
    app = App.headless((1280, 800), Settings(**settings), "Bench")  # type: ignore[arg-type]
    assert isinstance(app.screen, Bench)
    app.frame([], 0.016)
    return app, app.screen


def test_p_writes_page_and_picture_and_names_them(folder: Path) -> None:
    app, screen = bench()
    app.frame([P], 0.016)
    files = sorted(folder.iterdir())
    assert [file.suffix for file in files] == [".pdf", ".png"]
    assert files[0].read_bytes().startswith(b"%PDF")
    assert all(str(file) in app.toast.sentence for file in files)
    assert not screen.take_home.making
    app.frame([P], 0.016)
    assert len(list(folder.iterdir())) == 4


def test_p_works_in_a_lesson_with_its_own_shots(folder: Path) -> None:
    app, screen = bench()
    app.frame([L], 0.016)
    assert screen.in_lesson
    app.frame([P], 0.016)
    assert len(list(folder.iterdir())) == 2
    assert screen.in_lesson


def test_a_clip_stopped_between_two_frames_leaves_no_file(folder: Path) -> None:
    app, screen = bench()
    app.handle(K)
    for _ in range(12):
        app.worker.step()
    app.handle(ESCAPE)
    app.frame([], 0.016)
    assert not screen.take_home.making
    assert "nothing was written" in app.toast.sentence
    assert list(folder.iterdir()) == []


def test_a_machine_makes_no_mistakes_to_show(folder: Path) -> None:
    app, screen = bench()
    screen.change(replace(screen.state, player="exact"))
    app.frame([P], 0.016)
    assert not folder.exists()


def test_after_why_the_page_is_of_what_was_found_and_of_who_plays(folder: Path) -> None:
    app, screen = bench()
    app.change(player=app.book.add_player("Robin"))
    screen.change(replace(screen.state, player="club"))
    screen.set_control("ball_position", 0.06)
    screen.play()
    app.frame([], 0.016)
    screen.why()
    app.frame([], 0.016)
    repair = screen.asked_why.repair
    assert repair is not None
    make = screen.take_home._maker(date(2026, 11, 27))
    assert make is not None
    made = make(False)
    now = screen.state.now
    mended = now.with_value(repair.control, repair.best)
    assert (made.first.shot.setup, made.first.shot.motion) == (mended.setup, mended.motion)
    assert (made.second.shot.setup, made.second.shot.motion) == (now.setup, now.motion)
    assert made.pupil == "Robin"
    assert made.title.startswith(f"{repair.label.capitalize()}: ")


def clipped(app: App, monkeypatch: pytest.MonkeyPatch) -> list[Film]:
    """What K would clip now; no frame is drawn."""
    films: list[Film] = []

    def made(film: Film, file: Path) -> Iterator[float]:
        films.append(film)
        yield 1.0

    monkeypatch.setattr("game.bench.take_home.clip_in_parts", made)
    app.frame([K], 0.016)
    app.frame([], 0.016)
    return films


def test_k_clips_the_one_shot_on_show(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    app, screen = bench()
    screen.change(replace(screen.state, player="exact"))
    screen.play()
    app.frame([], 0.016)
    assert clipped(app, monkeypatch) == [OneShot(screen.state.shot)]
    assert app.toast.sentence.startswith("Written: ")


def test_k_clips_a_shot_out_of_the_notebook_and_both_where_two_are_shown(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    app, screen = bench()
    kept = play(level_course("rough", 6.0), Setup(), Motion(), PLAYERS["steady"], 3)
    app.push(shot_on_bench(app, shown_with_spray(kept)))
    assert clipped(app, monkeypatch) == [OneShot(kept)]
    app.pop()
    screen.play()
    app.frame([], 0.016)
    screen.compare()
    (film,) = clipped(app, monkeypatch)
    assert isinstance(film, Recap)
