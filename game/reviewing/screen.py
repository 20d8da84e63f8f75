"""The review: a pupil's answer on one page, read in two minutes, and the next assignment filled in."""

from collections.abc import Callable
from datetime import date
from functools import partial
from itertools import count
from pathlib import Path

import pygame

from game.bench import shot_on_bench
from game.builder import hand_on
from game.draw.camera import Rect
from game.library.assignments import is_answer
from game.reviewing.next_pack import next_pack, proposed_titles
from game.reviewing.reading import (
    ReadAnswer,
    from_library,
    read_for_review,
    shot_of_line,
    tries_of,
    with_pack,
)
from game.reviewing.task_row import TaskRow
from game.text.answered import (
    HONEST,
    MARKS_LEGEND,
    filled_words,
    next_words,
    plan_done_words,
    reviewed_heading,
    shown_error_words,
    waiting_words,
)
from game.text.cautions import PRESET_NOTE
from game.text.units import UNIT_SYSTEMS
from game.ui import Button, Column, Heading, Pair, Row, TextBlock, Theme, Widget, layout
from game.ui.clipboard import given_path
from game.ui.file_buttons import file_buttons
from game.ui.screen import Host, Screen
from game.ui.work import Answer
from levels.review import TaskReview

__all__ = ["ReviewPage", "review_page"]

CHANNEL = "answer file"
_NUMBERS = count()
ROOMY = 110.0  # steps of the rhythm from which the plan stands beside the tasks
FEW_WORDS = 300  # letters of the pupil's own that stand over the tasks at most, assumed
SIDE = 0.34  # share of the width it then has


def review_page(app: Host, path: str) -> None:
    """Read a pupil's answer beside the picture and open its review; what is none is told in one sentence.
    Several lie over each other: Esc leads from one to the next."""
    home = app.home

    def hear(answer: Answer) -> None:
        if answer.problem or not answer.fresh:
            return
        if isinstance(answer.value, str):
            app.say(answer.value)
        else:
            app.push(ReviewPage(app, answer.value))

    # a channel each: none of several that were dropped together is left out
    app.worker.ask(f"{CHANNEL} {next(_NUMBERS)}", lambda: read_for_review(home, path), hear)


