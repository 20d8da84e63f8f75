"""Words that are only read: wrapped to the width and measured before they are drawn."""

from collections.abc import Sequence

import pygame

from game.draw.camera import Rect
from game.ui import paint
from game.ui.theme import Theme
from game.ui.widget import Widget

__all__ = ["Heading", "HeldLine", "Pair", "TextBlock"]

MEASURE = 34  # widths of "0" in a line that is easily read, common practice (60 to 75 letters)


class TextBlock(Widget):
    """Text in paragraphs (one each line of the string), no wider than is easily read."""

    focusable = False

    def __init__(self, words: str, role: str = "label", tone: str = "ink") -> None:
        super().__init__(words)
        self.role, self.tone = role, tone

    def lines(self, theme: Theme, width: float) -> tuple[str, ...]:
        """The lines at that width."""
        room = min(width, 2 * MEASURE * theme.type.width("0", self.role))
        return tuple(line for p in self.label.split("\n") for line in theme.type.wrap(p, self.role, room))

    def height(self, theme: Theme, width: float) -> float:
        return len(self.lines(theme, width)) * theme.type.line(self.role)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r = self.rect
        paint.lines(surface, theme, self.lines(theme, r.w), self.role, r.x, r.y, self.tone)


class Heading(TextBlock):
    """A line over a group."""

    def __init__(self, words: str) -> None:
        super().__init__(words, "lead")


class HeldLine(TextBlock):
    """Words that others follow in the same place: room for the longest of them is kept."""

    def __init__(self, words: str, later: Sequence[str], role: str = "strong") -> None:
        super().__init__(words, role)
        self.later = tuple(later)

    def height(self, theme: Theme, width: float) -> float:
        tall = (TextBlock(words, self.role).height(theme, width) for words in self.later)
        return max(super().height(theme, width), *tall)


class Pair(Widget):
    """A term and what it means, beside each other where there is room."""

    focusable = False
    TERM = 0.28  # share of the width for the term

    def __init__(self, term: str, meaning: str) -> None:
        super().__init__(f"{term}: {meaning}")
        self.term, self.meaning = term, meaning

    def _boxes(self, theme: Theme, width: float) -> tuple[Rect, Rect]:
        """Term and meaning, from the corner of the widget."""
        type_, line = theme.type, theme.type.line("label")
        left = self.TERM * width
        beside = type_.width(self.term, "strong") + theme.gap <= left
        x, y = (left, 0.0) if beside else (0.0, line)
        rows = len(type_.wrap(self.meaning, "label", width - x))
        return Rect(0, 0, left if beside else width, line), Rect(x, y, width - x, rows * line)

    def height(self, theme: Theme, width: float) -> float:
        return max(box.bottom for box in self._boxes(theme, width))

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        _, meaning = self._boxes(theme, self.rect.w)
        paint.text(surface, theme, self.term, "strong", self.rect.x, self.rect.y)
        words = theme.type.wrap(self.meaning, "label", meaning.w)
        paint.lines(surface, theme, words, "label", self.rect.x + meaning.x, self.rect.y + meaning.y, "muted")
