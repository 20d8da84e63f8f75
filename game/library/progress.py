"""What the player has done so far in the scenarios, kept in one small JSON file."""

import json
from dataclasses import dataclass, field, replace
from math import isfinite
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, FiniteFloat, JsonValue, NonNegativeInt, TypeAdapter, ValidationError

from game.library.kept_file import KeptFile
from levels.scoring import Prediction
from levels.teaching import MOST_SHOTS

__all__ = ["CAME_TRUE", "FILE", "Past", "Progress", "calls_true", "keep_progress", "kept_progress"]

FORMAT: Literal[1] = 1
CAME_TRUE = 1.0  # m between predicted and actual place that counts as come true, assumed
KEPT_GAPS = (
    200  # newest prediction gaps and calls kept of a scenario, assumed: enough for a trend, small on disk
)


@dataclass(frozen=True)
class Past:
    """One scenario's past: shots ever played, whether it was ever passed, and the newest few."""

    tries: int = 0
    done: bool = False
    results: tuple[bool, ...] = ()  # whether each of the newest MOST_SHOTS met every goal, oldest first
    gaps: tuple[float, ...] = ()  # m between called and actual stop, oldest first
    calls: tuple[bool, ...] = ()  # whether each call of landing or strike came true, oldest first

    def after(self, met: bool, passed: bool, gap: float, calls: tuple[bool, ...] = ()) -> "Past":
        """The past once one more shot is played; a gap that is nan was never called."""
        gaps = (*self.gaps, gap) if isfinite(gap) else self.gaps
        return Past(
            self.tries + 1, self.done or passed, (*self.results, met)[-MOST_SHOTS:], gaps[-KEPT_GAPS:],
            (*self.calls, *calls)[-KEPT_GAPS:],
        )  # fmt: skip


def calls_true(call: Prediction, carry: float | None, strike: str) -> tuple[bool, ...]:
    """Whether the calls of landing and strike came true, those that were made; `carry` (m) is None of a
    ball that never flew, which lands nowhere that could be called."""
    near = carry is not None and call.landing is not None and abs(carry - call.landing) <= CAME_TRUE
    landing = () if call.landing is None else (near,)
    return landing if call.strike is None else (*landing, call.strike == strike)


@dataclass(frozen=True)
class Progress:
    """The past of every scenario by its name."""

    scenarios: dict[str, Past] = field(default_factory=dict)

    def of(self, key: str) -> Past:
        """That scenario's past; an empty one before its first shot."""
        return self.scenarios.get(key, Past())

    def with_past(self, key: str, past: Past) -> "Progress":
        """The same with this scenario's past in place of its old one."""
        return replace(self, scenarios={**self.scenarios, key: past})


def kept_progress(home: Path) -> tuple[Progress, str]:
    """What is kept there, and one sentence when some of it could not be used ("" when all is well).

    An odd entry is left out and the rest used; the file as it was is set aside, never thrown away.
    """
    kept, problem = FILE.read(home)
    if kept is None:
        return Progress(), problem
    pasts, odd = {}, ""
    for key, entry in kept.scenarios.items():
        try:
            pasts[key] = _Entry.model_validate_json(json.dumps(entry), strict=True).past()
        except ValidationError:
            odd = odd or f"the entry of '{key}' is odd"
    progress = Progress(pasts)
    if odd:
        problem = FILE.spoilt(home, ValueError(odd), "the rest of your progress is used")
        keep_progress(home, progress)
    return progress, problem


def keep_progress(home: Path, progress: Progress) -> str:
    """Write it whole or not at all; one sentence when the disk refuses ("" when all is well)."""
    entries: dict[str, JsonValue] = {
        key: {"tries": p.tries, "done": p.done, "results": list(p.results), "stop_gaps_m": list(p.gaps),
              "calls": list(p.calls)}
        for key, p in progress.scenarios.items()
    }  # fmt: skip
    return FILE.write(home, _File(format=FORMAT, scenarios=entries))


class _Entry(BaseModel):
    """One scenario's past as it stands in the file."""

    tries: NonNegativeInt
    done: bool
    results: list[bool]
    stop_gaps_m: list[FiniteFloat]
    calls: list[bool] = []  # files of earlier versions have none

    def past(self) -> Past:
        """As the game holds it."""
        return Past(
            self.tries, self.done, tuple(self.results)[-MOST_SHOTS:], tuple(self.stop_gaps_m)[-KEPT_GAPS:],
            tuple(self.calls)[-KEPT_GAPS:],
        )  # fmt: skip


class _File(BaseModel):
    """The whole file; entries are looked at one by one, so that an odd one does not spoil the rest."""

    format: Literal[1]
    scenarios: dict[str, JsonValue]


FILE = KeptFile("progress.json", "progress", "Your progress", "progress starts afresh", TypeAdapter(_File))
