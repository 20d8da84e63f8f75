"""What a screen is: it is given a box, takes events, lets time pass, and draws; and what it may ask for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import inf
from pathlib import Path
from typing import Any, Protocol

import pygame

from game.draw.camera import Rect
from game.library.notebook.store import Notebook
from game.library.settings import Settings
from game.ui.focus import Focus
from game.ui.theme import Theme
from game.ui.toast import Toast
from game.ui.widget import Widget
from game.ui.work import Worker

__all__ = ["Host", "Keys", "Screen"]

Keys = tuple[tuple[str, str], ...]  # key, what it does


class Host(Protocol):
    """The frame round the screens, as a screen sees it; the window's own is `game.app.frame.App`."""

    settings: Settings
    theme: Theme
    surface: pygame.Surface
    home: Path | None  # the folder of the reader's files; None where nothing is kept
    book: Notebook  # of the window's own thread; in memory where nothing is kept
    worker: Worker
    focus: Focus
    toast: Toast
    titles: tuple[str, ...]  # of the screens on the bar

    @property
    def screen(self) -> Screen:
        """The one in front."""

    @property
    def player(self) -> str:
        """Whose shots the notebook takes down now."""

    def open(self, title: str) -> None:
        """Go to a screen of the bar."""

    def push(self, screen: Screen) -> None:
        """This screen over the one in front."""

    def pop(self) -> None:
        """Back to the one below."""

    def help(self) -> None:
        """The guide of the screen in front, or the keys and words."""

    def arrange(self) -> None:
        """Lay the screen in front out anew."""

    def say(self, sentence: str) -> None:
        """One sentence in the caption line."""

    def change(self, **fields: Any) -> None:
        """Change settings by name."""

    def settings_to(self, settings: Settings) -> None:
        """Take these settings whole."""

    def keep(self) -> None:
        """Save the settings."""


class Screen:
    """Base of all screens. Keys and pointer go to the `widgets` first, what they leave to `handle`."""

    title = ""
    keys: Keys = ()  # its own keys, for the help
    bar = True  # whether the bar of screens stands above it
    guide: Callable[[Host, Callable[[], None]], Screen] | None = None  # opened by F1

    def __init__(self, app: Host) -> None:
        self.app = app

    @property
    def widgets(self) -> Sequence[Widget]:
        """What can be pointed at or reached by keys now, in Tab order; containers bring their parts."""
        return ()

    def enter(self) -> None:
        """The screen comes to the front (each time). Before the first `layout`."""

    def welcome(self) -> None:
        """The program starts for the first time and this is the first screen; it is in front already."""

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

    def scrolls(self, event: pygame.event.Event) -> bool:
        """Give an event to the column that the focus is in; True when it was used up."""
        at = self.app.focus.widget
        return at is not None and at.within is not None and at.within.handle(event)

    @property
    def moving(self) -> bool:
        """Whether it changes by itself now, so that frames must go on without an event."""
        return False

    @property
    def due(self) -> float:
        """Seconds after which it wants a look though nothing happens; inf for never."""
        return inf

    def update(self, dt: float) -> None:
        """Let `dt` seconds of real time pass. No computing here: ask `app.worker`."""

    def draw(self, surface: pygame.Surface) -> None:
        """Draw inside the box, on paper; by itself the widgets."""
        for widget in self.widgets:
            widget.draw(surface, self.app.theme)
