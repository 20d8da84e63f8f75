"""Repairs that repair: the part out of place first, worth a word and sure, over strokes it names."""

from math import radians

import numpy as np
import pytest

from physics.address import CONTROLS, Intention, Motion, Setup
from physics.agreement import HABITS, LEANERS
from physics.cloud import cloud
from physics.course import Course, Ground, Hole
from physics.removal import WORTH
from physics.repair import TRIED, Kind, Trying, repairs, search_repairs
from physics.spread import EXACT, PLAYERS

GROUND = Ground((-9.0, 1.0, 60.0), (0.0, 0.0, 0.0), ("fairway", "green"))
COURSE = Course(GROUND, hole=Hole(7.0))
CLUB = PLAYERS["club"]
LONG, OTHER = 400, 5  # strokes and seed of the long replay

# one thing set wrong in a chip that reaches the hole
MISSET: dict[str, tuple[Setup, Motion]] = {
    "lean_change": (Setup(), Motion(radians(40), lean_change=radians(9))),
    "lean_change back": (Setup(), Motion(radians(40), lean_change=radians(-8))),
    "depth": (Setup(), Motion(radians(40), depth=0.012)),
    "depth too high": (Setup(), Motion(radians(40), depth=-0.009)),
    "swing_length": (Setup(), Motion(radians(80))),
    "swing_length short": (Setup(), Motion(radians(20))),
    "face_open": (Setup(face_open=radians(35)), Motion(radians(40))),
    "shaft_lean": (Setup(shaft_lean=radians(18)), Motion(radians(40))),
    "ball_position": (Setup(ball_position=0.11), Motion(radians(40))),
}


def moved(setup: Setup, motion: Motion, name: str, value: float) -> tuple[Setup, Motion]:
    """Both with one control at another value."""
    made = Intention(setup, motion).with_value(name, value)
    return made.setup, made.motion


RIGHT = Setup(), Motion(radians(40))


def cost(setup: Setup, motion: Motion) -> float:
    return cloud(COURSE, setup, motion, CLUB, OTHER, LONG).mean_strokes


@pytest.mark.parametrize("case", MISSET)
def test_the_part_that_was_set_wrong_is_mended_and_gains_what_setting_it_right_gains(case: str) -> None:
    setup, motion = MISSET[case]
    name = case.split()[0]
    found = repairs(COURSE, setup, motion, CLUB)[0]
    assert (found.control, found.kind) == (name, Kind.MENDS)
    right = cost(*moved(setup, motion, name, Intention(*RIGHT).value(name)))
    assert found.gain == pytest.approx(cost(setup, motion) - right, abs=0.2)  # two samples of hundreds
    assert found.gain > 2.0 * found.error


@pytest.mark.parametrize("case", ["swing_length short", "depth", "lean_change"])
def test_the_gain_is_measured_on_the_strokes_it_names(case: str) -> None:
    setup, motion = MISSET[case]
    best = repairs(COURSE, setup, motion, CLUB)[0]
    costs = [cloud(COURSE, *moved(setup, motion, best.control, v), CLUB, 0, 480)
             .strokes[: best.strokes].mean() for v in (best.now, best.best)]  # fmt: skip
    assert costs[0] - costs[1] == pytest.approx(best.gain, abs=1e-12)


def test_a_clean_matched_chip_is_left_alone() -> None:
    """Nothing is out of place: lean, release, ball and follow-through are not touched."""
    for player in ("steady", "club"):
        for seed in range(3):
            found = repairs(COURSE, *RIGHT, PLAYERS[player], seed)
            assert not {r.control for r in found} & {*LEANERS, *HABITS}
            assert all(r.gain >= max(WORTH, 2.0 * r.error) for r in found)


def test_what_cannot_be_moved_is_made_up_for_and_said_to_be() -> None:
    setup, motion = MISSET["lean_change"]
    found = repairs(COURSE, setup, motion, CLUB, 0, ("shaft_lean", "ball_position", "release"))
    assert found
    assert {(r.kind, r.off) for r in found} == {(Kind.MAKES_UP, "lean_change")}


def test_without_a_hole_a_repair_brings_the_ball_back_to_the_promise() -> None:
    found = repairs(Course(GROUND), *MISSET["lean_change"], CLUB, 3)
    assert (found[0].control, found[0].kind) == ("lean_change", Kind.MENDS)
    assert found[0].gain > 0.1


def test_repairs_never_promise_a_loss_and_stay_within_limits() -> None:
    for case in MISSET.values():
        for r in repairs(COURSE, *case, PLAYERS["steady"], 1):
            assert r.gain >= WORTH
            assert CONTROLS[r.control].low <= r.best <= CONTROLS[r.control].high
            assert r.label == CONTROLS[r.control].label
            assert r.best != r.now
    assert set(TRIED) <= set(CONTROLS)


def test_only_the_named_controls_are_tried_and_each_is_announced() -> None:
    names = ("shaft_lean", "release")
    told = list(search_repairs(COURSE, Setup(), Motion(radians(40), lean_change=radians(9)), CLUB, 0, names))
    assert told[1:3] == [Trying("shaft lean", 1, 2), Trying("release", 2, 2)]
    assert {r.control for r in told[-1].found} <= set(names)
    assert [t.done for t in told] == [False] * (len(told) - 1) + [True]
    assert repairs(COURSE, Setup(), Motion(), CLUB, 0, ()) == ()
    with pytest.raises(KeyError):
        repairs(COURSE, Setup(), Motion(), CLUB, 0, ("grip",))


def test_same_arguments_same_answer() -> None:
    one, two = (repairs(COURSE, *MISSET["depth"], CLUB, 4) for _ in range(2))
    assert one == two


def test_machine_repairs_by_a_single_stroke() -> None:
    found = repairs(COURSE, Setup(), Motion(radians(25)), EXACT, 0, ("swing_length",))
    assert found[0].gain > 0.0
    assert found[0].strokes == 1
    assert not np.isclose(found[0].best, found[0].now)
