"""The course from the side: earth in layers, grass and hazards before the distance, hole and flag."""

from collections.abc import Sequence
from functools import lru_cache
from math import cos, pi, sin

import numpy as np
import pygame

from game.draw.bunker import draw_bunkers
from game.draw.camera import Camera, Rect
from game.draw.distance import distance
from game.draw.flag import draw_cup, draw_hole
from game.draw.palette import Colour, Palette, mix
from game.draw.pen import Pen, shade
from game.draw.trees import draw_tree
from game.draw.water import draw_water, is_wet
from physics.course import Course, Lip, OutOfBounds, Tree, Wall, Water
from physics.scenery.barrier import SOD
from physics.surfaces import SAND, SURFACES

__all__ = [
    "Layers",
    "course_unit",
    "draw_hazards",
    "draw_standing",
    "earth",
    "grass",
    "ground_at",
    "layer",
    "still",
    "surface_at",
]

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

SAND_DEEP = 22.0  # px, thickness of sand as drawn, at line weight 1


def course_unit(wide: float) -> float:
    """The unit of line widths (px) in a course so wide (px): what is far away grows with its picture, so that
    a large one looks no emptier."""
    return min(max(wide / 1600, 0.75), 2.6)


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


def lie_colour(palette: Palette, lie: str) -> Colour:
    """Colour of a lie as a notebook names it; one that this version does not know is drawn as fairway."""
    return top_colour(palette, lie if lie in SURFACES else "fairway")


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
    # rows first, as the sheet lies in memory: columns first costs three times as much
    rows = pygame.surfarray.pixels3d(pen.surface)[left : left + w, upper:lower].transpose(1, 0, 2)
    y = ((np.arange(upper, lower) + 0.5) / z).astype(np.float32)[:, None]
    x = np.arange(w) / z
    wave = (1.0 + 0.10 * np.sin(x / 37.0) + 0.06 * np.sin(x / 13.0 + 1.0)).astype(np.float32)
    top, thick = top[:w].astype(np.float32), thick[:w].astype(np.float32)
    depth = y - top
    below = depth - thick
    grain = np.random.default_rng(5).random(depth.shape, dtype=np.float32)
    away = np.clip((y - box.bottom) / (0.22 * box.h) + 1.0, 0.0, 1.0)
    steps = np.arange(0.0, box.h + 2.0, 0.25)  # px of depth; the layers are read from a table
    at = (below * (4.0 * wave)).astype(np.intp)
    edge = int(np.searchsorted(y[:, 0], float((top + thick).max()) + 1.0))  # rows that meet air or cover
    solid = np.clip(depth[:edge] * z + 0.5, 0.0, 1.0)
    covered = np.clip(0.5 - below[:edge] * z, 0.0, 1.0)
    for k in range(3):
        table = np.interp(steps, [d for d, _ in layers], [c[k] for _, c in layers]).astype(np.float32)
        colour = table.take(at, mode="clip")
        colour[:edge] += covered * (cover[:w, k].astype(np.float32) - colour[:edge])
        if fade is not None:
            colour += away * (fade[k] - colour)
        colour[:edge] = solid * colour[:edge] + (1.0 - solid) * rows[:edge, :, k]
        colour += grain  # a part of a level is kept by chance, so that no bands show
        rows[:, :, k] = np.minimum(colour, 255.0).astype(np.uint8)


