"""The one loudspeaker all screens share."""

from functools import cache

from game.library.settings import Settings
from game.sound.cues import Player

__all__ = ["loudspeaker"]


@cache
def _player() -> Player:
    return Player()


def loudspeaker(settings: Settings) -> Player:
    """The player, as loud as these settings say; made when first asked for."""
    player = _player()
    player.volume, player.muted = settings.volume, not settings.sound
    return player
