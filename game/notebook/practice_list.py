"""What there is to practise: a coach's assignments first, then the chapters in their order."""

from dataclasses import dataclass
from pathlib import Path

from game.library.shelf import HeldPack, Shelf
from levels.chapters import builtin_chapters
from levels.scenario import Scenario

__all__ = ["PractisedTask", "practice_list"]


@dataclass(frozen=True)
class PractisedTask:
    """A scenario by the name it has in the notebook, and the assignment it belongs to ("" for none)."""

    key: str
    scenario: Scenario
    assignment: str = ""


def practice_list(home: Path | None) -> tuple[PractisedTask, ...]:
    """Every task in the order it is practised. Reads the library's files; bad ones are left out here, the
    chapters tell of them."""
    packs = [pack for pack in Shelf(home).packs() if isinstance(pack, HeldPack)] if home else []
    asked = sorted(packs, key=lambda pack: not pack.id)
    own = [PractisedTask(e.key, e.scenario, pack.id) for pack in asked for e in pack.entries]
    chapters = [PractisedTask(e.name, e.scenario) for c in builtin_chapters() for e in c.entries]
    return (*own, *chapters)
