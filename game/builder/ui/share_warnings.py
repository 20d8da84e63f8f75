"""What to look at before scenarios are shared, one after the other; nothing is forbidden."""

from collections.abc import Callable, Sequence

import pygame

from game.builder.ui.boxes import ProblemNote
from game.draw.camera import Rect
from game.ui import Button, Column, Heading, Row, TextBlock, Theme, Widget, layout
from game.ui.screen import Host, Keys, Screen

__all__ = ["ShareWarnings"]

LEAD = "Players would be given these as they are. The Builder proves a scenario on its tab Prove."


class ShareWarnings(Screen):
    """`cautions`: titles, each with its sentences. The safe answer has the focus; the list scrolls."""

    title = "Look at this first"
    keys: Keys = (("Enter", "press the button in focus"), ("Esc", "back to the scenarios"))

    def __init__(
        self, app: Host, cautions: Sequence[tuple[str, tuple[str, ...]]], on_write: Callable[[], None]
    ) -> None:
        super().__init__(app)
        self.on_write = on_write
        rows: list[Widget] = [TextBlock(LEAD)]
        for title, sentences in cautions:
            rows += [TextBlock(title, "strong"), *(ProblemNote(s) for s in sentences)]
        self._head, self._list = Heading(self.title), Column(rows, 1.0)
        self._acts = Row([
            Button("Go back", app.pop, kind="main", hint="Esc", group="answers"),
            Button("Write it all the same", self._go, group="answers"),
        ])  # fmt: skip

    @property
    def widgets(self) -> Sequence[Widget]:
        return (self._acts, self._list)

    def _go(self) -> None:
        self.app.pop()
        self.on_write()

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        inner = Rect(box.x + 2 * gap, box.y + gap, box.w - 4 * gap, box.h - 2 * gap)
        tall, foot = self._head.height(theme, inner.w), self._acts.height(theme, inner.w)
        head, body, low = layout.take(inner, top=tall, bottom=foot, gap=gap)
        self._head.place(head, theme)
        self._list.place(body, theme)
        self._acts.place(low, theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_ESCAPE:
            self.app.pop()
            return True
        return self._list.handle(event)

    def draw(self, surface: pygame.Surface) -> None:
        self._head.draw(surface, self.app.theme)
        super().draw(surface)
