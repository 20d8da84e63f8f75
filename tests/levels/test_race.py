"""Races: leaving early spends fewer strokes, touches nobody who stays, and ends with the same few."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from levels import race
from levels.choice_effort import ChoiceEffort
from levels.choose import chosen
from levels.files import load_library
from levels.option_search import GAINS
from levels.player_file import preset
from levels.race import LEAST_TOLD, MOST_TOLD, Race, heats, may_be_told, surely_behind
from levels.search import Candidate
from levels.situation import CLUB_CLASSES, Situation, bench_situation, first_setups, scenario_situation
from levels.worthwhile import played_strokes
from physics.address import Motion, Setup
from physics.course import level_course

CLUB = preset("club")
COURSE = level_course("fairway", 8.0)
SOME = ChoiceEffort(
    lengths=7, look=8, start=2, rounds=(16,), children=2, finalists=2, final=48, judged=240
)  # fmt: skip


@cache
def situation() -> Situation:
    free = bench_situation(COURSE, Setup(), Motion())
    return replace(free, space=replace(free.space, clubs=("7i", "PW", "SW")))


def nobody_leaves(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(race, "SURELY", 1e9)


def test_strokes_in_parts_are_those_in_one_go() -> None:
    for name in ("harrow-fen-plain-chip", "harrow-fen-greenside-sand", "harrow-fen-under-the-willow"):
        s = scenario_situation(load_library(name))
        first = played_strokes(s.course, *s.own[0], CLUB, 5, 7)
        whole = played_strokes(s.course, *s.own[0], CLUB, 5, 20)
        parts = first.then(played_strokes(s.course, *s.own[0], CLUB, 5, 20, start=7))
        assert np.array_equal(parts.rest, whole.rest), name
        assert np.array_equal(parts.strokes, whole.strokes), name
        assert np.array_equal(parts.disaster, whole.disaster), name


def test_one_leaves_only_when_the_same_strays_can_tell() -> None:
    chance = np.random.default_rng(1)
    base = chance.normal(2.5, 0.5, 60)
    assert surely_behind(base + 0.1, base)  # always a tenth: no doubt, whatever the spread
    assert not surely_behind(base + 0.1, base, by=0.2)
    assert not surely_behind(chance.normal(2.55, 0.5, 60), base)


def test_the_best_three_are_never_dropped_and_a_far_fourth_is() -> None:
    chance = np.random.default_rng(2)
    base = chance.normal(2.5, 0.3, 80)
    kinds = [("iron", "low"), ("pitching", "low"), ("pitching", "standard"), ("lofted", "standard"),
             ("lofted", "high")]  # fmt: skip
    far = {key: base + 0.9 * i for i, key in enumerate(kinds)}
    assert may_be_told(far) == set(kinds[:LEAST_TOLD])
    near = {key: base + 0.02 * i for i, key in enumerate(kinds)}
    assert may_be_told(near) == set(kinds[:MOST_TOLD])
    assert may_be_told(near, slack=0.1) == set(kinds)


def test_a_race_spends_fewer_strokes_and_keeps_the_best(monkeypatch: pytest.MonkeyPatch) -> None:
    points = [p for way in first_setups(situation(), 7) for p in way]
    pool = {(CLUB_CLASSES[c], "low"): [p for p in points if p.club == c] for c in ("7i", "PW", "SW")}

    def run() -> tuple[int, dict[object, list[Candidate]]]:
        with ThreadPoolExecutor(2) as threads:
            one = Race(situation(), CLUB, threads)
            steps = one.best(pool, 48, 3, 1, GAINS)
            while True:
                try:
                    next(steps)
                except StopIteration as end:
                    return one.played, end.value

    fewer = run()
    nobody_leaves(monkeypatch)
    whole = run()
    assert whole[0] == 48 * len(set(points))
    assert fewer[1] == whole[1]
    assert fewer[0] < 0.7 * whole[0]


def test_the_quick_way_agrees_with_a_long_count(monkeypatch: pytest.MonkeyPatch) -> None:
    fast = chosen(situation(), CLUB, SOME)
    nobody_leaves(monkeypatch)
    slow = chosen(situation(), CLUB, SOME)
    assert fast.strokes < slow.strokes
    assert fast.ranked()[0] == slow.ranked()[0] or slow.options[1].much_the_same
    for option in fast.options:
        long = played_strokes(COURSE, option.setup, option.motion, CLUB, 77, 3000, 2).strokes
        error = np.hypot(long.std() / np.sqrt(3000), option.value.error)
        assert abs(long.mean() - option.value.strokes) < 3.0 * error
        assert len(option.made.strokes) == SOME.judged  # whoever is told was counted to the end


def test_heats_end_with_all_the_strokes() -> None:
    for count in (4, 8, 24, 72, 480):
        assert heats(count)[-1] == count
        assert heats(count) == sorted(set(heats(count)))
