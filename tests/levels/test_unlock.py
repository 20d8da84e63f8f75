"""Which control to open: a scenario made so that only more swing reaches the hole."""

from functools import cache

import pytest

from levels.effort import SMALL
from levels.files import load_library, parse_scenario
from levels.guide import new_scenario_text
from levels.proof_words import PASSES
from levels.prove import proved
from levels.scenario import Scenario
from levels.unlock import Unlocked, is_solved, unlock
from physics.address import CONTROLS


def locked() -> Scenario:
    """Ten metres to the hole, a swing of ten degrees, and the stance alone to change."""
    made = parse_scenario(new_scenario_text("mine.toml"))
    motion = made.default_motion.model_copy(update={"swing_length_deg": 10.0})
    return made.model_copy(update={"clubs": (), "open_controls": ("stance_width",), "default_motion": motion})


@cache
def found() -> tuple[Unlocked, ...]:
    *_, last = unlock(locked())
    assert last.found is not None
    return last.found


def test_it_is_unsolvable_until_the_control_that_is_named_is_open() -> None:
    made = locked()
    assert not is_solved(proved(made, SMALL))
    best = found()[0]
    assert best.control == "swing_length"
    assert best.pass_chance >= PASSES
    opened = made.model_copy(update={"open_controls": (*made.open_controls, best.control)})
    assert is_solved(proved(opened, SMALL))


def test_what_cannot_carry_it_there_is_not_named() -> None:
    named = {one.control for one in found()}
    assert not named & {"stance_width", "face_open", "lead_weight", "depth", "ball_position"}


def test_every_closed_control_is_tried_once_in_parts_and_it_can_be_dropped() -> None:
    made = locked()
    parts = iter(unlock(made))
    first = next(parts)
    assert (first.share, first.found) == (0.0, None)
    assert first.control in CONTROLS
    del parts  # whoever stops asking has cancelled it

    all_open = load_library("harrow-fen-short-sided").model_copy(update={"open_controls": tuple(CONTROLS)})
    assert [part.found for part in unlock(all_open)] == [()]


def test_same_scenario_same_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("levels.search.WORKERS", 1)
    monkeypatch.setattr("levels.unlock.CONTROLS", {"swing_length": CONTROLS["swing_length"]})
    *_, again = unlock(locked())
    assert again.found == found()
