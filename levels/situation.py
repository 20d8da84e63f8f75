"""A situation to choose in: the course, what may be set, and the set-ups worth looking at first.

Set-ups begin from the line of matched ones (low runner, standard chip, high soft shot; `physics.agreement`)
with every club that may be taken, and from the scenario's own; from sand also with an open face and
several depths. For each the swing lengths are kept whose faultless stroke ends best.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from math import radians

import numpy as np

from levels.scenario import Scenario
from levels.search import Candidate, Space, space_of
from physics.address import CONTROLS, Intention, Motion, Setup
from physics.agreement import AGREEING
from physics.course import Course
from physics.equipment import BAG
from physics.shot import lie_of
from physics.surfaces import SAND

__all__ = ["Situation", "bench_situation", "first_setups", "scenario_situation"]

LENGTHS = np.radians(np.geomspace(14.0, 128.0, 11))  # swing lengths tried, assumed
SAND_DEPTHS = (0.006, 0.012, 0.018)  # m, assumed
SAND_FACES = (0.0, radians(25.0))  # assumed
KEPT = 2  # swing lengths of a set-up that go on
FREE = (*AGREEING, "swing_length", "depth")  # what a player sets on the Bench


@dataclass(frozen=True)
class Situation:
    """Where it is played, and every set-up that is allowed."""

    course: Course
    space: Space
    own: tuple[tuple[Setup, Motion], ...]  # set-ups given with it: the default, the reference


def scenario_situation(scenario: Scenario) -> Situation:
    """A scenario with its own clubs, open controls and limits."""
    told = scenario.reference_shot()
    own = ((scenario.setup(), scenario.motion()), *((told,) if told else ()))
    return Situation(scenario.course(), space_of(scenario), own)


def bench_situation(course: Course, setup: Setup, motion: Motion) -> Situation:
    """Any course with the whole bag and everything a player sets."""
    low, high = (tuple(getattr(CONTROLS[n], end) for n in FREE) for end in ("low", "high"))
    return Situation(course, Space(setup, motion, tuple(BAG), FREE, low, high), ((setup, motion),))


def first_setups(situation: Situation) -> Iterator[tuple[Candidate, ...]]:
    """For each way of setting up, its candidates by swing length."""
    surface = lie_of(situation.course)[0]
    sand = surface.kind == SAND
    ways = [
        (setup, replace(motion, **given))
        for (setup, motion), given in product(situation.own, _depths(sand, None))
    ]
    for i, (face, given) in product(range(3), product(SAND_FACES if sand else (None,), _depths(sand, surface.usual_depth))):
        meant = Intention(*situation.own[0]).with_values({n: v[i] for n, v in AGREEING.items()} | given)
        meant = meant if face is None else meant.with_value("face_open", face)
        ways.append((meant.setup, meant.motion))
    seen = set[Candidate]()
    for (setup, motion), club in product(ways, situation.space.clubs):
        held = replace(setup, club=BAG[club])
        lengths = [motion.swing_length, *LENGTHS.tolist()]
        points = [situation.space.point_of(held, replace(motion, swing_length=v)) for v in lengths]
        new = tuple(p for p in dict.fromkeys(points) if p not in seen)
        seen.update(new)
        if new:
            yield new


def _depths(sand: bool, usual: float | None) -> list[dict[str, float]]:
    if sand:
        return [{"depth": d} for d in SAND_DEPTHS] if usual is not None else [{}]
    return [{} if usual is None else {"depth": usual}]
