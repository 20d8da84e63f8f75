"""The ladder: a row of balls from one stance, each played, each with what suits it."""

from __future__ import annotations

from functools import partial

import pygame

from game.draw.camera import Rect
from game.ladder.acts import COUNTS, WHO, LadderActs
from game.ladder.feet import Feet
from game.ladder.flights import Fan
from game.ladder.parts import Strikes
from game.ladder.words import closing, compared, place_words, struck, suits, taught_words
from game.shot_view.sheet import Sheet
from game.text.cautions import LIMITS, READ_CAUTIONS, cautions
from game.ui import Button, Choice, Heading, Pair, Slider, TextBlock, Theme, Widget, layout
from game.ui import Row as Line
from game.ui.screen import Host, Keys
from game.ui.slider import for_control
from physics.address import CONTROLS, Motion, Setup
from physics.spread import PLAYERS

__all__ = ["LadderScreen", "ladder_places"]

ROOM = 20.0  # steps of the rhythm under the flights that leave room for the strikes
OPEN = {  # the controls of a ball at each level of detail
    "junior": ("shaft_lean", "release"),
    "player": ("shaft_lean", "release", "follow_through", "swing_length"),
    "coach": ("shaft_lean", "release", "follow_through", "swing_length", "lean_change"),
}


class LadderScreen(LadderActs):
    """Feet, strikes and flights on the left and above; the chosen ball's controls and the words beside."""

    title = "Ladder"
    keys: Keys = (
        ("1 to 9", "choose a ball, 1 at the back"),
        ("Space", "play this ball"),
        ("A", "play every ball"),
        ("S", "find the settings that suit this ball; again: stop looking"),
        ("Shift+S", "find it for every ball"),
        ("H, E", "hands stay put for the row; every ball as the middle one"),
        ("T", "use the settings that were found"),
        ("PageUp, PageDown", "turn the words where they go on"),
    )

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self._fan, self._feet = Fan(self.row), Feet(self.row, self.choose)
        self._strikes = Strikes(self.row, self.choose)
        self._sliders: dict[str, Slider] = {}
        self._column, self._detail, self._warned = Sheet([], 1.0), "", False
        self._build()

    @property
    def widgets(self) -> tuple[Widget, ...]:
        strikes = (self._strikes,) if self._strikes.boxes else ()
        return (self._feet, *strikes, self._fan, self._column)

    def enter(self) -> None:
        self._arrange_column()
        if not self._warned:
            self._warned = True
            self.app.say(READ_CAUTIONS)

    # ---- the column

    def _build(self) -> None:
        """All widgets of the column once; `_refresh` fills them."""
        self._head, self._struck = Heading(""), TextBlock("")
        self._play = Button("Play this ball", self.play, kind="main", hint="Space")
        self._all = Button("Play all", self.play_all, hint="A")
        self._seek = Button("Find what suits", self.seek, hint="S")
        self._seek_all = Button("For every ball", self.seek_all, hint="Shift+S")
        self._take = Button("Use them", self.take, hint="T")
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

    def _arrange_column(self) -> None:
        """The sliders for this level of detail."""
        self._sliders = {}
        standard = {**Setup().__dict__, **Motion().__dict__}
        for name in OPEN[self.app.settings.detail]:
            value, change = getattr(self.ladder.rungs[self.chosen], name), partial(self.set, name)
            self._sliders[name] = for_control(CONTROLS[name], value, change, default=standard[name])
        self._detail = self.app.settings.detail
        self._refresh()

    def _items(self) -> tuple[Widget, ...]:
        """The column from top to foot; words that are empty take no room."""
        junior = self._detail == "junior"
        table = [Pair(*line) for line in suits(self.ladder, self.best, junior=junior)]
        found: list[Widget] = [Heading("What suits each ball"), *table] if table else []
        if table and not junior:
            found.append(TextBlock(taught_words(), "small", "muted"))
        items: list[Widget] = [
            self._head, Line([self._play, self._all]), self._struck, *self._sliders.values(), self._words,
            Line([self._seek, self._seek_all, self._take]), self._progress, Heading("The row"), self._closing,
            *found, Line([self._hands, self._even]), self._who, self._count,
            TextBlock(LIMITS, "small", "muted"), Heading("On grass"), TextBlock(cautions()),
        ]  # fmt: skip
        return tuple(w for w in items if not isinstance(w, TextBlock) or w.label)

    def _refresh(self, sliders: bool = True) -> None:
        """Fill the widgets from what there is, and lay out again."""
        rung = self.ladder.rungs[self.chosen]
        if sliders:
            for name, slider in self._sliders.items():
                slider.entry.text = None
                slider.value = slider.bounds.held(getattr(rung, name) * CONTROLS[name].scale)
                slider.settle()
        own = self.played.get(self.chosen) if self.row().current(self.chosen) else None
        junior = self._detail == "junior"
        self._head.label = f"Ball {self.chosen + 1}, {place_words(rung.ball)}"
        self._struck.label = struck(own.shot) if own else ""
        self._words.label = "\n".join(compared(own, self.best.get(self.chosen), junior=junior))
        self._seek.label = "Stop looking" if self.seeking else "Find what suits"
        self._take.enabled = self.chosen in self.best
        self._seek_all.enabled = not self.seeking
        yards = self.app.settings.units == "yd"
        self._closing.label = "\n".join(
            closing(self.ladder, self.played, self.best, junior=junior, yards=yards)
        )
        self._told()
        self._column.items = self._items()
        if self.app.screen is self:
            self.app.arrange()

    def _told(self) -> None:
        self._progress.label = ""
        if self.seeking:
            at, step = self.seeking
            self._progress.label = f"Ball {at + 1}: {step.done} of {step.total} settings, 60 strokes each."

    def layout(self, box: Rect, theme: Theme) -> None:
        if self._detail != self.app.settings.detail:
            self._arrange_column()
            return
        fan, strikes, feet, column = ladder_places(box, theme)
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
        elif event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            return self._column.handle(event)
        elif act := {
            pygame.K_SPACE: self.play, pygame.K_a: self.play_all, pygame.K_s: self.seek,
            pygame.K_t: self.take, pygame.K_h: self.keep_hands, pygame.K_e: self.level,
        }.get(event.key):  # fmt: skip
            act()
        else:
            return False
        return True


def ladder_places(box: Rect, theme: Theme) -> tuple[Rect, Rect, Rect, Rect]:
    """Boxes of flights, strikes, feet and column: flights above; where there is little room the words get
    the larger part of what is left."""
    gap = theme.gap
    wide = box.w >= 100 * gap
    tall = min(max((0.32 if wide else 0.26) * box.h, 130.0), 0.2 * box.w)
    fan, low, _ = layout.take(box, top=tall, gap=gap)
    low = Rect(low.x + gap, low.y, low.w - 2 * gap, low.h - gap)
    left, column = layout.split(low, (1.5, 1.0) if wide else (0.8, 1.2), 2 * gap)
    window = left.w / COUNTS[0] * 1.2 + theme.type.line("small")
    top = min(window, 0.5 * left.h) if low.h >= ROOM * gap else 0.0
    strikes, feet, _ = layout.take(left, top=top, gap=gap)
    return fan, strikes, feet, column
