"""How hard a scenario is searched, and what a stroke costs where it is played.

Numbers of set-ups and strokes only: a thriftier search may miss a set-up, it never judges one otherwise.
"""

from dataclasses import dataclass, replace
from math import sqrt
from typing import Literal

from levels.search import SearchPlan
from physics.course import Course, Tree, Wall
from physics.shot import lie_of
from physics.surfaces import SAND

__all__ = ["EFFORTS", "FULL", "SMALL", "Effort", "cost_of"]

# of a stroke beside one from turf in the open, measured
SAND_COST, WALL_COST, CANOPY_COST = 3.0, 2.0, 24.0


@dataclass(frozen=True)
class Effort:
    """Set-ups and strokes of each stage."""

    name: Literal["small", "full"]
    draw: int  # set-ups strewn over the scenario
    draw_strokes: int
    start: int  # of each kind go on
    rounds: tuple[int, ...]  # strokes at each set-up of the search, round by round
    children: int
    parents: int
    finalists: int
    chosen: int  # strokes by which one finalist is chosen
    judged: int  # fresh strokes by which it is judged
    slack: int  # strokes at each value of a control
    near: int  # set-ups near the best
    near_strokes: int
    side: int  # cells of the chart, each way
    cell: int  # strokes of a cell

    def plan(self, family: bool) -> SearchPlan:
        """The part of a search between draw and choice; half as wide where no family is sought."""
        return SearchPlan(self.rounds, self.children if family else self.children // 2, self.parents)

    def at_cost(self, cost: float) -> "Effort":
        """The same for strokes that cost more, in about the same time: fewer set-ups and fewer strokes."""
        if cost <= 1.0:
            return self
        less = 1.0 / sqrt(cost)

        def cut(n: int, least: int, by: float = less) -> int:
            return max(min(n, least), round(n * by))

        rounds = self.rounds if cost < 8.0 or len(self.rounds) < 3 else self.rounds[::2]
        return replace(
            self, draw=cut(self.draw, 60), draw_strokes=cut(self.draw_strokes, 2), start=cut(self.start, 6),
            rounds=tuple(cut(n, 4) for n in rounds), children=cut(self.children, 6),
            parents=cut(self.parents, 3), finalists=cut(self.finalists, 1), chosen=cut(self.chosen, 20),
            judged=cut(self.judged, 100), slack=cut(self.slack, 8), near=cut(self.near, 12),
            near_strokes=cut(self.near_strokes, 6),
            side=cut(self.side, 7, sqrt(less)), cell=cut(self.cell, 3),
        )  # fmt: skip


FULL = Effort(
    "full", draw=480, draw_strokes=4, start=24, rounds=(10, 14, 20, 32), children=12, parents=6,
    finalists=4, chosen=160, judged=500, slack=32, near=64, near_strokes=14, side=13, cell=12,
)  # fmt: skip
SMALL = Effort(
    "small", draw=110, draw_strokes=2, start=10, rounds=(8, 16), children=10, parents=4,
    finalists=2, chosen=120, judged=200, slack=8, near=12, near_strokes=8, side=5, cell=6,
)  # fmt: skip
EFFORTS = {effort.name: effort for effort in (SMALL, FULL)}


def cost_of(course: Course) -> float:
    """What one stroke costs here, about: 1 from turf in the open."""
    low = (h for h in course.hazards if isinstance(h, Tree))
    if any(abs(h.x) < h.radius and h.trunk - h.radius < 1.0 for h in low):  # the ball lies under branches
        return CANOPY_COST
    if lie_of(course)[0].kind == SAND:
        return SAND_COST
    return WALL_COST if any(isinstance(h, Wall) for h in course.hazards) else 1.0
