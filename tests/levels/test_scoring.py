"""Marks: every goal measured and judged, strokes and match against the reference, gaps to what was called."""

from dataclasses import FrozenInstanceError, replace
from math import degrees, isnan, log, nan, radians

import numpy as np
import pytest
from test_scenario import plain

from levels.closeness import closeness
from levels.facts import CLEAN_GAP, Facts, cloud_facts, goals_met, meets, passed, shot_facts
from levels.files import load_library, parse_scenario, scenario_text
from levels.reading import ScenarioError
from levels.scenario import Scenario
from levels.scoring import (
    Prediction,
    StrikeName,
    judge,
    match,
    prediction_gap,
    reference_cloud,
    strike_name,
    strike_word,
)
from levels.teaching import Goal
from physics.cause import lean_match
from physics.putting import PUTTERS, strokes_left
from physics.results import Contact, Meeting, Outcome, Shot, TurfAction
from physics.shot import play, replay
from physics.spread import PLAYERS, draw_strays


@pytest.fixture(scope="module")
def chip() -> Scenario:
    return load_library("harrow-fen-plain-chip")


@pytest.fixture(scope="module")
def good(chip: Scenario) -> Shot:
    matched = chip.reference_shot()
    assert matched is not None
    return play(chip.course(), *matched)


@pytest.fixture(scope="module")
def careless(chip: Scenario) -> Shot:
    return play(chip.course(), chip.setup(), chip.motion())


def ended(shot: Shot, outcome: Outcome, rest: float) -> Shot:
    return replace(shot, run=replace(shot.run, outcome=outcome, rest=rest), lateral=0.0)


def met(shot: Shot, **goal: object) -> bool:
    asked = Goal.model_validate(goal)
    return bool(goals_met(asked, shot_facts(asked, shot))[0])


def test_each_goal_has_its_edge(good: Shot) -> None:
    hole = 12.0
    near = ended(good, Outcome.REST, hole - 1.0)
    assert met(near, leave_m=1.001)
    assert not met(near, leave_m=0.999)
    assert met(replace(near, lateral=0.5), leave_m=1.119)  # hypot(1, 0.5) = 1.118
    assert not met(replace(near, lateral=0.5), leave_m=1.117)
    carry = good.run.carry
    assert met(good, land_between_m=[carry - 0.01, carry + 0.01])
    assert not met(good, land_between_m=[carry + 0.01, carry + 1])
    flat = replace(good, strike=replace(good.strike, lean=good.setup.shaft_lean + radians(2.0)))
    assert met(flat, match_deg=2.01)
    assert not met(flat, match_deg=1.99)


def test_strike_goals_ask_more_and_more(good: Shot) -> None:
    """Every strike goal asks for a solid one; clean for the distance, brush for the turf, splash for sand."""

    def struck(gap: float, depth: float, contact: Contact = Contact.SOLID, solid: bool = True) -> Shot:
        k = replace(good.strike, contact=contact, solid=solid, struck_gap=gap, depth=depth)
        return replace(good, strike=k)

    cases = {
        "solid": struck(-0.2, 0.02), "clean": struck(-0.05, 0.02), "brush": struck(0.2, 0.002),
        "splash": struck(-0.2, 0.02, Contact.SPLASHED),
    }  # fmt: skip
    fits = {kind: {one for one, shot in cases.items() if met(shot, strike=kind)} for kind in cases}
    assert fits == {"solid": set(cases), "clean": {"clean"}, "brush": {"brush"}, "splash": {"splash"}}
    assert not any(met(struck(0.0, 0.0, Contact.SPLASHED, False), strike=kind) for kind in cases)
    assert log(0.9) > -CLEAN_GAP - 0.011, "clean is within about a tenth of the distance"
    assert met(struck(-CLEAN_GAP + 1e-6, 0.02), strike="clean")
    assert not met(struck(CLEAN_GAP + 1e-6, 0.02), strike="clean")


