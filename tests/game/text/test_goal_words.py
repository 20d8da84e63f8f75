"""Goals, verdicts, calls and proofs in words: what is asked, what happened, in which unit, how often."""

from dataclasses import replace
from math import nan, radians
from types import SimpleNamespace

import pytest

from game.text.goals import task_sentences
from game.text.proof import chance_words, default_words, match_words
from game.text.units import YARDS
from game.text.verdict import (
    gap_label,
    gap_sentences,
    goal_clause,
    match_sentences,
    stop_sentence,
    stroke_sentences,
)
from levels.scoring import GoalMark, Match, PredictionGap, StrikeName, Verdict
from levels.teaching import Goal
from physics.results import Outcome

GOALS = (
    GoalMark("leave_m", False, 4.2), GoalMark("land_between_m", True, 3.4), GoalMark("must_clear", True, 1.0),
    GoalMark("ceiling_m", False, 1.4),
    GoalMark("strike", True, 0.003), GoalMark("match_deg", False, radians(9.0)),
)  # fmt: skip
VERDICT = Verdict(GOALS, False, 4.2, 4.2, 2.9, 2.4, Outcome.REST, StrikeName.SOLID)


def test_tasks_are_told_in_either_unit():
    goal = Goal.model_validate(
        {"leave_m": 1.5, "land_between_m": [3, 6], "must_clear": {"x_m": 6.5, "height_m": 0.8},
         "ceiling_m": 1.2, "strike": "brush", "match_deg": 3, "shots": 3, "successes": 2, "in_a_row": True}
    )  # fmt: skip
    assert task_sentences(goal) == (
        "Stop within 1.5 m of the hole.",
        "Land between 3.0 m and 6.0 m.",
        "Fly at least 0.8 m high, 6.5 m away.",
        "Keep the ball below 1.2 m.",
        "Brush the grass and leave hardly a mark.",
        "Bring the handle back within 3 degrees of where you set it.",
        "Do it twice in a row in 3 shots.",
    )
    assert task_sentences(goal, YARDS)[:3] == (
        "Stop within 1.6 yd of the hole.",
        "Land between 3.3 yd and 6.6 yd.",
        "Fly at least 2.6 ft high, 7.1 yd away.",
    )
    assert not any(c.isdigit() for told in task_sentences(goal, numbers=False) for c in told)


@pytest.mark.parametrize(("often", "told"), [(1, "once"), (2, "twice"), (3, "3 times"), (11, "11 times")])
def test_how_often_is_said_as_people_say_it(often, told):
    goal = Goal(leave_m=1.0, match_deg=1.0, shots=12, successes=often)
    assert task_sentences(goal)[-1] == f"Do it {told} in 12 shots."
    assert "within 1 degree of" in task_sentences(goal)[1]


def test_a_verdict_tells_its_goals():
    assert [goal_clause(mark, VERDICT) for mark in GOALS] == [
        "it stopped 4.2 m from the hole, past it.",
        "it landed 3.4 m away.",
        "it flew over 1.0 m high.",
        "it rose 1.4 m high.",
        "the strike was solid. The club left a mark 3 mm deep.",
        "the handle came back 9 degrees forward of where it was set.",
    ]
    assert goal_clause(GoalMark("match_deg", True, radians(-1.0)), VERDICT).endswith("where it was set.")
    none = [goal_clause(GoalMark(mark.kind, False, nan), VERDICT) for mark in GOALS[1:4]]
    assert none == ["it never landed.", "it never flew that far.", "it was not met."]
    missed = replace(VERDICT, struck=StrikeName.MISSED)
    assert goal_clause(GoalMark("strike", False, 0.0), missed).startswith("the club never met the ball.")
    assert goal_clause(GOALS[0], VERDICT, YARDS) == "it stopped 4.6 yd from the hole."


@pytest.mark.parametrize(
    ("outcome", "told"),
    [
        (Outcome.REST, "It stopped 4.2 m from the hole, past it."), (Outcome.HOLED, "It went into the hole."),
        (Outcome.WATER, "It went into the water."), (Outcome.OUT, "It went out of bounds."),
        (Outcome.LOST, "It never came to rest."), (Outcome.STUCK, "It stopped 4.2 m from the hole, past it."),
    ],
)  # fmt: skip
def test_every_ending_is_told(outcome, told):
    assert stop_sentence(replace(VERDICT, outcome=outcome)) == told


def test_strokes_and_match_are_told():
    assert stroke_sentences(VERDICT) == (
        "From there it takes 2.9 strokes in all, this one included.",
        "A matched set-up takes 2.4 on average.",
    )
    assert len(stroke_sentences(replace(VERDICT, reference_strokes=nan))) == 1
    with_match = stroke_sentences(VERDICT, Match(2.5, 2.4, 0.9, "close"))
    assert with_match[-1].endswith("the coach's takes 2.40.")
    alone = Match(2.5, nan, nan, "matched")
    assert match_sentences(alone) == ("The handle came back where you set it.",)
    assert stroke_sentences(VERDICT, alone)[-1].endswith("takes 2.50 strokes on average.")


def test_a_call_is_told_against_what_happened():
    gap = PredictionGap(-1.0, 2.0, "fat", "solid")
    assert gap_sentences(gap) == (
        "It landed 1.0 m short of your mark.",
        "It stopped 2.0 m further than your mark.",
        "You predicted fat; it was solid.",
    )
    assert gap_sentences(PredictionGap(0.0, None, "thin", "thin")) == (
        "It landed where you predicted.", "You predicted thin, and so it was.",
    )  # fmt: skip
    assert gap_sentences(PredictionGap(nan, None, None, "solid")) == ("It never landed.",)
    told = gap_sentences(gap, numbers=False)
    assert told[0] == "The ball landed short of your mark."
    assert not any(c.isdigit() for line in told for c in line)
    assert gap_label(1.2, "stopped") == "stopped 1.2 m past your mark"
    assert gap_label(1.2, "stopped", numbers=False) == "stopped past your mark"


def test_a_chance_is_told_as_how_often():
    def proof(default, chosen):
        return SimpleNamespace(default_chance=default, random_chance=chosen)

    assert default_words(proof(0.0, 0.01)) == (
        "Untouched, the starting set-up never meets the goals; one taken at random, 1 time in 100."
    )
    assert default_words(proof(0.3, 0.0)) == (
        "Untouched, the starting set-up meets the goals 3 times in 10; one taken at random, never."
    )
    never = SimpleNamespace(unmatched_chance=0.0, rewards_match="yes")
    assert match_words(never) == "Matching pays: the best unmatched set-up never meets the goals."
    assert [chance_words(share) for share in (0.0, 0.004, 0.01, 0.095, 0.5, 0.905, 0.96, 1.0)] == [
        "none of 100", "none of 100", "1 of 100", "1 of 10", "5 of 10", "9 of 10", "96 of 100", "100 of 100",
    ]  # fmt: skip
