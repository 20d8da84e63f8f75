"""A pupil's answer to an assignment: one readable JSON file, written on purpose, read as untrusted.

It names the pupil as the pupil chose to be called, and days; no times of the clock, no machine, no path.
Lines that the pupil struck are left out, and words of their own are in it only where they wrote some.
Answer format 1; an attempt a line, so that everybody can read what is handed on.
"""

import json
import os
import re
from collections.abc import Collection, Iterable, Mapping
from datetime import date
from typing import Annotated, Any, Final, Literal

from pydantic import Field, Strict, StringConstraints, ValidationError, field_validator

from levels.attempts import Attempt
from levels.packs import AssignmentId, MemberName
from levels.parts import ClubName, Part
from levels.plan import MOST_PLANNED, Day
from levels.problems import key_text, problems_of
from levels.reading import ScenarioError, file_name, read_text
from levels.rules import Faults, Number, count_between, refuse_if
from levels.scenario import Scenario
from levels.teaching import Whole, Words
from levels.whole_file import replace_file
from physics.address import CONTROLS, Intention
from physics.equipment import BAG

__all__ = [
    "ANSWER_FORMAT", "LARGEST_ANSWER", "MOST_LINES", "SI_KEYS", "AnswerError", "AnswerFile", "AnswerLine",
    "OutsideLine", "answer_of", "answer_text", "checked_outside", "intention_of", "lines_by_task",
    "member_name", "parse_answer", "read_answer", "write_answer",
]  # fmt: skip

ANSWER_FORMAT: Final = 1
LARGEST_ANSWER = 2_000_000  # bytes
MOST_LINES = 3000
MOST_OUTSIDE = 100
FARTHEST = 1000.0  # m of a gap, assumed: farther than any ball here
_SI = {"deg": "_rad", "cm": "_m", "mm": "_m"}
SI_KEYS: dict[str, str] = {c.name: c.name + _SI.get(c.unit, "") for c in CONTROLS.values()}
_CONTROL_OF = {key: name for name, key in SI_KEYS.items()}
_ROUNDING = 1e-9
_FLAG = Annotated[bool, Strict()]


class AnswerError(ScenarioError):
    """An answer that cannot be used. `problems` holds the sentences, one for each thing wrong."""


class AnswerLine(Part):
    """One attempt. Lengths in m, angles in rad, exact, so that the coach can play it again."""

    task: MemberName = Field(description="name of the scenario in the assignment")
    digest: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{16}$")] = Field(
        description="16 hexadecimal digits of the scenario as it was played"
    )
    day: Day = Field(description="the player's own day, a date like 2025-11-30")
    part: Literal["", "blocked", "serial", "mixed", "review", "test"] = Field(
        default="", description="part of the practice: blocked, serial, mixed, review, test or nothing"
    )
    club: ClubName = Field(description=f"club in hand: {', '.join(BAG)}")
    controls: dict[str, Number] = Field(
        description=f"every control in SI: {', '.join(SI_KEYS.values())}", max_length=len(SI_KEYS)
    )
    seed: Whole = Field(ge=0, le=2**63 - 1, description="seed of the stroke, 0 to 2^63 - 1")
    met: _FLAG = Field(description="true if every goal was met, false if not")
    passed: _FLAG = Field(description="true if the task stood passed, false if not")
    solid: _FLAG = Field(description="true for a solid strike, false if not")
    stop_gap_m: Number | None = Field(
        default=None, ge=-FARTHEST, le=FARTHEST, description="m from the called stop to the real one"
    )
    cause_right: _FLAG | None = Field(
        default=None, description="true if the cause was named right, left out where nothing was asked"
    )
    hints: Whole = Field(default=0, ge=0, le=3, description="hints shown, 0 to 3")

    @field_validator("controls")
    @classmethod
    def _known_and_within_limits(cls, controls: dict[str, float]) -> dict[str, float]:
        found: Faults = []
        for key, value in controls.items():
            if key not in _CONTROL_OF:
                found.append(((key,), f"is no control; allowed: {', '.join(_CONTROL_OF)}"))
                continue
            c = CONTROLS[_CONTROL_OF[key]]
            if not c.low - _ROUNDING <= value <= c.high + _ROUNDING:
                found.append(((key,), f"{value:g} is out of reach; allowed: {c.low:.6g} to {c.high:.6g}"))
        refuse_if(found)
        return controls


