"""Who gets which event: the pointer's widget, the focused one, and how the focus moves."""

import time
from collections.abc import Callable, Sequence

import pygame

from game.ui.widget import Position, Widget, walk

__all__ = ["Focus"]

DOUBLE = 0.4  # s between two presses that belong together, common practice
NEAR = 6.0  # px they may lie apart
STEPS = {pygame.K_LEFT: -1, pygame.K_UP: -1, pygame.K_RIGHT: 1, pygame.K_DOWN: 1}


class Focus:
    """Keyboard and pointer over the widgets that `source` names now."""

    def __init__(
        self, source: Callable[[], Sequence[Widget]], say: Callable[[str], None] = lambda _: None,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:  # fmt: skip
        self.source, self.say, self.clock = source, say, clock
        self.widget: Widget | None = None
        self.hovered: Widget | None = None
        self.pointer: Position = (-1.0, -1.0)
        self._held: Widget | None = None
        self._pressed: tuple[float, Position, Widget] | None = None
        self._last: dict[str, Widget] = {}  # where the focus was in each group

    def all(self) -> list[Widget]:
        """Every widget now there, parts included."""
        return list(walk(self.source()))

    def order(self) -> list[Widget]:
        """What can have the focus, in order."""
        return [w for w in self.all() if w.enabled and w.focusable]

    def stops(self) -> list[Widget]:
        """Where Tab stops: every widget, and one for a group."""
        out: list[Widget] = []
        order = self.order()
        for w in order:
            if w.group and any(v.group == w.group for v in out):
                continue
            chosen = self.widget if self.widget and self.widget.group == w.group else self._last.get(w.group)
            out.append(chosen if w.group and chosen in order and chosen else w)
        return out

    def set(self, widget: Widget | None) -> None:
        """Move the focus there, or away (None)."""
        if widget is self.widget:
            return
        if self.widget:
            self.widget.leave()
            self._collect(self.widget)
            self.widget.focused = False
        self.widget = widget
        if widget:
            widget.focused = True
            if widget.group:
                self._last[widget.group] = widget
            if widget.within:
                widget.within.reveal(widget)

    def first(self, widgets: Sequence[Widget]) -> None:
        """Focus the first of these that can have it."""
        self.set(next((w for w in walk(widgets) if w.enabled and w.focusable), None))

    def move(self, by: int) -> bool:
        """The next (+1) or the previous (-1) Tab stop, round the ends."""
        stops = self.stops()
        if not stops:
            return False
        if self.widget in stops:
            self.set(stops[(stops.index(self.widget) + by) % len(stops)])
        else:
            self.set(stops[0 if by > 0 else -1])
        return True

    def handle(self, event: pygame.event.Event) -> bool:
        """Give the event to its widget; True when it was used up."""
        if self.widget and self.widget not in self.order():
            self.set(None)
        if event.type == pygame.KEYDOWN:
            return self._key(event)
        if event.type in (pygame.TEXTINPUT, pygame.TEXTEDITING):
            return self.widget is not None and self.widget.typing and self._give(self.widget, event)
        if event.type == pygame.MOUSEMOTION:
            self._hover(event.pos)
            return self._held is not None and self._give(self._held, event)
        if event.type == pygame.MOUSEBUTTONDOWN and event.button == 1:
            self._hover(event.pos)
            return self._press(event)
        if event.type == pygame.MOUSEBUTTONUP and event.button == 1:
            held, self._held = self._held, None
            return held is not None and self._give(held, event)
        if event.type == pygame.MOUSEWHEEL:
            used = any(self._give(w, event) for w in reversed(self.all()) if w.hit(self.pointer))
            self._hover(self.pointer)
            return used
        return False

    def _give(self, widget: Widget, event: pygame.event.Event) -> bool:
        used = widget.handle(event)
        self._collect(widget)
        return used

    def _collect(self, widget: Widget) -> None:
        if widget.told:
            self.say(widget.told)
            widget.told = ""

    def _key(self, event: pygame.event.Event) -> bool:
        widget = self.widget
        if event.key == pygame.K_TAB and not event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return self.move(-1 if event.mod & pygame.KMOD_SHIFT else 1)
        if widget is None:
            return False
        if self._give(widget, event):
            if widget.within:
                widget.within.reveal(widget)
            return True
        if event.key == pygame.K_DELETE and widget.reset():
            return True
        if widget.group and event.key in STEPS:
            near = [w for w in self.order() if w.group == widget.group]
            self.set(near[(near.index(widget) + STEPS[event.key]) % len(near)])
            return True
        return False

    def look_again(self) -> None:
        """Other widgets lie under the resting pointer now."""
        self._hover(self.pointer)

    def _hover(self, at: Position) -> None:
        self.pointer = at
        found = next((w for w in reversed(self.all()) if w.focusable and w.hit(at)), None)
        if self.hovered and self.hovered is not found:
            self.hovered.hovered = False
        self.hovered = found
        if found:
            found.hovered = True

    def _press(self, event: pygame.event.Event) -> bool:
        widget = self.hovered
        if widget is None or not widget.enabled:
            self._pressed = None
            if widget is None:
                self.set(None)
            return widget is not None
        widget.aim(event.pos)
        self.set(widget)
        now, last = self.clock(), self._pressed
        self._pressed = (now, event.pos, widget)
        if last and last[2] is widget and now - last[0] <= DOUBLE and _near(last[1], event.pos):
            self._pressed = None
            if widget.reset():
                self._collect(widget)
                return True
        self._held = widget
        return self._give(widget, event)


def _near(a: Position, b: Position) -> bool:
    return abs(a[0] - b[0]) <= NEAR and abs(a[1] - b[1]) <= NEAR
