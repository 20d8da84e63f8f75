"""What the chapter page shows: the built-in chapters, the reader's own scenarios, and packs from a coach."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from game.library.shelf import Entry, HeldPack, Shelf
from levels.chapters import builtin_chapters
from levels.plan import PracticePlan
from levels.scenario import Scenario

__all__ = ["COACH", "OWN", "STRETCH", "ShelfChapter", "own_chapters", "page_of", "shelf"]

UNNAMED = "On the fen"
OWN, COACH = "Your own", "From your coach"
STRETCH = 8  # places on one section at most: each keeps room to be hit and read


@dataclass(frozen=True)
class ShelfChapter:
    """Scenarios that belong together, in order, by name.

    Chapters of one `tab` follow each other under it. `notes` name files that cannot be used.
    """

    title: str
    scenarios: tuple[tuple[str, Scenario], ...]
    tab: str = ""
    words: str = ""
    plan: PracticePlan | None = None
    notes: tuple[str, ...] = ()
    place: Path | None = None  # where it lies in the library
    assignment: str = ""  # its id, where the coach wants an answer


@lru_cache(maxsize=1)
def shelf() -> tuple[ShelfChapter, ...]:
    """The built-in scenarios by chapter, in the order they teach."""
    return tuple(
        ShelfChapter(c.title or UNNAMED, tuple((e.name, e.scenario) for e in c.entries))
        for c in builtin_chapters()
    )


def own_chapters(library: Shelf) -> tuple[ShelfChapter, ...]:
    """The library as chapters, long ones in stretches. Files are read here; a bad one is told, not raised."""
    own, packs = library.scenarios(), library.packs()
    found = [e for e in own if isinstance(e, Entry)]
    out: list[ShelfChapter] = []
    if own:
        out += _stretches(OWN, OWN, found, ShelfChapter(OWN, (), notes=_told(own)))
    lost = _told(packs)
    for pack in (p for p in packs if isinstance(p, HeldPack)):
        about = ShelfChapter("", (), "", pack.words, pack.plan, (*pack.problems, *lost), pack.folder, pack.id)
        out += _stretches(COACH, pack.title, pack.entries, about)
        lost = ()
    if lost:
        out.append(ShelfChapter(COACH, (), COACH, notes=lost))
    return tuple(out)


def _told(found: Sequence[Entry | HeldPack | str]) -> tuple[str, ...]:
    return tuple(one for one in found if isinstance(one, str))


def _stretches(tab: str, title: str, entries: Sequence[Entry], about: ShelfChapter) -> list[ShelfChapter]:
    """The same chapter as often as its section needs."""
    count = max(-(-len(entries) // STRETCH), 1)
    each = -(-len(entries) // count)
    return [
        ShelfChapter(
            title if count == 1 else f"{title}, part {i + 1} of {count}",
            tuple((e.key, e.scenario) for e in entries[i * each : (i + 1) * each]),
            tab, about.words, about.plan, about.notes, about.place, about.assignment,
        )
        for i in range(count)
    ]  # fmt: skip


def page_of(chapters: Sequence[ShelfChapter], place: Path) -> tuple[int, str]:
    """Number of the chapter at that place of the library, and the scenario there; -1 and "" for none."""
    for i, chapter in enumerate(chapters):
        if chapter.place == place:
            return i, ""
        for key, _ in chapter.scenarios:
            if chapter.tab == OWN and key.split("/")[-1] == place.stem:
                return i, key
    return -1, ""
