"""Events as a keyboard and a mouse would send them."""

import pygame

__all__ = ["key", "motion", "press", "release", "typed", "wheel"]


def key(code: int, mod: int = 0, text: str = "") -> pygame.event.Event:
    return pygame.event.Event(pygame.KEYDOWN, key=code, mod=mod, unicode=text)


def typed(text: str) -> list[pygame.event.Event]:
    """A text, letter by letter."""
    return [key(ord(c), 0, c) for c in text]


def press(x: float, y: float) -> pygame.event.Event:
    return pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=(x, y), button=1)


def release(x: float, y: float) -> pygame.event.Event:
    return pygame.event.Event(pygame.MOUSEBUTTONUP, pos=(x, y), button=1)


def motion(x: float, y: float, held: bool = False) -> pygame.event.Event:
    return pygame.event.Event(pygame.MOUSEMOTION, pos=(x, y), rel=(0, 0), buttons=(int(held), 0, 0))


def wheel(y: int) -> pygame.event.Event:
    return pygame.event.Event(pygame.MOUSEWHEEL, x=0, y=y)
