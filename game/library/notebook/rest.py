"""Whether to propose a rest: from the shots in the notebook, whichever window played them."""

from datetime import datetime

from game.library.notebook.pages import times_of_sitting
from game.library.notebook.store import Notebook
from levels.practice import SITTING_BREAK, nudge

__all__ = ["rest_due"]


def rest_due(book: Notebook, player: str, junior: bool, now: datetime) -> bool:
    """True once a window in each sitting that is long enough. One who comes back after a break has rested."""
    times = times_of_sitting(book, player)
    if not nudge(times, junior) or now - times[-1] > SITTING_BREAK:
        return False
    said = book.rest_said.get(player)
    if said is not None and times[0] <= said:
        return False
    book.rest_said[player] = now
    return True
