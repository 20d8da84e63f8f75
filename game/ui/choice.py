"""One of a few: side by side where there is room, else one at a time between two arrows."""

from collections.abc import Callable, Sequence

import pygame

from game.draw.camera import Rect
from game.ui import layout, paint
from game.ui.theme import Theme
from game.ui.widget import Widget

__all__ = ["NOT_CHOSEN", "Choice"]

NOT_CHOSEN = -1  # index while nothing is chosen yet
BACK, ON = (pygame.K_LEFT, pygame.K_UP), (pygame.K_RIGHT, pygame.K_DOWN)


class Choice(Widget):
    """Arrows choose, Home and End go to the ends. `on_change` hears the index; it may begin NOT_CHOSEN."""

    def __init__(
        self, label: str, options: Sequence[str], index: int, on_change: Callable[[int], None], *,
        default: int | None = None, tooltip: str = "", group: str = "",
    ) -> None:  # fmt: skip
        super().__init__(label, tooltip=tooltip, group=group)
        self.options, self.index, self.on_change, self.default = tuple(options), index, on_change, default
        self._aside = True  # all options side by side
        self._field = self.rect
        self._cells: tuple[Rect, ...] = ()  # one for each option, or the two arrows

    @property
    def value(self) -> str:
        return "not chosen" if self.index == NOT_CHOSEN else self.options[self.index]

    @property
    def caption(self) -> str:
        return f"{self.label}, {self.value}"

    def set(self, index: int) -> None:
        """Choose, held to the ends, and tell of a change."""
        held = min(max(index, 0), len(self.options) - 1)
        if held != self.index:
            self.index = held
            self.on_change(held)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.KEYDOWN:
            return self._key(event)
        if event.type != pygame.MOUSEBUTTONDOWN:
            return False
        for i, cell in enumerate(self._cells):
            if cell.x <= event.pos[0] < cell.right and event.pos[1] >= cell.y:
                self.set(i if self._aside else self.index + (1 if i else -1))
        return True

    def _key(self, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if event.key in BACK or event.key in ON:
            self.set(self.index + (1 if event.key in ON else -1))
        elif event.key in (pygame.K_HOME, pygame.K_END):
            self.set(0 if event.key == pygame.K_HOME else len(self.options) - 1)
        elif event.key == pygame.K_DELETE and self.default is not None:
            self.set(self.default)
        else:
            return False
        return True

    def _widths(self, theme: Theme) -> list[float]:
        return [theme.type.width(o, "strong") + 3 * theme.gap for o in self.options]

    def _fits(self, theme: Theme, width: float) -> bool:
        return max(self._widths(theme)) * len(self.options) <= width

    def width(self, theme: Theme) -> float:
        return max(max(self._widths(theme)) * len(self.options), theme.type.width(self.label, "label"))

    def _label(self, theme: Theme, width: float) -> tuple[str, ...]:
        return theme.type.wrap(self.label, "label", width)

    def _top(self, theme: Theme, width: float) -> float:
        words = len(self._label(theme, width)) * theme.type.line("label")
        return words + theme.gap / 2 if words else 0.0

    def _one(self, theme: Theme, width: float, option: str) -> tuple[str, ...]:
        """Lines of an option between the arrows."""
        return theme.type.wrap(option, "strong", width - 2 * theme.target)

    def height(self, theme: Theme, width: float) -> float:
        rows = 1 if self._fits(theme, width) else max(len(self._one(theme, width, o)) for o in self.options)
        return self._top(theme, width) + max(theme.target, rows * theme.type.line("strong") + theme.gap)

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self._aside = self._fits(theme, rect.w)
        top, arrow = self._top(theme, rect.w), theme.target
        wide = max(self._widths(theme)) * len(self.options) if self._aside else rect.w
        self._field = field = Rect(rect.x, rect.y + top, wide, rect.h - top)
        if self._aside:
            self._cells = layout.split(field, [1.0] * len(self.options))
        else:
            self._cells = layout.in_row(field, (arrow, arrow), field.w - 2 * arrow)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        tone = "ink" if self.enabled else "muted"
        paint.lines(surface, theme, self._label(theme, self.rect.w), "label", self.rect.x, self.rect.y, tone)
        paint.box(surface, self._field, self.back(theme), theme.edge, theme.radius, theme.line)
        (self._draw_aside if self._aside else self._draw_one)(surface, theme)
        self.draw_focus(surface, theme, self._field)

    def _draw_aside(self, surface: pygame.Surface, theme: Theme) -> None:
        for i, (option, cell) in enumerate(zip(self.options, self._cells, strict=True)):
            tone = "ink" if self.enabled else "muted"
            if i == self.index:
                paint.box(surface, cell, theme.accent if self.enabled else theme.edge, None, theme.radius)
                tone = "paper"
            y = cell.y + (cell.h - theme.type.line("strong")) / 2
            paint.text(surface, theme, option, "strong", cell.x + cell.w / 2, y, tone, 0.5)

    def _draw_one(self, surface: pygame.Surface, theme: Theme) -> None:
        field, tone = self._field, "ink" if self.enabled else "muted"
        words = self._one(theme, field.w, self.value)
        y = field.y + (field.h - len(words) * theme.type.line("strong")) / 2
        paint.lines(surface, theme, words, "strong", field.x + field.w / 2, y, tone, 0.5)
        for cell, to, last in zip(self._cells, (-1, 1), (0, len(self.options) - 1), strict=True):
            colour = theme.palette.rule if self.index == last or not self.enabled else theme.palette.ink
            at = cell.x + cell.w / 2, cell.y + cell.h / 2
            paint.chevron(surface, *at, 0.6 * theme.gap, to, colour, 2 * theme.line)
