"""An assignment goes out, an answer comes back as untrusted text, the coach reads a review."""

import json
import random
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from practised import SCENARIO, START, made_up, real_attempt

from levels import answers
from levels.answers import (
    AnswerError,
    AnswerFile,
    answer_of,
    answer_text,
    intention_of,
    parse_answer,
    read_answer,
    write_answer,
)
from levels.attempts import Attempt, NamedCause, replayed
from levels.draft import library_text
from levels.files import load_library
from levels.packs import LONGEST_TITLE, Member, Pack, PackError, pack_text, parse_pack
from levels.plan import PracticePlan
from levels.review import _next_title, next_assignment, review
from physics.shot import play
from physics.spread import PLAYERS
from tests.conftest import SEARCHING

OTHER = "harrow-fen-front-pin"
ID = "winter-1"
PLAN = PracticePlan.model_validate({
    "made": "2025-11-01", "focus": ["Brush"], "drill": "Mixed", "shots": 10, "successes": 6,
    "retest": "2025-11-10",
})  # fmt: skip


@pytest.fixture(scope="module")
def pack() -> Pack:
    members = tuple(Member(name, library_text(name), load_library(name)) for name in (SCENARIO, OTHER))
    return Pack("Winter", members, "Slowly.", PLAN, id=ID)


def given(number: int, day: int = 0, **told: object) -> Attempt:
    one = made_up(number, when=START + timedelta(days=day, minutes=number), **told)  # type: ignore[arg-type]
    return replace(one, assignment=ID)


def answered(*made: Attempt, **told: object) -> AnswerFile:
    return answer_of(made, ID, "R. B.", **told)  # type: ignore[arg-type]


# ---- the assignment


def test_an_assignment_is_a_pack_with_an_id(pack: Pack) -> None:
    assert parse_pack(pack_text(pack)) == pack
    assert 'id = "winter-1"' in pack_text(pack)
    assert parse_pack(pack_text(replace(pack, id=""))).id == ""
    for odd in ("abc", "Winter 1", "x" * 41):
        with pytest.raises(PackError, match="id: "):
            parse_pack(pack_text(replace(pack, id=odd)))


# ---- the answer


def test_an_answer_reads_back_equal_and_says_no_more_than_it_should(tmp_path: Path) -> None:
    made = [given(i, day=i // 5, met=i % 2 == 0) for i in range(12)]
    made[3] = replace(made[3], cause=NamedCause("a", "b"))
    answer = answered(*made, given(99), replace(given(100), assignment="other"))
    assert len(answer.attempts) == 13
    write_answer(tmp_path / "a.json", answer)
    assert read_answer(tmp_path / "a.json") == answer
    text = answer_text(answer)
    assert text.count("\n") > 13
    for secret in (":30", "18:", "Robin", str(tmp_path), made[0].uid, "+01", "words"):
        assert secret not in text
    assert '"day": "2025-11-03"' in text


def test_struck_lines_and_words_are_the_pupils_choice() -> None:
    made = [given(i, met=i == 1) for i in range(4)]
    assert [line.met for line in answered(*made, struck={0, 3}).attempts] == [True, False]
    assert answered(*made, words="Windy.").words == "Windy."
    with pytest.raises(AnswerError, match="pupil: is too long"):
        answer_of(made, ID, "x" * 41)


def test_the_coach_plays_the_pupils_shot_again_bit_for_bit() -> None:
    one = replace(real_attempt(), assignment=ID, uid="a")
    (line,) = parse_answer(answer_text(answered(one))).attempts
    scenario = load_library(line.task)
    meant = intention_of(line, scenario)
    shot = play(scenario.course(), meant.setup, meant.motion, PLAYERS[scenario.player], line.seed)
    assert repr(shot) == repr(replayed(one))


def test_a_scenario_of_a_pack_is_known_by_its_own_name() -> None:
    (line,) = answered(given(1, name=f"packs/winter/01-{SCENARIO}")).attempts
    assert line.task == SCENARIO


SOUND = {
    "format": 1, "assignment": ID, "pupil": "R", "words": "x",
    "outside": [{"day": "2025-11-04", "shots": 20, "came_off": 12}],
    "attempts": [{
        "task": "a", "digest": "0" * 16, "day": "2025-11-03", "club": "SW",
        "controls": {"shaft_lean_rad": 0.1}, "seed": 1, "met": True, "passed": False, "solid": True,
        "stop_gap_m": 0.5, "cause_right": True, "hints": 1, "part": "test",
    }],
}  # fmt: skip


def changed(where: tuple[str | int, ...], value: object) -> str:
    data = json.loads(json.dumps(SOUND))
    inner = data
    for step in where[:-1]:
        inner = inner[step]
    inner[where[-1]] = value
    return json.dumps(data)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (changed(("format",), 2), "answer, format: 2 is not known here; allowed: "),
        (changed(("host",), "pc"), "answer, host: is no key of this table; allowed: format, assignment"),
        (changed(("pupil",), "a\nb"), "answer, pupil: "),
        (changed(("attempts", 0, "day"), "2025-11-03T18:30"), "answer, attempts[0].day: "),
        (changed(("attempts", 0, "path"), "/home"), "answer, attempts[0].path: is no key"),
        (changed(("attempts", 0, "club"), "3w"), "answer, attempts[0].club: '3w' is no club"),
        (changed(("attempts", 0, "seed"), -1), "answer, attempts[0].seed: -1 is too small"),
        (changed(("attempts", 0, "met"), 1), "answer, attempts[0].met: 1 is neither true nor false"),
        (changed(("attempts", 0, "controls", "shaft_lean_rad"), 9), "shaft_lean_rad: 9 is out of reach"),
        (changed(("attempts", 0, "controls", "grip"), 1), "grip: is no control; allowed: ball_position_m"),
        (changed(("outside", 0, "came_off"), 21), "outside[0].came_off: 21 is more than the shots"),
        (changed(("attempts",), [SOUND["attempts"][0]] * 3001), "attempts: has 3001 entries"),  # type: ignore[index]
        ("{", "answer: is not JSON: "),
        ("[" * 100_000, "answer: is not JSON: "),
        ("NaN", "answer: is no answer; allowed: one object"),
        ("", "answer: is not JSON: "),
    ],
)
def test_a_bad_answer_is_told_in_a_sentence(text: str, told: str) -> None:
    with pytest.raises(AnswerError) as caught:
        parse_answer(text)
    assert told in caught.value.problems[0]
    assert all(sentence.endswith(".") and "\n" not in sentence for sentence in caught.value.problems)


