"""The caption line at the foot: errors, captions of sounds, and what the focused control is for."""

from math import inf

import pygame

from game.draw.camera import Rect
from game.ui import paint
from game.ui.theme import Theme

__all__ = ["Toast"]

MORE = " \N{HORIZONTAL ELLIPSIS} F1"  # after words that are cut short: the key that shows them whole
LEAST, A_LETTER = 4.0, 0.06  # s a sentence stands, and for each letter; assumed, about 16 letters a second


class Toast:
    """The newest sentence wins; `kept` are the last few."""

    KEPT = 20

    def __init__(self) -> None:
        self.sentence = ""
        self.left = self._whole = 0.0
        self._lines = 1  # that the sentence took when it was last drawn
        self.kept: list[str] = []

    def say(self, sentence: str) -> None:
        """Show a sentence long enough to read it."""
        self.sentence, self.left = sentence, LEAST + A_LETTER * len(sentence)
        self._whole, self._lines = self.left, 1
        self.kept = [*self.kept, sentence][-self.KEPT :]

    def hide(self) -> bool:
        """Put it away; True when one was there."""
        there, self.sentence = bool(self.sentence), ""
        return there

    def take_back(self, sentence: str) -> None:
        """Put that sentence away if it stands: what it said is no longer so."""
        if self.sentence == sentence:
            self.sentence = ""

    @property
    def due(self) -> float:
        """Seconds until the sentence goes or turns to its next line; inf without one."""
        share = self._whole / self._lines
        return max(self.left - share * (self._lines - 1 - self._line), 0.0) if self.sentence else inf

    @property
    def _line(self) -> int:
        """Which of the lines stands now."""
        gone = (self._whole - self.left) / self._whole if self._whole else 0.0
        return min(int(gone * self._lines + 1e-9), self._lines - 1)

    def update(self, dt: float) -> None:
        """Let time pass."""
        self.left -= dt
        if self.left <= 0.0:
            self.sentence = ""

    @staticmethod
    def height(theme: Theme) -> float:
        """Room for one line."""
        return theme.type.line("label") + theme.gap

    @staticmethod
    def holds(theme: Theme, width: float, idle: str) -> bool:
        """Whether the line shows these `idle` words whole."""
        return len(theme.type.wrap(idle, "label", width - 4 * theme.gap)) <= 1

    def draw(self, surface: pygame.Surface, theme: Theme, rect: Rect, idle: str = "") -> None:
        """Draw it in the line: a longer sentence one line after the other, so that it covers nothing that
        could be pressed; `idle` words are cut short."""
        pad = 2 * theme.gap
        lines = theme.type.wrap(self.sentence or idle, "label", rect.w - 2 * pad)
        if not self.sentence and len(lines) > 1:
            lines = (_shortened(theme, idle, rect.w - 2 * pad),)
        if self.sentence:
            lines = self._turned(theme, rect.w - 2 * pad)
        box = rect
        ground, tone = (theme.hover, "ink") if self.sentence else (theme.palette.paper, "muted")
        paint.box(surface, box, ground)
        paint.box(surface, Rect(box.x, box.y, box.w, theme.line), theme.palette.rule)
        if self.sentence:
            paint.box(surface, Rect(box.x, box.y, 0.5 * theme.gap, box.h), theme.accent)
        paint.lines(surface, theme, lines, "label", box.x + pad, box.y + theme.gap / 2, tone)

    def _turned(self, theme: Theme, width: float) -> tuple[str, ...]:
        """The line that stands now, with dots where another follows."""
        dots = " \N{HORIZONTAL ELLIPSIS}"
        lines = theme.type.wrap(self.sentence, "label", width)
        if len(lines) > 1:
            lines = theme.type.wrap(self.sentence, "label", width - theme.type.width(dots, "label"))
        self._lines = len(lines)
        return (lines[self._line] + (dots if self._line + 1 < self._lines else ""),)


def _shortened(theme: Theme, words: str, width: float) -> str:
    """As many of the words as fit beside MORE."""
    return theme.type.wrap(words, "label", width - theme.type.width(MORE, "label"))[0] + MORE
