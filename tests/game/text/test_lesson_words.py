"""A lesson's sentences say what its balls do, whatever that is."""

from dataclasses import replace

import pytest

from game.text.lesson import did_words, stop_words
from levels.lessons import lesson_in_parts
from physics.address import Motion, Setup
from physics.course import level_course
from physics.results import Outcome
from physics.spread import PLAYERS
from physics.surfaces import SURFACES


@pytest.mark.parametrize("lie", ["fairway", "tight", "wet_sand"])
def test_a_ball_that_goes_beyond_its_loft_keeps_no_more_than_all(lie: str) -> None:
    motion = Motion(depth=SURFACES[lie].usual_depth)
    made = next(lesson_in_parts("lean", level_course(lie, 8.0), Setup(), motion, PLAYERS["club"]))
    for case in made.cases:
        verb = "goes" if case.kept > 1.0 else "keeps"
        assert f"the ball {verb} {100.0 * case.kept:.0f} % of the distance its loft gives" in did_words(case)


@pytest.mark.parametrize("outcome", [one for one in Outcome if one is not Outcome.REST])
def test_however_it_ends_it_is_something_a_ball_does(outcome: Outcome) -> None:
    made = next(lesson_in_parts("lean", level_course("tight", 8.0), Setup(), Motion(), PLAYERS["club"]))
    shot = made.cases[0].shot
    told = stop_words(replace(shot, run=replace(shot.run, outcome=outcome)))
    assert told.split()[0] in ("drops", "ends", "stays", "is")
