"""The cloud's strike is the replay's, always: following the head to the end changes nothing for the ball."""

from collections import Counter

import numpy as np
import pytest

from physics.address import CONTROLS, Motion, Setup
from physics.cloud import CARRY, CODE, KIND, REST_X, SPEED, play_many
from physics.compiled import as_record
from physics.corridor import bench, standard_of, strike_stray, stroke_of
from physics.course import Course, Ground, Lie
from physics.equipment import BAG
from physics.shot import CODES, KINDS, replay
from physics.spread import PLAYERS, draw_strays
from physics.strike import LOG_COLUMNS
from physics.surfaces import SURFACES

LEVEL = Course(Ground((-9.0, 1.0, 60.0), (0.0, 0.0, 0.0), ("fairway", "green")))
NO_LOG = np.zeros((0, LOG_COLUMNS))


# Kept: strokes that once were another strike in the cloud than in the replay.
KEPT = {
    # a double hit: the replay once stopped with the head clear of the ground, before head and ball had parted
    "double hit from sand": (
        "sand", Setup(BAG["SW-high"], 0.109375, 0.0, 0.125, 0.0, 0.8125),
        Motion(1.0, 0.5, 1.0, 0.125, 1.0, 0.0), "beginner", 0,
    ),
    # a ball that only the sand reached: it once left from where the head happened to stop
    "thrown by wet sand": (
        "wet_sand", Setup(BAG["GW"], -0.0625, 0.0, 0.25, 0.5, 0.75),
        Motion(2.265625, 1.0, 0.0, 0.0, 0.0, 0.015625), "beginner", 0,
    ),
    # a ball pushed on by sand: the cloud once called the head past it too soon
    "carried on by sand": (
        "sand", Setup(BAG["PW"], 0.0454, 0.134, 0.2125, 0.3985, 0.7708),
        Motion(1.38258, 1.18660, 0.33532, 0.08975, 1.3599, 0.01942), "club", 3,
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", KEPT)
def test_kept_strokes_are_the_same_in_cloud_and_replay(name: str) -> None:
    lie, setup, motion, player, seed = KEPT[name]
    course = Course(LEVEL.ground, Lie(lie))
    strays = draw_strays(PLAYERS[player], seed, 12)
    rows, _ = play_many(course, setup, motion, strays, seed)
    for row, stray in zip(rows, strays, strict=True):
        shot = replay(course, setup, motion, PLAYERS[player], seed, stray)
        assert KINDS[int(row[KIND])] is shot.strike.contact
        assert row[REST_X] == shot.run.rest
        if shot.launch:
            assert row[SPEED] == shot.launch.speed
            assert row[CARRY] == shot.run.carry or np.isnan(row[CARRY])
            assert CODES[int(row[CODE])] is shot.run.outcome


def test_random_strokes_are_the_same_strike_followed_to_the_end_or_not() -> None:
    """1,500 strokes of every club, control, lie and player, bit for bit; 20,000 and more were searched."""
    rng = np.random.default_rng(20261126)
    clubs, lies, players = sorted(BAG), sorted(SURFACES), sorted(PLAYERS)
    seen: Counter[str] = Counter()
    short, long, log = bench(), bench(), np.zeros((4096, LOG_COLUMNS))
    for _ in range(1500):
        value = {c.name: float(rng.uniform(c.low, c.high)) for c in CONTROLS.values()}
        parts = [{n: v for n, v in value.items() if CONTROLS[n].owner == o} for o in ("setup", "motion")]
        setup, motion = Setup(BAG[clubs[rng.integers(len(clubs))]], **parts[0]), Motion(**parts[1])
        surface = as_record(SURFACES[lies[rng.integers(len(lies))]])
        lift = float(rng.choice([0.0, rng.uniform(-0.02, 0.04)]))
        stray = draw_strays(PLAYERS[players[rng.integers(len(players))]], int(rng.integers(2**31)), 1)[0]
        club, stroke = as_record(setup.club), stroke_of(setup, motion)
        standard = standard_of(club, surface, lift, stroke, short, NO_LOG)
        a = strike_stray(club, surface, lift, stroke, stray, short, NO_LOG, False, standard)
        b = strike_stray(club, surface, lift, stroke, stray, long, log, True, standard)
        names = ("met", "double", "ball_x", "ball_y", "ball_vx", "ball_vy", "spin", "time", "lean", "cushion")
        assert repr([getattr(a.blow, n) for n in names]) == repr([getattr(b.blow, n) for n in names])
        assert repr(a.quality) == repr(b.quality)
        seen.update({"double": b.blow.double, "stuck": b.blow.stuck, "thrown": int(b.blow.stream > 0.0)})
    assert min(seen["double"], seen["stuck"], seen["thrown"]) >= 3, seen


def test_strokes_that_dig_with_much_lean_are_the_same_strike_too() -> None:
    """All that is known of the strike up to the ball, bit for bit, for heads 10 to 16 mm into turf with 6 to
    17 degrees of lean added, where a ball is met twice most. Afterwards only the replay sees the head."""
    rng, work = np.random.default_rng(1), bench()
    clubs, double, stuck = sorted(BAG), 0, 0
    afterwards = {"speed_after", "deepest", "stuck", "lift", "pull", "incidence"}
    for k in range(150):
        lean, depth, length = rng.uniform((0.1, 0.010, 0.9), (0.3, 0.016, 1.3)).tolist()
        made = BAG[clubs[rng.integers(len(clubs))]]
        stroke = stroke_of(Setup(made), Motion(length, lean_change=lean, depth=depth))
        club, surface = as_record(made), as_record(SURFACES[("tight", "green", "fairway")[k % 3]])
        standard = standard_of(club, surface, 0.0, stroke, work, NO_LOG)
        for stray in draw_strays(PLAYERS["club"], k, 5):
            a, b = (strike_stray(club, surface, 0.0, stroke, stray, work, NO_LOG, whole, standard)
                    for whole in (False, True))  # fmt: skip
            # of a ball that is missed the head digs on
            asked = set(a.blow._fields) - afterwards - (set() if a.blow.met else {"dug"})
            assert repr([getattr(a.blow, n) for n in sorted(asked)]) == repr(
                [getattr(b.blow, n) for n in sorted(asked)]
            )
            assert a.quality == b.quality
            double += a.blow.double
            stuck += b.blow.stuck
    assert double >= 10
    assert stuck >= 10
