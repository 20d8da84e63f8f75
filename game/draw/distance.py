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
    _clouds(pen, box, palette, horizon, unit)
    _geese(pen, (box.x + 0.40 * box.w, box.y + 0.30 * (horizon - box.y)), palette, unit)


def _clouds(pen: Pen, box: Rect, palette: Palette, horizon: float, unit: float) -> None:
    """Banks of cloud that get smaller and closer toward the horizon, as they do over level land."""
    rng, high = np.random.default_rng(11), horizon - box.y
    under = mix(palette.cloud, palette.sky_high, 0.55)
    for row, (share, size) in enumerate(((0.80, 0.35), (0.62, 0.55), (0.40, 0.8), (0.16, 1.15))):
        x = box.x - rng.uniform(0.0, 260.0) * unit
        while x < box.right:
            long, y = rng.uniform(170, 330) * size * unit, box.y + (share + rng.uniform(-0.06, 0.06)) * high
            tall = min(rng.uniform(15, 30) * size * unit, 0.16 * high)
            _bank(pen, (x, y), long, tall, (under, palette.cloud), rng)
            x += long * rng.uniform(1.25, 2.6) + 30 * row * unit


def _bank(
    pen: Pen, at: tuple[float, float], long: float, tall: float, tones: tuple[Colour, Colour],
    rng: np.random.Generator,
) -> None:  # fmt: skip
    """A flat-footed cloud: heaps on a level base, shaded below."""
    heaps = [(rng.uniform(0.12, 0.88), rng.uniform(0.45, 1.0)) for _ in range(5)]
    across = np.linspace(0.0, 1.0, 61)
    hull = 0.28 * np.sin(pi * across) ** 0.6
    for place, much in heaps:
        wide = 0.10 + 0.13 * much
        bump = np.sqrt(np.clip(1.0 - ((across - place) / wide) ** 2, 0.0, None))
        hull = np.maximum(hull, much * bump * np.sin(pi * across) ** 0.5)
    for tone, lift, alpha in ((tones[0], 0.0, 130), (tones[1], 0.22, 170)):
        top = [(at[0] + long * u, at[1] - tall * max(h, 0.0)) for u, h in zip(across, hull, strict=True)]
        foot = [
            (x, at[1] + (0.10 - lift) * tall - 0.10 * tall * cos(0.12 * k)) for k, (x, _) in enumerate(top)
        ]
        pen.fill(
            [*top, *[(x, max(y, t)) for (x, y), (_, t) in zip(foot, top, strict=True)][::-1]], tone, alpha
        )


def _geese(pen: Pen, at: tuple[float, float], palette: Palette, unit: float) -> None:
    """A skein far off, lower toward its ends."""
    tone = mix(palette.near, palette.sky_low, 0.25)
    for k in range(-4, 4):
        x, y = at[0] + 13.0 * k * unit, at[1] + (2.2 * abs(k) + 0.9 * (k % 2)) * unit
        w = 3.6 * unit
        pen.line([(x - w, y - 0.5 * w), (x, y), (x + w, y - 0.6 * w)], 1.1 * unit, tone)


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
    _woods(pen, box, horizon, palette, unit)
    _windpump(pen, (box.x + 0.60 * box.w, horizon), palette, unit)
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


def _woods(pen: Pen, box: Rect, horizon: float, palette: Palette, unit: float) -> None:
    """The wooded edge of the fen, so far off that it is hardly more than air."""
    rng = np.random.default_rng(21)
    x = np.linspace(box.x - 4.0, box.right + 4.0, max(int(box.w / (5.0 * unit)), 8))
    at = (x - box.x) / max(box.w, 1.0)
    swell = 0.55 + 0.45 * np.sin(2.0 * pi * (1.3 * at + 0.1)) * np.sin(2.0 * pi * (0.45 * at + 0.3))
    high = unit * (9.0 + 17.0 * np.clip(swell, 0.0, None) + rng.uniform(0.0, 3.2, len(x)))
    line = [(float(a), horizon - float(b)) for a, b in zip(x, high, strict=True)]
    pen.fill([(x[0], horizon + 2.0), *line, (x[-1], horizon + 2.0)], mix(palette.far, palette.sky_low, 0.58))


def _windpump(pen: Pen, foot: tuple[float, float], palette: Palette, unit: float) -> None:
    """One of the windpumps that drain a fen: a tapered tower with its cap and four bare sails."""
    (x, y), tone, s = foot, mix(palette.far, palette.near, 0.45), 1.0 * unit
    tower = ((-7.0, 1.0), (-4.2, -30.0), (4.2, -30.0), (7.0, 1.0))
    pen.fill([(x + a * s, y + b * s) for a, b in tower], tone)
    pen.fill([(x + 4.8 * s * cos(a), y - 30.0 * s - 6.0 * s * sin(a)) for a in np.linspace(0, pi, 14)], tone)
    for k in range(4):
        a = 0.42 + 0.5 * pi * k
        end = (x + 25.0 * s * cos(a), y - 32.0 * s - 25.0 * s * sin(a))
        pen.line([(x, y - 32.0 * s), end], 1.3 * unit, tone)
        side = (2.6 * s * sin(a), 2.6 * s * cos(a))
        start = (x + 7.0 * s * cos(a), y - 32.0 * s - 7.0 * s * sin(a))
        pen.fill([start, end, (end[0] + side[0], end[1] + side[1]),
                  (start[0] + side[0], start[1] + side[1])], tone, 120)  # fmt: skip


@lru_cache(maxsize=3)
def distance(palette: Palette, w: int, h: int, horizon: float, unit: float, zoom: int) -> pygame.Surface:
    """Sky and fen with their horizon at that height (px), `zoom` times larger than their place of w x h px:
    the same for every ground, and wherever the camera looks along it. Do not draw on it."""
    pen, box = sheet(w, h, zoom), Rect(0, 0, w, h)
    _sky(pen, box, palette, horizon, unit)
    _land(pen, box, palette, horizon, unit)
    return pen.surface
