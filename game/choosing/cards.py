"""One option as a card: before the pick its name, set-up and number alone, after it what it is worth."""

from collections.abc import Callable
from dataclasses import dataclass

import pygame

from game.draw.camera import Rect
from game.draw.palette import mix
from game.ui import Theme, Widget, paint
from game.ui.button import pressed

__all__ = ["CardRow", "CardWords", "OptionCard"]

PAD = 1.5  # steps of the rhythm
LEAST = 26.0  # steps a card is wide at least
BAR = 2.2  # steps of height of the range


@dataclass(frozen=True)
class CardWords:
    """What stands on a card. `range`: strokes from, middle, to, and the ends of the scale all cards share;
    None before the pick."""

    name: str
    setup: str
    strokes: str = ""
    lines: tuple[str, ...] = ()
    tags: tuple[str, ...] = ()
    range: tuple[float, float, float, float, float] | None = None


class OptionCard(Widget):
    """Space or a click presses it, Enter enters it; the focus brings its flight to the front."""

    def __init__(
        self, number: int, words: CardWords, on_press: Callable[[], None], on_enter: Callable[[], None]
    ) -> None:
        super().__init__(words.name, group="options")
        self.number, self.words, self.on_press, self.on_enter = number, words, on_press, on_enter
        self.before_others = False

    @property
    def caption(self) -> str:
        w = self.words
        said = [f"{self.number}. {w.name}. {w.setup}", w.strokes, *w.lines, ", ".join(w.tags)]
        return " ".join(said).strip()

    def _lines(self, theme: Theme, width: float) -> list[tuple[str, str, str]]:
        """Lines with role and tone; "bar" in place of a role for the range."""
        room, out, w = width - 2 * PAD * theme.gap, list[tuple[str, str, str]](), self.words
        head = room - 2.0 * theme.type.line("strong")
        out += [(line, "strong", "ink") for line in theme.type.wrap(w.name, "strong", head)]
        parts = [(w.setup, "label", "muted"), (w.strokes, "strong", "ink")]
        for text, role, tone in parts:
            if text:
                out += [(line, role, tone) for line in theme.type.wrap(text, role, room)]
            if text and text == w.strokes and w.range:
                out.append(("", "bar", ""))
        for text in w.lines:
            out += [(line, "label", "ink") for line in theme.type.wrap(text, "label", room)]
        if w.tags:
            out.append((", ".join(w.tags).capitalize(), "tags", "accent"))
        return out

    def _tall(self, theme: Theme, role: str) -> float:
        if role == "bar":
            return BAR * theme.gap
        if role == "tags":
            return theme.type.line("strong") + theme.gap / 2
        return theme.type.line(role)

    def height(self, theme: Theme, width: float) -> float:
        return sum(self._tall(theme, role) for _, role, _ in self._lines(theme, width)) + 2 * PAD * theme.gap

    def handle(self, event: pygame.event.Event) -> bool:
        entered = event.type == pygame.KEYDOWN and event.key != pygame.K_SPACE
        return pressed(self, event, self.on_enter if entered else self.on_press)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, pad = self.rect, PAD * theme.gap
        fore = self.before_others
        ground = mix(theme.palette.paper, theme.accent, 0.08) if fore else self.back(theme)
        paint.box(surface, r, ground, theme.accent if fore else theme.edge, theme.radius,
                  (2 if fore else 1) * theme.line)  # fmt: skip
        line = theme.type.line("strong")
        centre = (r.x + pad + 0.62 * line, r.y + pad + line / 2)
        paint.disc(surface, *centre, 0.62 * line, theme.accent if fore else theme.palette.paper,
                   theme.accent if fore else theme.palette.ink, theme.line)  # fmt: skip
        paint.text(surface, theme, str(self.number), "strong", centre[0], centre[1] - line / 2,
                   "paper" if fore else "ink", 0.5)  # fmt: skip
        y = r.y + pad
        names = len(theme.type.wrap(self.words.name, "strong", r.w - 2 * pad - 2 * line))
        for k, (text, role, tone) in enumerate(self._lines(theme, r.w)):
            if role == "bar":
                self._bar(surface, theme, Rect(r.x + pad, y, r.w - 2 * pad, BAR * theme.gap))
            elif role == "tags":
                paint.text(surface, theme, text, "strong", r.x + pad, y + theme.gap / 2, tone)
            else:
                x = r.x + pad + (2.0 * line if k < names else 0.0)
                paint.text(surface, theme, text, role, x, y, tone)
            y += self._tall(theme, role)
        self.draw_focus(surface, theme)

    def _bar(self, surface: pygame.Surface, theme: Theme, box: Rect) -> None:
        """From where to where the expected strokes may be, on the scale of all cards, fewest on the left."""
        assert self.words.range
        low, middle, high, first, last = self.words.range
        span = max(last - first, 1e-9)
        at = [box.x + (v - first) / span * box.w for v in (low, middle, high)]
        y = box.y + box.h / 2
        paint.box(surface, Rect(box.x, y - theme.line / 2, box.w, theme.line), theme.palette.rule)
        thick = 0.8 * theme.gap
        wide = max(at[2] - at[0], 2 * theme.line)
        likely = mix(theme.palette.paper, theme.accent, 0.55)
        paint.box(surface, Rect(at[0], y - thick / 2, wide, thick), likely, None, thick / 2)
        mark = Rect(at[1] - 1.5 * theme.line, y - thick, 3 * theme.line, 2 * thick)
        paint.box(surface, mark, theme.palette.ink)


class CardRow(Widget):
    """Cards of one height beside each other, in as many rows as they need."""

    focusable = False

    def __init__(self, cards: tuple[OptionCard, ...]) -> None:
        super().__init__()
        self.cards = cards

    @property
    def parts(self) -> tuple[Widget, ...]:
        return self.cards

    def _columns(self, theme: Theme, width: float) -> int:
        n = len(self.cards)
        most = max(int((width + theme.gap) / ((LEAST + 1) * theme.gap)), 1)
        return next(c for c in (n, 2, 1) if c <= most or c == 1)

    def _grid(self, theme: Theme, width: float) -> tuple[int, float, float]:
        """Columns, width of a card, and height of the tallest."""
        columns = self._columns(theme, width)
        wide = (width - (columns - 1) * theme.gap) / columns
        return columns, wide, max(c.height(theme, wide) for c in self.cards)

    def height(self, theme: Theme, width: float) -> float:
        columns, _, tall = self._grid(theme, width)
        rows = -(-len(self.cards) // columns)
        return rows * tall + (rows - 1) * theme.gap

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        columns, wide, tall = self._grid(theme, rect.w)
        for i, card in enumerate(self.cards):
            x, y = rect.x + (i % columns) * (wide + theme.gap), rect.y + (i // columns) * (tall + theme.gap)
            card.place(Rect(x, y, wide, tall), theme)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        for card in self.cards:
            card.draw(surface, theme)
