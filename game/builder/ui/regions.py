"""Ctrl+Tab: the focus from one part of the page to the next."""

from collections.abc import Sequence

from game.ui import Widget
from game.ui.widget import walk

__all__ = ["first_of_next"]


def first_of_next(
    parts: Sequence[Sequence[Widget]], focused: Widget | None, by: int, instead: dict[Widget, Widget]
) -> Widget | None:
    """The first widget that can have the focus in the part after (by +1) or before (-1) the focused one's.

    Parts without any are passed over. `instead` names the widget meant where a part begins with that one.
    """
    now = next((i for i, part in enumerate(parts) if focused in list(walk(part))), 0)
    for step in range(1, len(parts) + 1):
        part = parts[(now + by * step) % len(parts)]
        found = next((w for w in walk(part) if w.focusable and w.enabled), None)
        if found:
            return instead.get(found, found)
    return None
