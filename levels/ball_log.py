"""The balls of a test as a player writes them down: one line a ball, comma between.

    lie,club,target_m,carry_m,stop_m,felt
    fairway,SW,8,3.4,7.9,solid

`target_m` is where the ball was meant to stop, `carry_m` where it landed and `stop_m` where it stopped, all
from where it lay; `felt` is solid, fat or thin. Carry and felt may be left empty. A table written with
semicolons may have decimal commas.
"""

import csv
import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from math import isfinite, nan

from levels.reading import ScenarioError, file_name, legible, read_text
from physics.equipment import BAG
from physics.measured_balls import FELT, MeantShot, MeasuredBall
from physics.surfaces import SURFACES

__all__ = ["FEWEST", "LONGEST_LOG", "BallLog", "balls_text", "parse_balls", "read_ball", "read_balls"]

COLUMNS = ("lie", "club", "target_m", "carry_m", "stop_m", "felt")
MAY_LACK = ("carry_m", "felt")
LARGEST = 100_000  # bytes
FEWEST, LONGEST_LOG = 3, 200  # balls; fewer say nothing, more are not of one day, assumed
TARGET, REACH = (2.0, 40.0), (-5.0, 100.0)  # m: short game; how far a ball may end, assumed
TOLD = 20  # sentences about one file


@dataclass(frozen=True)
class BallLog:
    """Balls and the line each stands on."""

    balls: tuple[MeasuredBall, ...]
    lines: tuple[int, ...]


class _CellError(Exception):
    """What is wrong with one cell: sentence without its place."""


def read_balls(path: str | os.PathLike[str]) -> BallLog:
    """The balls in a file. ScenarioError tells everything wrong with it, with line and column."""
    return parse_balls(read_text(path, LARGEST), file_name(path))


def parse_balls(text: str, name: str = "balls") -> BallLog:
    """The balls in a text.

    >>> parse_balls("lie,club,target_m,stop_m\\nmoon,SW,8,7.9")
    Traceback (most recent call last):
    levels.reading.ScenarioError: balls, line 2, lie: 'moon' is no surface; allowed: green, fringe, tight, \
fairway, soft, rough, sand, wet_sand, mat.
    balls: has 1 ball; allowed: 3 to 200.
    """
    rows = _rows(text.removeprefix("\ufeff"), name)
    if not rows:
        raise ScenarioError(
            [f"{name}: is empty; allowed: a line of {', '.join(COLUMNS)}, then a line a ball."]
        )
    comma = ";" in text.split("\n", 1)[0]
    line, head = rows[0]
    _sound_head(name, line, head)
    balls, lines, wrong = list[MeasuredBall](), list[int](), list[str]()
    for line, cells in rows[1:]:
        ball, found = _ball(
            f"{name}, line {line}", dict(zip(head, cells, strict=False)), len(cells) - len(head), comma
        )
        wrong += found
        lines.append(line)
        if ball is not None:
            balls.append(ball)
    if not FEWEST <= len(lines) <= LONGEST_LOG:
        wrong.append(
            f"{name}: has {len(lines)} ball{'' if len(lines) == 1 else 's'}; "
            f"allowed: {FEWEST} to {LONGEST_LOG}."
        )
    if wrong:
        more = len(wrong) - TOLD
        raise ScenarioError(
            wrong[:TOLD] + ([f"{name}: has {more} more problems; fix these first."] if more > 0 else [])
        )
    return BallLog(tuple(balls), tuple(lines))


def _rows(text: str, name: str) -> list[tuple[int, list[str]]]:
    """Lines that hold something, with their numbers."""
    delimiter = ";" if ";" in text.split("\n", 1)[0] else ","
    reader = csv.reader(text.splitlines(), delimiter=delimiter, strict=True, skipinitialspace=True)
    try:
        return [
            (reader.line_num, [cell.strip() for cell in row])
            for row in reader
            if any(cell.strip() for cell in row)
        ]
    except csv.Error as error:
        raise ScenarioError(
            [f"{name}, line {reader.line_num}: is no table: {legible(str(error))}."]
        ) from None


