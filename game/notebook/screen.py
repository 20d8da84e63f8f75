"""The notebook on the screen: what was played, what it says, what is next, and who plays."""

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Protocol

import pygame

from game.bench import shot_on_bench
from game.draw.camera import Rect
from game.library.notebook.copies import keep_copy
from game.library.notebook.mending import mend
from game.library.notebook.pages import times_of_day
from game.notebook.history_page import HistoryPage
from game.notebook.players_page import PlayersPage
from game.notebook.strength_page import StrengthPage
from game.notebook.today_page import TodayPage
from game.shot_view.session import Shown, shown_with_spray
from game.text.notebook import LAW_CHANGED, nudge_words
from game.ui import Button, Row, TextBlock, Theme, Widget, layout
from game.ui.screen import Host, Screen
from game.ui.work import Answer
from levels.attempts import Attempt, replayed, same_as_kept
from levels.practice import nudge, rhythm_of

__all__ = ["NotebookScreen"]

LOOK = 3.0  # s between two looks whether another window has written, assumed
COPY, MEND, AGAIN = "copy of the notebook", "mending", "kept shot"  # channels of the worker


class _Page(Protocol):
    @property
    def widgets(self) -> tuple[Widget, ...]: ...
    def fill(self) -> None: ...
    def layout(self, box: Rect, theme: Theme) -> None: ...
    def update(self) -> None: ...