class OutsideLine(Part):
    """A drill outside as the pupil tells it; nobody measured it."""

    day: Day = Field(description="the player's own day, a date like 2025-11-30")
    shots: Whole = Field(ge=1, le=MOST_PLANNED, description=f"shots played, 1 to {MOST_PLANNED}")
    came_off: Whole = Field(ge=0, le=MOST_PLANNED, description="how many came off, 0 to as many as shots")

    @field_validator("came_off")
    @classmethod
    def _no_more_than_shots(cls, came_off: int, info: Any) -> int:
        shots = info.data.get("shots", MOST_PLANNED)
        if came_off > shots:
            refuse_if([((), f"{came_off} is more than the shots; allowed: 0 to {shots}")])
        return came_off


class AnswerFile(Part):
    """An answer as its file holds it."""

    format: Literal[1] = Field(description="version of this file format: 1")
    assignment: AssignmentId = Field(description="id of the assignment: 4 to 40 of a-z, 0-9 and hyphens")
    pupil: Annotated[str, StringConstraints(pattern=r"^[^\x00-\x1f\x7f]+$", max_length=40)] = Field(
        description="name or code the pupil chose, one line of 1 to 40 characters"
    )
    words: Words = Field(default="", description="words of the pupil's own, up to 4000 characters")
    outside: Annotated[tuple[OutsideLine, ...], *count_between(0, MOST_OUTSIDE)] = Field(
        default=(), description=f"up to {MOST_OUTSIDE} drills outside, as the pupil tells them"
    )
    attempts: Annotated[tuple[AnswerLine, ...], *count_between(0, MOST_LINES)] = Field(
        default=(), description=f"up to {MOST_LINES} attempts in the order they were played"
    )

    @field_validator("pupil")
    @classmethod
    def _can_be_read(cls, pupil: str) -> str:
        """No sign that nobody sees or that turns the words round it: it stands in a heading."""
        if not pupil.strip() or not pupil.isprintable():
            refuse_if([((), "has no sign that can be seen, or one that cannot; allowed: plain letters")])
        return pupil


def checked_outside(data: dict[str, Any]) -> tuple[OutsideLine | None, dict[str, str]]:
    """The drill outside in these values by key, or None and what is wrong with each key, in a few words.

    >>> checked_outside({"day": "2025-11-30", "shots": 10, "came_off": 12})
    (None, {'came_off': '12 is more than the shots; allowed: 0 to 10'})
    """
    try:
        return OutsideLine.model_validate(data), {}
    except ValidationError as error:
        found: dict[str, str] = {}
        for loc, what in problems_of(error, OutsideLine):
            found.setdefault(str(loc[0]), what)
        return None, found


_TABLES: dict[str, type[Part]] = {"attempts": AnswerLine, "outside": OutsideLine}


def answer_of(
    attempts: Iterable[Attempt], assignment: str, pupil: str, *, struck: Collection[int] = (),
    words: str = "", outside: Iterable[tuple[date, int, int]] = (),
) -> AnswerFile:  # fmt: skip
    """The answer to an assignment from all of a player's attempts; `struck` counts its lines from 0.

    AnswerError when the pupil's name or words cannot be used.
    """
    own = [one for one in attempts if one.assignment == assignment and one.result.met is not None]
    lines = [_line(one).model_dump() for i, one in enumerate(own) if i not in struck]
    told = [{"day": day, "shots": shots, "came_off": came_off} for day, shots, came_off in outside]
    data = {"format": ANSWER_FORMAT, "assignment": assignment, "pupil": pupil, "words": words}
    try:
        return AnswerFile.model_validate({**data, "outside": told, "attempts": lines})
    except ValidationError as error:
        raise AnswerError(_told("answer", problems_of(error, AnswerFile, _TABLES))) from None


