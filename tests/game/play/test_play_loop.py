from dataclasses import astuple, fields, replace
from itertools import pairwise
from math import hypot

import numpy as np
import pytest

from game.library.progress import FILE, Past, Progress, keep_progress, kept_progress
from game.play.causes import ask_why, removals_of
from game.play.round import Step, begin, next_key, seed_of
from game.play.words import (
    NO_PREDICTION,
    gap_lines,
    goal_tally,
    result_lines,
    step_heading,
    task_lines,
    why_line,
)
from game.text.advice import ADDED_UP, CAUSES, TO_PLAN
from game.text.units import YARDS
from game.text.verdict import match_sentences, stop_sentence
from levels.files import load_library
from levels.scoring import Match, Prediction, judge, strike_word
from levels.teaching import Goal, Question, Reference
from physics.address import Intention
from physics.removal import Origin, reaching
from physics.shot import play, replay
from physics.spread import PLAYERS, Stray

NAME = "harrow-fen-plain-chip"


def scenario(**change):
    base = load_library(NAME).model_copy(
        update={"predict": ("landing", "stop", "strike"), "question": None, "hints": ("one", "two", "three"),
                "reference": Reference(shaft_lean_deg=4.0), **change}
    )  # fmt: skip
    return base


def shot_of(r, **motion):
    s = r.scenario
    return play(s.course(), r.setup, replace(r.motion, **motion), PLAYERS[s.player], r.seed)


def called(r):
    """As if everything asked had been predicted."""
    places = {"landing": 6.0, "stop": 12.0, "strike": "solid"}
    return r.called(**{what: places[what] for what in r.unset})


def to_play(r):
    while r.step is not Step.PLAY:
        r = (called(r) if r.step is Step.CALL else r).go()
    return r


def played(r, **motion):
    r = to_play(r)
    shot = shot_of(r, **motion)
    return r.played(shot, judge(r.scenario, shot))


def with_result(r, met):
    """As if a shot had been played that met the goals or not, far from the hole when not."""
    r = to_play(r)
    shot = shot_of(r)
    return r.played(shot, replace(judge(r.scenario, shot), met=met, leave=0.1 if met else 6.0))


def test_a_player_tries_first_and_a_junior_sees_an_example_first():
    assert begin(NAME, scenario()).go().step is Step.SET
    young = begin(NAME, scenario(), junior=True)
    assert young.go().step is Step.EXAMPLE
    assert young.go().go().step is Step.SET
    assert begin(NAME, scenario(reference=None), junior=True).go().step is Step.SET
    assert begin(NAME, scenario(), junior=True, past=Past(1)).go().step is Step.SET


def test_the_steps_come_in_order_and_wait_for_what_is_missing():
    r = begin(NAME, scenario()).go()
    assert r.go().step is Step.CALL
    r = r.go()
    assert r.go() is r  # nothing is predicted yet
    r = called(r).go()
    assert r.step is Step.PLAY
    assert r.go() is r  # the shot is not yet worked out
    r = with_result(r, met=False)
    assert r.choose(1) is r  # not while the ball rolls
    r = r.go()
    assert r.step is Step.RESULT
    assert r.asking
    assert r.go() is r
    r = r.choose(1)
    assert r.choose(2).chosen == 1
    assert r.again().step is Step.SET


def test_without_calls_there_is_no_gap():
    r = begin(NAME, scenario(predict=())).go()
    assert r.go().step is Step.PLAY
    r = with_result(r, met=False)
    assert r.gap is None
    assert not r.uncalled
    assert gap_lines(r) == ()
    assert r.go().step is Step.RESULT


def test_nothing_is_predicted_until_the_pupil_does_and_one_try_leaves_the_next_unset():
    r = begin(NAME, scenario()).go().go()
    assert r.unset == ("landing", "stop", "strike")
    assert r.called(stop=9.0).unset == ("landing", "strike")
    assert played(r).again().call == Prediction()


def test_a_shot_without_a_prediction_is_said_so_and_is_none_that_came_true():
    r = begin(NAME, scenario()).go().go().called(stop=9.0, strike="solid")
    r = r.skip()
    assert r.step is Step.PLAY
    shot = shot_of(r)
    r = r.played(shot, judge(r.scenario, shot))
    assert r.uncalled
    assert r.gap is None
    assert gap_lines(r) == (NO_PREDICTION,)
    assert (r.past.tries, r.past.gaps, r.past.calls) == (1, (), ())
    assert begin(NAME, scenario()).skip().step is Step.CARD