def test_height_over_a_place_is_that_of_the_flight(good: Shot) -> None:
    at = 0.5 * good.run.carry
    goal = Goal.model_validate({"must_clear": {"x_m": at, "height_m": 0.1}})
    height = shot_facts(goal, good).height[0]
    assert 0.5 * good.run.apex < height <= good.run.apex + 1e-3
    beyond = Goal.model_validate({"must_clear": {"x_m": good.run.carry + 0.3, "height_m": 0.02}})
    assert isnan(shot_facts(beyond, good).height[0])
    assert not met(good, must_clear={"x_m": good.run.carry + 0.3, "height_m": 0.02})


def test_a_ceiling_is_kept_by_the_highest_point_of_the_flight(chip: Scenario, good: Shot) -> None:
    apex = good.run.apex
    assert shot_facts(Goal(ceiling_m=1.0), good).apex[0] == pytest.approx(apex, abs=2e-3)
    assert met(good, ceiling_m=apex + 0.01)
    assert not met(good, ceiling_m=apex - 0.01)
    (mark,) = judge(chip.model_copy(update={"goal": Goal(ceiling_m=apex + 0.01)}), good).goals
    assert (mark.kind, mark.met, mark.value) == ("ceiling_m", True, pytest.approx(apex, abs=2e-3))


def test_a_ceiling_is_read_from_a_file_and_written_back(chip: Scenario) -> None:
    text = scenario_text(chip).replace("[goal]\n", "[goal]\nceiling_m = 1.25\n")
    read = parse_scenario(text)
    assert read.goal.ceiling_m == 1.25
    assert parse_scenario(scenario_text(read)) == read
    assert read.digest != chip.digest
    with pytest.raises(ScenarioError, match=r"goal.ceiling_m: 0.0 is too small; allowed: greatest height"):
        parse_scenario(text.replace("1.25", "0.0"))


@pytest.mark.parametrize("player", ["exact", "club"])
def test_a_cloud_keeps_below_a_ceiling_where_its_replays_do(chip: Scenario, good: Shot, player: str) -> None:
    goal, spread = Goal(ceiling_m=0.75 * good.run.apex), PLAYERS[player]
    many = cloud_facts(goal, chip.course(), good.setup, good.motion, spread, 5, 8)
    shots = [
        replay(chip.course(), good.setup, good.motion, spread, 5, one) for one in draw_strays(spread, 5, 8)
    ]
    assert many.apex == pytest.approx([shot_facts(goal, s).apex[0] for s in shots], abs=2e-3, nan_ok=True)


def test_closeness_rises_as_the_ball_flies_lower(chip: Scenario, good: Shot) -> None:
    near = [
        float(closeness(goal, shot_facts(goal, good))[0])
        for goal in (Goal(ceiling_m=share * good.run.apex) for share in (0.5, 0.8, 1.01))
    ]
    assert near == sorted(near)
    assert near[-1] == 1.0
    assert near[0] < near[1] < 0.5


def test_a_cloud_of_exact_strokes_is_the_shot(chip: Scenario, good: Shot) -> None:
    over = {"x_m": 0.5 * good.run.carry, "height_m": 0.1}
    goal = Goal.model_validate({"leave_m": 1, "match_deg": 3, "must_clear": over, "strike": "brush"})
    one = shot_facts(goal, good)
    many = cloud_facts(goal, chip.course(), good.setup, good.motion, PLAYERS["exact"], 0, 3)
    for name in ("strokes", "leave", "carry", "struck_gap", "depth", "lean_off"):
        assert getattr(many, name) == pytest.approx([getattr(one, name)[0]] * 3, abs=1e-9), name
    assert many.height == pytest.approx([one.height[0]] * 3, abs=2e-3)
    assert list(many.solid) == [one.solid[0]] * 3
    assert list(many.splashed) == [one.splashed[0]] * 3


