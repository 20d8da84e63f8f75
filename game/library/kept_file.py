"""A small JSON file of the reader's: checked when read, written whole, never thrown away."""

from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar

from pydantic import TypeAdapter, ValidationError

from game.library.set_aside import set_aside
from levels.whole_file import replace_file

__all__ = ["KeptFile"]

T = TypeVar("T")
NO_JSON = "it is no JSON text"


@dataclass(frozen=True)
class KeptFile(Generic[T]):
    """Where one kind of value lies in the data folder, and what holds where it cannot be read."""

    name: str
    what: str  # what it holds
    owner: str  # the same at the start of a sentence
    instead: str  # what happens without it
    adapter: TypeAdapter[T]

    def read(self, home: Path) -> tuple[T | None, str]:
        """What is kept, and one sentence when it could not be used. (None, "") where there is no file."""
        file = home / self.name
        try:
            return self.adapter.validate_json(file.read_bytes(), strict=True), ""
        except FileNotFoundError:
            return None, ""
        except OSError as error:
            return None, f"{self.owner} cannot be read ({error.strerror or error}); {self.instead}."
        except ValidationError as error:
            return None, self.spoilt(home, ValueError(_why(error)), self.instead)

    def spoilt(self, home: Path, error: ValueError, instead: str) -> str:
        """Put a file that cannot be used aside, and say so."""
        why, kept = set_aside(home / self.name, error)
        if kept:
            return f"The {self.what} file could not be used: {why}. It is kept as {kept}; {instead}."
        return f"The {self.what} file cannot be used: {why}; {instead}."

    def write(self, home: Path, value: T) -> str:
        """Write it whole or not at all; one sentence when the disk refuses ("" when all is well)."""
        try:
            home.mkdir(parents=True, exist_ok=True)
            replace_file(home / self.name, self.adapter.dump_json(value, indent=1).decode() + "\n")
        except OSError as error:
            return f"{self.owner} could not be kept: {error.strerror or error}."
        return ""


def _why(error: ValidationError) -> str:
    """The first thing that is wrong, in a few words."""
    first = error.errors(include_url=False)[0]
    if first["type"] == "json_invalid":
        return NO_JSON
    where, value = ".".join(map(str, first["loc"])), f"{first['input']!r}"
    if first["type"] == "missing":
        return f"{where} is missing"
    return f"{where or 'it'} cannot be {value if len(value) < 40 else value[:37] + '...'}"
