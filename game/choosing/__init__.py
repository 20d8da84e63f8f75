"""The door of choosing: what to play from here, for this player; first the pick, then the answer."""

from game.choosing.question import ChoosingQuestion, ChoosingWay, ShotChooser, chooser_of
from game.choosing.screen import Choosing

__all__ = ["Choosing", "ChoosingQuestion", "ChoosingWay", "ShotChooser", "chooser_of"]
