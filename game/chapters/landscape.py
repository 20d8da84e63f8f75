"""The fen of the chapter page: sky, dykes, reeds and a mown path from flag to flag."""

from functools import lru_cache
from math import cos, pi, sin

import numpy as np
import pygame

from game.draw.camera import Rect
from game.draw.palette import Palette, mix
from game.draw.pen import Pen, gradient, shade, sheet
from game.ui.supersample import supersampled
from game.ui.theme import Theme

__all__ = ["draw_flag", "draw_landscape", "flag_places"]

Point = tuple[float, float]
HORIZON = 0.30  # share of the height above which is sky
ZOOM = 2
MARGIN = 0.09  # share of the width free at both ends of the path


def _path_at(box: Rect, share: float) -> Point:
    """Middle of the path at a share 0 to 1 of its way."""
    x = box.x + box.w * (MARGIN / 2 + (1.0 - MARGIN) * share)
    return x, box.y + box.h * (0.66 + 0.15 * sin(0.6 + 2.0 * pi * 1.15 * share))


def flag_places(box: Rect, count: int) -> tuple[Point, ...]:
    """Feet of `count` flags along the path."""
    if count == 1:
        return (_path_at(box, 0.5),)
    return tuple(_path_at(box, MARGIN + (1.0 - 2 * MARGIN) * i / (count - 1)) for i in range(count))


@lru_cache(maxsize=4)
def draw_landscape(w: int, h: int, palette: Palette, seed: int) -> pygame.Surface:
    """The whole picture, w x h px. Do not draw on it."""
    pen, box = sheet(w, h, ZOOM), Rect(0, 0, w, h)
    horizon = HORIZON * h
    gradient(pen, Rect(0, 0, w, horizon + 1), [(0.0, palette.sky_high), (1.0, palette.sky_low)], 1)
    _clouds(pen, w, horizon, palette, seed)
    near = mix(palette.field, palette.fairway, 0.45)
    ground = [(0.0, mix(palette.field, palette.sky_low, 0.3)), (0.3, palette.field), (1.0, near)]
    gradient(pen, Rect(0, horizon, w, h - horizon), ground, 2)
    _trees(pen, w, horizon, h, palette, seed)
    _rows(pen, box, horizon, palette)
    _dykes(pen, box, horizon, palette, seed)
    _way(pen, box, palette)
    _reeds(pen, box, horizon, palette, seed)
    return pen.shrink()


def _clouds(pen: Pen, w: float, horizon: float, palette: Palette, seed: int) -> None:
    rng = np.random.default_rng(seed)
    for _ in range(6):
        x, y = rng.uniform(0, w), rng.uniform(0.15, 0.75) * horizon
        long, high = rng.uniform(0.06, 0.16) * w, rng.uniform(2.0, 5.0)
        around = np.linspace(0, 2 * pi, 40)
        pen.fill([(x + long * cos(a), y + high * sin(a) * (1 if sin(a) < 0 else 0.5)) for a in around],
                 palette.cloud, 140)  # fmt: skip


def _trees(pen: Pen, w: float, horizon: float, h: float, palette: Palette, seed: int) -> None:
    """A far hedge, and stands of poplars leaning a little with the wind."""
    rng = np.random.default_rng(seed + 1)
    x = -10.0
    while x < w + 10:
        r = rng.uniform(1.0, 2.6) * h / 160
        pen.fill([(x - 3 * r, horizon + 1), (x - r, horizon - r), (x + 2 * r, horizon - 0.8 * r),
                  (x + 4 * r, horizon + 1)], palette.far)  # fmt: skip
        x += rng.uniform(2.0, 4.5) * r
    for _ in range(5):
        x = rng.uniform(0.02, 0.98) * w
        for _ in range(int(rng.integers(3, 7))):
            tall = rng.uniform(0.07, 0.12) * h
            x += 0.24 * tall
            wide, lean = 0.10 * tall, 0.04 * tall
            up = np.linspace(0.0, 1.0, 12)
            half = wide * np.sin(pi * np.clip(up * 0.93 + 0.07, 0, 1)) ** 0.75 * (1.05 - 0.45 * up)
            left = [(x - b + lean * u, horizon + 2 - tall * u) for u, b in zip(up, half, strict=True)]
            right = [(x + b + lean * u, horizon + 2 - tall * u) for u, b in zip(up, half, strict=True)]
            pen.fill(left + right[::-1], palette.near)


def _rows(pen: Pen, box: Rect, horizon: float, palette: Palette) -> None:
    """Rows of a sown field, closer together further away."""
    tone = mix(palette.field, palette.fairway, 0.55)
    for k in range(1, 13):
        y = horizon + (box.h - horizon) * (k / 13.0) ** 1.7
        pen.line([(0, y), (box.w, y - 0.004 * box.h)], 1.0 + 0.12 * k, tone, 70)


