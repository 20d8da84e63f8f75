"""Balls being written down: kept letter by letter as they are typed, so that nothing is lost by leaving."""

from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter

from game.library.kept_file import KeptFile
from game.library.own_players import own_player_path
from levels.ball_log import LONGEST_LOG, read_ball
from physics.measured_balls import MeasuredBall

__all__ = ["BallDraft", "TypedBall", "keep_draft", "kept_draft"]

LONGEST = 40  # letters of a field


class TypedBall(BaseModel):
    """One ball as it is typed: texts, right or wrong."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    lie: str = Field(max_length=LONGEST)
    club: str = Field(max_length=LONGEST)
    target: str = Field(max_length=LONGEST)
    carry: str = Field(default="", max_length=LONGEST)
    stop: str = Field(default="", max_length=LONGEST)
    felt: str = Field(default="", max_length=LONGEST)

    @property
    def empty(self) -> bool:
        """Whether nothing of it was measured yet."""
        return not (self.carry.strip() or self.stop.strip() or self.felt)

    @property
    def cells(self) -> dict[str, str]:
        """The same by the columns of a table of balls."""
        return {
            "lie": self.lie, "club": self.club, "target_m": self.target, "carry_m": self.carry,
            "stop_m": self.stop, "felt": self.felt,
        }  # fmt: skip

    def read(self) -> tuple[MeasuredBall | None, dict[str, str]]:
        """The ball, or by column what is wrong with it."""
        return read_ball(self.cells)


class BallDraft(BaseModel):
    """What is meant now, and the balls so far, each with what was meant when it was hit. `green`: the
    Stimpmeter reading (m) as typed, `putter`: a name of PUTTERS; empty where nobody says."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    format: Literal[1] = 1
    lie: str = Field(default="fairway", max_length=LONGEST)
    club: str = Field(default="SW", max_length=LONGEST)
    target: str = Field(default="8", max_length=LONGEST)
    green: str = Field(default="", max_length=LONGEST)
    putter: Literal["", "tour", "scratch", "ninety"] = ""
    balls: tuple[TypedBall, ...] = Field(default=(), max_length=LONGEST_LOG)

    @property
    def measured(self) -> tuple[MeasuredBall, ...]:
        """The balls that can be read."""
        return tuple(ball for ball, _ in (one.read() for one in self.balls if not one.empty) if ball)

    @property
    def wrong(self) -> int:
        """How many balls have something wrong with them."""
        return sum(one.read()[0] is None for one in self.balls if not one.empty)


def _file(home: Path, name: str) -> KeptFile[BallDraft]:
    path = own_player_path(home, name, "-balls.json").relative_to(home)
    return KeptFile(
        str(path), "list of balls", "The list of balls", "the list begins empty", TypeAdapter(BallDraft)
    )


def kept_draft(home: Path | None, name: str) -> tuple[BallDraft, str]:
    """The balls of that name, and one sentence when the file could not be used."""
    if home is None:
        return BallDraft(), ""
    kept, problem = _file(home, name).read(home)
    return kept or BallDraft(), problem


def keep_draft(home: Path | None, name: str, draft: BallDraft) -> str:
    """Write it whole or not at all; one sentence when the disk refuses."""
    if home is None:
        return ""
    file = _file(home, name)
    try:
        (home / file.name).parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        return f"The list of balls could not be kept: {error.strerror or error}."
    return file.write(home, draft)
