"""The answer page: every line that goes to the coach is shown first, and can be struck, before one file is
written on purpose."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import partial

import pygame

from game.answering.draft import draft_of, write_draft
from game.answering.line_row import LineRow
from game.answering.outside import OutsideForm
from game.draw.camera import Rect
from game.handout import HandoutError
from game.library.shelf import first
from game.text.answer import (
    ALSO_IN_IT,
    ASKS_PARENT,
    NOTHING_YET,
    SELF_TOLD,
    WRITTEN,
    counted_lines,
    line_words,
    outside_line_words,
)
from game.text.units import UNIT_SYSTEMS
from game.ui import Button, Column, Heading, Row, TextBlock, Theme, Toggle, Widget, layout
from game.ui.safety import SafetyPage, before_real_swings
from game.ui.screen import Host, Screen
from game.ui.textarea import TextArea
from game.ui.textfield import TextField
from levels.answers import AnswerError, OutsideLine

__all__ = ["AnswerPage", "answer_page"]

ROOMY = 100.0  # steps of the rhythm from which name and words stand beside the lines
SIDE = 0.38  # share of the width they then have


def answer_page(app: Host, assignment: str, title: str) -> None:
    """Open the page on which the player in front answers that assignment."""
    app.push(AnswerPage(app, assignment, title))


class AnswerPage(Screen):
    """Lines at the left; name, words, drills outside at the right; nothing is written before Ctrl+S."""

    title = "Answer"
    keys = (
        ("Up, Down", "from line to line"),
        ("Space", "strike the line out, or take it in again"),
        ("Ctrl+S", "write the file"),
        ("Esc", "back; nothing is written"),
    )

    def __init__(
        self, app: Host, assignment: str, title: str, today: Callable[[], date] = date.today
    ) -> None:
        super().__init__(app)
        self.pack_title, self._today = title, today
        self.draft = draft_of(app.book, app.player, assignment)
        self.tells = False  # whether the fields of a drill outside are open
        self.form = OutsideForm(today(), self._told_outside)
        self._count = TextBlock("", "label", "muted")
        self._name = TextField(
            "Name or code", self.draft.pupil, self._rename, most=40,
            tooltip="What your coach knows you by; a code will do.",
        )  # fmt: skip
        self._words = TextArea("Your words", "", self._say, rows=3, most=4000)
        self._write = Button("Write the file", self.write, kind="main", hint="Ctrl+S")
        self._acts = Row([self._write, Button("Back", app.pop, hint="Esc")])
        self._left, self._right = Column([]), Column([])
        self._lines: list[Widget] = []
        self._beside = True
        self._fill_lines()

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._left, self._right, self._acts) if self._beside else (self._left, self._acts)

    # ---- what is on it

    def _fill_lines(self) -> None:
        draft, units = self.draft, UNIT_SYSTEMS[self.app.settings.units]
        rows: list[Widget] = [
            LineRow(line_words(one, units), i in draft.struck, partial(self.turn, i))
            for i, one in enumerate(draft.attempts)
        ]
        rows += [
            LineRow(outside_line_words(*one), i in draft.struck_outside, partial(self.turn_outside, i))
            for i, one in enumerate(draft.outside)
        ]
        self._lines = rows
        self._counted()

    def _counted(self) -> None:
        self._count.label = counted_lines(self.draft.kept, self.draft.left_out)

    def _head(self) -> list[Widget]:
        parent = [TextBlock(ASKS_PARENT, "strong")] if self.app.settings.detail == "junior" else []
        nothing = [] if self._lines else [TextBlock(NOTHING_YET)]
        about = TextBlock(ALSO_IN_IT, "small", "muted")
        return [Heading(f"Answer: {self.pack_title}"), *parent, self._count, about, *nothing]

    def _rest(self) -> list[Widget]:
        speaks = Toggle("Add words of my own", self.draft.speaks, self._turn_words)
        swings: list[Widget] = [Heading("Drill outside"), TextBlock(SELF_TOLD, "small", "muted")]
        if self.tells:
            swings += [*self.form.widgets, Row([Button("Cautions again", self.cautions)])]
        else:
            swings.append(Row([Button("Tell of a drill outside", self.open_outside)]))
        return [self._name, speaks, *([self._words] if self.draft.speaks else []), *swings]

    # ---- acts

    def turn(self, number: int) -> None:
        """A line in or out."""
        self.draft = self.draft.turned(number)
        self._counted()

    def turn_outside(self, number: int) -> None:
        """A drill outside in or out."""
        self.draft = self.draft.turned_outside(number)
        self._counted()

    def _rename(self, name: str) -> None:
        self.draft = replace(self.draft, pupil=name)

    def _say(self, words: str) -> None:
        self.draft = replace(self.draft, words=words)

    def _turn_words(self, on: bool) -> None:
        self.draft = replace(self.draft, speaks=on)
        self._refocus("Your words" if on else "Add words of my own")

    def open_outside(self) -> None:
        """The fields of a drill outside, once the cautions have been read."""

        def show() -> None:
            self.tells = True
            self._refocus("Shots")

        before_real_swings(self.app, show)

    def cautions(self) -> None:
        """The page of cautions once more."""
        self.app.push(SafetyPage(self.app))

    def _told_outside(self, line: OutsideLine) -> None:
        app, draft = self.app, self.draft
        app.book.log_outside(app.player, draft.assignment, line.day, line.shots, line.came_off)
        self.draft = replace(draft, outside=(*draft.outside, (line.day, line.shots, line.came_off)))
        self._fill_lines()
        self._refocus("Shots")

    def _refocus(self, label: str) -> None:
        """Lay out anew, with the focus on the widget of that name."""
        self.app.arrange()
        self.app.focus.look_again()
        column = self._right if self._beside else self._left
        self.app.focus.set(next((w for w in column.items if w.label == label), None))

    def write(self) -> None:
        """Write the file, new every time; say where, or what is wrong."""
        try:
            file = write_draft(self.draft, self._today())
        except AnswerError as error:
            self.app.say(first(error.problems))
        except HandoutError as error:
            self.app.say(str(error))
        else:
            self.app.say(WRITTEN.format(file=file))

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_ESCAPE:
            self.app.pop()
        elif event.key == pygame.K_s and event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META):
            self.write()
        else:
            at = self.app.focus.widget
            return at is not None and at.within is not None and at.within.handle(event)
        return True

    # ---- placing

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        inner = Rect(box.x + gap, box.y + 0.5 * gap, box.w - 2 * gap, box.h - 1.5 * gap)
        foot = self._acts.height(theme, inner.w - 2 * gap)
        _, body, low = layout.take(inner, bottom=foot, gap=gap)
        self._acts.place(Rect(low.x + gap, low.y, low.w - 2 * gap, low.h), theme)
        self._beside = inner.w >= ROOMY * gap
        at, beside = self._left.offset, self._right.offset
        if self._beside:
            left, right = layout.split(body, (1.0 - SIDE, SIDE), 2 * gap)
            self._left = Column([*self._head(), *self._lines], 0.5)
            self._right = Column(self._rest(), 1.0)
            self._right.offset = beside
            self._right.place(right, theme)
        else:
            left = body
            self._left = Column([*self._head(), *self._lines, *self._rest()], 0.5)
        self._left.offset = at
        self._left.place(left, theme)
