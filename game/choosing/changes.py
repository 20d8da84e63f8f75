"""One thing otherwise: the order of the options then, and in words whether another leads."""

import pygame

from game.text.choice import changed_lead, changed_words
from game.ui import Theme, Widget, paint
from levels.choose import ShotChoice
from levels.what_if import Changed

__all__ = ["ChangedRow"]


class ChangedRow(Widget):
    """The options' numbers, best first, then the sentence."""

    focusable = False

    def __init__(self, changed: Changed, choice: ShotChoice, green: float | None = None) -> None:
        """`green`: its usual speed (m), where no number is to be told."""
        whole = changed_words(changed, choice)
        other = "another leads" if changed.other_leads else "nothing else leads for sure"
        super().__init__(whole if green is None else f"{changed_lead(changed, green)} {other}.")
        self.order, self.other_leads = changed.order, changed.other_leads

    def _left(self, theme: Theme) -> float:
        return len(self.order) * 1.6 * theme.type.line("label") + theme.gap

    def _words(self, theme: Theme, width: float) -> tuple[str, ...]:
        return theme.type.wrap(self.label, "label", width - self._left(theme))

    def height(self, theme: Theme, width: float) -> float:
        return max(len(self._words(theme, width)), 1.3) * theme.type.line("label")

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        line, r = theme.type.line("label"), self.rect
        for k, index in enumerate(self.order):
            x, y = r.x + (0.8 + 1.6 * k) * line, r.y + 0.62 * line
            first = k == 0
            fill = theme.accent if first else theme.palette.paper
            edge = theme.accent if first else theme.palette.rule
            paint.disc(surface, x, y, 0.6 * line, fill, edge, theme.line)
            text_y = y - theme.type.line("small") / 2
            paint.text(surface, theme, str(index + 1), "small", x, text_y, "paper" if first else "ink", 0.5)
        words = self._words(theme, r.w)
        paint.lines(surface, theme, words, "label", r.x + self._left(theme), r.y + 0.1 * line)
