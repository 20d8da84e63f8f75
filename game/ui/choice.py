"""One of a few: side by side where there is room, else one at a time between two arrows."""

from collections.abc import Callable, Sequence

import pygame

from game.ui import layout, paint
from game.ui.theme import Theme
from game.ui.widget import Widget
from game.view.camera import Rect

__all__ = ["Choice"]

BACK, ON = (pygame.K_LEFT, pygame.K_UP), (pygame.K_RIGHT, pygame.K_DOWN)


class Choice(Widget):
    """Arrows choose, Home and End go to the ends. `on_change` hears the index."""

    def __init__(
        self, label: str, options: Sequence[str], index: int, on_change: Callable[[int], None], *,
        default: int | None = None, tooltip: str = "", group: str = "",
    ) -> None:  # fmt: skip
        super().__init__(label, tooltip=tooltip, group=group)
        self.options, self.index, self.on_change, self.default = tuple(options), index, on_change, default
        self._cells: tuple[Rect, ...] = ()  # one for each option, or the two arrows
        self._pointer = (-1.0, -1.0)

    @property
    def value(self) -> str:
        return self.options[self.index]

    @property
    def caption(self) -> str:
        return f"{self.label}, {self.value}"

    def set(self, index: int) -> None:
        """Choose, held to the ends, and tell of a change."""
        held = min(max(index, 0), len(self.options) - 1)
        if held != self.index:
            self.index = held
            self.on_change(held)

    def reset(self) -> bool:
        return False  # a double click is two choices

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.KEYDOWN:
            return self._key(event)
        if event.type == pygame.MOUSEMOTION:
            self._pointer = event.pos
            return False
        if event.type == pygame.MOUSEBUTTONDOWN:
            for i, cell in enumerate(self._cells):
                if cell.x <= event.pos[0] < cell.right and event.pos[1] >= cell.y:
                    self.set(i if self._aside else self.index + (1 if i else -1))
            return True
        return False

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

    @property
    def _aside(self) -> bool:
        return len(self._cells) == len(self.options) and len(self.options) != 2 or self._two_aside

    _two_aside = False

    def _widths(self, theme: Theme) -> list[float]:
        return [theme.type.width(o, "strong") + 3 * theme.gap for o in self.options]

    def _fits(self, theme: Theme, width: float) -> bool:
        return max(self._widths(theme)) * len(self.options) <= width

    def width(self, theme: Theme) -> float:
        return max(max(self._widths(theme)) * len(self.options), theme.type.width(self.label, "label"))

    def _label(self, theme: Theme, width: float) -> tuple[str, ...]:
        return theme.type.wrap(self.label, "label", width) if self.label else ()

    def _lines(self, theme: Theme, width: float) -> int:
        """Lines of the longest option between the arrows."""
        room = width - 2 * theme.target
        return max(len(theme.type.wrap(o, "strong", room)) for o in self.options)

    def height(self, theme: Theme, width: float) -> float:
        top = len(self._label(theme, width)) * theme.type.line("label")
        rows = 1 if self._fits(theme, width) else self._lines(theme, width)
        return top + (theme.gap / 2 if top else 0) + max(theme.target, rows * theme.type.line("strong") + theme.gap)

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        top = len(self._label(theme, rect.w)) * theme.type.line("label")
        top += theme.gap / 2 if top else 0
        self._field = field = Rect(rect.x, rect.y + top, rect.w, rect.h - top)
        self._two_aside = self._fits(theme, rect.w)
        if self._two_aside:
            wide = min(max(self._widths(theme)), rect.w / len(self.options))
            cells = layout.row(field, [wide] * len(self.options))
            self._field = Rect(field.x, field.y, wide * len(self.options), field.h)
            self._cells = cells
        else:
            arrow = theme.target
            self._cells = (
                Rect(field.x, field.y, arrow, field.h), Rect(field.right - arrow, field.y, arrow, field.h)
            )  # fmt: skip

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        tone = "ink" if self.enabled else "muted"
        paint.lines(surface, theme, self._label(theme, self.rect.w), "label", self.rect.x, self.rect.y, tone)
        paint.box(surface, self._field, self.back(theme), theme.edge, theme.radius, theme.line)
        (self._draw_aside if self._two_aside else self._draw_one)(surface, theme, tone)
        self.draw_focus(surface, theme, self._field)