class NotebookScreen(Screen):
    """Four pages under tabs. It is read anew on coming here, and when another window has written."""

    title = "Notebook"
    keys = (
        ("PageUp, PageDown", "scroll; Ctrl+PageUp and Ctrl+PageDown go to another page of the notebook"),
        ("arrows", "from shot to shot, or over the map"),
        ("Enter", "show the shot again on the Bench; on the plan, play what is next"),
        ("Home, End", "newer and older shots, where there are more"),
    )

    def __init__(self, app: Host, today: Callable[[], date] = date.today) -> None:
        super().__init__(app)
        self._today = today
        self.history = HistoryPage(app, self.show_again, today)
        self.today = TodayPage(app, today)
        self.pages: dict[str, _Page] = {
            "History": self.history, "Strengths": StrengthPage(app), "Today": self.today,
            "Players": PlayersPage(app, self._again),
        }  # fmt: skip
        self.at = "History"
        self._tabs = Row([
            Button(name, partial(self.turn, name), kind="tab", group="pages") for name in self.pages
        ])  # fmt: skip
        self._trouble = TextBlock("", "label")
        self._mend = Button("Mend it", self.mend, tooltip="From the last good copy and every sound row.")
        self._box, self._seen, self._since = Rect(0, 0, 1, 1), 0, 0.0
        self._nudged = False

    @property
    def page(self) -> _Page:
        """The one in front."""
        return self.pages[self.at]

    @property
    def widgets(self) -> tuple[Widget, ...]:
        trouble: tuple[Widget, ...] = ()
        if self._trouble.label:
            mends = self.app.book.state == "damaged" and self.app.home is not None
            trouble = (self._trouble, self._mend) if mends else (self._trouble,)
        return (*self.page.widgets, *trouble, self._tabs)

    def enter(self) -> None:
        app = self.app
        if app.home is not None:
            home, today = app.home, self._today()
            app.worker.ask(COPY, lambda: keep_copy(home, today))
        self._fill()
        self._propose_rest()

    def leave(self) -> None:
        self.history.keep_lines()
        self.history.tracks.stop()

    def _fill(self) -> None:
        """Read the page in front anew, and what is wrong with the file."""
        self.history.keep_lines()
        book = self.app.book
        held = f" {len(book.held)} shots wait in memory." if len(book.held) > 1 else ""
        self._trouble.label = f"{book.problem}{held}" if book.problem else ""
        self._seen = self._version()
        for name, tab in zip(self.pages, self._tabs.items, strict=True):
            assert isinstance(tab, Button)
            tab.current = name == self.at
        self.page.fill()

    def _again(self) -> None:
        """The same page read anew, with the focus where it was in order."""
        app = self.app
        order = app.focus.order()
        place = order.index(app.focus.widget) if app.focus.widget in order else -1
        self._fill()
        if app.screen is not self:
            return
        app.arrange()
        order = app.focus.order()
        if app.focus.widget not in order:
            app.focus.set(order[min(place, len(order) - 1)] if place >= 0 and order else None)
        app.focus.look_again()

    def turn(self, name: str) -> None:
        """To another page."""
        if name != self.at:
            self.at = name
            self._fill()
            self.app.arrange()

    def _version(self) -> int:
        """Changes when another window has written."""
        with self.app.book.reading() as connection:
            return int(connection.execute("PRAGMA data_version").fetchone()[0])
        return 0

    @property
    def _typing(self) -> bool:
        focused = self.app.focus.widget
        return focused is not None and focused.typing

    # ---- what can be done

    def show_again(self, one: Attempt) -> None:
        """That very shot on the Bench, played again beside the picture."""
        self.app.worker.ask(AGAIN, lambda: shown_with_spray(replayed(one)), partial(self._hear_again, one))

    def _hear_again(self, one: Attempt, answer: Answer) -> None:
        if not answer.fresh or not isinstance(answer.value, Shown) or self.app.screen is not self:
            return
        self.app.push(shot_on_bench(self.app, answer.value))
        if not same_as_kept(one, answer.value.shot):
            self.app.say(LAW_CHANGED)

    def mend(self) -> None:
        """A new notebook out of the damaged one; the damaged file stays as it is."""
        if (home := self.app.home) is not None:
            self.app.say("The notebook is being mended.")
            self.app.worker.ask(MEND, lambda: mend(home).sentence, self._hear_mended)

    def _hear_mended(self, answer: Answer) -> None:
        if answer.problem:
            return
        self.app.book.reopen()
        self.app.say(answer.value)
        self._again()

    def _propose_rest(self) -> None:
        """After a long sitting one sentence, once; it stops nothing."""
        app = self.app
        junior = app.settings.detail == "junior"
        times = times_of_day(app.book, app.player, self._today())
        due = nudge(times, junior)
        if due and not self._nudged:
            app.say(nudge_words(rhythm_of(junior)))
        self._nudged = due

    # ---- the frame's calls

    def layout(self, box: Rect, theme: Theme) -> None:
        self._box, gap = box, theme.gap
        inner = Rect(box.x + 2 * gap, box.y + gap / 2, box.w - 4 * gap, box.h - gap)
        head, rest, _ = layout.take(inner, top=self._tabs.height(theme, inner.w), gap=gap)
        self._tabs.place(head, theme)
        if self._trouble.label:
            wide = self._mend.width(theme) if self._mend in self.widgets else 0.0
            room = rest.w - wide - gap
            tall = max(self._trouble.height(theme, room), theme.target if wide else 0.0)
            top, rest, _ = layout.take(rest, top=tall, gap=gap)
            self._trouble.place(Rect(top.x, top.y, room, tall), theme)
            self._mend.place(Rect(top.right - wide, top.y, wide, theme.target), theme)
        self.page.layout(rest, theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        pages = (pygame.K_PAGEUP, pygame.K_PAGEDOWN)
        if event.key in pages and event.mod & pygame.KMOD_CTRL:
            names = list(self.pages)
            self.turn(names[(names.index(self.at) + (1 if event.key == pages[1] else -1)) % len(names)])
        elif event.key in (pygame.K_HOME, pygame.K_END) and self.at == "History":
            return self.history.turn(-1 if event.key == pygame.K_HOME else 1)
        elif event.key in (pygame.K_RETURN, pygame.K_KP_ENTER) and self.at == "Today":
            self.today.play()
        else:
            return any(widget.handle(event) for widget in self.page.widgets if not widget.focusable)
        return True

    def update(self, dt: float) -> None:
        self.page.update()
        self._since += dt
        if self._since >= LOOK:
            self._since = 0.0
            if self._version() != self._seen and not self._typing:
                self._again()
