"""The panel under the course: tabs, each with its fields in columns."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any, Protocol

from game.builder.ui.editing import Editing
from game.builder.ui.live import Live
from game.builder.ui.tabs import TABS, Columns, loose_problems, tab_shape
from game.draw.camera import Rect
from game.ui import Button, Column, Row, Theme, Widget, layout
from game.ui.textfield import TextField
from game.ui.widget import walk
from levels.draft import Draft
from levels.rules import Loc

__all__ = ["Panel"]

COLUMN = 38.0  # steps of the rhythm a column needs


class FocusHost(Protocol):
    """What the panel asks of the page."""

    def focused(self) -> Widget | None:
        """The widget that has the focus."""

    def refocus(self, widget: Widget | None) -> None:
        """The focus to that widget."""

    def turned(self) -> None:
        """Another tab may be in front."""


class PanelColumn(Column):
    """A column in which a part taller than its room stays where the keys have scrolled it."""

    def reveal(self, part: Widget) -> None:
        if part.rect.h <= self.rect.h or not part.rect.overlaps(self.rect):
            super().reveal(part)


class Panel:
    """`tab` names the one in front; `columns` are its columns as placed; `make` fills each tab by name."""

    def __init__(self, editing: Editing, make: Mapping[str, Callable[[], Columns]], host: FocusHost) -> None:
        self.editing, self.host, self._make = editing, host, make
        self.tab = TABS[0].name
        self._buttons = {
            tab.name: Button(
                tab.label, partial(self.turn, tab.name), kind="tab", group="leaves", tooltip=tab.tooltip
            )
            for tab in TABS
        }
        self.bar = Row(list(self._buttons.values()))
        self.columns: tuple[Column, ...] = ()
        self._content: Columns = []
        self._shape: tuple[Any, ...] = ()
        self._loose: tuple[str, ...] = ()
        self._shown: tuple[Draft, Loc | None] | None = None  # the draft and the pick the fields show
        self._box, self._theme = Rect(0, 0, 1, 1), Theme()

    # ---- turning

    def turn(self, name: str) -> None:
        """Another tab to the front."""
        if name != self.tab:
            self.tab = name
            self.rebuild(keep=False)
        self.host.turned()

    @staticmethod
    def tab_of(loc: Loc) -> str:
        """The tab that shows a path."""
        return next((tab.name for tab in TABS if loc and loc[0] in tab.keys), TABS[0].name)

    def field_of(self, loc: Loc) -> Widget | None:
        """The field at a path, or the nearest around it; on the tab in front."""
        best: tuple[int, Widget] | None = None
        for w in walk(self.columns):
            at = w.loc if isinstance(w, Live) else ()
            if at and w.focusable and (at == loc[: len(at)] or loc == at[: len(loc)]):
                score = len(at) if at == loc[: len(at)] else 0
                if best is None or score > best[0]:
                    best = (score, w)
        return best[1] if best else None

    # ---- filling

    def refresh(self) -> None:
        """The draft or the pick may have changed: show it, with other fields where others are wanted."""
        now = (self.editing.draft, self.editing.picked)
        if self._shown and self._shown[0] is now[0] and self._shown[1] == now[1]:
            return
        shape = (self.tab, *tab_shape(self.editing, self.tab))
        loose = tuple(w.label for w in loose_problems(self.editing, self.tab, self._content))
        if shape != self._shape or loose != self._loose:
            self.rebuild()
            return
        self._shown = now
        before = [w.height(self._theme, w.rect.w) for w in self._all()]
        for w in self._all():
            if isinstance(w, Live):
                w.refresh()
        if before != [w.height(self._theme, w.rect.w) for w in self._all()]:
            self.place(self._box, self._theme)

    def _all(self) -> list[Widget]:
        return list(walk([w for column in self._content for w in column]))

    def rebuild(self, keep: bool = True) -> None:
        """Make the fields anew; the focus stays on the field of the same place."""
        focused = self.host.focused() if keep else None
        same = [w for w in self._all() if focused and w.label == focused.label and w.focusable]
        nth = same.index(focused) if focused in same and focused else None
        self._shown = (self.editing.draft, self.editing.picked)
        self._shape = (self.tab, *tab_shape(self.editing, self.tab))
        self._content = self._make[self.tab]()
        loose = loose_problems(self.editing, self.tab, self._content)
        self._loose = tuple(w.label for w in loose)
        if loose and self._content:
            self._content = [[*loose, *self._content[0]], *self._content[1:]]
        for name, button in self._buttons.items():
            button.current = name == self.tab
        self.place(self._box, self._theme, [c.offset for c in self.columns] if keep else [])
        if focused and nth is not None:
            same = [w for w in self._all() if w.focusable and w.label == focused.label]
            self._hand_over(focused, same[min(nth, len(same) - 1)] if same else None)

    def _hand_over(self, old: Widget, new: Widget | None) -> None:
        """The focus from a field to the one made in its place, in the middle of typing."""
        writing = (old.text, old.written.caret, old.written.anchor) if isinstance(old, TextField) else None
        self.editing.rebuilding = True  # the step goes on
        self.host.refocus(new)
        self.editing.rebuilding = False
        if writing and isinstance(new, TextField) and new.text == writing[0]:
            new.written.caret, new.written.anchor = writing[1:]

    # ---- placing

    def place(self, box: Rect, theme: Theme, offsets: list[float] | None = None) -> None:
        """Columns beside each other where there is room, else in one column."""
        self._box, self._theme = box, theme
        kept = [c.offset for c in self.columns] if offsets is None else offsets
        many = max(min(int(box.w // (COLUMN * theme.gap)), len(self._content)), 1)
        columns: Columns = [[] for _ in range(many)]
        for i, widgets in enumerate(self._content):
            columns[min(i, many - 1)] += widgets
        self.columns = tuple(PanelColumn(widgets, 1.0) for widgets in columns)
        whole = self.tab == "prove" or (self.tab == "object" and self.editing.picked is None)  # no fields
        parts = many if whole else max(many, min(3, int(box.w // (COLUMN * theme.gap))))
        boxes = layout.split(box, [1.0] * parts, 2 * theme.gap)
        for i, (column, room) in enumerate(zip(self.columns, boxes, strict=False)):
            column.offset = kept[i] if i < len(kept) else 0.0
            column.place(room, theme)
