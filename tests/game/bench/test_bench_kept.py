"""The Bench keeps its set-up between starts, and a scenario can be opened on it."""

import json
from dataclasses import replace
from math import degrees, radians

import pygame
import pytest

from game.app.frame import App
from game.bench.screen import Bench
from game.library.bench_setup import FILE
from game.library.settings import Settings
from game.play.round import Step, begin
from game.play.screen import Play
from levels.files import load_library
from tests.ui_events import key


def started(home) -> Bench:
    app = App.headless((1280, 800), Settings(reduced_motion=True), "Bench", home)
    assert isinstance(app.screen, Bench)
    return app.screen


def test_the_set_up_comes_back_and_a_lesson_on_show_is_not_it(tmp_path):
    first = started(tmp_path)
    first.set_control("lean_change", radians(7))
    first.change(first.state.take(first.state.now.with_club("7i")))
    first.lie_on("tight")
    first.change(replace(first.state, player="club"))
    own = first.state
    first.learn("lean")
    first.app.frame([], 0.016)
    assert first.in_lesson
    first.app.close()
    second = started(tmp_path)
    assert (second.state.now, second.state.ground, second.state.player) == (own.now, "tight", "club")
    assert second.parts.ground.index == 1
    assert second.panel.sliders["lean_change"].value == pytest.approx(7.0)


def test_an_odd_entry_costs_only_itself(tmp_path):
    first = started(tmp_path)
    first.set_control("lean_change", radians(7))
    first.lie_on("mat")
    first.app.close()
    file = tmp_path / FILE.name
    kept = json.loads(file.read_text())
    kept["entries"] |= {"swing_length": 99.0, "player": 3, "colour": "red"}
    file.write_text(json.dumps(kept))
    second = started(tmp_path)
    assert second.state.ground == "mat"
    assert degrees(second.state.now.motion.lean_change) == pytest.approx(7.0)
    assert second.state.player == "steady"
    assert "odd" in second.app.toast.sentence
    file.write_text("{")
    assert started(tmp_path).state.ground == "fairway"


def test_two_windows_lose_nothing(tmp_path):
    one, two = started(tmp_path), started(tmp_path)
    one.set_control("lean_change", radians(7))
    two.set_control("shaft_lean", radians(2))
    one.app.close()
    two.app.close()
    now = started(tmp_path).state.now
    assert degrees(now.motion.lean_change) == pytest.approx(7.0)
    assert degrees(now.setup.shaft_lean) == pytest.approx(2.0)


def test_a_scenario_opens_on_the_bench_and_play_comes_back_as_it_was(tmp_path):
    scenario = load_library("harrow-fen-sheepfold-wall")
    app = App.headless((1280, 800), Settings(reduced_motion=True), None, tmp_path)
    app.frame([], 0.016)
    play = Play(app, begin("x", scenario))
    app.push(play)
    while play.r.step is not Step.SET:
        play.go()
    name = scenario.open_controls[0]
    play.set(name, 0.0)
    app.frame([], 0.016)
    left = play.r
    play.handle(key(pygame.K_o, 0, "o"))
    bench = app.screen
    assert isinstance(bench, Bench)
    assert bench.state.course == scenario.course()
    assert (bench.state.now.setup, bench.state.now.motion) == (left.setup, left.motion)
    assert bench.state.player == scenario.player
    for _ in range(3):
        app.frame([key(pygame.K_SPACE, 0, " ")], 0.016)
    assert bench.state.shot.course == scenario.course()
    app.toast.hide()
    app.frame([key(pygame.K_ESCAPE)], 0.016)
    assert app.screen is play
    assert play.r == left
    app.close()
