"""The chapters people play through, in order, each with its question and its scenarios."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from levels.files import library, load_library
from levels.scenario import Scenario

__all__ = ["CHAPTERS", "Chapter", "NamedScenario", "builtin_chapters", "chapters_of"]

# title: what the chapter asks
CHAPTERS: dict[str, str] = {
    "Low point": "Where is the bottom of the swing?",
    "Lean and bounce": "Why does more lean dig?",
    "Loft and launch": "What makes the ball start high or low?",
    "Land and roll": "Where does it land, and how far does it run?",
    "Face open": "What does an open face add?",
    "Lies": "What does the ball sit on, and what does that ask for?",
    "Speed and slope": "What do green, slope and wind do to the run?",
    "Follow-through and release": "How do hands, arms and finish belong to the shot?",
    "Choose the shot": "Which shot forgives the most?",
}


@dataclass(frozen=True)
class NamedScenario:
    """A scenario and the name it is known by in practice logs."""

    name: str
    scenario: Scenario


@dataclass(frozen=True)
class Chapter:
    """Scenarios that ask one question, in the order they are played."""

    title: str
    question: str
    entries: tuple[NamedScenario, ...]


def chapters_of(entries: Iterable[NamedScenario]) -> tuple[Chapter, ...]:
    """Group scenarios by chapter: ours first in their order, then others by title, scenarios by `order`.

    Scenarios without a chapter come last, under the title "" and in the same order.
    """
    found: dict[str, list[NamedScenario]] = {}
    for entry in entries:
        found.setdefault(entry.scenario.chapter, []).append(entry)
    places = {title: i for i, title in enumerate(CHAPTERS)}
    titles = sorted(found, key=lambda title: (not title, places.get(title, len(places)), title))
    return tuple(
        Chapter(
            title,
            CHAPTERS.get(title, ""),
            tuple(sorted(found[title], key=lambda entry: (entry.scenario.order, entry.name))),
        )
        for title in titles
    )


@lru_cache(maxsize=1)
def builtin_chapters() -> tuple[Chapter, ...]:
    """The chapters of the built-in library.

    >>> builtin_chapters()[0].title
    'Low point'
    """
    return chapters_of(NamedScenario(name, load_library(name)) for name in library())
