"""Repairs that repair: the quick search names what a long one over every value names."""

from math import degrees, radians

import numpy as np
import pytest

from physics.address import CONTROLS, Intention, Motion, Setup
from physics.cloud import cloud
from physics.course import Course, Ground, Hole
from physics.repair import ROUNDS, TRIED, Trying, repairs, search_repairs
from physics.spread import EXACT, PLAYERS

GROUND = Ground((-9.0, 1.0, 60.0), (0.0, 0.0, 0.0), ("fairway", "green"))
COURSE = Course(GROUND, hole=Hole(7.0))
CLUB = PLAYERS["club"]
LONG, FINE, OTHER = 120, 7, 5  # strokes, values and seed of the long search

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


def cost(setup: Setup, motion: Motion) -> float:
    return cloud(COURSE, setup, motion, CLUB, OTHER, LONG).mean_strokes


def cheapest(setup: Setup, motion: Motion, name: str) -> float:
    """What the best of many values of a control costs, with many strokes that the quick search never saw."""
    control = CONTROLS[name]
    plain = Intention().value(name)
    values = [*np.linspace(control.low, control.high, FINE).tolist(), plain]
    return min(cost(*moved(setup, motion, name, v)) for v in values)


@pytest.mark.parametrize("case", MISSET)
def test_the_quick_answer_is_that_of_an_exhaustive_search(case: str) -> None:
    setup, motion = MISSET[case]
    found = repairs(COURSE, setup, motion, CLUB)[0]
    base = cost(setup, motion)
    gains = {name: base - cheapest(setup, motion, name) for name in TRIED}
    assert found.control == case.split()[0]
    assert found.control == max(gains, key=lambda n: gains[n])
    assert found.gain == pytest.approx(gains[found.control], abs=0.15)  # two samples of a hundred or two


def test_without_a_hole_a_repair_gains_solid_strokes_as_promised() -> None:
    """Club player with nine degrees more lean at the ball: handing it back gains most, and as promised."""
    setup, motion, course = Setup(), Motion(radians(40), lean_change=radians(9)), Course(GROUND)
    found = repairs(course, setup, motion, CLUB, 3, ("lean_change", "ball_position", "swing_length"))
    best = found[0]
    assert (best.control, best.now) == ("lean_change", radians(9))
    assert degrees(best.best) < 5.0
    assert best.gain > 0.15
    assert [r.gain for r in found] == sorted((r.gain for r in found), reverse=True)
    shares = [cloud(course, *moved(setup, motion, best.control, v), CLUB, 3, ROUNDS[-1])
              .solid[: best.strokes].mean() for v in (best.now, best.best)]  # fmt: skip
    assert shares[1] - shares[0] == pytest.approx(best.gain, abs=1e-12)


def test_the_gain_is_measured_on_the_strokes_it_names() -> None:
    setup, motion = MISSET["swing_length short"]
    best = repairs(COURSE, setup, motion, CLUB)[0]
    costs = [cloud(COURSE, *moved(setup, motion, best.control, v), CLUB, 0, ROUNDS[-1])
             .strokes[: best.strokes].mean() for v in (best.now, best.best)]  # fmt: skip
    assert costs[0] - costs[1] == pytest.approx(best.gain, abs=1e-12)


def test_repairs_never_promise_a_loss_and_stay_within_limits() -> None:
    for r in repairs(COURSE, Setup(), Motion(radians(40)), PLAYERS["steady"], 1):
        assert r.gain >= 0.0
        assert CONTROLS[r.control].low <= r.best <= CONTROLS[r.control].high
        assert r.label == CONTROLS[r.control].label
        if r.gain == 0.0:
            assert r.best == r.now
    assert set(TRIED) <= set(CONTROLS)


def test_only_the_named_controls_are_tried_and_each_is_announced() -> None:
    names = ("shaft_lean", "lean_change")
    told = list(search_repairs(COURSE, Setup(), Motion(lean_change=radians(9)), CLUB, 0, names))
    assert told[:2] == [Trying("shaft lean", 1, 2), Trying("lean added by impact", 2, 2)]
    assert {r.control for r in told[-1].found} == set(names)
    assert all(not t.found for t in told[:-1])
    assert repairs(COURSE, Setup(), Motion(), CLUB, 0, ()) == ()
    with pytest.raises(KeyError):
        repairs(COURSE, Setup(), Motion(), CLUB, 0, ("grip",))


def test_of_repairs_that_gain_alike_the_part_out_of_place_is_named() -> None:
    """Shaft lean and lean change can both take back too much lean at the ball."""
    for name, setup, motion in (
        ("lean_change", Setup(), Motion(radians(40), lean_change=radians(9))),
        ("shaft_lean", Setup(shaft_lean=radians(18)), Motion(radians(40))),
    ):
        found = repairs(COURSE, setup, motion, CLUB, 0, ("shaft_lean", "lean_change"))
        assert found[0].control == name


def test_same_arguments_same_answer() -> None:
    one, two = (repairs(COURSE, *MISSET["depth"], CLUB, 4) for _ in range(2))
    assert one == two


def test_machine_repairs_by_a_single_stroke() -> None:
    found = repairs(COURSE, Setup(), Motion(radians(25)), EXACT, 0, ("swing_length",))
    assert found[0].gain > 0.0
    assert found[0].strokes == 1
    assert not np.isclose(found[0].best, found[0].now)
