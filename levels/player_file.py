"""A player of one's own, kept as a small readable file and used wherever a preset is.

The file says the spread, within what it lies eight times in ten, the habits that were seen and taken out,
and some players who would fit the balls as well: from those comes every range of expected strokes.
"""

import os
from dataclasses import dataclass
from functools import cached_property
from math import degrees, radians
from typing import Annotated, Literal

import numpy as np
import tomli_w
from pydantic import BaseModel, Field, Strict, StringConstraints, ValidationError

from levels.files import told
from levels.parts import Part
from levels.problems import problems_of
from levels.reading import ScenarioError, file_name, read_text, tables
from levels.rules import Number, count_between, limited_number, one_of
from levels.whole_file import replace_file
from physics.bank import HABIT_SPEED, HABIT_UP, Floats, player_row, row_spread
from physics.fit import Posterior
from physics.putting import PUTTERS
from physics.spread import PLAYERS, Spread

__all__ = [
    "ASSUMED_PUTTER",
    "KnownPlayer",
    "PlayerFile",
    "fitted_file",
    "parse_player",
    "player_text",
    "preset",
    "preset_table",
    "read_player",
    "write_player",
]

LARGEST = 100_000  # bytes
ASSUMED_PUTTER = "ninety"  # of whom nobody says how he putts
LIKELY = 24  # players kept beside the middle one, assumed
MOST = 64
OUTER = (0.1, 0.9)  # quantiles of the range: eight times in ten
PLACES = 3  # of a number in the file


class SpreadTable(Part):
    """Standard deviations of a player's strokes."""

    speed_percent: Number = limited_number("spread of the head speed", 0, 100, "%")
    along_mm: Number = limited_number("spread of the low point along the line", 0, 500, "mm")
    up_mm: Number = limited_number("spread of the low point's height", 0, 100, "mm")
    lean_deg: Number = limited_number("spread of the shaft lean at impact", 0, 45, "deg")
    face_deg: Number = limited_number("spread of the face", 0, 45, "deg")
    drop: Number = limited_number("spread of the dip, share of lost reach", 0, 5)
    aim_deg: Number = limited_number("spread of the start line", 0, 45, "deg")

    def physics(self, name: str, label: str, putter: str) -> Spread:
        """The spread in SI."""
        return Spread(
            name, label, self.speed_percent / 100.0, self.along_mm / 1e3, self.up_mm / 1e3,
            radians(self.lean_deg), radians(self.face_deg), self.drop, radians(self.aim_deg), putter,
        )  # fmt: skip


class HabitTable(Part):
    """What the balls did on average beside what was meant; seen, and not played."""

    speed_percent: Number = limited_number("average speed over the one that was meant", -60, 60, "%", 0.0)
    up_mm: Number = limited_number("average height of the low point over the one meant", -50, 50, "mm", 0.0)


class PlayerFile(Part):
    """Format 1 of a player."""

    format: Literal[1] = Field(description="version of this file format: 1")
    label: Annotated[str, StringConstraints(pattern=r"^[^\x00-\x1f\x7f]+$", max_length=40)] = Field(
        description="who it is, one line of 1 to 40 characters"
    )
    putter: Annotated[str, *one_of(PUTTERS, "putter")] = Field(
        default="ninety", description=f"who putts out: {', '.join(PUTTERS)}"
    )
    balls: Annotated[int, Strict()] = Field(
        default=0, ge=0, le=1000, description="balls it is from, 0 to 1000"
    )
    spread: SpreadTable = Field(description="table of the spread")
    low: SpreadTable | None = Field(
        default=None, description="table of what it is more than, nine times in ten"
    )
    high: SpreadTable | None = Field(
        default=None, description="table of what it is less than, nine times in ten"
    )
    habit: HabitTable = Field(default=HabitTable(), description="table of what the balls did on average")
    likely: Annotated[tuple[SpreadTable, ...], *count_between(0, MOST)] = Field(
        default=(), description=f"up to {MOST} tables of players who would fit as well"
    )

    def player(self) -> "KnownPlayer":
        """As choosing and playing hold it."""
        spread = self.spread.physics("own", self.label, self.putter)
        return KnownPlayer(spread, tuple(one.physics("own", self.label, self.putter) for one in self.likely))


