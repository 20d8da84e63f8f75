"""How the reader likes it: a few choices kept in one JSON file."""

import json
import os
from collections.abc import Callable
from dataclasses import asdict, dataclass, fields
from math import isfinite
from pathlib import Path
from typing import Any

from game.library.set_aside import set_aside
from levels.files import replace_file

__all__ = ["DETAILS", "UNITS", "Settings", "data_home", "load", "save"]

UNITS = ("m", "yd")
DETAILS = ("junior", "player", "coach")
FILE = "settings.json"
VARIABLE = "FRINGEWORK_HOME"


@dataclass(frozen=True)
class Settings:
    """Every choice. ValueError when one is out of its limits."""

    units: str = "m"
    left_handed: bool = False
    detail: str = "player"
    dark: bool = False
    sound: bool = True
    volume: float = 0.6  # 0 to 1
    reduced_motion: bool = False
    text_scale: float = 1.0  # 1 to 2
    width: int = 1280  # px of the window
    height: int = 800

    def __post_init__(self) -> None:
        for f in fields(self):
            value, kind = getattr(self, f.name), type(f.default)
            allowed = (int, float) if kind is float else (kind,)
            if type(value) not in allowed or not _LIMITS.get(f.name, lambda _: True)(value):
                raise ValueError(f"{f.name} cannot be {value!r}")


_LIMITS: dict[str, Callable[[Any], bool]] = {
    "units": lambda v: v in UNITS,
    "detail": lambda v: v in DETAILS,
    "volume": lambda v: isfinite(v) and 0.0 <= v <= 1.0,
    "text_scale": lambda v: isfinite(v) and 1.0 <= v <= 2.0,
    "width": lambda v: 320 <= v <= 16384,
    "height": lambda v: 240 <= v <= 16384,
}


def data_home(given: str | os.PathLike[str] | None = None) -> Path:
    """Where the reader's files are kept: as given, else FRINGEWORK_HOME, else the user's config folder."""
    if chosen := given or os.environ.get(VARIABLE):
        return Path(chosen).expanduser()
    from platformdirs import user_config_path

    return user_config_path("fringework")


def load(home: Path) -> tuple[Settings, str]:
    """The settings kept there, and one sentence when they could not be used ("" when all is well).

    A file that cannot be read as settings is put aside beside the new one, never thrown away.
    """
    file = home / FILE
    try:
        kept = json.loads(file.read_text(encoding="utf-8"))
        if not isinstance(kept, dict):
            raise ValueError("it holds no settings")
        known = {f.name for f in fields(Settings)}
        return Settings(**{k: v for k, v in kept.items() if k in known}), ""
    except FileNotFoundError:
        return Settings(), ""
    except OSError as error:
        return (
            Settings(),
            f"The settings cannot be read ({error.strerror or error}); the standard ones are used.",
        )
    except (ValueError, RecursionError) as error:
        return Settings(), _set_aside(file, error)


def _set_aside(file: Path, error: Exception) -> str:
    why, name = set_aside(file, error)
    if not name:
        return f"The settings file cannot be used: {why}. The standard settings are used."
    return f"The settings file could not be used: {why}. It is kept as {name}; the standard ones are used."


def save(home: Path, settings: Settings) -> str:
    """Write them whole or not at all; one sentence when the disk refuses ("" when all is well)."""
    try:
        home.mkdir(parents=True, exist_ok=True)
        replace_file(home / FILE, json.dumps(asdict(settings), indent=2) + "\n")
    except OSError as error:
        return f"The settings could not be kept: {error.strerror or error}."
    return ""