def test_calls_of_landing_and_strike_are_kept_as_come_true_or_not():
    r = begin(NAME, scenario())
    shot = shot_of(to_play(r))
    word = strike_word(shot)
    for off, strike, true in ((0.5, word, (True, True)), (-1.5, "none of these", (False, False))):
        ready = to_play(r.called(landing=shot.run.carry + off, strike=strike))
        assert ready.played(shot, judge(r.scenario, shot)).past.calls == true
    lost = replace(shot, launch=None)
    assert to_play(r).played(lost, judge(r.scenario, shot)).past.calls[0] is False  # it never landed


def test_a_good_shot_of_a_player_is_not_questioned_but_may_be():
    r = with_result(begin(NAME, scenario()), met=True).go()
    assert r.step is Step.RESULT
    assert not r.asking
    assert r.ask().asking
    assert r.ask().choose(0).chosen == 0


def test_a_junior_is_asked_until_two_go_well():
    good_once = begin(NAME, scenario(), True, Past(3, False, (False, True)))
    assert not with_result(good_once, met=True).worth_asking
    assert with_result(begin(NAME, scenario(), True), met=True).worth_asking
    assert with_result(good_once, met=False).worth_asking


def test_another_try_keeps_the_controls_and_has_a_new_seed():
    r = begin(NAME, scenario()).go().set("shaft_lean", 0.1).called(stop=9.0)
    first = played(r)
    again = first.again()
    assert again.step is Step.SET
    assert (again.setup, again.motion) == (first.setup, first.motion)
    assert again.before is first.shot
    assert first.seed == r.seed  # while it is looked at, a try keeps its seed
    assert again.seed != first.seed
    assert played(again).shot.stray != first.shot.stray


def test_a_shot_counts_once():
    r = played(begin(NAME, scenario()))
    assert r.past.tries == 1
    assert len(r.past.results) == 1
    assert r.played(r.shot, r.verdict) is r
    assert r.past.gaps == (pytest.approx(r.shot.run.rest - r.call.stop),)


def test_seeds_differ_between_tries_and_scenarios():
    seeds = [seed_of(NAME, n) for n in range(500)]
    assert len(set(seeds)) == 500
    assert seed_of("other", 0) != seed_of(NAME, 0)
    assert all(0 <= s < 2**31 for s in seeds)


def test_hints_rise_in_three_steps_and_stay():
    r = begin(NAME, scenario())
    assert r.told_hints == ()
    told = []
    for _ in range(4):
        r = r.hint()
        told.append(r.told_hints)
    assert told == [("one",), ("one", "two"), ("one", "two", "three"), ("one", "two", "three")]


def test_only_open_controls_move_and_only_within_limits():
    r = begin(NAME, scenario())
    low, high = r.scenario.limits_of("shaft_lean")
    assert r.set("shaft_lean", 9.0).setup.shaft_lean == high
    assert r.set("shaft_lean", -9.0).setup.shaft_lean == low
    assert r.set("swing_length", 0.6).motion.swing_length == 0.6
    with pytest.raises(KeyError):
        r.set("face_open", 0.1)
    assert r.take("SW").setup.club.name == "SW"
    with pytest.raises(KeyError):
        r.take("LW")


def test_the_way_back_is_open_until_the_shot():
    r = begin(NAME, scenario()).go().go()
    assert r.back().step is Step.SET
    assert r.back().back().step is Step.CARD
    assert called(r.go()).go().back() is None


def test_an_example_can_be_seen_after_the_try_and_leads_back():
    r = with_result(begin(NAME, scenario()), met=True).go()
    assert r.show_example().step is Step.EXAMPLE
    assert r.show_example().go().step is Step.RESULT
    assert begin(NAME, scenario()).show_example().step is Step.CARD


def test_strokes_of_the_tally_count_what_the_goal_counts():
    row = Goal(leave_m=1.0, shots=5, successes=3, in_a_row=True)
    assert goal_tally(row, (True, False, True, True)).words == "2 of 3, in a row"
    assert goal_tally(row, (True, False, True, True)).marks == (True, True, None)
    assert goal_tally(row, (True, True, True, False)).words == "3 of 3, in a row"  # passed within the five
    some = Goal(leave_m=1.0, shots=5, successes=3)
    assert goal_tally(some, (True, False)).marks == (True, False, None, None, None)
    assert goal_tally(some, (True, False)).words == "1 of 3, in the last 5 shots"
    assert goal_tally(Goal(leave_m=1.0), ()).words == "0 of 1"


def test_the_next_scenario():
    assert next_key(("a", "b"), "a") == "b"
    assert next_key(("a", "b"), "b") is None


# ---- causes


def right_of(shot):
    asked = ask_why(shot)
    return asked.choices[asked.right - 1]


