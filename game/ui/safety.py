"""The page of cautions: shown once, before the first drill with real swings, and whenever it is asked for."""

from collections.abc import Callable, Sequence

import pygame

from game.draw.camera import Rect
from game.text.cautions import CAUTIONS
from game.ui.boxes import Column, Row
from game.ui.button import Button
from game.ui.screen import Host, Screen
from game.ui.text import TextBlock
from game.ui.theme import Theme
from game.ui.widget import Widget

__all__ = ["SafetyPage", "before_real_swings"]

WIDE = 80.0  # steps of the rhythm


def before_real_swings(app: Host, then: Callable[[], None]) -> None:
    """Do `then` once the cautions have been read: at once where they were, else after their page."""
    if app.settings.safety_read:
        then()
    else:
        app.push(SafetyPage(app, then))


class SafetyPage(Screen):
    """Each caution in a line of its own. Enter takes note and goes on; Esc goes back."""

    title = "Before real swings"
    bar = False

    def __init__(self, app: Host, then: Callable[[], None] = lambda: None) -> None:
        super().__init__(app)
        self._then = then
        self._column = Column([TextBlock(self.title, "title"), *(TextBlock(line) for line in CAUTIONS)], 1.5)
        self._read = Button("I have read this", self._take_note, kind="main", group="answers")
        self._back = Button("Go back", app.pop, hint="Esc", group="answers")
        self._answers = Row([self._read, self._back])

    @property
    def widgets(self) -> Sequence[Widget]:
        return (self._answers, self._column)

    def _take_note(self) -> None:
        self.app.change(safety_read=True)
        self.app.keep()
        self.app.pop()
        self._then()

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        wide = min(box.w - 4 * gap, WIDE * gap)
        x = box.x + (box.w - wide) / 2
        answers = self._answers.height(theme, wide - 2 * gap)
        room = box.h - 4 * gap - answers
        tall = min(self._column.height(theme, wide), room)
        top = box.y + gap + max(0.4 * (room - tall), 0.0)
        self._column.place(Rect(x, top, wide, tall), theme)
        self._answers.place(Rect(x + gap, top + tall + gap, wide - 2 * gap, answers), theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.KEYDOWN and event.key == pygame.K_ESCAPE:
            self.app.pop()
            return True
        return event.type == pygame.KEYDOWN and self._column.handle(event)