def _dykes(pen: Pen, box: Rect, horizon: float, palette: Palette, seed: int) -> None:
    """Straight water, as fens are drained: wider as it comes nearer."""
    rng = np.random.default_rng(seed + 2)
    water = mix(palette.water, palette.field, 0.15)
    deep, sedge = box.h - horizon, mix(palette.rough, palette.thatch, 0.45)
    for y, tall in ((0.06, 0.008), (0.20, 0.014), (0.92, 0.045)):
        top = horizon + y * deep
        foot = top + tall * deep
        pen.fill([(0, top), (box.w, top - 0.01 * deep), (box.w, foot), (0, foot)], water)
        pen.line([(0, top), (box.w, top - 0.01 * deep)], 1.2, palette.water_line)
        for x in rng.uniform(0, box.w, int(box.w / 14)):  # sedge on the far bank
            high = rng.uniform(0.5, 1.3) * (3.0 + 0.9 * tall * deep)
            pen.line([(x, top + 1), (x + 0.2 * high, top - high)], 1.3, sedge, 255, 0.4)
    for x in rng.uniform(0.1, 0.9, 2):
        a, b = x * box.w, (0.5 + 2.2 * (x - 0.5)) * box.w
        pen.fill([(a, horizon + 0.06 * deep), (a + 0.004 * box.w, horizon + 0.06 * deep),
                  (b + 0.03 * box.w, box.h), (b, box.h)], water)  # fmt: skip


def _way(pen: Pen, box: Rect, palette: Palette) -> None:
    """The mown path: narrower where it runs further away, lighter down its middle."""
    line = [_path_at(box, float(s)) for s in np.linspace(-0.06, 1.06, 160)]
    for share, shift, colour in (
        (1.16, 0.10, mix(palette.rough, palette.field, 0.35)), (1.0, 0.0, palette.fairway),
        (0.60, -0.02, palette.green),
    ):  # fmt: skip
        half = [0.5 * share * _wide(box, y) for _, y in line]
        upper = [(x, y - h + shift * h) for (x, y), h in zip(line, half, strict=True)]
        lower = [(x, y + h + shift * h) for (x, y), h in zip(line, half, strict=True)]
        pen.fill([*upper, *lower[::-1]], colour)


def _wide(box: Rect, y: float) -> float:
    """Width (px) of the path at that height of the picture."""
    return box.h * (0.034 + 0.14 * max((y - box.y) / box.h - 0.45, 0.0))


def _reeds(pen: Pen, box: Rect, horizon: float, palette: Palette, seed: int) -> None:
    rng = np.random.default_rng(seed + 3)
    for _ in range(int(box.w / 9)):
        x, y = rng.uniform(0, box.w), rng.uniform(0.88, 1.02) * box.h
        tall = rng.uniform(0.03, 0.075) * box.h
        bend = rng.uniform(-0.1, 0.35) * tall
        tone = mix(palette.rough, palette.thatch, rng.uniform(0.2, 0.9))
        pen.line([(x, y), (x + 0.3 * bend, y - 0.6 * tall), (x + bend, y - tall)], 1.6, tone, 255, 0.4)


def draw_flag(
    surface: pygame.Surface, theme: Theme, foot: Point, tall: float, done: bool, chosen: bool
) -> None:
    """A flag in its hole. Done: the cloth flies, filled, a ball beside the hole; open: an outline hangs."""
    p = theme.palette
    x, y = foot
    around = Rect(x - 0.8 * tall, y - 1.2 * tall, 1.9 * tall, 1.5 * tall)
    line = max(2.0 * theme.scale, 1.5)
    with supersampled(surface, around) as (pen, left, top):
        x, y = x - left, y - top
        hole = [(x + 0.15 * tall * cos(a), y + 0.05 * tall * sin(a)) for a in np.linspace(0, 2 * pi, 30)]
        pen.fill(hole, shade(p.soil, -0.55))
        pen.line([(x, y), (x, y - tall)], line + 2.4, p.halo)
        pen.line([(x, y), (x, y - tall)], line, p.outline if p.name == "light" else p.ink)
        cloth = _flying(x, y - tall, tall) if done else _hanging(x, y - tall, tall)
        edge = p.ink
        pen.line([*cloth, cloth[0]], 4.5, p.halo)
        pen.fill(cloth, p.flag if done else p.paper)
        pen.line([*cloth, cloth[0]], 1.8 if not chosen else 2.6, edge)
        if done:
            r = 0.075 * tall
            pen.disc((x + 0.34 * tall, y - r), r + 1.6, p.outline)
            pen.disc((x + 0.34 * tall, y - r), r, p.ball)


def _flying(x: float, y: float, tall: float) -> list[Point]:
    return [(x, y), (x + 0.26 * tall, y + 0.05 * tall), (x + 0.55 * tall, y + 0.13 * tall),
            (x + 0.27 * tall, y + 0.25 * tall), (x, y + 0.32 * tall)]  # fmt: skip


def _hanging(x: float, y: float, tall: float) -> list[Point]:
    return [(x, y), (x + 0.15 * tall, y + 0.10 * tall), (x + 0.20 * tall, y + 0.40 * tall),
            (x + 0.11 * tall, y + 0.34 * tall), (x, y + 0.36 * tall)]  # fmt: skip
