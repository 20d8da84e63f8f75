"""A task of the review as a row: words at the left, its tries and prediction gap drawn at the right."""

from collections.abc import Callable

import pygame

from game.draw.camera import Rect
from game.reviewing.reading import TaskTries
from game.reviewing.try_marks import draw_gap, draw_tries
from game.text.answered import error_words, task_words
from game.text.notebook import task_title
from game.text.units import UnitSystem
from game.ui import Theme, Widget, paint
from game.ui.button import PRESS
from levels.review import TaskReview

__all__ = ["TaskRow"]

NARROW = 76.0  # steps of the rhythm below which the picture stands under the words
SHARE = 0.42  # of the width, for the picture
MARKS = 5.0  # steps of the rhythm for the marks


class TaskRow(Widget):
    """Enter or a click shows the shot of the most frequent set-up error, where there is one."""

    def __init__(
        self, task: TaskReview, tries: TaskTries, widest: float, units: UnitSystem,
        on_show: Callable[[TaskReview], None],
    ) -> None:  # fmt: skip
        tip = "Enter or a click shows that shot again on the Bench." if task.error else ""
        super().__init__(task_title(task.title), tooltip=tip, group="reviewed tasks")
        self.task, self.tries, self.widest, self.units, self.on_show = task, tries, widest, units, on_show
        self.words, self.error = task_words(task, units), error_words(task)

    @property
    def caption(self) -> str:
        return " ".join(filter(None, (f"{self.label}.", *self.words, self.error)))

    @property
    def gaps(self) -> tuple[float, float] | None:
        """Mean prediction gap (m) of the first and the last calls."""
        first, last = self.task.first_gap, self.task.last_gap
        return None if first is None or last is None else (first, last)

    # ---- places

    def _picture_height(self, theme: Theme) -> float:
        small = theme.type.line("small")
        marks = MARKS * theme.gap + small if self.task.tries else 0.0
        return marks + (2 * small + 0.5 * theme.gap if self.gaps else 0.0)

    def _beside(self, theme: Theme, width: float) -> bool:
        return width >= NARROW * theme.gap

    def _room(self, theme: Theme, width: float) -> float:
        inner = width - 2 * theme.gap
        return (1.0 - SHARE) * inner - 2 * theme.gap if self._beside(theme, width) else inner

    def _lines(self, theme: Theme, width: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Plain lines, and those of the set-up error."""
        room = self._room(theme, width)
        plain = tuple(part for words in self.words for part in theme.type.wrap(words, "label", room))
        return plain, theme.type.wrap(self.error, "label", room) if self.error else ()

    def _words_height(self, theme: Theme, width: float) -> float:
        title = len(theme.type.wrap(self.label, "strong", self._room(theme, width)))
        return title * theme.type.line("strong") + sum(map(len, self._lines(theme, width))) * theme.type.line(
            "label"
        )

    def height(self, theme: Theme, width: float) -> float:
        words, picture = self._words_height(theme, width), self._picture_height(theme)
        both = max(words, picture) if self._beside(theme, width) else words + picture + theme.gap
        return both + 1.5 * theme.gap

    # ---- events and drawing

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.KEYDOWN and event.key in PRESS and self.task.error:
            self.on_show(self.task)
            return True
        if event.type == pygame.MOUSEBUTTONUP and self.hit(event.pos) and self.task.error:
            self.on_show(self.task)
            return True
        return event.type == pygame.MOUSEBUTTONDOWN

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, gap = self.rect, theme.gap
        if self.hovered and self.task.error:
            paint.box(surface, r, theme.hover, None, theme.radius)
        x, y = r.x + gap, r.y + 0.75 * gap
        title = theme.type.wrap(self.label, "strong", self._room(theme, r.w))
        paint.lines(surface, theme, title, "strong", x, y)
        y += len(title) * theme.type.line("strong")
        plain, error = self._lines(theme, r.w)
        paint.lines(surface, theme, plain, "label", x, y, "muted")
        y += len(plain) * theme.type.line("label")
        paint.lines(surface, theme, error, "label", x, y, "accent")
        self._draw_picture(surface, theme)
        paint.box(surface, Rect(r.x, r.bottom - theme.line, r.w, theme.line), theme.palette.rule)
        self.draw_focus(surface, theme)

    def _draw_picture(self, surface: pygame.Surface, theme: Theme) -> None:
        r, gap = self.rect, theme.gap
        if not self.task.tries:
            return
        if self._beside(theme, r.w):
            wide = SHARE * (r.w - 2 * gap)
            box = Rect(r.right - gap - wide, r.y + 0.75 * gap, wide, self._picture_height(theme))
        else:
            top = r.y + 0.75 * gap + self._words_height(theme, r.w) + gap
            box = Rect(r.x + gap, top, r.w - 2 * gap, self._picture_height(theme))
        small = theme.type.line("small")
        marks = MARKS * gap + small
        draw_tries(surface, theme, Rect(box.x, box.y, box.w, marks), self.tries)
        if self.gaps:
            brackets = Rect(box.x, box.y + marks + 0.5 * gap, box.w, 2 * small)
            draw_gap(surface, theme, brackets, self.gaps, self.widest, self.units)
