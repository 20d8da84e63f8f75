"""The base of everything that can be seen, pointed at or reached by keys."""

from collections.abc import Iterable, Iterator

import pygame

from game.draw.camera import Rect
from game.ui import paint
from game.ui.theme import Theme

__all__ = ["NOWHERE", "Widget", "walk"]

NOWHERE = Rect(0.0, 0.0, 0.0, 0.0)
Position = tuple[float, float]


class Widget:
    """A box that is placed, drawn and may take events.

    `tooltip` is one plain sentence; neighbours of the same `group` are one Tab stop, arrows move inside.
    A sentence left in `told` is said in the caption line.
    """

    focusable: bool = True

    def __init__(self, label: str = "", *, tooltip: str = "", group: str = "") -> None:
        self.label, self.tooltip, self.group = label, tooltip, group
        self.rect = NOWHERE
        self.clip: Rect | None = None  # what shows of it, inside a scrolled column
        self.within: Widget | None = None
        self.enabled, self.focused, self.hovered = True, False, False
        self.told = ""

    @property
    def parts(self) -> tuple["Widget", ...]:
        """The widgets inside it, in order."""
        return ()

    @property
    def caption(self) -> str:
        """What it says of itself in words."""
        return self.label

    @property
    def typing(self) -> bool:
        """Whether printed keys belong to it."""
        return False

    def width(self, theme: Theme) -> float:
        """Natural width (px)."""
        return theme.type.width(self.label, "label")

    def height(self, theme: Theme, width: float) -> float:
        """Height (px) it needs at this width."""
        return theme.target

    def place(self, rect: Rect, theme: Theme) -> None:
        """Give it its box."""
        self.rect = rect

    def hit(self, at: Position) -> bool:
        """Whether that pixel belongs to it."""
        return all(
            r.x <= at[0] < r.right and r.y <= at[1] < r.bottom for r in (self.rect, self.clip or self.rect)
        )

    def handle(self, event: pygame.event.Event) -> bool:
        """Take an event; True when it was used up."""
        return False

    def reset(self) -> bool:
        """Go back to the default (double click, Delete); True when there is one."""
        return False

    def leave(self) -> None:
        """The focus goes elsewhere."""

    def aim(self, at: Position) -> None:
        """The pointer presses there next: one of many things on it takes what follows."""

    @property
    def in_focus(self) -> Rect:
        """The part of its box where the focus is, brought into sight."""
        return self.rect

    def reveal(self, part: "Widget") -> None:
        """Bring a part into sight."""

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        """Draw it where it was placed."""

    def draw_focus(self, surface: pygame.Surface, theme: Theme, rect: Rect | None = None) -> None:
        """The ring, when it has the focus."""
        if self.focused:
            paint.ring(surface, theme, rect or self.rect)

    def painted(self, theme: Theme) -> Rect:
        """Where it may leave paint: its box and the ring about it."""
        return self.rect.inset(-2 * theme.ring)

    def back(self, theme: Theme) -> tuple[int, int, int]:
        """Ground of the pressable part."""
        return theme.hover if self.hovered and self.enabled else theme.field


def walk(widgets: Iterable[Widget]) -> Iterator[Widget]:
    """The widgets and everything inside them, in order."""
    for widget in widgets:
        yield widget
        yield from walk(widget.parts)
