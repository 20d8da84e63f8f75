"""Marks of the turf window: ball, hollow heads, the way as meant, the low point, and the ground itself."""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil
from types import SimpleNamespace
from typing import cast

import numpy as np
import pygame

from game.draw import clubhead, turf
from game.draw.camera import Camera, Rect
from game.draw.kept import kept_of_last
from game.draw.palette import Palette
from game.draw.pen import Pen, gradient, sheet
from game.draw.scar import torn
from game.shot_view.scars import NO_SCARS, Scars
from game.shot_view.stance import Intent, Stance, Trail
from game.ui.supersample import ZOOM, dashed
from physics.address import Setup
from physics.course import Course
from physics.results import Shot, SwingTrace

__all__ = [
    "ground", "like", "low_place", "low_point", "nearest_row", "outline", "path_of", "pose_of", "turf_ball",
    "way", "way_dashes",
]  # fmt: skip

LARGE = 600_000  # px2 from which the ground is drawn coarser
NEAR, POINTS = 0.30, 401  # m either side of the ball for which a way is kept, and its points
COARSE = 3  # every so many are drawn: a chord of 4.5 mm is a hundredth of a pixel from its arc

Point = tuple[float, float]


def like(setup: Setup, course: Course, shot: Shot | None = None) -> Shot:
    """What the drawing of ground and head asks a Shot for, where none was played or its club is to be
    left out: set-up, course and ground."""
    divot = shot.strike.divot if shot else ((), ())
    return cast(Shot, SimpleNamespace(setup=setup, course=course, strike=SimpleNamespace(divot=divot)))


def outline(
    pen: Pen, camera: Camera, palette: Palette, setup: Setup, pose: clubhead.Pose, unit: float
) -> None:  # fmt: skip
    """The head of another setting, hollow and dashed."""
    shape, _ = clubhead.head_shape(setup.club, setup.face_open)
    line = [camera.at(*p) for p in clubhead.turned([*shape, shape[0]], pose)]
    dashed(pen, line, 3.2 * unit, palette.halo, 9 * unit)
    dashed(pen, line, 1.6 * unit, palette.ghost, 9 * unit)
    shaft = [camera.at(*p) for p in clubhead.turned([clubhead.HOSEL[0], clubhead.SHAFT[1]], pose)]
    dashed(pen, shaft, 1.6 * unit, palette.ghost, 9 * unit)


def turf_ball(pen: Pen, at: Point, r: float, palette: Palette, unit: float) -> None:
    x, y = at
    pen.disc((x, y), r, palette.outline)
    pen.disc((x, y), r - 1.8 * unit, palette.ball)
    pen.disc((x + 0.16 * r, y + 0.18 * r), 0.70 * r, palette.steel_lit, 40)


def pose_of(stance: Stance) -> clubhead.Pose:
    return clubhead.Pose("intended", 0, *stance.edge, stance.lean)


def nearest_row(shot: Shot, time: float) -> int:
    """Sample of the sole trace nearest to the time."""
    t = shot.strike.sole.t
    return int(np.argmin(np.abs(np.asarray(t) - time))) if t else 0


@kept_of_last(8)
def swing_trail(swing: SwingTrace) -> Trail:
    """The way (m) on which this stroke's swing brings the edge to the ground, with its strays: the path that
    the Shot's low point is the lowest place of."""
    x, y = np.asarray(swing.head[0]), np.asarray(swing.head[1])
    near = np.flatnonzero(np.abs(x) < NEAR)
    if len(near) < 4:
        return (), ()
    fine = np.linspace(x[near[0]], x[near[-1]], POINTS)
    high = np.interp(fine, x, y)
    k = int(near[y[near].argmin()])
    if (
        near[0] < k < near[-1]
    ):  # the turn lies between samples: a parabola through the lowest and its neighbours
        arc = np.polyfit(x[k - 1 : k + 2] - x[k], y[k - 1 : k + 2], 2)
        fine = np.sort(np.append(fine, x[k] - arc[1] / (2.0 * arc[0])))
        turn = (fine >= x[k - 1]) & (fine <= x[k + 1])
        high = np.where(turn, np.polyval(arc, fine - x[k]), np.interp(fine, x, y))
    return tuple(fine.tolist()), tuple(high.tolist())


def path_of(intent: Intent, shot: Shot | None) -> Trail:
    """The dashed way of the leading edge: that of the stroke's swing once it is known, else as meant."""
    return swing_trail(shot.swing) if shot else intent.trail


def low_place(intent: Intent, shot: Shot | None) -> Point:
    """The lowest point (m, on the slope) of the dashed way: there the low point is marked."""
    xs, ys = path_of(intent, shot)
    if not xs:
        return intent.low_point, 0.0
    k = min(range(len(ys)), key=ys.__getitem__)
    return xs[k], ys[k]


def way_dashes(camera: Camera, trail: Trail) -> list[tuple[Point, Point]]:
    """The way of the edge (px), a centimetre on and a centimetre off."""
    xs, ys = (part[::COARSE] for part in trail)
    line = camera.line(xs, ys)
    return [pair for pair, x in zip(pairwise(line), xs, strict=False) if int(x * 100.0 + 1000.0) % 2]


def way(
    surface: pygame.Surface, dashes: Sequence[tuple[Point, Point]], palette: Palette, unit: float
) -> None:  # fmt: skip
    """Dashed way of the edge on a light rim."""
    thin = max(round(1.6 * unit), 2)
    for wide, colour in ((max(round(4 * unit), 3), palette.halo), (thin, palette.intended)):
        for a, b in dashes:
            pygame.draw.aaline(surface, colour, a, b, wide)


def low_point(pen: Pen, at: Point, palette: Palette, unit: float) -> None:
    """A small triangle under the low point, its tip on the path."""
    x, y = at
    for grow, colour in ((1.6, palette.halo), (0.0, palette.ink)):
        wide, tall = (5 + grow) * unit, (9 + 1.7 * grow) * unit
        foot = y + (9 + 0.6 * grow) * unit
        pen.fill([(x, foot - tall), (x - wide, foot), (x + wide, foot)], colour)


def ground(
    own: Rect, shot: Shot, camera: Camera, palette: Palette, unit: float, scars: Scars = NO_SCARS
) -> pygame.Surface:  # fmt: skip
    """Sky, earth, old scars and standing grass. A large one is drawn as a page half as wide: its blades are
    twice as thick then, as they should be, and it takes a quarter of the time."""
    large, size = own.w * own.h > LARGE, (round(own.w), round(own.h))
    unit = min(unit, 1.3)
    if large:
        own = Rect(0, 0, ceil(own.w / 2), ceil(own.h / 2))
        camera, unit = camera.half, unit / 2
    pen = sheet(own.w, own.h, ZOOM)
    gradient(pen, own, [(0.0, palette.sky_high), (0.7, palette.sky_low), (1.0, palette.sky_low)])
    turf.soil(pen, own, shot, camera, palette, unit)
    edges = scars.floors()
    torn(pen, own, shot, camera, palette, edges, unit)
    turf.blades(pen, own, shot, camera, palette, unit, edges)
    return pen.surface if large else pygame.transform.smoothscale(pen.surface, size)
