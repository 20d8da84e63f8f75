"""How the reader likes it: a few choices kept in one JSON file."""

from pathlib import Path
from typing import Annotated, Literal, get_args

from pydantic import ConfigDict, Field, TypeAdapter
from pydantic.dataclasses import dataclass

from game.library.kept_file import KeptFile

__all__ = ["DETAILS", "LENGTHS", "SETTINGS", "Settings", "keep_settings", "kept_settings"]

Lengths = Literal["m", "yd"]
Detail = Literal["junior", "player", "coach"]
LENGTHS: tuple[str, ...] = get_args(Lengths)
DETAILS: tuple[str, ...] = get_args(Detail)


@dataclass(frozen=True, config=ConfigDict(strict=True))
class Settings:
    """Every choice. ValueError when one is out of its limits."""

    units: Lengths = "m"
    left_handed: bool = False
    detail: Detail = "player"
    player: Annotated[str, Field(max_length=40)] = ""  # by name in the notebook; "" for the first in it
    dark: bool = False
    sound: bool = True
    volume: Annotated[float, Field(ge=0.0, le=1.0)] = 0.6
    reduced_motion: bool = False
    safety_read: bool = False  # the page of cautions, shown once
    text_scale: Annotated[float, Field(ge=1.0, le=2.0)] = 1.0
    width: Annotated[int, Field(ge=320, le=16384)] = 1280  # px of the window
    height: Annotated[int, Field(ge=240, le=16384)] = 800


SETTINGS = KeptFile(
    "settings.json", "settings", "The settings", "the standard ones are used", TypeAdapter(Settings)
)


def kept_settings(home: Path) -> tuple[Settings, str]:
    """The settings kept there, and one sentence when they could not be used ("" when all is well)."""
    kept, problem = SETTINGS.read(home)
    return kept or Settings(), problem


def keep_settings(home: Path, settings: Settings) -> str:
    """Write them whole or not at all; one sentence when the disk refuses ("" when all is well)."""
    return SETTINGS.write(home, settings)
