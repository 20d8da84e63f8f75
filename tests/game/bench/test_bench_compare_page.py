"""The page of a comparison: nothing moves away under a pointer, and all that is told of both is in sight."""

from math import radians

import pytest

from game.app.frame import App
from game.bench.screen import Bench
from game.library.settings import Settings
from game.ui.widget import walk


@pytest.mark.parametrize("detail", ["player", "coach"])
@pytest.mark.parametrize("size", [(1280, 800), (1024, 640), (1920, 1080)])
def test_keeping_a_set_up_as_a_moves_no_control(size, detail):
    app = App.headless(size, Settings(detail=detail), Bench)
    app.frame([], 0.016)
    bench = app.screen

    def places():
        return {w.label: w.rect for w in walk([bench.parts.controls]) if w.focusable and w.label}

    before = places()
    bench.compare()
    app.frame([], 0.016)
    after = places()
    assert bench.parts.compare.label not in after
    before[bench.parts.stop.label] = before.pop(bench.parts.compare.label)  # the way out stands in its place
    assert {name: after[name] for name in before} == before


@pytest.mark.parametrize("beside", [True, False])
def test_what_is_told_of_both_fits_without_scrolling_at_the_usual_size(beside):
    app = App.headless((1280, 800), Settings(reduced_motion=True), Bench)
    app.frame([], 0.016)
    bench = app.screen
    bench.compare()
    bench.set_control("lean_change", radians(9))
    app.frame([], 0.016)
    bench.play()
    for _ in range(10):
        app.frame([], 0.016)
    if not beside:
        bench.toggle_beside()
        app.frame([], 0.016)
    assert bench.said.text
    assert bench.parts.cost.label
    assert not bench.parts.words.overflow
    assert not bench.parts.words_a.overflow


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800)])
@pytest.mark.parametrize("ground", ["fairway", "rough"])
def test_the_whole_story_of_a_and_of_b_is_in_sight_in_a_small_window_too(size, ground):
    app = App.headless(size, Settings(reduced_motion=True), Bench)
    bench = app.screen
    bench.lie_on(ground)
    bench.compare()
    bench.set_control("lean_change", radians(9))
    for _ in range(2):
        bench.play()
        for _ in range(4):
            app.frame([], 0.016)
        for said, column, letter in (
            (bench.said_a, bench.parts.words_a, bench.parts.of_a),
            (bench.said, bench.parts.words, bench.parts.of_b),
        ):
            assert said.text
            assert letter.label.endswith("of 100 solid")
            assert column.rect.y <= letter.rect.y
            assert said.rect.bottom <= column.rect.bottom + 1.0, said.text