def test_a_brush_is_judged_by_the_mark_that_is_shown(chip: Scenario, good: Shot) -> None:
    """The sole goes on into the turf behind the ball: a cloud's depths are those of its strokes replayed."""
    goal, spread = Goal(strike="brush"), PLAYERS["club"]
    many = cloud_facts(goal, chip.course(), good.setup, good.motion, spread, 5, 6)
    shots = [
        replay(chip.course(), good.setup, good.motion, spread, 5, one) for one in draw_strays(spread, 5, 6)
    ]
    assert many.depth == pytest.approx([shot.strike.depth for shot in shots], abs=1e-9)
    brushed = goals_met(goal, many)
    assert [bool(goals_met(goal, shot_facts(goal, shot))[0]) for shot in shots] == list(brushed)


def test_nan_never_meets_a_goal() -> None:
    none = np.array([nan])
    yes = np.array([True])
    facts = Facts(none, none, none, yes, yes, none, none, none, none, none)
    goal = Goal.model_validate(
        {"leave_m": 20, "land_between_m": [0, 100], "must_clear": {"x_m": 1, "height_m": 0.02},
         "ceiling_m": 20, "strike": "clean", "match_deg": 15}
    )  # fmt: skip
    kinds = ("leave_m", "land_between_m", "must_clear", "ceiling_m", "strike", "match_deg")
    assert not any(meets(kind, goal, facts)[0] for kind in kinds)


@pytest.mark.parametrize(
    ("shots", "successes", "in_a_row", "results", "done"),
    [
        (1, 1, False, [], False), (1, 1, False, [True], True), (1, 1, False, [True, False], False),
        (3, 2, False, [True, False, True], True), (3, 2, True, [True, False, True], False),
        (3, 2, True, [False, True, True], True), (3, 2, False, [True, True, False, False], False),
        (4, 2, True, [False, True, True, False], True), (3, 2, False, [True, True], True),
    ],
)  # fmt: skip
def test_how_many_shots_count(
    shots: int, successes: int, in_a_row: bool, results: list[bool], done: bool
) -> None:
    goal = Goal(leave_m=1, shots=shots, successes=successes, in_a_row=in_a_row)
    assert passed(goal, results) is done


def test_a_verdict_measures_goals_leave_and_strokes(chip: Scenario, good: Shot, careless: Shot) -> None:
    fine, poor = judge(chip, good), judge(chip, careless)
    assert fine.met
    assert not poor.met
    assert [m.kind for m in poor.goals] == ["leave_m", "match_deg"]
    assert [m.met for m in poor.goals] == [False, False]
    assert poor.goals[0].value == poor.leave
    assert degrees(poor.goals[1].value) == pytest.approx(9.0, abs=0.5)
    assert (poor.outcome, poor.struck) == (careless.run.outcome, strike_name(careless))
    assert poor.past == pytest.approx(careless.run.rest - 12.0)
    assert poor.leave == pytest.approx(abs(poor.past))
    lie = "green"
    assert poor.strokes == pytest.approx(1 + strokes_left(poor.leave, lie, PUTTERS["tour"]), abs=1e-3)
    reference = reference_cloud(chip)
    assert reference is not None
    assert poor.reference_strokes == reference.mean_strokes == fine.reference_strokes
    assert fine.strokes < poor.strokes
    with pytest.raises(FrozenInstanceError):
        poor.met = True  # type: ignore[misc]


@pytest.mark.parametrize("outcome", [Outcome.HOLED, Outcome.WATER, Outcome.OUT, Outcome.LOST])
def test_every_ending_is_counted(chip: Scenario, good: Shot, outcome: Outcome) -> None:
    verdict = judge(chip, ended(good, outcome, 12.0))
    assert verdict.outcome is outcome
    assert verdict.goals[0].met == (outcome is Outcome.HOLED)
    assert verdict.strokes == 1.0 if outcome is Outcome.HOLED else verdict.strokes > 3.0


def test_a_missed_ball_meets_nothing(chip: Scenario, good: Shot) -> None:
    strike = replace(good.strike, contact=Contact.MISSED, solid=False, lean=nan, speed_at_ball=nan)
    run = replace(good.run, rest=0.0, carry=0.0, outcome=Outcome.MISSED)
    verdict = judge(chip, replace(good, strike=strike, launch=None, run=run))
    assert verdict.goals[0].value == pytest.approx(12.0)
    assert isnan(verdict.goals[1].value)
    assert verdict.struck is StrikeName.MISSED
    assert not verdict.met


