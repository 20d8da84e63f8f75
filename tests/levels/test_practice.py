"""The practice plan, the strengths map and their intervals: pure functions of attempts and dates."""

import random
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from practised import START, made_up
from scipy import stats

from levels.attempts import Attempt
from levels.difficulty import EASIEST, HARDEST, at_step, step_after
from levels.files import load_library, parse_scenario, scenario_text
from levels.intervals import mean_estimate, share_estimate, t_quantile
from levels.practice import (
    BLOCK,
    REVIEW_SHOTS,
    day_plan,
    drill,
    new_distances,
    nudge,
    review_due,
    rhythm_of,
    task_days,
)
from levels.strengths import ENOUGH, shot_places, strengths

DAY = timedelta(days=1)
FIRST = date(2025, 11, 3)


def on(day: int, *results: bool, task: str = "a", part: str = "", passed: bool = False) -> list[Attempt]:
    """Attempts at a task on the n-th day."""
    when = START + day * DAY
    return [
        made_up(i, met=met, name=task, part=part, passed=passed, when=when + timedelta(minutes=i))
        for i, met in enumerate(results)
    ]


# ---- intervals


@pytest.mark.parametrize("count", [1, 2, 5, 15, 40, 333])
@pytest.mark.parametrize("share", [0.0, 0.1, 0.5, 0.8, 1.0])
def test_a_share_has_wilsons_interval(count: int, share: float) -> None:
    """SciPy, binomtest(...).proportion_ci(method="wilson")."""
    good = round(count * share)
    found = share_estimate(good, count)
    assert found
    known = stats.binomtest(good, count).proportion_ci(method="wilson")
    assert (found.low, found.high) == pytest.approx((known.low, known.high), abs=1e-12)


def test_a_mean_has_students_interval() -> None:
    """SciPy, stats.t.interval."""
    values = [random.Random(3).gauss(2.5, 0.4) for _ in range(ENOUGH)]
    values = [v + 0.1 * i for i, v in enumerate(values)]
    found = mean_estimate(len(values), sum(values), sum(v * v for v in values))
    known = stats.t.interval(0.95, len(values) - 1, stats.tmean(values), stats.sem(values))
    assert found
    assert (found.low, found.high) == pytest.approx(known, abs=2e-5)


@pytest.mark.parametrize("freedom", [5, 14, 30, 1000])
def test_the_quantile_of_t(freedom: int) -> None:
    """SciPy, stats.t.ppf."""
    assert t_quantile(0.975, freedom) == pytest.approx(stats.t.ppf(0.975, freedom), abs=2e-3 / freedom)


def test_nothing_is_known_of_nothing() -> None:
    assert share_estimate(0, 0) is None
    assert mean_estimate(1, 2.0, 4.0) is None


# ---- the map


def test_the_map_tells_what_to_seek_and_what_to_be_careful_with() -> None:
    chance = random.Random(1)
    made = []
    for i in range(120):
        good = i % 2 == 0
        one = made_up(i, strokes=chance.gauss(2.2 if good else 2.8, 0.3), solid=good or i % 5 == 0)
        made.append(replace(one, family="low" if good else "high"))
    found = {one.place.family: one for one in strengths(shot_places(made))}
    assert (found["low"].advice, found["high"].advice) == ("seek", "careful")
    assert found["low"].solid
    assert found["low"].solid.value == 1.0
    assert found["low"].solid.low < 1.0
    assert found["high"].tries == 60


def test_below_fifteen_there_is_too_little_to_say() -> None:
    made = [replace(made_up(i, strokes=1.5), family="low") for i in range(ENOUGH - 1)]
    made += [replace(made_up(i, strokes=3.0 + i % 2), family="high") for i in range(60)]
    found = {one.place.family: one for one in strengths(shot_places(made))}
    assert found["low"].advice == "too little"
    assert found["high"].advice == ""  # nothing from there to hold it against
    again = strengths(shot_places([*made, replace(made[0], uid="x")]))
    assert {one.place.family: one.advice for one in again}["high"] == "careful"


def test_shots_alike_are_neither_sought_nor_feared() -> None:
    chance = random.Random(2)
    made = [
        replace(made_up(i, strokes=chance.gauss(2.5, 0.4)), family=("low", "high")[i % 2]) for i in range(80)
    ]
    assert {one.advice for one in strengths(shot_places(made))} == {""}


# ---- a drill


