"""Many strokes of one set-up as they are shown and told: where each ball stops, and what its strike was."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from math import hypot, inf, nan
from statistics import median

import numpy as np

from levels.lessons import Share
from physics.address import Motion, Setup
from physics.cloud import CODE, KIND, REST_X, SOLID, play_many
from physics.course import Course
from physics.quality import FAT, SPLASHED, THIN, TOPPED
from physics.quality import SOLID as SOLID_KIND
from physics.run import HOLED, REST
from physics.spread import Spread, draw_strays

__all__ = ["MANY", "SHOWN", "ManyStrokes", "StrikeKind", "strike_kinds", "strokes_in_parts"]

MANY, PARTS = 500, 5  # counted, and in how many steps they come
SHOWN = 50  # the first of them, shown one by one


class StrikeKind(StrEnum):
    """What a strike was, as far as dots tell it."""

    SOLID = "solid"
    FAT = "fat"
    THIN = "thin"
    OTHER = "other"  # missed, or met twice


_KINDS = {
    SOLID_KIND: StrikeKind.SOLID, SPLASHED: StrikeKind.SOLID, FAT: StrikeKind.FAT,
    THIN: StrikeKind.THIN, TOPPED: StrikeKind.THIN,
}  # fmt: skip


@dataclass(frozen=True)
class ManyStrokes:
    """Strokes of one player with one set-up, one entry each and always in the same order."""

    stops: tuple[float, ...]  # m along the line; where it was last seen when it never came to rest
    leaves: tuple[float, ...]  # m to the hole, 0 in it; inf when the ball is lost, nan without a hole
    kinds: tuple[StrikeKind, ...]
    solid: tuple[bool, ...]

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.stops)

    @property
    def middle(self) -> float:
        """Half of the balls stop by here (m)."""
        return median(self.stops)

    @property
    def solid_share(self) -> Share:
        """Share of strokes struck solid, or splashed from sand as they should."""
        return Share(sum(self.solid) / self.count, self.count)

    def inside(self, radius: float) -> Share:
        """Share of balls that stop within so many metres of the hole; none without a hole."""
        return Share(sum(leave <= radius for leave in self.leaves) / self.count, self.count)


def strokes_in_parts(
    course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int = 0, strokes: int = MANY
) -> Iterator[ManyStrokes]:
    """The strokes of `physics.cloud.cloud` with that seed, more at each step, on one thread.

    >>> from physics.course import level_course
    >>> from physics.spread import PLAYERS
    >>> *_, many = strokes_in_parts(level_course("fairway", 8.0), Setup(), Motion(), PLAYERS["club"])
    >>> many.count, many.solid_share.of_100 > 70
    (500, True)
    """
    made = ManyStrokes((), (), (), ())
    for strays in np.array_split(draw_strays(spread, seed, strokes), PARTS):
        rows, _ = play_many(course, setup, motion, strays, seed, workers=1)
        stops, codes = rows[:, REST_X].tolist(), rows[:, CODE].astype(int).tolist()
        beside = (rows[:, REST_X] * strays[:, 6]).tolist()
        leaves = (_leave(course, *row) for row in zip(stops, beside, codes, strict=True))
        kinds = strike_kinds(rows[:, KIND])
        made = ManyStrokes(
            (*made.stops, *stops), (*made.leaves, *leaves), (*made.kinds, *kinds),
            (*made.solid, *(rows[:, SOLID] > 0).tolist()),
        )  # fmt: skip
        yield made


def strike_kinds(codes: Iterable[float]) -> tuple[StrikeKind, ...]:
    """What strikes with these codes of `physics.quality` were."""
    return tuple(_KINDS.get(int(code), StrikeKind.OTHER) for code in codes)


def _leave(course: Course, stop: float, beside: float, code: int) -> float:
    if course.hole is None:
        return nan
    if code == HOLED:
        return 0.0
    return hypot(course.hole.x - stop, beside) if code == REST else inf