_TABLES: dict[str, type[BaseModel]] = {
    "spread": SpreadTable, "low": SpreadTable, "high": SpreadTable, "habit": HabitTable,
    "likely": SpreadTable,
}  # fmt: skip


@dataclass(frozen=True)
class KnownPlayer:
    """Who plays: the spread in the middle, and others who might be the same player (none for a preset)."""

    spread: Spread
    likely: tuple[Spread, ...] = ()

    @cached_property
    def rows(self) -> Floats:
        """Everyone it might be as rows of numbers, shape (n, 9); else the middle one alone."""
        return np.array([player_row(spread) for spread in self.likely or (self.spread,)])


def preset(name: str) -> KnownPlayer:
    """One of the illustrative presets. KeyError for no preset.

    >>> preset("club").rows.shape
    (1, 9)
    """
    return KnownPlayer(PLAYERS[name])


def preset_table(name: str) -> SpreadTable:
    """The spread of a preset in the units of a player's file. KeyError for no preset."""
    return _table(np.asarray(player_row(PLAYERS[name])))


def fitted_file(
    found: Posterior, label: str, balls: int, putter: str = ASSUMED_PUTTER, seed: int = 0
) -> PlayerFile:
    """The file of a posterior."""
    low, high = (found.quantile(q) for q in OUTER)
    mean = found.mean
    return PlayerFile(
        format=1, label=label, putter=putter, balls=balls,
        spread=_table(mean), low=_table(low), high=_table(high),
        habit=HabitTable(
            speed_percent=round(100.0 * float(mean[HABIT_SPEED]), 1),
            up_mm=round(1e3 * float(mean[HABIT_UP]), 1)
        ),
        likely=tuple(_table(row) for row in found.plausible(LIKELY, seed)),
    )  # fmt: skip


def _table(row: Floats) -> SpreadTable:
    s = row_spread(row, "own", "own")
    values = {
        "speed_percent": 100.0 * s.speed, "along_mm": 1e3 * s.along, "up_mm": 1e3 * s.up,
        "lean_deg": degrees(s.lean), "face_deg": degrees(s.face), "drop": s.drop, "aim_deg": degrees(s.aim),
    }  # fmt: skip
    return SpreadTable(**{k: float(f"{v:.{PLACES}g}") for k, v in values.items()})


def parse_player(text: str, name: str = "player") -> PlayerFile:
    """The player in a TOML text. ScenarioError tells everything wrong with it, with line and key.

    >>> parse_player("label = 'me'")
    Traceback (most recent call last):
    levels.reading.ScenarioError: player, format: is missing; allowed: version of this file format: 1.
    player, spread: is missing; allowed: table of the spread.
    """
    text = text.removeprefix("\ufeff")
    data = tables(text, name, LARGEST)
    try:
        return PlayerFile.model_validate(data)
    except ValidationError as error:
        raise ScenarioError(told(name, text, problems_of(error, PlayerFile, _TABLES))) from None


def read_player(path: str | os.PathLike[str]) -> PlayerFile:
    """The player in a file. ScenarioError tells everything wrong with it."""
    return parse_player(read_text(path, LARGEST), file_name(path))


def player_text(player: PlayerFile) -> str:
    """TOML that reads back as an equal player."""
    return tomli_w.dumps(player.model_dump(exclude_none=True))


def write_player(path: str | os.PathLike[str], player: PlayerFile) -> None:
    """Write the file whole or leave the old one. OSError when the disk refuses."""
    replace_file(path, player_text(player))
