"""Sand from the side: raked in furrows, and a lip of turf that hangs over each edge."""

from itertools import pairwise

import numpy as np

from game.draw.camera import Camera
from game.draw.palette import Palette, mix
from game.draw.pen import Pen, shade
from physics.course import Course
from physics.surfaces import SAND, SURFACES

__all__ = ["draw_bunkers", "sand_stretches"]

TINES = 0.085  # m between two furrows of the rake, from memory
FINEST = 5.0  # px between two furrows at least, at line weight 1
ROWS = 3  # rows of furrows under the surface


def sand_stretches(course: Course) -> tuple[tuple[float, float], ...]:
    """From and to (m) of every unbroken stretch of sand.

    >>> from physics.course import Ground
    >>> ground = Ground((0.0, 1.0, 2.0, 3.0, 4.0), (0.0,) * 5, ("green", "sand", "wet_sand", "rough"))
    >>> sand_stretches(Course(ground))
    ((1.0, 3.0),)
    """
    ground, out = course.ground, list[tuple[float, float]]()
    for (left, right), name in zip(pairwise(ground.x), ground.surfaces, strict=True):
        if SURFACES[name].kind != SAND:
            continue
        if out and out[-1][1] == left:
            out[-1] = (out[-1][0], right)
        else:
            out.append((left, right))
    return tuple(out)


def draw_bunkers(
    pen: Pen, course: Course, camera: Camera, palette: Palette, unit: float, deep: float
) -> None:
    """Furrows and lips of every stretch of sand; `deep` (px) is how thick its sand is drawn."""
    for left, right in sand_stretches(course):
        _raked(pen, course, left, right, camera, palette, unit, deep)
        for x, side in ((left, 1.0), (right, -1.0)):
            if course.ground.x[0] < x < course.ground.x[-1]:
                _turf_lip(pen, course, x, side, camera, palette, unit)


def _height(course: Course, x: float) -> float:
    return float(np.interp(x, course.ground.x, course.ground.y))


def _raked(
    pen: Pen, course: Course, left: float, right: float, camera: Camera, palette: Palette, unit: float,
    deep: float,
) -> None:  # fmt: skip
    """Short strokes of the rake, fainter the deeper, and ridges that catch the light on the surface."""
    gap = max(TINES, FINEST * unit / camera.scale)
    spare = min(3.0 * gap, 0.15 * (right - left))
    rng, wet = np.random.default_rng(23), mix(palette.sand_deep, palette.soil, 0.55)
    for x in np.arange(left + spare, right - spare, gap).tolist():
        px, py = camera.at(x, _height(course, x))
        ahead = camera.at(x + 0.5 * gap, _height(course, x + 0.5 * gap))
        pen.line([(px, py + 0.8 * unit), ahead], 1.5 * unit, wet)
        for row in range(ROWS):
            y = py + (0.20 + 0.26 * row + 0.05 * rng.random()) * deep
            lean = 0.55 * gap * camera.scale
            tone = mix(wet, palette.sand, 0.25 + 0.22 * row)
            pen.line([(px + 0.3 * row * lean, y), (px + (0.3 * row + 0.8) * lean, y + 0.09 * deep)],
                     1.1 * unit, tone)  # fmt: skip


def _turf_lip(
    pen: Pen, course: Course, x: float, side: float, camera: Camera, palette: Palette, unit: float
) -> None:  # fmt: skip
    """The edge of the turf: a sod over a shaded cut, its grass hanging into the sand (`side` is where the
    sand lies)."""
    y = _height(course, x)
    over, thick = 6.0 * unit / camera.scale, 7.0 * unit / camera.scale

    def at(dx: float, dy: float) -> tuple[float, float]:
        return camera.at(x + side * dx, _height(course, x + side * min(dx, 0.0)) + dy)

    shadow = [camera.at(x, y), camera.at(x + side * 2.4 * over, _height(course, x + side * 2.4 * over))]
    pen.line(shadow, 4.0 * unit, mix(palette.sand_deep, palette.soil, 0.5), 150, 0.3)
    sod = [at(-2.6 * over, 0.05 * thick), at(0.0, 0.30 * thick), at(0.85 * over, 0.0),
           at(0.7 * over, -0.7 * thick), at(-0.1 * over, -0.95 * thick),
           at(-2.6 * over, -0.75 * thick)]  # fmt: skip
    pen.fill(sod, shade(palette.thatch, -0.12))
    top = [at(-2.8 * over, 0.05 * thick), at(0.0, 0.32 * thick), at(0.9 * over, 0.0)]
    pen.line(top, 4.2 * unit, palette.rough, 255, 0.7)
    rng = np.random.default_rng(9)
    for _ in range(7):
        foot = at(rng.uniform(-0.8, 0.9) * over, 0.2 * thick)
        hang = rng.uniform(3.0, 7.0) * unit
        pen.line([foot, (foot[0] + side * 0.6 * hang, foot[1] - 0.4 * hang),
                  (foot[0] + side * 1.1 * hang, foot[1] + 0.35 * hang)], 1.3 * unit, palette.rough, 255,
                 0.4)  # fmt: skip
