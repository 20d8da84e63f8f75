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
from levels.search import Found, Point, Range, Space, evenly
from physics.address import Motion, Setup
from physics.cause import FIGHTING

__all__ = ["Drawn", "Region", "draw", "kind_of", "regions_of"]

POOL = 2048  # set-ups whose kind is looked at without a player's stroke
TURNS = 16  # sets of strokes that take turns in the draw
LEAST = 0.1  # share of the draw that a rare kind gets
ASIDE = 0.25  # and each way of coming back off
_WORDS = {"low": "low runners", "standard": "standard chips", "high": "high soft shots"}


@dataclass(frozen=True)
class Region:
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


def regions_of(space: Space, kinds: Kinds) -> list[Region]:
    """The three families, then what comes back otherwise."""
    families = [Region(name, space, kinds, name) for name in FAMILIES]
    return [
        *families,
        *(Region(n, space, kinds, far="far" in n) for n in ("back far", "on far", "back", "on")),
    ]


@dataclass(frozen=True)
class Drawn:
    """What the first look found: mean chance of a set-up taken at random, and where to go on."""

    chance: float
    best: dict[str, list[Point]]  # region: set-ups that came nearest


def draw(
    ground: Range, regions: list[Region], effort: Effort, seed: int
) -> Generator[int, None, Drawn]:  # fmt: skip
    """Strew set-ups over every region, rare kinds denser; the mean counts each kind by its true share."""
    best: dict[str, list[Point]] = {}
    chance = 0.0
    kinds: dict[str, list[Point]] = {r.name: [] for r in regions}
    for point in map(ground.space.at, evenly(POOL, len(ground.space.controls) + 1, seed)):
        kinds[kind_of(regions[0].kinds, *ground.space.shot(point))].append(point)
    for name, points in kinds.items():
        share = len(points) / POOL
        wide = max(share, LEAST) if name in FAMILIES else ASIDE
        found = yield from _tried(ground, points, round(effort.draw * wide), effort, seed)
        best[name] = [f.point for f in sorted(found, key=lambda f: -f.close)[: effort.start]]
        if found:
            chance += share * float(np.mean([f.share for f in found]))
    return Drawn(chance, best)


def _tried(
    ground: Range, points: list[Point], count: int, effort: Effort, seed: int
) -> Generator[int, None, list[Found]]:
    points = points[:count]
    seeds = [seed + i % TURNS for i in range(len(points))]
    return (yield from ground.many(points, seeds, effort.draw_strokes))
