"""Drawing fine marks on a live surface: a piece is enlarged, drawn on with a Pen, and shrunk back."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import lru_cache
from typing import Any, Generic, TypeVar

import pygame

from game.draw.camera import Rect
from game.draw.palette import Colour
from game.draw.pen import Pen, Points, resample
from game.draw.type import rail
from game.ui.paint import pixels

__all__ = ["ZOOM", "Cached", "dashed", "rail_of", "sprite", "supersampled"]

ZOOM = 2
T = TypeVar("T")
rail_of = lru_cache(64)(rail)  # words find their places once, not every frame


class Cached(Generic[T]):
    """One value kept as long as what it was made from stays the same."""

    def __init__(self) -> None:
        self._key: tuple[Any, ...] | None = None
        self._value: T | None = None

    def get(self, key: tuple[Any, ...], make: Callable[[], T]) -> T:
        """The kept value, made anew when any part of the key is another."""
        same = self._key is not None and all(a is b or a == b for a, b in zip(key, self._key, strict=True))
        if not same or self._value is None:
            self._key, self._value = key, make()
        return self._value


@contextmanager
def supersampled(surface: pygame.Surface, rect: Rect, zoom: int = ZOOM) -> Iterator[tuple[Pen, float, float]]:
    """A Pen over the part of the surface in the rect, and the corner (px) its page pixels start from. With
    `zoom` 1 it draws on the surface itself: for large pictures, whose lines are wide."""
    at = pixels(rect).clip(surface.get_clip())
    if at.w < 1 or at.h < 1:
        yield Pen(pygame.Surface((1, 1), 0, 32), 1), rect.x, rect.y
        return
    if zoom == 1:
        yield Pen(surface.subsurface(at), 1), at.x, at.y
        return
    fine = pygame.transform.scale(surface.subsurface(at), (at.w * ZOOM, at.h * ZOOM))
    yield Pen(fine, ZOOM), at.x, at.y
    surface.blit(pygame.transform.smoothscale(fine, at.size), at)


@contextmanager
def sprite(w: int, h: int, ground: tuple[int, int, int]) -> Iterator[tuple[Pen, pygame.Surface]]:
    """A Pen on a clear sheet, and the surface of w x h px it is shrunk into; edges fade into `ground`."""
    fine = pygame.Surface((max(w, 1) * ZOOM, max(h, 1) * ZOOM), pygame.SRCALPHA, 32)
    fine.fill((*ground, 0))
    out = pygame.Surface((max(w, 1), max(h, 1)), pygame.SRCALPHA, 32)
    yield Pen(fine, ZOOM), out
    pygame.transform.smoothscale(fine, out.get_size(), out)


def dashed(pen: Pen, points: Points, width: float, colour: Colour, step: float) -> None:
    """Dashed line, half on and half off, one stroke a dash: quick enough for every frame."""
    fine = resample(points, step / 2)
    for a, b in zip(fine[::2], fine[1::2], strict=False):
        pen.line([a, b], width, colour)
