"""Drawing fine marks on a live surface: a piece is enlarged, drawn on with a Pen, and shrunk back."""

from collections.abc import Callable, Iterator, Sequence
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


class _Spare:
    """Large sheets lent for the time of a drawing and taken back: a fresh one from the system takes as long
    as it takes to draw on it."""

    MOST = 4_000_000  # px that are kept; who draws that much waits anyway

    def __init__(self) -> None:
        self._free: dict[tuple[Any, ...], list[pygame.Surface]] = {}

    @contextmanager
    def lent(self, w: int, h: int, like: pygame.Surface | None = None) -> Iterator[pygame.Surface]:
        """A sheet of w x h px, as deep as another or clear; what stood on it before still does."""
        kind = (like.get_bitsize(), like.get_masks()) if like else ()
        free = self._free.setdefault(kind, [])
        try:
            whole = free.pop()
        except IndexError:  # none, or the worker draws with it
            whole = _fresh(w, h, like)
        if whole.get_width() < w or whole.get_height() < h:
            whole = _fresh(max(w, whole.get_width()), max(h, whole.get_height()), like)
        yield whole.subsurface(pygame.Rect(0, 0, w, h))
        if whole.get_width() * whole.get_height() <= self.MOST and not free:
            free.append(whole)


def _fresh(w: int, h: int, like: pygame.Surface | None) -> pygame.Surface:
    return pygame.Surface((w, h), 0, like) if like else pygame.Surface((w, h), pygame.SRCALPHA, 32)


_SPARE = _Spare()


@contextmanager
def supersampled(surface: pygame.Surface, rect: Rect, zoom: int = ZOOM) -> Iterator[tuple[Pen, float, float]]:
    """A Pen over the part of the surface in the rect, and the corner (px) its page pixels start from. With
    `zoom` 1 it draws on the surface itself: for large pictures, whose lines are wide."""
    at = pixels(rect).clip(surface.get_clip())
    if at.w < 1 or at.h < 1:
        yield Pen(pygame.Surface((1, 1), 0, 32), 1), rect.x, rect.y
        return
    page = surface.subsurface(at)
    if zoom == 1:
        yield Pen(page, 1), at.x, at.y
        return
    size = at.w * ZOOM, at.h * ZOOM
    if surface.get_flags() & pygame.SRCALPHA:
        fine = pygame.transform.scale(page, size)
        yield Pen(fine, ZOOM), at.x, at.y
        surface.blit(pygame.transform.smoothscale(fine, at.size), at)
        return
    with _SPARE.lent(*size, page) as fine:
        pygame.transform.scale(page, size, fine)
        yield Pen(fine, ZOOM), at.x, at.y
        pygame.transform.smoothscale(fine, at.size, page)


@contextmanager
def sprite(
    w: int, h: int, ground: tuple[int, int, int], parts: Sequence[Rect] = ()
) -> Iterator[tuple[Pen, pygame.Surface]]:  # fmt: skip
    """A Pen on a clear sheet, and the surface of w x h px it is shrunk into; edges fade into `ground`. With
    `parts` (px of the surface) only those may be drawn on, and nothing else is touched."""
    w, h = max(w, 1), max(h, 1)
    out = pygame.Surface((w, h), pygame.SRCALPHA, 32)
    places = [pixels(p).clip(out.get_rect()) for p in parts] if parts else [out.get_rect()]
    with _SPARE.lent(w * ZOOM, h * ZOOM) as fine:
        wide = [pygame.Rect(p.x * ZOOM, p.y * ZOOM, p.w * ZOOM, p.h * ZOOM) for p in places]
        for place in wide:
            fine.fill((*ground, 0), place)
        yield Pen(fine, ZOOM), out
        for place, large in zip(places, wide, strict=True):
            if place.w and place.h:
                pygame.transform.smoothscale(fine.subsurface(large), place.size, out.subsurface(place))


def dashed(pen: Pen, points: Points, width: float, colour: Colour, step: float) -> None:
    """Dashed line, half on and half off, one stroke a dash: quick enough for every frame."""
    fine = resample(points, step / 2)
    for a, b in zip(fine[::2], fine[1::2], strict=False):
        pen.line([a, b], width, colour)