def grass(
    pen: Pen, camera: Camera, line: Sequence[tuple[float, float]], height: float, colour: Colour, seed: int,
    every: float = 2.2,
) -> None:  # fmt: skip
    """Blades (m high) standing on a ground line given in world metres; only those in sight are drawn."""
    rng = np.random.default_rng(seed)
    xs, ys = np.array(line).T
    n = max(int((xs[-1] - xs[0]) * camera.scale / every), 0)
    x = np.sort(rng.uniform(xs[0], xs[-1], n))
    tall, bend, light, much = (rng.random((n, 4)) * (0.6, 0.7, 1.0, 0.14) + (0.55, -0.35, 0.0, 0.0)).T
    clip = pen.surface.get_clip()
    left, right = (camera.world((px / pen.zoom), 0)[0] for px in (clip.left, clip.right))
    spare = 2.0 * height
    seen = (x >= min(left, right) - spare) & (x <= max(left, right) + spare)
    x, tall, bend, light, much = (v[seen] for v in (x, tall, bend, light, much))
    tall = height * camera.scale * tall
    side = -1.0 if camera.mirrored else 1.0
    foot = np.stack([camera.x0 + side * x * camera.scale, camera.y0 - np.interp(x, xs, ys) * camera.scale])
    pale = np.where(light < 0.5, 255.0, 0.0)
    tones = np.array(colour, dtype=float) + much[:, None] * (pale[:, None] - np.array(colour, dtype=float))
    _blades(pen, foot, tall, bend * tall, np.rint(tones).astype(int))


def _blades(pen: Pen, foot: np.ndarray, tall: np.ndarray, bend: np.ndarray, tones: np.ndarray) -> None:
    """Blades as slim bent leaves, 1.1 px wide at the foot; `foot` (2, n) and the rest (n,) in page px."""
    z, (px, py) = pen.zoom, foot
    wide = 1.1 * z / 2
    middle, end = wide * 0.675, max(wide * 0.35, 0.5)
    knee_x, knee_y, tip_x, tip_y = px + 0.3 * bend, py - 0.6 * tall, px + bend, py - tall
    leaves = np.stack([
        z * px - wide, z * py + z, z * knee_x - middle, z * knee_y, z * tip_x - end, z * tip_y - end,
        z * tip_x + end, z * tip_y - end, z * knee_x + middle, z * knee_y, z * px + wide, z * py + z,
    ], axis=1).reshape(-1, 6, 2)  # fmt: skip
    for leaf, tone in zip(leaves.tolist(), tones.tolist(), strict=True):
        pygame.draw.polygon(pen.surface, tone, leaf)


def _ground(pen: Pen, box: Rect, course: Course, camera: Camera, palette: Palette, unit: float) -> None:
    """Earth under its cover, with stones in it."""
    ground = course.ground
    columns = round(box.w * pen.zoom)
    px = box.x + (np.arange(columns) + 0.5) / pen.zoom
    xs = (px - camera.x0) / camera.scale * (-1.0 if camera.mirrored else 1.0)
    top = camera.y0 - camera.scale * np.interp(xs, ground.x, ground.y)
    last = len(ground.surfaces) - 1
    which = np.clip(np.searchsorted(ground.x, xs, side="right") - 1, 0, last)
    cover = np.array([top_colour(palette, n) for n in ground.surfaces], dtype=float)[which]
    mown = (np.floor(xs / 0.9) % 2 == 0) & np.isin(ground.surfaces, ["green", "fairway"])[which]
    cover[mown] *= 0.965
    deep = np.array([(SAND_DEEP if SURFACES[n].kind == SAND else 11) * unit for n in ground.surfaces])[which]
    soft = np.ones(max(round(26 * unit * pen.zoom), 1))
    deep = np.convolve(np.pad(deep, len(soft), mode="edge"), soft / len(soft), mode="same")[
        len(soft) : -len(soft)
    ]
    soil = palette.soil
    layers = [
        (0.0, palette.thatch), (5 * unit, palette.thatch), (7 * unit, soil),
        (30 * unit, mix(soil, palette.deep, 0.35)),
        (32 * unit, mix(soil, palette.deep, 0.55)), (75 * unit, palette.deep), (400 * unit, palette.deep),
    ]  # fmt: skip
    earth(pen, box, top, cover, deep, layers, palette.paper)
    _stones(pen, box, px, top, palette, unit)


