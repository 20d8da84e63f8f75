"""The course from the side: sky, fen horizon, earth in layers, grass, hazards, flag and cup."""

from collections.abc import Sequence
from functools import lru_cache
from math import cos, pi, sin

import numpy as np
import pygame

from game.view.camera import Camera, Rect
from game.view.palette import Colour, Palette, mix
from game.view.pen import Pen, gradient, shade, sheet
from physics.course import Course, Lip, OutOfBounds, Tree, Wall, Water
from physics.equipment import FLAGSTICK, HOLE_RADIUS
from physics.scenery.barrier import SOD
from physics.surfaces import SAND, SURFACES

__all__ = ["Layers", "earth", "grass", "ground_at", "layer", "surface_at"]

CUP_DEPTH = 0.1016  # m, Rules of Golf: at least
# m, height of cut as drawn; usual greenkeeping heights, from memory; rough drawn at a typical summer length
CUT = {
    "green": 0.004,
    "fringe": 0.009,
    "tight": 0.008,
    "fairway": 0.013,
    "soft": 0.015,
    "rough": 0.07,
    "mat": 0.004,
}


def ground_at(course: Course, x: float) -> float:
    """Height (m) of the profile; level beyond its ends."""
    return float(np.interp(x, course.ground.x, course.ground.y))


def surface_at(course: Course, x: float) -> str:
    """Name of the surface at x; the last one continues beyond the ends."""
    at = int(np.searchsorted(course.ground.x, x, side="right")) - 1
    return course.ground.surfaces[min(max(at, 0), len(course.ground.surfaces) - 1)]


def top_colour(palette: Palette, name: str) -> Colour:
    """Colour of what grows or lies on top."""
    if SURFACES[name].kind == SAND:
        return palette.sand if name == "sand" else shade(palette.sand, -0.12)
    named = {"tight": mix(palette.fairway, palette.green, 0.5), "soft": shade(palette.fairway, -0.08)}
    return named.get(name) or getattr(palette, name)


Layers = Sequence[tuple[float, Colour]]


def earth(
    pen: Pen, box: Rect, top: np.ndarray, cover: np.ndarray, thick: np.ndarray, layers: Layers,
    fade: Colour | None,
) -> None:  # fmt: skip
    """Ground under the line `top` (page px, one value a sheet column), every layer following it.

    `cover`, shape (columns, 3), and `thick` (px) give the uppermost band; `layers` are (depth in px,
    colour) below it; `fade` is the colour the last fifth of the box dissolves into.
    """
    z = pen.zoom
    left, w = round(box.x * z), round(box.w * z)
    upper, lower = round(max(box.y, float(top.min()) - 1) * z), round(box.bottom * z)
    view = pygame.surfarray.pixels3d(pen.surface)[left : left + w, upper:lower]
    y = ((np.arange(upper, lower) + 0.5) / z).astype(np.float32)
    x = np.arange(w) / z
    wave = 1.0 + 0.10 * np.sin(x / 37.0) + 0.06 * np.sin(x / 13.0 + 1.0)
    depth = y[None, :] - top.astype(np.float32)[:w, None]
    below = (depth - thick.astype(np.float32)[:w, None]) * wave.astype(np.float32)[:, None]
    grain = np.random.default_rng(5).random(depth.shape, dtype=np.float32) - 0.5
    away = np.clip((y - box.bottom) / (0.22 * box.h) + 1.0, 0.0, 1.0)[None, :]
    solid = np.clip(depth * z + 0.5, 0.0, 1.0)
    covered = np.clip(0.5 - (depth - thick.astype(np.float32)[:w, None]) * z, 0.0, 1.0)
    steps = np.arange(0.0, box.h + 2.0, 0.25)  # px of depth; the layers are read from a table
    at = np.clip(below * 4.0, 0, len(steps) - 1).astype(np.int32)
    for k in range(3):
        colour = np.interp(steps, [d for d, _ in layers], [c[k] for _, c in layers]).astype(np.float32)[at]
        colour += covered * (cover.astype(np.float32)[:w, None, k] - colour)
        if fade is not None:
            colour += away * (fade[k] - colour)
        old = view[:, :, k]
        view[:, :, k] = np.clip(np.rint(old + solid * (colour + grain - old)), 0, 255)


def grass(
    pen: Pen, camera: Camera, line: Sequence[tuple[float, float]], height: float, colour: Colour, seed: int,
    every: float = 2.2,
) -> None:  # fmt: skip
    """Blades (m high) standing on a ground line given in world metres."""
    rng = np.random.default_rng(seed)
    xs, ys = np.array(line).T
    n = int((xs[-1] - xs[0]) * camera.scale / every)
    for x in np.sort(rng.uniform(xs[0], xs[-1], max(n, 0))):
        px, py = camera.at(x, float(np.interp(x, xs, ys)))
        tall = height * camera.scale * rng.uniform(0.55, 1.15)
        bend = tall * rng.uniform(-0.35, 0.35)
        tone = mix(colour, (255, 255, 255) if rng.random() < 0.5 else (0, 0, 0), rng.uniform(0, 0.14))
        pen.line(
            [(px, py + 1), (px + bend * 0.3, py - tall * 0.6), (px + bend, py - tall)], 1.1, tone, 255, 0.35
        )


