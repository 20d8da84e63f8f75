"""What is pressed: a button, and a switch that says in words whether it is on."""

from collections.abc import Callable

import pygame

from game.draw.camera import Rect
from game.ui import paint
from game.ui.theme import Theme
from game.ui.widget import Widget

__all__ = ["BUTTON_AIR", "PRESS", "Button", "Toggle", "pressed"]

BUTTON_AIR = 4.0
PRESS = (pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE)


def pressed(widget: Widget, event: pygame.event.Event, act: Callable[[], None]) -> bool:
    """Do `act` when the event presses the widget: Enter, Space, or a click that does not slide off it. True
    when the event was used up."""
    if event.type == pygame.KEYDOWN and event.key in PRESS:
        act()
        return True
    if event.type == pygame.MOUSEBUTTONUP and widget.hit(event.pos):
        act()
        return True
    return event.type == pygame.MOUSEBUTTONDOWN


class Button(Widget):
    """Enter, Space or a click presses it. `kind`: plain, main (the one next step) or tab; `hint`: its key."""

    def __init__(
        self, label: str, on_press: Callable[[], None], *, kind: str = "plain", hint: str = "",
        current: bool = False, tooltip: str = "", group: str = "",
    ) -> None:  # fmt: skip
        super().__init__(label, tooltip=tooltip, group=group)
        self.on_press, self.kind, self.hint, self.current = on_press, kind, hint, current
        self.air = BUTTON_AIR  # steps of the rhythm beside the words, both sides together
        self.in_turn: tuple[Button, ...] = ()  # stand in its place at other times: as wide as the widest

    def _hint_room(self, theme: Theme) -> float:
        return theme.type.width(self.hint, "small") + theme.gap if self.hint else 0.0

    def width(self, theme: Theme) -> float:
        return max(self._own_width(theme), *(b._own_width(theme) for b in (self, *self.in_turn)))

    def _own_width(self, theme: Theme) -> float:
        return theme.type.width(self.label, "strong") + self._hint_room(theme) + self.air * theme.gap

    def _lines(self, theme: Theme, width: float) -> tuple[str, ...]:
        room = width - self._hint_room(theme) - 2 * theme.gap
        return theme.type.wrap(self.label, "strong", room)

    def height(self, theme: Theme, width: float) -> float:
        tall = len(self._lines(theme, width)) * theme.type.line("strong") + theme.gap
        return max(tall, theme.target)

    def handle(self, event: pygame.event.Event) -> bool:
        return pressed(self, event, self.on_press)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, tone = self.rect, "ink" if self.enabled else "muted"
        if self.kind == "main" and self.enabled:
            paint.box(surface, r, theme.palette.ink if self.hovered else theme.accent, None, theme.radius)
            tone = "paper"
        elif self.kind == "tab":
            if self.hovered:
                paint.box(surface, r, theme.hover, None, theme.radius)
            if self.current:
                foot = Rect(r.x + theme.gap, r.bottom - 3 * theme.line, r.w - 2 * theme.gap, 3 * theme.line)
                paint.box(surface, foot, theme.accent)
            tone = tone if self.current else "muted"
        else:
            edge = theme.edge if self.enabled else theme.palette.rule
            paint.box(surface, r, self.back(theme), edge, theme.radius, theme.line)
        self._words(surface, theme, tone)
        self.draw_focus(surface, theme)

    def _words(self, surface: pygame.Surface, theme: Theme, tone: str) -> None:
        r, words = self.rect, self._lines(theme, self.rect.w)
        line, extra = theme.type.line("strong"), self._hint_room(theme)
        y = r.y + (r.h - len(words) * line) / 2
        paint.lines(surface, theme, words, "strong", r.x + (r.w - extra) / 2, y, tone, 0.5)
        if self.hint:
            wide = max(theme.type.width(w, "strong") for w in words)
            x = r.x + (r.w - extra) / 2 + wide / 2 + theme.gap
            drop = (r.h - theme.type.line("small")) / 2
            quiet = "paper" if tone == "paper" else "muted"
            paint.text(surface, theme, self.hint, "small", x, r.y + drop, quiet)


class Toggle(Widget):
    """A switch. Enter, Space or a click turns it; Left is off, Right is on."""

    def __init__(
        self,
        label: str,
        value: bool,
        on_change: Callable[[bool], None],
        *,
        tooltip: str = "",
        group: str = "",
    ) -> None:
        super().__init__(label, tooltip=tooltip, group=group)
        self.value, self.on_change = value, on_change

    @property
    def caption(self) -> str:
        return f"{self.label}, {'on' if self.value else 'off'}"

    def _right(self, theme: Theme) -> float:
        """Room for the switch and its word."""
        words = max(theme.type.width(w, "strong") for w in ("on", "off"))
        return 5 * theme.gap + theme.gap + words

    def width(self, theme: Theme) -> float:
        return theme.type.width(self.label, "label") + 2 * theme.gap + self._right(theme)

    def _lines(self, theme: Theme, width: float) -> tuple[str, ...]:
        return theme.type.wrap(self.label, "label", width - self._right(theme) - theme.gap)

    def height(self, theme: Theme, width: float) -> float:
        return max(len(self._lines(theme, width)) * theme.type.line("label"), theme.target)

    def _set(self, value: bool) -> None:
        if value != self.value:
            self.value = value
            self.on_change(value)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.KEYDOWN:
            if event.key in (*PRESS, pygame.K_LEFT, pygame.K_RIGHT):
                self._set(event.key == pygame.K_RIGHT if event.key not in PRESS else not self.value)
                return True
            return False
        if event.type == pygame.MOUSEBUTTONUP and self.hit(event.pos):
            self._set(not self.value)
        return event.type in (pygame.MOUSEBUTTONUP, pygame.MOUSEBUTTONDOWN)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, words = self.rect, self._lines(theme, self.rect.w)
        line = theme.type.line("label")
        tone = "ink" if self.enabled else "muted"
        paint.lines(surface, theme, words, "label", r.x, r.y + (r.h - len(words) * line) / 2, tone)
        left, h = r.right - self._right(theme), 2.5 * theme.gap
        rail = Rect(left, r.y + (r.h - h) / 2, 5 * theme.gap, h)
        on, fill = self.value, theme.accent if self.value and self.enabled else self.back(theme)
        paint.box(surface, rail, fill, theme.accent if on and self.enabled else theme.edge, h / 2, theme.line)
        x = rail.right - h / 2 if on else rail.x + h / 2
        knob = theme.palette.paper if on else theme.edge
        paint.disc(surface, x, rail.y + h / 2, h / 2 - 3 * theme.line, knob)
        drop = (r.h - theme.type.line("strong")) / 2
        paint.text(surface, theme, "on" if on else "off", "strong", rail.right + theme.gap, r.y + drop, tone)
        self.draw_focus(surface, theme, theme.around(self.rect))