def test_a_huge_answer_is_not_read(tmp_path: Path) -> None:
    (tmp_path / "a.json").write_bytes(b" " * (answers.LARGEST_ANSWER + 1))
    with pytest.raises(AnswerError, match="is too large"):
        read_answer(tmp_path / "a.json")
    (tmp_path / "b.json").write_bytes(b"\xff")
    with pytest.raises(AnswerError, match="not UTF-8"):
        read_answer(tmp_path / "b.json")


def read_or_told(text: str) -> AnswerFile | tuple[str, ...]:
    """The answer in a text, or the sentences about it."""
    try:
        return parse_answer(text)
    except AnswerError as error:
        return error.problems


@pytest.mark.parametrize("count", [10_000 if SEARCHING else 400])
def test_a_mutated_answer_is_told_or_read_and_reviewed(pack: Pack, count: int) -> None:
    sound = answer_text(answered(*(given(i, met=i % 3 == 0, part="test") for i in range(6))))
    told = 0
    for n in range(count):
        chance = random.Random(n)
        text = list(sound)
        for _ in range(chance.choice((1, 1, 4))):
            at = chance.randrange(len(text))
            piece = chance.choice(["", '"', "{", "]", "9", "-", "e", "null", "\\", "\x00", "true", ",", "ä"])
            text[at : at + chance.choice((0, 1, 1, 20))] = piece
        found = read_or_told("".join(text))
        if isinstance(found, tuple):
            told += 1
            assert found
            assert all(one.endswith(".") and "\n" not in one for one in found), n
            assert all(len(one) < 700 for one in found), n
        elif found.assignment == pack.id:
            review(pack, found)
    assert 0 < told < count


# ---- the review


