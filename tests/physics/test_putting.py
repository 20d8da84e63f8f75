"""Putting and strokes-to-hole from inside."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from physics.putting import (
    PUTTERS,
    YARD,
    expected_putts,
    expected_strokes,
    lost_ball_strokes,
    make,
    putting_lie,
    putts_table,
    strokes_left,
)
from physics.surfaces import SURFACES

TOUR, NINETY = PUTTERS["tour"], PUTTERS["ninety"]
TABLES = {name: putts_table(p) for name, p in PUTTERS.items()}
distances = st.floats(0.0, 50.0)


@given(distances, st.sampled_from(sorted(PUTTERS)))
def test_chances_are_chances_and_putts_at_least_one(d: float, name: str) -> None:
    assert 0.0 <= make(d, PUTTERS[name]) <= 1.0
    assert 1.0 <= expected_putts(d, TABLES[name]) < 4.0


@given(st.floats(0.0, 30.0), st.floats(0.01, 5.0), st.sampled_from(sorted(PUTTERS)))
def test_further_is_never_easier(d: float, more: float, name: str) -> None:
    assert make(d + more, PUTTERS[name]) <= make(d, PUTTERS[name]) + 1e-12
    assert expected_putts(d + more, TABLES[name]) >= expected_putts(d, TABLES[name]) - 2e-3


def test_players_rank() -> None:
    for d in (1.0, 3.0, 10.0):
        putts = [expected_putts(d, TABLES[n]) for n in ("tour", "scratch", "ninety")]
        assert putts == sorted(putts)
        assert putts[0] < putts[-1]


def test_tap_in_is_one_putt() -> None:
    assert expected_putts(0.0, TABLES["tour"]) == pytest.approx(1.0, abs=1e-4)


def test_every_surface_has_a_lie() -> None:
    assert {putting_lie(name) for name in SURFACES} == {0, 1, 2, 3}
    with pytest.raises(KeyError, match="allowed"):
        putting_lie("moon")


def test_strokes_meet_at_ten_yards() -> None:
    for name in ("fairway", "rough", "sand"):
        near, far = (strokes_left(10 * YARD + d, name) for d in (-1e-9, 1e-9))
        assert near == pytest.approx(far, abs=1e-6)


def test_worse_lies_cost_more_at_chipping_range() -> None:
    for d in (0.5, 3.0, 9.0, 18.0):
        cost = [strokes_left(d, n) for n in ("green", "fairway", "rough")]
        assert cost == sorted(cost)
        assert strokes_left(d, "rough", NINETY) > strokes_left(d, "rough", TOUR)


def test_lost_ball_costs_a_stroke_and_the_shot_again() -> None:
    args = (15.0, putting_lie("rough"), TABLES["ninety"], TABLES["tour"])
    assert lost_ball_strokes(*args) == 1.0 + expected_strokes(*args)


def test_table_is_the_callers_own() -> None:
    putts_table(TOUR)[:] = 0.0
    assert putts_table(TOUR)[0] == pytest.approx(1.0, abs=1e-4)
