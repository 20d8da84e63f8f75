"""Scars: what earlier strokes took from this ground, kept until the ball lies on another.

The next ball lies on whole turf beside the scar, so a scar is drawn as torn earth in the face of the cut and
never lowers the ground that a stroke meets.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from game.draw.turf import divot_floor
from physics.course import Course
from physics.results import Shot

__all__ = ["NO_SCARS", "Scars"]

KEPT = 6  # strokes whose scars are kept, assumed: more would be one brown band
SHALLOW = 0.001  # m, what is less has closed again
Floats = NDArray[np.float64]
Edge = tuple[tuple[float, ...], tuple[float, ...]]  # x, y (m, of the world)


@dataclass(frozen=True)
class Scars:
    """Strokes from one ground, the newest last."""

    shots: tuple[Shot, ...] = ()

    def after(self, shot: Shot) -> "Scars":
        """With one stroke more; one from other ground begins anew."""
        same = bool(self.shots) and _ground(self.shots[-1].course) == _ground(shot.course)
        return Scars((*(self.shots if same else ()), shot)[-KEPT:])

    def on(self, course: Course, now: Shot | None = None) -> "Scars":
        """Those that lie in the ground of this course; `now`, the stroke on show, cuts its own."""
        return Scars(tuple(s for s in self.shots if s is not now and _ground(s.course) == _ground(course)))

    def floors(self) -> tuple[Edge, ...]:
        """Floor of each scar as the strike itself left it (`Strike.divot`); none where it was too shallow
        and none in a mat."""
        return tuple(edge for edge in map(_floor, self.shots) if len(edge[0]) > 1)

    def lowest(self, xs: Floats, ground: Floats) -> Floats:
        """The lowest floor at every x, the ground itself where no scar is (m)."""
        out = ground.copy()
        for x, y in self.floors():
            inside = (xs >= x[0]) & (xs <= x[-1])
            out = np.where(inside, np.minimum(out, np.interp(xs, x, y)), out)
        return out


NO_SCARS = Scars()


def _ground(course: Course) -> tuple[object, ...]:
    return course.ground, course.lie


def _floor(shot: Shot) -> Edge:
    x, y = divot_floor(shot)
    ground = np.interp(x, shot.course.ground.x, shot.course.ground.y)
    cut = np.flatnonzero(ground - y > SHALLOW)
    if len(cut) < 2:
        return (), ()
    part = slice(int(cut[0]), int(cut[-1]) + 1)
    return tuple(x[part].tolist()), tuple(y[part].tolist())
