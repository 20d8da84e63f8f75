"""What the keys of the builder do once no field wants them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import pygame

from game.builder.ui.panel import TABS
from game.builder.ui.tools import TOOLS
from game.ui import Widget
from game.ui.screen import Keys
from game.ui.widget import walk

if TYPE_CHECKING:
    from game.builder.ui.screen import Builder

__all__ = ["BUILDER_KEYS", "Keyboard"]

CTRL = pygame.KMOD_CTRL | pygame.KMOD_META
BUILDER_KEYS: Keys = (
    *((t.key, f"{t.label}: {t.plain[:1].lower()}{t.plain[1:]}") for t in TOOLS),
    ("Tab, Shift+Tab", "from thing to thing on the course, and on to tools and fields"),
    ("Arrows", "move the picked thing by a grid step; with Shift ten steps, with Alt 1 cm"),
    ("Enter", "edit the numbers of the picked thing; with a tool in hand, use it where the cross is"),
    ("Delete, Ctrl+D", "take the picked thing out; a second one beside it"),
    ("Ctrl+Z, Ctrl+Y", "undo, redo; Ctrl+Shift+Z redoes, too"),
    ("+, -, Home", "nearer, farther, all of it; the wheel zooms at the pointer"),
    ("G", "snapping on and off; Alt turns it off for the moment"),
    ("P", "play it; Esc comes back. Ctrl+P does so from a field"),
    ("F8", "to the next thing to mend"),
    ("V", "the course alone, or with its notes"),
    ("Ctrl+Tab", "from tools to course to notes"),
    ("PageUp, PageDown", "turn the leaves of the notes; with Ctrl from a field, too"),
    ("Ctrl+S, Ctrl+O", "save, open; Ctrl+Shift+S saves under another name"),
)


class Keyboard:
    """Commands with Ctrl work everywhere, plain keys where nothing is written."""

    def __init__(self, builder: Builder) -> None:
        self.b = builder

    def take(self, event: pygame.event.Event) -> bool:
        """Take a key; True when it was used up."""
        if event.mod & CTRL:
            act = self._commands(bool(event.mod & pygame.KMOD_SHIFT)).get(event.key)
        elif event.key == pygame.K_ESCAPE:
            return self._escape()
        elif event.mod & pygame.KMOD_ALT:
            return False
        elif event.unicode and event.unicode in "+-":
            self.b.canvas.zoom(1.0 if event.unicode == "+" else -1.0)
            return True
        else:
            act = self._plain.get(event.key) or self._tool(event.key)
        if act is None:
            return False
        act()
        return True

    def _commands(self, shift: bool) -> dict[int, Callable[[], None]]:
        b = self.b
        return {
            pygame.K_z: b.editing.redo if shift else b.editing.undo, pygame.K_y: b.editing.redo,
            pygame.K_s: b.files.save_as if shift else b.files.save, pygame.K_o: b.files.open,
            pygame.K_p: b.play, pygame.K_d: self._twice,
            pygame.K_TAB: lambda: self._region(-1 if shift else 1),
            pygame.K_PAGEUP: lambda: self._turn(-1), pygame.K_PAGEDOWN: lambda: self._turn(1),
        }  # fmt: skip

    @property
    def _plain(self) -> dict[int, Callable[[], None]]:
        b = self.b
        return {
            pygame.K_p: b.play, pygame.K_F8: b.next_problem, pygame.K_g: self._snap,
            pygame.K_HOME: b.canvas.fit, pygame.K_KP_PLUS: lambda: b.canvas.zoom(1.0),
            pygame.K_KP_MINUS: lambda: b.canvas.zoom(-1.0), pygame.K_v: self._solo,
            pygame.K_PAGEUP: lambda: self._turn(-1), pygame.K_PAGEDOWN: lambda: self._turn(1),
        }  # fmt: skip

    def _tool(self, key: int) -> Callable[[], None] | None:
        found = next((t for t in TOOLS if t.code == key), None)
        return (lambda: self.b.take_tool(found.name)) if found else None

    def _turn(self, by: int) -> None:
        panel = self.b.panel
        self.b.show_tab(TABS[(TABS.index(panel.tab) + by) % len(TABS)])

    def _solo(self) -> None:
        self.b.alone = not self.b.alone
        self.b.app.arrange()

    def _snap(self) -> None:
        editing = self.b.editing
        editing.snapping = not editing.snapping
        self.b.app.say("Snapping to the grid." if editing.snapping else "Snapping is off.")

    def _twice(self) -> None:
        b = self.b
        if b.editing.picked is None:
            b.app.say("Pick a hazard first.")
            return
        b.editing.duplicate(b.editing.picked)
        if grip := b.canvas.grip_of(b.editing.picked):
            b.refocus(grip)

    def _region(self, by: int) -> None:
        """The focus to the next part: tools, course, tabs, notes."""
        b = self.b
        if b.tight:
            b.view_to((b.view + by) % b.views)
            return
        notes: list[Widget] = [] if b.alone else list(b.panel.columns)
        parts: list[list[Widget]] = [[b.tools], [b.canvas], [b.panel.bar], notes]
        now = next((i for i, part in enumerate(parts) if b.focused() in list(walk(part))), 0)
        for step in range(1, len(parts) + 1):
            part = parts[(now + by * step) % len(parts)]
            found = [w for w in walk(part) if w.focusable and w.enabled]
            if part == [b.canvas]:
                found = [b.canvas.grip_of(b.editing.picked) or b.canvas]
            if found:
                b.refocus(found[0])
                return

    def _escape(self) -> bool:
        """Give up a stroke, put the tool down, leave a field, unpick; else leave it to others."""
        b, focused = self.b, self.b.focused()
        if b.canvas.gesture.cancel():
            return True
        if b.editing.tool != "move":
            b.take_tool("move")
        elif focused is not None and focused.within in b.panel.columns:
            if b.tight:
                b.view_to(0)
            b.refocus(b.canvas.grip_of(b.editing.picked) or b.canvas)
        elif b.editing.picked is not None and not b.app.toast.sentence:
            b.editing.picked = None
            b.changed()
            b.refocus(b.canvas if b.canvas in b.widgets else None)
        else:
            return False
        return True
