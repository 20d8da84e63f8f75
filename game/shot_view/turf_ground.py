"""The ground of the turf window, for any look: the last one stands in, scaled, until the sharp one comes."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

import pygame

from game.draw.camera import Camera
from game.ui.work import Answer, Job, Then

__all__ = ["AskGround", "DrawnGround", "Sharpened", "rescaled"]

AskGround = Callable[[str, Job, Then], None]  # name, what draws, who hears


@dataclass(frozen=True, eq=False)
class DrawnGround:
    """A picture and the camera it was drawn with; `key` is all that it shows."""

    key: tuple[Any, ...]
    camera: Camera
    picture: pygame.Surface


def _same(a: tuple[Any, ...], b: tuple[Any, ...]) -> bool:
    return len(a) == len(b) and all(x is y or x == y for x, y in zip(a, b, strict=True))


class Sharpened:
    """One picture that is kept. Asked for anew it is drawn beside the frames, for it takes as long as
    ten of them, and what can stand in for it is shown at once."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.drawn: DrawnGround | None = None  # the newest sharp one
        self._asked: tuple[Any, ...] = ()
        self._rough: tuple[DrawnGround, tuple[Any, ...], pygame.Surface] | None = None

    def get(
        self, key: tuple[Any, ...], camera: Camera, size: tuple[int, int], draw: Callable[[], pygame.Surface],
        instead: DrawnGround | None, ask: AskGround | None,
    ) -> pygame.Surface:  # fmt: skip
        """The picture of the key, or `instead` as the camera sees it; drawn here and now where nothing can
        stand in, or nobody can be asked."""
        if self.drawn and _same(self.drawn.key, key):
            self._rough = None
            return self.drawn.picture
        if ask is None or instead is None:
            self.drawn, self._rough = DrawnGround(key, camera, draw()), None
            return self.drawn.picture
        if not _same(self._asked, key):
            self._asked = key
            ask(self.name, draw, partial(self._come, key, camera))
        if self._rough is None or self._rough[0] is not instead or not _same(self._rough[1], key):
            self._rough = instead, key, rescaled(instead.picture, instead.camera, camera, size)
        return self._rough[2]

    def _come(self, key: tuple[Any, ...], camera: Camera, answer: Answer) -> None:
        """Even one that is no longer looked at is nearer to what is now than the one before."""
        if not answer.problem:
            self.drawn = DrawnGround(key, camera, answer.value)


def rescaled(
    picture: pygame.Surface, was: Camera, now: Camera, size: tuple[int, int]
) -> pygame.Surface:  # fmt: skip
    """A picture as another camera sees it, in the size (px); beyond its sides its edges go on."""
    grow = now.scale / was.scale
    left, top = now.x0 - grow * was.x0, now.y0 - grow * was.y0
    wide, high = picture.get_size()
    out = pygame.Surface(size, 0, 32)
    whole = pygame.Rect(round(left), round(top), round(grow * wide), round(grow * high))
    seen = whole.clip(out.get_rect())
    if seen.w < 1 or seen.h < 1:
        return pygame.transform.scale(picture, size, out)
    x, y = max(int((seen.x - left) / grow), 0), max(int((seen.y - top) / grow), 0)
    part = pygame.Rect(x, y, max(round(seen.w / grow), 1), max(round(seen.h / grow), 1))
    shown = picture.subsurface(part.clip(picture.get_rect()))
    out.blit(pygame.transform.scale(shown, seen.size), seen)
    _onward(out, seen)
    return out


def _onward(out: pygame.Surface, seen: pygame.Rect) -> None:
    """Its outermost columns and rows drawn on to the edges of the sheet: sky, turf and earth run level."""
    wide, high = out.get_size()
    x, y, end, low = seen.x, seen.y, seen.right, seen.bottom
    bands = (
        ((x, y, 1, seen.h), (0, y, x, seen.h)), ((end - 1, y, 1, seen.h), (end, y, wide - end, seen.h)),
        ((0, y, wide, 1), (0, 0, wide, y)), ((0, low - 1, wide, 1), (0, low, wide, high - low)),
    )  # fmt: skip
    for edge, beyond in ((pygame.Rect(a), pygame.Rect(b)) for a, b in bands):
        if beyond.w > 0 and beyond.h > 0:
            out.blit(pygame.transform.scale(out.subsurface(edge).copy(), beyond.size), beyond)