def test_the_review_counts_tries_days_gaps_and_causes(pack: Pack) -> None:
    made = [given(i, day=i // 5, met=i % 2 == 0, gap=2.0 - 0.1 * i) for i in range(20)]
    made = [replace(one, cause=NamedCause("a", "a" if i % 4 else "b")) for i, one in enumerate(made)]
    found = review(pack, answered(*made, outside=[(date(2025, 11, 4), 20, 12)]))
    first, second = found.tasks
    assert (first.name, first.tries, first.days, first.passed) == (SCENARIO, 20, 4, False)
    assert first.met
    assert (first.met.value, first.met.count) == (0.5, 20)
    assert first.first_gap == pytest.approx(sum(2.0 - 0.1 * i for i in range(5)) / 5)
    assert first.last_gap == pytest.approx(sum(2.0 - 0.1 * i for i in range(15, 20)) / 5)
    assert (first.causes_right, first.causes_asked) == (15, 20)
    assert (second.tries, second.met, second.first_gap) == (0, None, None)
    assert (found.shots_planned, found.shots_done, found.drill_days) == (10, 20, 0)
    assert found.outside == ((date(2025, 11, 4), 20, 12),)
    assert not first.changed


def test_nine_calls_are_too_few_for_a_trend(pack: Pack) -> None:
    assert review(pack, answered(*(given(i) for i in range(9)))).tasks[0].first_gap is None


def test_the_most_frequent_set_up_error_has_a_shot_that_shows_it(pack: Pack) -> None:
    scenario = load_library(SCENARIO)
    reference = scenario.reference_shot()
    assert reference
    name = scenario.open_controls[0]
    low, high = scenario.limits_of(name)
    best = replace(given(0).intention, setup=reference[0], motion=reference[1])

    def off(number: int, share: float, met: bool = False) -> Attempt:
        value = best.value(name) + share * (high - low)
        assert low <= value <= high
        return replace(given(number, met=met), intention=best.with_value(name, value))

    way = 1 if best.value(name) + 0.45 * (high - low) <= high else -1
    made = [off(0, 0.2 * way), off(1, 0.45 * way), off(2, 0.3 * way, met=True), off(3, 0.05 * way)]
    error = review(pack, answered(*made)).tasks[0].error
    assert error
    assert (error.control, error.way, error.count, error.missed, error.line) == (name, way, 2, 3, 1)
    assert review(pack, answered(off(1, 0.05))).tasks[0].error is None
    moved = [replace(one, task=replace(one.task, digest="0" * 16)) for one in made]
    assert review(pack, answered(*moved)).tasks[0].error is None  # another version is not held against it
    assert review(pack, answered(*moved)).tasks[0].changed


def test_first_test_and_retest_stand_side_by_side(pack: Pack) -> None:
    made = [given(i, day=0, part="test", met=i < 3) for i in range(6)]
    made += [given(10 + i, day=8, part="test", met=i < 5, passed=True) for i in range(6)]
    found = review(pack, answered(*made))
    first, again = found.tasks[0].first_test, found.tasks[0].retest
    assert first
    assert again
    assert (first.value, again.value) == (0.5, 5 / 6)
    assert (found.retest_planned, found.retest_done) == (date(2025, 11, 10), date(2025, 11, 11))


@pytest.mark.parametrize(("good", "flag"), [(15, "too easy"), (14, "too easy"), (12, ""), (7, "too hard")])
def test_a_task_is_flagged_from_fifteen_tries(pack: Pack, good: int, flag: str) -> None:
    made = [given(i, met=i < good) for i in range(15)]
    assert review(pack, answered(*made)).tasks[0].flag == flag
    assert review(pack, answered(*made[:14])).tasks[0].flag == ""


def test_what_comes_next_is_filled_into_a_new_assignment(pack: Pack) -> None:
    made = [given(0, passed=True), given(1, name="unknown")]
    found = review(pack, answered(*made))
    assert found.proposal.repeat == (OTHER,)
    assert found.strangers == ("unknown",)
    again = next_assignment(pack, found.proposal, date(2025, 11, 20))
    assert again
    assert again.plan
    assert (again.plan.made, again.plan.retest) == (date(2025, 11, 20), date(2025, 11, 29))
    assert [m.name for m in again.members] == [OTHER, *found.proposal.next]
    assert parse_pack(pack_text(again)) == again
    slipped = [given(0, passed=True)] + [
        given(1 + i, day=d, part="test", met=d == 0) for d in (0, 8) for i in range(3)
    ]
    assert SCENARIO in review(pack, answered(*slipped)).proposal.repeat


def test_an_answer_to_another_assignment_is_refused(pack: Pack) -> None:
    with pytest.raises(ValueError, match="answers the assignment winter-1, not winter-2"):
        review(replace(pack, id="winter-2"), answered())


def test_the_next_assignment_has_a_title_of_its_own() -> None:
    titles = ["Week one"]
    for _ in range(2):
        titles.append(_next_title(titles[-1]))
    assert titles == ["Week one", "Week one (2)", "Week one (3)"]
    assert len(_next_title("x" * LONGEST_TITLE)) == LONGEST_TITLE
