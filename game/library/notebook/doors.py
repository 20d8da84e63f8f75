"""A notebook opened by a command that only looks: nothing is made where there is none."""

from pathlib import Path

from game.library.notebook.files import newest
from game.library.notebook.store import Notebook
from game.library.notebook.takeover import take_over_progress

__all__ = ["notebook_of", "to_read"]


def to_read(home: Path) -> Notebook:
    """The notebook below that folder; an empty one in memory where there is none yet."""
    return Notebook(home if newest(home).exists() else None)


def notebook_of(home: Path | None) -> tuple[Notebook, str]:
    """The window's notebook, with the older progress taken over; and a sentence where something is wrong."""
    book = Notebook(home)
    problem = take_over_progress(book, home) if home else ""
    return book, book.new_problem() or problem
