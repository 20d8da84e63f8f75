"""The plain sentence of a widget, shown after a moment under the pointer or at once on F1."""

from collections.abc import Iterator, Sequence

import pygame

from game.draw.camera import Rect
from game.ui import paint
from game.ui.theme import Theme
from game.ui.widget import Widget

__all__ = ["PANE", "Tooltip", "kept_clear", "place_tip", "shown_part"]

WAIT = 0.6  # s of rest before it shows, assumed
WIDTHS = (40.0, 28.0, 60.0, 90.0)  # steps of the rhythm a box is wide, the usual first
PANE = 0.3  # share of the window from which a widget is a pane whose tip lies on it


def place_tip(
    theme: Theme, words: str, anchor: Rect, bounds: Rect, others: Sequence[Rect] = (),
    clear: Sequence[Rect] = (),
) -> Rect:  # fmt: skip
    """Box for the words inside the bounds: under the anchor, over it, beside it, or the nearest place that
    covers neither it nor any of `clear`, and as few as can be of the other controls."""
    pad, must = theme.gap, [*clear]
    if anchor.w * anchor.h < PANE * bounds.w * bounds.h:
        must.append(anchor)
    best: tuple[tuple[int, int, int], Rect] | None = None
    for k, share in enumerate(WIDTHS):
        room = min(share * theme.gap, bounds.w - 2 * pad)
        lines = theme.type.wrap(words, "label", room)
        w = max(theme.type.width(line, "label") for line in lines) + 2 * pad
        h = len(lines) * theme.type.line("label") + 2 * pad
        for place in _places(anchor, bounds, must, w, h, pad):
            cost = (
                sum(place.overlaps(m) for m in must), sum(place.overlaps(other) for other in others), k
            )  # fmt: skip
            if best is None or cost < best[0]:
                best = cost, place  # the first of equals
        if best and best[0][0] == 0:
            return best[1]
    if best is None:
        return Rect(bounds.x, bounds.y, bounds.w, bounds.h)
    return best[1]


def _places(
    anchor: Rect, bounds: Rect, must: Sequence[Rect], w: float, h: float, pad: float
) -> Iterator[Rect]:  # fmt: skip
    """Places for a box of this size: about the anchor first, then along the edges of what it must not cover,
    the nearest first."""
    right, low = bounds.right - w, bounds.bottom - h
    if right < bounds.x or low < bounds.y:
        yield Rect(bounds.x, bounds.y, min(w, bounds.w), min(h, bounds.h))
        return
    x = min(max(anchor.x, bounds.x), right)
    tops = (anchor.y, anchor.bottom - h)
    near = [(x, y) for y in (anchor.bottom + pad, anchor.y - pad - h)]
    near += [(left, y) for left in (anchor.x - pad - w, anchor.right + pad) for y in tops]
    xs = {x, bounds.x, right, *(v for m in must for v in (m.x - pad - w, m.right + pad))}
    ys = {bounds.y, low, *(v for m in must for v in (m.bottom + pad, m.y - pad - h))}
    far = sorted(
        ((a, b) for a in xs for b in ys), key=lambda p: abs(p[0] - anchor.x) + abs(p[1] - anchor.bottom)
    )
    yield from (Rect(a, b, w, h) for a, b in (*near, *far) if bounds.x <= a <= right and bounds.y <= b <= low)


def shown_part(widget: Widget) -> Rect:
    """The part (px) of a widget that its scrolling column shows."""
    r, clip = widget.rect, widget.clip
    if clip is None:
        return r
    x, y = max(r.x, clip.x), max(r.y, clip.y)
    return Rect(x, y, max(min(r.right, clip.right) - x, 0.0), max(min(r.bottom, clip.bottom) - y, 0.0))


def kept_clear(order: Sequence[Widget], widget: Widget) -> list[Rect]:
    """What the tip of a widget may not cover: what has the focus next, and every tab."""
    at = order.index(widget) if widget in order else -1
    following = order[(at + 1) % len(order) : (at + 1) % len(order) + 1] if order else []
    tabs = [w for w in order if getattr(w, "kind", "") == "tab"]
    parts = (shown_part(w) for w in (*following, *tabs) if w is not widget)
    return [part for part in parts if part.w > 0.0 and part.h > 0.0]


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

    def hide(self, under: Widget | None = None) -> bool:
        """Put it away until the pointer moves on; True when one was there. `under` lies under the pointer
        now though that has not moved: nobody has asked about it."""
        there = self.widget is not None
        self.widget, self._asked = None, False
        self._rested = (under or self._rested[0], float("-inf"))
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
        self, surface: pygame.Surface, theme: Theme, bounds: Rect, others: Sequence[Rect] = (),
        clear: Sequence[Rect] = (),
    ) -> None:  # fmt: skip
        """Draw it near its widget, clear of that, of `clear`, and of the other controls where it can."""
        if self.widget is None:
            return
        box = place_tip(theme, self.widget.tooltip, shown_part(self.widget), bounds, others, clear)
        lines = theme.type.wrap(self.widget.tooltip, "label", box.w - 2 * theme.gap + 1)
        paint.box(surface, box, theme.palette.paper, theme.edge, theme.radius, theme.line)
        paint.lines(surface, theme, lines, "label", box.x + theme.gap, box.y + theme.gap)
