"""A column to be read: where it scrolls, no line is cut in two and a mark says that there is more."""

from collections.abc import Iterator

import pygame

from game.draw.camera import Rect
from game.shot_view.sentence import PhraseWidget
from game.ui import Column, Pair, TextBlock, Theme, Widget, paint
from game.ui.widget import walk

__all__ = ["Sheet", "spans"]

Span = tuple[float, float]  # top and foot (px) of what may not be cut


def spans(widgets: tuple[Widget, ...], theme: Theme) -> Iterator[Span]:
    """Lines of text one by one, everything else whole."""
    for w in walk(widgets):
        if isinstance(w, TextBlock | Pair):
            role = w.role if isinstance(w, TextBlock) else "label"
            rows = max(round(w.rect.h / theme.type.line(role)), 1)
            tall = w.rect.h / rows
            yield from ((w.rect.y + i * tall, w.rect.y + (i + 1) * tall) for i in range(rows))
        elif isinstance(w, PhraseWidget):
            yield from ((b.y, b.bottom) for b in w.boxes)
        elif not w.parts:
            yield w.rect.y, w.rect.bottom


class Sheet(Column):
    """A Column whose edges fall between lines."""

    def edges(self, theme: Theme) -> Span:
        """Where what can be read whole begins and ends (px)."""
        top, foot = self.rect.y, self.rect.bottom
        if self.offset > 0.5:
            cut = [b for a, b in spans(self.items, theme) if a < top + 1.0 and b > top]
            top = max([top, *cut])
        if self.offset < self.overflow - 0.5:
            cut = [a for a, b in spans(self.items, theme) if a + 1.0 < self._inner.bottom < b]
            foot = max(min([self._inner.bottom, *cut]), top)
        return top, foot

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        super().draw(surface, theme)
        if not self.overflow:
            return
        (top, foot), room = self.edges(theme), self.rect.w - 2.0 * theme.gap
        for y, tall, to in ((self.rect.y, top - self.rect.y, -1), (foot, self.rect.bottom - foot, 1)):
            if tall > 0.5:
                paint.box(surface, Rect(self.rect.x, y, room, tall), theme.palette.paper)
                middle = self.rect.y + 0.5 * theme.gap if to < 0 else self.rect.bottom - 0.5 * theme.gap
                _more(surface, theme, self.rect.x + 0.5 * self.rect.w, middle, to)


def _more(surface: pygame.Surface, theme: Theme, x: float, y: float, to: int) -> None:
    """An arrow head pointing up (to -1) or down (+1): there is more that way."""
    wide, tall = 1.2 * theme.gap, 0.3 * theme.gap
    points = [(x - wide, y - to * tall), (x, y + to * tall), (x + wide, y - to * tall)]
    pygame.draw.lines(surface, theme.accent, False, points, max(round(2 * theme.line), 2))
