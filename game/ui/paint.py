"""Marks of the widgets: soft boxes, lines of text, rings and chevrons, each drawn once and kept."""

from functools import lru_cache
from math import ceil

import pygame

from game.draw.camera import Rect
from game.draw.palette import Colour
from game.draw.type import Type
from game.ui.theme import Theme

__all__ = ["box", "chevron", "clipped", "disc", "lines", "pixels", "ring", "text"]

FINE = 4  # shapes are drawn this many times larger, then shrunk


def pixels(rect: Rect) -> pygame.Rect:
    """The nearest whole pixels."""
    x, y = round(rect.x), round(rect.y)
    return pygame.Rect(x, y, round(rect.right) - x, round(rect.bottom) - y)


@lru_cache(512)
def _soft(w: int, h: int, radius: int, colour: Colour, line: int) -> pygame.Surface:
    """Rounded box, filled (line 0) or outlined; sizes in fine pixels."""
    large = pygame.Surface((w * FINE, h * FINE), pygame.SRCALPHA, 32)
    large.fill((*colour, 0))
    pygame.draw.rect(large, colour, large.get_rect(), line, border_radius=radius)
    return pygame.transform.smoothscale(large, (w, h))


def box(
    surface: pygame.Surface, rect: Rect, fill: Colour | None, edge: Colour | None = None,
    radius: float = 0.0, line: float = 1.0,
) -> None:  # fmt: skip
    """Box with round corners: filled, outlined inside its edge, or both."""
    at, round_ = pixels(rect), round(radius * FINE)
    if at.w <= 0 or at.h <= 0:
        return
    for colour, width in ((fill, 0), (edge, max(round(line * FINE), FINE))):
        if colour is None:
            continue
        rim = ceil(max(round_, width) / FINE) + 1
        if at.w <= 2 * rim + 2 or at.h <= 2 * rim + 2:
            surface.blit(_soft(at.w, at.h, round_, colour, width), at)
            continue
        if width == 0:
            surface.fill(colour, pygame.Rect(at.x, at.y + rim, at.w, at.h - 2 * rim))
        for strip, (x, y) in _rim(at.w, at.h, rim, round_, colour, width):
            surface.blit(strip, (at.x + x, at.y + y))


@lru_cache(512)
def _rim(
    w: int, h: int, rim: int, radius: int, colour: Colour, line: int
) -> tuple[tuple[pygame.Surface, tuple[int, int]], ...]:  # fmt: skip
    """What of a large box is not plain inside, in strips: a ring round a whole window is thin, and a sheet
    of its size took longer than all that it stands round."""
    side = 2 * rim + 2
    small = _soft(side, side, radius, colour, line)

    def strip(top: int, high: int) -> pygame.Surface:
        """Left corner, level edge, right corner."""
        out = pygame.Surface((w, high), pygame.SRCALPHA, 32)
        edge = small.subsurface(pygame.Rect(rim, top, 1, high)).copy()
        ends = ((0, 0), (w - rim, side - rim))
        pygame.transform.scale(edge, (w, high), out)
        for x, from_x in ends:
            out.fill((*colour, 0), pygame.Rect(x, 0, rim, high))
            out.blit(small, (x, 0), pygame.Rect(from_x, top, rim, high), pygame.BLEND_RGBA_MAX)
        return out

    strips = [(strip(0, rim), (0, 0)), (strip(side - rim, rim), (0, h - rim))]
    if line:
        tall = h - 2 * rim
        for x, from_x in ((0, 0), (w - rim, side - rim)):
            edge = small.subsurface(pygame.Rect(from_x, rim, rim, 1)).copy()
            strips.append((pygame.transform.scale(edge, (rim, tall)), (x, rim)))
    return tuple(strips)


def disc(surface: pygame.Surface, x: float, y: float, radius: float, fill: Colour, edge: Colour | None = None,
         line: float = 1.0) -> None:  # fmt: skip
    """Disc about (x, y)."""
    box(surface, Rect(x - radius, y - radius, 2 * radius, 2 * radius), fill, edge, radius, line)


def ring(surface: pygame.Surface, theme: Theme, rect: Rect) -> None:
    """The focus ring: as wide as its distance from the widget."""
    box(surface, rect.inset(-2 * theme.ring), None, theme.accent, theme.radius + 2 * theme.ring, theme.ring)


def chevron(
    surface: pygame.Surface, x: float, y: float, size: float, to: int, colour: Colour, line: float
) -> None:
    """Arrow head about (x, y) pointing left (to -1) or right (+1)."""
    points = [(x - to * size / 2, y - size), (x + to * size / 2, y), (x - to * size / 2, y + size)]
    pygame.draw.aalines(surface, colour, False, points)
    for shift in range(1, ceil(1.5 * line)):
        pygame.draw.aalines(surface, colour, False, [(px - to * shift, py) for px, py in points])


@lru_cache(2048)
def _line(type_: Type, words: str, role: str, colour: Colour) -> pygame.Surface:
    word = type_.word(words, role, 0, 0)
    sheet = pygame.Surface((max(ceil(word.box.w), 1), ceil(word.box.h)), pygame.SRCALPHA, 32)
    sheet.fill((*colour, 0))
    type_.draw(sheet, word, colour)
    return sheet


def text(
    surface: pygame.Surface, theme: Theme, words: str, role: str, x: float, y: float, tone: str = "ink",
    align: float = 0.0,
) -> None:  # fmt: skip
    """One line: top at y; x is its left (align 0), middle (0.5) or right (1)."""
    if words:
        line = _line(theme.type, words, role, theme.tone(tone))
        surface.blit(line, (round(x - line.get_width() * align), round(y)))


def lines(
    surface: pygame.Surface, theme: Theme, words: tuple[str, ...], role: str, x: float, y: float,
    tone: str = "ink", align: float = 0.0,
) -> None:  # fmt: skip
    """Lines under each other."""
    for i, line in enumerate(words):
        text(surface, theme, line, role, x, y + i * theme.type.line(role), tone, align)


class clipped:  # noqa: N801 - reads as a statement: with clipped(surface, rect)
    """Draw only inside the rect (and inside what was already the limit)."""

    def __init__(self, surface: pygame.Surface, rect: Rect) -> None:
        self.surface, self.rect, self.old = surface, rect, surface.get_clip()

    def __enter__(self) -> None:
        self.surface.set_clip(pixels(self.rect).clip(self.old))

    def __exit__(self, *_: object) -> None:
        self.surface.set_clip(self.old)
