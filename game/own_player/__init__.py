"""The door of one's own player: ten measured balls, the fitted player, and which shots to seek."""

from game.own_player.page import OwnPlayerPage
from game.ui.screen import Host, Screen

__all__ = ["own_player"]


def own_player(app: Host) -> Screen:
    """The page of whoever the notebook writes down, to be pushed over any screen."""
    return OwnPlayerPage(app)