def _growth(pen: Pen, box: Rect, course: Course, camera: Camera, palette: Palette, unit: float) -> None:
    """The grass of every stretch, to the edges of the box."""
    ground = course.ground
    edges = sorted(camera.world(px, 0)[0] for px in (box.x, box.right))
    for i, name in enumerate(ground.surfaces):
        left, right = ground.x[i], ground.x[i + 1]
        if i == 0:
            left = min(left, edges[0])
        if i == len(ground.surfaces) - 1:
            right = max(right, edges[1])
        if name in CUT and not is_wet(course, (left + right) / 2):
            xs = np.linspace(left, right, 40)
            line = list(zip(xs.tolist(), np.interp(xs, ground.x, ground.y).tolist(), strict=True))
            tall = max(CUT[name], 2.2 * unit / camera.scale)
            grass(pen, camera, line, tall, top_colour(palette, name), 20 + i, 2.0 * unit)


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


def _bounds(
    pen: Pen, bound: OutOfBounds, course: Course, camera: Camera, palette: Palette, unit: float
) -> None:
    for k in range(3):
        x = bound.x + bound.side * 0.9 * k
        low = ground_at(course, x)
        pen.line([camera.at(x, low), camera.at(x, low + 0.75)], 6.0 * unit, palette.outline)
        pen.line([camera.at(x, low), camera.at(x, low + 0.75)], 4.0 * unit, palette.ball)


def draw_standing(pen: Pen, course: Course, camera: Camera, palette: Palette, unit: float) -> None:
    """Trees, which stand behind the ground."""
    for hazard in course.hazards:
        if isinstance(hazard, Tree):
            draw_tree(pen, hazard, ground_at(course, hazard.x), camera, palette, unit)


def draw_hazards(
    pen: Pen, course: Course, camera: Camera, palette: Palette, unit: float, floor: float
) -> None:  # fmt: skip
    """Water, walls, lips and bounds, on ground that is drawn; `floor` is the lowest px of the picture."""
    for hazard in course.hazards:
        if isinstance(hazard, Water):
            draw_water(pen, hazard, course, camera, palette, unit, floor)
        elif isinstance(hazard, Wall):
            _wall(pen, hazard, course, camera, palette, unit)
        elif isinstance(hazard, Lip):
            _lip(pen, hazard, course, camera, palette, unit)
        elif isinstance(hazard, OutOfBounds):
            _bounds(pen, hazard, course, camera, palette, unit)


@lru_cache(maxsize=2)
def layer(
    course: Course, camera: Camera, palette: Palette, w: int, h: int, unit: float, zoom: int = 2,
    flag: bool = True,
) -> pygame.Surface:  # fmt: skip
    """Everything that stands still, `zoom` times larger than its place of w x h px; without the flagstick
    unless `flag`, since it may be struck. Do not draw on it."""
    box = Rect(0, 0, w, h)
    horizon = camera.at(0, ground_at(course, 0.0))[1] - 44 * unit
    pen = Pen(distance(palette, w, h, round(zoom * horizon) / zoom, unit, zoom).copy(), zoom)
    draw_standing(pen, course, camera, palette, unit)
    _ground(pen, box, course, camera, palette, unit)
    _growth(pen, box, course, camera, palette, unit)
    draw_bunkers(pen, course, camera, palette, unit, SAND_DEEP * unit)
    draw_hazards(pen, course, camera, palette, unit, box.bottom)
    if course.hole:
        low = ground_at(course, course.hole.x)
        if flag:
            draw_hole(pen, box, course.hole, low, camera, palette, unit)
        else:
            draw_cup(pen, course.hole, low, camera, palette, unit)
    return pen.surface


@lru_cache(maxsize=12)
def still(
    course: Course, camera: Camera, palette: Palette, w: int, h: int, unit: float, flag: bool = True
) -> pygame.Surface:  # fmt: skip
    """The layer at its own size of w x h px, kept for every view of late. Do not draw on it."""
    return pygame.transform.smoothscale(layer(course, camera, palette, w, h, unit, 2, flag), (w, h))
