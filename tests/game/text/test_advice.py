"""What to change, in words."""

from dataclasses import replace
from math import radians

import pytest

from game.text.advice import ADDED_UP, CAUSES, TO_PLAN, cause_of, mismatch_words, repair_words
from physics.address import CONTROLS, Intention
from physics.agreement import LEANERS
from physics.removal import Origin
from physics.repair import Kind, Repair

PLAIN = Intention()
GOOD = Repair("lean_change", "lean change", radians(9), 0.0, 0.4)


def short(words: str) -> bool:
    return all(len(s.split()) <= 12 for s in words.split(".")) and not any(c.isdigit() for c in words)


def test_a_repair_is_told_with_its_values_and_only_when_worth_it() -> None:
    saves = "0\N{DEGREE SIGN} instead of 9\N{DEGREE SIGN} would save about 0.40 strokes a shot."
    assert repair_words(GOOD, PLAIN) == f"What cost most: lean change. {saves}"
    assert repair_words(GOOD, PLAIN, played=False) == (
        f"The set-up would gain most from a change of the lean change: {saves}"
    )
    fine = replace(GOOD, now=radians(0.2), best=radians(-0.3))
    assert "\N{MINUS SIGN}0.3\N{DEGREE SIGN} instead of 0.2" in repair_words(fine, PLAIN)


def test_what_is_not_worth_it_or_not_sure_is_not_told() -> None:
    assert "stands out" in repair_words(replace(GOOD, gain=0.019), PLAIN)
    assert "stands out" in repair_words(replace(GOOD, error=0.25), PLAIN)
    assert repair_words(None, PLAIN) == repair_words(replace(GOOD, gain=0.0), PLAIN)


def test_a_mismatch_names_the_part_and_what_it_did() -> None:
    back = PLAIN.with_values({"ball_position": -0.07, "release": 1.6})
    off = Repair("release", "release", 1.6, 0.7, 0.4, lean_off=radians(-8))
    told = repair_words(off, back)
    assert told.startswith(
        "What cost most: release. Ball back wants less release: the head passed the hands early. 0.70 instead"
    )
    late = replace(off, control="ball_position", now=-0.07, best=0.03, lean_off=radians(6))
    assert mismatch_words(late, back) == (
        "This motion wants the ball forward more: the handle came back too far forward."
    )
    assert "passes the hands early" in mismatch_words(off, back, played=False)
    assert mismatch_words(replace(off, kind=Kind.MAKES_UP), back) == ""
    assert mismatch_words(replace(off, lean_off=0.0), back) == ""


def test_what_makes_up_for_another_part_is_told_as_such() -> None:
    other = Repair("release", "release", 1.0, 1.6, 0.3, kind=Kind.MAKES_UP, off="ball_position")
    assert repair_words(other, PLAIN, off="ball position") == (
        "The ball position is out of place. A change of the release would make up for it: 1.60 instead of"
        " 1.00 would save about 0.30 strokes a shot."
    )


@pytest.mark.parametrize("lean_off", [-0.1, 0.0, 0.1])
def test_a_junior_reads_short_sentences_without_numbers(lean_off: float) -> None:
    tried = [Repair(n, c.label, c.high, c.low, 0.4, lean_off=lean_off) for n, c in CONTROLS.items()]
    tried += [replace(r, now=r.best, best=r.now) for r in tried]
    for words in (repair_words(None, PLAIN, True), *(repair_words(r, PLAIN, True) for r in tried)):
        assert short(words)
    for cause in (*CAUSES, ADDED_UP, TO_PLAN):
        assert all(short(s) for s in cause.words.split(". ")), cause.words


def test_every_component_has_words_for_both_ways_and_no_two_alike() -> None:
    assert len({c.words for c in CAUSES}) == len(CAUSES)
    for name in CONTROLS:
        more, less = (cause_of(Origin.SET, name, way) for way in (0.1, -0.1))
        assert (more.effect, more.sense) == (less.effect, -less.sense)
    for name in ("speed", "along", "up", "lean", "face", "drop", "aim"):
        assert cause_of(Origin.STRAYED, name, 1.0).component == name
    assert set(LEANERS) <= set(CONTROLS)
    with pytest.raises(KeyError):
        cause_of(Origin.SET, "grip", 1.0)
