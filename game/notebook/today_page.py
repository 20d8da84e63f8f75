"""Today: reviews that are due and the drill, how much of it is done, and the next shot to play."""

from collections import Counter
from collections.abc import Callable
from datetime import date
from itertools import groupby

from game.draw.camera import Rect
from game.library.notebook.pages import history, past_of, results_of, task_days_of
from game.notebook.practice_list import PractisedTask, practice_list
from game.play import Play, Practice, begin
from game.text.notebook import planned_words, task_title
from game.ui import Button, Column, Heading, Pair, TextBlock, Theme, Widget, layout
from game.ui.screen import Host
from game.ui.work import Answer
from levels.difficulty import at_step, step_after
from levels.practice import BLOCK, DayPlan, Planned, day_plan

__all__ = ["TodayPage"]

MOST_A_DAY = 500  # shots of a day that are looked at, assumed
ABOUT = (
    "First what is due for review, mixed; then a drill of what is not yet passed: "
    f"{BLOCK} shots of one task, {BLOCK} in turn, {BLOCK} mixed. It is there to be left: any shot counts."
)
JUNIOR_ABOUT = "First what comes back today. Then something new: again and again, and in turn."


class TodayPage:
    """The plan, made of the notebook and the library; a task opens at the step its results have earned."""

    def __init__(self, app: Host, today: Callable[[], date]) -> None:
        self.app, self._today = app, today
        self.tasks: dict[str, PractisedTask] = {}
        self.plan: DayPlan | None = None
        self.left: tuple[Planned, ...] = ()
        self._column = Column([TextBlock("Your plan is being made.", "body", "muted")])
        self._go = Button("Play the next one", self.play, kind="main", hint="Enter")
        self._laid: tuple[Rect, Theme] | None = None

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._go, self._column) if self.left else (self._column,)

    def fill(self) -> None:
        """Have the library read beside the picture; the plan follows."""
        home = self.app.home
        self.app.worker.ask("practice list", lambda: practice_list(home), self._hear)
        if self.tasks:
            self._make()

    def _hear(self, answer: Answer) -> None:
        if answer.value is not None and answer.fresh:
            self.tasks = {task.key: task for task in answer.value}
            self._make()
            if self._laid:
                self.layout(*self._laid)
                self.app.focus.look_again()

    def _make(self) -> None:
        """The plan of this day; the same all day for the same notebook."""
        app, today = self.app, self._today()
        self.plan = day_plan(
            tuple(self.tasks), task_days_of(app.book, app.player), today, today.toordinal(), self._junior
        )
        played = Counter(
            (one.task.name, one.part)
            for one in history(app.book, app.player, day=today, size=MOST_A_DAY)
        )  # fmt: skip
        self.left = _left((*self.plan.reviews, *self.plan.drill), played)
        self._column = Column(self._items(), 1.0)

    @property
    def _junior(self) -> bool:
        return self.app.settings.detail == "junior"

    def _items(self) -> list[Widget]:
        assert self.plan
        whole = (*self.plan.reviews, *self.plan.drill)
        done = len(whole) - len(self.left)
        items: list[Widget] = [
            Heading(f"{done} of {len(whole)} shots are played" if whole else "Nothing is due today"),
            TextBlock(JUNIOR_ABOUT if self._junior else ABOUT, "label", "muted"),
        ]
        if self.left:
            items.append(Pair("Next", self._named(self.left[0])))
        for part, shots in groupby(self.left[1:], key=lambda planned: planned.part):
            counted = Counter(planned.task for planned in shots)
            told = "; ".join(
                f"{n} of '{task_title(self.tasks[key].scenario.title)}'" for key, n in counted.items()
            )
            items.append(Pair(planned_words(part, 0).capitalize(), told))
        if not self.left:
            items.append(TextBlock("The rest of the day is yours: play what you like.", "label"))
        rest = f"A rest is proposed after {self.plan.rhythm.minutes} minutes."
        return [*items, TextBlock(rest, "small", "muted")]

    def _named(self, planned: Planned) -> str:
        task = self.tasks[planned.task]
        step = self._step(task)
        return f"{task_title(task.scenario.title)} ({planned_words(planned.part, step)})"

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
        app.push(Play(app, begin(task.key, scenario, self._junior, past, practice), on_next=self._onward))

    def _onward(self) -> None:
        """Back to the plan, and on with it."""
        self.app.pop()
        self._make()
        if self.left:
            self.play()

    def layout(self, box: Rect, theme: Theme) -> None:
        """The plan, and the one next step at its right."""
        self._laid = (box, theme)
        wide = self._go.width(theme)
        if self.left and box.w > 2.5 * wide:
            words, side = layout.split(box, (box.w - wide - 2 * theme.gap, wide), 2 * theme.gap)
            self._go.place(Rect(side.x, side.y + theme.gap, wide, self._go.height(theme, wide)), theme)
        elif self.left:
            tall = self._go.height(theme, box.w)
            head, words, _ = layout.take(box, top=tall, gap=theme.gap)
            self._go.place(head, theme)
        else:
            words = box
        self._column.place(words, theme)

    def update(self) -> None:
        """Nothing moves by itself."""


def _left(whole: tuple[Planned, ...], played: Counter[tuple[str, str]]) -> tuple[Planned, ...]:
    """What of the plan is still to be played, in its order."""
    rest, out = Counter(played), []
    for planned in whole:
        key = (planned.task, planned.part)
        if rest[key]:
            rest[key] -= 1
        else:
            out.append(planned)
    return tuple(out)
