"""What was set on the Bench last, kept in one small JSON file; an odd entry costs only itself."""

from pathlib import Path
from typing import Literal

from pydantic import BaseModel, JsonValue, TypeAdapter

from game.library.kept_file import KeptFile
from physics.address import CONTROLS
from physics.equipment import BAG
from physics.spread import PLAYERS
from physics.surfaces import SURFACES

__all__ = ["OWN_PLAYER", "Entries", "keep_bench", "kept_bench"]

Entries = dict[str, str | float]  # club, ground, player by name; controls by theirs (SI)
OWN_PLAYER = "own"  # the fitted player of whoever the notebook writes down
NAMED = {"club": tuple(BAG), "ground": tuple(SURFACES), "player": (*PLAYERS, OWN_PLAYER)}


def kept_bench(home: Path) -> tuple[Entries, str]:
    """What is kept, and one sentence when some of it could not be used ("" when all is well)."""
    kept, problem = FILE.read(home)
    if kept is None:
        return {}, problem
    good: Entries = {name: value for name, value in kept.entries.items() if _allowed(name, value)}  # type: ignore[misc]
    if odd := next((name for name in kept.entries if name not in good), ""):
        problem = FILE.spoilt(home, ValueError(f"the entry '{odd}' is odd"), "the rest of the set-up is used")
        FILE.write(home, _File(format=1, entries={**good}))
    return good, problem


def keep_bench(home: Path, entries: Entries, before: Entries) -> str:
    """Write what is no longer as it was `before`: what another window has set meanwhile stays. One sentence
    when the disk refuses ("" when all is well)."""
    changed = {name: value for name, value in entries.items() if before.get(name) != value}
    gone = before.keys() - entries.keys()
    if not changed and not gone:
        return ""
    there = {name: value for name, value in kept_bench(home)[0].items() if name not in gone}
    return FILE.write(home, _File(format=1, entries={**there, **changed}))


def _allowed(name: str, value: JsonValue) -> bool:
    if name in NAMED:
        return isinstance(value, str) and value in NAMED[name]
    control = CONTROLS.get(name)
    number = isinstance(value, float | int) and not isinstance(value, bool)
    return control is not None and number and control.low <= float(value) <= control.high  # type: ignore[arg-type]


class _File(BaseModel):
    """The whole file."""

    format: Literal[1]
    entries: dict[str, JsonValue]


FILE = KeptFile(
    "bench.json", "Bench", "The set-up of the Bench", "the standard one is used", TypeAdapter(_File)
)
