"""What is asked when one chooses: the place, whose strokes are played, and where an option may be taken."""

from collections.abc import Callable
from dataclasses import dataclass

from game.library.own_players import kept_own_player
from game.text.choice import chooser_words
from game.ui.screen import Host
from levels.choice_effort import CAREFUL, ChoiceEffort
from levels.choose import ShotOption
from levels.player_file import KnownPlayer, preset
from levels.situation import Situation, situation_digest

__all__ = ["ChoosingQuestion", "ChoosingWay", "ShotChooser", "chooser_of"]

MACHINE, INSTEAD = "exact", "club"  # nobody chooses for a machine: all its shots end at the hole


@dataclass(frozen=True)
class ShotChooser:
    """Whose strokes they are; `balls` he was fitted from, None for a preset."""

    player: KnownPlayer
    balls: int | None = None

    @property
    def words(self) -> str:
        """Who it is, and that a preset is illustrative."""
        return chooser_words(self.player.spread.label, self.balls)


def chooser_of(app: Host, name: str) -> ShotChooser:
    """The fitted player of whoever the notebook writes down, else the preset of that name."""
    own, problem = kept_own_player(app.home, app.player)
    if problem:
        app.say(problem)
    if own is not None:
        return ShotChooser(own.player(), own.balls)
    return ShotChooser(preset(INSTEAD if name in (MACHINE, "own") else name))


@dataclass(frozen=True)
class ChoosingQuestion:
    """One place to choose in."""

    title: str
    situation: Situation
    chooser: ShotChooser
    effort: ChoiceEffort = CAREFUL

    @property
    def digest(self) -> str:
        """The same for the same place and player."""
        player = self.chooser.player
        return situation_digest(self.situation, player.rows.tolist(), player.spread.putter)


@dataclass(frozen=True)
class ChoosingWay:
    """Where an option can be taken: `refused` says in one sentence why not, "" where it can."""

    label: str
    act: Callable[[ShotOption], None]
    refused: Callable[[ShotOption], str] = lambda option: ""
