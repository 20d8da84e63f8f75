"""The season's map as it is kept: one file, found stale by its digest."""

from pathlib import Path

from pydantic import TypeAdapter

from game.library.kept_file import KeptFile
from levels.season import SeasonMap

__all__ = ["SEASON", "keep_season", "kept_season"]

SEASON = KeptFile(
    "season.json", "season's map", "The season's map", "it is made anew", TypeAdapter(SeasonMap)
)


def kept_season(home: Path, digest: str) -> tuple[SeasonMap | None, str]:
    """The map kept there if it carries this digest, and one sentence when it could not be used."""
    kept, problem = SEASON.read(home)
    return (kept if kept is not None and kept.digest == digest else None), problem


def keep_season(home: Path, made: SeasonMap) -> str:
    """Write it whole or not at all; one sentence when the disk refuses ("" when all is well)."""
    return SEASON.write(home, made)
