"""A plain section through the ground of a chapter: every scenario's own profile at its place, on one datum.

Drawn as a surveyor draws it: earth below the line, what stands on it above, a station at every hole. Places
follow each other at one scale along the ground, so that a long shot takes more of the sheet than a short one.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import cos, pi

import numpy as np
import pygame

from game.draw.camera import Camera, Rect
from game.draw.course import course_unit, draw_hazards, draw_standing, ground_at, top_colour
from game.draw.distance import distance
from game.draw.palette import Palette, mix
from game.draw.pen import Pen, sheet
from physics.course import Course, Tree

__all__ = ["Stretch", "draw_section", "places_on"]

ZOOM = 2
BEFORE, BEYOND = 3.0, 4.0  # m of ground shown before the ball and past the hole
LEAST = 0.62  # of an even share of the sheet that the shortest place keeps
DATUM, HIGHEST = 0.58, 0.74  # shares of the height over the datum: of a low sheet, and of a tall one
LOW_SHEET, TALL_SHEET = 400.0, 800.0  # px
JOIN = 1.6  # m over which one profile goes over into the next
VEIL = 0.45  # how much of the distance the sheet takes away
TALLEST = 0.80  # of the room over the ground the tallest tree may fill


@dataclass(frozen=True)
class Stretch:
    """A scenario's part of the sheet: from and to (px), and where ball and hole lie in it."""

    left: float
    right: float
    ball: tuple[float, float]
    hole: tuple[float, float]
    camera: Camera


def _datum_at(high: float) -> float:
    """The share of the height over the datum: plates take no more room under it in a taller sheet."""
    return float(np.interp(high, (LOW_SHEET, TALL_SHEET), (DATUM, HIGHEST)))


def _long(course: Course) -> float:
    return BEFORE + (course.hole.x if course.hole else 6.0) + BEYOND


@lru_cache(maxsize=16)
def places_on(courses: tuple[Course, ...], box: Rect) -> tuple[Stretch, ...]:
    """The places in the box, as broad as their ground is long; none so narrow that it cannot be read."""
    long = np.array([_long(c) for c in courses])
    even = box.w / len(courses)
    wide = LEAST * even + long / long.sum() * (1.0 - LEAST) * box.w
    scale = float((wide / long).min())
    tall = max((t.trunk + t.radius for c in courses for t in c.hazards if isinstance(t, Tree)), default=0.0)
    scale = min(scale, TALLEST * _datum_at(box.h) * box.h / max(tall, 2.6))
    out, x = [], box.x
    for course, w in zip(courses, wide.tolist(), strict=True):
        inside = [y for gx, y in zip(course.ground.x, course.ground.y, strict=True) if -BEFORE < gx < 30.0]
        y0 = box.y + _datum_at(box.h) * box.h + scale * float(np.mean(inside or [0.0]))
        hole = course.hole.x if course.hole else 6.0
        camera = Camera(scale, x + 0.5 * w - 0.5 * (hole + BEYOND - BEFORE) * scale, y0)
        out.append(Stretch(x, x + w, camera.at(0.0, ground_at(course, 0.0)),
                           camera.at(hole, ground_at(course, hole)), camera))  # fmt: skip
        x += w
    return tuple(out)


@lru_cache(maxsize=4)
def draw_section(
    w: int, h: int, palette: Palette, courses: tuple[Course, ...], unit: float = 1.0
) -> pygame.Surface:
    """The whole sheet, w x h px, its lines `unit` px thick. Do not draw on it."""
    pen, box = sheet(w, h, ZOOM), Rect(0, 0, w, h)
    _air(pen, box, palette)
    places = places_on(courses, box)
    _datum(pen, box, palette, unit)
    for course, place in zip(courses, places, strict=True):
        with pen.inside(Rect(place.left, 0, place.right - place.left, h)):
            draw_standing(pen, course, place.camera, palette, 0.7 * unit)
    x = (np.arange(w * ZOOM) + 0.5) / ZOOM
    top, names = _profile(courses, places, x)
    _earth(pen, top, names, palette, unit)
    for course, place in zip(courses, places, strict=True):
        with pen.inside(Rect(place.left, 0, place.right - place.left, h)):
            draw_hazards(pen, course, place.camera, palette, 0.7 * unit, float(h))
    for place in places[1:]:
        ends = [(place.left, 0.10 * h), (place.left, float(h))]
        pen.dashes(ends, unit, palette.muted, 5 * unit, 6 * unit, 120)
    for place in places:
        _station(pen, place, palette, unit)
    return pen.shrink()


