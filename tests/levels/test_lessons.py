"""The lessons hold: one mistake, cases that differ in one thing, and what the strokes of a player say."""

from dataclasses import replace
from math import degrees

import pytest

from levels.lessons import (
    FORWARD,
    LESSONS,
    PlayedLesson,
    lesson,
    lesson_in_parts,
    lesson_strokes,
    mistake_forgiven,
)
from physics.address import Motion, Setup
from physics.course import level_course
from physics.results import Contact, TurfAction
from physics.spread import EXACT, PLAYERS
from physics.surfaces import SURFACES

CLUB = PLAYERS["club"]
COUNT = 200


def from_lie(name: str, lie: str, lies: tuple[str, ...] = ()) -> PlayedLesson:
    motion = Motion(depth=SURFACES[lie].usual_depth)
    return lesson(name, level_course(lie, 8.0), Setup(), motion, CLUB, 0, COUNT, lies)


@pytest.mark.parametrize("lie", ["fairway", "soft"])
def test_lean_as_set_slides_and_nine_degrees_more_digs(lie: str) -> None:
    made = from_lie("lean", lie)
    matched, forward = made.cases
    assert made.forgiven
    assert matched.shot.strike.solid
    assert matched.shot.strike.turf in (TurfAction.SKID, TurfAction.BRUSH)
    assert forward.digs
    assert forward.shot.strike.contact is Contact.FAT
    assert forward.kept < 0.7 * matched.kept
    assert forward.shot.run.rest < matched.shot.run.rest
    assert forward.shot.strike.bounce < 0.0 < matched.shot.strike.bounce
    (own,) = made.table
    assert own.fall > 0.25
    assert own.sure
    assert forward.as_set
    assert matched.as_set
    assert forward.as_set.value < 0.2 < matched.as_set.value


def test_a_mat_hides_the_lean_best_among_turf_and_mat() -> None:
    made = from_lie("lean", "fairway", ("fairway", "tight", "soft", "rough", "fringe", "mat"))
    assert made.hidden
    assert made.hidden.lie == "mat"
    assert made.worst
    assert made.worst.lie != "mat"
    assert all(row.fall > 0.0 for row in made.table)


def test_early_release_breaks_the_promise_of_a_ball_played_back() -> None:
    made = from_lie("release", "fairway", ("fairway", "tight", "soft", "mat"))
    held, early, moved = made.cases
    for case in (held, moved):  # the release and the address agree
        assert abs(degrees(case.shot.swing.by_motion - case.shot.swing.promised)) < 0.2
    assert degrees(early.shot.swing.lean_added) < -3.0
    assert early.motion == moved.motion
    assert all(row.fall > 0.2 and row.sure for row in made.table)
    assert not made.turned


def test_bounce_helps_on_grass_and_sand_and_costs_on_tight_ground_and_mat() -> None:
    made = from_lie("bounce", "fairway", ("fairway", "tight", "mat", "sand"))
    much, little = made.cases
    assert much.shot.strike.solid
    assert little.digs
    assert little.kept < much.kept
    fall = {row.lie: row.fall for row in made.table}
    assert fall["fairway"] > 0.0
    assert fall["sand"] > 0.0
    assert {row.lie for row in made.turned} == {"tight", "mat"}


@pytest.mark.parametrize("name", LESSONS)
def test_cases_differ_in_what_the_lesson_is_about_and_in_nothing_else(name: str) -> None:
    (_, s0, m0), (_, s1, m1) = lesson_strokes(name, Setup(), Motion())[:2]
    if name == "lean":
        assert s0 == s1
        assert m1 == replace(m0, lean_change=m1.lean_change)
        assert m1.lean_change - m0.lean_change == pytest.approx(FORWARD)
    elif name == "release":
        assert s0 == s1
        assert m1 == replace(m0, release=m1.release)
    else:
        assert m0 == m1
        assert s1 == replace(s0, club=replace(s0.club, bounce=s1.club.bounce, label=s1.club.label))
        assert [round(degrees(s.club.bounce)) for s in (s0, s1)] == [14, 4]


@pytest.mark.parametrize("name", LESSONS)
def test_the_mistake_is_the_same_in_every_case(name: str) -> None:
    made = next(lesson_in_parts(name, level_course("fairway", 8.0), Setup(), Motion(), CLUB))
    assert CLUB.up <= made.low <= 1.5 * CLUB.up
    assert all(case.shot.stray.up == -made.low for case in made.cases)
    assert len({case.shot.stray for case in made.cases}) == 1


def test_the_mistake_is_the_most_that_the_first_case_stands() -> None:
    course = level_course("soft", 8.0)
    _, setup, motion = lesson_strokes("lean", Setup(), Motion(depth=2e-3))[0]
    low, stands = mistake_forgiven(course, setup, motion, CLUB)
    assert stands
    assert low < 1.5 * CLUB.up
    low, stands = mistake_forgiven(level_course("sand", 8.0), setup, replace(motion, depth=18e-3), CLUB)
    assert not stands
    assert low == CLUB.up


def test_a_steady_players_lesson_costs_the_leaning_stroke_more_than_half_of_its_way() -> None:
    """The first minute is a steady player's: a dig that stops as far as the slide shows nobody why."""
    made = next(lesson_in_parts("lean", level_course("fairway", 8.0), Setup(), Motion(), PLAYERS["steady"]))
    matched, leaning = made.cases
    assert matched.shot.strike.solid
    assert leaning.digs
    assert leaning.shot.run.rest < 0.5 * matched.shot.run.rest


def test_same_arguments_same_lesson_and_another_seed_another_count() -> None:
    a, b = (from_lie("lean", "mat") for _ in range(2))
    assert a == b
    other = lesson("lean", a.course, Setup(), Motion(depth=5e-3), CLUB, 1, COUNT, ())
    assert other.table != a.table
    assert other.cases[0].shot.strike == a.cases[0].shot.strike  # the mistake is no matter of chance


def test_an_exact_player_or_an_unknown_name_is_refused() -> None:
    course = level_course("fairway", 8.0)
    with pytest.raises(ValueError, match="differ"):
        lesson("lean", course, Setup(), Motion(), EXACT)
    with pytest.raises(ValueError, match="allowed: lean, release, bounce"):
        lesson("lena", course, Setup(), Motion(), CLUB)