@pytest.mark.parametrize("seed", range(20))
def test_a_drill_is_blocked_then_serial_then_mixed(seed: int) -> None:
    made = drill(("a", "b", "c"), seed)
    assert [p.part for p in made] == ["blocked"] * BLOCK + ["serial"] * BLOCK + ["mixed"] * BLOCK
    assert {p.task for p in made[:BLOCK]} == {"a"}
    mixed = [p.task for p in made[2 * BLOCK - 1 :]]
    assert all(x != y for x, y in pairwise(mixed))
    assert set(mixed) == {"a", "b", "c"}


def test_drills_differ_by_seed_and_take_one_task_or_none() -> None:
    assert len({drill(("a", "b", "c"), seed) for seed in range(10)}) > 5
    assert {p.task for p in drill(("a",), 1)} == {"a"}
    assert drill((), 1) == ()


def test_juniors_mix_nothing_before_they_pass_and_rest_sooner() -> None:
    plan = day_plan(("a", "b"), [], FIRST, 1, junior=True)
    assert {p.part for p in plan.drill} == {"blocked", "serial"}
    assert plan.rhythm == rhythm_of(True)
    assert plan.rhythm.example_first
    assert plan.rhythm.minutes < rhythm_of(False).minutes
    passed = on(-2, True, passed=True)
    assert {p.part for p in day_plan(("a",), task_days(passed), FIRST, 1, junior=True).reviews} == {"review"}


# ---- reviews


def test_reviews_come_after_2_7_21_days_then_every_28() -> None:
    made, days = on(0, True, passed=True), []
    for _ in range(6):
        found = review_due("a", task_days(made), date(2027, 1, 1))
        assert found
        away = (found.due - FIRST).days
        days.append(away)
        made += on(away, *[True] * REVIEW_SHOTS, part="review")
    assert days == [2, 7, 21, 49, 77, 105]


def test_a_late_review_pushes_the_next_and_a_bad_one_starts_over() -> None:
    late = on(0, True, passed=True) + on(5, *[True] * 6, part="review")
    found = review_due("a", task_days(late), FIRST + 5 * DAY)
    assert found
    assert (found.stage, found.due) == (1, FIRST + 10 * DAY)
    bad = late + on(10, True, True, True, False, False, False, part="review")
    found = review_due("a", task_days(bad), FIRST + 10 * DAY)
    assert found
    assert (found.stage, found.due) == (0, FIRST + 12 * DAY)


def test_early_reviews_and_other_tasks_count_for_nothing() -> None:
    made = on(0, True, passed=True) + on(1, *[True] * 6, part="review")
    made += on(2, *[True] * 6, task="b", part="review") + on(2, *[True] * 6, part="mixed")
    found = review_due("a", task_days(made), FIRST + 3 * DAY)
    assert found
    assert (found.stage, found.due) == (0, FIRST + 2 * DAY)
    assert review_due("b", task_days(made), FIRST + 3 * DAY) is None


def test_a_clock_that_was_set_back_brings_no_review_forward_and_loses_none() -> None:
    """Passed while the clock stood ten years ahead: it counts as passed today."""
    ahead = on(3650, True, passed=True)
    found = review_due("a", task_days(ahead), FIRST)
    assert found
    assert found.due == FIRST + 2 * DAY


def test_days_are_the_players_own_across_zones_and_summer_time() -> None:
    """Passed late on Sunday in Auckland; the review is due on Tuesday wherever the player is by then."""
    sunday = datetime(2025, 4, 6, 23, 30, tzinfo=ZoneInfo("Pacific/Auckland"))  # that night summer time ended
    found = review_due("a", task_days([made_up(1, name="a", passed=True, when=sunday)]), date(2025, 4, 7))
    assert found
    assert found.due == date(2025, 4, 8)
    assert sunday.astimezone(UTC).date() == date(2025, 4, 6)


def test_what_is_due_comes_mixed_before_the_drill() -> None:
    made = on(0, True, task="a", passed=True) + on(0, True, task="b", passed=True)
    plan = day_plan(("a", "b", "c", "d", "e", "f"), task_days(made), FIRST + 2 * DAY, 5)
    assert len(plan.reviews) == REVIEW_SHOTS
    assert {p.task for p in plan.reviews} == {"a", "b"}
    assert {p.task for p in plan.drill} == {"c", "d", "e"}
    assert day_plan(("a", "b"), task_days(made), FIRST + DAY, 5).reviews == ()


# ---- the sitting


def test_a_rest_is_proposed_after_twenty_minutes_of_one_sitting() -> None:
    shots = [START + timedelta(minutes=m) for m in range(0, 20, 2)]
    assert not nudge(shots)
    assert nudge([*shots, START + timedelta(minutes=20)])
    assert nudge(shots, junior=True)
    assert not nudge([*shots, START + timedelta(minutes=40)])
    assert not nudge([])