class ReviewPage(Screen):
    """Tasks with their tries at the left; plan and done, and what comes next, at the right."""

    title = "Review"
    keys = (
        ("Up, Down", "from task to task"),
        ("Enter", "show the shot of the set-up error that came most often, on the Bench"),
        ("S", "the next assignment, filled in: change it and hand it out"),
        ("drop a file here", "another answer, or the pack this one waits for; Ctrl+V takes a copied name"),
        ("Esc", "back"),
    )  # fmt: skip

    def __init__(self, app: Host, read: ReadAnswer, today: Callable[[], date] = date.today) -> None:
        super().__init__(app)
        self.read, self._today = read, today
        self.saved: Path | None = None
        self._tasks, self._side = Column([]), Column([])
        self._save = Button("Next assignment", self.hand_on, kind="main", hint="S")
        self._back = Button("Back", app.pop, hint="Esc")
        self._acts = Row([self._back])
        self._side_shows, self._goes_on = True, False
        self._rows: list[Widget] = []
        self._plan: list[Widget] = []
        self._fill()

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._tasks, self._side, self._acts) if self._side_shows else (self._acts, self._tasks)

    def show(self, read: ReadAnswer) -> None:
        """Another answer, or the same one with its pack."""
        self.read, self.saved = read, None
        self._fill()
        self.app.arrange()
        self.app.focus.set(None)
        self.app.focus.first(self.widgets)

    # ---- what is on it

    def _fill(self) -> None:
        self._units = UNIT_SYSTEMS[self.app.settings.units]
        found = self.read.found
        if found is None:
            head, how = waiting_words(self.read.answer)
            self._rows, self._plan = [Heading(head), TextBlock(how)], []
            self._goes_on = False
            self._fill_acts()
            return
        tries = tries_of(self.read.answer, found)
        widest = max((gap for t in found.tasks for gap in (t.first_gap, t.last_gap) if gap), default=0.0)
        self._rows = [
            Heading(reviewed_heading(found)),
            *(TaskRow(task, tries[task.name], widest, self._units, self.show_error) for task in found.tasks),
        ]
        if found.words:  # many of them stand below: the tasks are read at once
            at = 1 if len(found.words) <= FEW_WORDS else len(self._rows)
            self._rows.insert(at, TextBlock(f"“{found.words}”", "label"))
        again, after = proposed_titles(self.read)
        self._plan = [
            Heading("Planned and done"),
            *(Pair(term, words) for term, words in plan_done_words(found)),
            Heading("Next assignment"),
            Pair("Repeat", next_words(again)),
            Pair("Next", next_words(after)),
            TextBlock(f"{MARKS_LEGEND}\n{HONEST} {PRESET_NOTE}", "small", "muted"),
        ]
        self._goes_on = bool(again or after)
        self._fill_acts()

    def _fill_acts(self) -> None:
        """Back, and the way to the next assignment, or what is done with it once it is written. Where the
        focus begins on them, Enter opens nothing yet."""
        if self.saved is not None:
            self._acts = Row([self._back, *file_buttons(self.app, self.saved)])
        elif self._goes_on:
            self._acts = Row([self._save, self._back] if self._side_shows else [self._back, self._save])
        else:
            self._acts = Row([self._back])

    # ---- acts

    def show_error(self, task: TaskReview) -> None:
        """The shot of that task's error, played again, on the Bench, which says what it is an example of."""

        def hear(answer: Answer) -> None:
            if answer.value is not None and answer.fresh and self.app.screen is self:
                pupil, (shown, wanted) = self.read.answer.pupil, answer.value
                self.app.push(shot_on_bench(self.app, shown, wanted, pupil))
                self.app.say(shown_error_words(pupil, task))

        self.app.worker.ask("error shot", partial(shot_of_line, self.read, task), hear)

    def hand_on(self) -> None:
        """The next assignment, filled in, on the page of what is handed out; once."""
        app, pack, made = self.app, self.read.pack, next_pack(self.read, self._today())
        if self.saved is not None:
            app.say(f"The next assignment is in {self.saved} already.")
        elif made is None or pack is None:
            app.say("There is no next assignment: nothing is left to repeat or to add.")
        elif app.home is None:
            app.say("This window keeps no files, so that nothing can be handed out from it.")
        else:
            hand_on(app, app.home, pack, made, filled_words(self.read.answer), self._written)

    def _written(self, file: Path) -> None:
        self.saved = file
        self._fill_acts()
        self.app.arrange()

    def take(self, path: str) -> None:
        """An answer, or the pack that this one waits for."""
        if not path:
            self.app.say("Nothing is copied. Copy the name of an answer or a pack, then press Ctrl+V.")
        elif is_answer(path):
            review_page(self.app, path)
        elif self.read.found is None:
            job = partial(with_pack, self.app.home, self.read.answer, path)
            self.app.worker.ask(f"{CHANNEL} pack", job, self._hear_pack)
        else:
            self.app.say("This page takes answers of players; drop a pack on Play or on the Builder.")

    def _hear_pack(self, answer: Answer) -> None:
        if answer.problem or not answer.fresh:
            return
        if isinstance(answer.value, str):
            self.app.say(answer.value)
        elif answer.value is not None and self.app.screen is self:
            self.show(answer.value)

    def handle(self, event: pygame.event.Event) -> bool:
        if (path := given_path(event)) is not None:
            self.take(path)
            return True
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_ESCAPE:
            self.app.pop()
        elif event.key == pygame.K_s and self.read.found is not None:
            self.hand_on()
        else:
            return self._tasks.handle(event)
        return True

    # ---- placing

    def enter(self) -> None:
        if self.read.found is None and (home := self.app.home):  # meanwhile its pack may have been given
            answer = self.read.answer
            self.app.worker.ask(f"{CHANNEL} pack", lambda: from_library(home, answer), self._hear_pack)
        if self._units is not UNIT_SYSTEMS[self.app.settings.units]:
            self._fill()

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        inner = Rect(box.x + gap, box.y + 0.5 * gap, box.w - 2 * gap, box.h - 1.5 * gap)
        self._side_shows = bool(self._plan) and inner.w >= ROOMY * gap
        if self._save in self._acts.items:
            self._fill_acts()
        foot = self._acts.height(theme, inner.w - 2 * gap)
        _, body, low = layout.take(inner, bottom=foot, gap=gap)
        self._acts.place(Rect(low.x + gap, low.y, low.w - 2 * gap, low.h), theme)
        if self._side_shows:
            tasks, side = layout.split(body, (1.0 - SIDE, SIDE), 2 * gap)
            self._refilled(self._rows, self._plan)
            self._side.place(side, theme)
        else:
            tasks = body
            self._refilled([*self._rows, *self._plan], [])
        self._tasks.place(tasks, theme)

    def _refilled(self, tasks: list[Widget], side: list[Widget]) -> None:
        """Both columns with these in them; how far they were scrolled stays."""
        at, beside = self._tasks.offset, self._side.offset
        self._tasks, self._side = Column(tasks, 1.0), Column(side, 1.0)
        self._tasks.offset, self._side.offset = at, beside
