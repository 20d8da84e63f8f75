"""What the guide says, with its way out beside it: both stay in sight however little room the words have."""

import pygame

from game.draw.camera import Rect
from game.ui import Button, TextBlock, Theme, Widget

__all__ = ["Led"]


class Led(Widget):
    """Words on the left, a button on their right."""

    focusable = False

    def __init__(self, words: TextBlock, out: Button) -> None:
        super().__init__()
        self.words, self.out = words, out

    @property
    def parts(self) -> tuple[Widget, ...]:
        return (self.words, self.out)

    def _room(self, theme: Theme, width: float) -> float:
        return width - self.out.width(theme) - theme.gap

    def height(self, theme: Theme, width: float) -> float:
        words = self.words.height(theme, self._room(theme, width))
        return max(words, self.out.height(theme, self.out.width(theme)))

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self.words.place(Rect(rect.x, rect.y, self._room(theme, rect.w), rect.h), theme)
        wide = self.out.width(theme)
        self.out.place(Rect(rect.right - wide, rect.y, wide, self.out.height(theme, wide)), theme)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        for part in self.parts:
            part.draw(surface, theme)
