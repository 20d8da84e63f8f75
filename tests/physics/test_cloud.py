"""Many strokes: rows, shares and what a leave is worth."""

from math import hypot, radians

import numpy as np
import pytest

from physics.address import Motion, Setup
from physics.cloud import CARRY, COLUMNS, MET, REST_X, SOLID, cloud, play_many, worth
from physics.course import Course, Ground, Hole, OutOfBounds, Water
from physics.putting import PUTTERS
from physics.run import HOLED, OUT, REST, WATER
from physics.shot import replay
from physics.spread import EXACT, PLAYERS, draw_strays
from physics.terrain import build_field

GROUND = Ground((-9.0, 1.0, 60.0), (0.0, 0.0, 0.0), ("fairway", "green"))
OPEN, HOLE = Course(GROUND), Course(GROUND, hole=Hole(7.0))
CLUB, NINETY = PLAYERS["club"], PUTTERS["ninety"]


def test_same_arguments_same_cloud() -> None:
    a, b = (cloud(HOLE, Setup(), Motion(), CLUB, 3, 200) for _ in range(2))
    for name in (
        "met",
        "solid",
        "head_loss",
        "lead",
        "depth",
        "carry",
        "landing_angle",
        "rest",
        "lateral",
        "code",
        "leave",
        "strokes",
    ):
        one, two = getattr(a, name), getattr(b, name)
        assert one.shape == (200,)
        assert np.array_equal(one, two, equal_nan=one.dtype.kind == "f")


def test_rows_replay_as_recorded_shots_holed_balls_included() -> None:
    strays = draw_strays(CLUB, 4, 60)
    rows, _ = play_many(HOLE, Setup(), Motion(radians(40)), strays, 4)
    assert rows.shape == (60, COLUMNS)
    for i in range(0, 60, 4):
        shot = replay(HOLE, Setup(), Motion(radians(40)), CLUB, 4, strays[i])
        assert (shot.launch is not None) == bool(rows[i, MET])
        assert shot.run.rest == rows[i, REST_X]
        assert shot.strike.solid == bool(rows[i, SOLID])
        if shot.launch:
            assert shot.run.carry == rows[i, CARRY]


def test_machine_repeats_itself() -> None:
    c = cloud(HOLE, Setup(), Motion(), EXACT, 0, 5)
    assert np.ptp(c.rest) == 0.0
    assert c.solid_share == 1.0
    assert c.lateral.tolist() == [0.0] * 5


def test_without_a_hole_there_is_no_worth() -> None:
    c = cloud(OPEN, Setup(), Motion(), CLUB, 1, 40)
    assert np.isnan(c.leave).all()
    assert np.isnan(c.strokes).all()
    assert 0.0 < c.solid_share < 1.0


def test_leave_is_the_way_to_the_hole_and_strokes_grow_with_it() -> None:
    c = cloud(HOLE, Setup(), Motion(radians(40)), CLUB, 1, 300)
    rested = (c.code == REST) & (c.rest > 1.0)
    want = [hypot(7.0 - x, z) for x, z in zip(c.rest[rested], c.lateral[rested], strict=True)]
    assert c.leave[rested] == pytest.approx(want)
    order = np.argsort(c.leave[rested])
    assert (np.diff(c.strokes[rested][order]) >= -1e-9).all()
    assert c.mean_strokes == pytest.approx(c.strokes.mean())
    assert (c.strokes >= 1.0).all()


def test_worth_of_each_ending() -> None:
    table = build_field(HOLE)
    rest, lateral = np.array([7.0, 6.0, 6.0, 6.0, 0.5]), np.array([0.0, 0.0, 0.75, 0.0, 0.0])
    code = np.array([HOLED, REST, REST, WATER, REST], float)
    out = worth(HOLE, table, rest, lateral, code, NINETY)
    assert out[0].tolist() == [0.0, 1.0]
    assert out[1:3, 0] == pytest.approx([1.0, 1.25])
    assert 2.0 < out[1, 1] < out[2, 1] < 3.0
    assert out[3, 0] == 7.0
    assert out[3, 1] > out[4, 1]  # a stroke and the distance cost more than the distance
    lost = worth(HOLE, table, rest[3:4], lateral[3:4], np.array([float(OUT)]), NINETY)
    assert lost[0, 1] == out[3, 1]


def test_hazards_are_counted() -> None:
    wet = Course(GROUND, hole=Hole(7.0), hazards=(Water(4.0, 5.0, 0.02), OutOfBounds(9.0)))
    c = cloud(wet, Setup(), Motion(radians(40)), CLUB, 1, 200)
    assert (c.code == WATER).sum() > 20
    assert c.mean_strokes > cloud(HOLE, Setup(), Motion(radians(40)), CLUB, 1, 200).mean_strokes + 0.3


def test_steadier_players_play_better() -> None:
    order = [
        cloud(HOLE, Setup(), Motion(radians(40)), PLAYERS[n], 2, 400) for n in ("steady", "club", "beginner")
    ]
    shares = [c.solid_share for c in order]
    assert shares[0] > shares[1] > shares[2]
    strokes = [c.mean_strokes for c in order]
    assert strokes[0] < strokes[1] < strokes[2]


@pytest.mark.parametrize("count", [1, 2, 31, 32, 33])
def test_any_number_of_strokes(count: int) -> None:
    """Below 32 strokes one thread is used: the rows must not show it."""
    many, _ = play_many(OPEN, Setup(), Motion(), draw_strays(CLUB, 6, 64), 6)
    few, _ = play_many(OPEN, Setup(), Motion(), draw_strays(CLUB, 6, count), 6)
    assert np.array_equal(few, many[:count], equal_nan=True)
