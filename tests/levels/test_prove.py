"""Proofs: the built-in scenarios can be done as meant, and what is said of them is what strokes say.

Outside checks: binomial tails and Wilson intervals of scipy.stats, discrepancy of scipy.stats.qmc, brute
force over a scenario with two open controls.
"""

from collections.abc import Generator, Sequence
from dataclasses import replace
from itertools import product
from math import exp, log, radians, sqrt

import numpy as np
import pytest
from scipy import stats

from levels import search
from levels.closeness import NEAR_MISS, closeness
from levels.effort import FULL, SMALL, Effort, cost_of
from levels.facts import cloud_facts, goals_met, passed
from levels.families import EDGE, FAMILIES, HIGH_FROM, LOW_BELOW, apart_from, family_of, planned_loft
from levels.files import ScenarioError, library, load_library, parse_scenario, scenario_text
from levels.forgiveness import chart_of, reaches, slack_of
from levels.odds import interval, pass_chance
from levels.proof import Proof
from levels.proof_words import LUCKY, rewards_match, warnings_of
from levels.prove import proof_is_stale, prove, proved
from levels.regions import regions_of
from levels.scenario import Scenario
from levels.search import Found, Point, Range, Space, evenly, space_of
from levels.teaching import Goal
from physics.address import Motion, Setup
from physics.equipment import BAG
from physics.spread import PLAYERS

NAMES = library()
TINY = replace(
    SMALL, draw=30, start=4, rounds=(6,), children=4, finalists=1, chosen=12, judged=50, near=4, side=3
)
TWO = "harrow-fen-two-tees"


@pytest.fixture(scope="module")
def proof() -> Proof:
    return proved(load_library(TWO), SMALL)


# ---- chances


@pytest.mark.parametrize("chance", [0.0, 0.05, 0.3, 0.5, 0.77, 1.0])
@pytest.mark.parametrize(("shots", "successes"), [(1, 1), (3, 2), (5, 3), (20, 20), (20, 1)])
def test_so_many_of_the_last_few_is_binomial(chance: float, shots: int, successes: int) -> None:
    goal = Goal(leave_m=1.0, shots=shots, successes=successes)
    assert pass_chance(goal, chance) == pytest.approx(stats.binom.sf(successes - 1, shots, chance), abs=1e-12)


@pytest.mark.parametrize("in_a_row", [True, False])
@pytest.mark.parametrize("chance", [0.2, 0.6, 0.95])
@pytest.mark.parametrize(("shots", "successes"), [(1, 1), (4, 1), (5, 2), (7, 3), (9, 9), (8, 5)])
def test_chance_to_pass_counts_every_course_of_a_task(
    in_a_row: bool, chance: float, shots: int, successes: int
) -> None:
    """Every sequence of good and bad shots, weighed, and judged by the rule that judges play."""
    goal = Goal(leave_m=1.0, shots=shots, successes=successes, in_a_row=in_a_row)
    total = sum(
        chance ** sum(results) * (1.0 - chance) ** (shots - sum(results))
        for results in product([False, True], repeat=shots)
        if passed(goal, results)
    )
    assert pass_chance(goal, chance) == pytest.approx(total, abs=1e-12)


@pytest.mark.parametrize(("good", "played"), [(0, 50), (1, 50), (33, 60), (499, 500), (500, 500)])
def test_interval_is_wilsons(good: int, played: int) -> None:
    """scipy.stats.binomtest, method wilson, 95 %."""
    found = stats.binomtest(good, played).proportion_ci(0.95, "wilson")
    assert interval(good, played) == pytest.approx((found.low, found.high), abs=1e-12)
    assert interval(0, 0) == (0.0, 1.0)


# ---- kinds of shot


def test_the_rule_agrees_with_what_the_library_calls_its_references() -> None:
    odd = []
    for name in NAMES:
        made = load_library(name)
        shot = made.reference_shot()
        assert shot is not None
        assert made.reference is not None
        if family_of(*shot) != made.reference.family:
            odd.append(name)
        assert apart_from(made.reference.family, *shot) == 0.0
    assert len(odd) <= 2, odd


