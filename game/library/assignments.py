"""Assignments at hand: what a coach handed out, kept below HOME/assignments, and packs of the library.

A copy is kept when a pack that asks for an answer is handed out, so that the answer finds it again.
"""

from collections.abc import Iterator
from pathlib import Path
from secrets import token_hex

from game.library.shelf import HeldPack, Shelf
from levels.answers import LARGEST_ANSWER, member_name
from levels.files import scenario_text
from levels.packs import Member, Pack, PackError, read_pack, write_pack
from levels.reading import ScenarioError, read_text

__all__ = ["ASSIGNMENTS", "assignment_of", "is_answer", "keep_assignment", "new_assignment_id"]

ASSIGNMENTS = "assignments"


def new_assignment_id() -> str:
    """An id nobody else has."""
    return token_hex(6)


def keep_assignment(home: Path, pack: Pack) -> None:
    """Keep a copy of what was handed out. PackError when it is not sound, OSError when the disk refuses."""
    place = _place(home, pack.id)
    place.parent.mkdir(parents=True, exist_ok=True)
    write_pack(place, pack)


def assignment_of(home: Path, wanted: str) -> Pack | None:
    """The pack of that id: handed out from here, or in the library. Looking never writes."""
    try:
        pack = read_pack(_place(home, wanted))
        if pack.id == wanted:
            return pack
    except PackError:
        pass  # none, or none that can be used: the library may have it
    return next((pack for pack in _held(home) if pack.id == wanted), None)


def _place(home: Path, assignment: str) -> Path:
    """Its file. The word before the id keeps clear of names that a system keeps for its devices."""
    return home / ASSIGNMENTS / f"handed-out-{assignment}.pack.toml"


def _held(home: Path) -> Iterator[Pack]:
    for held in Shelf(home).packs():
        if isinstance(held, HeldPack):
            members = tuple(
                Member(member_name(one.key), scenario_text(one.scenario), one.scenario)
                for one in held.entries
            )
            yield Pack(held.title, members, held.words, held.plan, held.problems, held.id)


def is_answer(path: str | Path) -> bool:
    """Whether a file is an answer, sound or not: one JSON object, which no scenario or pack can be."""
    try:
        return read_text(path, LARGEST_ANSWER).removeprefix("\ufeff").lstrip()[:1] == "{"
    except ScenarioError:
        return str(path).lower().endswith(".json")