def _sky(pen: Pen, box: Rect, palette: Palette, horizon: float, unit: float) -> None:
    share = max((horizon - box.y) / box.h, 0.05)
    gradient(pen, box, [(0.0, palette.sky_high), (share, palette.sky_low), (1.0, palette.sky_low)])
    sun = (box.x + 0.74 * box.w, horizon - 74 * unit)
    for size, alpha in ((58, 36), (42, 70), (30, 255)):
        pen.disc(sun, size * unit, palette.sun, alpha)
    rng = np.random.default_rng(11)
    for _ in range(7):
        x, y = rng.uniform(0.0, 1.0) * box.w, box.y + rng.uniform(0.12, 0.72) * (horizon - box.y)
        long, high = rng.uniform(90, 260) * unit, rng.uniform(2.0, 5.0) * unit
        shape = [
            (x + long * cos(a), y + high * sin(a) * (1.0 if sin(a) < 0 else 0.5))
            for a in np.linspace(0, 2 * pi, 40)
        ]
        pen.fill(shape, palette.cloud, 120)


def _poplar(pen: Pen, x: float, y: float, tall: float, wide: float, colour: Colour) -> None:
    up = np.linspace(0.0, 1.0, 14)
    half = wide * np.sin(pi * np.clip(up * 0.93 + 0.07, 0, 1)) ** 0.75 * (1.05 - 0.45 * up)
    left = [(x - b, y - tall * (0.08 + 0.92 * u)) for u, b in zip(up, half, strict=True)]
    right = [(x + b * 0.9, y - tall * (0.08 + 0.92 * u)) for u, b in zip(up, half, strict=True)]
    pen.line([(x, y), (x, y - tall * 0.3)], wide * 0.25, colour)
    pen.fill(left + right[::-1], colour)


def _hedges(pen: Pen, box: Rect, y: float, size: float, colour: Colour, seed: int) -> None:
    """A low hedge line with gaps, and a few stands of poplars."""
    rng = np.random.default_rng(seed)
    x = box.x - 20.0
    while x < box.right + 20:
        end = x + rng.uniform(12, 40) * size
        while x < end:
            r = rng.uniform(0.5, 1.0) * size
            pen.fill(
                [
                    (x - 2.2 * r, y + 1),
                    (x - 1.4 * r, y - 0.7 * r),
                    (x, y - r),
                    (x + 1.5 * r, y - 0.6 * r),
                    (x + 2.2 * r, y + 1),
                ],
                colour,
            )
            x += rng.uniform(0.8, 2.0) * size
        if rng.random() < 0.55:
            for _ in range(int(rng.integers(3, 8))):
                x += rng.uniform(1.6, 2.3) * size
                tall = rng.uniform(6.0, 9.5) * size
                _poplar(pen, x, y, tall, tall * rng.uniform(0.075, 0.1), colour)
        x += rng.uniform(2, 9) * size


def _land(pen: Pen, box: Rect, palette: Palette, horizon: float, unit: float) -> None:
    """Fields between the horizon and the course, with a dyke or two catching the light."""
    _hedges(pen, box, horizon, 7.0 * unit, palette.far, 3)
    field = Rect(box.x, horizon, box.w, box.bottom - horizon)
    near = mix(palette.field, palette.fairway, 0.35)
    gradient(
        pen, field, [(0.0, mix(palette.field, palette.sky_low, 0.35)), (0.35, palette.field), (1.0, near)], 2
    )
    for y, long, at in ((7, 0.34, 0.05), (12, 0.5, 0.42), (22, 0.42, 0.18)):
        x = box.x + at * box.w
        line = [(x, horizon + y * unit), (x + long * box.w, horizon + y * unit)]
        pen.line(line, 1.4 * unit, mix(palette.water_line, palette.field, 0.6))
    _hedges(pen, box, horizon + 17 * unit, 9.5 * unit, palette.near, 8)


