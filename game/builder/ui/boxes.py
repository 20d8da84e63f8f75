"""Widgets of the tabs that are no fields: words that are in or out, lines of a list, rows in shares."""

from collections.abc import Callable, Sequence

import pygame

from game.builder.ui.live import Live
from game.draw.camera import Rect
from game.ui import Button, Row, TextBlock, Theme, Widget, layout, paint
from game.ui.textfield import draw_problem, problem_lines

__all__ = ["Chip", "Chips", "ListLine", "ProblemNote", "Shares", "quiet_line", "short_title"]


class ProblemNote(Widget):
    """What is wrong with an object that has no field of its own, with its mark."""

    focusable = False

    def height(self, theme: Theme, width: float) -> float:
        return len(problem_lines(theme, self.label, width)) * theme.type.line("small")

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        draw_problem(surface, theme, self.label, self.rect)


class Chip(Button, Live):
    """A word that is in or out; a filled dot says which, so that it is not the colour alone."""

    def __init__(self, label: str, on: bool, turn: Callable[[], None], tooltip: str, group: str = "") -> None:
        super().__init__(label, turn, current=on, tooltip=tooltip, group=group)
        self.now: Callable[[], bool] | None = None

    def refresh(self) -> None:
        if self.now:
            self.current = self.now()

    @property
    def caption(self) -> str:
        return f"{self.label}, {'in' if self.current else 'out'}"

    def width(self, theme: Theme) -> float:
        return theme.type.width(self.label, "label") + 4.0 * theme.gap

    def height(self, theme: Theme, width: float) -> float:
        return max(theme.type.line("label") + 0.5 * theme.gap, 24.0)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r = self.rect
        edge = theme.accent if self.current else theme.edge
        paint.box(surface, r, self.back(theme), edge, theme.radius, theme.line)
        x, y = r.x + 1.4 * theme.gap, r.y + r.h / 2
        fill = theme.accent if self.current else theme.palette.paper
        paint.disc(surface, x, y, 0.55 * theme.gap, fill, edge, theme.line)
        tone = "ink" if self.current else "muted"
        top = r.y + (r.h - theme.type.line("label")) / 2
        paint.text(surface, theme, self.label, "label", x + 1.2 * theme.gap, top, tone)
        self.draw_focus(surface, theme)


class Chips(Widget):
    """Words of which any number is in. `on_change` hears the names that are in, in the list's order."""

    focusable = False

    def __init__(
        self, label: str, names: Sequence[str], labels: Sequence[str], inside: Sequence[str],
        on_change: Callable[[list[str]], None], *, tooltips: Sequence[str] = (), problem: str = "",
    ) -> None:  # fmt: skip
        super().__init__(label)
        self.names, self.inside, self.on_change, self.problem = tuple(names), list(inside), on_change, problem
        tips = tooltips or [""] * len(names)
        self._chips = tuple(
            Chip(word, name in inside, lambda name=name: self.turn(name), tip, f"chips {label}")  # type: ignore[misc]
            for name, word, tip in zip(names, labels, tips, strict=True)
        )

    @property
    def parts(self) -> tuple[Widget, ...]:
        return self._chips

    def turn(self, name: str) -> None:
        """In becomes out and out in."""
        strange = [n for n in self.inside if n not in self.names]
        now = [n for n in self.names if (n in self.inside) != (n == name)]
        self.inside = now + strange
        self._chips[self.names.index(name)].current = name in now
        self.on_change(self.inside)

    def _boxes(self, theme: Theme, box: Rect) -> tuple[Rect, ...]:
        tall = self._chips[0].height(theme, 0.0)
        return layout.flow(box, [c.width(theme) for c in self._chips], tall, 0.75 * theme.gap)

    def _top(self, theme: Theme, width: float) -> float:
        rows = len(theme.type.wrap(self.label, "label", width))
        return rows * theme.type.line("label") + theme.gap / 2 if self.label else 0.0

    def height(self, theme: Theme, width: float) -> float:
        top = self._top(theme, width)
        told = (
            len(problem_lines(theme, self.problem, width)) * theme.type.line("small") if self.problem else 0
        )
        return max(b.bottom for b in self._boxes(theme, Rect(0, top, width, 0))) + told

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        top = self._top(theme, rect.w)
        for c, box in zip(
            self._chips, self._boxes(theme, Rect(rect.x, rect.y + top, rect.w, 0)), strict=True
        ):
            c.place(box, theme)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        words_ = theme.type.wrap(self.label, "label", self.rect.w)
        paint.lines(surface, theme, words_, "label", self.rect.x, self.rect.y)
        for c in self._chips:
            c.draw(surface, theme)
        if self.problem:
            low = max(c.rect.bottom for c in self._chips)
            draw_problem(surface, theme, self.problem, Rect(self.rect.x, low, self.rect.w, 0.0))


class ListLine(Button):
    """A line of a list, its words at the left, `indent` steps of the rhythm in."""

    def __init__(
        self, label: str, on_press: Callable[[], None], *, tooltip: str = "", group: str = "",
        indent: float = 0.0,
    ) -> None:  # fmt: skip
        super().__init__(label, on_press, kind="tab", tooltip=tooltip, group=group)
        self.indent = indent

    def _lines(self, theme: Theme, width: float) -> tuple[str, ...]:
        return theme.type.wrap(self.label, "label", width - (2 + self.indent) * theme.gap)

    def height(self, theme: Theme, width: float) -> float:
        return max(len(self._lines(theme, width)) * theme.type.line("label") + 0.5 * theme.gap, 24.0)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r = self.rect
        if self.hovered:
            paint.box(surface, r, theme.hover, None, theme.radius)
        lines = self._lines(theme, r.w)
        top = r.y + (r.h - len(lines) * theme.type.line("label")) / 2
        paint.lines(surface, theme, lines, "label", r.x + (1 + self.indent) * theme.gap, top)
        self.draw_focus(surface, theme)


class Shares(Row):
    """Widgets side by side in these shares of the width; under each other where that is too narrow."""

    def __init__(self, items: Sequence[Widget], shares: Sequence[float], least: float = 15.0) -> None:
        super().__init__(items)
        self.shares, self.least = tuple(shares), least

    def _boxes(self, theme: Theme, box: Rect) -> tuple[Rect, ...]:
        if box.w * min(self.shares) / sum(self.shares) < self.least * theme.gap:
            tall = [w.height(theme, box.w) for w in self.items]
            return layout.column(box, tall, theme.gap / 2)
        cells = layout.split(box, self.shares, 2 * theme.gap)
        tall = [w.height(theme, c.w) for w, c in zip(self.items, cells, strict=True)]
        return tuple(Rect(c.x, c.y, c.w, h) for c, h in zip(cells, tall, strict=True))


def quiet_line(sentence: str) -> TextBlock:
    """A quiet line between fields."""
    return TextBlock(sentence, "small", "muted")


def short_title(title: str) -> str:
    """A title of the library without the club, which every one begins with."""
    words = title.removeprefix("Harrow Fen: ")
    return f"{words[:1].upper()}{words[1:]}"
