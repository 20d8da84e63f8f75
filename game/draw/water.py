"""Water from the side: it lies in a basin with banks, under one clear surface.

Where the ball is wet is the physics' alone (`physics.course.Water`: a box from left to right, below its
level). On ground that has no hollow there the basin is dug for the picture.
"""

from math import pi

import numpy as np
from numpy.typing import NDArray

from game.draw.camera import Camera
from game.draw.palette import Palette, mix
from game.draw.pen import Pen, shade
from physics.course import Course, Water

__all__ = ["draw_water", "is_wet", "water_bed"]

SHARE, LEAST, MOST = 0.20, 0.22, 0.80  # depth of a dug basin: share of its width; m
BANK = 0.16  # share of the width in which a dug bank goes down
SHORE = 0.004  # m over the level that ground still counts as the shore
BANDS = 7  # tones from the surface to the bed
REED = 0.55  # m, the tallest sedge on a bank, assumed


def is_wet(course: Course, x: float) -> bool:
    """Whether water hides the ground at x: nothing grows there."""
    y = float(np.interp(x, course.ground.x, course.ground.y))
    return any(isinstance(h, Water) and h.left < x < h.right and y <= h.level + SHORE for h in course.hazards)


def water_bed(course: Course, water: Water, deepest: float = MOST) -> tuple[NDArray[np.float64], ...]:
    """x (m) across the water and the height (m) of its bed there: the ground, or the basin dug for the
    picture, `deepest` m at most. Where the ground stands over the level, the bed is the level."""
    knots = [x for x in course.ground.x if water.left < x < water.right]
    xs = np.unique(np.concatenate([np.linspace(water.left, water.right, 81), knots]))
    ground = np.interp(xs, course.ground.x, course.ground.y)
    wet = ground <= water.level + SHORE
    deep = min(max(SHARE * (water.right - water.left), LEAST), MOST, deepest)
    share = np.zeros_like(xs)
    if wet.any():
        a, b = xs[wet][0], xs[wet][-1]
        near = np.clip(np.minimum(xs - a, b - xs) / max(BANK * (b - a), 1e-9), 0.0, 1.0)
        share = np.sin(0.5 * pi * near) ** 0.7
    dug = water.level - deep * share
    return xs, np.where(wet, np.minimum(ground, dug), water.level)


def draw_water(
    pen: Pen, water: Water, course: Course, camera: Camera, palette: Palette, unit: float, floor: float
) -> None:  # fmt: skip
    """Bed, water and surface; `floor` is the lowest px the picture has."""
    room = 0.72 * (floor - camera.at(0.0, water.level)[1]) / camera.scale
    xs, bed = water_bed(course, water, max(room, 0.02))
    wet = water.level - bed > 1e-6
    if not wet.any():
        return
    first, last = int(np.argmax(wet)), len(wet) - int(np.argmax(wet[::-1]))
    runs = np.split(np.arange(first, last), np.flatnonzero(np.diff(wet[first:last].astype(int))) + 1)
    for run in runs:
        if wet[run].all():
            k = slice(max(int(run[0]) - 1, 0), int(run[-1]) + 2)
            _pool(pen, xs[k], bed[k], water.level, camera, palette, unit)


def _pool(
    pen: Pen, xs: NDArray[np.float64], bed: NDArray[np.float64], level: float, camera: Camera,
    palette: Palette, unit: float,
) -> None:  # fmt: skip
    """One stretch of open water."""
    a, b = sorted((camera.at(float(xs[0]), level), camera.at(float(xs[-1]), level)))
    floor = [camera.at(x, y) for x, y in zip(xs.tolist(), bed.tolist(), strict=True)]
    mud = mix(palette.soil, palette.shoe, 0.42)
    pen.line(floor, 6.0 * unit, mud)
    deep = level - float(bed.min())
    for k in range(BANDS):
        top = level - deep * (k / BANDS) ** 1.3
        part = [camera.at(x, min(y, top)) for x, y in zip(xs.tolist(), bed.tolist(), strict=True)]
        tone = mix(mix(palette.water, palette.water_line, 0.30), shade(palette.water, -0.34), k / (BANDS - 1))
        pen.fill([camera.at(float(xs[0]), top), camera.at(float(xs[-1]), top), *part[::-1]], tone)
    _surface(pen, a, b, palette, unit)
    for foot, side in ((a, -1.0), (b, 1.0)):
        _sedge(pen, foot, side, camera.scale, palette, unit)


def _surface(pen: Pen, a: tuple[float, float], b: tuple[float, float], palette: Palette, unit: float) -> None:
    """A bright line from bank to bank, and light broken on the water under it."""
    bright = mix(palette.water_line, palette.ball, 0.45)
    wide = b[0] - a[0]
    rng = np.random.default_rng(12)
    for row, (share, alpha) in enumerate(((0.16, 190), (0.11, 150), (0.07, 110))):
        y = a[1] + (5.0 + 4.5 * row) * unit
        for _ in range(max(int(wide / (52 * unit)) - row, 1)):
            long = min(share * wide, 46 * unit) * rng.uniform(0.5, 1.0)
            x = a[0] + (0.10 + 0.06 * row) * wide
            x += rng.random() * max(wide * (0.80 - 0.12 * row) - long, 1.0)
            pen.line([(x, y), (x + long, y)], 1.3 * unit, palette.water_line, alpha)
    pen.line([a, b], 4.4 * unit, mix(palette.water, palette.shoe, 0.30))
    pen.line([a, b], 2.4 * unit, bright)


def _sedge(
    pen: Pen, foot: tuple[float, float], side: float, scale: float, palette: Palette, unit: float
) -> None:  # fmt: skip
    """Sedge standing on the bank, bent over the water."""
    rng = np.random.default_rng(31 if side > 0 else 30)
    tallest = max(REED * scale, 10.0 * unit)
    for _ in range(15):
        x = foot[0] + side * rng.uniform(-7.0, 9.0) * unit
        tall = tallest * rng.uniform(0.35, 1.0)
        bend = -side * tall * rng.uniform(-0.10, 0.34)
        tone = mix(palette.rough, palette.thatch, rng.uniform(0.0, 0.7))
        line = [(x, foot[1] + 2 * unit), (x + 0.3 * bend, foot[1] - 0.62 * tall), (x + bend, foot[1] - tall)]
        pen.line(line, 1.7 * unit, tone, 255, 0.4)
