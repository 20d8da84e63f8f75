"""Signs of life on stderr: the first compilation, and a bar over long work. Never on stdout."""

import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import TypeVar

from game.startup import first_time, mark_done

__all__ = ["PREPARING", "counted", "preparing", "shares_done"]

T = TypeVar("T")
PREPARING = "Preparing the laws (first start only)…"


@contextmanager
def preparing(part: str) -> Iterator[None]:
    """Around the first call into the laws for `part`: says what the wait is for, if there is one."""
    if not first_time(part):
        yield
        return
    if sys.stderr.isatty():
        from rich.console import Console

        with Console(stderr=True).status(PREPARING):
            yield
    else:
        print(PREPARING, file=sys.stderr, flush=True)
        yield
    mark_done(part)


def counted(items: Iterable[T], total: int, what: str) -> Iterator[T]:
    """The items, with a bar that counts them when stderr is a terminal.

    The bar comes after the first item: until then a first compilation may have its own sign there.
    """
    if not sys.stderr.isatty():
        yield from items
        return
    from rich.console import Console
    from rich.progress import Progress

    rest = iter(items)
    for first in rest:
        yield first
        break
    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(what, total=total, completed=min(1, total))
        for item in rest:
            yield item
            bar.advance(task)


def shares_done(shares: Iterable[float], what: str) -> None:
    """Go through work that tells what share of it is done (0 to 1), with a bar when stderr is a terminal."""
    if not sys.stderr.isatty():
        for _ in shares:
            pass
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(what, total=1.0)
        for share in shares:
            bar.update(task, completed=share)
