"""The notes under the course: leaves with tabs, each in columns of fields."""

from collections.abc import Callable
from functools import partial
from typing import Any, Protocol

import pygame

from game.builder.ui.editing import Editing
from game.builder.ui.proof import PanelColumn
from game.builder.ui.tab_goal import goal_tab
from game.builder.ui.tab_object import object_tab
from game.builder.ui.tab_shot import shot_tab
from game.builder.ui.tab_text import reference_tab, text_tab
from game.builder.ui.tabs import TAB_KEYS, Columns, loose_problems, tab_shape
from game.draw.camera import Rect
from game.ui import Button, Column, Row, Theme, Widget, layout
from game.ui.textfield import TextField
from game.ui.widget import walk
from levels.rules import Loc

__all__ = ["TABS", "Panel"]

TABS = ("Thing", "Shot", "Goal", "Words", "Reference", "Prove", "File")
COLUMN = 38.0  # steps of the rhythm a column needs


class Host(Protocol):
    """What the panel asks of the screen."""

    def file_columns(self) -> Columns: ...

    def prove_columns(self) -> Columns: ...

    def pick(self, loc: Loc) -> None: ...

    def refocus(self, widget: Widget | None) -> None: ...

    def focused(self) -> Widget | None: ...


class Panel:
    """`tab` is the one in front; `columns` are its columns as placed."""

    def __init__(self, editing: Editing, host: Host, on_turn: Callable[[], None]) -> None:
        self.editing, self.host, self.on_turn = editing, host, on_turn
        self.tab = "Thing"
        self.buttons = tuple(
            Button(name, partial(self.turn, name), kind="tab", group="leaves", tooltip=_TOLD[name])
            for name in TABS
        )
        self.bar = Row(self.buttons)
        self.columns: tuple[Column, ...] = ()
        self._content: Columns = []
        self._shape: tuple[Any, ...] = ("not yet",)
        self._told: tuple[str, ...] = ()
        self._box, self._theme = Rect(0, 0, 1, 1), Theme()

    # ---- turning leaves

    def turn(self, name: str) -> None:
        """Another tab to the front."""
        if name != self.tab:
            self.tab = name
            self.rebuild(keep=False)
        self.on_turn()

    def tab_of(self, loc: Loc) -> str:
        """The tab that speaks of a path."""
        return next((tab for tab, roots in TAB_KEYS.items() if loc and loc[0] in roots), "Thing")

    def field_of(self, loc: Loc) -> Widget | None:
        """The field at a path, or the nearest around it; on the tab in front."""
        best: tuple[int, Widget] | None = None
        for w in walk(self.columns):
            at = getattr(w, "loc", None)
            if at is not None and w.focusable and (at == loc[: len(at)] or loc == at[: len(loc)]):
                score = len(at) if at == loc[: len(at)] else 0
                if best is None or score > best[0]:
                    best = (score, w)
        return best[1] if best else None

    # ---- filling

    def _make(self) -> Columns:
        e = self.editing
        match self.tab:
            case "Thing":
                return object_tab(e, self.host.pick)
            case "Shot":
                return shot_tab(e)
            case "Goal":
                return goal_tab(e)
            case "Words":
                return text_tab(e)
            case "Reference":
                return reference_tab(e)
            case "Prove":
                return self.host.prove_columns()
        return self.host.file_columns()

    def refresh(self) -> None:
        """The draft or the pick has changed: show it, with other fields where others are wanted."""
        shape = (self.tab, *tab_shape(self.editing, self.tab))
        loose = tuple(w.label for w in loose_problems(self.editing, self.tab, self._content))
        if shape != self._shape or loose != self._told:
            self.rebuild()
            return
        before = [w.height(self._theme, w.rect.w) for w in self._all()]
        for w in self._all():
            if hasattr(w, "refresh"):
                w.refresh()
        if before != [w.height(self._theme, w.rect.w) for w in self._all()]:
            self.place(self._box, self._theme)

    def _all(self) -> list[Widget]:
        return list(walk([w for column in self._content for w in column]))

    def rebuild(self, keep: bool = True) -> None:
        """Make the fields anew; the focus stays on the field of the same place."""
        focused = self.host.focused()
        old = self._all()
        mark = (focused.label, [w.label for w in old if w.focusable].count(focused.label)) if (
            keep and focused in old and focused
        ) else None  # fmt: skip
        nth = (
            [w for w in old if focused and w.label == focused.label].index(focused) if mark and focused else 0
        )
        self._shape = (self.tab, *tab_shape(self.editing, self.tab))
        self._content = self._make()
        loose = loose_problems(self.editing, self.tab, self._content)
        self._told = tuple(w.label for w in loose)
        if loose and self._content:
            self._content = [[*loose, *self._content[0]], *self._content[1:]]
        for button in self.buttons:
            button.current = button.label == self.tab
        offsets = [c.offset for c in self.columns] if keep else []
        self.place(self._box, self._theme, offsets)
        if mark and focused:
            same = [w for w in self._all() if w.focusable and w.label == focused.label]
            new = same[min(nth, len(same) - 1)] if same else None
            self._hand_over(focused, new)

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
        """Lanes beside each other where there is room, else in one column."""
        self._box, self._theme = box, theme
        kept = [c.offset for c in self.columns] if offsets is None else offsets
        many = max(min(int(box.w // (COLUMN * theme.gap)), len(self._content)), 1)
        columns: Columns = [[] for _ in range(many)]
        for i, widgets in enumerate(self._content):
            columns[min(i, many - 1)] += widgets
        self.columns = tuple(PanelColumn(widgets, 1.0) for widgets in columns)
        whole = self.tab == "Prove" or (self.tab == "Thing" and self.editing.picked is None)  # no fields
        parts = many if whole else max(many, min(3, int(box.w // (COLUMN * theme.gap))))
        boxes = layout.split(box, [1.0] * parts, 2 * theme.gap)
        for i, (column, room) in enumerate(zip(self.columns, boxes, strict=False)):
            column.offset = kept[i] if i < len(kept) else 0.0
            column.place(room, theme)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        for column in self.columns:
            column.draw(surface, theme)


_TOLD = {
    "Thing": "Numbers of what is picked on the course.",
    "Shot": "Player, lie, clubs, controls and weather.",
    "Goal": "What counts as done, and what the player calls first.",
    "Words": "Title, lesson, hints and the question.",
    "Reference": "The coach's own way to do the task.",
    "Prove": "Whether it can be done, by which kinds of shot, and how forgiving it is.",
    "File": "New, open, save, and hand out.",
}
