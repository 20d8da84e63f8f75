"""The season's map made beside the picture, while one goes on playing; kept when it is whole."""

from collections.abc import Callable
from functools import partial
from weakref import proxy

from game.library.own_players import kept_own_player
from game.library.season import keep_season, kept_season
from game.ui.screen import Host
from game.ui.window_keeps import kept_while_open
from game.ui.work import Answer
from levels.choice_effort import QUICK, ChoiceEffort
from levels.player_file import KnownPlayer, preset
from levels.season import GRID, Grid, SeasonMap, SeasonProgress, season, season_digest

__all__ = ["SEASON_CHANNEL", "SeasonMaking", "season_making"]

SEASON_CHANNEL = "season"
INSTEAD = "club"  # plays where nobody was measured yet


class SeasonMaking:
    """One for a window: it lives on when its page is left. `heard` is called with each part."""

    def __init__(self, app: Host) -> None:
        self.app: Host = proxy(app)  # the window holds this one, not this one the window
        self.share, self.going = 0.0, False
        self.made: SeasonMap | None = None
        self.heard: Callable[[], None] = lambda: None
        self.grid: Grid = GRID
        self.effort: ChoiceEffort = QUICK

    def player(self) -> tuple[KnownPlayer, int | None]:
        """Who it is for, and the balls he was fitted from: a preset without."""
        own, problem = kept_own_player(self.app.home, self.app.player)
        if problem:
            self.app.say(problem)
        return (own.player(), own.balls) if own else (preset(INSTEAD), None)

    def look(self) -> None:
        """Take the kept map if it is this player's."""
        digest = season_digest(self.player()[0], self.grid, self.effort)
        if self.made is not None and self.made.digest == digest:
            return
        self.made = None
        if self.app.home is not None:
            self.made, problem = kept_season(self.app.home, digest)
            if problem:
                self.app.say(problem)

    def start(self) -> None:
        """Begin; asked again while it goes on, nothing changes."""
        if self.going:
            return
        self.share, self.going = 0.0, True
        self.app.worker.ask(
            SEASON_CHANNEL, partial(season, self.player()[0], self.grid, self.effort), self._hear
        )

    def stop(self) -> None:
        """Leave it: what was not finished is not kept."""
        if self.going:
            self.going = False
            self.app.worker.forget(SEASON_CHANNEL)
            self.app.say("Stopped: the map is not kept half.")
            self.heard()

    def _hear(self, answer: Answer) -> None:
        if not answer.fresh or not self.going:
            return
        if answer.problem:
            self.going = False
        elif isinstance(answer.value, SeasonProgress):
            self.share = answer.value.share
            if answer.value.whole is not None:
                self._keep(answer.value.whole)
        self.heard()

    def _keep(self, whole: SeasonMap) -> None:
        self.going, self.made = False, whole
        problem = keep_season(self.app.home, whole) if self.app.home is not None else ""
        self.app.say(problem or f"Which shots to seek: the map for {whole.label} is made.")


def season_making(app: Host) -> SeasonMaking:
    """The window's one."""
    return kept_while_open(app, SeasonMaking, lambda: SeasonMaking(app))
