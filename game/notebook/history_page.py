"""The history: every attempt, the newest first, day by day, with a free line for each day."""

from collections.abc import Callable
from datetime import date
from functools import partial

from game.draw.camera import Rect
from game.library.notebook.pages import PAGE, attempts_count, day_lines_of, history
from game.notebook.rows import KeptShotRow
from game.notebook.tracks import Tracks
from game.text.notebook import EMPTY_HISTORY, UNREADABLE, attempts_told, day_heading
from game.text.units import UNIT_SYSTEMS
from game.ui import Button, Column, Heading, Row, TextBlock, Theme, Widget, layout
from game.ui.screen import Host
from game.ui.textfield import TextField
from levels.attempts import Attempt

__all__ = ["HistoryPage"]

LONGEST_LINE = 200  # characters of a day's free line


class HistoryPage:
    """What was played, fetched a page at a time; a search looks in scenario, lie and strike."""

    def __init__(self, app: Host, on_open: Callable[[Attempt], None], today: Callable[[], date]) -> None:
        self.app, self.on_open, self._today = app, on_open, today
        self.tracks = Tracks(app.worker)
        self.page, self.words = 0, ""
        self._search = TextField("", "", self._look_for, empty="Search: scenario, lie or strike", most=80,
                                 tooltip="Words of a scenario, a lie or a strike; Enter goes to the first.",
                                 on_done=self._to_first)  # fmt: skip
        self._column = Column([])
        self._rows: list[KeptShotRow] = []
        self._ways: tuple[int, ...] = ()  # -1 to newer, +1 to older
        self._lines: dict[date, str] = {}
        self._written: dict[tuple[str, date], str] = {}  # by whom and of which day, not yet kept
        self._none = True
        self._player = ""
        self._laid: tuple[Rect, Theme] | None = None

    @property
    def widgets(self) -> tuple[Widget, ...]:
        empty = not self._rows and not self.words
        return (self._column,) if empty else (self._column, self._search)

    @property
    def first(self) -> Widget | None:
        """The newest shot of the page."""
        return self._rows[0] if self._rows else None

    @property
    def empty(self) -> bool:
        """Whether this player has neither a shot nor a line."""
        return self._none

    def look(self) -> None:
        """Whether there is anything at all, for the other pages too."""
        book, player = self.app.book, self.app.player
        self._none = attempts_count(book, player) == 0 and not day_lines_of(book, player)

    def fill(self) -> None:
        """Fetch the page; what is being written in a day's line stays."""
        app, today = self.app, self._today()
        if app.player != self._player:
            self._player, self.page = app.player, 0
        found = history(app.book, app.player, self.page, words=self.words)
        self._lines = day_lines_of(app.book, app.player)
        units, numbers = UNIT_SYSTEMS[app.settings.units], app.settings.detail != "junior"
        items: list[Widget] = []
        self._rows, day = [], None
        if not self.page and not self.words and all(one.day != today for one in found[:1]):
            day = today
            items += [Heading(day_heading(today, today)), self._line(today)]
        for one in found:
            if one.day != day:
                day = one.day
                items += [Heading(day_heading(day, today)), self._line(day)]
            row = KeptShotRow(one, self.tracks.find, lambda one=one: self.on_open(one), units, numbers)  # type: ignore[misc]
            self._rows.append(row)
            items.append(row)
        if not found:
            words = f"Nothing has '{self.words}' in it." if self.words else EMPTY_HISTORY
            words = UNREADABLE if app.book.state == "damaged" else words
            items = [TextBlock(words, "body", "muted")]
        self._column = Column([*items, *self._turning(len(found))], 0.75)

    def _turning(self, found: int) -> list[Widget]:
        """The ways to other pages of the same search, where there are any."""
        total = attempts_count(self.app.book, self.app.player)
        older = found == PAGE and (self.page + 1) * PAGE < total
        self._ways = (*((-1,) if self.page else ()), *((1,) if older else ()))
        named = {-1: ("Newer", "Home"), 1: ("Older", "End")}
        ways = [Button(named[by][0], partial(self._turn, by), hint=named[by][1]) for by in self._ways]
        count = [TextBlock(attempts_told(total), "small", "muted")] if total else []
        return [*([Row(ways)] if ways else []), *count]

    def turn(self, by: int) -> bool:
        """To newer or older attempts; whether there are any."""
        if by not in self._ways:
            return False
        self.page += by
        self._again()
        self._to_first()
        return True

    def _turn(self, by: int) -> None:
        self.turn(by)

    def _line(self, day: date) -> TextField:
        return TextField(
            "", self._lines.get(day, ""), lambda text: self._write(day, text), most=LONGEST_LINE,
            empty="a line for this day: what you noticed", tooltip="One line a day, for yourself.",
            group="days",
        )  # fmt: skip

    def _write(self, day: date, text: str) -> None:
        self._written[(self.app.player, day)] = " ".join(text.split())

    def keep_lines(self) -> None:
        """Write down the days' lines that have changed."""
        for (player, day), line in self._written.items():
            self.app.book.write_line(player, day, line)
        if self._written and (problem := self.app.book.new_problem()):
            self.app.say(problem)
        self._written.clear()

    def _look_for(self, words: str) -> None:
        self.words, self.page = words.strip(), 0
        self._again()

    def _to_first(self) -> None:
        if self._rows:
            self.app.focus.set(self._rows[0])

    def _again(self) -> None:
        self.fill()
        if self._laid:
            self.layout(*self._laid)
        self.app.focus.look_again()

    def layout(self, box: Rect, theme: Theme) -> None:
        """Search over the list."""
        self._laid = (box, theme)
        wide = min(box.w, 60 * theme.gap)
        tall = self._search.height(theme, wide) if self._search in self.widgets else 0.0
        head, rest, _ = layout.take(box, top=tall, gap=theme.gap if tall else 0.0)
        self._search.place(Rect(head.x + theme.gap, head.y, wide, tall), theme)
        self._column.place(rest, theme)

    def update(self) -> None:
        """Have the rows in sight drawn from their own shots; a line one has turned from is kept."""
        focused = self.app.focus.widget
        if self._written and not (focused and focused.typing):
            self.keep_lines()
        seen = self._column.rect
        self.tracks.want(row.one for row in self._rows if row.rect.overlaps(seen))