def test_kinds_follow_the_loft_that_comes_to_the_ball() -> None:
    assert planned_loft(Setup(BAG["SW"], shaft_lean=radians(6)), Motion()) == pytest.approx(radians(50))
    assert planned_loft(Setup(BAG["SW"], shaft_lean=radians(6)), Motion(lean_change=radians(9))) == (
        pytest.approx(radians(41))
    )
    lofts = [planned_loft(Setup(BAG["SW"], shaft_lean=0.0, face_open=a), Motion()) for a in (0.0, 0.2, 0.4)]
    assert lofts == sorted(lofts)
    for lean, family in ((20.0, "low"), (10.0, "standard"), (0.0, "high")):
        setup = Setup(BAG["SW"], shaft_lean=radians(lean))
        assert family_of(setup, Motion()) == family
        assert apart_from(family_of(setup, Motion()), setup, Motion()) == 0.0
    low = Setup(BAG["SW"], shaft_lean=BAG["SW"].loft - LOW_BELOW + EDGE + radians(5))
    assert apart_from("standard", low, Motion()) == pytest.approx(5.0)
    assert LOW_BELOW < HIGH_FROM


# ---- strewing and searching


@pytest.mark.parametrize("width", [2, 4, 7])
def test_set_ups_are_strewn_more_evenly_than_by_chance(width: int) -> None:
    """Centred discrepancy (scipy.stats.qmc) of 500 places against the least of five random ones."""
    ours = evenly(500, width, 3)
    assert ours.shape == (500, width)
    assert ours.min() >= 0.0
    assert ours.max() < 1.0
    chance = np.random.default_rng(1)
    least = min(stats.qmc.discrepancy(chance.random((500, width))) for _ in range(5))
    assert stats.qmc.discrepancy(ours) < 0.5 * least
    assert not np.array_equal(ours, evenly(500, width, 4))


def test_a_space_holds_exactly_what_the_player_may_choose() -> None:
    made = load_library("harrow-fen-short-sided")
    space = space_of(made)
    points = [space.at(u) for u in evenly(200, len(space.controls) + 1, 0)]
    assert {p.club for p in points} == set(made.clubs)
    for point in points:
        setup, motion = space.shot(point)
        assert space.point_of(setup, motion) == point
        assert space.holds(point)
        for name, value in zip(space.controls, point.values, strict=True):
            low, high = made.limits_of(name)
            assert low <= value <= high
        assert setup.shaft_lean == made.setup().shaft_lean, "a closed control stays"
    assert not space.holds(Point("7i", points[0].values))
    assert not space.holds(Point(points[0].club, (9.0, *points[0].values[1:])))


def test_closeness_rises_toward_the_goals_and_says_one_where_they_are_met() -> None:
    made = load_library(TWO)
    shot = made.reference_shot()
    assert shot is not None
    course, spread = made.course(), PLAYERS[made.player]
    facts = cloud_facts(made.goal, course, *shot, spread, 0, 200)
    close, met = closeness(made.goal, facts), goals_met(made.goal, facts)
    assert (close[met] == 1.0).all()
    assert (close[~met] <= NEAR_MISS).all()
    clean = ~met & facts.solid & (facts.head_loss < 0.03)
    order = np.argsort(facts.leave[clean])
    assert np.corrcoef(facts.leave[clean][order], close[clean][order])[0, 1] < -0.5


class Hill(Range):
    """A range whose chance is a known hill over the controls: no strokes are played."""

    def __init__(self, space: Space, top: Point, wide: Sequence[float]) -> None:
        self.space, self.top, self.wide, self.played = space, top, wide, 0

    def met(self, point: Point, seed: int, count: int) -> Found:
        off = [(a - b) / w for a, b, w in zip(point.values, self.top.values, self.wide, strict=True)]
        share = exp(-sum(v * v for v in off))
        return Found(point, share, share)


