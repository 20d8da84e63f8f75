"""The bars over the ground: a tab for each chapter or group of them, and below it what the group holds."""

from collections.abc import Callable, Sequence
from functools import partial

from game.chapters.contents import ShelfChapter
from game.draw.camera import Rect
from game.ui import Button, Choice, Row, Theme, Widget, layout

__all__ = ["ChapterBars"]

ROWS = 2.5  # heights of a button that tabs may take; with more the ground would have no room


class ChapterBars:
    """`widgets` are those there is room for, in Tab order, once placed. `turn` hears a chapter's number."""

    def __init__(self, chapters: Sequence[ShelfChapter], at: int, turn: Callable[[int], None]) -> None:
        self.widgets: tuple[Widget, ...] = ()
        groups: dict[str, list[int]] = {}
        for i, c in enumerate(chapters):
            groups.setdefault(c.tab or c.title, []).append(i)
        mine = groups[chapters[at].tab or chapters[at].title]
        self._tabs = Row([
            Button(name, partial(turn, inside[0]), kind="tab", group="chapters", current=inside is mine)
            for name, inside in groups.items()
        ])  # fmt: skip
        self._pick = Choice("Chapter", [c.title for c in chapters], at, turn)
        titles = [chapters[i].title for i in mine]
        self._pages = Row([
            Button(title, partial(turn, i), kind="tab", group="pages", current=i == at)
            for i, title in zip(mine, titles, strict=True)
        ])  # fmt: skip
        self._page = Choice("", titles, mine.index(at), lambda place: turn(mine[place]))
        self._count, self._inside = len(chapters), len(mine)

    def place(self, box: Rect, theme: Theme) -> Rect:
        """Place them at the head of the box; returns what is left below them."""
        self.widgets = self._fitting(box.w, theme) if self._count > 1 else ()
        for bar in self.widgets:
            head, box, _ = layout.take(box, top=bar.height(theme, box.w), gap=theme.gap)
            bar.place(head, theme)
        return box

    def _fitting(self, wide: float, theme: Theme) -> tuple[Widget, ...]:
        if self._tabs.height(theme, wide) > ROWS * theme.target:
            return (self._pick,)  # one line with arrows
        if self._inside < 2:
            return (self._tabs,)
        return self._tabs, self._pages if self._pages.width(theme) <= wide else self._page
