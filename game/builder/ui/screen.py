"""The Builder: the course is the page, tools above it, words and numbers below. For coaches."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

import pygame

from game.builder.model.document import Document
from game.builder.ui.ask import Ask
from game.builder.ui.canvas import Canvas
from game.builder.ui.describe import object_sentence
from game.builder.ui.editing import Editing
from game.builder.ui.files import Files
from game.builder.ui.keys import BUILDER_KEYS, Keyboard
from game.builder.ui.layout import place_tight, place_wide
from game.builder.ui.leaving import Safety
from game.builder.ui.panel import TABS, Panel
from game.builder.ui.problem_tour import Mending
from game.builder.ui.prove import Prove
from game.builder.ui.scene import draw_plate
from game.builder.ui.surfaces import SurfaceRow
from game.builder.ui.tabs import Columns
from game.builder.ui.tools import TOOLS, ToolButton, ToolRow, tool
from game.draw.camera import Rect
from game.play import Play
from game.ui import Button, Choice, Column, Row, TextBlock, Theme, Widget, paint
from game.ui.screen import Host, Keys, Screen
from game.ui.widget import walk
from levels.rules import Loc

__all__ = ["Builder"]

NARROW, LOW = 110.0, 70.0  # steps of the rhythm below which one part shows at a time
VIEWS = ("Course", *TABS)


class Builder(Screen):
    """Makes a scenario: draws, writes, tries and keeps it."""

    title = "Builder"
    keys: Keys = BUILDER_KEYS

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self._in_front = self._entered = False
        self.alone = False  # only the course
        self.tight, self.view = False, 0
        self._spare: TemporaryDirectory[str] | None = None
        self._box, self.sentence_at = Rect(0, 0, 1, 1), Rect(0, 0, 1, 1)
        self._picked: Loc | None = None
        self._offer: Ask | None = None
        self._last: Widget | None = None  # where the focus was
        self._returning = False
        self._make(app)
        self.panel.rebuild(keep=False)

    def _make(self, app: Host) -> None:
        """Everything on the page, over the scenario on the desk."""
        if app.home is None:
            self._spare = TemporaryDirectory(prefix="fringework-")
        self.home = app.home or Path(self._spare.name if self._spare else ".")
        self.editing = Editing(Document(self.home), self.changed, app.say)
        self.canvas = Canvas(self.editing, self.edit_numbers, self.refocus)
        self.files, self.prove = Files(self), Prove(self)
        self.safety, self.keyboard, self.mending = Safety(self), Keyboard(self), Mending(self)
        self.panel = Panel(self.editing, self, self._turned)
        self._tools: dict[str, ToolButton] = {t.name: ToolButton(
            t.name, t.label, partial(self._press_tool, t.name),
            tooltip=f"{t.label}, key {t.key}: {t.plain}", group="tools",
        ) for t in TOOLS}  # fmt: skip
        self._undo = ToolButton("undo", "Undo", self.editing.undo, group="steps")
        self._redo = ToolButton("redo", "Redo", self.editing.redo, group="steps")
        b = list(self._tools.values())
        self.tools = ToolRow([b[:5], b[5:11], b[11:], (self._undo, self._redo)])
        self.play_button = Button(
            "Play it", self.play, kind="main", hint="P", tooltip="Play it as it stands."
        )
        self.count = Button("", self.next_problem, hint="F8", tooltip="Go to the next thing to mend.")
        self.acts = Row([self.count, self.play_button])
        self.surfaces = SurfaceRow(self.editing)
        self.view_pick = Choice("", VIEWS, 0, self.view_to, tooltip="What to look at.")
        self.tool_pick = Choice("", [t.label for t in TOOLS], 0, lambda i: self.take_tool(TOOLS[i].name),
                                tooltip="The tool in hand.")  # fmt: skip
        self.said = TextBlock("", "label")
        self.changed()

    def enter(self) -> None:
        if not self._entered:
            self._entered = True
            self._offer = self.safety.recovered()
        self.editing.yards = self.app.settings.units == "yd"
        self._returning = self._in_front = True

    def leave(self) -> None:
        self._in_front = False
        self.editing.settle()
        self.editing.keep()

    # ---- what is there

    @property
    def widgets(self) -> Sequence[Widget]:
        surfaces = (self.surfaces,) if self.editing.tool == "surface" else ()
        if self.tight:
            if VIEWS[self.view] == "Course":
                return (self.view_pick, self.tool_pick, *surfaces, self.canvas)
            return (self.view_pick, self.acts, *self.panel.columns)
        notes = () if self.alone else self.panel.columns
        return (self.tools, self.canvas, *surfaces, self.panel.bar, self.acts, *notes)

    def changed(self) -> None:
        """The draft, the pick or the tool has changed: show it everywhere."""
        editing = self.editing
        for name, button in self._tools.items():
            button.current = name == editing.tool
        self.tool_pick.index = next(i for i, t in enumerate(TOOLS) if t.name == editing.tool)
        self.canvas.refresh()
        self.panel.refresh()
        history = editing.history
        for button, can, verb, name in (
            (self._undo, history.can_undo, "Undo", history.undo_name),
            (self._redo, history.can_redo, "Redo", history.redo_name),
        ):
            button.enabled = can
            button.tooltip = f"{verb}: {name}." if can else f"Nothing to {verb.lower()}."
        count, before = len(editing.problems), self.count.label
        self.count.label = (
            "In order" if not count else "1 thing to mend" if count == 1 else f"{count} things to mend"
        )
        self.count.enabled, self.count.hint = bool(count), "F8" if count else ""
        self._picked = editing.picked
        self._speak()
        if self.count.label != before and self._in_front:
            self.app.arrange()

    def _speak(self) -> None:
        """The sentence under the course."""
        editing = self.editing
        held = tool(editing.tool)
        words = held.plain
        if held.name == "move" and editing.picked and editing.handle_of(editing.picked):
            words = object_sentence(editing.draft, editing.picked, editing.yards)
            if problem := editing.problem_at(editing.picked):
                words = f"{words} To mend: {problem}"
        elif held.name != "move":
            words = f"{held.label}: {words[:1].lower()}{words[1:]} M puts it down."
        self.said.label = words

    def placed(self) -> None:
        """Another document is on the desk."""
        self.editing.forget()
        self.prove.forget()
        self.canvas.forget()
        self.panel.rebuild(keep=False)
        self.changed()
        self.app.arrange()

    # ---- asked by panel and files

    def file_columns(self) -> Columns:
        return self.files.columns()

    def prove_columns(self) -> Columns:
        return self.prove.columns()

    def proof_changed(self) -> None:
        """The proof has come further."""
        if self.panel.tab == "Prove":
            self.panel.rebuild()

    def focused(self) -> Widget | None:
        return self.app.focus.widget

    def refocus(self, widget: Widget | None) -> None:
        """The focus to a widget that is there."""
        if self.app.screen is self:
            self.app.focus.set(widget)

    def pick(self, loc: Loc) -> None:
        """Pick a thing and show it."""
        self.editing.tool, self.editing.picked = "move", loc
        if self.tight:
            self.view_to(0)
        self.changed()
        if grip := self.canvas.grip_of(loc):
            self.refocus(grip)
            self.canvas.reveal(grip)

    # ---- what keys and buttons do

    def take_tool(self, name: str, by_key: bool = True) -> None:
        """Another tool in hand; keys then move a cross on the course."""
        self.canvas.gesture.cancel()
        self.canvas.gesture.cross = None
        self.canvas.gesture.by_hand = not by_key
        self.editing.tool = name
        self.changed()
        self.app.arrange()
        if name != "move" and self.focused() is not self.tool_pick and self.canvas in self.widgets:
            self.refocus(self.canvas)

    def _press_tool(self, name: str) -> None:
        self.take_tool(name, self._tools[name].by_key)

    def edit_numbers(self) -> None:
        """To the first number of what is picked."""
        self.alone = False
        if self.tight:
            self.view_to(VIEWS.index("Thing"))
        self.panel.turn("Thing")
        self.app.arrange()
        self.refocus(next((w for w in walk(self.panel.columns) if w.focusable and w.enabled), None))

    def play(self) -> None:
        """Play the scenario as it stands; it leaves no marks behind."""
        self.editing.settle()
        scenario = self.editing.scenario
        if scenario is None:
            count = len(self.editing.problems)
            things = "one thing is" if count == 1 else f"{count} things are"
            self.app.say(f"It can be played once {things} mended; F8 goes there.")
            return
        self.app.push(Play(self.app, scenario=scenario, trial=True))

    def next_problem(self) -> None:
        """To the next thing that breaks a rule."""
        self.mending.go()

    def _turned(self) -> None:
        """Another tab is in front."""
        if self.tight:
            self.view = VIEWS.index(self.panel.tab)
            self.view_pick.index = self.view
        if self._in_front:
            self.app.arrange()

    def view_to(self, index: int) -> None:
        self.view = self.view_pick.index = index
        if VIEWS[index] != "Course":
            self.panel.turn(VIEWS[index])
        self.app.arrange()

    def show_tab(self, tab: str) -> None:
        """This tab of the notes in front."""
        if self.tight:
            self.view_to(VIEWS.index(tab))
        self.panel.turn(tab)

    @property
    def views(self) -> int:
        """How many parts there are where one shows at a time."""
        return len(VIEWS)

    # ---- the frame's calls

    def layout(self, box: Rect, theme: Theme) -> None:
        self._box = box
        self.tight = box.w < NARROW * theme.gap or box.h < LOW * theme.gap
        (place_tight if self.tight else place_wide)(self, box, theme)
        self.canvas.refresh()

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.DROPFILE:
            self.files.open_path(Path(event.file))
            return True
        if event.type in (pygame.MOUSEBUTTONDOWN, pygame.MOUSEBUTTONUP, pygame.MOUSEMOTION):
            self.canvas.pointer = event.pos
            return self.canvas.drag_picture(event)
        return event.type == pygame.KEYDOWN and self.keyboard.take(event)

    def update(self, dt: float) -> None:
        if self._offer:
            offer, self._offer = self._offer, None
            self.app.push(offer)
            return
        if self._returning:
            self._come_back()
        self.canvas.pointer = self.app.focus.pointer
        self.editing.rest(dt)
        self.canvas.backdrop.update(dt)
        focused = self.app.focus.widget
        loc = getattr(focused, "loc", None)
        self._last = focused
        if focused in self.canvas.grips and loc is not None:
            self.editing.picked = loc
        if self.editing.picked != self._picked:
            self.changed()

    def _come_back(self) -> None:
        """The focus to where it was before another screen came over this one."""
        self._returning = False
        there = list(walk(self.widgets))
        if self._last in there:
            self.refocus(self._last)
        elif self._last is not None and (grip := self.canvas.grip_of(self.editing.picked)) in there:
            self.refocus(grip)

    def may_leave(self, then: Callable[[], None]) -> bool:
        return self.safety.may_leave(then)

    # ---- drawing

    def draw(self, surface: pygame.Surface) -> None:
        theme = self.app.theme
        for widget in self.widgets:
            if not isinstance(widget, Column) or widget in self.panel.columns:
                widget.draw(surface, theme)
        if not self.tight or VIEWS[self.view] == "Course":
            lines = theme.type.wrap(self.said.label, "label", self.sentence_at.w)
            room = max(int(self.sentence_at.h // theme.type.line("label")), 1)
            paint.lines(surface, theme, lines[:room], "label", self.sentence_at.x, self.sentence_at.y)
            draw_plate(surface, theme, self.canvas, self.editing.document.name, self.editing.document.dirty)
