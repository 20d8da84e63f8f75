"""Proofs: the built-in scenarios can be done as meant, and what is said of them is what strokes say.

Outside checks: binomial tails and Wilson intervals of scipy.stats, discrepancy of scipy.stats.qmc, brute
force over a scenario with two open controls.
"""

from collections.abc import Generator, Sequence
from dataclasses import replace
from itertools import product
from math import degrees, exp, log, nan, radians, sqrt

import numpy as np
import pytest
from scipy import stats

from levels import search
from levels.closeness import NEAR_MISS, closeness
from levels.effort import FULL, SMALL, Effort, cost_of
from levels.facts import CLEAN_GAP, cloud_facts, goals_met, passed
from levels.families import (
    BORDER,
    FAMILIES,
    HIGH_FROM,
    LOW_BELOW,
    SOFT,
    Intended,
    Kinds,
    apart_from,
    family_of,
    is_matched,
)
from levels.files import ScenarioError, library, load_library, parse_scenario, scenario_text
from levels.forgiveness import chart_of, reaches, slack_of
from levels.odds import interval, pass_chance
from levels.proof import Proof
from levels.proof_words import LUCKY, before_sharing, rewards_match, warnings_of
from levels.prove import proof_is_stale, prove, proved
from levels.regions import regions_of
from levels.scenario import Scenario
from levels.search import Candidate, Space, Trial, Trials, evenly, space_of
from levels.teaching import Goal
from physics.address import Motion, Setup
from physics.equipment import BAG
from physics.spread import PLAYERS

NAMES = library()
TINY = replace(
    SMALL, draw=30, start=4, rounds=(6,), children=4, finalists=1, chosen=12, judged=50, near=4, side=3
)
TWO = "harrow-fen-two-tees"
CLUBS = ("7i", "8i", "9i", "PW", "GW", "SW", "LW")
NEAR = 1.0  # degrees a built-in reference may bring the handle back off


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
    for name in NAMES:
        made = load_library(name)
        shot = made.reference_shot()
        assert shot is not None
        assert made.reference is not None
        meant = Kinds(made.course()).intended(*shot)
        assert family_of(meant) == made.reference.family, name
        assert apart_from(made.reference.family, meant) == 0.0
        assert abs(degrees(meant.lean_added)) <= NEAR, name


def meant(landing_deg: float, roll: float = 0.5, added_deg: float = 0.0) -> Intended:
    return Intended(radians(added_deg), radians(landing_deg), roll)


def test_kinds_follow_how_the_ball_lands_and_rolls() -> None:
    low, high = degrees(LOW_BELOW), degrees(HIGH_FROM)
    assert LOW_BELOW < HIGH_FROM
    cases = {low - 0.1: "low", low + 0.1: "standard", high - 0.1: "standard", high + 0.1: "high"}
    assert {at: family_of(meant(at)) for at in cases} == cases
    assert family_of(meant(high + 5.0, roll=SOFT + 0.1)) == "standard", "steep but running is not soft"
    never = Intended(0.0, nan, nan)
    assert family_of(never) == "standard"
    assert all(apart_from(family, never) == 90.0 for family in FAMILIES)
    edge = degrees(BORDER)
    for family, at, off in (
        ("low", low + edge, 0.0), ("low", low + edge + 5.0, 5.0), ("standard", low - edge - 4.0, 4.0),
        ("standard", high + edge + 2.0, 2.0), ("high", high - edge, 0.0), ("high", 20.0, high - edge - 20.0),
    ):  # fmt: skip
        assert apart_from(family, meant(at)) == pytest.approx(off, abs=1e-9), (family, at)  # type: ignore[arg-type]


def test_matched_is_what_the_motion_brings_against_what_was_set() -> None:
    assert is_matched(meant(40.0, added_deg=3.0))
    assert is_matched(meant(40.0, added_deg=-3.0))
    assert not is_matched(meant(40.0, added_deg=3.1))
    assert not is_matched(meant(40.0, added_deg=-3.1))
    kinds = Kinds(load_library(TWO).course())
    setup = Setup(BAG["GW"], ball_position=-0.02, shaft_lean=radians(5.0))
    plain = kinds.intended(setup, Motion())
    assert is_matched(plain)
    habit = kinds.intended(setup, Motion(lean_change=radians(7.0)))
    assert habit.lean_added == pytest.approx(plain.lean_added + radians(7.0), abs=1e-9)
    assert habit.landing < plain.landing, "lean taken to the ball takes loft from it"


