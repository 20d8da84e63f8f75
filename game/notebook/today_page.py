"""Today: reviews that are due and the drill, how much of it is done, and the next shot to play."""

from collections import Counter
from collections.abc import Callable
from datetime import date

import pygame

from game.draw.camera import Rect
from game.draw.palette import mix
from game.library.notebook.pages import history, past_of, results_of
from game.notebook.day_made import DayMade, day_job
from game.notebook.day_track import DayTrack
from game.notebook.practice_list import PractisedTask
from game.play import Play, Practice, begin, task_lines
from game.text.notebook import day_heading, planned_words, task_title, why_words
from game.ui import Button, Column, Heading, Pair, Row, TextBlock, Theme, Widget, paint
from game.ui.boxes import COLUMN_PAD
from game.ui.screen import Host
from game.ui.work import Answer
from levels.difficulty import at_step, step_after
from levels.practice import BLOCK, Planned

__all__ = ["TodayPage"]

AIR = 1.5  # steps over and under what stands on the card
MEASURE = 120.0  # steps of the rhythm the page is wide at most
COMING = 4  # of what comes back later that are named
THINKS = "Your plan is being made."
CHANNEL = "plan of the day"
MOST_A_DAY = 500  # shots of a day that are looked at, assumed
ABOUT = (
    "First what is due for review, mixed; then a drill of what is not yet passed: "
    f"{BLOCK} shots of one task, {BLOCK} in turn, {BLOCK} mixed. It is there to be left: any shot counts."
)
JUNIOR_ABOUT = "First what comes back today. Then what you have not passed yet: again and again, and in turn."


class NextCard(Column):
    """What is next, on a ground of its own, with air about it."""

    @staticmethod
    def _room(theme: Theme, rect: Rect) -> Rect:
        return Rect(
            rect.x + 2 * theme.gap, rect.y + AIR * theme.gap, rect.w - 4 * theme.gap,
            rect.h - 2 * AIR * theme.gap,
        )  # fmt: skip

    def height(self, theme: Theme, width: float) -> float:
        return super().height(theme, width) + 2 * (AIR - COLUMN_PAD) * theme.gap

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        fill = mix(theme.palette.paper, theme.palette.green, 0.16)
        paint.box(surface, self.rect, fill, theme.palette.rule, theme.radius, theme.line)
        super().draw(surface, theme)


