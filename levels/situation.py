"""A situation to choose in: the course, what may be set, and the set-ups worth looking at first.

Set-ups begin from the line of matched ones (low runner, standard chip, high soft shot; `physics.agreement`)
with every club that may be taken, and from the scenario's own; from sand also with an open face and
several depths. For each the swing lengths are kept whose faultless stroke ends best.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import radians
from typing import Literal

import numpy as np

from levels.proof import digest_of
from levels.scenario import Scenario
from levels.search import Candidate, Space, space_of
from physics.address import CONTROLS, Intention, Motion, Setup
from physics.agreement import AGREEING
from physics.course import Course
from physics.equipment import BAG
from physics.shot import lie_of
from physics.surfaces import SAND

__all__ = [
    "CLUB_CLASSES", "ClubClass", "Situation", "bench_situation", "first_setups", "scenario_situation",
    "situation_digest",
]  # fmt: skip

LENGTHS_DEG = (14.0, 128.0)  # swing lengths tried, assumed
SAND_DEPTHS = (0.008, 0.016)  # m, assumed
SAND_FACE = radians(20.0)  # of a lofted wedge, assumed
ClubClass = Literal["iron", "pitching", "lofted"]
CLUB_CLASSES: dict[str, ClubClass] = {
    "7i": "iron", "8i": "iron", "9i": "iron", "PW": "pitching", "GW": "pitching", "GW-high": "pitching",
    "SW-low": "lofted", "SW": "lofted", "SW-high": "lofted",
    "LW-low": "lofted", "LW": "lofted", "LW-high": "lofted",
}  # fmt: skip
# Places on the line from low runner to high soft shot that a class of club is played at (common practice);
# only a lofted wedge is opened
PLACES: dict[ClubClass, tuple[int, ...]] = {"iron": (0, 1), "pitching": (0, 1, 2), "lofted": (0, 1, 2)}
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


def situation_digest(situation: Situation, rows: Sequence[Sequence[float]], putter: str) -> str:
    """What tells one question from another: the place, what may be set, and the player's rows and putter."""
    space = situation.space
    free = (space.clubs, space.controls, space.low, space.high)
    who = [[float(f"{v:.9g}") for v in row] for row in rows]
    return digest_of({
        "course": repr(situation.course), "free": repr(free), "own": repr(situation.own), "player": who,
        "putter": putter,
    })  # fmt: skip


def first_setups(situation: Situation, lengths: int = 11) -> Iterator[tuple[Candidate, ...]]:
    """For each way of setting up, its candidates by swing length: that of the set-up and `lengths` others."""
    tried = np.radians(np.geomspace(*LENGTHS_DEG, lengths)).tolist()
    seen = set[Candidate]()
    for club in situation.space.clubs:
        for setup, motion in _ways(situation, CLUB_CLASSES[club]):
            held = replace(setup, club=BAG[club])
            points = [
                situation.space.point_of(held, replace(motion, swing_length=v))
                for v in (motion.swing_length, *tried)
            ]
            new = tuple(p for p in dict.fromkeys(points) if p not in seen)
            seen.update(new)
            if new:
                yield new


def _ways(situation: Situation, clubs: ClubClass) -> list[tuple[Setup, Motion]]:
    """The set-ups to begin from with a class of club: the line of matched ones as far as such a club goes."""
    surface = lie_of(situation.course)[0]
    ways = list(situation.own)
    depths = SAND_DEPTHS if surface.kind == SAND else (surface.usual_depth,)
    for place, depth in product(PLACES[clubs], depths):
        meant = Intention(*situation.own[0]).with_values({n: v[place] for n, v in AGREEING.items()})
        face = SAND_FACE if surface.kind == SAND else meant.value("face_open")
        meant = meant.with_values({"depth": depth, "face_open": face if clubs == "lofted" else 0.0})
        ways.append((meant.setup, meant.motion))
    return ways
