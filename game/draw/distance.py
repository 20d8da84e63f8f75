"""What lies behind every course: sky, sun, clouds, and the fen with its hedges and poplars."""

from collections.abc import Sequence
from functools import lru_cache
from math import ceil, cos, pi, sin

import numpy as np
import pygame

from game.draw.camera import Rect
from game.draw.palette import Colour, Palette, mix
from game.draw.pen import Pen, sheet

__all__ = ["distance", "wash"]


def wash(pen: Pen, box: Rect, stops: Sequence[tuple[float, Colour]], seed: int = 1) -> None:
    """Vertical gradient from `stops` (share down, colour), a part of a level kept by chance, so that no
    bands show. Worked out at the size of the page: it has no edges that need to be fine."""
    w, h = ceil(box.w), ceil(box.h)
    at = np.linspace(0.0, 1.0, h)
    grain = np.random.default_rng(seed).random((h, w), dtype=np.float32)
    plain = pygame.Surface((w, h), 0, 32)
    rows = pygame.surfarray.pixels3d(plain).transpose(1, 0, 2)
    for k in range(3):
        level = np.interp(at, [s for s, _ in stops], [c[k] for _, c in stops]).astype(np.float32)
        rows[:, :, k] = np.minimum(level[:, None] + grain, 255.0).astype(np.uint8)
    del rows  # it locks the surface
    large = pygame.transform.scale(plain, (w * pen.zoom, h * pen.zoom))
    pen.surface.blit(large, (round(box.x * pen.zoom), round(box.y * pen.zoom)))


def _sky(pen: Pen, box: Rect, palette: Palette, horizon: float, unit: float) -> None:
    high = max(horizon - box.y, 0.05 * box.h) + 2.0  # the fields cover the rest
    wash(pen, Rect(box.x, box.y, box.w, high), [(0.0, palette.sky_high), (1.0, palette.sky_low)])
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
    if field.h > 0.0:
        far = mix(palette.field, palette.sky_low, 0.35)
        wash(pen, field, [(0.0, far), (0.35, palette.field), (1.0, near)], 2)
    for y, long, at in ((7, 0.34, 0.05), (12, 0.5, 0.42), (22, 0.42, 0.18)):
        x = box.x + at * box.w
        line = [(x, horizon + y * unit), (x + long * box.w, horizon + y * unit)]
        pen.line(line, 1.4 * unit, mix(palette.water_line, palette.field, 0.6))
    _hedges(pen, box, horizon + 17 * unit, 9.5 * unit, palette.near, 8)


@lru_cache(maxsize=3)
def distance(palette: Palette, w: int, h: int, horizon: float, unit: float, zoom: int) -> pygame.Surface:
    """Sky and fen with their horizon at that height (px), `zoom` times larger than their place of w x h px:
    the same for every ground, and wherever the camera looks along it. Do not draw on it."""
    pen, box = sheet(w, h, zoom), Rect(0, 0, w, h)
    _sky(pen, box, palette, horizon, unit)
    _land(pen, box, palette, horizon, unit)
    return pen.surface
