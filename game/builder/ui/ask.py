"""A question over the screen below: one sentence, two or three answers, nothing lost by Esc."""

from collections.abc import Callable, Sequence

import pygame

from game.draw.camera import Rect
from game.ui import Button, Heading, Row, TextBlock, Theme, Widget, paint
from game.ui.screen import Host, Screen

__all__ = ["Ask", "Option"]

Option = tuple[str, Callable[[], None]]  # words of the button, what it does after the question is gone
WIDE = 70.0  # steps of the rhythm
VEIL = 165  # of 255, of paper over the screen below


class Ask(Screen):
    """The first answer is the safe one and has the focus. Esc takes none."""

    bar = False

    def __init__(
        self, app: Host, head: str, words: str, answers: Sequence[Option], stay: str = "Go back"
    ) -> None:
        super().__init__(app)
        self.title = head
        self._head, self._words = Heading(head), TextBlock(words, "label")
        buttons = [
            Button(label, self._then(act), kind="main" if i == 0 else "plain", group="answers")
            for i, (label, act) in enumerate(answers)
        ]
        if stay:
            buttons.append(Button(stay, self.app.pop, hint="Esc", group="answers"))
        self._answers = Row(buttons)
        self._card = Rect(0, 0, 1, 1)
        self._shade: pygame.Surface | None = None

    @property
    def widgets(self) -> Sequence[Widget]:
        return (self._answers,)

    def _then(self, act: Callable[[], None]) -> Callable[[], None]:
        def go() -> None:
            self.app.pop()
            act()

        return go

    def enter(self) -> None:
        self._shade = self.app.surface.copy()

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        wide = min(WIDE * gap, box.w - 4 * gap)
        inner = wide - 5 * gap
        tall = [w.height(theme, inner) for w in (self._head, self._words, self._answers)]
        whole = sum(tall) + 8 * gap
        x, y = box.x + (box.w - wide) / 2, box.y + max((box.h - whole) / 2, gap)
        self._card = Rect(x, y, wide, whole)
        y += 2.5 * gap
        for widget, h in zip((self._head, self._words, self._answers), tall, strict=True):
            widget.place(Rect(x + 2.5 * gap, y, inner, h), theme)
            y += h + 1.5 * gap

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.KEYDOWN and event.key == pygame.K_ESCAPE:
            self.app.pop()
            return True
        return False

    def draw(self, surface: pygame.Surface) -> None:
        theme = self.app.theme
        if self._shade and self._shade.get_size() == surface.get_size():
            surface.blit(self._shade, (0, 0))
        veil = pygame.Surface(surface.get_size(), 0, 32)
        veil.fill(theme.palette.paper)
        veil.set_alpha(VEIL)
        surface.blit(veil, (0, 0))
        paint.box(surface, self._card, theme.palette.paper, theme.edge, 2 * theme.radius, theme.line)
        for widget in (self._head, self._words, self._answers):
            widget.draw(surface, theme)