def finished(steps: Generator[int, None, object]) -> object:
    while True:
        try:
            next(steps)
        except StopIteration as end:
            return end.value


def test_the_reach_of_a_control_is_where_the_chance_halves() -> None:
    """A Gaussian hill halves at its width times sqrt(ln 2); found to a sixth."""
    space = space_of(load_library("harrow-fen-short-sided"))
    width = np.array(space.high) - np.array(space.low)
    middle = Point("LW", tuple((0.5 * (np.array(space.low) + np.array(space.high))).tolist()))
    wide = (width * (0.05, 0.2, 0.1, 9.0)).tolist()
    found = finished(reaches(Hill(space, middle, wide), middle, 0, 1))
    assert isinstance(found, tuple)
    for reach, w in zip(found[:6], np.repeat(wide[:3], 2), strict=True):
        assert reach.ends
        assert reach.far == pytest.approx(w * sqrt(log(2.0)), rel=0.17)
    assert not any(reach.ends for reach in found[6:]), "the last control hardly matters"
    chart = finished(chart_of(Hill(space, middle, wide), middle, found, (), 0, SMALL))
    assert {chart.across, chart.up} == {space.controls[0], space.controls[2]}, "the narrowest two"
    centre = SMALL.side // 2
    assert chart.cells[centre][centre] == 1.0
    told = {s.control: s for s in slack_of(found)}
    assert told["follow_through"].less is None
    assert told["ball_position"].more == pytest.approx(found[1].far * 100, abs=0.01)


# ---- the library


@pytest.mark.parametrize("name", NAMES)
def test_a_built_in_is_solved_by_a_matched_set_up_and_not_by_leaving_it(name: str) -> None:
    made = load_library(name)
    found = proved(made, SMALL)
    assert any(f.solvable and f.matched for f in found.families)
    assert found.default_chance < LUCKY
    assert found.random_chance < LUCKY
    assert found.warnings == ()
    assert found.rewards_match == ("yes" if "lean_change" in made.open_controls else "cannot tell")
    assert found.digest == made.digest
    best = found.best
    assert best is not None
    assert best.chance_low is not None
    assert best.chance_high is not None
    assert best.chance_low < (best.chance or 0.0) < best.chance_high


def test_same_seed_same_proof_on_any_number_of_threads(proof: Proof, monkeypatch: pytest.MonkeyPatch) -> None:
    made = load_library(TWO)
    monkeypatch.setattr(search, "WORKERS", 1)
    assert proved(made, SMALL) == proof
    monkeypatch.setattr(search, "WORKERS", 5)
    assert proved(made, SMALL) == proof
    other = proved(made, SMALL, seed=1)
    assert other != proof
    assert other.seed == 1


def test_the_best_set_up_is_in_reach_and_judged_by_strokes_of_its_own(proof: Proof) -> None:
    """What the file says is played again with other strokes: the share lies where the interval says.

    A share of 2,000 strokes is known to 0.011; three of that beside the interval.
    """
    made = load_library(TWO)
    best = proof.best
    assert best is not None
    again = made.model_copy(update={"reference": best.best})
    shot = Scenario.model_validate(again.model_dump(exclude_none=True)).reference_shot()
    assert shot is not None
    facts = cloud_facts(made.goal, made.course(), *shot, PLAYERS[made.player], 987, 2000)
    share = float(goals_met(made.goal, facts).mean())
    assert (best.chance_low or 0.0) - 0.033 <= share <= (best.chance_high or 1.0) + 0.033


