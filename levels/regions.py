"""The kinds of set-up a proof looks at, and the first even look over all of them.

Where the lean change is open the three kinds of shot are sought among matched set-ups (the handle meant
to come back within a degree), and the unmatched ones are sought as well, to see whether they win.
"""

from collections.abc import Generator
from dataclasses import dataclass
from math import radians

import numpy as np

from levels.effort import Effort
from levels.families import FAMILIES, Family, family_of
from levels.search import Found, Point, Range, Space, evenly
from physics.address import Motion, Setup
from physics.cause import FIGHTING, MATCHED

__all__ = ["Drawn", "Region", "draw", "is_matched", "regions_of"]

POOL = 4096  # set-ups whose kind is looked at without a stroke
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
    family: Family | None = None
    far: bool = False

    @property
    def words(self) -> str:
        """What is looked for."""
        return _WORDS.get(self.name, "unmatched set-ups")

    def holds(self, setup: Setup, motion: Motion) -> bool:
        """Whether a set-up is of this kind."""
        return self.family in (None, family_of(setup, motion))


def is_matched(motion: Motion) -> bool:
    """Whether the handle is meant to come back where it was set (within a degree)."""
    return abs(motion.lean_change) <= radians(MATCHED) + 1e-9


def regions_of(space: Space) -> list[Region]:
    """The three families; then, if the lean change is open, what comes back otherwise."""
    if "lean_change" not in space.controls:
        return [Region(name, space, name) for name in FAMILIES]
    near, far = radians(MATCHED), radians(FIGHTING)
    matched = space.narrowed("lean_change", -near, near)
    families = [Region(name, matched or space, name) for name in FAMILIES]
    spans = {"back far": (-1.0, -far), "on far": (far, 1.0), "back": (-far, -near), "on": (near, far)}
    parts = {name: space.narrowed("lean_change", *span) for name, span in spans.items()}
    return [*families, *(Region(n, part, far="far" in n) for n, part in parts.items() if part and matched)]


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
    pool = evenly(POOL, len(ground.space.controls) + 1, seed)
    for space in dict.fromkeys(r.space for r in regions):
        kinds: dict[str, list[Point]] = {r.name: [] for r in regions if r.space == space}
        for point in map(space.at, pool):
            name = next(r.name for r in regions if r.space == space and r.holds(*space.shot(point)))
            kinds[name].append(point)
        for name, points in kinds.items():
            share = len(points) / POOL
            wide = max(share, LEAST) if name in FAMILIES else ASIDE
            found = yield from _tried(ground, points, round(effort.draw * wide), effort, seed)
            best[name] = [f.point for f in sorted(found, key=lambda f: -f.close)[: effort.start]]
            if space == ground.space and found:
                chance += share * float(np.mean([f.share for f in found]))
    if all(r.space != ground.space for r in regions):
        found = yield from _tried(ground, list(map(ground.space.at, pool)), effort.draw // 2, effort, seed)
        chance = float(np.mean([f.share for f in found]))
    return Drawn(chance, best)


def _tried(
    ground: Range, points: list[Point], count: int, effort: Effort, seed: int
) -> Generator[int, None, list[Found]]:
    points = points[:count]
    seeds = [seed + i % TURNS for i in range(len(points))]
    return (yield from ground.many(points, seeds, effort.draw_strokes))
