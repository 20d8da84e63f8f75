"""A stroke of practice goes into the notebook; what stands in the way is told, and never stops play."""

from game.ui.screen import Host
from levels.attempts import Attempt

__all__ = ["write_down"]


def write_down(app: Host, attempt: Attempt) -> str:
    """Keep it, held in memory where the disk refuses. Returns its uid."""
    kept = app.book.log(attempt)
    if problem := app.book.new_problem():
        app.say(problem)
    return kept.uid