def _ground(pen: Pen, box: Rect, course: Course, camera: Camera, palette: Palette, unit: float) -> None:
    columns = round(box.w * pen.zoom)
    px = box.x + (np.arange(columns) + 0.5) / pen.zoom
    xs = np.array([camera.world(p, 0)[0] for p in px])
    top = np.array([camera.at(0, y)[1] for y in np.interp(xs, course.ground.x, course.ground.y)])
    names = [surface_at(course, x) for x in xs]
    cover = np.array([top_colour(palette, n) for n in names], dtype=float)
    mown = (np.floor(xs / 0.9) % 2 == 0) & np.isin(names, ["green", "fairway"])
    cover[mown] *= 0.965
    deep = np.array([(22 if SURFACES[n].kind == SAND else 11) * unit for n in names])
    soil = palette.soil
    soft = np.ones(max(round(26 * unit * pen.zoom), 1))
    deep = np.convolve(np.pad(deep, len(soft), mode="edge"), soft / len(soft), mode="same")[
        len(soft) : -len(soft)
    ]
    layers = [
        (0.0, palette.thatch), (5 * unit, palette.thatch), (7 * unit, soil),
        (30 * unit, mix(soil, palette.deep, 0.35)),
        (32 * unit, mix(soil, palette.deep, 0.55)), (75 * unit, palette.deep), (400 * unit, palette.deep),
    ]  # fmt: skip
    earth(pen, box, top, cover, deep, layers, palette.paper)
    _stones(pen, box, px, top, palette, unit)
    for i, name in enumerate(course.ground.surfaces):
        left, right = course.ground.x[i], course.ground.x[i + 1]
        if i == 0:
            left = min(left, xs[0])
        if i == len(course.ground.surfaces) - 1:
            right = max(right, xs[-1])
        line = [(x, ground_at(course, x)) for x in np.linspace(left, right, 40)]
        if name in CUT and not _drowned(course, (left + right) / 2):
            tall = max(CUT[name], 2.2 * unit / camera.scale)
            grass(pen, camera, line, tall, top_colour(palette, name), 20 + i, 2.0 * unit)


def _drowned(course: Course, x: float) -> bool:
    return any(
        isinstance(h, Water) and h.left < x < h.right and ground_at(course, x) < h.level
        for h in course.hazards
    )


def _stones(pen: Pen, box: Rect, px: np.ndarray, top: np.ndarray, palette: Palette, unit: float) -> None:
    rng = np.random.default_rng(4)
    for _ in range(int(box.w / (26 * unit))):
        k = int(rng.integers(0, len(px)))
        y = top[k] + rng.uniform(26, 64) * unit
        if y > box.bottom - 0.24 * box.h:
            continue
        r = rng.uniform(1.2, 3.2) * unit
        shape = [(px[k] + 1.6 * r * cos(a), y + r * sin(a)) for a in np.linspace(0, 2 * pi, 14)]
        pen.fill(shape, mix(palette.soil, palette.deep, rng.uniform(0.5, 0.9)), 170)


def _water(pen: Pen, water: Water, course: Course, camera: Camera, palette: Palette, unit: float) -> None:
    xs = np.linspace(water.left, water.right, 60)
    bed = [camera.at(x, min(ground_at(course, x), water.level)) for x in xs]
    a, b = camera.at(water.left, water.level), camera.at(water.right, water.level)
    pen.fill([a, b, *bed[::-1]], palette.water, 225)
    pen.line([a, b], 2.0 * unit, palette.water_line)
    for share, long in ((0.25, 0.2), (0.6, 0.14)):
        x = a[0] + (b[0] - a[0]) * share
        pen.line(
            [(x, a[1] + 6 * unit), (x + (b[0] - a[0]) * long, a[1] + 6 * unit)],
            1.2 * unit,
            palette.water_line,
            150,
        )


def _tree(pen: Pen, tree: Tree, course: Course, camera: Camera, palette: Palette) -> None:
    ground = ground_at(course, tree.x)
    s, r = camera.scale, tree.radius
    foot, crown = camera.at(tree.x, ground - 0.02), camera.at(tree.x, ground + tree.trunk)
    pen.line([foot, crown], max(0.16 * r, 0.12) * s, palette.bark, 255, 0.6)
    rng = np.random.default_rng(7)
    shades = (
        (1.0, 0.0, 0.0, shade(palette.leaf, -0.12)),
        (0.80, -0.10, 0.12, palette.leaf),
        (0.52, -0.22, 0.27, palette.leaf_lit),
    )
    for size, dx, dy, colour in shades:  # three clumps, each smaller and nearer the light
        at = (tree.x + dx * r, ground + tree.trunk + dy * r)
        pen.disc(camera.at(*at), 0.72 * size * r * s, colour)
        for a in np.linspace(0, 2 * pi, 12)[:-1] + size:
            part = rng.uniform(0.24, 0.36) * size * r
            d = 0.98 * size * r - part
            pen.disc(camera.at(at[0] + d * cos(a), at[1] + d * sin(a)), part * s, colour)


