"""The plain sentence of a widget, shown after a moment under the pointer or at once on F1."""

from collections.abc import Sequence

import pygame

from game.draw.camera import Rect
from game.ui import paint
from game.ui.theme import Theme
from game.ui.widget import Widget

__all__ = ["Tooltip", "place_tip"]

WAIT = 0.6  # s of rest before it shows, assumed
WIDEST = 40.0  # steps of the rhythm


def place_tip(
    theme: Theme, words: str, anchor: Rect, bounds: Rect, others: Sequence[Rect] = ()
) -> Rect:  # fmt: skip
    """Box for the words inside the bounds: under the anchor, over it, or beside it, where it covers none of
    the other controls; else where it covers least."""
    pad = theme.gap
    lines = theme.type.wrap(words, "label", min(WIDEST * theme.gap, bounds.w - 2 * pad))
    w = max(theme.type.width(line, "label") for line in lines) + 2 * pad
    h = len(lines) * theme.type.line("label") + 2 * pad
    x = min(max(anchor.x, bounds.x), max(bounds.right - w, bounds.x))
    tops = (anchor.y, anchor.bottom - h)
    places = [Rect(x, y, w, h) for y in (anchor.bottom + pad, anchor.y - pad - h)]
    places += [Rect(left, y, w, h) for left in (anchor.x - pad - w, anchor.right + pad) for y in tops]
    inside = [p for p in places if bounds.y <= p.y and p.bottom <= bounds.bottom
              and bounds.x <= p.x and p.right <= bounds.right]  # fmt: skip
    if not inside:
        return Rect(x, max(bounds.bottom - h, bounds.y), w, h)
    return min(inside, key=lambda p: sum(p.overlaps(other) for other in others))  # the first of equals


class Tooltip:
    """Which widget's sentence shows now."""

    def __init__(self) -> None:
        self.widget: Widget | None = None
        self._rested: tuple[Widget | None, float] = (None, 0.0)
        self._asked = False

    def ask(self, widget: Widget | None) -> bool:
        """Show this one's now (F1); False when it has none or shows already."""
        if widget is None or not widget.tooltip or self.widget is widget:
            return False
        self.widget, self._asked = widget, True
        return True

    def hide(self) -> bool:
        """Put it away until the pointer moves on; True when one was there."""
        there = self.widget is not None
        self.widget, self._asked = None, False
        self._rested = (self._rested[0], float("-inf"))
        return there

    def update(self, dt: float, hovered: Widget | None, focused: Widget | None) -> None:
        """Let time pass over the widget under the pointer."""
        if self._asked and self.widget is focused:
            return
        widget, rested = self._rested
        rested = rested + dt if hovered is widget else 0.0
        self._rested, self._asked = (hovered, rested), False
        self.widget = hovered if hovered and hovered.tooltip and rested >= WAIT else None

    def draw(
        self, surface: pygame.Surface, theme: Theme, bounds: Rect, others: Sequence[Rect] = ()
    ) -> None:  # fmt: skip
        """Draw it near its widget, clear of the other controls where it can."""
        if self.widget is None:
            return
        box = place_tip(theme, self.widget.tooltip, self.widget.rect, bounds, others)
        lines = theme.type.wrap(self.widget.tooltip, "label", box.w - 2 * theme.gap + 1)
        paint.box(surface, box, theme.palette.paper, theme.edge, theme.radius, theme.line)
        paint.lines(surface, theme, lines, "label", box.x + theme.gap, box.y + theme.gap)
