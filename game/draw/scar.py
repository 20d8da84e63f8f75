"""An old divot in turf or sand: torn earth where no grass stands, in the cut and from afar."""

from collections.abc import Sequence

import numpy as np
import pygame

from game.draw.camera import Camera, Rect
from game.draw.course import surface_at
from game.draw.palette import Colour, Palette, mix
from game.draw.pen import Pen
from game.draw.turf import Edge, ground_profile
from physics.course import Course
from physics.results import Shot
from physics.surfaces import SAND, SURFACES

__all__ = ["far_scars", "torn"]

RAGGED = 0.0006  # m, how uneven torn earth is, assumed
CRUMBS = 900.0  # crumbs a metre of scar
SEEN = 2.4  # px, how thick a scar is drawn from afar, times the unit: as it is it would be under one


def _tones(course: Course, palette: Palette) -> tuple[Colour, Colour]:
    """Torn earth, and the crumbs and rim on it."""
    name = course.lie.surface or surface_at(course, 0.0)
    if SURFACES[name].kind == SAND:
        return mix(palette.sand, palette.sand_deep, 0.6), mix(palette.sand_deep, palette.ink, 0.35)
    return mix(palette.soil, palette.thatch, 0.3), mix(palette.soil, palette.ink, 0.5)


def torn(
    pen: Pen, box: Rect, shot: Shot, camera: Camera, palette: Palette, edges: Sequence[Edge], unit: float
) -> None:  # fmt: skip
    """Fill old divots, floors (m) in `edges`, with torn earth up to the ground as it is now."""
    earth, dark = _tones(shot.course, palette)
    for k, (x, y) in enumerate(edges):
        chance = np.random.default_rng(40 + k)
        xs = np.linspace(x[0], x[-1], max(len(x), 24))
        top = ground_profile(shot, xs)[1]
        floor = np.minimum(np.interp(xs, x, y), top)
        rough = floor + np.where(top - floor > RAGGED, chance.normal(0.0, RAGGED / 2, len(xs)), 0.0)
        line = [camera.at(float(a), float(b)) for a, b in zip(xs, rough, strict=True)]
        over = [camera.at(float(a), float(b)) for a, b in zip(xs, top + 0.0006, strict=True)]
        pen.fill([*over, *line[::-1]], earth)
        at = chance.uniform(xs[0], xs[-1], round(CRUMBS * (xs[-1] - xs[0])))
        high, low = np.interp(at, xs, top), np.interp(at, xs, floor)
        deep = low + (high - low) * chance.uniform(0.1, 1.0, len(at))
        size = chance.uniform(0.0003, 0.0009, len(at)) * camera.scale
        for a, b, r in zip(at.tolist(), deep.tolist(), size.tolist(), strict=True):
            pen.disc(camera.at(a, b), r, dark, 150)
        pen.dashes(line, 1.4 * unit, dark, 5 * unit, 4 * unit)


def far_scars(
    surface: pygame.Surface, corner: tuple[float, float], course: Course, camera: Camera, palette: Palette,
    edges: Sequence[Edge], unit: float,
) -> None:  # fmt: skip
    """Old divots from as far as the whole course: bare earth on the line of the ground. `corner` (px) is
    where the camera's page begins."""
    _, dark = _tones(course, palette)
    for x, _ in edges:
        xs = np.linspace(x[0], x[-1], 6)
        ys = np.interp(xs, course.ground.x, course.ground.y)
        line = [camera.at(float(a), float(b)) for a, b in zip(xs, ys, strict=True)]
        thick = max(round(SEEN * unit), 2)
        pygame.draw.lines(surface, dark, False, [(corner[0] + a, corner[1] + b + 1) for a, b in line], thick)