def _wall(pen: Pen, wall: Wall, course: Course, camera: Camera, palette: Palette, unit: float) -> None:
    low = ground_at(course, wall.x)
    left, right = wall.x, wall.x + wall.thickness
    box = [
        camera.at(left, low - 0.05),
        camera.at(left, low + wall.height),
        camera.at(right, low + wall.height),
        camera.at(right, low - 0.05),
    ]
    pen.fill(box, palette.wall)
    courses = max(int(wall.height / 0.12), 1)
    for k in range(1, courses):
        y = low + wall.height * k / courses
        pen.line([camera.at(left, y), camera.at(right, y)], 1.0 * unit, shade(palette.wall, -0.2))
    pen.line(
        [camera.at(left - 0.02, low + wall.height), camera.at(right + 0.02, low + wall.height)],
        3.0 * unit,
        shade(palette.wall, 0.15),
    )


def _lip(pen: Pen, lip: Lip, course: Course, camera: Camera, palette: Palette, unit: float) -> None:
    """The sod the ball meets, corner for corner, with grass on its crown."""
    nose = lip.x - lip.overhang
    sand = ground_at(course, nose)
    top, sod = sand + lip.height, min(SOD, lip.height)
    corners = [camera.at(*p) for p in ((nose, top - sod), (lip.x, sand), (lip.x, top), (nose, top))]
    pen.fill(corners, palette.thatch)
    pen.line([corners[3], corners[2]], 5.0 * unit, palette.rough)
    grass(pen, camera, [(nose, top), (lip.x, top)], 0.05, palette.rough, 17, 1.6 * unit)


def _flag(pen: Pen, course: Course, camera: Camera, palette: Palette, unit: float) -> None:
    hole = course.hole
    if hole is None:
        return
    low = ground_at(course, hole.x)
    left, right = camera.at(hole.x - HOLE_RADIUS, low), camera.at(hole.x + HOLE_RADIUS, low - CUP_DEPTH)
    pen.fill([left, (right[0], left[1]), right, (left[0], right[1])], shade(palette.soil, -0.55))
    for x in (left[0], right[0]):
        pen.line([(x, left[1] + 1), (x, right[1])], 1.3 * unit, palette.ball)
    if not hole.flagstick:
        return
    foot, top = camera.at(hole.x, low - CUP_DEPTH), camera.at(hole.x, low + FLAGSTICK.height)
    pen.line([foot, top], max(2 * FLAGSTICK.radius * camera.scale, 3.2 * unit), palette.outline)
    pen.line([foot, top], max(1.2 * FLAGSTICK.radius * camera.scale, 1.6 * unit), palette.ball)
    s = camera.scale * FLAGSTICK.height / 2.13
    x, y = top
    cloth = [
        (x, y + 0.02 * s),
        (x + 0.24 * s, y + 0.05 * s),
        (x + 0.46 * s, y + 0.16 * s),
        (x + 0.22 * s, y + 0.23 * s),
        (x, y + 0.31 * s),
    ]
    pen.fill(cloth, palette.flag)
    pen.fill(
        [(x, y + 0.02 * s), (x + 0.05 * s, y + 0.03 * s), (x + 0.05 * s, y + 0.295 * s), (x, y + 0.31 * s)],
        shade(palette.flag, -0.22),
    )


def _bounds(
    pen: Pen, bound: OutOfBounds, course: Course, camera: Camera, palette: Palette, unit: float
) -> None:
    for k in range(3):
        x = bound.x + bound.side * 0.9 * k
        low = ground_at(course, x)
        pen.line([camera.at(x, low), camera.at(x, low + 0.75)], 6.0 * unit, palette.outline)
        pen.line([camera.at(x, low), camera.at(x, low + 0.75)], 4.0 * unit, palette.ball)


@lru_cache(maxsize=12)
def layer(
    course: Course, camera: Camera, palette: Palette, w: int, h: int, unit: float, zoom: int = 2
) -> pygame.Surface:
    """Everything that stands still, `zoom` times larger than its place of w x h px. Do not draw on it."""
    pen = sheet(w, h, zoom)
    box = Rect(0, 0, w, h)
    horizon = camera.at(0, ground_at(course, 0.0))[1] - 44 * unit
    _sky(pen, box, palette, horizon, unit)
    _land(pen, box, palette, horizon, unit)
    for hazard in course.hazards:
        if isinstance(hazard, Tree):
            _tree(pen, hazard, course, camera, palette)
    _ground(pen, box, course, camera, palette, unit)
    for hazard in course.hazards:
        if isinstance(hazard, Water):
            _water(pen, hazard, course, camera, palette, unit)
        elif isinstance(hazard, Wall):
            _wall(pen, hazard, course, camera, palette, unit)
        elif isinstance(hazard, Lip):
            _lip(pen, hazard, course, camera, palette, unit)
        elif isinstance(hazard, OutOfBounds):
            _bounds(pen, hazard, course, camera, palette, unit)
    _flag(pen, course, camera, palette, unit)
    return pen.surface
