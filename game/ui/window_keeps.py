"""What a window keeps while it is open, though the screen that made it was left: one value of each kind."""

from collections.abc import Callable
from typing import Any, TypeVar
from weakref import WeakKeyDictionary

from game.ui.screen import Host

__all__ = ["kept_while_open"]

T = TypeVar("T")
_KEPT: WeakKeyDictionary[Host, dict[type, Any]] = WeakKeyDictionary()


def kept_while_open(app: Host, kind: type[T], make: Callable[[], T]) -> T:
    """The window's one value of that kind, made when it is first asked for."""
    own = _KEPT.setdefault(app, {})
    if kind not in own:
        own[kind] = make()
    found: T = own[kind]
    return found
