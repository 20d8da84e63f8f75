"""A line of the answer: in it, or struck through and left out."""

from collections.abc import Callable

import pygame

from game.draw.camera import Rect
from game.ui import Theme, Widget, paint
from game.ui.button import PRESS

__all__ = ["LineRow"]


class LineRow(Widget):
    """Space, Enter or a click strikes it, or takes it in again; arrows go from line to line."""

    def __init__(self, words: str, struck: bool, on_turn: Callable[[], None]) -> None:
        super().__init__(words, tooltip="Space strikes this line out, or takes it in again.", group="lines")
        self.struck, self.on_turn = struck, on_turn

    @property
    def caption(self) -> str:
        return f"{self.label}, {'struck out' if self.struck else 'goes into the file'}"

    def _lines(self, theme: Theme, width: float) -> tuple[str, ...]:
        room = width - 4.5 * theme.gap
        if theme.type.width(self.label, "label") <= room:  # there may be thousands of lines
            return (self.label,)
        return theme.type.wrap(self.label, "label", room)

    def height(self, theme: Theme, width: float) -> float:
        return max(len(self._lines(theme, width)) * theme.type.line("label") + 0.5 * theme.gap, 24.0)

    def handle(self, event: pygame.event.Event) -> bool:
        pressed = event.type == pygame.KEYDOWN and event.key in PRESS
        if pressed or (event.type == pygame.MOUSEBUTTONUP and self.hit(event.pos)):
            self.struck = not self.struck
            self.on_turn()
            return True
        return event.type == pygame.MOUSEBUTTONDOWN

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, gap, tall = self.rect, theme.gap, theme.type.line("label")
        if self.hovered:
            paint.box(surface, r, theme.hover, None, theme.radius)
        lines = self._lines(theme, r.w)
        top = r.y + (r.h - len(lines) * tall) / 2
        paint.disc(
            surface, r.x + 1.5 * gap, top + tall / 2, 0.5 * gap,
            theme.palette.paper if self.struck else theme.accent, theme.accent, theme.line,
        )  # fmt: skip
        x = r.x + 3.25 * gap
        paint.lines(surface, theme, lines, "label", x, top, "muted" if self.struck else "ink")
        if self.struck:
            for i, words in enumerate(lines):
                wide = theme.type.width(words, "label")
                bar = Rect(x, top + (i + 0.55) * tall, wide, 1.5 * theme.line)
                paint.box(surface, bar, theme.palette.muted)
        self.draw_focus(surface, theme)
