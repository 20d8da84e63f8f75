"""What of the course is in sight: it is widened by what has been seen, never by what is still to come.

A view that fits a whole shot before it is played tells how long it will be. So the sight follows the ball:
when one runs out of it, it grows by a step that depends on the sight alone.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from game.draw.course import ground_at
from physics.course import Course, Tree, Wall
from physics.equipment import FLAGSTICK
from physics.results import Run

__all__ = ["BEHIND", "Sight", "sight_of", "sights_ahead"]

BEHIND = 1.5  # m shown behind the ball, the golfer's room
STANDING = 2.05  # m over the ball that are always in sight, a golfer's height and some air
STEP = 4.0  # m, what is seen reaches to a multiple of it once a ball has run out
WIDER, HIGHER = 1.4, 1.35  # times that a step makes it
BESIDE, OVER = 0.4, 0.1  # m of the edges that a ball may not come to


@dataclass(frozen=True)
class Sight:
    """Least x, most x and most y in sight (m)."""

    left: float
    right: float
    top: float

    def joined(self, other: "Sight") -> "Sight":
        """What either holds."""
        return Sight(min(self.left, other.left), max(self.right, other.right), max(self.top, other.top))

    def with_top(self, top: float) -> "Sight":
        """As high as that at least."""
        return replace(self, top=max(self.top, top))

    def following(self, x: float, y: float) -> "Sight":
        """Grown by whole steps until a ball at (x, y) is inside; the same where it is."""
        left, right, top = self.left, self.right, self.top
        while x > right - BESIDE:
            right = max(STEP * ceil(WIDER * right / STEP), right + STEP)
        while x < left + BESIDE:
            left -= STEP
        while y > top - OVER:
            top = ceil(2.0 * HIGHER * top) / 2.0
        return Sight(left, right, top)

    def holding(self, run: Run) -> "Sight":
        """Grown to what a run that is known fills."""
        return self.following(max(run.x), max(run.y)).following(min(run.x), 0.0)


def sight_of(course: Course) -> Sight:
    """Ball, golfer, hole and what stands between them."""
    hole = course.hole.x if course.hole else 6.0
    tops = [STANDING]
    if course.hole:
        tops.append(ground_at(course, hole) + FLAGSTICK.height + 0.1)
    for h in course.hazards:
        if isinstance(h, Tree | Wall) and -2.0 <= h.x <= hole + 2.0:
            tall = h.trunk + h.radius if isinstance(h, Tree) else h.height
            tops.append(ground_at(course, h.x) + tall)
    return Sight(-BEHIND, hole + max(1.5, 0.15 * hole), max(tops))


def sights_ahead(sight: Sight, runs: Sequence[tuple[Run, float]]) -> tuple[tuple[float, Sight], ...]:
    """When (s) a sight grows, and to what, as balls run; with each run how late (s) its own clock is."""
    if not runs:
        return ()
    t = np.concatenate([np.asarray(run.t) - late for run, late in runs])
    x, y = (np.concatenate([getattr(run, axis) for run, _ in runs]) for axis in "xy")
    out: list[tuple[float, Sight]] = []
    order = np.argsort(t, kind="stable")
    for time, px, py in zip(t[order].tolist(), x[order].tolist(), y[order].tolist(), strict=True):
        wider = sight.following(px, py)
        if wider != sight:
            sight = wider
            out.append((time, sight))
    return tuple(out)