def member_name(key: str) -> str:
    """The name in its pack of a scenario known by that key of the library.

    >>> member_name("packs/winter/02-harrow-fen-front-pin"), member_name("harrow-fen-front-pin")
    ('harrow-fen-front-pin', 'harrow-fen-front-pin')
    """
    return re.sub(r"^\d{2,}-", "", key.rsplit("/", 1)[1]) if "/" in key else key


def _line(one: Attempt) -> AnswerLine:
    return AnswerLine(
        task=member_name(one.task.name),
        digest=one.task.digest,
        day=one.day,
        part=one.part,  # type: ignore[arg-type]
        club=one.intention.setup.club.name,
        controls={key: one.intention.value(name) for name, key in SI_KEYS.items()},
        seed=one.seed,
        met=bool(one.result.met),
        passed=one.passed,
        solid=one.result.solid,
        stop_gap_m=one.stop_gap,
        cause_right=one.cause.right if one.cause else None,
        hints=one.hints,
    )


def intention_of(line: AnswerLine, scenario: Scenario) -> Intention:
    """The stroke of a line in its scenario; with the line's seed and the scenario's player it is the shot."""
    meant = Intention(scenario.setup(), scenario.motion()).with_club(line.club)
    return meant.with_values({_CONTROL_OF[key]: value for key, value in line.controls.items()})


# ---- the file


def answer_text(answer: AnswerFile) -> str:
    """JSON that reads back as an equal answer, a line each attempt."""
    data = answer.model_dump(mode="json", exclude_none=True)
    rows = {key: data.pop(key) for key in ("outside", "attempts")}
    if not data["words"]:
        del data["words"]
    head = [f'"{key}": {json.dumps(value, ensure_ascii=False)}' for key, value in data.items()]
    for key, lines in rows.items():
        told = ",\n".join("  " + json.dumps(line, ensure_ascii=False) for line in lines)
        head.append(f'"{key}": [\n{told}\n ]' if lines else f'"{key}": []')
    return "{\n " + ",\n ".join(head) + "\n}\n"


def write_answer(path: str | os.PathLike[str], answer: AnswerFile) -> None:
    """Write the file whole or leave the old one. OSError when the disk refuses."""
    text = answer_text(answer)
    parse_answer(text, file_name(path))
    replace_file(path, text)


def read_answer(path: str | os.PathLike[str]) -> AnswerFile:
    """The answer in a file. AnswerError tells everything wrong with it.

    >>> read_answer("nowhere.json")
    Traceback (most recent call last):
    levels.answers.AnswerError: nowhere.json: cannot be read: No such file or directory.
    """
    try:
        return parse_answer(read_text(path, LARGEST_ANSWER), file_name(path))
    except ScenarioError as error:
        raise AnswerError(list(error.problems)) from None


def parse_answer(text: str, name: str = "answer") -> AnswerFile:
    """The answer in a JSON text; `name` is the file's, for messages. AnswerError as above."""
    if len(text) > LARGEST_ANSWER:
        raise AnswerError([f"{name}: is too large; allowed: {LARGEST_ANSWER} bytes."])
    try:
        return AnswerFile.model_validate_json(text.removeprefix("\ufeff"))
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        if first["type"] == "json_invalid":
            why = str(first.get("ctx", {}).get("error", "")).rstrip(".")
            raise AnswerError([f"{name}: is not JSON: {why}."]) from None
        if not first["loc"]:
            raise AnswerError([f"{name}: is no answer; allowed: one object with format 1."]) from None
        raise AnswerError(_told(name, problems_of(error, AnswerFile, _TABLES))) from None


def _told(name: str, found: Faults, most: int = 20) -> list[str]:
    out = [f"{name}, {key_text(loc) or 'the whole'}: {what.rstrip('.')}." for loc, what in found[:most]]
    if len(found) > most:
        out.append(f"{name}: has {len(found) - most} more problems; allowed: none.")
    return out


def lines_by_task(answer: AnswerFile) -> Mapping[str, tuple[int, ...]]:
    """Numbers of the lines of each task, in the order the tasks were first played."""
    out: dict[str, tuple[int, ...]] = {}
    for i, line in enumerate(answer.attempts):
        out[line.task] = (*out.get(line.task, ()), i)
    return out
