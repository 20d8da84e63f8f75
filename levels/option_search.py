"""The search for options: the best set-up of each kind of shot, for one player.

Set-ups are compared by the same strokes, and asked again with more the fewer are left (`levels.race`);
the winner of each kind is then played anew, by strokes it was not searched with.
"""

from collections.abc import Generator
from dataclasses import dataclass, field
from typing import NamedTuple, TypeVar

import numpy as np

from levels.choice_effort import ChoiceEffort
from levels.families import Kinds, family_of, is_matched
from levels.race import Key, Race
from levels.search import Candidate
from levels.situation import CLUB_CLASSES, KEPT, Situation, first_setups
from levels.worthwhile import Strokes, strokes_of_strays
from physics.address import CONTROLS
from physics.putting import PUTTERS

__all__ = ["JUDGE", "FoundOption", "OptionSearch", "SetupKind"]

T = TypeVar("T")
BESIDE = 0.15  # m beside the hole that a first look's ball passes: more than the hole reaches, assumed
LOOK, REFINE, FINAL, JUDGE = 1, 100, 200, 300  # where each stage's seeds begin
GAINS = 0.3  # strokes a kind may still gain once its first set-ups are looked at, assumed
# How far a new set-up lies from its parent in the first round: a share of the swing length, m, rad; assumed
WIDTHS = {"swing_length": 0.12, "depth": 1.5e-3, "face_open": 0.08, "ball_position": 0.008}


class SetupKind(NamedTuple):
    """What tells an option apart, whether it is matched, and whether its faultless stroke is solid, or
    splashed as it should be."""

    key: Key
    matched: bool
    solid: bool


class FoundOption(NamedTuple):
    """The best set-up of a kind, and the fresh strokes it is judged by."""

    key: Key
    point: Candidate
    matched: bool
    made: Strokes


