"""Choices: different options of one player, fairly judged, the same twice; what changes them; the map."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from game.text import choice as words
from levels.choice_effort import CAREFUL, QUICK, ChoiceEffort
from levels.choose import ShotChoice, choose, chosen
from levels.families import Kinds, family_of, is_matched
from levels.files import load_library
from levels.option_search import JUDGE, OptionSearch
from levels.player_file import KnownPlayer, preset
from levels.race import Race
from levels.reasons import reasons_of
from levels.season import Grid, SeasonMap, season, season_digest
from levels.situation import (
    CLUB_CLASSES,
    FREE,
    Situation,
    bench_situation,
    first_setups,
    scenario_situation,
)
from levels.what_if import changes, what_ifs
from levels.worthwhile import GAINED_LITTLE, INSIDE, played_strokes, worth_of
from physics.address import Motion, Setup
from physics.cloud import cloud
from physics.course import Course, Ground, Hole, Water, level_course
from physics.spread import PLAYERS
from tests.levels.test_own_player import fitted

TINY = ChoiceEffort(lengths=5, look=4, start=2, rounds=(8,), children=2, finalists=1, final=16, judged=120)
COURSE = level_course("fairway", 8.0)
CLUB = preset("club")


@cache
def _bench() -> Situation:
    free = bench_situation(COURSE, Setup(), Motion())
    return replace(free, space=replace(free.space, clubs=("7i", "PW", "SW")))


@cache
def _choice() -> ShotChoice:
    return chosen(_bench(), CLUB, TINY)


def test_strokes_are_those_of_the_cloud() -> None:
    made = played_strokes(COURSE, Setup(), Motion(), CLUB, 3, 200)
    same = cloud(COURSE, Setup(), Motion(), PLAYERS["club"], 3, 200)
    assert np.allclose(made.strokes, same.strokes, atol=1e-6)
    assert np.allclose(made.leave, same.leave, atol=1e-6)
    value = worth_of(made, CLUB, 3)
    assert value.strokes == pytest.approx(same.mean_strokes)
    assert value.inside == (same.leave <= INSIDE).mean()
    assert value.worst_fifth > value.strokes > 1.0
    assert value.low < value.strokes < value.high


def test_each_way_to_end_badly() -> None:
    ground = Ground((-9.0, 2.0, 3.0, 60.0), (0.0,) * 4, ("fairway", "sand", "green"))
    wet = Course(ground, hole=Hole(8.0), hazards=(Water(9.0, 11.0, 0.5),))
    made = played_strokes(wet, Setup(), Motion(), preset("beginner"), 1, 300)
    for flags in (made.penalty, made.sand, made.little):
        assert flags.any()
    assert ((made.rest >= 2.0) & (made.rest <= 3.0))[made.sand].all()
    assert (made.leave[made.little] > GAINED_LITTLE * 8.0).all()
    assert not (made.disaster & (made.leave <= INSIDE) & ~made.penalty).any()


def test_the_first_look_halves_the_way_to_the_best_swing_length() -> None:
    """A ball hit too hard runs on past the hole, so what is short and what is over stay apart."""
    work = OptionSearch(_bench(), CAREFUL, 0, Race(_bench(), CLUB, ThreadPoolExecutor(1)))
    for points in first_setups(_bench(), 11):
        every = {p: work.faultless(p) for p in points}
        strokes = {p: float(made.strokes[0]) for p, made in every.items()}
        near = work.near_hole(points)
        assert len(near) <= 5
        assert min(strokes[p] for p in near) == min(strokes.values())
        hard = every[max(points, key=lambda p: p.values[FREE.index("swing_length")])]
        assert hard.rest[0] > 2.0 * 8.0  # not in the hole, nor stopped by the flagstick


def test_a_course_without_a_hole_is_refused() -> None:
    with pytest.raises(ValueError, match="without a hole"):
        chosen(bench_situation(replace(COURSE, hole=None), Setup(), Motion()), CLUB, TINY)


def test_options_are_different_and_best_first() -> None:
    made = _choice()
    assert 2 <= len(made.options) <= 4
    assert len(set(made.ranked())) == len(made.options)
    strokes = [o.value.strokes for o in made.options]
    assert strokes == sorted(strokes)
    kinds = Kinds(COURSE)
    for option in made.options:
        meant = kinds.intended(option.setup, option.motion)
        assert family_of(meant) == option.family
        assert CLUB_CLASSES[option.setup.club.name] == option.clubs
        assert is_matched(meant) == option.matched
        assert option.matched
        assert option.behind[0] == pytest.approx(option.value.strokes - strokes[0])


def test_options_are_judged_by_strokes_of_their_own() -> None:
    for option in _choice().options:
        again = played_strokes(COURSE, option.setup, option.motion, CLUB, JUDGE, TINY.judged)
        assert np.array_equal(again.strokes, option.made.strokes)
    assert JUDGE not in (0, 1, 100, 200)


def test_robust_ends_badly_least_and_bold_gets_closest() -> None:
    made = _choice()
    values = [o.value for o in made.options]
    assert values[made.robust].disaster <= min(v.disaster for v in values) + 0.01
    if made.bold is not None:
        assert values[made.bold].inside == max(v.inside for v in values)
        assert made.bold != made.robust


def test_same_situation_same_choice_and_it_can_be_stopped() -> None:
    again = chosen(_bench(), CLUB, TINY)
    assert [(o.setup, o.motion, o.value) for o in again.options] == [
        (o.setup, o.motion, o.value) for o in _choice().options
    ]
    parts = choose(_bench(), CLUB, TINY)
    first = next(parts)
    assert first.choice is None
    assert first.share < 0.2
    del parts


def test_shares_only_grow() -> None:
    shares = [part.share for part in choose(_bench(), CLUB, TINY)]
    assert shares == sorted(shares)
    assert len(shares) > 4


def test_a_scenario_keeps_its_limits() -> None:
    scenario = load_library("harrow-fen-short-sided")
    made = chosen(scenario_situation(scenario), preset(scenario.player), TINY)
    for option in made.options:
        assert option.setup.club.name in (scenario.clubs or (scenario.setup().club.name,))
        low, high = scenario.limits_of("swing_length")
        assert low <= option.motion.swing_length <= high


def test_an_unsure_player_has_wider_ranges() -> None:
    player = fitted().player()
    known = KnownPlayer(player.spread)
    wide, narrow = (
        worth_of(played_strokes(COURSE, Setup(), Motion(), who, 2, 480), who, 2) for who in (player, known)
    )
    assert wide.high - wide.low > 1.5 * (narrow.high - narrow.low)


def test_reasons_name_what_differs() -> None:
    value = _choice().options[0].value
    safe, wild = replace(value, disaster=0.0, strokes=2.2), replace(value, disaster=0.4, strokes=2.9)
    for reason, better in zip(reasons_of([safe, wild]), (True, False), strict=True):
        assert (reason.kind, reason.better) == ("disaster", better)
    assert reasons_of([value])[0].kind == "alike"


def test_what_if_is_played_and_told() -> None:
    asked = what_ifs(COURSE)
    assert {w.kind for w in asked} == {"spread", "green_speed", "lie"}
    found = [c for c, _ in zip(changes(_bench(), _choice(), CLUB), range(2), strict=False)]
    steady, wild = found
    assert max(steady.strokes) < min(wild.strokes)
    for one in found:
        assert sorted(one.order) == list(range(len(_choice().options)))
        assert words.changed_words(one, _choice())


def test_words_never_call_it_skill_and_say_how_the_odds_lean() -> None:
    made = _choice()
    told = [*words.leads_words(made), words.HOPEFUL, words.NO_SKILL]
    for option in made.options:
        told += [words.option_name(option), words.strokes_words(option), words.odds_words(option)]
        assert option.reason is not None
        told.append(words.reason_words(option.reason))
    assert not any("skill" in line.lower() for line in told)
    assert "hopeful" in words.HOPEFUL


def test_a_small_season() -> None:
    grid = Grid(("fairway",), (6.0,), ("much", "little"))
    *parts, last = season(CLUB, grid, TINY)
    assert last.whole is not None
    shares = [part.share for part in parts]
    assert shares == sorted(shares)
    assert len(parts) > 6 * len(last.whole.cells)  # small ones: a shot at the Bench comes between two
    assert [part.cell for part in parts if part.cell] == list(last.whole.cells)
    assert [c.room for c in last.whole.cells] == ["much", "little"]
    assert last.whole.digest == season_digest(CLUB, grid, TINY)
    assert season_digest(preset("steady"), grid, TINY) != last.whole.digest
    assert season_digest(CLUB, grid, QUICK) != last.whole.digest
    assert SeasonMap.model_validate_json(last.whole.model_dump_json()) == last.whole
    for cell in last.whole.cells:
        assert words.cell_words(cell)
        assert cell.advice in words.ADVICE_WORDS
