"""The places named along the foot of the course: where a shot ended and landed, the hole, likely stops."""

from collections.abc import Sequence
from functools import lru_cache
from math import isfinite

import numpy as np

from game.draw.path import landing_at
from game.text.mark import Mark, MarkKind
from physics.course import Course
from physics.results import Outcome, Run, Shot

__all__ = ["course_marks"]

_ENDS = {
    Outcome.REST: MarkKind.STOP, Outcome.HOLED: MarkKind.HOLED, Outcome.WATER: MarkKind.WATER,
    Outcome.OUT: MarkKind.OUT, Outcome.STUCK: MarkKind.STUCK, Outcome.LOST: MarkKind.LOST,
}  # fmt: skip


def course_marks(
    course: Course, shot: Shot | None, stops: Sequence[float] = (), whose: str = ""
) -> tuple[Mark, ...]:
    """The marks of a shot (`whose` is its letter), of the hole and of the likely stops (m), the most telling
    first. A holed ball marks the hole itself."""
    out = _of_run(shot.run, whose) if shot else []
    if course.hole and not (shot and shot.run.outcome is Outcome.HOLED):
        out.append(Mark(MarkKind.HOLE, course.hole.x, course.hole.x))
    if len(stops) > 1:
        out.append(Mark(MarkKind.LIKELY, _early(tuple(stops))))
    return tuple(out)


def _of_run(run: Run, whose: str) -> list[Mark]:
    """Where the ball ended, and where it landed if it did."""
    out: list[Mark] = []
    if run.outcome in (Outcome.REST, Outcome.HOLED):
        out.append(Mark(_ENDS[run.outcome], run.rest, run.rest, whose))
    elif run.outcome is not Outcome.MISSED:
        out.append(Mark(_ENDS[run.outcome], run.x[-1], None, whose))
    if landing_at(run) is not None and isfinite(run.carry):
        out.append(Mark(MarkKind.LANDING, run.carry, run.carry, whose))
    return out


@lru_cache(8)
def _early(stops: tuple[float, ...]) -> float:
    """Where the band of likely stops begins in earnest (m): a tenth stop shorter."""
    return float(np.quantile(stops, 0.1))
