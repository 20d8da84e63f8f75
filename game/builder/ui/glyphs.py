"""A small drawing for each tool, in the colours of the course itself."""

from collections.abc import Callable
from functools import lru_cache

import numpy as np
import pygame

from game.draw.palette import Colour, Palette, mix
from game.draw.pen import Pen, Points, shade

__all__ = ["GLYPH_HEIGHT", "GLYPH_WIDTH", "glyph"]

GLYPH_WIDTH, GLYPH_HEIGHT = 26.0, 18.0  # px at scale 1
FINE = 4
Draw = Callable[["_Sheet"], None]


class _Sheet:
    """A pen in glyph pixels: x 0 to WIDE, y 0 to HIGH, grass level at 13."""

    def __init__(self, pen: Pen, k: float, palette: Palette) -> None:
        self.pen, self.k, self.p = pen, k, palette

    def line(self, points: Points, width: float, colour: Colour) -> None:
        self.pen.line([(x * self.k, y * self.k) for x, y in points], width * self.k, colour)

    def fill(self, points: Points, colour: Colour) -> None:
        self.pen.fill([(x * self.k, y * self.k) for x, y in points], colour)

    def disc(self, x: float, y: float, r: float, colour: Colour) -> None:
        self.pen.disc((x * self.k, y * self.k), r * self.k, colour)

    def turf(self, points: Points, colour: Colour | None = None) -> None:
        """The ground's line."""
        self.line(points, 2.4, colour or self.p.rough)

    def knob(self, x: float, y: float, r: float = 3.0) -> None:
        """A point one can take hold of."""
        self.disc(x, y, r, self.p.ink)
        self.disc(x, y, r - 1.2, self.p.paper)


LEVEL: Points = ((1, 14), (25, 14))


def _move(s: _Sheet) -> None:
    arrow = [(8, 1.5), (8, 15), (11.4, 11.8), (13.6, 16.6), (16, 15.5), (13.8, 10.9), (18.4, 10.7)]
    s.fill(arrow, s.p.ink)


def _point(s: _Sheet) -> None:
    s.turf([(1, 14), (13, 7), (25, 12)])
    s.knob(13, 7, 3.6)


def _draw(s: _Sheet) -> None:
    s.turf([(x, 13.5 - 2.5 * float(np.sin(x / 2.6))) for x in range(1, 18)])
    s.line([(16.5, 11.5), (24, 3)], 3.0, s.p.landing)
    s.line([(15.6, 12.6), (16.6, 11.4)], 1.4, s.p.ink)


def _surface(s: _Sheet) -> None:
    for left, colour in ((1, s.p.rough), (9, s.p.green), (17, s.p.sand_deep)):
        s.fill([(left, 8), (left + 8, 8), (left + 8, 15), (left, 15)], colour)
    s.line([(1, 15), (25, 15)], 1.0, s.p.soil)


def _even(s: _Sheet) -> None:
    s.line([(1, 12), (5, 7), (9, 13), (13, 6), (17, 12), (21, 7), (25, 11)], 1.2, s.p.muted)
    s.turf([(1, 11), (13, 9.5), (25, 10)])


def _bunker(s: _Sheet) -> None:
    bowl = [(6, 10), (8, 13.5), (12, 15.5), (17, 14.5), (19.5, 9)]
    s.fill(bowl, s.p.sand_deep)
    s.line(bowl, 1.2, shade(s.p.sand_deep, -0.35))
    s.turf([(1, 10), (6, 10)])
    s.turf([(19.5, 9), (25, 9)])


def _water(s: _Sheet) -> None:
    s.fill([(5, 10), (21, 10), (18, 15), (8, 15)], s.p.water)
    s.line([(5, 10), (21, 10)], 1.4, shade(s.p.water, -0.25))
    s.turf([(1, 9), (5, 10)])
    s.turf([(21, 10), (25, 9)])


def _wall(s: _Sheet) -> None:
    s.turf(LEVEL)
    s.fill([(11, 3), (15, 3), (15, 14), (11, 14)], shade(s.p.wall, -0.15))
    for y in (6.5, 10):
        s.line([(11, y), (15, y)], 0.8, shade(s.p.wall, -0.45))


