"""Work counted instead of timed: calls made, which no busy machine changes."""

from collections.abc import Iterator
from contextlib import contextmanager
from cProfile import Profile

__all__ = ["counted"]


@contextmanager
def counted() -> Iterator[list[int]]:
    """Calls of Python and C functions in the block; the list holds their number once it is left.

    What one call does inside C (a regular expression, a copy of a text) is one, however long it takes;
    `tests/benchmarks/test_reading.py` shows that as ratios.
    """
    calls: list[int] = []
    profile = Profile()
    profile.enable()
    try:
        yield calls
    finally:
        profile.disable()
        calls.append(sum(one.callcount for one in profile.getstats()))
