"""Numbers typed by hand: with which units, the small field they are typed in, and a widget of it alone."""

from collections.abc import Callable
from math import isfinite

import pygame

from game.draw.camera import Rect
from game.text.quantity import MINUS, decimal, with_unit
from game.text.typed import UNIT_LETTERS, UnitError, as_typed, read_quantity
from game.ui import paint
from game.ui.theme import Theme
from game.ui.widget import Widget

__all__ = ["OPENS", "Bounds", "NumberEntry", "Typing"]

OPENS = f"0123456789-+.,{MINUS}"
LONGEST = 16  # letters typed, a unit among them


class Bounds:
    """Limits of one number: `low` to `high`, so many places, with a unit."""

    def __init__(self, label: str, low: float, high: float, unit: str = "", places: int = 0) -> None:
        self.label, self.low, self.high, self.unit, self.places = label, low, high, unit, places

    def held(self, value: float) -> float:
        """Rounded to its places and held within the limits."""
        return min(max(round(value, self.places), self.low), self.high)

    def words(self, value: float) -> str:
        """The value with its unit."""
        return with_unit(decimal(value, self.places), self.unit)

    def read(self, text: str) -> float | str:
        """The number in the text, or one sentence that says why it cannot be taken."""
        try:
            value = read_quantity(text, self.unit)
        except UnitError as error:
            return str(error)
        except ValueError:
            return f"“{text.strip()}” is no number; type one such as {self.words(self.low)}."
        if not isfinite(value) or not self.low <= value <= self.high:
            ends = f"{decimal(self.low, self.places)} to {self.words(self.high)}"
            return f"{self.label} goes from {ends}, so {text.strip()} was not taken."
        return round(value, self.places)


class Typing:
    """What is being typed; `text` is None when nothing is."""

    def __init__(self) -> None:
        self.text: str | None = None

    def open(self, text: str = "") -> None:
        self.text = text

    def handle(self, event: pygame.event.Event) -> str | None:
        """Take a key while open: the finished text after Enter, else None. Esc gives up."""
        if self.text is None:
            return None
        if event.key in (pygame.K_RETURN, pygame.K_KP_ENTER):
            done, self.text = self.text, None
            return done
        if event.key == pygame.K_ESCAPE:
            self.text = None
        elif event.key == pygame.K_BACKSPACE:
            self.text = self.text[:-1]
        elif event.unicode and len(self.text) < LONGEST and (
            event.unicode in OPENS or event.unicode.lower() in UNIT_LETTERS
        ):  # fmt: skip
            self.text += event.unicode
        return None

    def draw(self, surface: pygame.Surface, theme: Theme, rect: Rect, unit: str) -> None:
        """The open field: text, caret, and the unit until another is typed."""
        text = as_typed(self.text or "")
        unit = unit if all(c in OPENS for c in text) else ""
        paint.box(surface, rect, theme.palette.paper, theme.accent, theme.radius, 2 * theme.line)
        y = rect.y + (rect.h - theme.type.line("strong")) / 2
        right = rect.right - theme.gap
        paint.text(surface, theme, unit, "label", right, y, "muted", 1.0)
        right -= theme.type.width(unit, "label") + theme.gap / 2 if unit else 0.0
        with paint.clipped(surface, rect):
            paint.text(surface, theme, text, "strong", right - 2 * theme.line, y, "ink", 1.0)
        caret = Rect(right, rect.y + 0.22 * rect.h, theme.line, 0.56 * rect.h)
        paint.box(surface, caret, theme.accent)


