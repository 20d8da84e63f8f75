"""How far a goal is: one tally stroke a shot that counts, and the same in words beside them."""

from dataclasses import dataclass

import pygame

from game.draw.camera import Rect
from game.ui import Theme, Widget, paint

__all__ = ["Tally", "TallyRow"]


@dataclass(frozen=True)
class Tally:
    """How far the goal is: one entry a shot that counts, None for one still to come; and in words."""

    marks: tuple[bool | None, ...]
    words: str


class TallyRow(Widget):
    """Tall and filled: met the goal. Short and hollow: played, not met. A dash on the line: still to come."""

    focusable = False

    def __init__(self, tally: Tally, state: str = "") -> None:
        super().__init__(", ".join(part for part in (tally.words, state) if part))
        self.tally = tally

    def _marks(self, theme: Theme) -> float:
        return len(self.tally.marks) * 2.5 * theme.gap

    def width(self, theme: Theme) -> float:
        return self._marks(theme) + theme.gap + theme.type.width(self.label, "strong")

    def _beside(self, theme: Theme, width: float) -> bool:
        return self.width(theme) <= width

    def height(self, theme: Theme, width: float) -> float:
        line = max(theme.type.line("strong"), 2.5 * theme.gap)
        if self._beside(theme, width):
            return line
        rows = -(-self._marks(theme) // max(width, 1.0))
        words = theme.type.wrap(self.label, "strong", width)
        return rows * 2.5 * theme.gap + len(words) * theme.type.line("strong")

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, step = self.rect, 2.5 * theme.gap
        across = max(int(r.w // step), 1)
        for i, met in enumerate(self.tally.marks):
            x, foot = r.x + (i % across + 0.5) * step - 0.25 * theme.gap, r.y + (i // across + 0.9) * step
            self._stroke(surface, theme, x, foot, step, met)
        if self._beside(theme, r.w):
            y = r.y + (r.h - theme.type.line("strong")) / 2
            paint.text(surface, theme, self.label, "strong", r.x + self._marks(theme) + theme.gap / 2, y)
        else:
            rows = -(-len(self.tally.marks) // across)
            words = theme.type.wrap(self.label, "strong", r.w)
            paint.lines(surface, theme, words, "strong", r.x, r.y + rows * step)

    @staticmethod
    def _stroke(
        surface: pygame.Surface, theme: Theme, x: float, foot: float, step: float, met: bool | None
    ) -> None:
        wide = 0.34 * step
        if met is None:
            paint.box(surface, Rect(x - wide, foot - 2 * theme.line, 2 * wide, 2 * theme.line), theme.edge)
            return
        tall = (0.8 if met else 0.45) * step
        box = Rect(x - wide / 2, foot - tall, wide, tall)
        fill, edge = (theme.accent, None) if met else (theme.palette.paper, theme.edge)
        paint.box(surface, box, fill, edge, 0.0, 1.5 * theme.line)
