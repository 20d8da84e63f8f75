"""Several lines of text, wrapped to the width, with a window that follows the caret."""

from collections.abc import Callable

import pygame

from game.draw.camera import Rect
from game.draw.type import Type
from game.ui import paint
from game.ui.text_edit import Written
from game.ui.textfield import COMMANDS, ENTER, TextField
from game.ui.theme import Theme
from game.ui.widget import Position

__all__ = ["TextArea", "wrapped"]


def wrapped(type_: Type, text: str, role: str, width: float) -> list[tuple[int, int]]:
    """Where each line begins and ends. A line ends before the blank it broke at; no letter is lost."""
    out: list[tuple[int, int]] = []
    start = 0
    for paragraph in text.split("\n"):
        low = last = 0  # start of the line; the last place it may break at
        at = 0
        while at <= len(paragraph):
            blank = at == len(paragraph) or paragraph[at] == " "
            if blank and type_.width(paragraph[low:at], role) > width and last > low:
                out.append((start + low, start + last))
                low = last + 1
            if blank:
                last = at
            at += 1
        out.append((start + low, start + len(paragraph)))
        start += len(paragraph) + 1
    return out


class TextArea(TextField):
    """Enter begins a line, Up and Down go through the lines, the wheel turns the window."""

    def __init__(
        self, label: str, text: str, on_change: Callable[[str], None], *, rows: int = 3, most: int = 4000,
        empty: str = "", tooltip: str = "", group: str = "",
    ) -> None:  # fmt: skip
        super().__init__(label, text, on_change, most=most, empty=empty, tooltip=tooltip, group=group)
        self.written = Written(text, most, lines=True)
        self.rows, self._first, self._seen = rows, 0, -1
        self._wrapped: tuple[tuple[str, float, float], list[tuple[int, int]]] = (("", -1.0, 0.0), [(0, 0)])

    def _body(self, theme: Theme, width: float) -> float:
        return self.rows * theme.type.line(self.role) + theme.gap

    def lines(self) -> list[tuple[int, int]]:
        """The wrapped lines now; reckoned anew only when text or room is another."""
        key = (self.text, self._room.w, self._theme.scale)
        if key != self._wrapped[0]:
            self._wrapped = (key, wrapped(self._theme.type, self.text, self.role, self._room.w))
        return self._wrapped[1]

    def _row_of(self, lines: list[tuple[int, int]], place: int) -> int:
        return max((i for i, (low, _) in enumerate(lines) if low <= place), default=0)

    def index_at(self, at: Position) -> int:
        lines = self.lines()
        tall = self._theme.type.line(self.role)
        row = self._first + int((at[1] - self.field.y - self._theme.gap / 2) // tall)
        low, high = lines[min(max(row, 0), len(lines) - 1)]
        return low + self._nearest(self.text[low:high], at[0] - self._room.x)

    def _key(self, event: pygame.event.Event) -> bool:
        if event.key in ENTER and not event.mod & COMMANDS:
            self._edit(lambda: self.written.put("\n"))
            return True
        if event.key in (pygame.K_UP, pygame.K_DOWN):
            by = 1 if event.key == pygame.K_DOWN else -1
            return self._turn(by, bool(event.mod & pygame.KMOD_SHIFT))
        return super()._key(event)

    def _turn(self, by: int, hold: bool) -> bool:
        """The caret a line up or down, as nearly under itself as letters allow."""
        lines, w = self.lines(), self.written
        row = self._row_of(lines, w.caret)
        low, _ = lines[row]
        x = self._theme.type.width(self.text[low : w.caret], self.role)
        if not 0 <= row + by < len(lines):
            w.go(0 if by < 0 else len(self.text), hold)
            return True
        low, high = lines[row + by]
        w.go(low + self._nearest(self.text[low:high], x), hold)
        return True

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEWHEEL and self.focused:
            most = max(len(self.lines()) - self.rows, 0)
            before, self._first = self._first, min(max(self._first - int(event.y), 0), most)
            return before != self._first
        return super().handle(event)

    def _draw_text(self, surface: pygame.Surface, theme: Theme) -> None:
        lines, room, tall = self.lines(), self._room, theme.type.line(self.role)
        row = self._row_of(lines, self.written.caret)
        if self.focused and self.written.caret != self._seen:  # follow the caret, not every frame
            self._first = min(max(self._first, row - self.rows + 1), row)
        self._seen = self.written.caret
        self._first = min(self._first, max(len(lines) - self.rows, 0))
        top = room.y + theme.gap / 2
        for i, (low, high) in enumerate(lines[self._first : self._first + self.rows]):
            self._draw_line(surface, theme, room.x, top + i * tall, low, high)
        if not self.text and not self.focused and self.empty:
            words = theme.type.wrap(self.empty, self.role, room.w)[: self.rows]
            paint.lines(surface, theme, words, self.role, room.x, top, "muted")
        if len(lines) > self.rows:
            share, field = self.rows / len(lines), self.field
            thumb = Rect(
                field.right - theme.gap, top + (room.h - theme.gap) * self._first / len(lines),
                0.5 * theme.gap, (room.h - theme.gap) * share,
            )  # fmt: skip
            paint.box(surface, thumb, theme.edge, None, theme.gap / 4)