def test_brute_force_finds_nothing_better() -> None:
    """Two open controls on a grid of 21 x 21: its best, judged by fresh strokes, is no better than ours."""
    made = load_library(TWO)
    assert len(made.open_controls) == 2
    assert not made.clubs
    space = space_of(made)
    ground = Range(made, space)
    axes = [np.linspace(a, b, 21) for a, b in zip(space.low, space.high, strict=True)]
    grid = [Point(space.clubs[0], (float(a), float(b))) for a in axes[0] for b in axes[1]]
    first = sorted((ground.met(p, 50, 16) for p in grid), key=lambda f: -f.share)[:12]
    best = max((ground.met(f.point, 51, 120) for f in first), key=lambda f: f.share).point
    judged = ground.met(best, 52, 500)
    low, high = interval(round(judged.share * 500), 500)
    ours = proved(made, FULL).best
    assert ours is not None
    assert (ours.chance_high or 0.0) >= low
    assert (ours.chance_low or 1.0) <= high
    assert (ours.chance or 0.0) >= judged.share - 0.06


def test_parts_rise_tell_what_is_done_and_may_be_dropped() -> None:
    made = load_library(TWO)
    parts = list(prove(made, TINY))
    shares = [p.share for p in parts]
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
    assert shares[-2] > 0.5
    assert len(parts) > 15
    assert all(p.words.endswith(".") for p in parts)
    assert [p.proof is None for p in parts] == [True] * (len(parts) - 1) + [False]
    steps = prove(made, TINY)
    assert next(iter(steps)).proof is None
    steps.close()  # type: ignore[attr-defined]
    assert list(steps) == []


def test_dear_strokes_are_spent_thriftily() -> None:
    cost = {name: cost_of(load_library(name).course()) for name in NAMES}
    assert cost["harrow-fen-fried-egg"] > 1.0
    assert cost["harrow-fen-under-the-willow"] > cost["harrow-fen-fried-egg"]
    assert sum(c == 1.0 for c in cost.values()) > 20
    spent = [e.draw * e.draw_strokes + e.judged for e in (FULL.at_cost(c) for c in (1.0, 3.0, 30.0))]
    assert spent == sorted(spent, reverse=True)
    assert FULL.at_cost(0.5) == FULL
    for effort in (FULL, SMALL):
        least: Effort = effort.at_cost(1e6)
        assert min(least.rounds) > 0
        assert least.side >= 3


# ---- faults are told


def changed(made: Scenario, **keys: object) -> Scenario:
    return Scenario.model_validate(made.model_dump(exclude_none=True) | keys)


def test_what_nobody_can_do_is_told() -> None:
    made = load_library(TWO)
    hard = changed(made, goal={"leave_m": 0.05, "shots": 5, "successes": 5})
    told = proved(hard, TINY).warnings
    assert told[0].startswith("Nobody can be expected to pass")
    assert any(w.startswith("The reference meets the goals only") for w in told)


def test_what_everybody_does_is_told() -> None:
    easy = changed(load_library(TWO), goal={"leave_m": 20.0})
    found = proved(easy, TINY)
    assert found.random_chance > 0.8
    subjects = [warning.split(" meets")[0] for warning in found.warnings]
    assert subjects == ["A set-up taken at random", "The default set-up"]


def test_a_scenario_with_nothing_open_is_judged_as_it_is() -> None:
    made = load_library(TWO).model_dump(exclude_none=True)
    for key in ("limits", "reference"):
        made.pop(key)
    found = proved(Scenario.model_validate(made | {"open_controls": []}), TINY)
    assert [f.reachable for f in found.families].count(True) == 1
    assert found.chart is None
    assert found.slack == ()
    assert found.best is None or found.best.chance == pytest.approx(found.default_chance, abs=0.1)


def test_a_handle_that_has_to_come_back_elsewhere_is_told() -> None:
    made = load_library("harrow-fen-steady-handle")
    spans = made.limits.model_dump(exclude_none=True) | {"lean_change_deg": [4.0, 9.0]}
    motion = made.default_motion.model_dump() | {"lean_change_deg": 5.0}
    loose = changed(made, limits=spans, default_motion=motion, goal={"leave_m": 15.0}, reference=None)
    assert [r.name for r in regions_of(space_of(loose))] == list(FAMILIES)
    found = proved(loose, TINY)
    assert not any(f.matched for f in found.families)
    assert found.rewards_match == "cannot tell"
    assert found.warnings[0].startswith("Only an unmatched set-up passes")


