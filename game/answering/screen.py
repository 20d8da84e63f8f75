"""The answer page: every line that goes to the coach is shown first, and can be struck, before one file is
written on purpose."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pygame

from game.answering.draft import AnswerDraft, draft_of, write_draft
from game.answering.line_list import LineList
from game.answering.outside import OutsideForm
from game.draw.camera import Rect
from game.handout import HandoutError
from game.library.notebook.doors import asked_beside
from game.library.shelf import first
from game.text.answer import (
    ALSO_IN_IT,
    ASKS_PARENT,
    BEING_READ,
    NOTHING_YET,
    SELF_TOLD,
    WRITTEN,
    counted_lines,
    limit_words,
    line_words,
    outside_line_words,
)
from game.text.units import UNIT_SYSTEMS
from game.ui import Button, Column, Heading, Row, TextBlock, Theme, Toggle, Widget, layout
from game.ui.file_buttons import file_buttons
from game.ui.safety import SafetyPage, before_real_swings
from game.ui.screen import Host, Screen
from game.ui.textarea import TextArea
from game.ui.textfield import TextField
from game.ui.work import Answer
from levels.answers import MOST_LINES, MOST_OUTSIDE, AnswerError, OutsideLine

__all__ = ["AnswerPage", "answer_page"]

ROOMY = 100.0  # steps of the rhythm from which name and words stand beside the lines
SIDE = 0.38  # share of the width they then have
CHANNEL = "lines of the answer"


def answer_page(app: Host, assignment: str, title: str) -> None:
    """Open the page on which the player in front answers that assignment."""
    app.push(AnswerPage(app, assignment, title))


class AnswerPage(Screen):
    """Lines at the left; name, words, drills outside at the right; nothing is written before Ctrl+S."""

    title = "Answer"
    keys = (
        ("Up, Down, PageUp, PageDown", "from line to line; Home and End to the first and the last"),
        ("Space", "strike the line out, or take it in again"),
        ("Ctrl+S", "write the file"),
        ("Esc", "back; nothing is written"),
    )

    def __init__(
        self, app: Host, assignment: str, title: str, today: Callable[[], date] = date.today
    ) -> None:
        super().__init__(app)
        self.pack_title, self._today = title, today
        self.draft, self._read = AnswerDraft(assignment, app.player), False
        self.tells = False  # whether the fields of a drill outside are open
        self.form = OutsideForm(today(), self._told_outside)
        self._count = TextBlock("", "label", "muted")
        self._name = TextField(
            "Name or code", self.draft.pupil, self._rename, most=40,
            tooltip="What your coach knows you by; a code will do.",
        )  # fmt: skip
        self._words = TextArea("Your words", "", self._say, rows=3, most=4000)
        self._write = Button("Write the file", self.write, kind="main", hint="Ctrl+S")
        self._back = Button("Back", app.pop, hint="Esc")
        self._acts = Row([self._write, self._back])
        self._left, self._right = Column([]), Column([])
        self._lines = LineList((), self._is_struck, self.turn)
        self._beside = True
        player = app.player
        job = asked_beside(app.book, lambda book: draft_of(book, player, assignment))
        app.worker.ask(CHANNEL, job, self._hear)

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._left, self._right, self._acts) if self._beside else (self._left, self._acts)

    # ---- what is on it

    def _hear(self, answer: Answer) -> None:
        """The lines are there; a name or words given meanwhile stay."""
        if answer.fresh and isinstance(answer.value, AnswerDraft):
            now = self.draft
            self.draft = replace(answer.value, pupil=now.pupil, speaks=now.speaks, words=now.words)
            self._read = True
            self._fill_lines()
            if self.app.screen is self:
                self.app.arrange()
                if now.pupil == self.app.player and self.app.focus.widget in (None, self._name):
                    self.app.focus.first((self._lines,))  # unless somebody has begun to write

    def _fill_lines(self) -> None:
        draft, units, at = self.draft, UNIT_SYSTEMS[self.app.settings.units], self._lines.at
        told = [line_words(one, units) for one in draft.attempts]
        told += [outside_line_words(*one) for one in draft.outside]
        self._lines = LineList(told, self._is_struck, self.turn)
        self._lines.at = at
        self._counted()

    def _is_struck(self, number: int) -> bool:
        """Lines are counted on from the attempts to the drills outside."""
        outside = number - len(self.draft.attempts)
        return number in self.draft.struck if outside < 0 else outside in self.draft.struck_outside

    def _counted(self) -> None:
        self._count.label = counted_lines(self.draft.kept, self.draft.left_out)

    def _head(self) -> list[Widget]:
        parent = [TextBlock(ASKS_PARENT, "strong")] if self.app.settings.detail == "junior" else []
        heading = Heading(f"Answer: {self.pack_title}")
        if not self._read:
            return [heading, *parent, TextBlock(BEING_READ)]
        nothing = [] if self._lines.lines else [TextBlock(NOTHING_YET)]
        attempts, outside = self.draft.too_many
        limits = (limit_words(attempts, MOST_LINES), limit_words(outside, MOST_OUTSIDE, "drills outside"))
        limited = [TextBlock(words) for words in limits if words]
        about = TextBlock(ALSO_IN_IT, "small", "muted")
        return [heading, *parent, self._count, *limited, about, *nothing]

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
        """A line in or out, counted as in `_is_struck`."""
        outside = number - len(self.draft.attempts)
        self.draft = self.draft.turned(number) if outside < 0 else self.draft.turned_outside(outside)
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
        if not self._read:
            self.app.say(BEING_READ)
            return
        try:
            file = write_draft(self.draft, self._today())
        except AnswerError as error:
            self.app.say(first(error.problems))
        except HandoutError as error:
            self.app.say(str(error))
        else:
            self._acts = Row([self._write, self._back, *file_buttons(self.app, file)])
            self.app.arrange()
            self.app.say(WRITTEN.format(file=file))

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_ESCAPE:
            self.app.pop()
        elif event.key == pygame.K_s and event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META):
            self.write()
        else:
            return self.scrolls(event)
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
            self._left = Column([*self._head(), self._lines], 0.5)
            self._right = Column(self._rest(), 1.0)
            self._right.offset = beside
            self._right.place(right, theme)
        else:
            left = body
            self._left = Column([*self._head(), self._lines, *self._rest()], 0.5)
        self._left.offset = at
        self._left.place(left, theme)
