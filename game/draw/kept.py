"""What is worked out once of a shot and kept by which shot it is: to hash one walks thousands of numbers."""

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

__all__ = ["kept_of_last"]

T = TypeVar("T")
V = TypeVar("V")


def kept_of_last(most: int) -> Callable[[Callable[[T], V]], Callable[[T], V]]:
    """Keep what a function makes of its last `most` owners. An owner is told by being the same object, not
    an equal one, and must never change."""

    def keeping(make: Callable[[T], V]) -> Callable[[T], V]:
        kept: dict[int, tuple[T, V]] = {}  # the owner too, so that its number is nobody else's

        @wraps(make)
        def of(owner: T) -> V:
            found = kept.get(id(owner))
            if found is None:
                if len(kept) >= most:
                    kept.pop(next(iter(kept)), None)
                found = kept[id(owner)] = owner, make(owner)
            return found[1]

        return of

    return keeping
