"""The head of the result: a flag that flies for a goal met, a bare pole for one that is not, and the word."""

import pygame

from game.draw.camera import Rect
from game.play.tally import TallyRow
from game.ui import Theme, Widget, paint
from game.ui.supersample import supersampled

__all__ = ["StandingRow"]


class StandingRow(Widget):
    """Met: a filled band and a flying flag. Not yet: an outlined band and a bare pole. The tally stands
    beside the band where there is room, else under it."""

    focusable = False

    def __init__(self, words: str, met: bool, tally: TallyRow) -> None:
        super().__init__(words)
        self.met, self.tally = met, tally
        self._band = self.rect

    @property
    def parts(self) -> tuple[Widget, ...]:
        return (self.tally,)

    def width(self, theme: Theme) -> float:
        return theme.type.width(self.label, "lead") + 6.5 * theme.gap

    def _tall(self, theme: Theme) -> float:
        return theme.type.line("lead") + theme.gap

    def _beside(self, theme: Theme, width: float) -> bool:
        return self.width(theme) + 1.5 * theme.gap + self.tally.width(theme) <= width

    def height(self, theme: Theme, width: float) -> float:
        tall = self._tall(theme)
        under = theme.gap + self.tally.height(theme, width)
        return tall if self._beside(theme, width) else tall + under

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        tall, wide = self._tall(theme), self.width(theme)
        self.tally.clip, self.tally.within = self.clip, self.within
        if self._beside(theme, rect.w):
            self._band = Rect(rect.x, rect.y, wide, tall)
            left, row = wide + 1.5 * theme.gap, self.tally.height(theme, rect.w - wide)
            at = Rect(rect.x + left, rect.y + (tall - row) / 2, rect.w - left, row)
        else:
            self._band = Rect(rect.x, rect.y, rect.w, tall)
            y = rect.y + tall + theme.gap
            at = Rect(rect.x, y, rect.w, rect.bottom - y)
        self.tally.place(at, theme)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, p = self._band, theme.palette
        if self.met:
            paint.box(surface, r, theme.accent, None, theme.radius)
        else:
            paint.box(surface, r, theme.field, theme.edge, theme.radius, theme.line)
        ink = p.paper if self.met else p.ink
        foot, tall = r.h - 0.6 * theme.gap, r.h - 1.2 * theme.gap
        with supersampled(surface, Rect(r.x, r.y, 6 * theme.gap, r.h)) as (pen, left, top):
            x, foot = r.x + 2.0 * theme.gap - left, r.y + foot - top
            pen.line([(x, foot), (x, foot - tall)], 2.0 * theme.line, ink)
            pen.line([(x - theme.gap, foot), (x + theme.gap, foot)], 1.5 * theme.line, ink)
            if self.met:
                cloth = [(x, foot - tall), (x + 0.62 * tall, foot - 0.74 * tall), (x, foot - 0.48 * tall)]
                pen.fill(cloth, ink)
        y = r.y + (r.h - theme.type.line("lead")) / 2
        paint.text(surface, theme, self.label, "lead", r.x + 5 * theme.gap, y, "paper" if self.met else "ink")
        self.tally.draw(surface, theme)
