"""How far some long work is: a sentence and a bar under it."""

import pygame

from game.draw.camera import Rect
from game.ui import paint
from game.ui.theme import Theme
from game.ui.widget import Widget

__all__ = ["ProgressBar"]


class ProgressBar(Widget):
    """`label` says what is worked out; `share` is set from outside, 0 to 1."""

    focusable = False

    def __init__(self, label: str, share: float = 0.0) -> None:
        super().__init__(label)
        self.share = share

    @property
    def caption(self) -> str:
        return f"{self.label}: {100 * self.share:.0f} %."

    def height(self, theme: Theme, width: float) -> float:
        lines = theme.type.wrap(self.caption, "label", width)
        return len(lines) * theme.type.line("label") + 1.5 * theme.gap

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, gap = self.rect, theme.gap
        lines = theme.type.wrap(self.caption, "label", r.w)
        paint.lines(surface, theme, lines, "label", r.x, r.y)
        y = r.y + len(lines) * theme.type.line("label") + gap / 4
        rail = Rect(r.x, y, min(r.w, 70 * gap), gap)
        paint.box(surface, rail, theme.hover, None, gap / 2)
        done = Rect(rail.x, y, max(self.share * rail.w, gap), gap)
        paint.box(surface, done, theme.accent, None, gap / 2)
