"""The keys of the Builder once no field wants them."""

from collections.abc import Callable
from typing import Protocol

import pygame

from game.builder.ui.canvas import Canvas
from game.builder.ui.editing import Editing
from game.builder.ui.files import Files
from game.builder.ui.tools import TOOLS
from game.ui.screen import Keys

__all__ = ["BUILDER_KEYS", "Keyboard"]

CTRL = pygame.KMOD_CTRL | pygame.KMOD_META
BUILDER_KEYS: Keys = (
    *((t.key, f"{t.label}: {t.usage[:1].lower()}{t.usage[1:]}") for t in TOOLS),
    ("Tab, Shift+Tab", "from object to object on the course, and on to tools and fields"),
    ("Arrows", "move the picked object by a grid step; with Shift ten steps, with Alt 1 cm"),
    ("Enter", "edit the numbers of the picked object; with a tool in hand, use it where the cross is"),
    ("Delete, Ctrl+D", "remove the picked object; a second one beside it"),
    ("Ctrl+Z, Ctrl+Y", "undo, redo; Ctrl+Shift+Z redoes, too"),
    ("+, -, Home", "nearer, farther, all of it; the wheel zooms at the pointer"),
    ("G", "snapping on and off; Alt turns it off for the moment"),
    ("P", "play it; Esc comes back. Ctrl+P does so from a field"),
    ("F8", "to the next problem to fix"),
    ("V", "the course alone, or with its notes"),
    ("Ctrl+Tab", "from tools to course to notes"),
    ("PageUp, PageDown", "turn the leaves of the notes; with Ctrl from a field, too"),
    ("F1", "the guide: every key of a scenario and a pack"),
    ("Ctrl+S, Ctrl+O", "save, open; Ctrl+Shift+S saves under another name"),
)
Act = Callable[[], None]


class KeyPage(Protocol):
    """What the keys do to the page as a whole."""

    def play(self) -> None:
        """Play the scenario as it stands."""

    def next_problem(self) -> None:
        """To the next thing that breaks a rule."""

    def take_tool(self, name: str) -> None:
        """Another tool in hand."""

    def duplicate(self) -> None:
        """A second one of what is picked."""

    def next_tab(self, by: int) -> None:
        """Another tab to the front."""

    def next_region(self, by: int) -> None:
        """The focus to another part of the page."""

    def toggle_course_only(self) -> None:
        """The course alone, or with its notes."""

    def escape(self) -> bool:
        """Give up the nearest thing that can be given up; False when there is none."""


class Keyboard:
    """Commands with Ctrl work everywhere, plain keys where nothing is written."""

    def __init__(self, page: KeyPage, editing: Editing, canvas: Canvas, files: Files) -> None:
        self.page, self.editing, self.canvas, self.files = page, editing, canvas, files

    def take(self, event: pygame.event.Event) -> bool:
        """Take a key; True when it was used up."""
        if event.mod & CTRL:
            act = self._commands(bool(event.mod & pygame.KMOD_SHIFT)).get(event.key)
        elif event.key == pygame.K_ESCAPE:
            return self.page.escape()
        elif event.mod & pygame.KMOD_ALT:
            return False
        elif event.unicode and event.unicode in "+-":
            self.canvas.zoom(1.0 if event.unicode == "+" else -1.0)
            return True
        else:
            act = self._plain().get(event.key) or self._tool(event.key)
        if act is None:
            return False
        act()
        return True

    def _commands(self, shift: bool) -> dict[int, Act]:
        page, files, editing = self.page, self.files, self.editing
        return {
            pygame.K_z: editing.redo if shift else editing.undo, pygame.K_y: editing.redo,
            pygame.K_s: files.save_as if shift else files.save, pygame.K_o: files.open,
            pygame.K_p: page.play, pygame.K_d: page.duplicate,
            pygame.K_TAB: lambda: page.next_region(-1 if shift else 1),
            pygame.K_PAGEUP: lambda: page.next_tab(-1), pygame.K_PAGEDOWN: lambda: page.next_tab(1),
        }  # fmt: skip

    def _plain(self) -> dict[int, Act]:
        page, canvas = self.page, self.canvas
        return {
            pygame.K_p: page.play, pygame.K_F8: page.next_problem, pygame.K_g: self.editing.toggle_snapping,
            pygame.K_HOME: canvas.viewport.fit, pygame.K_KP_PLUS: lambda: canvas.zoom(1.0),
            pygame.K_KP_MINUS: lambda: canvas.zoom(-1.0), pygame.K_v: page.toggle_course_only,
            pygame.K_PAGEUP: lambda: page.next_tab(-1), pygame.K_PAGEDOWN: lambda: page.next_tab(1),
        }  # fmt: skip

    def _tool(self, key: int) -> Act | None:
        found = next((t for t in TOOLS if t.code == key), None)
        return (lambda: self.page.take_tool(found.name)) if found else None
