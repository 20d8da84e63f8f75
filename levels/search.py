"""The set-ups a scenario allows, strewn evenly, and the search among them for one that meets its goals.

Set-ups are compared by the same strokes (common random numbers), and a set-up that does well is asked
again with more of them (successive halving); between rounds the best have children near them (an
evolution strategy with falling steps). The search only proposes: what it finds is judged afterwards by
strokes it has not seen.
"""

from collections.abc import Callable, Generator, Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from levels.closeness import closeness
from levels.facts import cloud_facts, goals_met
from levels.scenario import Scenario
from physics.address import Intention, Motion, Setup
from physics.spread import PLAYERS, Spread

__all__ = ["Candidate", "SearchPlan", "Space", "Trial", "Trials", "evenly", "refine", "space_of"]

Floats = NDArray[np.float64]
Inside = Callable[[Setup, Motion], bool]
STEPS = (0.14, 0.02)  # first and last step of a child over the width of each control, assumed
ELSE_CLUB = 0.15  # share of children that take another club, assumed
TRIES = 60  # children thrown away for lying outside before the parent stands in
HOPELESS = 0.05  # closeness of the best after two rounds at which a search gives up, assumed
CHUNK = 8  # set-ups judged between two signs of life
WORKERS = 2


@dataclass(frozen=True)
class Candidate:
    """One set-up of a scenario: a club and a value (SI) for each open control."""

    club: str
    values: tuple[float, ...]


@dataclass(frozen=True)
class Trial:
    """A set-up and what its strokes said: share that met the goals, and mean closeness (search only)."""

    point: Candidate
    share: float
    close: float


@dataclass(frozen=True)
class Space:
    """Every set-up the player may choose: clubs, and each open control within the scenario's limits."""

    setup: Setup
    motion: Motion
    clubs: tuple[str, ...]
    controls: tuple[str, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]

    def shot(self, point: Candidate) -> tuple[Setup, Motion]:
        """Address and stroke of a point."""
        values = dict(zip(self.controls, point.values, strict=True))
        made = Intention(self.setup, self.motion).with_club(point.club).with_values(values)
        return made.setup, made.motion

    def point_of(self, setup: Setup, motion: Motion) -> Candidate:
        """The point nearest to an address and stroke: open controls held to the limits."""
        return Candidate(setup.club.name, self.held(map(Intention(setup, motion).value, self.controls)))

    def held(self, values: Iterable[float]) -> tuple[float, ...]:
        """Values held to the limits."""
        pairs = zip(values, self.low, self.high, strict=True)
        return tuple(float(min(max(v, a), b)) for v, a, b in pairs)

    def at(self, unit: Floats) -> Candidate:
        """The point at a place of the unit cube, shape (controls + 1,); its last number picks the club."""
        values = (a + u * (b - a) for u, a, b in zip(unit, self.low, self.high, strict=False))
        club = self.clubs[min(int(unit[-1] * len(self.clubs)), len(self.clubs) - 1)]
        return Candidate(club, self.held(values))

    def holds(self, point: Candidate) -> bool:
        """Whether a point lies within these limits."""
        return point.club in self.clubs and self.held(point.values) == point.values


def space_of(scenario: Scenario) -> Space:
    """Clubs and open controls of a scenario; without clubs to choose from, the default set-up's."""
    setup = scenario.setup()
    limits = [scenario.limits_of(name) for name in scenario.open_controls]
    return Space(
        setup, scenario.motion(), scenario.clubs or (setup.club.name,), scenario.open_controls,
        tuple(a for a, _ in limits), tuple(b for _, b in limits),
    )  # fmt: skip


def evenly(count: int, width: int, seed: int) -> Floats:
    """`count` places strewn evenly over the unit cube, shape (count, width).

    Additive recurrence (Kronecker sequence; Niederreiter, 1992) with the powers of the number x > 1 for
    which x^(width + 1) = x + 1 (the golden ratio and its kin), moved as a whole by chance
    (Cranley & Patterson, 1976).
    """
    base = 2.0
    for _ in range(60):
        base = (1.0 + base) ** (1.0 / (width + 1))
    steps = base ** -np.arange(1.0, width + 1.0)
    start = np.random.default_rng(seed).random(width)
    return np.asarray((start + np.outer(np.arange(1, count + 1), steps)) % 1.0)


class Trials:
    """Trials of set-ups of one scenario, on two threads; `played` counts the strokes."""

    def __init__(self, scenario: Scenario, space: Space, spread: Spread | None = None) -> None:
        self.goal, self.course = scenario.goal, scenario.course()
        self.spread, self.space = spread or PLAYERS[scenario.player], space
        self.played = 0

    def met(self, point: Candidate, seed: int, count: int) -> Trial:
        """What `count` strokes of the player say of a set-up. Same seed, same strokes."""
        facts = cloud_facts(self.goal, self.course, *self.space.shot(point), self.spread, seed, count)
        share, close = goals_met(self.goal, facts).mean(), closeness(self.goal, facts).mean()
        return Trial(point, float(share), float(close))

    def many(
        self, points: Sequence[Candidate], seeds: Sequence[int], count: int
    ) -> Generator[int, None, list[Trial]]:
        """Try each point with its seed; yields the strokes played so far, returns what was found."""
        found: list[Trial] = []
        with ThreadPoolExecutor(WORKERS) as pool:
            for i in range(0, len(points), CHUNK):
                part = points[i : i + CHUNK]
                found += pool.map(self.met, part, seeds[i : i + CHUNK], [count] * len(part))
                self.played += count * len(part)
                yield self.played
        return found


@dataclass(frozen=True)
class SearchPlan:
    """How hard a search tries."""

    rounds: tuple[int, ...]  # strokes at each set-up, round by round
    children: int
    parents: int  # after the first round; one less after each, at least 3


def refine(
    trials: Trials, inside: Inside, space: Space, start: Sequence[Candidate], plan: SearchPlan, seed: int
) -> Generator[int, None, list[Trial]]:
    """From `start` toward set-ups that meet the goals, all of them `inside`; best first.

    Yields the strokes played so far.
    """
    chance = np.random.default_rng((seed, 1))
    pool, best = list(dict.fromkeys(start)), list[Trial]()
    steps = np.geomspace(*STEPS, len(plan.rounds)).tolist()
    for i, (count, step) in enumerate(zip(plan.rounds, steps, strict=True)):
        found = yield from trials.many(pool, [seed] * len(pool), count)
        best = sorted(found, key=lambda f: -f.close)[: max(plan.parents - i, 3)]
        if i and best[0].share == 0.0 and best[0].close < HOPELESS:
            return best
        if i < len(plan.rounds) - 1:
            parents = [f.point for f in best]
            young = [_child(space, inside, parents, step, chance) for _ in range(plan.children)]
            pool = list(dict.fromkeys([*parents, *young]))
    return best


def _child(
    space: Space, inside: Inside, parents: Sequence[Candidate], step: float, chance: np.random.Generator
) -> Candidate:
    """A set-up near one of the parents, nearer ones of the better; outside ones are thrown away."""
    parent = parents[int(len(parents) * chance.random() ** 1.5)]
    width = np.array(space.high) - np.array(space.low)
    for _ in range(TRIES):
        club = parent.club
        if chance.random() < ELSE_CLUB:
            club = space.clubs[int(chance.integers(len(space.clubs)))]
        moved = np.array(parent.values) + step * width * chance.standard_normal(len(width))
        child = Candidate(club, space.held(moved.tolist()))
        if inside(*space.shot(child)):
            return child
    return parent