def test_neither_summer_time_nor_a_flight_makes_a_sitting_longer() -> None:
    zone = ZoneInfo("Europe/Berlin")
    before = datetime(2025, 3, 30, 1, 55, tzinfo=zone)
    after = datetime(2025, 3, 30, 3, 3, tzinfo=zone)  # eight minutes later
    assert not nudge([before, after])
    assert not nudge([before, (before + timedelta(minutes=5)).astimezone(ZoneInfo("Asia/Tokyo"))])


# ---- how hard


def test_difficulty_moves_one_step_and_stays_between_65_and_90() -> None:
    assert step_after([True] * 14 + [False]) == 1  # 93 %
    assert step_after([True] * 13 + [False] * 2) == 0  # 87 %
    assert step_after([True] * 10 + [False] * 5) == 0  # 67 %
    assert step_after([True] * 9 + [False] * 6) == -1  # 60 %
    assert step_after([True] * 29) == 1
    assert step_after([True] * 300) == HARDEST
    assert step_after([False] * 300) == EASIEST


def test_a_step_changes_what_the_goal_allows_and_nothing_else() -> None:
    plain = load_library("harrow-fen-after-rain")
    assert at_step(plain, 0) is plain
    assert plain.goal.leave_m
    leaves = [at_step(plain, step).goal.leave_m or 0.0 for step in range(EASIEST, HARDEST + 1)]
    assert leaves == sorted(leaves, reverse=True)
    assert leaves[2] == plain.goal.leave_m
    hard = at_step(plain, HARDEST)
    assert parse_scenario(scenario_text(hard)) == hard
    assert hard.course() == plain.course()
    assert hard.digest != plain.digest
    with pytest.raises(ValueError, match="no step 3"):
        at_step(plain, 3)


def test_the_test_is_at_distances_that_were_never_practised() -> None:
    assert new_distances([6.0, 3.0, 9.0, 3.0]) == (4.5, 12.0)
    assert new_distances([3.0, 4.0, 9.0]) == (6.5, 14.0)
    assert new_distances([3.0]) == ()


# ---- a winter


def test_a_learner_of_sixty_days() -> None:
    """The learner's own rule: a task comes off with a chance that starts at 0.4, grows by 0.012 with every
    shot at it up to 0.9 and falls by 0.01 a day without one; passed is 12 of the last 15."""
    chance, tasks = random.Random(11), tuple("abcdef")
    skill, last = dict.fromkeys(tasks, 0.4), dict.fromkeys(tasks, 0)
    made: list[Attempt] = []
    results: dict[str, list[bool]] = {task: [] for task in tasks}
    first_pass: dict[str, int] = {}
    reviews: dict[str, list[int]] = {task: [] for task in tasks}
    for day in range(60):
        today = FIRST + day * DAY
        plan = day_plan(tasks, task_days(made), today, day)
        assert all(planned.task in first_pass for planned in plan.reviews)
        assert not any(planned.task in first_pass for planned in plan.drill)
        for i, planned in enumerate((*plan.reviews, *plan.drill)):
            task = planned.task
            now = max(skill[task] - 0.01 * (day - last[task]), 0.3)
            met = chance.random() < now
            skill[task], last[task] = min(now + 0.012, 0.9), day
            results[task].append(met)
            recent = results[task][-15:]
            passed = len(recent) == 15 and sum(recent) >= 12
            when = START + day * DAY + timedelta(seconds=30 * i)
            made.append(
                made_up(
                    len(made), met=met, name=task, part=planned.part, passed=passed, when=when,
                    strokes=2.2 if met else 3.0, solid=met, gap=1.5 * (1.0 - now),
                )
            )  # fmt: skip
            if passed:
                first_pass.setdefault(task, day)
            if planned.part == "review" and (not reviews[task] or reviews[task][-1] != day):
                reviews[task].append(day)
    assert len(first_pass) == len(tasks)  # every task was passed in the end
    for task, day in first_pass.items():
        assert not reviews[task] or reviews[task][0] == day + 2  # the first review comes on its day
    assert sum(len(days) for days in reviews.values()) >= 2 * len(tasks)
    by_month = [[a.result.met for a in made if a.day.month == month] for month in (11, 12)]
    early, late = (sum(map(bool, month)) / len(month) for month in by_month if month)
    assert late > early
    (field,) = strengths(shot_places(made))
    assert field.solid
    assert field.solid.low < sum(bool(a.result.met) for a in made) / len(made) < field.solid.high
    assert field.solid.high - field.solid.low < 0.1