def test_warnings_follow_the_numbers(proof: Proof) -> None:
    made = load_library(TWO)
    assert warnings_of(made, proof) == ()
    lucky = proof.model_copy(update={"default_chance": 0.6, "reference_chance": 0.31})
    assert len(warnings_of(made, lucky)) == 2
    assert "31 times in 100" in warnings_of(made, lucky)[1]
    assert made.reference is not None
    high = made.model_copy(update={"reference": made.reference.model_copy(update={"family": "high"})})
    assert "is called high" in warnings_of(high, proof)[0]
    assert "does as well" in warnings_of(made, proof.model_copy(update={"rewards_match": "no"}))[0]
    weak = tuple(f.model_copy(update={"solvable": False, "pass_chance": 0.3}) for f in proof.families)
    assert "hard" in warnings_of(made, proof.model_copy(update={"families": weak}))[0]
    apart = proof.model_copy(update={"families": weak, "unmatched_chance": 0.99})
    assert warnings_of(made, apart)[0].startswith("Only an unmatched")


def test_matching_wins_by_a_clear_lead_only(proof: Proof) -> None:
    best = proof.best
    assert best is not None
    chance = best.chance or 0.0
    assert rewards_match(proof.families, None) == "cannot tell"
    assert rewards_match(proof.families, chance - 0.15) == "yes"
    assert rewards_match(proof.families, chance - 0.05) == "no"
    apart = tuple(f.model_copy(update={"matched": False}) for f in proof.families)
    assert rewards_match(apart, 0.0) == "cannot tell"


# ---- kept with the scenario


def test_a_proof_is_kept_and_read_back(proof: Proof) -> None:
    made = load_library(TWO)
    kept = made.model_copy(update={"proof": proof})
    text = scenario_text(kept)
    assert parse_scenario(text) == kept
    assert "[proof]" in text
    assert not proof_is_stale(kept)
    assert not proof_is_stale(made)
    assert max(len(line) for line in text[text.index("[proof]") :].splitlines()) < 130


def test_a_proof_of_something_else_is_stale_and_words_do_not_matter(proof: Proof) -> None:
    kept = load_library(TWO).model_copy(update={"proof": proof})
    assert not proof_is_stale(kept.model_copy(update={"title": "Another name", "hints": ()}))
    assert proof_is_stale(kept.model_copy(update={"wind_m_per_s": 3.0}))
    assert proof_is_stale(kept.model_copy(update={"player": "beginner"}))
    assert proof_is_stale(kept.model_copy(update={"goal": kept.goal.model_copy(update={"leave_m": 3.0})}))


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('effort = "small"', 'effort = "huge"', "proof.effort: 'huge' is not known here"),
        ("seed = 0", "seed = -1", "proof.seed: -1 is too small"),
        ("solvable = true", "solvable = 2", "proof.families[1].solvable: 2 is neither true nor false"),
        ("percent = [", 'percent = ["100",', "proof.chart.percent[0]: '100' has signs"),
        ("[proof.chart]", "[proof.chart]\ncolour = 1", "proof.chart.colour: is no key of this table"),
    ],
)
def test_a_bad_proof_is_told_with_line_and_key(proof: Proof, old: str, new: str, told: str) -> None:
    text = scenario_text(load_library(TWO).model_copy(update={"proof": proof}))
    start = text.index("[proof]")
    assert old in text[start:]
    with pytest.raises(ScenarioError) as caught:
        parse_scenario(text[:start] + text[start:].replace(old, new, 1))
    assert any(told in line and ", line " in line for line in caught.value.problems), caught.value.problems