def test_the_same_motion_lands_steeper_with_more_loft_and_more_of_it_opened() -> None:
    kinds = Kinds(load_library(TWO).course())
    lofts = [kinds.intended(Setup(BAG[club], shaft_lean=radians(5.0)), Motion()).landing for club in CLUBS]
    assert lofts == sorted(lofts)
    assert family_of(kinds.intended(Setup(BAG["7i"], shaft_lean=radians(5.0)), Motion())) == "low"
    assert family_of(kinds.intended(Setup(BAG["GW"], shaft_lean=radians(5.0)), Motion())) == "standard"
    opened = [
        kinds.intended(Setup(BAG["SW"], shaft_lean=0.0, face_open=radians(a)), Motion()).landing
        for a in (0.0, 10.0, 20.0)
    ]
    assert opened == sorted(opened)


def test_every_set_up_is_of_one_region() -> None:
    made = load_library("harrow-fen-short-sided")
    space = space_of(made)
    kinds = Kinds(made.course())
    regions = regions_of(space, kinds)
    assert [r.name for r in regions] == [*FAMILIES, "back far", "on far", "back", "on"]
    assert [r.family for r in regions] == [*FAMILIES, None, None, None, None]
    assert [r.far for r in regions] == [False, False, False, True, True, False, False]
    for point in (space.at(u) for u in evenly(60, len(space.controls) + 1, 0)):
        shot = space.shot(point)
        (home,) = [r for r in regions if r.holds(*shot)]
        added = degrees(kinds.intended(*shot).lean_added)
        assert (home.family is not None) == (abs(added) <= 3.0 + 1e-9)
        assert home.far == (abs(added) > 6.0)
        if home.family is None:
            assert home.name.startswith("on" if added > 0.0 else "back")


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
    assert not space.holds(Candidate("7i", points[0].values))
    assert not space.holds(Candidate(points[0].club, (9.0, *points[0].values[1:])))


def test_closeness_rises_toward_the_goals_and_says_one_where_they_are_met() -> None:
    made = load_library(TWO)
    shot = made.reference_shot()
    assert shot is not None
    course, spread = made.course(), PLAYERS[made.player]
    facts = cloud_facts(made.goal, course, *shot, spread, 0, 200)
    close, met = closeness(made.goal, facts), goals_met(made.goal, facts)
    assert (close[met] == 1.0).all()
    assert (close[~met] <= NEAR_MISS).all()
    clean = ~met & facts.solid & (np.abs(facts.struck_gap) < CLEAN_GAP)
    order = np.argsort(facts.leave[clean])
    assert np.corrcoef(facts.leave[clean][order], close[clean][order])[0, 1] < -0.5


class Hill(Trials):
    """A range whose chance is a known hill over the controls: no strokes are played."""

    def __init__(self, space: Space, top: Candidate, wide: Sequence[float]) -> None:
        self.space, self.top, self.wide, self.played = space, top, wide, 0

    def met(self, point: Candidate, seed: int, count: int) -> Trial:
        off = [(a - b) / w for a, b, w in zip(point.values, self.top.values, self.wide, strict=True)]
        share = exp(-sum(v * v for v in off))
        return Trial(point, share, share)


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
    middle = Candidate("LW", tuple((0.5 * (np.array(space.low) + np.array(space.high))).tolist()))
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
    assert found.rewards_match == "yes"
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
    ground = Trials(made, space)
    axes = [np.linspace(a, b, 21) for a, b in zip(space.low, space.high, strict=True)]
    grid = [Candidate(space.clubs[0], (float(a), float(b))) for a in axes[0] for b in axes[1]]
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
    assert 1.0 < cost["harrow-fen-sheepfold-wall"] <= cost["harrow-fen-fried-egg"]
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
    assert any(w.startswith("The coach's set-up meets the goals only") for w in told)


