"""Marks of the turf window: ball, hollow heads, the way as meant, the low point, and the ground itself."""

from itertools import pairwise
from types import SimpleNamespace
from typing import cast

import numpy as np
import pygame

from game.draw import clubhead, turf
from game.draw.camera import Camera, Rect
from game.draw.palette import Palette
from game.draw.pen import Pen, gradient, sheet
from game.shot_view.stance import Stance, Trail
from game.ui.supersample import ZOOM, dashed
from physics.address import Setup
from physics.course import Course
from physics.results import Shot

__all__ = ["ground", "like", "low_point", "nearest_row", "outline", "pose_of", "turf_ball", "way"]

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


def way(surface: pygame.Surface, camera: Camera, trail: Trail, palette: Palette, unit: float) -> None:
    """Dashed way of the edge, a centimetre on and a centimetre off, on a light rim."""
    line = camera.line(*trail)
    dashes = [pair for pair, x in zip(pairwise(line), trail[0], strict=False) if int(x * 100.0 + 1000.0) % 2]
    for wide, colour in ((max(round(4 * unit), 3), palette.halo), (2, palette.intended)):
        for a, b in dashes:
            pygame.draw.aaline(surface, colour, a, b, wide)


def low_point(pen: Pen, at: Point, palette: Palette, unit: float) -> None:
    """A small triangle under the intended low point, its tip at the place."""
    x, y = at
    for grow, colour in ((1.6, palette.halo), (0.0, palette.ink)):
        wide, tall = (5 + grow) * unit, (9 + 1.7 * grow) * unit
        foot = y + (9 + 0.6 * grow) * unit
        pen.fill([(x, foot - tall), (x - wide, foot), (x + wide, foot)], colour)


def ground(own: Rect, shot: Shot, camera: Camera, palette: Palette, unit: float) -> pygame.Surface:
    """Sky, earth and standing grass."""
    pen = sheet(own.w, own.h, ZOOM)
    gradient(pen, own, [(0.0, palette.sky_high), (0.7, palette.sky_low), (1.0, palette.sky_low)])
    turf.soil(pen, own, shot, camera, palette, unit)
    turf.blades(pen, own, shot, camera, palette, unit)
    return pygame.transform.smoothscale(pen.surface, (round(own.w), round(own.h)))
