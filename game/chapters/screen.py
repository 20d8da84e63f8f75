"""The chapter page: a section through the ground of a chapter, a place for every scenario, nothing locked."""

from collections.abc import Callable
from datetime import date
from functools import partial
from pathlib import Path

import pygame

from game.chapters.bars import ChapterBars
from game.chapters.coach_note import Note, NotePage, answer_chapter, note_name
from game.chapters.contents import ShelfChapter, own_chapters, page_of, shelf
from game.chapters.section import draw_section
from game.chapters.station import CLUB, Station, place_stations
from game.draw.camera import Rect
from game.library.chapter_summary import summary_of
from game.library.notebook.pages import past_of, progress_of
from game.library.progress import Past, Progress
from game.library.shelf import Shelf, Taken, first
from game.play import Play, Practice, Round, TallyRow, begin, goal_tally, next_key, task_lines
from game.text.chapter import chapter_line
from game.text.units import UNIT_SYSTEMS
from game.ui import Button, Choice, Column, Heading, TextBlock, Theme, Widget, layout, paint
from game.ui.clipboard import given_path, pasted_path
from game.ui.safety import before_real_swings
from game.ui.screen import Host, Screen
from game.ui.work import Answer
from levels.scenario import Scenario

__all__ = ["Chapters"]

ADD = "Drop a scenario or pack on this window, or copy its file's name and press Ctrl+V."
TALL = 55.0  # steps of the rhythm from which the ground leaves room for a third button
ROOMY = 100.0  # steps of the rhythm from which the coach's note stands beside the ground
NOTE = 0.36  # share of the width it then has


