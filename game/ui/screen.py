"""What a screen is: it is given a box, takes events, lets time pass, and draws."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import pygame

from game.draw.camera import Rect
from game.ui.theme import Theme
from game.ui.widget import Widget

if TYPE_CHECKING:
    from game.app.frame import App

__all__ = ["Keys", "Screen"]

Keys = tuple[tuple[str, str], ...]  # key, what it does


class Screen:
    """Base of all screens. Keys and pointer go to the `widgets` first, what they leave to `handle`."""

    title = ""
    keys: Keys = ()  # its own keys, for the help
    bar = True  # whether the bar of screens stands above it
    app: App

    @property
    def widgets(self) -> Sequence[Widget]:
        """What can be pointed at or reached by keys now, in Tab order; containers bring their parts."""
        return ()

    def enter(self, app: App) -> None:
        """The screen comes to the front (each time). Before the first `layout`."""
        self.app = app

    def leave(self) -> None:
        """The screen goes from the front."""

    def may_leave(self, then: Callable[[], None]) -> bool:
        """Whether the program may end. A screen that says no asks what it must and calls `then` itself."""
        return True

    def layout(self, box: Rect, theme: Theme) -> None:
        """Place everything inside the box; called after `enter` and whenever size or settings change."""

    def handle(self, event: pygame.event.Event) -> bool:
        """Take an event that no widget used; True when it was used up."""
        return False

    def update(self, dt: float) -> None:
        """Let `dt` seconds of real time pass. No computing here: ask `app.worker`."""

    def draw(self, surface: pygame.Surface) -> None:
        """Draw inside the box, on paper; by itself the widgets."""
        for widget in self.widgets:
            widget.draw(surface, self.app.theme)
