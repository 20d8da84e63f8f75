"""The notes under the course: leaves with tabs, each in lanes of fields."""

from collections.abc import Callable
from functools import partial
from typing import Any, Protocol

import pygame

from game.builder.ui.editing import Making
from game.builder.ui.proof import Lane
from game.builder.ui.tab_goal import goal
from game.builder.ui.tab_object import thing
from game.builder.ui.tab_shot import shot
from game.builder.ui.tab_text import reference, words_tab
from game.builder.ui.tabs import ROOTS, Lanes, notes, shape_of
from game.draw.camera import Rect
from game.ui import Button, Column, Row, Theme, Widget, layout
from game.ui.textfield import TextField
from game.ui.widget import walk
from levels.rules import Loc

__all__ = ["LEAVES", "Panel"]

LEAVES = ("Thing", "Shot", "Goal", "Words", "Reference", "Prove", "File")
LANE = 38.0  # steps of the rhythm a lane needs


class Host(Protocol):
    """What the panel asks of the screen."""

    def file_lanes(self) -> Lanes: ...

    def prove_lanes(self) -> Lanes: ...

    def pick(self, loc: Loc) -> None: ...

    def refocus(self, widget: Widget | None) -> None: ...

    def focused(self) -> Widget | None: ...


class Panel:
    """`leaf` is the one in front; `columns` are its lanes as placed."""

    def __init__(self, making: Making, host: Host, on_turn: Callable[[], None]) -> None:
        self.making, self.host, self.on_turn = making, host, on_turn
        self.leaf = "Thing"
        self.tabs = tuple(
            Button(name, partial(self.turn, name), kind="tab", group="leaves", tooltip=_TOLD[name])
            for name in LEAVES
        )
        self.bar = Row(self.tabs)
        self.columns: tuple[Column, ...] = ()
        self._lanes: Lanes = []
        self._shape: tuple[Any, ...] = ("not yet",)
        self._told: tuple[str, ...] = ()
        self._box, self._theme = Rect(0, 0, 1, 1), Theme()

    # ---- turning leaves

    def turn(self, name: str) -> None:
        """Another leaf to the front."""
        if name != self.leaf:
            self.leaf = name
            self.rebuild(keep=False)
        self.on_turn()

    def leaf_of(self, loc: Loc) -> str:
        """The leaf that speaks of a path."""
        return next((leaf for leaf, roots in ROOTS.items() if loc and loc[0] in roots), "Thing")

    def field_of(self, loc: Loc) -> Widget | None:
        """The field at a path, or the nearest around it; on the leaf in front."""
        best: tuple[int, Widget] | None = None
        for w in walk(self.columns):
            at = getattr(w, "loc", None)
            if at is not None and w.focusable and (at == loc[: len(at)] or loc == at[: len(loc)]):
                score = len(at) if at == loc[: len(at)] else 0
                if best is None or score > best[0]:
                    best = (score, w)
        return best[1] if best else None

    # ---- filling

    def _make(self) -> Lanes:
        m = self.making
        match self.leaf:
            case "Thing":
                return thing(m, self.host.pick)
            case "Shot":
                return shot(m)
            case "Goal":
                return goal(m)
            case "Words":
                return words_tab(m)
            case "Reference":
                return reference(m)
            case "Prove":
                return self.host.prove_lanes()
        return self.host.file_lanes()

    def refresh(self) -> None:
        """The draft or the pick has changed: show it, with other fields where others are wanted."""
        shape = (self.leaf, *shape_of(self.making, self.leaf))
        loose = tuple(w.label for w in notes(self.making, self.leaf, self._lanes))
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
        return list(walk([w for lane in self._lanes for w in lane]))

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
        self._shape = (self.leaf, *shape_of(self.making, self.leaf))
        self._lanes = self._make()
        loose = notes(self.making, self.leaf, self._lanes)
        self._told = tuple(w.label for w in loose)
        if loose and self._lanes:
            self._lanes = [[*loose, *self._lanes[0]], *self._lanes[1:]]
        for tab in self.tabs:
            tab.current = tab.label == self.leaf
        offsets = [c.offset for c in self.columns] if keep else []
        self.place(self._box, self._theme, offsets)
        if mark and focused:
            same = [w for w in self._all() if w.focusable and w.label == focused.label]
            new = same[min(nth, len(same) - 1)] if same else None
            self._hand_over(focused, new)

    def _hand_over(self, old: Widget, new: Widget | None) -> None:
        """The focus from a field to the one made in its place, in the middle of typing."""
        writing = (old.text, old.written.caret, old.written.anchor) if isinstance(old, TextField) else None
        self.making.steady = True  # the step goes on
        self.host.refocus(new)
        self.making.steady = False
        if writing and isinstance(new, TextField) and new.text == writing[0]:
            new.written.caret, new.written.anchor = writing[1:]

    # ---- placing

    def place(self, box: Rect, theme: Theme, offsets: list[float] | None = None) -> None:
        """Lanes beside each other where there is room, else in one column."""
        self._box, self._theme = box, theme
        kept = [c.offset for c in self.columns] if offsets is None else offsets
        many = max(min(int(box.w // (LANE * theme.gap)), len(self._lanes)), 1)
        lanes: Lanes = [[] for _ in range(many)]
        for i, lane in enumerate(self._lanes):
            lanes[min(i, many - 1)] += lane
        self.columns = tuple(Lane(lane, 1.0) for lane in lanes)
        whole = self.leaf == "Prove" or (self.leaf == "Thing" and self.making.picked is None)  # no fields
        parts = many if whole else max(many, min(3, int(box.w // (LANE * theme.gap))))
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
