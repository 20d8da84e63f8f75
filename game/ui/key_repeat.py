"""A key held down steps on; Enter and Space never do, so nothing is pressed twice by a slow finger."""

from collections.abc import Sequence

import pygame

__all__ = ["Repeat"]

DELAY, EVERY = 0.35, 0.04  # s, common practice
KEYS = (
    pygame.K_LEFT, pygame.K_RIGHT, pygame.K_UP, pygame.K_DOWN, pygame.K_PAGEUP, pygame.K_PAGEDOWN,
    pygame.K_TAB, pygame.K_BACKSPACE,
)  # fmt: skip


class Repeat:
    """Adds the repeated presses to the events of a frame."""

    def __init__(self) -> None:
        self._held: pygame.event.Event | None = None
        self._left = 0.0

    @property
    def held(self) -> bool:
        """Whether a key that repeats is down."""
        return self._held is not None

    def events(self, new: Sequence[pygame.event.Event], dt: float) -> list[pygame.event.Event]:
        """The new events and, when a key has been held long enough, its press again (at most one)."""
        self._left -= dt
        for event in new:
            if event.type == pygame.KEYDOWN:
                self._held, self._left = (event if event.key in KEYS else None), DELAY
            elif event.type in (pygame.KEYUP, pygame.WINDOWFOCUSLOST):
                self._held = None
        if self._held is None or self._left > 0.0:
            return list(new)
        self._left = max(self._left + EVERY, 0.0)
        return [*new, self._held]
