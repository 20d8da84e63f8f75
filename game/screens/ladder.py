"""The ladder: a row of balls from one stance, each played, each with what suits it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

import pygame

from game.commands.options import level_course
from game.ladder_model import Best, Ladder, Played, Seeking, closing, compared, play_rung, row, search
from game.screen import Keys, Screen
from game.screens.ladder_parts import Fan, Feet, Row, Strikes
from game.ui import Button, Choice, Column, Heading, Slider, TextBlock, Theme, Widget, layout
from game.ui import Row as Line
from game.ui.slider import for_control
from game.view.camera import Rect
from game.work import Answer
from physics.address import CONTROLS, Motion, Setup
from physics.spread import PLAYERS, Spread

if TYPE_CHECKING:
    from game.app import App

__all__ = ["LadderScreen", "places"]

HOLE = 8.0  # m, a plain chip
COUNTS = (7, 9)
WHO = ("steady", "club", "beginner")
OPEN = {  # the controls of a ball at each level of detail
    "junior": ("shaft_lean", "release"),
    "player": ("shaft_lean", "release", "follow_through", "swing_length"),
    "coach": ("shaft_lean", "release", "follow_through", "swing_length", "lean_change"),
}
PLAY, ALL, SEEK = "ball", "row of balls", "search"  # channels of the worker


class LadderScreen(Screen):
    """Feet, strikes and flights on the left and above; the chosen ball's controls and the words beside."""

    title = "Ladder"
    keys: Keys = (
        ("1 to 9", "choose a ball, 1 at the back"),
        ("Space", "play this ball"),
        ("A", "play every ball"),
        ("S", "find the trio that suits this ball; again: stop looking"),
        ("Shift+S", "find it for every ball"),
        ("H, E", "hands stay put for the row; every ball as the middle one"),
        ("T", "take the trio that was found"),
    )

    def __init__(self) -> None:
        self.ladder = row(level_course("fairway", HOLE), Setup(), Motion())
        self.chosen, self.player = self.ladder.middle, "club"
        self.played: dict[int, Played] = {}
        self.best: dict[int, Best] = {}
        self.clock: dict[int, float] = {}
        self.seeking: tuple[int, Seeking] | None = None
        self._fan, self._feet = Fan(self.row), Feet(self.row, self.choose)
        self._strikes = Strikes(self.row, self.choose)
        self._sliders: dict[str, Slider] = {}
        self._column = Column([])
        self._build()

    # ---- what there is

    def row(self) -> Row:
        """What the pictures draw."""
        return Row(
            self.ladder, self.chosen, self.played, self.clock,
            self.app.settings.left_handed if hasattr(self, "app") else False,
        )  # fmt: skip

    @property
    def spread(self) -> Spread:
        """Whose strokes are measured."""
        return PLAYERS[self.player]

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._feet, self._strikes, self._fan, self._column)

    def _build(self) -> None:
        """All widgets of the column once; `_refresh` fills them."""
        self._head = Heading("")
        self._play = Button("Play this ball", self.play, kind="main", hint="Space")
        self._all = Button("Play all", self.play_all, hint="A")
        self._seek = Button("Find what suits", self.seek, hint="S")
        self._seek_all = Button("For every ball", self.seek_all, hint="Shift+S")
        self._take = Button("Take it", self.take, hint="T")
        self._words, self._progress = TextBlock(""), TextBlock("", "small", "muted")
        self._closing = TextBlock("")
        self._hands = Button(
            "Hands stay put", self.keep_hands, hint="H",
            tooltip="Every ball as the middle one, the hands where they are: the lean changes with the ball.",
        )  # fmt: skip
        self._even = Button(
            "All as the middle", self.level, hint="E",
            tooltip="Every ball with the lean, release and swing of the middle one.",
        )  # fmt: skip
        self._who = Choice(
            "Player", [PLAYERS[w].label.capitalize() for w in WHO], WHO.index(self.player), self._player,
            tooltip="Whose strokes are counted; the presets are illustrative.",
        )  # fmt: skip
        self._count = Choice("Balls", [str(c) for c in COUNTS], 0, self._balls)

    def enter(self, app: App) -> None:
        super().enter(app)
        self._arrange_column()

    def leave(self) -> None:
        self._stop_looking()

    # ---- choosing and setting

    def choose(self, at: int) -> None:
        """This ball is the chosen one."""
        if 0 <= at < len(self.ladder.rungs) and at != self.chosen:
            self.chosen = at
            self._refresh()

    def set(self, name: str, value: float) -> None:
        """One control (SI) of the chosen ball."""
        self.ladder = self.ladder.changed(self.chosen, **{name: value})
        self._refresh(sliders=False)

    def keep_hands(self) -> None:
        """The whole row from the middle ball, hands staying where they are."""
        self._ladder_to(self.ladder.hands_kept(), "Every ball has the middle one's hands now.")

    def level(self) -> None:
        """The whole row as the middle ball."""
        self._ladder_to(self.ladder.levelled(), "Every ball is set as the middle one now.")

    def take(self) -> None:
        """The chosen ball as the search found it."""
        if found := self.best.get(self.chosen):
            rungs = tuple(found.rung if i == self.chosen else r for i, r in enumerate(self.ladder.rungs))
            said = f"Ball {self.chosen + 1} has the found trio now."
            self._ladder_to(replace(self.ladder, rungs=rungs), said)

    def _ladder_to(self, ladder: Ladder, said: str) -> None:
        self.ladder = ladder
        self.app.say(said)
        self._refresh()

    def _player(self, index: int) -> None:
        """Another player: what was measured counts no more."""
        self.player = WHO[index]
        self._forget()

    def _balls(self, index: int) -> None:
        """A row of another length, from the same middle ball."""
        standard = self.ladder.rungs[self.ladder.middle]
        setup = replace(self.ladder.setup, shaft_lean=standard.shaft_lean)
        motion = replace(
            self.ladder.motion, release=standard.release, follow_through=standard.follow_through,
            swing_length=standard.swing_length, lean_change=standard.lean_change,
        )  # fmt: skip
        self.ladder = row(self.ladder.course, setup, motion, COUNTS[index])
        self.chosen = self.ladder.middle
        self._forget()

    def _forget(self) -> None:
        self._stop_looking()
        for channel in (PLAY, ALL):
            self.app.worker.forget(channel)
        self.played, self.best, self.clock = {}, {}, {}
        self._refresh()

    # ---- playing

    def play(self) -> None:
        """Play the chosen ball."""
        ladder, at, spread = self.ladder, self.chosen, self.spread
        self.app.worker.ask(PLAY, lambda: (at, play_rung(ladder, at, spread)), self._hear_ball)

    def play_all(self) -> None:
        """Play every ball as it is set; they fly together."""
        ladder, spread = self.ladder, self.spread

        def balls() -> Iterator[tuple[int, Played]]:
            for at in range(len(ladder.rungs)):
                yield at, play_rung(ladder, at, spread)

        self.app.worker.ask(ALL, balls, self._hear_ball)

    def _hear_ball(self, answer: Answer) -> None:
        if not answer.fresh or answer.value is None:
            return
        at, one = answer.value
        if at >= len(self.ladder.rungs):
            return
        self.played[at] = one
        if not self.app.settings.reduced_motion:
            self.clock[at] = 0.0
        self._refresh()

    def update(self, dt: float) -> None:
        for at in list(self.clock):
            run = self.played[at].shot.run
            self.clock[at] += dt
            if run.t[0] + self.clock[at] >= run.t[-1]:
                del self.clock[at]

    # ---- searching

    def seek(self) -> None:
        """Look for the trio that suits the chosen ball, or stop looking."""
        if self.seeking:
            self._stop_looking()
            self._refresh()
        else:
            self._look((self.chosen,))

    def seek_all(self) -> None:
        """The same for every ball, one after the other."""
        if not self.seeking:
            self._look(tuple(range(len(self.ladder.rungs))))

    def _look(self, places: tuple[int, ...]) -> None:
        ladder, spread = self.ladder, self.spread

        def looking() -> Iterator[tuple[int, Seeking]]:
            for at in places:
                for step in search(ladder, at, spread):
                    yield at, step

        self.seeking = (places[0], Seeking(0, 1))
        self.app.worker.ask(SEEK, looking, self._hear_step)
        self._refresh()

    def _stop_looking(self) -> None:
        if self.seeking:
            self.app.worker.forget(SEEK)
            self.seeking = None

    def _hear_step(self, answer: Answer) -> None:
        if not answer.fresh:
            return
        if answer.last or answer.problem:
            self.seeking = None
        else:
            self.seeking = answer.value
            at, step = answer.value
            if step.best is None:
                self._progress.label = self._progress_words()
                return
            self.best[at] = step.best
        self._refresh()

    def _progress_words(self) -> str:
        if not self.seeking:
            return ""
        at, step = self.seeking
        return f"Ball {at + 1}: {step.done} of {step.total} trios tried, 60 strokes each."

    # ---- the column

    def _refresh(self, sliders: bool = True) -> None:
        """Fill the widgets from what there is, and lay out again."""
        rung = self.ladder.rungs[self.chosen]
        if sliders:
            for name, slider in self._sliders.items():
                slider.entry.text = None
                slider.value = slider.bounds.held(getattr(rung, name) * CONTROLS[name].scale)
                slider.settle()
        settings = self.app.settings
        own = self.played.get(self.chosen) if self.row().current(self.chosen) else None
        junior = settings.detail == "junior"
        said = compared(own, self.best.get(self.chosen), junior=junior)
        self._head.label = f"Ball {self.chosen + 1}, {_where(rung.ball)}"
        self._words.label = "\n".join(said)
        self._seek.label = "Stop looking" if self.seeking else "Find what suits"
        self._take.enabled = self.chosen in self.best
        self._seek_all.enabled = not self.seeking
        self._progress.label = self._progress_words()
        self._closing.label = "\n".join(
            closing(self.ladder, self.played, self.best, junior=junior, yards=settings.units == "yd")
        )
        self.app.arrange()

    def _arrange_column(self) -> None:
        """The column for this level of detail."""
        self._sliders = {}
        standard = {**Setup().__dict__, **Motion().__dict__}
        for name in OPEN[self.app.settings.detail]:
            value, change = getattr(self.ladder.rungs[self.chosen], name), partial(self.set, name)
            self._sliders[name] = for_control(CONTROLS[name], value, change, default=standard[name])
        self._detail = self.app.settings.detail
        self._column = Column([
            self._head, Line([self._play, self._all]), *self._sliders.values(), self._words,
            Line([self._seek, self._seek_all, self._take]), self._progress, Heading("The row"), self._closing,
            Line([self._hands, self._even]), self._who, self._count,
        ], 1.0)  # fmt: skip
        self._refresh()

    def layout(self, box: Rect, theme: Theme) -> None:
        if getattr(self, "_detail", self.app.settings.detail) != self.app.settings.detail:
            self._arrange_column()
            return
        fan, strikes, feet, column = places(box, theme)
        for widget, rect in (
            (self._fan, fan), (self._strikes, strikes), (self._feet, feet), (self._column, column),
        ):  # fmt: skip
            widget.place(rect, theme)

    # ---- keys

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN or event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if pygame.K_1 <= event.key <= pygame.K_9:
            self.choose(event.key - pygame.K_1)
        elif event.key == pygame.K_s and event.mod & pygame.KMOD_SHIFT:
            self.seek_all()
        elif act := {
            pygame.K_SPACE: self.play, pygame.K_a: self.play_all, pygame.K_s: self.seek,
            pygame.K_t: self.take, pygame.K_h: self.keep_hands, pygame.K_e: self.level,
        }.get(event.key):  # fmt: skip
            act()
        else:
            return False
        return True


def _where(ball: float) -> str:
    """`the standard`, `3 cm back`, `9 cm forward`."""
    if abs(ball) < 5e-4:
        return "the standard"
    text = f"{abs(ball) * 100:.1f}".removesuffix(".0")
    return f"{text} cm {'back' if ball < 0 else 'forward'}"


def places(box: Rect, theme: Theme) -> tuple[Rect, Rect, Rect, Rect]:
    """Boxes of flights, strikes, feet and column: flights above, the rest in two halves."""
    gap = theme.gap
    tall = min(max(0.32 * box.h, 130.0), 0.2 * box.w)
    fan, low, _ = layout.take(box, top=tall, gap=gap)
    low = Rect(low.x + gap, low.y, low.w - 2 * gap, low.h - gap)
    wide = box.w < 100 * gap
    left, column = layout.split(low, (1.0, 1.0) if wide else (1.5, 1.0), 2 * gap)
    window = left.w / COUNTS[0] * 1.2 + theme.type.line("small")
    strikes, feet, _ = layout.take(left, top=min(window, 0.5 * left.h), gap=gap)
    return fan, strikes, feet, column
