"""The keys that work here and the words of the trade."""

import pygame

from game.draw.camera import Rect
from game.text.glossary import GLOSSARY, terms_in
from game.ui import Button, Column, Heading, Pair, Theme, Widget, layout
from game.ui.screen import Host, Keys, Screen

__all__ = ["WIDGET_KEYS", "Help"]

WIDGET_KEYS: Keys = (
    ("Tab, Shift+Tab", "go to the next or the previous control"),
    ("Enter, Space", "press a button, turn a switch"),
    ("Arrows", "move a slider, choose, go along the bar"),
    ("Shift+arrows", "move a slider finely"),
    ("Page keys", "move a slider coarsely, or turn the page"),
    ("Home, End", "go to the least or the most"),
    ("0 to 9", "type a number into a slider; Enter takes it, Esc keeps the old one"),
    ("Delete", "back to the standard value; a double click does the same"),
)
NARROW = 110.0  # steps of the rhythm below which the two columns become one


class Help(Screen):
    """Over another screen; Esc goes back to it."""

    title = "Help"

    def __init__(self, app: Host, keys: Keys, bar: bool = True, about: str = "") -> None:
        """`about` are the words of the control it was opened from: their terms stand first."""
        super().__init__(app)
        self.bar = bar
        first = terms_in(about)
        order = (*first, *(term for term in GLOSSARY if term not in first))
        words = [(term[:1].upper() + term[1:], GLOSSARY[term]) for term in order]
        self._keys: list[Widget] = [Heading("Keys"), *(Pair(*pair) for pair in (*keys, *WIDGET_KEYS))]
        self._words: list[Widget] = [Heading("Glossary"), *(Pair(*pair) for pair in words)]
        self._about = bool(first)
        self._back = Button("Back", lambda: self.app.pop(), hint="Esc", kind="main")
        self._columns: tuple[Column, ...] = ()

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._back, *self._columns)

    def layout(self, box: Rect, theme: Theme) -> None:
        inner = box.inset(2 * theme.gap)
        wide = self._back.width(theme)
        head, body, _ = layout.take(inner, top=theme.target, gap=2 * theme.gap)
        self._back.place(Rect(head.x, head.y, wide, head.h), theme)
        if box.w < NARROW * theme.gap:
            parts = (self._words, self._keys) if self._about else (self._keys, self._words)
            self._columns = (Column([*parts[0], *parts[1]], 1.0),)
        else:
            self._columns = (Column(self._keys, 1.0), Column(self._words, 1.0))
        shares = [1.0] * len(self._columns)
        for column, room in zip(self._columns, layout.split(body, shares, 4 * theme.gap), strict=True):
            column.place(room, theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_F1 or event.unicode == "?":
            self.app.pop()
            return True
        return self._columns[0].handle(event)
