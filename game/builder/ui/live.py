"""Widgets that show what the draft says and are told when it has changed."""

from levels.rules import Loc

__all__ = ["Live"]


class Live:
    """Beside Widget: `loc` is the place of the draft it shows, () for none of its own."""

    loc: Loc = ()

    def refresh(self) -> None:
        """The draft has changed: show what it says now."""
