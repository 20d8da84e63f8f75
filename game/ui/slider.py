"""A number on a track: dragged, stepped or typed, with a tick where it stood before."""

from collections.abc import Callable

import pygame

from game.draw.camera import Rect
from game.text.quantity import DEGREE, decimal
from game.ui import paint
from game.ui.number import OPENS, Bounds, NumberEntry
from game.ui.theme import Theme
from physics.address import Control

__all__ = ["Slider", "for_control"]

# unit: (fine, finer, coarse step in the shown unit, places)
STEPS: dict[str, tuple[float, float, float, int]] = {
    "deg": (1.0, 0.1, 5.0, 1), "cm": (0.5, 0.1, 2.0, 1), "mm": (1.0, 0.1, 5.0, 1), "%": (2.0, 1.0, 10.0, 0),
    "": (0.05, 0.01, 0.25, 2),
}  # fmt: skip


class Slider(NumberEntry):
    """Arrows step, Shift makes them finer, PageUp and PageDown coarser; Home and End go to the limits.

    `ghost` is where it last settled: `settle()` moves it to the value now. With `numbers` False it says
    where it stands in words, if it was given any, and takes no typed number.
    """

    numbers = True

    def __init__(
        self, label: str, value: float, low: float, high: float, on_change: Callable[[float], None], *,
        unit: str = "", places: int = 0, step: float = 1.0, finer: float | None = None,
        coarse: float | None = None, default: float | None = None, tooltip: str = "", group: str = "",
        said: Callable[[float], str] | None = None,
    ) -> None:  # fmt: skip
        super().__init__(
            label, value, low, high, on_change, unit=unit, places=places, step=step, default=default,
            tooltip=tooltip, group=group,
        )  # fmt: skip
        self.finer = step / 10 if finer is None else finer
        self.coarse = step * 5 if coarse is None else coarse
        self.said = said  # words for a value
        self.ghost: float | None = self.value
        self._track = self._field = self.rect

    @property
    def shown(self) -> str:
        """The value as a number with its unit, or in words."""
        if self.numbers:
            return self.bounds.words(self.value)
        return self.said(self.value) if self.said else ""

    @property
    def caption(self) -> str:
        return ", ".join(words for words in (self.label, self.shown) if words)

    def field_width(self, theme: Theme) -> float:
        if self.numbers:
            return super().field_width(theme)
        ends = self.bounds.low, self.bounds.high
        tried = {self.said(ends[0] + k / 24 * (ends[1] - ends[0])) for k in range(25)} if self.said else {""}
        return max(theme.type.width(words, "strong") for words in tried) + theme.gap

    def settle(self) -> None:
        """The value now becomes the one before."""
        self.ghost = self.value

    def steps(self, event: pygame.event.Event) -> float | None:
        step = self.finer if event.mod & pygame.KMOD_SHIFT else self.step
        by = {
            pygame.K_UP: step, pygame.K_RIGHT: step, pygame.K_DOWN: -step, pygame.K_LEFT: -step,
            pygame.K_PAGEUP: self.coarse, pygame.K_PAGEDOWN: -self.coarse,
        }.get(event.key)  # fmt: skip
        ends = {pygame.K_HOME: self.bounds.low, pygame.K_END: self.bounds.high}
        return ends.get(event.key) if by is None else self.value + by

    def handle(self, event: pygame.event.Event) -> bool:
        if not self.numbers and event.type == pygame.KEYDOWN and self._types(event):
            return False
        if event.type == pygame.MOUSEBUTTONDOWN and self._field.y <= event.pos[1] < self._field.bottom:
            if event.pos[0] >= self._field.x and self.numbers:
                return super().handle(event)
            return True
        if event.type == pygame.MOUSEBUTTONDOWN or (event.type == pygame.MOUSEMOTION and not self.typing):
            if event.type == pygame.MOUSEBUTTONDOWN or event.buttons[0]:
                self.entry.text = None
                self.set(self.value_at(event.pos[0]))
            return True
        return super().handle(event)

    def value_at(self, x: float) -> float:
        """Value under that pixel column."""
        share = (x - self._track.x) / max(self._track.w, 1.0)
        return self.bounds.low + min(max(share, 0.0), 1.0) * (self.bounds.high - self.bounds.low)

    @staticmethod
    def _types(event: pygame.event.Event) -> bool:
        """Whether the key opens the field."""
        opens = (pygame.K_RETURN, pygame.K_KP_ENTER)
        return event.key in opens or bool(event.unicode and event.unicode in OPENS)

    def x_of(self, value: float) -> float:
        """Pixel column of that value."""
        share = (value - self.bounds.low) / (self.bounds.high - self.bounds.low)
        return self._track.x + share * self._track.w

    def _top(self, theme: Theme, width: float) -> float:
        words = len(self.lines(theme, width)) * theme.type.line("label")
        return max(words, theme.type.line("strong") + theme.gap / 2)

    def height(self, theme: Theme, width: float) -> float:
        return self._top(theme, width) + max(3 * theme.gap, 24.0)

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        top, knob = self._top(theme, rect.w), 1.1 * theme.gap
        self._track = Rect(rect.x + knob, rect.y + top, rect.w - 2 * knob, rect.h - top)
        wide = min(self.field_width(theme), rect.w)
        self._field = Rect(rect.right - wide, rect.y, wide, top)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        self.draw_label(surface, theme, self._field.h)
        field, tone = self._field, "ink" if self.enabled else "muted"
        if self.typing:
            self.entry.draw(surface, theme, field, self.bounds.unit)
        else:
            y = field.y + (field.h - theme.type.line("strong")) / 2
            paint.text(surface, theme, self.shown, "strong", field.right, y, tone, 1.0)
        self._draw_track(surface, theme)
        self.draw_focus(surface, theme, theme.around(self.rect))

    def _draw_track(self, surface: pygame.Surface, theme: Theme) -> None:
        t, thick = self._track, 0.5 * theme.gap
        mid, live = t.y + t.h / 2, theme.accent if self.enabled else theme.edge
        paint.box(surface, Rect(t.x, mid - thick / 2, t.w, thick), theme.hover, theme.edge, thick / 2)
        start = self.x_of(min(max(0.0, self.bounds.low), self.bounds.high))
        x = self.x_of(self.value)
        paint.box(surface, Rect(min(start, x), mid - thick / 2, abs(x - start), thick), live)
        if self.bounds.low < 0.0 < self.bounds.high:
            paint.box(surface, Rect(start - theme.line / 2, mid - thick, theme.line, 2 * thick), theme.edge)
        if self.ghost is not None and self.ghost != self.value:
            tall, wide = 1.1 * theme.gap, 2 * theme.line
            ghost = Rect(self.x_of(self.ghost) - wide / 2, mid - tall, wide, 2 * tall)
            paint.box(surface, ghost, theme.palette.ghost)
        edge = theme.palette.ink if self.hovered and self.enabled else live
        paint.disc(surface, x, mid, theme.gap, theme.palette.paper, edge, 2.5 * theme.line)


def for_control(
    control: Control, value: float, on_change: Callable[[float], None], *, default: float | None = None,
    plain: bool = True, group: str = "", said: Callable[[float], str] | None = None,
) -> Slider:  # fmt: skip
    """Slider over one control: value, default and what `on_change` and `said` hear are SI (rad), the face
    not."""
    step, finer, coarse, places = STEPS[control.unit]
    k = control.scale
    label = control.label[:1].upper() + control.label[1:]
    unit = DEGREE if control.unit == "deg" else control.unit
    bounds = Bounds(label, round(control.low * k, places), round(control.high * k, places), unit, places)
    ends = f"{control.label}: {decimal(bounds.low, places)} to {bounds.words(bounds.high)}"
    return Slider(
        label, value * k, bounds.low, bounds.high,
        lambda v: on_change(min(max(v / k, control.low), control.high)),
        unit=unit, places=places, step=step, finer=finer, coarse=coarse,
        default=None if default is None else default * k, tooltip=control.plain if plain else ends,
        group=group, said=(lambda v: said(v / k)) if said else None,
    )  # fmt: skip