def _lip(s: _Sheet) -> None:
    s.fill([(3, 15.5), (15, 15.5), (15, 12), (3, 14)], s.p.sand_deep)
    s.fill([(15, 15.5), (25, 15.5), (25, 6), (11.5, 6), (12.5, 8.5), (15, 10)], s.p.thatch)
    s.turf([(11.5, 6), (25, 6)])


def _tree(s: _Sheet) -> None:
    s.line([(13, 15), (13, 8)], 2.2, s.p.bark)
    for x, y, r, colour in ((13, 6.5, 5.2, shade(s.p.leaf, -0.12)), (12, 5.6, 3.6, s.p.leaf_lit)):
        s.disc(x, y, r, colour)
    s.turf(LEVEL)


def _out(s: _Sheet) -> None:
    s.turf(LEVEL)
    for x in (8, 15, 22):
        s.line([(x, 14), (x, 5)], 3.2, s.p.outline)
        s.line([(x, 13.6), (x, 5.4)], 1.8, s.p.ball)


def _hole(s: _Sheet) -> None:
    s.turf(LEVEL, s.p.green)
    s.line([(11, 14), (11, 2)], 1.3, s.p.ink)
    s.fill([(11.5, 2), (20, 4.6), (11.5, 7.4)], s.p.flag)


def _ball(s: _Sheet) -> None:
    s.turf(LEVEL)
    s.disc(13, 9.2, 4.6, s.p.outline)
    s.disc(13, 9.2, 3.6, s.p.ball)


def _land(s: _Sheet) -> None:
    s.line([(3, 4), (8, 6), (13, 11)], 1.3, s.p.path)
    for left in (7, 12.5, 18):
        s.line([(left, 14), (left + 2.5, 14)], 3.2, s.p.landing)


def _clear(s: _Sheet) -> None:
    s.turf(LEVEL)
    for low in (13, 9):
        s.line([(14, low), (14, low - 2)], 1.8, s.p.landing)
    s.line([(10, 6), (18, 6)], 2.2, s.p.landing)
    s.line([(3, 9), (8, 3.5), (14, 2), (20, 3.5), (24, 8)], 1.2, s.p.path)


def _turned(s: _Sheet, to: int) -> None:
    mid = GLYPH_WIDTH / 2
    arc = [(mid + to * x, y) for x, y in ((-7, 14), (-1, 14), (5, 12), (6, 8), (3, 5), (-4, 5))]
    s.line(arc, 2.0, s.p.ink)
    s.fill([(mid - to * 3 + to * dx, 5 + dy) for dx, dy in ((-6, 0), (1, -4.5), (1, 4.5))], s.p.ink)


def _undo(s: _Sheet) -> None:
    _turned(s, 1)


def _redo(s: _Sheet) -> None:
    _turned(s, -1)


_DRAWN: dict[str, Draw] = {
    "move": _move, "point": _point, "draw": _draw, "surface": _surface, "even": _even, "bunker": _bunker,
    "water": _water, "wall": _wall, "lip": _lip, "tree": _tree, "out_of_bounds": _out, "hole": _hole,
    "ball": _ball, "land": _land, "clear": _clear, "undo": _undo, "redo": _redo,
}  # fmt: skip


@lru_cache(128)
def glyph(name: str, palette: Palette, scale: float, quiet: bool = False) -> pygame.Surface:
    """The drawing of a tool; `quiet` where it can do nothing now. KeyError for no tool."""
    w, h = round(GLYPH_WIDTH * scale), round(GLYPH_HEIGHT * scale)
    fine = pygame.Surface((w * FINE, h * FINE), pygame.SRCALPHA, 32)
    fine.fill((*mix(palette.paper, palette.rough, 0.3), 0))
    _DRAWN[name](_Sheet(Pen(fine, FINE), scale, palette))
    out = pygame.transform.smoothscale(fine, (w, h))
    if quiet:
        out.set_alpha(90)
    return out
