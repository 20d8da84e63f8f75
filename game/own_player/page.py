"""One's own player: what the balls told, in words and as bars; the way to more balls and to the season."""

from collections.abc import Callable, Sequence

import pygame

from game.draw.camera import Rect
from game.library.own_players import kept_own_player
from game.own_player.entry import BallEntry
from game.own_player.fitting import reports_of
from game.own_player.ranges import RangeBars
from game.own_player.season_page import SeasonPage
from game.text.cautions import MODEL_NOTE, NOTE
from game.text.choice import NO_SKILL
from game.text.fit import PROTOCOL, fit_lead, habit_words, more_words, told_words
from game.ui import Button, Column, Heading, Row, TextBlock, Theme, Widget, layout
from game.ui.safety import before_real_swings
from game.ui.screen import Host, Screen
from levels.player_file import PlayerFile

__all__ = ["OwnPlayerPage"]

NARROW = 100.0  # steps of width that hold the two columns
NOBODY_YET = (
    "Ten balls that you measure tell how far your strokes stray. From then on this player can be chosen "
    "on the Bench, and shots are weighed for you, not for a preset."
)
WIDE = "The ranges begin wide, round three illustrative presets: nobody has published spreads for chipping."
FIT_AGAIN = "Fit the balls again to read what they told and what they did not."


class OwnPlayerPage(Screen):
    """Pushed over another screen; it looks anew whenever it comes to the front."""

    title = "Your own player"
    keys = (
        ("B", "ten balls: what to do, and where they are typed in"),
        ("S", "which shots to seek, for this player"),
        ("Esc", "go back"),
    )

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self.player: PlayerFile | None = None
        self._left, self._right, self._ways = Column([]), Column([]), Row([])

    @property
    def widgets(self) -> tuple[Widget, ...]:
        right = (self._right,) if self._right.items else ()
        return (self._ways, self._left, *right)

    def enter(self) -> None:
        self.player, problem = kept_own_player(self.app.home, self.app.player)
        if problem:
            self.app.say(problem)
        report = reports_of(self.app).get(self.app.player)
        if self.player is None and report is not None:  # there is no folder to keep it in
            self.player = report.player
        more = "More balls" if self.player else "Measure ten balls"
        ways = [
            Button(more, self.measure, kind="main", hint="B", group="ways",
                   tooltip="What to do outside, and where the balls are typed in."),
            Button("Which shots to seek", self.season, hint="S", group="ways",
                   tooltip="The best shot from many lies and distances, for this player."),
            Button("Back", self.app.pop, hint="Esc", group="ways"),
        ]  # fmt: skip
        self._ways = Row(ways)

    def measure(self) -> None:
        """The balls, after the cautions were read once."""
        before_real_swings(self.app, lambda: self.app.push(BallEntry(self.app)))

    def season(self) -> None:
        """The map of shots to seek."""
        self.app.push(SeasonPage(self.app))

    def _words(self) -> list[Widget]:
        head: list[Widget] = [Heading(f"{self.title}: {self.app.player}")]
        if self.player is None:
            steps = [TextBlock(f"{i}. {words}") for i, words in enumerate(PROTOCOL, 1)]
            return [*head, TextBlock(NOBODY_YET), *steps, TextBlock(NOTE, "small", "muted")]
        report = reports_of(self.app).get(self.app.player)
        told: list[str] = [fit_lead(self.player)]
        if report is not None and report.player == self.player:
            told += [*told_words(report), habit_words(self.player), more_words(report)]
        else:
            told += [habit_words(self.player), FIT_AGAIN]
        notes = (NOTE, WIDE, f"{MODEL_NOTE} {NO_SKILL}")
        return [*head, *(TextBlock(t) for t in told if t), *(TextBlock(n, "small", "muted") for n in notes)]

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        inner = Rect(box.x + gap, box.y + gap / 2, box.w - 2 * gap, box.h - gap)
        ways = self._ways.height(theme, inner.w - 2 * gap)
        _, body, foot = layout.take(inner, bottom=ways, gap=gap)
        self._ways.place(Rect(foot.x + gap, foot.y, foot.w - 2 * gap, foot.h), theme)
        words = self._words()
        bars: list[Widget] = []
        if self.player is not None:
            bars = [RangeBars(self.player), TextBlock(RangeBars.legend(), "small", "muted")]
        offsets = self._left.offset, self._right.offset
        if bars and box.w >= NARROW * gap:
            self._left, self._right = Column(words), Column(bars)
            self._left.offset, self._right.offset = offsets
            left, right = layout.split(body, (0.5, 0.5), 4 * gap)
            self._left.place(left, theme)
            self._right.place(Rect(right.x, right.y, min(right.w, 76 * gap), right.h), theme)
        else:
            self._left, self._right = Column([*words[:2], *bars, *words[2:]]), Column([])
            self._left.offset = offsets[0]
            self._left.place(body, theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            columns: Sequence[Column] = (self._left, self._right)
            return any([column.handle(event) for column in columns if column.items])
        acts: dict[int, Callable[[], None]] = {
            pygame.K_b: self.measure, pygame.K_s: self.season, pygame.K_ESCAPE: self.app.pop,
        }  # fmt: skip
        if event.key not in acts or event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT | pygame.KMOD_META):
            return False
        acts[event.key]()
        return True
