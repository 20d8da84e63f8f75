"""The Builder: the course above, tools over it, words and numbers below it. For coaches."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

import pygame

from game.builder.model.document import Document
from game.builder.ui.canvas import Canvas
from game.builder.ui.describe import object_sentence
from game.builder.ui.editing import Editing
from game.builder.ui.files import Files
from game.builder.ui.grip import Grip
from game.builder.ui.guide_page import GuidePage
from game.builder.ui.keys import BUILDER_KEYS, Keyboard
from game.builder.ui.layout import PageBoxes
from game.builder.ui.leaving import may_leave, offer_recovered
from game.builder.ui.page import Page, Showing
from game.builder.ui.panel import Panel
from game.builder.ui.problem_tour import ProblemTour
from game.builder.ui.proving import Proving
from game.builder.ui.regions import first_of_next
from game.builder.ui.scene import draw_plate
from game.builder.ui.share_flow import ShareFlow
from game.builder.ui.surfaces import SurfaceRow
from game.builder.ui.tab_file import file_tab
from game.builder.ui.tab_goal import goal_tab
from game.builder.ui.tab_object import object_tab
from game.builder.ui.tab_prove import prove_tab
from game.builder.ui.tab_shot import shot_tab
from game.builder.ui.tab_text import reference_tab, text_tab
from game.builder.ui.tabs import TABS, Columns
from game.builder.ui.toolbar import Toolbar
from game.builder.ui.tools import tool
from game.draw.camera import Rect
from game.library.file_uri import path_of_name
from game.play import Play
from game.ui import Button, Choice, Row, Theme, Widget, paint
from game.ui.screen import Host, Keys, Screen
from game.ui.widget import walk
from levels.rules import Loc

__all__ = ["Builder"]

PARTS = ("course", *(tab.name for tab in TABS))


class Builder(Screen):
    """Makes a scenario: draws, writes, tries and keeps it."""

    title = "Builder"
    keys: Keys = BUILDER_KEYS
    guide = GuidePage

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self.course_only = False
        self.tight, self.part = False, 0  # whether one of PARTS shows at a time, and which
        self.sentence, self._boxes = "", PageBoxes()
        self._spare = TemporaryDirectory(prefix="fringework-") if app.home is None else None
        home = app.home or Path(self._spare.name if self._spare else ".")
        document = Document(home)
        self._recovered = document.recover() is not None
        self._not_kept = document.keeping
        self._picked: Loc | None = None
        self._focused: Widget | None = None  # in the last frame
        self._returning = False
        self._arranged: tuple[object, ...] | None = None
        self.editing = Editing(document, self.changed, app.say)
        self.canvas = Canvas(self.editing, self.edit_numbers, self.refocus)
        self.files = Files(app, self.editing, home, self)
        self.share_flow = ShareFlow(app, self.editing, home)
        self.proving = Proving(app, self.editing, self._proof_changed)
        self.problem_tour = ProblemTour()
        self.keyboard = Keyboard(self, self.editing, self.canvas, self.files)
        self.panel = Panel(self.editing, self._tabs(), self)
        self.toolbar = Toolbar(self.editing, self.take_tool)
        self.surfaces = SurfaceRow(self.editing)
        self.play_button = Button(
            "Play it", self.play, kind="main", hint="P", tooltip="Play it as it stands."
        )
        self.problem_button = Button(
            "", self.next_problem, hint="F8", tooltip="Go to the next problem to fix."
        )
        self.actions = Row([self.problem_button, self.play_button])
        labels = ("Course", *(tab.label for tab in TABS))
        self.part_choice = Choice("", labels, 0, self.show_part, tooltip="What to look at.")
        self._page = Page(
            self.toolbar, self.surfaces, self.canvas, self.panel, self.actions, self.part_choice
        )
        self.changed()

    def _tabs(self) -> dict[str, Callable[[], Columns]]:
        """What fills each tab of the panel."""
        editing = self.editing
        return {
            "object": partial(object_tab, editing, self.pick),
            "shot": partial(shot_tab, editing),
            "goal": partial(goal_tab, editing),
            "text": partial(text_tab, editing),
            "reference": partial(reference_tab, editing),
            "prove": lambda: prove_tab(editing, self.proving, self.app.settings.left_handed),
            "file": partial(file_tab, editing, self.files, self.play, self.share_flow.open, self.app.help),
        }

    def enter(self) -> None:
        yards = self.app.settings.units == "yd"
        if yards != self.editing.yards:
            self.editing.yards = yards
            self.panel.rebuild(keep=False)
            self.changed()
        self._returning = True

    def leave(self) -> None:
        self.editing.settle()
        self.editing.keep()

    # ---- what is there

    @property
    def _showing(self) -> Showing:
        laying, proof = self.editing.tool == "surface", self.panel.tab == "prove"
        return Showing(self.tight, self.part == 0, self.course_only, laying, proof)

    @property
    def widgets(self) -> Sequence[Widget]:
        return self._page.widgets(self._showing)

    def changed(self) -> None:
        """The draft, the pick or the tool has changed: show it everywhere."""
        self.toolbar.refresh()
        self.canvas.refresh()
        self.panel.refresh()
        count = len(self.editing.problems)
        self.problem_button.label = (
            "No problems" if not count else "1 to fix" if count == 1 else f"{count} to fix"
        )
        self.problem_button.enabled, self.problem_button.hint = bool(count), "F8" if count else ""
        self._picked = self.editing.picked
        self.sentence = self._sentence()
        self._rearrange()

    def _sentence(self) -> str:
        """What stands under the course: how the tool in hand is used, or what is picked."""
        editing = self.editing
        in_hand = tool(editing.tool)
        if in_hand.name != "move":
            return f"{in_hand.label}: {in_hand.usage[:1].lower()}{in_hand.usage[1:]} M puts it down."
        if not editing.picked or not editing.handle_of(editing.picked):
            return in_hand.usage
        words = object_sentence(editing.draft, editing.picked, editing.yards)
        problem = editing.problem_at(editing.picked)
        return f"{words} To fix: {problem}" if problem else words

    def placed(self) -> None:
        """Another document is open: show it."""
        self.editing.forget()
        self.proving.forget()
        self.canvas.forget()
        self.panel.rebuild(keep=False)
        self.changed()
        self.app.arrange()

    def saved(self) -> None:
        """The document is in a file now: show so."""
        self.panel.rebuild()

    def save(self, then: Callable[[], None]) -> None:
        """Save, ask what must be asked, and go on once it is saved."""
        self.files.save(then)

    def _proof_changed(self) -> None:
        """The proof has come further."""
        if self.panel.tab == "prove":
            self.panel.rebuild()

    # ---- the focus

    def focused(self) -> Widget | None:
        """The widget that has the focus."""
        return self.app.focus.widget

    def refocus(self, widget: Widget | None) -> None:
        """The focus to a widget that is there."""
        if self.app.screen is self:
            self.app.focus.set(widget)

    def pick(self, loc: Loc) -> None:
        """Pick an object and show it."""
        self.editing.tool, self.editing.picked = "move", loc
        if self.tight:
            self.show_part(0)
        self.changed()
        if grip := self.canvas.grip_of(loc):
            self.refocus(grip)
            self.canvas.reveal(grip)

    def edit_numbers(self) -> None:
        """To the first number of what is picked."""
        self.course_only = False
        self.show_tab("object")
        self.refocus(next((w for w in walk(self.panel.columns) if w.focusable and w.enabled), None))

    def duplicate(self) -> None:
        """A second one of what is picked, which then has the focus."""
        if self.editing.picked is None:
            self.app.say("Pick a hazard first.")
            return
        self.editing.duplicate(self.editing.picked)
        if grip := self.canvas.grip_of(self.editing.picked):
            self.refocus(grip)

    def next_region(self, by: int) -> None:
        """The focus to another part of the page: tools, course, tabs, panel."""
        if self.tight:
            self.show_part((self.part + by) % len(PARTS))
            return
        notes = () if self.course_only else self.panel.columns
        parts = ((self.toolbar.row,), (self.canvas,), (self.panel.bar,), notes)
        grip = self.canvas.grip_of(self.editing.picked) or self.canvas
        if found := first_of_next(parts, self.focused(), by, {self.canvas: grip}):
            self.refocus(found)

    def escape(self) -> bool:
        """Give up a stretch, put the tool down, leave a field, unpick; False when there is none of these."""
        focused = self.focused()
        if self.canvas.gesture.cancel():
            return True
        if self.editing.tool != "move":
            self.take_tool("move")
        elif focused is not None and focused.within in self.panel.columns:
            if self.tight:
                self.show_part(0)
            self.refocus(self.canvas.grip_of(self.editing.picked) or self.canvas)
        elif self.editing.picked is not None and not self.app.toast.sentence:
            self.editing.picked = None
            self.changed()
            self.refocus(self.canvas if self.canvas in self.widgets else None)
        else:
            return False
        return True

    # ---- what keys and buttons do

    def take_tool(self, name: str, by_key: bool = True) -> None:
        """Another tool in hand; keys then move a cross on the course."""
        self.canvas.gesture.begin(by_hand=not by_key)
        self.editing.tool = name
        self.changed()
        if name != "move" and self.focused() is not self.toolbar.choice and self.canvas in self.widgets:
            self.refocus(self.canvas)

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
        """To the next thing that breaks a rule: its field, its place on the course, its sentence."""
        if not self.editing.problems:
            self.app.say("There are no problems.")
            return
        problem, told = self.problem_tour.next(self.editing.problems)
        tab, grip = self.panel.tab_of(problem.loc), self.canvas.grip_of(problem.loc or None)
        self.course_only = False
        if grip and tab in ("object", "goal"):
            self.editing.tool, self.editing.picked = "move", grip.loc
            self.canvas.reveal(grip)
        self.show_tab(tab)
        self.changed()
        field = self.panel.field_of(problem.loc) or grip
        if field in list(walk(self.widgets)):
            self.refocus(field)
        self.app.say(told)

    def toggle_course_only(self) -> None:
        """The course alone, or with its panel."""
        self.course_only = not self.course_only
        self._rearrange()

    def next_tab(self, by: int) -> None:
        """Another tab to the front."""
        names = [tab.name for tab in TABS]
        self.show_tab(names[(names.index(self.panel.tab) + by) % len(names)])

    def show_tab(self, name: str) -> None:
        """This tab to the front, and the panel where one part shows at a time."""
        if self.tight:
            self.show_part(PARTS.index(name))
        self.panel.turn(name)

    def show_part(self, index: int) -> None:
        """This one of PARTS, where one shows at a time."""
        self.part = self.part_choice.index = index
        if index:
            self.panel.turn(PARTS[index])
        self._rearrange()

    def turned(self) -> None:
        """Another tab may be in front."""
        if self.tight:
            self.part = self.part_choice.index = PARTS.index(self.panel.tab)
        self._rearrange()

    # ---- placing

    def _needs(self) -> tuple[object, ...]:
        """All that decides where the widgets stand, besides box and theme."""
        return self._showing, self.part, tuple(w.width(self.app.theme) for w in self.actions.items)

    def _rearrange(self) -> None:
        """Lay the page out anew if its widgets do not stand where they should."""
        if self._arranged not in (None, self._needs()) and self.app.screen is self:
            self.app.arrange()

    def layout(self, box: Rect, theme: Theme) -> None:
        self.tight = self._page.is_tight(box, theme)
        self._arranged = self._needs()
        self._boxes = self._page.place(box, theme, self._showing)

    # ---- the frame's calls

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.DROPFILE:
            self.files.open_path(Path(path_of_name(event.file)))
            return True
        if event.type in (pygame.MOUSEBUTTONDOWN, pygame.MOUSEBUTTONUP, pygame.MOUSEMOTION):
            self.canvas.pointer = event.pos
            return self.canvas.drag_picture(event)
        return event.type == pygame.KEYDOWN and self.keyboard.take(event)

    def update(self, dt: float) -> None:
        if self._not_kept:
            self.app.say(self._not_kept)
            self._not_kept = ""
        if self._recovered:
            self._recovered = False
            offer_recovered(self.app, self.editing.document, self)
            return
        if self._returning:
            self._come_back()
        self.canvas.pointer = self.app.focus.pointer
        self.editing.rest(dt)
        self.canvas.backdrop.update(dt)
        self._focused = self.focused()
        if isinstance(self._focused, Grip) and self._focused in self.canvas.grips:
            self.editing.picked = self._focused.loc
        if self.editing.picked != self._picked:
            self.changed()

    def _come_back(self) -> None:
        """The focus to where it was before another screen came over this one."""
        self._returning = False
        there = list(walk(self.widgets))
        if self._focused in there:
            self.refocus(self._focused)
        elif self._focused is not None and (grip := self.canvas.grip_of(self.editing.picked)) in there:
            self.refocus(grip)

    def may_leave(self, then: Callable[[], None]) -> bool:
        self.editing.settle()
        return may_leave(self.app, self.editing.document, not self.editing.problems, self, then)

    # ---- drawing

    def draw(self, surface: pygame.Surface) -> None:
        theme = self.app.theme
        for widget in self.widgets:
            widget.draw(surface, theme)
        if (place := self._boxes.sentence) is not None:
            lines = theme.type.wrap(self.sentence, "label", place.w)
            room = max(int(place.h // theme.type.line("label")), 1)
            paint.lines(surface, theme, lines[:room], "label", place.x, place.y)
            document = self.editing.document
            draw_plate(surface, theme, self.canvas.rect, document.name, document.dirty)
