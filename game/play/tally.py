"""How far a goal is: one pip a shot that counts, and the same in words beside them."""

from dataclasses import dataclass

import pygame

from game.ui import Theme, Widget, paint

__all__ = ["Tally", "TallyRow"]


@dataclass(frozen=True)
class Tally:
    """How far the goal is: one entry a shot that counts, None for one still to come; and in words."""

    marks: tuple[bool | None, ...]
    words: str


class TallyRow(Widget):
    """Filled: met the goal. Ring with a dot: played, not yet. Empty ring: still to come."""

    focusable = False

    def __init__(self, pips: Tally, state: str = "") -> None:
        super().__init__(", ".join(part for part in (pips.words, state) if part))
        self.pips = pips

    def _marks(self, theme: Theme) -> float:
        return len(self.pips.marks) * 2.5 * theme.gap

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
        for i, met in enumerate(self.pips.marks):
            x, y = r.x + (i % across + 0.5) * step - 0.25 * theme.gap, r.y + (i // across + 0.5) * step
            fill = theme.accent if met else theme.palette.paper
            edge = theme.accent if met else theme.edge
            paint.disc(surface, x, y, 0.85 * theme.gap, fill, edge, 2 * theme.line)
            if met is False:
                paint.disc(surface, x, y, 0.3 * theme.gap, theme.edge)
        if self._beside(theme, r.w):
            y = r.y + (r.h - theme.type.line("strong")) / 2
            paint.text(surface, theme, self.label, "strong", r.x + self._marks(theme) + theme.gap / 2, y)
        else:
            rows = -(-len(self.pips.marks) // across)
            words = theme.type.wrap(self.label, "strong", r.w)
            paint.lines(surface, theme, words, "strong", r.x, r.y + rows * step)
