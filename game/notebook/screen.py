"""The notebook on the screen: what was played, what it says, what is next, and who plays."""

from collections.abc import Callable
from datetime import UTC, date, datetime
from functools import partial
from time import monotonic
from typing import Protocol

import pygame

from game.bench import shot_on_bench
from game.draw.camera import Rect
from game.library.notebook.copies import keep_copy
from game.library.notebook.mending import mend
from game.notebook.history_page import HistoryPage
from game.notebook.players_page import PlayersPage
from game.notebook.strength_page import StrengthPage
from game.notebook.today_page import TodayPage
from game.notebook.welcome import Welcome
from game.shot_view.session import Shown, shown_with_spray
from game.text.notebook import LAW_CHANGED
from game.ui import Button, Row, TextBlock, Theme, Widget, layout
from game.ui.rest import proposes_rest
from game.ui.screen import Host, Screen
from game.ui.work import Answer
from levels.attempts import Attempt, replayed, same_as_kept

__all__ = ["NotebookScreen"]

MEND_NOW = "Mend from the last good copy and the sound rows"
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
        ("1, 2, 3, 4", "history, strengths, today, players; so do Ctrl+PageUp and Ctrl+PageDown"),
        ("PageUp, PageDown", "scroll"),
        ("arrows", "from shot to shot, or over the map"),
        ("Enter", "show the shot again on the Bench; on the plan, play what is next"),
        ("Home, End", "newer and older shots, where there are more"),
    )

    def __init__(
        self, app: Host, today: Callable[[], date] = date.today, clock: Callable[[], float] = monotonic,
        now: Callable[[], datetime] = lambda: datetime.now(UTC),
    ) -> None:  # fmt: skip
        super().__init__(app)
        self._now = now
        self._today, self._clock = today, clock
        self.history = HistoryPage(app, self.show_again, today)
        self.today = TodayPage(app, today, self._planned)
        self.pages: dict[str, _Page] = {
            "History": self.history, "Strengths": StrengthPage(app), "Today": self.today,
            "Players": PlayersPage(app, self._again),
        }  # fmt: skip
        self.at = "History"
        self._tabs = Row([
            Button(name, partial(self.turn, name), kind="tab", hint=f"{i}", group="pages")
            for i, name in enumerate(self.pages, 1)
        ])  # fmt: skip
        self._trouble = TextBlock("", "label")
        self._mend = Button(MEND_NOW, self.mend, kind="main")
        self._welcome = Welcome(app)
        self._seen: tuple[object, ...] = ()  # of the file as last read
        self._looked = 0.0
        self._copied: date | None = None
        self._mending = False
        self._fresh = False  # just come here: the focus is still to be put where one begins

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
        shown = self._welcome.widgets if self.empty else self.page.widgets
        return (*shown, *trouble, self._tabs)

    @property
    def empty(self) -> bool:
        """Whether there is nothing yet but who plays; of a damaged file nobody can say so."""
        whole = self.app.book.state != "damaged"
        return whole and self.at != "Players" and self.history.empty

    def enter(self) -> None:
        self._look_again()
        self._fill()
        self._fresh = True
        proposes_rest(self.app, self._now())

    def _have_copied(self) -> None:
        """The day's copy, asked for once the page is read: both read the file, and one is waited for."""
        home, today = self.app.home, self._today()
        if home is not None and self._copied != today and self.app.book.state == "open":
            self._copied = today
            self.app.worker.ask(COPY, lambda: keep_copy(home, today))

    def _look_again(self) -> None:
        """A file that could not be used may be well by now: room was made, or another window mended it."""
        if self.app.book.state in ("away", "damaged"):
            self.app.book.reopen()

    def leave(self) -> None:
        self.history.keep_lines()
        self.history.tracks.stop()

    def _fill(self) -> None:
        """Read the page in front anew, and what is wrong with the file."""
        self.history.keep_lines()
        book = self.app.book
        self.history.look()
        count = len(book.held)
        held = f" {count} shot{' waits' if count == 1 else 's wait'}." if count else ""
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
            self.focus_first()

    def _planned(self) -> None:
        """The plan is there: its one next step gets the focus, unless one has gone elsewhere meanwhile."""
        here = self.app.screen is self and self.at == "Today"
        if here and (self.app.focus.widget is None or self.app.focus.widget in self._tabs.items):
            self.focus_first()

    def focus_first(self) -> None:
        """The focus where one begins on this page: on the newest shot, never in a line to be written."""
        first: Widget | None = self.history.first if self.at == "History" and not self.empty else None
        if self._mend in self.widgets:
            first = self._mend
        if first:
            self.app.focus.set(first)
        else:
            self.app.focus.first(self.widgets)

    def _version(self) -> tuple[object, ...]:
        """Changes when another window has written."""
        book, number = self.app.book, 0
        with book.reading() as connection:
            (number,) = connection.execute("PRAGMA data_version").fetchone()
        return book.path, book.state, number, len(book.held)

    @property
    def _typing(self) -> bool:
        focused = self.app.focus.widget
        return focused is not None and focused.typing

    # ---- what can be done

    def show_again(self, one: Attempt) -> None:
        """That very shot on the Bench, played again beside the picture."""

        def job() -> tuple[Shown, bool]:
            shot = replayed(one)
            return shown_with_spray(shot), same_as_kept(one, shot)

        self.app.worker.ask(AGAIN, job, self._hear_again)

    def _hear_again(self, answer: Answer) -> None:
        if not answer.fresh or answer.value is None or self.app.screen is not self:
            return
        shown, same = answer.value
        self.app.push(shot_on_bench(self.app, shown))
        if not same:
            self.app.say(LAW_CHANGED)

    def mend(self) -> None:
        """A new notebook out of the damaged one; the damaged file stays as it is."""
        if (home := self.app.home) is not None and not self._mending:
            self._mending = True
            self.app.say("The notebook is being mended.")
            self.app.worker.ask(MEND, lambda: mend(home).sentence, self._hear_mended)

    def _hear_mended(self, answer: Answer) -> None:
        self._mending = False
        if answer.problem:
            return
        self.app.book.reopen()
        self.app.say(answer.value)
        self._again()

    # ---- the frame's calls

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        inner = Rect(box.x + 2 * gap, box.y + gap / 2, box.w - 4 * gap, box.h - gap)
        head, rest, _ = layout.take(inner, top=self._tabs.height(theme, inner.w), gap=gap)
        self._tabs.place(head, theme)
        if self._trouble.label:
            rest = self._place_trouble(rest, theme)
        if self.empty:
            self._welcome.place(rest, theme)
        else:
            self.page.layout(rest, theme)

    def _place_trouble(self, box: Rect, theme: Theme) -> Rect:
        """What is wrong and the button that mends it over the page; what is left for that."""
        words, rest, _ = layout.take(box, top=self._trouble.height(theme, box.w), gap=theme.gap)
        self._trouble.place(words, theme)
        if self._mend not in self.widgets:
            return rest
        wide = min(self._mend.width(theme), rest.w)
        row, rest, _ = layout.take(rest, top=self._mend.height(theme, wide), gap=theme.gap)
        self._mend.place(Rect(row.x, row.y, wide, row.h), theme)
        return rest

    def draw(self, surface: pygame.Surface) -> None:
        if self.empty:
            self._welcome.draw(surface, self.app.theme)
        super().draw(surface)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        pages = (pygame.K_PAGEUP, pygame.K_PAGEDOWN)
        if self.empty and event.key in (pygame.K_RETURN, pygame.K_KP_ENTER):
            return False
        if pygame.K_1 <= event.key <= pygame.K_4 and not event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            self.turn(list(self.pages)[event.key - pygame.K_1])
        elif event.key in pages and event.mod & pygame.KMOD_CTRL:
            names = list(self.pages)
            self.turn(names[(names.index(self.at) + (1 if event.key == pages[1] else -1)) % len(names)])
        elif event.key in (pygame.K_HOME, pygame.K_END) and self.at == "History":
            return self.history.turn(-1 if event.key == pygame.K_HOME else 1)
        elif event.key in (pygame.K_RETURN, pygame.K_KP_ENTER) and self.at == "Today":
            self.today.play()
        else:
            return any(widget.handle(event) for widget in self.page.widgets if not widget.focusable)
        return True

    @property
    def due(self) -> float:
        return LOOK

    def update(self, dt: float) -> None:
        if self._fresh:  # first the page is drawn: what the worker reads and plays holds the picture up
            self._fresh = False
            self.focus_first()
            return
        self._have_copied()
        if not self.empty:
            self.page.update()
        now = self._clock()
        if now - self._looked < LOOK:
            return
        self._looked = now
        self._look_again()
        if self._version() != self._seen and not self._typing:
            self._again()