def test_the_asked_cause_of_a_set_up_is_the_part_out_of_place():
    r = to_play(begin(NAME, scenario()))
    course, exact = r.scenario.course(), PLAYERS["exact"]
    good = Intention(r.setup, r.motion)
    reach = reaching(course, exact)(good)
    good = good.with_value("swing_length", reach)
    for name, value, words in (
        ("swing_length", 2.0 * reach, "The swing was too long for this hole."),
        ("swing_length", 0.5 * reach, "The swing was too short for this hole."),
        ("depth", 0.018, "The club was aimed too deep."),
    ):
        wrong = good.with_value(name, value)
        assert right_of(play(course, wrong.setup, wrong.motion, exact, 0)) == words


def test_the_right_cause_is_what_alone_recovers_most_when_the_whole_shot_is_played_again():
    """Not the kept replay of the question itself: recorded shots, with each part of the stray left out."""
    r = begin(NAME, scenario())
    course, spread, asked = r.scenario.course(), PLAYERS["beginner"], 0
    for seed in range(40):
        shot = play(course, r.setup, r.motion, spread, seed)
        own = np.array(astuple(shot.stray))
        leaves = {}
        for i, f in enumerate(fields(Stray)):
            row = own.copy()
            row[i] = 1.0 if f.name == "speed" else 0.0
            again = replay(course, r.setup, r.motion, spread, seed, row)
            leaves[f.name] = hypot(course.hole.x - again.run.rest, again.lateral)
        right = next(c for c in (*CAUSES, ADDED_UP, TO_PLAN) if c.words == right_of(shot))
        if right.origin is Origin.STRAYED and right.component:
            asked += 1
            assert leaves[right.component] < hypot(course.hole.x - shot.run.rest, shot.lateral) + 1e-9
    assert asked >= 10


def test_wrong_causes_are_wrong_by_replay():
    r = begin(NAME, scenario())
    seen = set()
    for seed in range(40):
        shot = play(r.scenario.course(), r.setup, r.motion, PLAYERS["beginner"], seed)
        asked, removals = ask_why(shot), removals_of(shot)
        known = {(x.origin, x.component): x for x in removals}
        for i, words in enumerate(asked.choices, 1):
            cause = next(c for c in (*CAUSES, ADDED_UP, TO_PLAN) if c.words == words)
            seen.add(words)
            found = known.get((cause.origin, cause.component))
            if i != asked.right and found is not None and cause.way:
                same_way = cause.way == (1 if found.was > found.back else -1)
                assert not same_way or found.gain < 0.01
    assert any("too long" in w for w in seen)
    assert any("too short" in w for w in seen)


def test_the_length_of_the_swing_is_always_among_the_causes():
    r = begin(NAME, scenario())
    lengths = {c.words for c in CAUSES if c.effect == "length"}
    for seed in range(12):
        shot = play(r.scenario.course(), r.setup, r.motion, PLAYERS["beginner"], seed)
        assert lengths & set(ask_why(shot).choices), seed


def test_nothing_is_blamed_where_nothing_strayed():
    r = to_play(begin(NAME, scenario()))
    course, exact = r.scenario.course(), PLAYERS["exact"]
    good = Intention(r.setup, r.motion)
    good = good.with_value("swing_length", reaching(course, exact)(good))
    assert right_of(play(course, good.setup, good.motion, exact, 0)) == TO_PLAN.words


def test_the_place_of_the_right_cause_varies():
    r = begin(NAME, scenario())
    course = r.scenario.course()
    places = {ask_why(play(course, r.setup, r.motion, PLAYERS["exact"], seed)).right for seed in range(3)}
    assert places == {1, 2, 3}


def test_a_scenarios_own_question_comes_first():
    own = Question(ask="Why?", choices=("a", "b", "c"), right=2)
    assert played(begin(NAME, scenario(question=own))).question == own


# ---- words


def short(sentence):
    return len(sentence.split()) <= 12 and not any(c.isdigit() for c in sentence)


def test_a_junior_reads_short_sentences_without_numbers():
    for step in Step:
        assert short(step_heading(step, True))
    goal = Goal(leave_m=1.0, strike="brush", land_between_m=(2.0, 3.0), match_deg=3.0, shots=5, successes=3)
    assert len(task_lines(goal, True, numbers=False)) == 5
    for seed in range(8):
        r = to_play(begin(NAME, scenario(), True))
        shot = play(r.scenario.course(), r.setup, r.motion, PLAYERS["beginner"], seed)
        verdict = judge(r.scenario, shot)
        r = r.played(shot, verdict)
        lines = [*gap_lines(r, numbers=False), *result_lines(r, verdict, numbers=False),
                 *match_sentences(Match(2.5, 2.4, 0.9, "close")),
                 *task_lines(goal, True, numbers=False)]  # fmt: skip
        assert all(short(line) for line in lines), lines
    assert any(c.isdigit() for line in gap_lines(r, numbers=True) for c in line)


def test_match_words_fall_with_the_share():
    words = [match_sentences(Match(2.5, 2.4, s, "matched"))[0] for s in (1.0, 0.85, 0.6, 0.1)]
    assert all(a != b for a, b in pairwise(words))


