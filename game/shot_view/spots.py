"""Where labels of points in a picture find room: beside their point, or the nearest place that is free."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import pygame

from game.draw.camera import Rect
from game.draw.type import Type, Word

__all__ = ["PAD", "Named", "PointName", "clear_of", "name_points"]

PAD = 4.0  # px of plate on either side of a word
RINGS = 7  # lines away from its point that a label may stand
Point = tuple[float, float]


@dataclass(frozen=True)
class PointName:
    """A label, its point (px), and the sides it may stand on, the better one first; `below` looks for room
    under the point before above it."""

    text: str
    at: Point
    sides: tuple[int, ...] = (1, -1)
    below: bool = False


@dataclass(frozen=True)
class Named:
    """A label in its place, and its point."""

    word: Word
    at: Point


def clear_of(box: Rect, shapes: Sequence[Sequence[Point]]) -> bool:
    """Whether no line through the points of a shape runs into the plate of the box."""
    plate = pygame.Rect(int(box.x - PAD - 6), int(box.y), int(box.w + 2 * PAD + 12), int(box.h))
    return not any(plate.clipline(a, b) for shape in shapes for a, b in pairwise(shape))


def name_points(
    type_: Type, asks: Sequence[PointName], room: Rect, taken: Sequence[Rect],
    shapes: Sequence[Sequence[Point]], role: str = "small",
) -> tuple[Named, ...]:  # fmt: skip
    """Every label where it is inside the room, on no other label, not on what is `taken` and, while that can
    be had, not on the shapes. One that finds no room at all is left out."""
    placed: list[Named] = []
    full = [_kept_free(box) for box in taken]
    for ask in asks:
        found: Rect | None = None
        for box in _spots(type_, ask, role):  # no further than the first that is free: asked every frame
            if not _fits(box, room, full):
                continue
            if clear_of(box, shapes):
                found = box
                break
            found = found or box
        if found:
            placed.append(Named(Word(ask.text, role, "ink", found), ask.at))
            full.append(_kept_free(found))
    return tuple(placed)


def _spots(type_: Type, ask: PointName, role: str) -> Iterator[Rect]:
    """Places for one label, the nearest first: level with its point, then lines above and below."""
    line, wide, (x, y) = type_.line(role), type_.width(ask.text, role), ask.at
    first, second = (1, -1) if ask.below else (-1, 1)
    levels = [0.0, *(s * k * 0.7 for k in range(1, RINGS) for s in (first, second))]
    if ask.below:
        levels = [*levels[1:], 0.0]
    for far in (0.0, 1.5, 3.5, 6.0):
        for row in levels:
            for side in ask.sides:
                left = x + side * (0.7 + far) * line - (0.0 if side > 0 else wide)
                yield Rect(left, y + (row - 0.5) * line, wide, line)


def _kept_free(box: Rect) -> Rect:
    """What other plates keep off."""
    return Rect(box.x - PAD - 2, box.y - 1, box.w + 2 * PAD + 4, box.h + 2)


def _fits(box: Rect, room: Rect, taken: Sequence[Rect]) -> bool:
    plate = Rect(box.x - PAD, box.y, box.w + 2 * PAD, box.h)
    return room.holds(plate) and not any(map(plate.overlaps, taken))
