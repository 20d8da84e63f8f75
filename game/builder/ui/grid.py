"""The grid over the course and the rulers at its edges, in the reader's unit."""

from math import ceil, floor

import pygame

from game.builder.ui.eye import grid_step, places_of
from game.draw.camera import Camera, Rect
from game.text.quantity import decimal
from game.ui import Theme, paint
from physics.constants import YARD

__all__ = ["draw_grid"]


def _lines(low: float, high: float, step: float) -> list[float]:
    return [i * step for i in range(ceil(low / step), floor(high / step) + 1)]


def _hair(surface: pygame.Surface, at: pygame.Rect, tone: tuple[int, int, int], alpha: int) -> None:
    line = pygame.Surface(at.size, 0, 32)
    line.fill(tone)
    line.set_alpha(alpha)
    surface.blit(line, at)


def draw_grid(
    surface: pygame.Surface, theme: Theme, box: Rect, camera: Camera, snap: float | None, yards: bool
) -> None:  # fmt: skip
    """Hair lines (also at the snapping step while it is not too fine), distances below, heights left."""
    step = grid_step(camera.scale, yards, max(70.0, 5.0 * theme.type.width("000", "small") / 2))
    left, top = camera.world(0, 0)
    right, low = camera.world(box.w, box.h)
    at = paint.pixels(box)
    if snap and snap * camera.scale >= 7.0 and snap < step:
        for x in _lines(left, right, snap):
            _hair(
                surface, pygame.Rect(round(box.x + camera.at(x, 0)[0]), at.y, 1, at.h), theme.palette.ink, 12
            )
        for y in _lines(low, top, snap):
            _hair(
                surface, pygame.Rect(at.x, round(box.y + camera.at(0, y)[1]), at.w, 1), theme.palette.ink, 12
            )
    for x in _lines(left, right, step):
        px = round(box.x + camera.at(x, 0)[0])
        _hair(surface, pygame.Rect(px, at.y, 1, at.h), theme.palette.ink, 60 if x == 0.0 else 28)
    for y in _lines(low, top, step):
        py = round(box.y + camera.at(0, y)[1])
        _hair(surface, pygame.Rect(at.x, py, at.w, 1), theme.palette.ink, 60 if y == 0.0 else 28)
    _rulers(surface, theme, box, camera, step, yards)


def _rulers(
    surface: pygame.Surface, theme: Theme, box: Rect, camera: Camera, step: float, yards: bool
) -> None:  # fmt: skip
    """Numbers along the foot and the left edge, each on a plate of its own."""
    unit, name = (YARD, "yd") if yards else (1.0, "m")
    places, line = places_of(step / unit), theme.type.line("small")
    left, top = camera.world(0, 0)
    right, low = camera.world(box.w, box.h)
    foot = box.bottom - line - 1
    for x in _lines(left, right, step):
        px = box.x + camera.at(x, 0)[0]
        words = decimal(x / unit, places) + (f" {name}" if x == 0.0 else "")
        half = theme.type.width(words, "small") / 2 + 3
        if box.x + 6 * theme.gap < px - half and px + half < box.right:
            _plate(surface, theme, words, px, foot, 0.5)
    for y in _lines(low, top, step):
        py = box.y + camera.at(0, y)[1]
        if box.y + 5 * theme.gap < py and py + line / 2 < foot - 4:
            _plate(surface, theme, decimal(y / unit, places), box.x + 4, py - line / 2, 0.0)


def _plate(
    surface: pygame.Surface, theme: Theme, words: str, x: float, y: float, align: float
) -> None:  # fmt: skip
    """Words on a veil of paper, so that they read over grass and sky."""
    wide, line = theme.type.width(words, "small"), theme.type.line("small")
    veil = pygame.Surface((round(wide + 6), round(line)), 0, 32)
    veil.fill(theme.palette.paper)
    veil.set_alpha(190)
    surface.blit(veil, (round(x - wide * align - 3), round(y)))
    paint.text(surface, theme, words, "small", x, y, "ink", align)