def test_without_a_reference_there_is_nothing_to_compare() -> None:
    made = plain()
    shot = play(made.course(), made.setup(), made.motion())
    verdict = judge(made, shot)
    assert isnan(verdict.reference_strokes)
    assert reference_cloud(made) is None
    assert isnan(match(made, shot, 20).share)


def test_match_is_one_for_the_reference_and_less_for_a_careless_set_up(
    chip: Scenario, good: Shot, careless: Shot
) -> None:
    best, poor = match(chip, good), match(chip, careless)
    assert best.share == 1.0
    assert best.strokes == best.best
    assert 0.0 <= poor.share < 0.8
    assert poor.strokes > best.strokes + 0.3
    assert (best.lean, poor.lean) == ("matched", "fighting itself")
    assert poor.lean == lean_match(careless)


def test_match_is_nothing_for_a_stroke_that_never_gets_anywhere(chip: Scenario, good: Shot) -> None:
    high = replace(good, motion=replace(good.motion, depth=-0.01, swing_length=radians(10)))
    assert match(chip, high).share < 0.1


def test_prediction_gap_is_signed(good: Shot) -> None:
    carry, rest = good.run.carry, good.run.rest
    gap = prediction_gap(Prediction(carry + 1.0, rest - 2.0, "fat"), good)
    assert (gap.landing, gap.stop) == (pytest.approx(-1.0), pytest.approx(2.0))
    assert gap.strike_right is False
    assert (gap.strike_called, gap.strike_was) == ("fat", "solid")
    same = prediction_gap(Prediction(carry, None, "solid"), good)
    assert same.landing == 0.0
    assert same.strike_right
    assert same.stop is None
    assert prediction_gap(Prediction(), good).strike_right is None
    never = prediction_gap(Prediction(landing=3.0), replace(good, launch=None))
    assert never.landing is not None
    assert isnan(never.landing)


@pytest.mark.parametrize(
    ("contact", "turf", "outcome", "word"),
    [
        (Contact.SOLID, TurfAction.BRUSH, Outcome.REST, "solid"),
        (Contact.SOLID, TurfAction.NONE, Outcome.REST, "solid"),
        (Contact.SOLID, TurfAction.DIG, Outcome.REST, "solid"),
        (Contact.SPLASHED, TurfAction.DIG, Outcome.REST, "solid"),
        (Contact.FAT, TurfAction.SKID, Outcome.REST, "fat"),
        (Contact.TWICE, TurfAction.DIG, Outcome.REST, "twice"),
        (Contact.THIN, TurfAction.DIG, Outcome.REST, "thin"),
        (Contact.TOPPED, TurfAction.NONE, Outcome.REST, "thin"),
        (Contact.MISSED, TurfAction.NONE, Outcome.MISSED, "missed"),
        (Contact.MISSED, TurfAction.DIG, Outcome.STUCK, "fat"),
    ],
)
def test_the_words_for_a_strike(
    good: Shot, contact: Contact, turf: TurfAction, outcome: Outcome, word: str
) -> None:
    shot = replace(
        good, run=replace(good.run, outcome=outcome),
        strike=replace(good.strike, contact=contact, turf=turf, met=Meeting.EDGE),
    )  # fmt: skip
    assert strike_word(shot) == word


def test_a_ball_that_leaves_the_face_and_falls_short_is_weak_and_not_thin(good: Shot) -> None:
    short = replace(good.strike, contact=Contact.THIN, met=Meeting.FACE, struck_gap=-0.4)
    for strike, word in ((short, "weak"), (replace(short, struck_gap=0.4), "thin"),
                         (replace(short, met=Meeting.EDGE), "thin")):  # fmt: skip
        shot = replace(good, strike=strike)
        assert strike_word(shot) == strike_name(shot) == word