class NumberEntry(Widget):
    """A number alone. Type it, or step it with the arrows; Enter takes it, Esc keeps the old one."""

    def __init__(
        self, label: str, value: float, low: float, high: float, on_change: Callable[[float], None], *,
        unit: str = "", places: int = 0, step: float = 1.0, default: float | None = None, tooltip: str = "",
        group: str = "",
    ) -> None:  # fmt: skip
        super().__init__(label, tooltip=tooltip, group=group)
        self.bounds = Bounds(label, low, high, unit, places)
        self.value = self.bounds.held(value)
        self.on_change, self.step = on_change, step
        self.default = None if default is None else self.bounds.held(default)
        self.entry = Typing()

    @property
    def typing(self) -> bool:
        return self.entry.text is not None

    @property
    def caption(self) -> str:
        return f"{self.label}, {self.bounds.words(self.value)}"

    def set(self, value: float) -> None:
        """Take the value, held within the limits, and tell of a change."""
        held = self.bounds.held(value)
        if held != self.value:
            self.value = held
            self.on_change(held)

    def take(self, text: str) -> None:
        """Take typed text, or keep the old value and say why."""
        if not text.strip():
            return
        value = self.bounds.read(text)
        if isinstance(value, str):
            self.told = value
        else:
            self.set(value)

    def reset(self) -> bool:
        if self.default is None:
            return False
        self.entry.text = None
        self.set(self.default)
        return True

    def leave(self) -> None:
        text, self.entry.text = self.entry.text, None
        self.take(text or "")

    def steps(self, event: pygame.event.Event) -> float | None:
        """The value a key asks for."""
        sign = {pygame.K_UP: 1, pygame.K_RIGHT: 1, pygame.K_DOWN: -1, pygame.K_LEFT: -1}.get(event.key, 0)
        return self.value + sign * self.step if sign else None

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEBUTTONDOWN:
            self.entry.open()
            return True
        if event.type != pygame.KEYDOWN or event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if self.typing:
            done = self.entry.handle(event)
            self.take(done or "")
            return True
        if event.unicode and event.unicode in OPENS:
            self.entry.open(event.unicode)
        elif event.key in (pygame.K_RETURN, pygame.K_KP_ENTER):
            self.entry.open()
        elif (asked := self.steps(event)) is not None:
            self.set(asked)
        else:
            return False
        return True

    def field_width(self, theme: Theme) -> float:
        """Room for the longest value with its unit."""
        ends = (self.bounds.low, self.bounds.high)
        return max(theme.type.width(self.bounds.words(v), "strong") for v in ends) + 3 * theme.gap

    def width(self, theme: Theme) -> float:
        return theme.type.width(self.label, "label") + 2 * theme.gap + self.field_width(theme)

    def lines(self, theme: Theme, width: float) -> tuple[str, ...]:
        """The label beside the field."""
        return theme.type.wrap(self.label, "label", width - self.field_width(theme) - theme.gap)

    def height(self, theme: Theme, width: float) -> float:
        return max(len(self.lines(theme, width)) * theme.type.line("label"), theme.target)

    def field(self, theme: Theme) -> Rect:
        """Where the number stands."""
        wide, tall = min(self.field_width(theme), self.rect.w), min(theme.target, self.rect.h)
        return Rect(self.rect.right - wide, self.rect.y, wide, tall)

    def draw_label(self, surface: pygame.Surface, theme: Theme, tall: float) -> None:
        """The label, centred on a height of `tall`, and the number."""
        words, line = self.lines(theme, self.rect.w), theme.type.line("label")
        tone = "ink" if self.enabled else "muted"
        top = self.rect.y + (tall - len(words) * line) / 2
        paint.lines(surface, theme, words, "label", self.rect.x, top, tone)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        self.draw_label(surface, theme, self.rect.h)
        field = self.field(theme)
        if self.typing:
            self.entry.draw(surface, theme, field, self.bounds.unit)
        else:
            paint.box(surface, field, self.back(theme), theme.edge, theme.radius, theme.line)
            y = field.y + (field.h - theme.type.line("strong")) / 2
            words, tone = self.bounds.words(self.value), "ink" if self.enabled else "muted"
            paint.text(surface, theme, words, "strong", field.right - theme.gap, y, tone, 1.0)
        self.draw_focus(surface, theme, theme.around(self.rect))