def test_what_everybody_does_is_told() -> None:
    easy = changed(load_library(TWO), goal={"leave_m": 20.0})
    found = proved(easy, TINY)
    assert found.random_chance > 0.8
    subjects = [warning.split(" meets")[0] for warning in found.warnings]
    assert subjects[-2:] == ["A set-up taken at random", "The default set-up"]
    assert found.rewards_match == "no"
    assert "does as well" in subjects[0]


def test_a_scenario_with_nothing_open_is_judged_as_it_is() -> None:
    made = load_library(TWO).model_dump(exclude_none=True)
    told = made.pop("reference")
    made.pop("limits")
    made["default_setup"]["ball_position_cm"] = told["ball_position_cm"]
    made["default_motion"]["swing_length_deg"] = told["swing_length_deg"]
    found = proved(Scenario.model_validate(made | {"open_controls": []}), TINY)
    assert [f.reachable for f in found.families] == [family == told["family"] for family in FAMILIES]
    assert found.chart is None
    assert found.slack == ()
    assert found.best is not None
    assert found.best.chance == pytest.approx(found.default_chance, abs=0.1)
    assert found.rewards_match == "cannot tell", "nothing else can be set"


def test_a_handle_that_has_to_come_back_elsewhere_is_told() -> None:
    """Lean always added and none allowed at address: no matched set-up is left."""
    made = load_library("harrow-fen-plain-chip")
    spans = {"shaft_lean_deg": [-2.0, 3.0], "lean_change_deg": [4.0, 9.0]}
    spans = made.limits.model_dump(exclude_none=True) | spans
    motion = made.default_motion.model_dump() | {"lean_change_deg": 5.0}
    setup = made.default_setup.model_dump() | {"shaft_lean_deg": 2.0}
    loose = changed(
        made, limits=spans, default_setup=setup, default_motion=motion, goal={"leave_m": 15.0}, reference=None
    )
    found = proved(loose, TINY)
    assert not any(f.reachable for f in found.families)
    assert found.best is None
    assert (found.unmatched_chance or 0.0) > 0.5
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
    once = proof.model_copy(update={"default_chance": 0.004, "random_chance": 0.3, "reference_chance": 0.01})
    assert warnings_of(made, once)[-1] == "The coach's set-up meets the goals only 1 time in 100."
    assert "is called high" in warnings_of(high, proof)[0]
    assert "does as well" in warnings_of(made, proof.model_copy(update={"rewards_match": "no"}))[0]
    weak = tuple(
        f.model_copy(update={"solvable": False, "chance": 0.3, "pass_chance": 0.2}) for f in proof.families
    )
    assert "hard" in warnings_of(made, proof.model_copy(update={"families": weak}))[0]
    apart = proof.model_copy(update={"families": weak, "unmatched_chance": 0.99})
    assert warnings_of(made, apart)[0].startswith("Only an unmatched")


def test_what_is_unproved_stale_unsolvable_or_better_unmatched_is_told_before_sharing(proof: Proof) -> None:
    made = load_library(TWO)

    def told(**changes: object) -> tuple[str, ...]:
        return before_sharing(made.model_copy(update={"proof": proof.model_copy(update=changes)}))

    assert told() == ()
    assert before_sharing(made) == (), "the test above proves every built-in"
    assert before_sharing(changed(made, firmness=1.2))[0].startswith("It is not proved")
    assert told(digest="0" * 16) == ("Its proof is of an earlier version of it: prove it again.",)
    assert "does as well" in told(rewards_match="no")[0]
    none = tuple(f.model_copy(update={"solvable": False, "pass_chance": 0.0}) for f in proof.families)
    assert "Nobody can be expected to pass" in told(families=none)[0]
    assert told(warnings=("Odd.", "Odd.")) == ("Odd.",)


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
        ("solvable = true", "solvable = 2", "proof.families[0].solvable: 2 is neither true nor false"),
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
