"""Which shots to seek: the map on screen, a place of it in words, and the map taken home."""

from datetime import date
from functools import partial

import pygame

from game.draw.camera import Rect
from game.handout import HandoutError, write_season
from game.own_player.season_making import season_making
from game.own_player.season_view import MapColumn, SeasonView
from game.text.choice import chooser_words, season_notes, season_place_words
from game.text.units import UNIT_SYSTEMS
from game.ui import Button, Column, Heading, Row, TextBlock, Theme, Widget, layout
from game.ui.progress import ProgressBar
from game.ui.screen import Host, Screen
from game.ui.work import Answer
from levels.season import SeasonCell

__all__ = ["SeasonPage"]

PAPER = "season's page"  # channel of the worker
NARROW = 100.0  # steps of width that hold map and words
WHAT = (
    "The best shot from forty places is looked for: five lies, four distances, much green and little. "
    "It takes some minutes; go on playing meanwhile."
)


class SeasonPage(Screen):
    """Pushed over the page of one's own player. The making goes on when it is left."""

    title = "Which shots to seek"
    keys = (
        ("arrows", "from place to place on the map"),
        ("M", "make the map; it goes on while you play"),
        ("P", "the map as a page, PDF and picture, into your pictures folder"),
        ("X", "stop the making"),
        ("Esc", "go back"),
    )

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self.making = season_making(app)
        self.view: SeasonView | None = None
        self._words = TextBlock("")
        self._map: Column = MapColumn([])
        self._side, self._foot = Column([]), Row([])
        self.bar_of_making = ProgressBar("The map is being made")

    @property
    def widgets(self) -> tuple[Widget, ...]:
        beside = (self._side,) if self._side.items else ()
        return (*((self._map,) if self._map.items else ()), *beside, self._foot)

    @property
    def moving(self) -> bool:
        return self.making.going

    def enter(self) -> None:
        self.making.heard = self._heard
        self.making.look()
        self._build()

    def leave(self) -> None:
        self.making.heard = lambda: None

    def _heard(self) -> None:
        self.bar_of_making.share = self.making.share
        if not self.making.going:
            self._build()

    # ---- what can be done

    def make(self) -> None:
        """Begin to make the map."""
        self.making.start()
        self._build()

    def paper(self) -> None:
        """PDF and picture, beside the picture."""
        made = self.making.made
        if made is None:
            self.app.say("Make the map first.")
            return
        units, today = UNIT_SYSTEMS[self.app.settings.units], date.today()
        self.app.worker.ask(PAPER, partial(write_season, made, units, today), self._written)
        self.app.say("The page is being written.")

    def _written(self, answer: Answer) -> None:
        if isinstance(answer.value, tuple):
            self.app.say(f"Written: {' and '.join(str(file) for file in answer.value)}")
        elif isinstance(answer.error, HandoutError):
            self.app.say(str(answer.error))

    def _placed(self, cell: SeasonCell) -> None:
        """Another place is in focus: its words, and it in sight."""
        self._words.label = season_place_words(cell, UNIT_SYSTEMS[self.app.settings.units])
        self.app.arrange()
        if self.view:
            self._map.reveal(self.view)

    # ---- building

    def _build(self) -> None:
        made, going = self.making.made, self.making.going
        player, balls = self.making.player()
        units = UNIT_SYSTEMS[self.app.settings.units]
        who = TextBlock(chooser_words(player.spread.label, balls), "small", "muted")
        at = self.view.at if self.view else 0
        self.view = SeasonView(made, units, self._placed) if made else None
        back = Button("Back", self.app.pop, hint="Esc", group="ways")
        ways = [Button("Stop", self.making.stop, hint="X", group="ways")] if going else []
        if made is None and not going:
            ways = [Button("Make the map", self.make, kind="main", hint="M", group="ways")]
        if self.view and made:
            self.view.at = min(at, len(made.cells) - 1)
            paper = Button("PDF and picture", self.paper, hint="P", group="ways",
                           tooltip="The map on a page, in your pictures folder.")  # fmt: skip
            ways = [paper, *ways]
            self._words.label = season_place_words(self.view.cell, units)
        self._foot = Row([*ways, back])
        bar: list[Widget] = [self.bar_of_making] if going else []
        notes = [TextBlock(note, "small", "muted") for note in season_notes()]
        if self.view:
            self._map = MapColumn([self.view], 0.0)
            self._side = Column([*bar, Heading("This place"), self._words, who, *notes])
        else:
            self._map = Column([])
            what = TextBlock(WHAT)
            self._side = Column([Heading(self.title), *bar, what, who, *notes])
        if self.app.screen is self:
            self.app.arrange()
            self.app.focus.first([*((self._map,) if self.view else ()), self._foot])

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        inner = Rect(box.x + gap, box.y + gap / 2, box.w - 2 * gap, box.h - gap)
        tall = self._foot.height(theme, inner.w - 2 * gap)
        _, body, foot = layout.take(inner, bottom=tall, gap=gap)
        self._foot.place(Rect(foot.x + gap, foot.y, foot.w - 2 * gap, foot.h), theme)
        if self.view is None:
            self._side.place(body, theme)
        elif box.w >= NARROW * gap:
            left, right = layout.split(body, (0.72, 0.28), gap)
            self._map.place(left, theme)
            self._side.place(right, theme)
        else:
            upper, lower = layout.split(body, (0.62, 0.38), gap, down=True)
            self._map.place(upper, theme)
            self._side.place(lower, theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            return any([column.handle(event) for column in (self._map, self._side) if column.items])
        acts = {
            pygame.K_m: self.make, pygame.K_p: self.paper, pygame.K_x: self.making.stop,
            pygame.K_ESCAPE: self.app.pop,
        }  # fmt: skip
        if event.key not in acts or event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT | pygame.KMOD_META):
            return False
        acts[event.key]()
        return True