class Chapters(Screen):
    """The first page of Play: choose a chapter, go along its ground, open a scenario."""

    title = "Play"
    keys = (
        ("Left, Right", "the scenario before, the one after"),
        ("PageUp, PageDown", "another chapter"),
        ("Enter", "open the scenario"),
        ("P", "read the coach's plan, or which files cannot be used"),
        ("A", "answer the coach who asked for it: a file of what you played"),
        ("drop a file here", "import a scenario or pack into your library; Ctrl+V takes a copied file name"),
    )

    def __init__(
        self, app: Host, chapters: Callable[[], tuple[ShelfChapter, ...]] = shelf,
        today: Callable[[], date] = date.today,
    ) -> None:  # fmt: skip
        super().__init__(app)
        self._source, self._today = chapters, today
        self._built_in: tuple[ShelfChapter, ...] = ()
        self._own: tuple[ShelfChapter, ...] = ()
        self.chapters: tuple[ShelfChapter, ...] = ()
        self.at = 0  # chapter in front
        self.progress = Progress()
        self.library: Shelf | None = None
        self._takes, self._said = 0, ""
        self._rounds: dict[str, Play] = {}
        self._stations: tuple[Station, ...] = ()
        self._chosen: Station | None = None
        self._bars: ChapterBars | None = None
        self._card, self._enter = Column([]), Button("Open", lambda: None)
        self._note: Note | None = None
        self._side = False  # whether the note stands beside the ground; else a button opens its page
        self._ask = Button("", self.read_note, hint="P")
        self._land = Rect(0, 0, 1, 1)
        self._add = Button("Add a file", self._take_pasted, hint="Ctrl+V", tooltip=ADD)
        self._adds = False  # whether there is room for that button; the key works anyhow
        self._loaded = self._fresh = False
        self._player = ""  # whose rounds these are

    @property
    def widgets(self) -> tuple[Widget, ...]:
        if self._fresh and self._chosen:
            return (self._chosen,)  # so that the focus begins there and not at the first place
        bars = self._bars.widgets if self._bars else ()
        note: tuple[Widget, ...] = ()
        if self._note:
            note = self._note.widgets if self._side else (self._ask,)
        enter = (self._enter,) if self._chosen else ()
        if self._adds:
            enter = (*enter, self._add)
        return (*self._stations, *enter, *note, self._card, *bars)

    def enter(self) -> None:
        app = self.app
        if not self._loaded:
            self._built_in = self.chapters = self._source()
            if app.home is not None:
                self.library = Shelf(app.home)
        first, self._loaded = not self._loaded, True
        self.progress = progress_of(app.book, app.player)  # another window may have written meanwhile
        if first:
            self.at = next((i for i, c in enumerate(self.chapters) if not self._all_done(c)), 0)
        if self._player != app.player:
            self._player, self._rounds = app.player, {}
        self._build()
        self._fresh = True
        self._look()

    # ---- the library

    def _look(self, kept: Path | None = None) -> None:
        """Have the library read beside the picture; with `kept`, go to what lies there."""
        if self.library is not None:
            library = self.library
            self.app.worker.ask("library", lambda: own_chapters(library), partial(self._found, kept))

    def _found(self, kept: Path | None, answer: Answer) -> None:
        if answer.problem or not answer.fresh:
            return
        changed, self._own = self._own != answer.value, answer.value
        page, key = page_of(self._own, kept) if kept else (-1, "")
        if not changed and page < 0:
            return
        front = self.chapters[self.at]
        self.chapters = (*self._built_in, *self._own)
        same = (i for i, c in enumerate(self.chapters) if (c.title, c.place) == (front.title, front.place))
        self.at = len(self._built_in) + page if page >= 0 else next(same, 0)
        self._tell_bad()
        if self.app.screen is self:  # else on coming back
            self._build(key)
            self.app.arrange()
            self.app.focus.set(self._chosen)

    def _tell_bad(self) -> None:
        """Say once which files cannot be used; they stay named in the note."""
        bad = tuple(dict.fromkeys(note for c in self._own for note in c.notes))
        told = first(bad) if bad else ""
        if told and told != self._said:
            self.app.say(told)
        self._said = told

    def take(self, path: str) -> None:
        """Take a scenario or pack into the library and go there; the file is only read."""
        if not path:
            self.app.say(ADD)
            return
        if self.library is None:
            self.app.say("There is no library to import a file into.")
            return
        library, self._takes = self.library, self._takes + 1  # none replaces another
        self.app.worker.ask(f"file {self._takes}", lambda: library.take(path), self._took)

    def _take_pasted(self) -> None:
        self.take(pasted_path())

    def _took(self, answer: Answer) -> None:
        if isinstance(taken := answer.value, Taken):
            self._said = first(taken.problems) if taken.problems else self._said
            self.app.say(taken.sentence)
            self._look(taken.kept)

    # ---- chapters and places

    def _all_done(self, chapter: ShelfChapter) -> bool:
        return all(self.progress.of(key).done for key, _ in chapter.scenarios)

    def _build(self, chosen: str = "") -> None:
        """Places of the chapter in front; the first open one, or the one named, is chosen."""
        chapter = self.chapters[self.at]
        before = chosen or (self._chosen.key if self._chosen else "")
        self._stations = tuple(
            Station(key, scenario, i, partial(self.open, key))
            for i, (key, scenario) in enumerate(chapter.scenarios, 1)
        )
        for station in self._stations:
            station.done = self.progress.of(station.key).done
        self._bars = ChapterBars(self.chapters, self.at, self.turn)
        name = note_name(chapter)
        self._note = Note(chapter, self._today(), self.read_note, self.answer) if name else None
        self._ask = Button(name, self.read_note, hint="P")
        self._chosen, self._card = None, Column([])
        if self._stations:
            first_open = next((f for f in self._stations if not f.done), self._stations[0])
            self._choose(next((f for f in self._stations if f.key == before), first_open))

    def turn(self, to: int) -> None:
        """To another chapter. Whoever goes through them with the arrows of a bar goes on there."""
        if 0 <= to < len(self.chapters) and to != self.at:
            at = self.app.focus.widget
            bar = at.label if isinstance(at, Choice) else None
            self.at, self._chosen = to, None
            self._build()
            self.app.arrange()
            bars = self._bars.widgets if self._bars else ()
            same = (w for w in bars if isinstance(w, Choice) and w.label == bar)
            self.app.focus.set(next(same, self._chosen))

    def open(self, key: str) -> None:
        """Open a scenario; one left in the middle goes on where it was."""
        scenario = dict(self.chapters[self.at].scenarios)[key]
        kept = self._rounds.get(key)
        if kept is None or kept.r.scenario != scenario:  # a file may have changed since
            self._rounds[key] = Play(self.app, self._begin(key, scenario), self.keep, self._next_of(key))
        self.app.push(self._rounds[key])

    def _begin(self, key: str, scenario: Scenario) -> Round:
        """A Round from what the notebook has of it by now."""
        app = self.app
        practice = Practice(app.player, assignment=self.chapters[self.at].assignment)
        past = past_of(app.book, app.player, key)
        return begin(key, scenario, app.settings.detail == "junior", past, practice)

    def _next_of(self, key: str) -> Callable[[], None] | None:
        """What opens the scenario after this one; None after the last of its chapter."""
        keys = [k for k, _ in self.chapters[self.at].scenarios]
        after = next_key(keys, key)
        if after is None:
            return None

        def go() -> None:
            self.app.pop()
            self._build(after)
            self.open(after)

        return go

    def keep(self, r: Round) -> None:
        """A shot has been played: the places show it; Play writes it into the notebook."""
        self.progress = self.progress.with_past(r.key, r.past)

    # ---- the picture

    def _choose(self, station: Station) -> None:
        if self._chosen is station:
            return
        self._chosen = station
        for other in self._stations:
            other.chosen = other is station
        self._card = Column(self._card_items(station), 0.75)
        self._enter = Button(
            "Go on" if station.key in self._rounds else "Open", station.on_open, kind="main", hint="Enter"
        )

    def _card_items(self, station: Station) -> list[Widget]:
        past = self.progress.of(station.key)
        junior = self.app.settings.detail == "junior"
        yards = self.app.settings.units == "yd"
        task = " ".join(task_lines(station.scenario.goal, junior, not junior, yards))
        return [
            Heading(station.label),
            TallyRow(goal_tally(station.scenario.goal, past.results, not junior), self._state(past)),
            TextBlock(task, "label", "muted"),
            TextBlock(self._stands(not junior), "small"),
        ]

    def _stands(self, numbers: bool) -> str:
        """How the chapter in front stands, and what to try next."""
        scenarios = dict(self.chapters[self.at].scenarios)
        summary = summary_of(scenarios, self.progress)
        title = scenarios[summary.next_key].title if summary.next_key else ""
        units = UNIT_SYSTEMS[self.app.settings.units]
        return chapter_line(summary, title.removeprefix(CLUB), units, numbers)

    @staticmethod
    def _state(past: Past) -> str:
        return "done" if past.done else "open" if past.tries else "not yet tried"

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        inner = Rect(box.x + 2 * gap, box.y + gap, box.w - 4 * gap, box.h - 1.5 * gap)
        inner = self._bars.place(inner, theme) if self._bars else inner
        self._side = self._note is not None and (inner.w >= ROOMY * gap or not self._stations)
        if self._note and self._side:
            inner, note = layout.split(inner, (1.0 - NOTE, NOTE) if self._stations else (0.01, 1.0), 2 * gap)
            self._note.place(note, theme)
        buttons = [self._enter] if self._note is None or self._side else [self._enter, self._ask]
        self._adds = self.library is not None and inner.h >= TALL * gap
        if self._adds:
            buttons.append(self._add)
        side = max(b.width(theme) for b in buttons)
        wanted = self._card.height(theme, inner.w - side - gap)
        least = sum(b.height(theme, side) + gap for b in buttons)
        _, land, foot = layout.take(inner, bottom=max(least, min(wanted, 0.42 * inner.h)), gap=gap)
        self._land = land
        card, enter = layout.split(foot, (foot.w - side - gap, side), gap)
        self._card.place(card, theme)
        y = enter.y + gap
        for button in buttons:
            button.place(Rect(enter.x, y, side, button.height(theme, side)), theme)
            y = button.rect.bottom + gap
        place_stations(self._stations, land, theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if (path := given_path(event)) is not None:
            self.take(path)
            return True
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_p and self._note:
            self.read_note()
        elif event.key == pygame.K_a and self.chapters[self.at].assignment:
            self.answer()
        elif event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            self.turn(self.at + (1 if event.key == pygame.K_PAGEDOWN else -1))
        elif event.key in (pygame.K_RETURN, pygame.K_KP_ENTER) and self._chosen:
            self._chosen.on_open()
        else:
            return False
        return True

    def read_note(self) -> None:
        """The note on a page of its own; before its drill is taken to grass the cautions are read once."""
        chapter = self.chapters[self.at]
        page = partial(NotePage, self.app, chapter, self._today())
        if chapter.plan:
            before_real_swings(self.app, lambda: self.app.push(page()))
        else:
            self.app.push(page())

    def answer(self) -> None:
        """What the player hands on to the coach who asked for it."""
        answer_chapter(self.app, self.chapters[self.at])

    def update(self, dt: float) -> None:
        self._fresh = False
        focused = self.app.focus.widget
        if isinstance(focused, Station) and focused in self._stations and focused is not self._chosen:
            self._choose(focused)
            self.app.arrange()

    def draw(self, surface: pygame.Surface) -> None:
        theme, land = self.app.theme, self._land
        if self._stations:
            at, courses = paint.pixels(land), tuple(s.scenario.course() for s in self._stations)
            surface.blit(draw_section(at.w, at.h, theme.palette, courses, theme.scale), at)
            paint.box(surface, land, None, theme.palette.rule, 0.0, theme.line)
        for widget in self.widgets:
            widget.draw(surface, theme)
