"""What lessons, hints and quizzes say is played: each sentence that can be; a reason for each that cannot.

A claim is found by a piece of its sentence, so that no sentence can change without its test. Sentences that
ask something claim nothing; the answers of a quiz are played in test_quizzes.
"""

import re
from math import degrees

import pytest
from claims import CLAIMS, NOT_PLAYED
from stand import stand

from levels.files import library
from levels.parts import FILE_KEYS, file_value
from levels.scenario import Scenario
from physics.address import CONTROLS


def _sentences(text: str) -> list[str]:
    return [part for part in re.split(r"(?<=[.?!])\s+", text.strip()) if part]


def _told(made: Scenario) -> list[str]:
    """Every sentence that tells something: lesson, first two hints, and why the right answer is right."""
    assert made.question is not None
    texts = [made.lesson.before, made.lesson.after, *made.hints[:2], made.question.because]
    return [told for text in texts for told in _sentences(text) if not told.endswith("?")]


def _number_words() -> dict[str, float]:
    teens = "thirteen fourteen fifteen sixteen seventeen eighteen nineteen"
    small = f"zero one two three four five six seven eight nine ten eleven twelve {teens}".split()
    tens = {"twenty-five": 25.0, "forty": 40.0}
    return {word: float(i) for i, word in enumerate(small)} | tens


NUMBERS = _number_words()
# What hint 3 says of the reference: how it is said, which key it speaks of, how near it has to be
SAID = (
    (r"(\S+) degrees of lean", "shaft_lean_deg", 1.5),
    (r"[Ll]ean (\S+) degrees", "shaft_lean_deg", 1.0),
    (r"open about (\S+) degrees", "face_open_deg", 1.0),
    (r"(\S+) millimetres deep", "depth_mm", 1.0),
    (r"arms back about (\S+) degrees", "swing_length_deg", 3.0),
    (r"release about (\S+?)[,.]? ", "release", 0.05),
    (r"[Bb]all (\S+) centimetres forward", "ball_position_cm", 0.5),
)
WHERE = {  # words for the ball's place, and the place in cm
    "ball well back": (-12.0, -5.0),
    "just behind the middle": (-3.0, -0.5),
    "a little behind the middle": (-4.0, -1.0),
    "a little back": (-4.0, -1.0),
    "near the middle": (-2.0, 2.0),
    "in the middle": (-1.0, 1.0),
    "ahead of the middle": (1.0, 8.0),
    "ball forward": (2.0, 8.0),
}


@pytest.mark.parametrize("name", CLAIMS)
def test_last_hint_is_the_coachs_set_up(name: str) -> None:
    """Club, ball and every number of hint 3 are those of the reference."""
    s = stand(name)
    hint, stroke = s.made.hints[2] + " ", s.matched
    values = {key: file_value(CONTROLS[c], stroke.value(c)) for c, key in FILE_KEYS.items()}
    for said, key, near in SAID:
        for word in re.findall(said, hint):
            told = NUMBERS[word.lower()] if word.lower() in NUMBERS else float(word)
            assert values[key] == pytest.approx(told, abs=near), (said, values[key])
    for words, (low, high) in WHERE.items():
        if words in hint[0].lower() + hint[1:].replace("Ball", "ball"):
            assert low <= values["ball_position_cm"] <= high, words
    label = re.match(r"(?:the )?((?:gap|sand|lob|pitching) wedge|(\w+) iron)\b", hint, re.IGNORECASE)
    if label is not None:
        number = label.group(2)
        called = f"{NUMBERS[number.lower()]:.0f}-iron" if number else label.group(1).lower()
        assert stroke.setup.club.label.startswith(called)
    if bounce := re.search(r"with (\S+) degrees of bounce", hint):
        assert degrees(stroke.setup.club.bounce) == pytest.approx(NUMBERS[bounce.group(1)])
    for word, straight in (("face square", 0.0), ("square the face", 0.0)):
        if word in hint.lower():
            assert values["face_open_deg"] == straight


def test_every_scenario_claims_something() -> None:
    assert {f"harrow-fen-{name}" for name in CLAIMS} == set(library())
    assert all(len(claims) >= 2 for claims in CLAIMS.values())


@pytest.mark.parametrize("name", CLAIMS)
def test_every_sentence_is_played_or_has_its_reason(name: str) -> None:
    excused = [told for sentences in NOT_PLAYED.values() for told in sentences]
    for told in _told(stand(name).made):
        assert any(piece in told for piece in CLAIMS[name]) != (told in excused), told


def test_no_reason_is_left_over() -> None:
    told = {sentence for name in CLAIMS for sentence in _told(stand(name).made)}
    assert [s for sentences in NOT_PLAYED.values() for s in sentences if s not in told] == []


@pytest.mark.parametrize(
    ("name", "piece"), [(name, piece) for name, claims in CLAIMS.items() for piece in claims]
)
def test_claim_is_what_happens(name: str, piece: str) -> None:
    s = stand(name)
    assert any(piece in told for told in [*_told(s.made), *_sentences(s.made.hints[2])]), "no longer said"
    assert CLAIMS[name][piece](s)