def test_a_result_tells_the_goals_and_where_the_ball_ended():
    r = played(begin(NAME, scenario(goal=Goal(leave_m=1.0, strike="solid"))))
    strike, stop = result_lines(r, r.verdict)
    assert strike.startswith(("Strike done: the ", "Strike not yet: the "))
    assert stop == stop_sentence(r.verdict)
    assert result_lines(r, r.verdict, yards=True)[-1] == stop_sentence(r.verdict, YARDS)


def test_counts_are_in_letters_where_numbers_are_not_shown():
    row = Goal(leave_m=1.0, shots=5, successes=3, in_a_row=True)
    assert goal_tally(row, (True, True), numbers=False).words == "Two of three, in a row"
    assert goal_tally(row, (True, True), numbers=False).marks == goal_tally(row, (True, True)).marks
    some = Goal(leave_m=1.0, shots=5, successes=3)
    assert goal_tally(some, (), numbers=False).words == "None of three, in the last five shots"


def test_a_scenarios_own_question_is_asked_once_and_never_of_a_good_shot():
    """It speaks of the set-up the scenario starts from; later shots are asked about themselves."""
    own = Question(ask="Why?", choices=("a", "b", "c"), right=2)
    r = played(begin(NAME, scenario(question=own)))
    missed, good = (replace(r, verdict=replace(r.verdict, met=met)) for met in (False, True))
    assert missed.question == own
    assert not missed.asks_the_shot
    assert good.question == ask_why(good.shot)
    answered = replace(missed, step=Step.RESULT, asking=True).choose(0)
    assert answered.question == own
    again = played(answered.again())
    assert again.question == ask_why(again.shot)
    unanswered = played(replace(missed, step=Step.RESULT).again())
    assert replace(unanswered, verdict=missed.verdict).question == own


def test_what_is_said_of_a_cause_claims_only_what_was_asked():
    assert why_line(True, "x", True) == "Yes, that is what the shot shows."
    assert "shot" not in why_line(True, "x", False)
    assert why_line(False, "It dug.", False) == "There is another cause. It dug."


# ---- what is kept


def test_progress_comes_back_as_it_was_kept(tmp_path):
    past = Past().after(True, False, 0.4).after(False, True, float("nan"))
    kept = Progress().with_past(NAME, past)
    assert keep_progress(tmp_path / "new", kept) == ""
    assert kept_progress(tmp_path / "new") == (kept, "")
    assert past == Past(2, True, (True, False), (0.4,))
    assert list((tmp_path / "new").iterdir()) == [tmp_path / "new" / FILE.name]


@pytest.mark.parametrize(
    "text", ["{", "[]", '{"format": 2, "scenarios": {}}', '{"format": 1}', "[" * 100_000]
)
def test_a_bad_file_is_set_aside_with_one_sentence(tmp_path, text):
    (tmp_path / FILE.name).write_text(text)
    progress, problem = kept_progress(tmp_path)
    assert progress == Progress()
    assert problem.endswith("progress starts afresh.")
    assert (tmp_path / "progress.bad.json").read_text() == text
    assert kept_progress(tmp_path) == (Progress(), "")


@pytest.mark.parametrize(
    "entry",
    ['{"tries": -1}', '{"tries": 1, "done": 1, "results": [], "stop_gaps_m": []}',
     '{"tries": 1, "done": true, "results": [1], "stop_gaps_m": []}',
     '{"tries": 1, "done": true, "results": [], "stop_gaps_m": [NaN]}'],
)  # fmt: skip
def test_an_odd_entry_costs_only_itself(tmp_path, entry):
    good = '{"tries": 3, "done": true, "results": [true], "stop_gaps_m": [0.5]}'
    text = f'{{"format": 1, "scenarios": {{"a": {good}, "b": {entry}}}}}'
    (tmp_path / FILE.name).write_text(text)
    progress, problem = kept_progress(tmp_path)
    assert progress == Progress({"a": Past(3, True, (True,), (0.5,))})
    assert "'b' is odd" in problem
    assert problem.endswith("the rest of your progress is used.")
    assert (tmp_path / "progress.bad.json").read_text() == text
    assert kept_progress(tmp_path) == (progress, "")


def test_the_kept_past_stays_small():
    past = Past()
    for i in range(500):
        past = past.after(True, False, float(i))
    assert past.tries == 500
    assert len(past.results) == 20
    assert past.gaps[-1] == 499.0
    assert len(past.gaps) == 200


def test_a_disk_that_refuses_is_told(tmp_path):
    (tmp_path / "home").write_text("a file, no folder")
    assert keep_progress(tmp_path / "home", Progress()).startswith("Your progress could not be kept")