def _air(pen: Pen, box: Rect, palette: Palette) -> None:
    """The distance of every course, faint as under tracing paper, its horizon on the datum."""
    wide, high = pen.surface.get_size()
    far, horizon = course_unit(box.w), round(_datum_at(box.h) * high) / ZOOM
    pen.surface.blit(distance(palette, int(box.w), int(box.h), horizon, far, ZOOM), (0, 0))
    veil = pygame.Surface((wide, high), 0, 32)
    veil.fill(mix(palette.paper, palette.sky_high, 0.45))
    veil.set_alpha(round(255 * VEIL))
    pen.surface.blit(veil, (0, 0))


def _datum(pen: Pen, box: Rect, palette: Palette, unit: float) -> None:
    """Level lines in the air, as on squared survey paper."""
    for k in range(1, 5):
        y = box.h * _datum_at(box.h) * k / 5
        pen.line([(0, y), (box.w, y)], unit, mix(palette.rule, palette.sky_high, 0.35), 110)


def _profile(
    courses: tuple[Course, ...], places: tuple[Stretch, ...], x: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Height (px from above) of the ground and what covers it, one value a column; profiles join softly."""
    top, names = np.empty_like(x), np.empty(len(x), dtype=object)
    for course, place in zip(courses, places, strict=True):
        mine = (x >= place.left) & (x < place.right + 1.0)
        at = (x[mine] - place.camera.x0) / place.camera.scale
        top[mine] = place.camera.y0 - place.camera.scale * np.interp(at, course.ground.x, course.ground.y)
        last = len(course.ground.surfaces) - 1
        k = np.clip(np.searchsorted(course.ground.x, at, side="right") - 1, 0, last)
        names[mine] = np.array(course.ground.surfaces, dtype=object)[k]
    for after in places[1:]:
        half = JOIN * after.camera.scale
        near = np.abs(x - after.left) < half
        if near.sum() > 2:
            a, b = float(top[near][0]), float(top[near][-1])
            share = 0.5 - 0.5 * np.cos(pi * (x[near] - after.left + half) / (2.0 * half))
            top[near] = a + (b - a) * share
    return top, names


def _earth(pen: Pen, top: np.ndarray, names: np.ndarray, palette: Palette, unit: float) -> None:
    """What grows on a band of soil, and the deeper ground that goes over into paper."""
    rows = pygame.surfarray.pixels3d(pen.surface)
    y = np.arange(rows.shape[1])[None, :] + 0.5
    line = top[:, None] * pen.zoom
    depth = (y - line) / pen.zoom
    kinds = {name: i for i, name in enumerate(sorted(set(names.tolist())))}
    tones = np.array([top_colour(palette, name) for name in kinds], dtype=float)
    cover = tones[np.array([kinds[n] for n in names.tolist()])]
    low = rows.shape[1] / pen.zoom - top[:, None]
    fade = np.clip(depth / np.maximum(0.55 * low, 1.0), 0.0, 1.0) ** 0.8
    ground = np.array(mix(palette.soil, palette.deep, 0.25), dtype=float)
    paper = np.array(palette.paper, dtype=float)
    for k in range(3):
        tone = ground[k] + fade * (paper[k] - ground[k])
        tone = np.where(depth < 6.0 * unit, cover[:, k : k + 1], tone)
        share = np.clip(depth * pen.zoom + 0.5, 0.0, 1.0)
        rows[:, :, k] = (rows[:, :, k] * (1.0 - share) + tone * share).astype(np.uint8)


def _station(pen: Pen, place: Stretch, palette: Palette, unit: float) -> None:
    """Ball and hole as a surveyor marks them: a dot on a peg, and a flag over a plumb line."""
    (bx, by), (hx, hy) = place.ball, place.hole
    u, tall = unit, max(2.1 * place.camera.scale, 26.0 * unit)
    pen.line([(hx, hy + 7 * u), (hx, hy - tall)], 3.4 * u, palette.halo)
    pen.line([(hx, hy + 7 * u), (hx, hy - tall)], 1.6 * u, palette.ink)
    out, top = hx + 11 * u, hy - tall
    pen.fill([(hx, top), (out, top + 3 * u), (out, top + 9 * u), (hx, top + 10 * u)], palette.flag)
    pen.disc((bx, by - 3.6 * u), 4.4 * u, palette.outline)
    pen.disc((bx, by - 3.6 * u), 3.1 * u, palette.ball)
    middle = 0.5 * (bx + hx)
    high = min(by, hy) - tall - 8.0 * u
    way = [(bx + (hx - bx) * t, by - 6 * u - (by - high) * (1.0 - cos(2 * pi * t)) * 0.25) for t in
           np.linspace(0.06, 0.94, 25).tolist()]  # fmt: skip
    if abs(middle - bx) > 14 * u:
        pen.dashes(way, 1.3 * u, palette.path, 4 * u, 5 * u, 190)
