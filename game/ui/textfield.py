"""One line of text, or a number with its unit, written in place; what is wrong with it stands under it."""

from collections.abc import Callable

import pygame

from game.draw.camera import Rect
from game.draw.palette import mix
from game.ui import paint
from game.ui.modifiers import modifiers_held
from game.ui.text_edit import Written
from game.ui.theme import Theme
from game.ui.widget import Position, Widget

__all__ = ["TextField", "draw_problem", "problem_lines"]

ENTER = (pygame.K_RETURN, pygame.K_KP_ENTER)
COMMANDS = pygame.KMOD_CTRL | pygame.KMOD_META


def problem_lines(theme: Theme, words: str, width: float) -> tuple[str, ...]:
    """The sentence under a field, beside its mark."""
    return theme.type.wrap(words, "small", width - 2 * theme.gap)


def draw_problem(surface: pygame.Surface, theme: Theme, words: str, rect: Rect) -> None:
    """What is wrong: a mark and a sentence, the same shape as on the course."""
    line = theme.type.line("small")
    x, y, r = rect.x + 0.7 * theme.gap, rect.y + line / 2, 0.6 * theme.gap
    pygame.draw.polygon(
        surface, theme.palette.landing, [(x, y - r), (x + r, y), (x, y + r), (x - r, y)]
    )  # fmt: skip
    lines = problem_lines(theme, words, rect.w)
    paint.lines(surface, theme, lines, "small", rect.x + 2 * theme.gap, rect.y)