class TodayPage:
    """The plan, made of the notebook and the library; a task opens at the step its results have earned."""

    def __init__(
        self, app: Host, today: Callable[[], date], on_made: Callable[[], None] = lambda: None
    ) -> None:  # fmt: skip
        """`on_made` hears when the plan is there, for it is made beside the picture."""
        self.app, self._today, self.on_made = app, today, on_made
        self.made: DayMade | None = None
        self._open: Play | None = None  # the shot of the plan that was opened last
        self.shots: tuple[Planned, ...] = ()  # of the whole day
        self.done: tuple[bool, ...] = ()
        self.left: tuple[Planned, ...] = ()
        self._column = Column([TextBlock(THINKS, "body", "muted")])
        self._go = Button("Play the next one", self.play, kind="main", hint="Enter")
        self._laid: tuple[Rect, Theme] | None = None

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._column,)

    def fill(self) -> None:
        """Have the plan made beside the picture; one of this day and player is shown meanwhile."""
        app, today = self.app, self._today()
        made = self.made
        if made and (made.player, made.day, made.junior) != (app.player, today, self._junior):
            self.made, self.left = None, ()
            self._column = Column([TextBlock(THINKS, "body", "muted")])
        app.worker.ask(CHANNEL, day_job(app.book, app.player, today, self._junior), self._hear)
        if self.made:
            self._tick()

    def _hear(self, answer: Answer) -> None:
        if not answer.fresh or not isinstance(answer.value, DayMade):
            return
        self.made = answer.value
        self._tick()
        if self._laid:
            self.layout(*self._laid)
            self.app.focus.look_again()
            self.on_made()

    def _tick(self) -> None:
        """Which of the planned shots were played today."""
        assert self.made
        app, plan = self.app, self.made.plan
        played = Counter(
            (one.task.name, one.part)
            for one in history(app.book, app.player, day=self.made.day, size=MOST_A_DAY)
        )  # fmt: skip
        self.shots = (*plan.reviews, *plan.drill)
        self.done = _ticked(self.shots, played)
        self.left = tuple(shot for shot, done in zip(self.shots, self.done, strict=True) if not done)
        self._column = Column(self._items(plan.rhythm.minutes), 1.5)

    @property
    def _junior(self) -> bool:
        return self.app.settings.detail == "junior"

    @property
    def tasks(self) -> dict[str, PractisedTask]:
        """Every task by name."""
        return self.made.tasks if self.made else {}

    def _items(self, minutes: int) -> list[Widget]:
        played, whole = sum(self.done), len(self.shots)
        items: list[Widget] = [
            Heading(f"{played} of {whole} shots are played" if whole else "Nothing is due today"),
            *([DayTrack(self.shots, self.done)] if whole else []),
        ]
        if self.left:
            items.append(self._card(self.left[0]))
        else:
            items.append(TextBlock("The rest of the day is yours: play what you like.", "label"))
        if coming := self._coming():
            items += [Heading("Coming back"), *coming]
        rest = f"A rest is proposed after {minutes} minutes."
        about = f"{JUNIOR_ABOUT if self._junior else ABOUT} {rest}"
        return [*items, TextBlock(about, "small", "muted")]

    def _card(self, planned: Planned) -> Widget:
        """The next shot: what, in which part, why now, and what it asks."""
        task, yards = self.tasks[planned.task], self.app.settings.units == "yd"
        step = self._step(task)
        told = planned_words(planned.part, step)
        asked = " ".join(task_lines(at_step(task.scenario, step).goal, self._junior, not self._junior, yards))
        end = "" if told.endswith("?") else "."
        said = TextBlock(f"{told[:1].upper()}{told[1:]}{end} {self.why(planned)}")
        return NextCard([
            Heading(task_title(task.scenario.title)), said,
            TextBlock(asked, "label", "muted"), Row([self._go]),
        ], 1.25)  # fmt: skip

    def why(self, planned: Planned) -> str:
        """Why this shot is next, in a sentence."""
        assert self.made
        due, passed = self.made.due.get(planned.task), self.made.passed.get(planned.task)
        ago = (self.made.day - passed).days if passed else None
        past = past_of(self.app.book, self.app.player, planned.task)
        return why_words(planned.part, due.stage if due else 0, ago, past.tries, past.done)

    def _coming(self) -> list[Widget]:
        """What comes back on later days, the next first."""
        assert self.made
        today = self.made.day
        later = sorted((one.due, one.task) for one in self.made.due.values() if one.due > today)[:COMING]
        return [
            Pair(day_heading(day, today), task_title(self.tasks[key].scenario.title)) for day, key in later
        ]

    def _step(self, task: PractisedTask) -> int:
        """How hard it is set by now. An assigned task stays as the coach set it."""
        return 0 if task.assignment else step_after(results_of(self.app.book, self.app.player, task.key))

    def play(self) -> None:
        """Open the next planned shot; from its result one key goes on to the one after it."""
        if not self.left:
            return
        app, planned = self.app, self.left[0]
        task = self.tasks[planned.task]
        scenario = at_step(task.scenario, self._step(task))
        practice = Practice(app.player, planned.part, task.assignment)
        past = past_of(app.book, app.player, task.key)
        self._open = Play(app, begin(task.key, scenario, self._junior, past, practice), on_next=self._onward)
        app.push(self._open)

    def _onward(self) -> None:
        """On with the plan: the same task goes on where it stands, another opens over the page."""
        self._tick()
        if self.left and self._open and self._stands(self.left[0], self._open):
            self._open.again()
            return
        self.app.pop()
        if self.left:
            self.play()

    def _stands(self, planned: Planned, front: Play) -> bool:
        """Whether the shot is of the scenario in front, in the same part and set as hard."""
        task, r = self.tasks[planned.task], front.r
        scenario = at_step(task.scenario, self._step(task))
        return (r.key, r.practice.part, r.scenario) == (planned.task, planned.part, scenario)

    def layout(self, box: Rect, theme: Theme) -> None:
        """One column, no wider than is easily read."""
        self._laid = (box, theme)
        self._column.place(Rect(box.x, box.y, min(box.w, MEASURE * theme.gap), box.h), theme)

    def update(self) -> None:
        """Nothing moves by itself."""


def _ticked(whole: tuple[Planned, ...], played: Counter[tuple[str, str]]) -> tuple[bool, ...]:
    """Which shots of the plan were played, counted in its order."""
    rest, out = Counter(played), []
    for planned in whole:
        key = (planned.task, planned.part)
        out.append(rest[key] > 0)
        rest[key] -= 1
    return tuple(out)
