"""Marks of the course and the turf: values first, words once, with numbers or without, whoever's they are."""

from dataclasses import replace

import pytest

from game.draw.course_marks import course_marks
from game.text.mark import Mark, MarkKind, TurfKind, TurfMark, mark_words, turf_mark_words
from game.text.quantity import MINUS
from game.text.units import METRIC, YARDS
from physics.address import Motion, Setup
from physics.course import level_course
from physics.results import Outcome, Shot
from physics.shot import play

COURSE = level_course("fairway", 8.0)


@pytest.fixture(scope="module")
def chip() -> Shot:
    return play(COURSE, Setup(), Motion())


def ended(shot: Shot, outcome: Outcome, rest: float) -> Shot:
    return replace(shot, run=replace(shot.run, outcome=outcome, rest=rest))


def test_marks_are_values_and_keep_whose_they_are(chip):
    marks = course_marks(COURSE, chip, (6.0, 7.0), "A")
    assert [(m.kind, m.whose) for m in marks] == [
        (MarkKind.STOP, "A"), (MarkKind.LANDING, "A"), (MarkKind.HOLE, ""), (MarkKind.LIKELY, ""),
    ]  # fmt: skip
    assert marks[0].x == marks[0].value == chip.run.rest
    assert marks[3].value is None


def test_a_holed_ball_marks_the_hole_itself(chip):
    marks = course_marks(COURSE, ended(chip, Outcome.HOLED, 8.0), (), "B")
    assert mark_words(marks[0]) == "B holed 8.0 m"
    assert MarkKind.HOLE not in [m.kind for m in marks]


@pytest.mark.parametrize("outcome", [Outcome.WATER, Outcome.OUT, Outcome.STUCK, Outcome.LOST])
def test_every_other_end_is_named_without_a_distance(chip, outcome):
    mark = course_marks(COURSE, ended(chip, outcome, 8.0))[0]
    assert (mark_words(mark), mark.value) == (outcome.value, None)


def test_a_missed_ball_has_only_the_hole(chip):
    assert [m.kind for m in course_marks(COURSE, None)] == [MarkKind.HOLE]


def test_words_have_units_and_a_minus_or_no_number_at_all():
    back = Mark(MarkKind.STOP, -1.0, -1.0)
    assert mark_words(back) == f"stopped {MINUS}1.0 m"
    assert mark_words(back, METRIC, numbers=False) == "stopped"
    assert mark_words(Mark(MarkKind.STOP, -0.04, -0.04)) == "stopped 0.0 m"
    assert mark_words(Mark(MarkKind.LANDING, 9.144, 9.144, "B"), YARDS) == "B landed 10.0 yd"
    assert mark_words(Mark(MarkKind.LANDING, 9.144, 9.144, "B"), numbers=False) == "B landed"
    assert mark_words(Mark(MarkKind.LIKELY, 6.0)) == "likely stops"


def test_marks_under_the_turf():
    assert turf_mark_words(TurfMark(TurfKind.DIVOT, 0.0, 0.12, 0.008)) == "divot 12 cm, 8 mm cut"
    assert turf_mark_words(TurfMark(TurfKind.SKID, 0.0, 0.13, 0.003)) == "skid 13 cm, 3 mm pressed"
    assert turf_mark_words(TurfMark(TurfKind.FLAT_SPOT, 0.0, 0.09)) == "flat spot 9 cm"
    assert turf_mark_words(TurfMark(TurfKind.LOW_POINT, 0.0)) == "low point"