class TextField(Widget):
    """Printed keys are written; `on_change` hears every change. `aside` puts a short field at the right.

    `on_step` hears -1 and +1 from Down and Up (numbers); `on_done` hears Enter.
    """

    role = "label"

    def __init__(
        self, label: str, text: str, on_change: Callable[[str], None], *, unit: str = "", aside: bool = False,
        most: int = 200, empty: str = "", on_step: Callable[[int, int], None] | None = None,
        on_done: Callable[[], None] | None = None, tooltip: str = "", group: str = "",
    ) -> None:  # fmt: skip
        super().__init__(label, tooltip=tooltip, group=group)
        self.written = Written(text, most)
        self.on_change, self.on_step, self.on_done = on_change, on_step, on_done
        self.unit, self.aside, self.empty, self.problem = unit, aside, empty, ""
        self._composed = ""  # what an input method has not settled yet
        self._shift = 0.0  # px the text is scrolled to keep the caret in sight
        self._held = False
        self._theme = Theme()
        self._wait()

    @property
    def text(self) -> str:
        return self.written.text

    @property
    def typing(self) -> bool:
        return self.focused

    @property
    def caption(self) -> str:
        return " ".join(filter(None, (f"{self.label}, {self.text or self.empty}", self.unit, self.problem)))

    def show(self, text: str) -> None:
        """A text from elsewhere (undo, dragging)."""
        self.written.show(text)
        if not self.focused:
            self._wait()

    def _wait(self) -> None:
        """Until the focus comes: a number is selected whole, so that typing puts another in its place."""
        if self.aside:
            self.written.select(0, len(self.text))

    # ---- places

    def _field_width(self, theme: Theme, width: float) -> float:
        if not self.aside:
            return width
        return min(13 * theme.gap, max(0.6 * width, 9 * theme.gap))

    def _label_lines(self, theme: Theme, width: float) -> tuple[str, ...]:
        room = width - self._field_width(theme, width) - theme.gap if self.aside else width
        return theme.type.wrap(self.label, "label", room)

    def _body(self, theme: Theme, width: float) -> float:
        """Height of the field alone."""
        return theme.target

    def _top(self, theme: Theme, width: float) -> float:
        """Height over the field."""
        lines = len(self._label_lines(theme, width)) * theme.type.line("label")
        return 0.0 if self.aside or not self.label else lines + theme.gap / 4

    def _whole(self, theme: Theme, width: float) -> float:
        """Height of label and field."""
        if self.aside:
            lines = len(self._label_lines(theme, width)) * theme.type.line("label")
            return max(lines, theme.target)
        return self._top(theme, width) + self._body(theme, width)

    def width(self, theme: Theme) -> float:
        return 40 * theme.gap

    def height(self, theme: Theme, width: float) -> float:
        told = len(problem_lines(theme, self.problem, width)) if self.problem else 0
        return self._whole(theme, width) + told * theme.type.line("small") + (theme.gap / 4 if told else 0)

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self._theme = theme

    @property
    def field(self) -> Rect:
        """Where the text stands."""
        theme, r = self._theme, self.rect
        wide, top = self._field_width(theme, r.w), self._top(theme, r.w)
        return Rect(r.right - wide, r.y + top, wide, self._body(theme, r.w))

    @property
    def _room(self) -> Rect:
        """The field without its unit and edges."""
        f, gap = self.field, self._theme.gap
        unit = self._theme.type.width(self.unit, "label") + gap if self.unit else 0.0
        return Rect(f.x + gap, f.y, f.w - 2 * gap - unit, f.h)

    # ---- events

    def index_at(self, at: Position) -> int:
        """The place between letters nearest to a pixel."""
        return self._nearest(self.text, at[0] - self._room.x + self._shift)

    def _nearest(self, line: str, x: float) -> int:
        wide = [self._theme.type.width(line[:i], self.role) for i in range(len(line) + 1)]
        return min(range(len(wide)), key=lambda i: abs(wide[i] - x))

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.TEXTINPUT:
            self._composed = ""
            self._edit(lambda: self.written.put(event.text))
            return True
        if event.type == pygame.TEXTEDITING:
            self._composed = event.text
            return True
        if event.type == pygame.KEYDOWN:
            return self._key(event)
        return self._mouse(event)

    def _mouse(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEBUTTONDOWN:
            self._held = True
            self.written.go(self.index_at(event.pos), modifiers_held(pygame.KMOD_SHIFT))
        elif event.type == pygame.MOUSEMOTION and self._held:
            self.written.go(self.index_at(event.pos), hold=True)
        elif event.type == pygame.MOUSEBUTTONUP:
            self._held = False
        else:
            return False
        return True

    def reset(self) -> bool:
        """A double click selects the word."""
        self.written.word_around(self.written.caret)
        return True

    def _key(self, event: pygame.event.Event) -> bool:
        if event.key in ENTER and self.on_done and not event.mod & COMMANDS:
            self.on_done()
            return True
        if event.key in (pygame.K_UP, pygame.K_DOWN) and self.on_step:
            size = 10 if event.mod & pygame.KMOD_SHIFT else 1
            self.on_step(1 if event.key == pygame.K_UP else -1, size)
            return True
        if self._edit(lambda: self.written.key(event)):
            return True
        plain = not event.mod & COMMANDS or event.mod & pygame.KMOD_ALT
        return bool(plain and event.unicode and event.unicode.isprintable())  # its letter follows

    def _edit(self, act: Callable[[], bool | None]) -> bool | None:
        before = self.text
        used = act()
        if self.text != before:
            self.on_change(self.text)
        return used

    def leave(self) -> None:
        self._composed, self._held = "", False
        self._wait()

    # ---- drawing

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, field = self.rect, self.field
        words = self._label_lines(theme, r.w)
        drop = (theme.target - len(words) * theme.type.line("label")) / 2 if self.aside else 0.0
        tone = "ink" if self.enabled else "muted"
        paint.lines(surface, theme, words, "label", r.x, r.y + max(drop, 0.0), tone)
        ground = theme.palette.paper if self.focused else self.back(theme)
        edge = theme.palette.landing if self.problem else theme.edge
        thick = 2 * theme.line if self.problem else theme.line
        paint.box(surface, field, ground, edge, theme.radius, thick)
        if self.unit:
            y = field.y + (theme.target - theme.type.line("label")) / 2
            paint.text(surface, theme, self.unit, "label", field.right - theme.gap, y, "muted", 1.0)
        with paint.clipped(surface, Rect(field.x + 2, field.y, self._room.w + 2 * theme.gap - 4, field.h)):
            self._draw_text(surface, theme)
        if self.problem:
            under = r.y + self._whole(theme, r.w) + theme.gap / 4
            draw_problem(surface, theme, self.problem, Rect(r.x, under, r.w, 0.0))
        if self.focused:
            _tell_input(field)
        self.draw_focus(surface, theme, field)

    def _draw_text(self, surface: pygame.Surface, theme: Theme) -> None:
        room, type_, w = self._room, theme.type, self.written
        caret = type_.width(w.text[: w.caret] + self._composed, self.role)
        self._shift = min(max(self._shift, caret - room.w), caret, max(caret, 0.0))
        if type_.width(w.text, self.role) <= room.w:
            self._shift = 0.0
        y = room.y + (theme.target - type_.line(self.role)) / 2
        self._draw_line(surface, theme, room.x - self._shift, y, 0, len(w.text))
        if not w.text and not self.focused and self.empty:
            paint.text(surface, theme, self.empty, self.role, room.x, y, "muted")

    def _draw_line(
        self, surface: pygame.Surface, theme: Theme, x: float, y: float, low: int, high: int
    ) -> None:  # fmt: skip
        """Letters low to high with what is selected of them, and the caret if it stands there."""
        w, type_, tall = self.written, theme.type, theme.type.line(self.role)
        a, b = (min(max(i, low), high) for i in w.span)
        if b > a and self.focused:
            left, right = (type_.width(w.text[low:i], self.role) for i in (a, b))
            paint.box(
                surface, Rect(x + left, y, right - left, tall), mix(theme.palette.paper, theme.accent, 0.28)
            )
        here = self.focused and low <= w.caret <= high
        before = w.text[low : w.caret] if here else w.text[low:high]
        after = w.text[w.caret : high] if here else ""
        tone = "ink" if self.enabled else "muted"
        line = before + (self._composed if here else "") + after
        paint.text(surface, theme, line, self.role, x, y, tone)
        if here:
            at = x + type_.width(before + self._composed, self.role)
            if self._composed:
                left = x + type_.width(before, self.role)
                paint.box(surface, Rect(left, y + tall - 2, at - left, 2 * theme.line), theme.accent)
            paint.box(surface, Rect(at - theme.line / 2, y + 1, 2 * theme.line, tall - 2), theme.accent)


def _tell_input(field: Rect) -> None:
    """Where an input method may show its choices."""
    try:
        pygame.key.set_text_input_rect(paint.pixels(field))
    except pygame.error:
        return
