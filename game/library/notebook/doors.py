"""Ways to a notebook: a window's own, one that is only looked at, and one asked beside the picture."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from game.library.notebook.files import newest
from game.library.notebook.store import Notebook
from game.library.notebook.takeover import take_over_progress

__all__ = ["asked_beside", "notebook_of", "to_read"]

T = TypeVar("T")


def to_read(home: Path) -> Notebook:
    """The notebook below that folder; an empty one in memory where there is none yet."""
    return Notebook(home if newest(home).exists() else None)


def notebook_of(home: Path | None) -> tuple[Notebook, str]:
    """The window's notebook, with the older progress taken over; and a sentence where something is wrong."""
    book = Notebook(home)
    problem = take_over_progress(book, home) if home else ""
    return book, book.new_problem() or problem


def asked_beside(book: Notebook, ask: Callable[[Notebook], T]) -> Callable[[], T]:
    """A question as a job for the worker. The file is opened there once more; what is in memory alone can
    only be asked here and now."""
    home = book.home
    if home is None or book.state != "open" or book.held:
        found = ask(book)
        return lambda: found

    def job() -> T:
        with Notebook(home) as own:
            return ask(own)

    return job
