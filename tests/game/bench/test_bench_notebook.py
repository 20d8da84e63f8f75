"""Strokes of the Bench go into the notebook; demonstrations do not."""

from dataclasses import replace
from pathlib import Path

from game.app.frame import App
from game.bench.screen import Bench
from game.library.notebook.pages import history
from game.library.notebook.store import Notebook
from game.library.settings import Settings
from levels.attempts import replayed


def started(home: Path) -> Bench:
    app = App.headless((1280, 800), Settings(reduced_motion=True), "Bench", home)
    assert isinstance(app.screen, Bench)
    return app.screen


def test_a_stroke_is_written_down_but_one_without_spread_is_a_demonstration(tmp_path: Path) -> None:
    bench = started(tmp_path)
    shots = []
    for player in ("exact", "club"):
        bench.change(replace(bench.state, player=player))
        bench.play()
        bench.app.frame([], 0.016)
        shots.append(bench.state.shot)
    with Notebook(tmp_path) as book:
        (one,) = history(book, "Player 1")
    assert replayed(one) == shots[1]
    assert (one.task.name, one.part) == ("", "")


def test_the_lesson_is_nobodys_practice(tmp_path: Path) -> None:
    bench = started(tmp_path)
    bench.learn("lean")
    for _ in range(3):
        bench.app.frame([], 0.016)
    assert bench.in_lesson
    with Notebook(tmp_path) as book:
        assert history(book, "Player 1") == ()


def test_a_notebook_that_cannot_be_written_is_told_and_the_shot_is_shown(tmp_path: Path) -> None:
    (tmp_path / "notebook.db").write_bytes(b"SQLite format 3\0" + b"\xff" * 4096)
    bench = started(tmp_path)
    assert "damaged" in bench.app.toast.sentence
    bench.change(replace(bench.state, player="club"))
    bench.play()
    bench.app.frame([], 0.016)
    assert bench.state.shot is not None
    assert len(bench.app.book.held) == 1
