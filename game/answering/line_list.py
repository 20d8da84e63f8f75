"""The lines of the answer, each in it or struck through: any number, of which those in sight are drawn."""

import re
from collections.abc import Callable, Sequence
from itertools import accumulate

import numpy as np
import pygame

from game.draw.camera import Rect
from game.ui import Theme, Widget, paint
from game.ui.button import PRESS

__all__ = ["LineList"]

STEPS = {pygame.K_UP: -1, pygame.K_LEFT: -1, pygame.K_DOWN: 1, pygame.K_RIGHT: 1}
PAGE = 12  # lines of PageUp and PageDown
WORDS, AIR = 3.25, 1.0  # steps of the rhythm left of the words, and over and under a line together
LEAST = 24.0  # px a line is high at least, so that it is hit


class LineList(Widget):
    """One stop of Tab; arrows go from line to line, Space, Enter or a click strikes one or takes it in again.
    `struck` is asked anew whenever it is drawn."""

    def __init__(
        self, lines: Sequence[str], struck: Callable[[int], bool], on_turn: Callable[[int], None]
    ) -> None:  # fmt: skip
        super().__init__("Lines", tooltip="Space strikes this line out, or takes it in again.")
        self.lines, self.struck, self.on_turn = tuple(lines), struck, on_turn
        self.at = 0  # the line that the keys are on
        self.focusable = bool(self.lines)
        self._laid: tuple[float, Theme] | None = None
        self._tops: np.ndarray = np.zeros(1)  # px from the top of the list; the last is its foot

    @property
    def caption(self) -> str:
        if not self.lines:
            return ""
        how = "struck out" if self.struck(self.at) else "goes into the file"
        return f"{self.lines[self.at]}, {how}; line {self.at + 1} of {len(self.lines)}"

    # ---- places

    def height(self, theme: Theme, width: float) -> float:
        if self._laid != (width, theme):
            self._laid = (width, theme)
            self._tops = np.array([0.0, *accumulate(self._heights(theme, width))])
        return float(self._tops[-1])

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self.height(theme, rect.w)

    def _heights(self, theme: Theme, width: float) -> list[float]:
        """Lines that differ in digits alone are measured once: there may be thousands."""
        known: dict[str, float] = {}
        digit = max("0123456789", key=lambda one: theme.type.width(one, "label"))
        out = []
        for words in self.lines:
            shape = re.sub(r"\d", digit, words)
            if shape not in known:
                rows = len(self._rows(theme, width, shape))
                known[shape] = max(rows * theme.type.line("label") + AIR * theme.gap, LEAST)
            out.append(known[shape])
        return out

    @staticmethod
    def _rows(theme: Theme, width: float, words: str) -> tuple[str, ...]:
        return theme.type.wrap(words, "label", width - (WORDS + 1.25) * theme.gap)

    def box(self, number: int) -> Rect:
        """Where a line lies (px)."""
        top, foot = float(self._tops[number]), float(self._tops[number + 1])
        return Rect(self.rect.x, self.rect.y + top, self.rect.w, foot - top)

    @property
    def in_focus(self) -> Rect:
        return self.box(self.at) if self.lines else self.rect

    def _under(self, y: float) -> int:
        found = int(np.searchsorted(self._tops, y - self.rect.y, side="right")) - 1
        return min(max(found, 0), len(self.lines) - 1)

    # ---- events and drawing

    def aim(self, at: tuple[float, float]) -> None:
        self.at = self._under(at[1])

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.KEYDOWN:
            return self._key(event.key)
        if (
            event.type == pygame.MOUSEBUTTONUP
            and self.hit(event.pos)
            and self._under(event.pos[1]) == self.at
        ):
            self.on_turn(self.at)
        return event.type in (pygame.MOUSEBUTTONUP, pygame.MOUSEBUTTONDOWN)

    def _key(self, code: int) -> bool:
        last = len(self.lines) - 1
        to = {
            pygame.K_HOME: 0, pygame.K_END: last, pygame.K_PAGEUP: self.at - PAGE,
            pygame.K_PAGEDOWN: self.at + PAGE, **{step: self.at + by for step, by in STEPS.items()},
        }.get(code)  # fmt: skip
        if code in PRESS:
            self.on_turn(self.at)
        elif to is None:
            return False
        else:
            self.at = min(max(to, 0), last)
        return True

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        if not self.lines:
            return
        seen = self.clip or self.rect
        first, last = self._under(seen.y), self._under(seen.bottom)
        for number in range(first, last + 1):
            self._draw_line(surface, theme, number)
        self.draw_focus(surface, theme, self.in_focus)

    def _draw_line(self, surface: pygame.Surface, theme: Theme, number: int) -> None:
        r, gap, tall, struck = self.box(number), theme.gap, theme.type.line("label"), self.struck(number)
        rows = self._rows(theme, r.w, self.lines[number])
        top = r.y + (r.h - len(rows) * tall) / 2
        paint.disc(
            surface, r.x + 1.5 * gap, top + tall / 2, 0.5 * gap,
            theme.palette.paper if struck else theme.accent, theme.accent, theme.line,
        )  # fmt: skip
        x = r.x + WORDS * gap
        paint.lines(surface, theme, rows, "label", x, top, "muted" if struck else "ink")
        if struck:
            for i, words in enumerate(rows):
                bar = Rect(x, top + (i + 0.55) * tall, theme.type.width(words, "label"), 1.5 * theme.line)
                paint.box(surface, bar, theme.palette.muted)
