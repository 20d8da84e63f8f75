"""What every card of Play is made with: what is known, what can be done, and the few parts they share."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum, StrEnum
from typing import Any, Protocol

from game.shot_view.sentence import SentenceView
from game.ui import Button, TextBlock, Widget
from levels.scoring import Match
from levels.strokes import ManyStrokes

__all__ = ["Acts", "Card", "CardPage", "Made", "Room", "Telling", "block_of", "main_button", "read_button"]

Made = tuple[list[Widget], list[Button]]


class Acts(Protocol):
    """What the card's controls do."""

    def go(self) -> None: ...
    def once_more(self) -> None: ...
    def onward(self) -> None: ...
    def back(self) -> None: ...
    def skip(self) -> None: ...
    def hint(self) -> None: ...
    def ask(self) -> None: ...
    def more(self) -> None: ...
    def example(self) -> None: ...
    def replay(self) -> None: ...
    def numbers(self) -> None: ...
    def look(self) -> None: ...
    def choose(self, cause: int) -> None: ...
    def set(self, name: str, value: float) -> None: ...
    def take(self, club: str) -> None: ...
    def called(self, **marks: Any) -> None: ...


class Room(IntEnum):
    """How much of the result has room at once, the most first."""

    ALL = 0
    CAUSE = 1  # prediction, result and cause; the rest on a page of its own
    RESULT = 2  # prediction and result; the cause too on a page of its own


class CardPage(StrEnum):
    """Which page of the result is read."""

    RESULT = "result"
    WHY = "why"
    MORE = "more"


@dataclass(frozen=True)
class Telling:
    """How the card tells: with numbers or not, in yards or metres, and what is known by now."""

    numbers: bool = True
    yards: bool = False
    match: Match | None = None
    ended: bool = True  # the showing of the shot is over
    onward: str = "Next scenario"  # where the way on leads
    told: SentenceView | None = None  # the strike in sentences
    tight: bool = False  # there is no room for words and picture together
    looking: bool = False  # then the picture has it
    room: Room = Room.ALL
    page: CardPage = CardPage.RESULT
    many: ManyStrokes | None = None  # of the set-up, as many as have come


@dataclass(frozen=True)
class Card:
    """What is read and set, and the ways on: one row that never scrolls away."""

    items: tuple[Widget, ...]
    ways: tuple[Button, ...]


def block_of(words: str) -> list[Widget]:
    """A block of these words; nothing without any."""
    return [TextBlock(words.strip())] if words.strip() else []


def main_button(label: str, act: Callable[[], None]) -> Button:
    """The one next step."""
    return Button(label, act, kind="main", hint="Enter")


def read_button(t: Telling, acts: Acts) -> Button:
    """Shows the shot once more."""
    return Button("Again" if t.tight else "Show it again", acts.replay, hint="P")
