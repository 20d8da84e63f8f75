"""The chapter page: a path across the fen, a flag for every scenario, nothing locked."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import TYPE_CHECKING

import pygame

from game.play_loop import Round, begin, next_key
from game.play_words import goal_pips, task_lines
from game.progress_store import Past, Progress, load, save
from game.screen import Screen
from game.screens.fen import draw_flag, fen, places
from game.screens.pips import PipRow
from game.screens.play import Play
from game.ui import Button, Choice, Column, Heading, Row, TextBlock, Theme, Widget, layout, paint
from game.ui.button import PRESS
from game.view.camera import Rect
from levels.chapters import builtin_chapters
from levels.scenario import Scenario

if TYPE_CHECKING:
    from game.app import App

__all__ = ["Chapter", "Chapters", "shelf"]

UNNAMED = "On the fen"
TALL = 9.0  # steps of the rhythm a flag stands high
SHARE = 0.14  # share of the picture's height a flag stands at least, where there is room
LINES = 3  # lines of a title under its flag; longer ones stand in the card alone


@dataclass(frozen=True)
class Chapter:
    """Scenarios that belong together, in order, by name."""

    title: str
    scenarios: tuple[tuple[str, Scenario], ...]


@lru_cache(maxsize=1)
def shelf() -> tuple[Chapter, ...]:
    """The built-in scenarios by chapter, in the order they teach."""
    return tuple(
        Chapter(c.title or UNNAMED, tuple((e.name, e.scenario) for e in c.entries))
        for c in builtin_chapters()
    )


CLUB = "Harrow Fen: "  # every title of the library begins with it; on the fen it goes without saying


class Flag(Widget):
    """One scenario on the path. Enter, Space or a click opens it; arrows go along the path."""

    def __init__(self, key: str, scenario: Scenario, on_open: Callable[[], None]) -> None:
        words = f"{scenario.title}: Enter opens it, the arrows walk along the path."
        super().__init__(scenario.title, tooltip=words, group="path")
        self.key, self.scenario, self.on_open = key, scenario, on_open
        self.done, self.chosen = False, False
        self.foot, self.tall = (0.0, 0.0), 1.0
        self.title: tuple[str, ...] = ()
        self.land = Rect(0.0, 0.0, 1.0, 1.0)  # the picture its title stays inside

    @property
    def caption(self) -> str:
        return f"{self.label}, {'done' if self.done else 'open'}"

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.KEYDOWN and event.key in PRESS:
            self.on_open()
            return True
        if event.type == pygame.MOUSEBUTTONUP and self.hit(event.pos):
            self.on_open()
            return True
        return event.type == pygame.MOUSEBUTTONDOWN

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        tall = self.tall
        draw_flag(surface, theme, self.foot, tall, self.done, self.chosen or self.hovered)
        if self.title:
            self._draw_title(surface, theme)
        self.draw_focus(surface, theme)

    def _draw_title(self, surface: pygame.Surface, theme: Theme) -> None:
        line, pad = theme.type.line("small"), 0.6 * theme.gap
        wide = max(theme.type.width(t, "small") for t in self.title) + 2 * pad
        y = self.foot[1] + 0.2 * self.tall + 0.5 * theme.gap
        edge_room = wide / 2 + 2.0
        x = min(max(self.foot[0], self.land.x + edge_room), self.land.right - edge_room)
        chip = Rect(x - wide / 2, y, wide, len(self.title) * line + pad)
        edge = theme.accent if self.chosen else theme.palette.rule
        paint.box(surface, chip, theme.palette.paper, edge, theme.radius, theme.line)
        paint.lines(surface, theme, self.title, "small", x, y + pad / 2, "ink", 0.5)


class Chapters(Screen):
    """The first page of Play: choose a chapter, walk along its path, open a flag."""

    title = "Play"
    keys = (
        ("Left, Right", "walk along the path"),
        ("PageUp, PageDown", "another chapter"),
        ("Enter", "open the scenario"),
    )

    def __init__(self, chapters: Callable[[], tuple[Chapter, ...]] = shelf) -> None:
        self._source = chapters
        self.chapters: tuple[Chapter, ...] = ()
        self.at = 0  # chapter in front
        self.progress = Progress()
        self._rounds: dict[str, Play] = {}
        self._flags: tuple[Flag, ...] = ()
        self._chosen: Flag | None = None
        self._tabs = Row([])
        self._bar: Widget = self._tabs
        self._card, self._enter = Column([]), Button("Open", lambda: None)
        self._land = Rect(0, 0, 1, 1)
        self._loaded = self._fresh = False

    @property
    def widgets(self) -> tuple[Widget, ...]:
        if self._fresh and self._chosen:
            return (self._chosen,)  # so that the focus begins there and not at the first flag
        return (*self._flags, self._enter, self._card, *((self._bar,) if len(self.chapters) > 1 else ()))

    def enter(self, app: "App") -> None:
        super().enter(app)
        if not self._loaded:
            self._loaded = True
            self.chapters = self._source()
            if app.home is not None:
                self.progress, problem = load(app.home)
                if problem:
                    app.say(problem)
            self.at = next((i for i, c in enumerate(self.chapters) if not self._all_done(c)), 0)
        self._build()
        self._fresh = True

    def _all_done(self, chapter: Chapter) -> bool:
        return all(self.progress.of(key).done for key, _ in chapter.scenarios)

    def _build(self, chosen: str = "") -> None:
        """Flags of the chapter in front; the first open one, or the one named, is chosen."""
        chapter = self.chapters[self.at]
        before = chosen or (self._chosen.key if self._chosen else "")
        self._flags = tuple(
            Flag(key, scenario, partial(self.open, key)) for key, scenario in chapter.scenarios
        )
        for flag in self._flags:
            flag.done = self.progress.of(flag.key).done
        first = next((f for f in self._flags if not f.done), self._flags[0])
        self._choose(next((f for f in self._flags if f.key == before), first))
        self._tabs = Row([
            Button(c.title, partial(self.turn, i), kind="tab", group="chapters", current=i == self.at)
            for i, c in enumerate(self.chapters)
        ])  # fmt: skip
        self._pick = Choice("Chapter", [c.title for c in self.chapters], self.at, self.turn)
        self._bar = self._tabs

    def turn(self, to: int) -> None:
        """To another chapter."""
        if 0 <= to < len(self.chapters) and to != self.at:
            self.at, self._chosen = to, None
            self._build()
            self.app.arrange()
            self.app.focus.set(self._chosen)

    def open(self, key: str) -> None:
        """Open a scenario; one left in the middle goes on where it was."""
        scenario = dict(self.chapters[self.at].scenarios)[key]
        if key not in self._rounds:
            junior = self.app.settings.detail == "junior"
            self._rounds[key] = Play(
                begin(key, scenario, junior, self.progress.of(key)), self.keep, self._next_of(key)
            )
        self.app.push(self._rounds[key])

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
        """A shot has been played: remember it, on disk where there is a place for it."""
        self.progress = self.progress.with_past(r.key, r.past)
        if self.app.home is not None and (problem := save(self.app.home, self.progress)):
            self.app.say(problem)

    # ---- the picture

    def _choose(self, flag: Flag) -> None:
        if self._chosen is flag:
            return
        self._chosen = flag
        for other in self._flags:
            other.chosen = other is flag
        self._card = Column(self._card_items(flag), 0.75)
        self._enter = Button(
            "Go on" if flag.key in self._rounds else "Open", flag.on_open, kind="main", hint="Enter"
        )

    def _card_items(self, flag: Flag) -> list[Widget]:
        past = self.progress.of(flag.key)
        junior = self.app.settings.detail == "junior"
        yards = self.app.settings.units == "yd"
        task = " ".join(task_lines(flag.scenario.goal, junior, not junior, yards))
        return [
            Heading(flag.label),
            PipRow(goal_pips(flag.scenario.goal, past.results, not junior), self._state(past)),
            TextBlock(task, "label", "muted"),
        ]

    @staticmethod
    def _state(past: Past) -> str:
        return "done" if past.done else "open" if past.tries else "not yet tried"

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        inner = Rect(box.x + 2 * gap, box.y + gap, box.w - 4 * gap, box.h - 1.5 * gap)
        if len(self.chapters) > 1:
            tall = self._tabs.height(theme, inner.w)
            # more than two rows of tabs would leave the fen no room: then one line with arrows
            self._bar = self._tabs if tall <= 2.5 * theme.target else self._pick
            head, inner, _ = layout.take(inner, top=self._bar.height(theme, inner.w), gap=gap)
            self._bar.place(head, theme)
        side = self._enter.width(theme)
        wanted = self._card.height(theme, inner.w - side - gap)
        least = self._enter.height(theme, side) + gap
        _, land, foot = layout.take(inner, bottom=max(least, min(wanted, 0.42 * inner.h)), gap=gap)
        self._land = land
        card, enter = layout.split(foot, (foot.w - side - gap, side), gap)
        self._card.place(card, theme)
        self._enter.place(Rect(enter.x, enter.y + gap, side, self._enter.height(theme, side)), theme)
        self._place_flags(land, theme)

    def _place_flags(self, land: Rect, theme: Theme) -> None:
        feet = places(land, len(self._flags))
        most = (min(y for _, y in feet) - land.y) / 1.15  # the highest flag stays inside the picture
        tall = max(min(max(TALL * theme.gap, SHARE * land.h), most), 24.0)
        slot = land.w / max(len(self._flags), 1) - theme.gap
        titles = [theme.type.wrap(f.label.removeprefix(CLUB), "small", slot) for f in self._flags]
        room = land.bottom - max(y for _, y in feet) - 0.2 * tall - 1.5 * theme.gap
        fits = all(
            len(t) <= LINES and len(t) * theme.type.line("small") <= room
            and max(theme.type.width(line, "small") for line in t) <= slot
            for t in titles
        )  # fmt: skip
        for flag, foot, title in zip(self._flags, feet, titles, strict=True):
            flag.foot, flag.tall, flag.title, flag.land = foot, tall, title if fits else (), land
            wide = min(1.1 * tall, land.w / len(feet) - 2.0)
            left = foot[0] - 0.4 * wide
            flag.place(Rect(left, foot[1] - 1.12 * tall, wide, 1.2 * tall), theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            self.turn(self.at + (1 if event.key == pygame.K_PAGEDOWN else -1))
        elif event.key in (pygame.K_RETURN, pygame.K_KP_ENTER) and self._chosen:
            self._chosen.on_open()
        else:
            return False
        return True

    def update(self, dt: float) -> None:
        self._fresh = False
        focused = self.app.focus.widget
        if isinstance(focused, Flag) and focused in self._flags and focused is not self._chosen:
            self._choose(focused)
            self.app.arrange()

    def draw(self, surface: pygame.Surface) -> None:
        theme, land = self.app.theme, self._land
        at = paint.pixels(land)
        surface.blit(fen(at.w, at.h, theme.palette, 5 + self.at), at)
        paint.box(surface, land, None, theme.palette.rule, 0.0, theme.line)
        for widget in (*self._flags, self._enter, self._card, self._bar):
            widget.draw(surface, theme)
