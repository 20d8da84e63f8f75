from dataclasses import replace
from math import radians

import pytest

from game.bench.model import (
    GROUNDS,
    Setting,
    State,
    differences,
    is_poor,
    level_course,
    shown_control,
)
from physics.address import CONTROLS
from physics.shot import play
from physics.surfaces import SURFACES
from tests.game.shot_view.shots import chip, leaning, over


def test_a_control_is_held_to_its_limits_and_the_old_state_stays():
    first = State()
    second = first.set("shaft_lean", radians(90)).set("depth", -1.0)
    assert second.now.setup.shaft_lean == CONTROLS["shaft_lean"].high
    assert second.now.motion.depth == CONTROLS["depth"].low
    assert first == State()
    assert second.changed


def test_a_played_shot_leaves_the_one_before_as_ghost_and_takes_the_next_stroke():
    state = State().set("lean_change", radians(9)).played(chip())
    assert (state.shot, state.ghost, state.seed) == (chip(), None, 1)
    assert not state.changed
    state = state.played(leaning())
    assert (state.shot, state.ghost, state.seed) == (leaning(), chip(), 2)


def test_a_depth_the_player_set_stays_on_other_ground_and_the_standard_setting_forgets_it():
    state = State().set("depth", 0.004).keep().on("sand")
    assert state.now.motion.depth == state.kept.motion.depth == 0.004
    assert state.swap().on("soft").now.motion.depth == 0.004
    plain = state.take(state.standard)
    assert plain.now.motion.depth == SURFACES["sand"].usual_depth
    assert plain.on("tight").now.motion.depth == SURFACES["tight"].usual_depth
    other = State().take(Setting().with_club("LW")).on("sand")
    assert other.now.motion.depth == SURFACES["sand"].usual_depth
    with pytest.raises(KeyError):
        state.on("carpet")


def test_other_ground_puts_the_shots_away_and_sets_its_usual_depth():
    state = State().played(chip()).played(leaning())
    moved = state.on("rough")
    assert (moved.shot, moved.ghost) == (None, None)
    assert moved.now == moved.settled.with_value("depth", SURFACES["rough"].usual_depth)
    assert moved.now.setup == state.now.setup
    assert moved.now == moved.standard
    assert state.on("fairway") is state
    with pytest.raises(KeyError):
        state.on("carpet")


@pytest.mark.parametrize("ground", GROUNDS)
def test_every_ground_can_be_played_from(ground):
    state = State().on(ground)
    shot = play(state.course, state.now.setup, state.now.motion)
    assert shot.course.ground.surfaces[0] == ground
    assert state.now.motion.depth == SURFACES[ground].usual_depth
    assert state.keep().on("mat").kept.motion.depth == SURFACES["mat"].usual_depth


def test_a_is_kept_whatever_is_changed_and_swap_exchanges():
    state = State().keep().set("shaft_lean", radians(12))
    assert state.comparing
    assert state.kept == Setting()
    assert "shaft lean 12°, not 5°" in differences(state.kept, state.now)
    other = state.swap()
    assert (other.now, other.kept) == (state.kept, state.now)
    anew = state.keep()
    assert anew.kept == anew.now
    assert "Set as A" in differences(anew.kept, anew.now)
    assert not state.stop_comparing().comparing
    assert state.stop_comparing().now == state.now
    assert State().swap() == State()


def test_swapped_shots_change_places_too():
    state = State().keep().played(chip(), leaning()).swap()
    assert (state.shot, state.kept_shot) == (leaning(), chip())


def test_the_club_is_a_difference_too():
    a, b = Setting(), Setting().with_club("7i")
    assert "the 7-iron, not the sand wedge 56/10" in differences(a, b)


def test_a_bad_strike_and_a_long_leave_are_poor():
    shot = chip()
    assert not is_poor(shot)
    assert is_poor(over())
    assert is_poor(replace(shot, run=replace(shot.run, rest=shot.course.hole.x + 1.5)))
    assert not is_poor(replace(shot, run=replace(shot.run, rest=shot.course.hole.x + 0.6)))


def test_controls_are_shown_with_their_unit():
    assert shown_control("ball_position", -0.02) == "\N{MINUS SIGN}2.0 cm"
    assert shown_control("release", 1.0) == "1.00"
    assert shown_control("depth", -0.0001) == "0 mm"


def test_the_green_is_level_and_the_hole_where_it_is_asked():
    course = level_course("rough", 12.0)
    assert course.hole.x == 12.0
    assert set(course.ground.y) == {0.0}
    assert course.ground.surfaces[-1] == "green"