@dataclass
class OptionSearch:
    """One choice in the making: its stages from the first look to the strokes that judge."""

    situation: Situation
    effort: ChoiceEffort
    seed: int
    race: Race
    kinds: Kinds = field(init=False)
    seen: dict[Candidate, SetupKind] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.kinds = Kinds(self.situation.course)

    def whole(self) -> Generator[float, None, list[FoundOption]]:
        """All stages; yields the share done, returns the winner of each kind that may be told."""
        e, seed = self.effort, self.seed
        best = yield from _within(self.looked_at(), 0.0, 0.25)
        best = yield from _within(self.race.best(best, e.look, seed + LOOK, e.start, GAINS), 0.25, 0.35)
        parts = np.linspace(0.35, 0.65, len(e.rounds) + 1).tolist()
        for i, (count, start, stop) in enumerate(zip(e.rounds, parts, parts[1:], strict=False)):
            chance = np.random.default_rng((seed, i))
            best = self.with_children(best, chance, 2.0**-i)
            found = self.race.best(best, count, seed + REFINE + i, e.finalists, GAINS / 2.0)
            best = yield from _within(found, start, stop)
        best = yield from _within(self.race.best(best, e.final, seed + FINAL, 1, 0.0), 0.65, 0.8)
        best = yield from _within(self.race.best(best, e.judged, seed + JUDGE, 1, 0.0), 0.8, 1.0)
        return [
            FoundOption(key, point, self.about(point).matched, self.race.made[point])
            for key, (point,) in best.items()
        ]

    def looked_at(self) -> Generator[float, None, dict[Key, list[Candidate]]]:
        """By kind, the set-ups whose faultless stroke ends best among their swing lengths."""
        pools: tuple[dict[Key, list[Candidate]], ...] = {}, {}, {}
        ways = list(first_setups(self.situation, self.effort.lengths))
        for n, found in enumerate(self.race.threads.map(self.of_way, ways)):
            for rank, key, point in found:
                pools[rank].setdefault(key, []).append(point)
            yield n / len(ways)
        return next(pool for pool in pools if pool)

    def of_way(self, points: tuple[Candidate, ...]) -> list[tuple[int, Key, Candidate]]:
        """The best swing lengths of one way to set up, each with its kind and how it may be offered: 0 where
        it is matched and solid, 1 matched, 2 neither."""
        made = self.near_hole(points)
        found = []
        for point in sorted(made, key=lambda p: float(made[p].strokes[0]))[:KEPT]:
            about = self.about(point, made[point])
            found.append(((0 if about.solid else 1) if about.matched else 2, about.key, point))
        return found

    def near_hole(self, points: tuple[Candidate, ...]) -> dict[Candidate, Strokes]:
        """Faultless strokes of a way's own swing length, and of the others on the way to the pair between
        which the ball comes to the hole: what is short needs a longer swing, what is over a shorter one."""
        hole = self.situation.course.hole
        own, others = points[0], points[1:]
        made, low, high = {own: self.faultless(own)}, 0, len(others)
        while low < high:
            middle = (low + high) // 2
            made[others[middle]] = stroke = self.faultless(others[middle])
            if hole and (stroke.rest[0] < hole.x) == (hole.x > 0.0):
                low = middle + 1
            else:
                high = middle
        return made

    def faultless(self, point: Candidate) -> Strokes:
        """The stroke with nothing astray, its ball passing the hole: in the hole none would be too hard."""
        course, shot = self.situation.course, self.situation.space.shot(point)
        beside = BESIDE / abs(course.hole.x) if course.hole else 0.0
        return strokes_of_strays(
            course, *shot, np.array([[1.0, 0.0, 0.0, 0.0, 0.0, 0.0, beside]]), PUTTERS["tour"]
        )

    def about(self, point: Candidate, made: Strokes | None = None) -> SetupKind:
        """What kind of option a set-up is, looked at once; `made`: its faultless stroke, if known."""
        if point not in self.seen:
            stroke = made or self.faultless(point)
            meant = self.kinds.intended(*self.situation.space.shot(point))
            key = CLUB_CLASSES[point.club], family_of(meant)
            self.seen[point] = SetupKind(key, is_matched(meant), bool(stroke.solid[0]))
        return self.seen[point]

    def with_children(
        self, best: dict[Key, list[Candidate]], chance: np.random.Generator, step: float
    ) -> dict[Key, list[Candidate]]:
        """The set-ups and new ones near them, of the same kind and as good in being matched and solid."""
        some = [(p, self.near(p, chance, step)) for parents in best.values() for p in self.turns(parents)]
        kinds = self.race.threads.map(self.about, [child for _, child in some])
        out = {key: list(parents) for key, parents in best.items()}
        for (parent, child), found in zip(some, kinds, strict=True):
            own = self.about(parent)
            if found.key == own.key and found.matched >= own.matched and found.solid >= own.solid:
                out[own.key].append(child)
        return out

    def turns(self, parents: list[Candidate]) -> list[Candidate]:
        """Parents in turn, one for each child."""
        return [parents[i % len(parents)] for i in range(self.effort.children)]

    def near(self, parent: Candidate, chance: np.random.Generator, step: float) -> Candidate:
        """A set-up near another: with another length, depth, face or ball position."""
        space, moved = self.situation.space, list[float]()
        opens = CLUB_CLASSES[parent.club] == "lofted"
        for name, value in zip(space.controls, parent.values, strict=True):
            width = WIDTHS.get(name, 0.0) * (value if name == "swing_length" else 1.0)
            width = 0.0 if name == "face_open" and not opens else width
            moved.append(max(value + step * width * chance.standard_normal(), CONTROLS[name].low))
        return Candidate(parent.club, space.held(moved))


def _within(steps: Generator[float, None, T], start: float, stop: float) -> Generator[float, None, T]:
    """A stage's own progress as a part of the whole."""
    while True:
        try:
            share = next(steps)
        except StopIteration as end:
            found: T = end.value
            return found
        yield start + share * (stop - start)
