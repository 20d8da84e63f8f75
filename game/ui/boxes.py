"""Containers: a column that scrolls when it must, a row that breaks when it must."""

from collections.abc import Sequence

import pygame

from game.draw.camera import Rect
from game.ui import layout, paint
from game.ui.theme import Theme
from game.ui.widget import Widget, walk

__all__ = ["COLUMN_PAD", "Column", "Row"]

COLUMN_PAD = 0.75  # steps over and under the content
NOTCH = 6.0  # steps of the rhythm a wheel notch scrolls


class Row(Widget):
    """Widgets beside each other at their natural widths, in as many rows as they need."""

    focusable = False

    def __init__(self, items: Sequence[Widget]) -> None:
        super().__init__()
        self.items = tuple(items)

    @property
    def parts(self) -> tuple[Widget, ...]:
        return self.items

    def width(self, theme: Theme) -> float:
        return sum(w.width(theme) for w in self.items) + theme.gap * (len(self.items) - 1)

    def _boxes(self, theme: Theme, box: Rect) -> tuple[Rect, ...]:
        wide = [min(w.width(theme), box.w) for w in self.items]
        tall = max((w.height(theme, v) for w, v in zip(self.items, wide, strict=True)), default=0.0)
        return layout.flow(box, wide, tall, theme.gap)

    def height(self, theme: Theme, width: float) -> float:
        return max((b.bottom for b in self._boxes(theme, Rect(0, 0, width, 0))), default=0.0)

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        for w, box in zip(self.items, self._boxes(theme, rect), strict=True):
            w.place(box, theme)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        for w in self.items:
            w.draw(surface, theme)


class Column(Widget):
    """Widgets under each other. Taller than its room, it scrolls: wheel, PageUp, PageDown, or the focus.

    `gap` is in steps of the rhythm. It takes the focus itself only when it scrolls and nothing in it can.
    """

    def __init__(self, items: Sequence[Widget], gap: float = 1.5) -> None:
        super().__init__()
        self.items, self.spacing = tuple(items), gap
        self.steady = False  # the thumb's room is kept: words that come later wrap nothing anew
        self.offset, self.content, self._step = 0.0, 0.0, 48.0
        self._inner = self.rect
        self._theme = Theme()

    @property
    def parts(self) -> tuple[Widget, ...]:
        return self.items

    @property
    def overflow(self) -> float:
        """How far it can scroll (px); less than half a pixel is no more than rounding."""
        over = self.content - self._inner.h
        return over if over > 0.5 else 0.0

    def _stops(self) -> list[Widget]:
        return [w for w in walk(self.items) if w.enabled and w.focusable]

    def height(self, theme: Theme, width: float) -> float:
        inner = self._room(theme, Rect(0, 0, width, 0)).w
        tall = sum(w.height(theme, inner) for w in self.items)
        return tall + self.spacing * theme.gap * max(len(self.items) - 1, 0) + 2 * COLUMN_PAD * theme.gap

    @staticmethod
    def _room(theme: Theme, rect: Rect) -> Rect:
        """The box without the room for the focus ring."""
        return Rect(
            rect.x + theme.gap, rect.y + COLUMN_PAD * theme.gap, rect.w - 2 * theme.gap,
            rect.h - 2 * COLUMN_PAD * theme.gap,
        )  # fmt: skip

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self._theme, self._step = theme, NOTCH * theme.gap
        for w in walk(self.items):
            w.clip, w.within = rect, self
        inner = self._room(theme, rect)
        tall = self.height(theme, rect.w) > rect.h + 0.5
        thumb = 1.5 * theme.gap if tall or self.steady else 0.0
        self._inner = Rect(inner.x, inner.y, inner.w - thumb, inner.h)
        heights = [w.height(theme, self._inner.w) for w in self.items]
        boxes = layout.column(self._inner, heights, self.spacing * theme.gap)
        self.content = boxes[-1].bottom - inner.y if boxes else 0.0
        self.offset = min(max(self.offset, 0.0), self.overflow)
        for w, box in zip(self.items, boxes, strict=True):
            w.place(Rect(box.x, box.y - self.offset, box.w, box.h), theme)
        self.focusable = self.overflow > 0 and not self._stops()

    def scroll(self, by: float) -> bool:
        """Scroll by so many pixels; True when there was anything to scroll."""
        if not self.overflow:
            return False
        self.offset = min(max(self.offset + by, 0.0), self.overflow)
        self.place(self.rect, self._theme)
        return True

    def reveal(self, part: Widget) -> None:
        """Scroll as little as shows the part, its neighbours of mere text included."""
        stops = self._stops()
        if part not in stops or not self.overflow:
            return
        pad, spot, start = self._theme.gap, part.in_focus, self._inner.y - self.offset
        first = part is stops[0] and spot.y <= part.rect.y + 0.5
        last = part is stops[-1] and spot.bottom >= part.rect.bottom - 0.5
        top = start if first else spot.y - pad
        foot = start + self.content if last else spot.bottom + pad
        foot = max(min(foot, top + self._inner.h), spot.bottom + pad)
        top = max(top, spot.bottom + pad - self._inner.h)
        if top < self._inner.y:
            self.scroll(top - self._inner.y)
        elif foot > self._inner.bottom:
            self.scroll(foot - self._inner.bottom)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEWHEEL:
            return self.scroll(-event.y * self._step)
        if event.type != pygame.KEYDOWN:
            return False
        page = 0.85 * self._inner.h
        by = {
            pygame.K_PAGEUP: -page, pygame.K_PAGEDOWN: page, pygame.K_UP: -self._step,
            pygame.K_DOWN: self._step, pygame.K_HOME: -self.content, pygame.K_END: self.content,
        }.get(event.key)  # fmt: skip
        return by is not None and self.scroll(by)

    def painted(self, theme: Theme) -> Rect:
        return self.rect  # what it holds is cut off there

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        with paint.clipped(surface, self.rect):
            for w in self.items:
                if w.rect.overlaps(self.rect):
                    w.draw(surface, theme)
        if self.overflow:
            self._draw_thumb(surface, theme)
        self.draw_focus(surface, theme, self.rect.inset(2 * theme.ring))

    def _draw_thumb(self, surface: pygame.Surface, theme: Theme) -> None:
        """Where in the content one is; only a sign, not a handle."""
        wide, inner = 0.5 * theme.gap, self._inner
        tall = max(inner.h * inner.h / self.content, 3 * theme.gap)
        y = inner.y + (inner.h - tall) * self.offset / self.overflow
        paint.box(surface, Rect(self.rect.right - wide, inner.y, wide, inner.h), theme.hover, None, wide / 2)
        paint.box(surface, Rect(self.rect.right - wide, y, wide, tall), theme.edge, None, wide / 2)
