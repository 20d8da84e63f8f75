"""The kinds of set-up a proof looks at, and the first even look over all of them.

The three kinds of shot are sought among matched set-ups, whose handle comes back close to where it was
set; the unmatched ones are sought as well, to see whether they win.
"""

from collections.abc import Generator
from dataclasses import dataclass, field
from math import degrees

import numpy as np

from levels.effort import Effort
from levels.families import FAMILIES, Family, Kinds, family_of, is_matched
from levels.search import Candidate, Space, Trial, Trials, evenly
from physics.address import Motion, Setup
from physics.cause import FIGHTING

__all__ = ["SearchRegion", "Survey", "kind_of", "regions_of", "survey"]

POOL = 2048  # set-ups whose kind is looked at without a player's stroke
TURNS = 16  # sets of strokes that take turns in the draw
LEAST = 0.1  # share of the draw that a rare kind gets
ASIDE = 0.25  # and each way of coming back off
_WORDS = {"low": "low runners", "standard": "standard chips", "high": "high soft shots"}


@dataclass(frozen=True)
class SearchRegion:
    """One kind of set-up and where to look for it: a family, or what comes back off.

    `far`: more than 6 degrees off, sought always; less, only where no family does the task.
    """

    name: str
    space: Space
    kinds: Kinds = field(repr=False, compare=False)
    family: Family | None = None
    far: bool = False

    @property
    def words(self) -> str:
        """What is looked for."""
        return _WORDS.get(self.name, "unmatched set-ups")

    def holds(self, setup: Setup, motion: Motion) -> bool:
        """Whether a set-up is of this kind."""
        return kind_of(self.kinds, setup, motion) == self.name


def kind_of(kinds: Kinds, setup: Setup, motion: Motion) -> str:
    """The family of a matched set-up; else on which side, and how far, the handle comes back off."""
    meant = kinds.intended(setup, motion)
    if is_matched(meant):
        return family_of(meant)
    way = "on" if meant.lean_added > 0.0 else "back"
    return f"{way} far" if abs(degrees(meant.lean_added)) > FIGHTING else way


def regions_of(space: Space, kinds: Kinds) -> list[SearchRegion]:
    """The three families, then what comes back otherwise."""
    families = [SearchRegion(name, space, kinds, name) for name in FAMILIES]
    return [
        *families,
        *(SearchRegion(n, space, kinds, far="far" in n) for n in ("back far", "on far", "back", "on")),
    ]


@dataclass(frozen=True)
class Survey:
    """What the first look found: mean chance of a set-up taken at random, and where to go on."""

    chance: float
    best: dict[str, list[Candidate]]  # region: set-ups that came nearest


def survey(
    trials: Trials, regions: list[SearchRegion], effort: Effort, seed: int
) -> Generator[int, None, Survey]:  # fmt: skip
    """A first look: set-ups strewn over every region, rare kinds denser; each counts by its true share."""
    best: dict[str, list[Candidate]] = {}
    chance = 0.0
    kinds: dict[str, list[Candidate]] = {r.name: [] for r in regions}
    for point in map(trials.space.at, evenly(POOL, len(trials.space.controls) + 1, seed)):
        kinds[kind_of(regions[0].kinds, *trials.space.shot(point))].append(point)
    for name, points in kinds.items():
        share = len(points) / POOL
        wide = max(share, LEAST) if name in FAMILIES else ASIDE
        found = yield from _tried(trials, points, round(effort.draw * wide), effort, seed)
        best[name] = [f.point for f in sorted(found, key=lambda f: -f.close)[: effort.start]]
        if found:
            chance += share * float(np.mean([f.share for f in found]))
    return Survey(chance, best)


def _tried(
    trials: Trials, points: list[Candidate], count: int, effort: Effort, seed: int
) -> Generator[int, None, list[Trial]]:
    points = points[:count]
    seeds = [seed + i % TURNS for i in range(len(points))]
    return (yield from trials.many(points, seeds, effort.draw_strokes))