def _sound_head(name: str, line: int, head: Sequence[str]) -> None:
    wrong = [
        f"{name}, line {line}: '{legible(word)}' is no column; allowed: {', '.join(COLUMNS)}."
        for word in head
        if word not in COLUMNS
    ]
    wrong += [
        f"{name}, line {line}: column {w} stands twice; allowed: once." for w in COLUMNS if head.count(w) > 1
    ]
    wrong += [
        f"{name}, line {line}: column {w} is missing; allowed: a first line of {', '.join(COLUMNS)}."
        for w in COLUMNS
        if w not in head and w not in MAY_LACK
    ]
    if wrong:
        raise ScenarioError(wrong[:TOLD])


def _ball(where: str, cells: dict[str, str], more: int, comma: bool) -> tuple[MeasuredBall | None, list[str]]:
    wrong = [f"{where}: has {more} cells too many; allowed: one a column."] if more > 0 else []
    ball, found = read_ball(cells, comma)
    wrong += [f"{where}, {column}: {fault}." for column, fault in found.items()]
    return (None if wrong else ball), wrong


def read_ball(cells: dict[str, str], comma: bool = True) -> tuple[MeasuredBall | None, dict[str, str]]:
    """One ball from the texts of its columns, and by column what is wrong, without its place; `comma`:
    decimal commas are read too.

    >>> read_ball({"lie": "fairway", "club": "SW", "target_m": "8", "stop_m": "7,5"})[0].stop
    7.5
    >>> read_ball({"lie": "fairway", "club": "SW", "target_m": "8", "stop_m": "far"})[1]
    {'stop_m': "'far' is not a number; allowed: -5 to 100 m"}
    """
    wrong = dict[str, str]()

    def take(column: str, read: Callable[[str], object]) -> object:
        try:
            return read(cells.get(column, "").strip())
        except _CellError as fault:
            wrong[column] = str(fault)
            return None

    lie = take("lie", lambda t: _name(t, tuple(SURFACES), "surface"))
    club = take("club", lambda t: _name(t, tuple(BAG), "club in the bag"))
    target = take("target_m", lambda t: _length(t, TARGET, comma))
    carry = take("carry_m", lambda t: nan if t == "" else _length(t, REACH, comma))
    stop = take("stop_m", lambda t: _length(t, REACH, comma))
    felt = take("felt", lambda t: "" if t == "" else _name(t, FELT, "strike"))
    if wrong:
        return None, wrong
    return MeasuredBall(
        MeantShot(str(lie), str(club), float(str(target))), float(str(carry)), float(str(stop)), str(felt)
    ), {}


def _name(text: str, allowed: Sequence[str], what: str) -> str:
    known = {name.lower(): name for name in allowed}
    if text.lower() in known:
        return known[text.lower()]
    if not text:
        raise _CellError(f"is empty; allowed: {', '.join(allowed)}")
    near = get_close_matches(text[:40].lower(), known, n=1)
    hint = f" (did you mean {known[near[0]]}?)" if near else ""
    raise _CellError(f"'{legible(text)}' is no {what}{hint}; allowed: {', '.join(allowed)}")


def _length(text: str, limits: tuple[float, float], comma: bool) -> float:
    allowed = f"allowed: {limits[0]:g} to {limits[1]:g} m"
    if not text:
        raise _CellError(f"is empty; {allowed}")
    try:
        value = float(text.replace(",", ".") if comma else text)
    except ValueError:
        value = nan
    if not isfinite(value) or "_" in text:
        raise _CellError(f"'{legible(text)}' is not a number; {allowed}")
    if not limits[0] <= value <= limits[1]:
        raise _CellError(f"{text} is too {'small' if value < limits[0] else 'large'}; {allowed}")
    return value


def balls_text(balls: Sequence[MeasuredBall]) -> str:
    """The table of balls, as `parse_balls` reads it."""
    lines = [",".join(COLUMNS)]
    for ball in balls:
        carry = "" if ball.carry != ball.carry else f"{ball.carry:.2f}"
        shot = ball.shot
        lines.append(f"{shot.lie},{shot.club},{shot.target:g},{carry},{ball.stop:.2f},{ball.felt}")
    return "\n".join(lines) + "\n"
