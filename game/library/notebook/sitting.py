"""How long one has been at it: a rest is proposed once a sitting, from the times of its shots."""

from collections.abc import Sequence
from datetime import datetime

from levels.practice import SITTING_BREAK, nudge

__all__ = ["Sitting"]


class Sitting:
    """The shots of one player without a longer break between them. Another player sits down anew."""

    def __init__(self) -> None:
        self.player = ""
        self.times: list[datetime] = []
        self._said = False

    def take(self, player: str, when: datetime) -> None:
        """A shot was played."""
        if player != self.player or (self.times and when - self.times[-1] > SITTING_BREAK):
            self.player, self.times, self._said = player, [], False
        self.times.append(when)

    def rest_due(self, junior: bool, times: Sequence[datetime] = ()) -> bool:
        """Whether to propose a rest now: once the sitting is long enough, and once only. `times` from the
        file tell of shots in another window, or before a new start."""
        if self._said or not nudge(times or self.times, junior):
            return False
        self._said = True
        return True
