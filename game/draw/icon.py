"""The icon of the window: ball, flight and flag in the colours of the fen."""

import pygame

from game.draw.palette import LIGHT
from game.draw.pen import Pen, sheet

__all__ = ["icon"]

ZOOM = 4


def icon(size: int = 64) -> pygame.Surface:
    """A square picture of so many px."""
    pen, s = sheet(size, size, ZOOM), size / 64.0
    pen.surface.fill(LIGHT.paper)
    ground = 46.0 * s
    pen.fill([(0, ground), (size, ground), (size, size), (0, size)], LIGHT.soil)
    pen.line([(0, ground), (size, ground)], 5.0 * s, LIGHT.fairway)
    _flag(pen, 46.0 * s, ground, s)
    flight = [(13.0 + 30.0 * t, 40.0 - 88.0 * t * (1.0 - t)) for t in (k / 20 for k in range(21))]
    pen.dashes([(x * s, y * s) for x, y in flight], 2.5 * s, LIGHT.ink, 4.0 * s, 3.0 * s)
    pen.disc((13.0 * s, 39.0 * s), 7.0 * s, LIGHT.ink)
    pen.disc((13.0 * s, 39.0 * s), 5.5 * s, LIGHT.ball)
    return pen.shrink()


def _flag(pen: Pen, x: float, ground: float, s: float) -> None:
    top = 8.0 * s
    pen.line([(x, ground), (x, top)], 3.0 * s, LIGHT.ink)
    pen.fill([(x, top), (x + 15.0 * s, top + 7.0 * s), (x, top + 14.0 * s)], LIGHT.flag)
