"""Causes by replay: what is told of small, known faults, and the told causes against exhaustive replay."""

from math import radians

import pytest

from physics.address import Intention
from physics.agreement import AGREEING, lean_mismatch, misplaced, place_on_line
from physics.course import Course, Ground, Hole
from physics.removal import (
    Origin,
    Removal,
    clear_gain,
    reaching,
    set_removals,
    stray_removals,
    stroke_removals,
    told_cause,
)
from physics.spread import EXACT, PLAYERS, Stray
from tests.told_causes import missets, strayed

GROUND = Ground((-9.0, 1.0, 60.0), (0.0, 0.0, 0.0), ("fairway", "green"))
COURSE, CLUB = Course(GROUND, hole=Hole(7.0)), PLAYERS["club"]


def test_told_causes_are_those_of_an_exhaustive_replay() -> None:
    """A part of the benchmark of 500 and 500, `tests/benchmarks/test_causes.py`."""
    set_wrong, astray = missets(15), strayed(24)
    for made, least in ((set_wrong, 8), (astray, 10)):
        clear = [m for m in made if m.clear]
        assert len(clear) >= least
        assert sum(m.agrees for m in clear) >= 0.95 * len(clear) - 1.0
    owed = [m for m in set_wrong if m.owed]
    assert len(owed) >= 3
    assert sum(m.mends for m in owed) >= 0.85 * len(owed)


@pytest.mark.parametrize("place", [-1, 0, 1])
def test_the_set_ups_that_coaches_call_matched_have_nothing_out_of_place(place: int) -> None:
    made = Intention().with_values({n: v[place + 1] for n, v in AGREEING.items()})
    assert place_on_line(made) == pytest.approx(place)
    assert misplaced(COURSE, made) == ()


@pytest.mark.parametrize(("name", "value"), [
    ("release", 1.7), ("ball_position", 0.06), ("shaft_lean", radians(15)), ("follow_through", 0.0),
])  # fmt: skip
def test_the_part_that_left_the_line_is_out_of_place_and_agrees_once_back(name: str, value: float) -> None:
    wrong = Intention().with_value(name, value)
    (only,) = misplaced(COURSE, wrong)
    assert only.control == name
    assert only.lean_off == pytest.approx(lean_mismatch(wrong))
    assert abs(lean_mismatch(wrong.with_value(name, only.agrees))) < radians(0.5)
    assert misplaced(COURSE, wrong.with_value(name, only.agrees)) == ()


def test_a_habit_that_gives_the_promise_back_is_not_out_of_place() -> None:
    wrong = Intention().with_value("release", 1.7)
    kept = wrong.with_value("lean_change", -lean_mismatch(wrong))
    assert misplaced(COURSE, kept) == ()


def test_a_set_up_cause_carries_the_error_of_common_strokes() -> None:
    long = Intention().with_value("swing_length", radians(85))
    best = told_cause(set_removals(COURSE, long, CLUB))
    assert best is not None
    assert (best.origin, best.component) == (Origin.SET, "swing_length")
    assert best.back < best.was
    assert 0.0 < 2.0 * best.error <= best.gain
    assert best.strokes >= 24


def test_reaching_finds_the_same_swing_from_too_short_and_too_long() -> None:
    reach = reaching(COURSE, EXACT)
    assert reach is not None
    found = [reach(Intention().with_value("swing_length", radians(d))) for d in (20, 95)]
    assert found[0] == pytest.approx(found[1], rel=0.25)
    assert reaching(Course(GROUND), EXACT) is None


def test_what_strayed_is_told_of_that_stroke_alone() -> None:
    stroke = Intention().with_value("swing_length", radians(40))
    for stray, name in ((Stray(up=-0.012, speed=1.01), "up"), (Stray(speed=0.7, up=0.001), "speed"),
                        (Stray(lean=radians(-11), speed=1.01), "lean")):  # fmt: skip
        best = told_cause(stray_removals(COURSE, stroke, stray, CLUB))
        assert best is not None
        assert best.component == name
    assert stray_removals(COURSE, stroke, Stray(), CLUB) == ()


def test_nothing_is_told_that_is_not_worth_it_or_not_sure() -> None:
    assert told_cause(()) is None
    assert told_cause((Removal(Origin.SET, "depth", 0.01, 0.0, 0.019),)) is None
    assert told_cause((Removal(Origin.SET, "depth", 0.01, 0.0, 0.10, 0.06, 24),)) is None
    assert clear_gain(0.10, 0.05)


def test_without_a_hole_what_strayed_is_told_against_the_unstrayed_stroke() -> None:
    best = stray_removals(Course(GROUND), Intention(), Stray(speed=1.3, face=0.002), CLUB)[0]
    assert best.component == "speed"
    assert best.gain > 0.2


def test_a_ball_far_too_long_is_not_told_off_line_because_a_straight_one_hits_the_flagstick() -> None:
    """Without the hundredth of a radian off line this one would have run into the flagstick and dropped."""
    long = Intention().with_value("swing_length", radians(58)).with_value("ball_position", 0.0)
    stray = Stray(aim=-0.025, speed=1.003)
    *single, whole = stroke_removals(COURSE, long, stray, PLAYERS["steady"])
    best = told_cause(single)
    assert best is not None
    assert (best.origin, best.component) == (Origin.SET, "swing_length")
    assert next((r.gain for r in single if r.component == "aim"), 0.0) < 0.1
    assert whole.component == ""
