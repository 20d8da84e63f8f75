"""An attempt as a row and back, without loss.

Controls and strays lie in the row as JSON text, for a SQLite number forgets the sign of a zero. Every row
carries a seal over all it says, so that a row from a damaged file is either sound or known not to be.
"""

import json
from dataclasses import asdict, dataclass, fields
from datetime import UTC, datetime, timedelta, timezone
from functools import lru_cache
from hashlib import blake2b
from math import isfinite
from typing import Any

from levels.attempts import Attempt, AttemptResult, AttemptTask, NamedCause
from levels.families import FAMILIES
from levels.scoring import Prediction
from levels.shotfile import ShotFileError, part_from_json, part_to_json
from physics.address import CONTROLS, Intention
from physics.course import Course
from physics.equipment import Club
from physics.spread import Spread, Stray

__all__ = [
    "EPOCH",
    "SHARED",
    "AttemptRow",
    "RowError",
    "attempt_of_row",
    "microseconds_of",
    "row_of",
    "seal_of",
]

SHARED = ("text", "course", "club", "spread")  # kept once for all the rows that share them
EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


class RowError(ValueError):
    """A row that is no attempt of this program's; one sentence."""


@dataclass(frozen=True)
class AttemptRow:
    """An attempt as the file has it: its columns, and the texts of the shared parts by name."""

    columns: dict[str, Any]
    parts: dict[str, str]

    def sealed(self) -> dict[str, Any]:
        """The columns with their seal."""
        return {**self.columns, "seal": seal_of(self)}


def seal_of(row: AttemptRow) -> str:
    """16 hexadecimal digits that change with anything the row says."""
    said = [sorted((k, v) for k, v in row.columns.items() if k != "seal"), sorted(row.parts.items())]
    words = json.dumps(said, ensure_ascii=True, default=repr)  # a damaged column may hold bytes for words
    return blake2b(words.encode(), digest_size=8).hexdigest()


def microseconds_of(when: datetime) -> int:
    """A time as a whole number of microseconds since EPOCH, exact."""
    since = when - EPOCH
    return (since.days * 86_400 + since.seconds) * 1_000_000 + since.microseconds


def row_of(attempt: Attempt) -> AttemptRow:
    """The row of an attempt; `player` stands in it by name. Its cause is kept in a table of its own."""
    task, result, call = attempt.task, attempt.result, attempt.call or Prediction()
    own = {name: attempt.intention.value(name) for name in CONTROLS}
    columns: dict[str, Any] = {
        "uid": attempt.uid,
        "player": attempt.player,
        "utc_us": microseconds_of(attempt.when),
        "offset_s": attempt.offset,
        "day": attempt.day.isoformat(),
        "scenario": task.name,
        "title": task.title,
        "digest": task.digest,
        "controls": json.dumps(own, allow_nan=False),
        "stray": json.dumps(asdict(attempt.stray), allow_nan=False),
        "seed": attempt.seed,
        "lie": attempt.lie,
        "family": attempt.family,
        "distance_m": _real(attempt.distance),
        "call_landing_m": _real(call.landing),
        "call_stop_m": _real(call.stop),
        "call_strike": call.strike,
        "outcome": result.outcome,
        "contact": result.contact,
        "strike": result.strike,
        "solid": int(result.solid),
        "as_set": int(result.as_set),
        "handle_return_rad": _real(result.handle_return),
        "carry_m": _real(result.carry),
        "rest_m": _real(result.rest),
        "leave_m": _real(result.leave),
        "strokes": _real(result.strokes),
        "reference_strokes": _real(result.reference_strokes),
        "met": None if result.met is None else int(result.met),
        "passed": int(attempt.passed),
        "hints": attempt.hints,
        "part": attempt.part,
        "assignment": attempt.assignment,
    }
    shared = (task.text, *map(part_to_json, (task.course, attempt.intention.setup.club, attempt.spread)))
    return AttemptRow(columns, dict(zip(SHARED, shared, strict=True)))


def attempt_of_row(row: AttemptRow, seal: str, cause: NamedCause | None = None) -> Attempt:
    """The attempt of a row. RowError where the row is not whole."""
    if seal_of(row) != seal:
        raise RowError("The row does not match its seal.")
    c = row.columns
    if c["family"] not in FAMILIES:
        raise RowError(f"The row has '{c['family']!r:.20}' for a family.")
    try:
        when = EPOCH + timedelta(microseconds=c["utc_us"])
        call = Prediction(c["call_landing_m"], c["call_stop_m"], c["call_strike"])
        result = AttemptResult(
            c["outcome"], c["contact"], c["strike"], bool(c["solid"]), bool(c["as_set"]),
            c["handle_return_rad"], c["carry_m"], c["rest_m"], c["leave_m"], c["strokes"],
            c["reference_strokes"], None if c["met"] is None else bool(c["met"]),
        )  # fmt: skip
        course = _part(row.parts["course"], Course)
        return Attempt(
            c["player"], when.astimezone(timezone(timedelta(seconds=c["offset_s"]))),
            AttemptTask(course, c["scenario"], c["title"], c["digest"], row.parts["text"]),
            _intention(c["controls"], _part(row.parts["club"], Club)),
            _part(row.parts["spread"], Spread), c["seed"],
            Stray(**_numbers(c["stray"], {f.name for f in fields(Stray)})), result, c["lie"], c["family"],
            c["distance_m"], None if call == Prediction() else call, bool(c["passed"]), c["hints"], cause,
            c["part"], c["assignment"], c["uid"],
        )  # fmt: skip
    except (ShotFileError, OverflowError, TypeError, ValueError) as error:
        raise RowError(f"The row is no attempt: {error!s:.120}.") from None


_part = lru_cache(maxsize=256)(part_from_json)  # many rows share few


def _real(value: float | None) -> float | None:
    """A number as a REAL column gives it back: without the sign of a zero."""
    return None if value is None else float(value) + 0.0


def _numbers(text: str, names: set[str]) -> dict[str, float]:
    found = json.loads(text)
    if not isinstance(found, dict) or not set(found) <= names:
        raise RowError("The row has controls that this program does not know.")
    if not all(type(v) in (int, float) and isfinite(v) for v in found.values()):
        raise RowError("The row has a control that is no number.")
    return {name: float(value) for name, value in found.items()}


def _intention(text: str, club: Club) -> Intention:
    """The stroke as it was meant, not held to today's limits: what was played stands."""
    values = _numbers(text, set(CONTROLS))
    plain = Intention()
    own: dict[str, dict[str, Any]] = {"setup": {"club": club}, "motion": {}}
    for name, value in values.items():
        own[CONTROLS[name].owner][name] = value
    return Intention(type(plain.setup)(**own["setup"]), type(plain.motion)(**own["motion"]))
