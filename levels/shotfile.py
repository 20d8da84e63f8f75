"""A Shot as JSON text and back, without loss: floats by their shortest exact digits, nan as null.

The text holds `format` and `shot`; inside, every object has the field names of its dataclass in SI,
and a member of a union (a hazard) says which one it is under `is`. Club, course, set-up, motion and
seed are stored whole, so a shot replays even when the bag or a scenario has changed since.
"""

import json
from collections.abc import Callable, Sized
from dataclasses import fields, is_dataclass
from enum import StrEnum
from functools import cache
from itertools import pairwise
from math import isfinite, isnan, nan
from types import NoneType, UnionType
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from physics.course import Ground
from physics.results import Phase, Run, Shot, SoleTrace, SwingTrace, TurfAction
from physics.surfaces import SURFACES

__all__ = [
    "LARGEST_SHOT", "SHOT_FORMAT", "ShotFileError", "part_from_json", "part_to_json", "shot_from_json",
    "shot_to_json",
]  # fmt: skip

T = TypeVar("T")
SHOT_FORMAT = 2
LARGEST_SHOT = 64_000_000  # characters, assumed: some twenty times a long shot
IS = "is"


class ShotFileError(ValueError):
    """A text that holds no usable shot, or a shot that cannot be written; one sentence."""


def _with_what_was_met(shot: dict[str, Any]) -> dict[str, Any]:
    """Format 2 has the depth of the edge's cut and what the ball met. Neither was kept before: the cut of
    a dig is read from the way of the edge, and what was met stays untold until the shot is played again."""
    strike, run = shot["strike"], shot["run"]
    dug = strike["turf"] == TurfAction.DIG
    depth = max([0.0, *(-float(y) for y in strike["sole"]["edge"][1])]) if dug else 0.0
    return {**shot, "strike": {**strike, "edge_depth": depth}, "run": {**run, "knocks": []}}


# n: `shot` from format n to n + 1
SHOT_MIGRATIONS: dict[int, Callable[[dict[str, Any]], dict[str, Any]]] = {1: _with_what_was_met}


def shot_to_json(shot: Shot) -> str:
    """The shot on one line of JSON. ShotFileError when a number in it is infinite.

    >>> from physics.address import Motion, Setup
    >>> from physics.course import level_course
    >>> from physics.shot import play
    >>> shot = play(level_course("fairway", 8.0), Setup(), Motion())
    >>> shot_from_json(shot_to_json(shot)) == shot
    True
    """
    return json.dumps({"format": SHOT_FORMAT, "shot": _written(shot, Shot, "shot")}, allow_nan=False)


def shot_from_json(text: str) -> Shot:
    """The shot in a text of `shot_to_json`, equal to the one written (where that has no nan)."""
    if len(text) > LARGEST_SHOT:
        raise ShotFileError(f"The shot is too large: at most {LARGEST_SHOT} characters are allowed.")
    try:
        data = json.loads(text, parse_constant=_no_constant)
        shot: Shot = _read(_current(data), Shot, "shot")
    except RecursionError:
        raise ShotFileError("The shot is nested too deeply.") from None
    except ValueError as error:  # JSONDecodeError, and what int() says of endless digits
        if isinstance(error, ShotFileError):
            raise
        raise ShotFileError(f"The shot is not JSON: {error}.") from None
    return shot


def part_to_json(part: Any) -> str:
    """One frozen part of a shot (a club, a course, a player's spread) as JSON text, without loss.

    >>> from physics.equipment import BAG, Club
    >>> part_from_json(part_to_json(BAG["SW"]), Club) == BAG["SW"]
    True
    """
    kind = type(part)
    return json.dumps(_written(part, kind, kind.__name__.lower()), allow_nan=False, sort_keys=True)


def part_from_json(text: str, kind: type[T]) -> T:
    """The part of that kind in a text of `part_to_json`. ShotFileError, one sentence, when it is none."""
    try:
        made: T = _read(json.loads(text, parse_constant=_no_constant), kind, kind.__name__.lower())
    except RecursionError:
        raise ShotFileError("The part is nested too deeply.") from None
    except ValueError as error:
        if isinstance(error, ShotFileError):
            raise
        raise ShotFileError(f"The part is not JSON: {error}.") from None
    return made


def _no_constant(word: str) -> None:
    raise ShotFileError(f"The shot holds {word}, which is no JSON number.")


def _current(data: Any) -> Any:
    if not isinstance(data, dict) or set(data) != {"format", "shot"}:
        raise ShotFileError("The shot must be an object with format and shot, and nothing else.")
    number, shot = data["format"], data["shot"]
    if type(number) is not int or not 1 <= number <= SHOT_FORMAT:
        raise ShotFileError(f"The shot has format {number!r:.20}, and this program reads 1 to {SHOT_FORMAT}.")
    for step in range(number, SHOT_FORMAT):
        try:
            shot = SHOT_MIGRATIONS[step](shot)
        except (KeyError, IndexError, TypeError, ValueError):
            raise ShotFileError(f"The shot is not what format {step} holds.") from None
    return shot


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)


def _members(hint: Any) -> tuple[Any, ...]:
    """The members of a union, or the hint alone."""
    return get_args(hint) if get_origin(hint) in (Union, UnionType) else (hint,)


def _tagged(members: tuple[Any, ...]) -> bool:
    return sum(is_dataclass(m) for m in members) > 1


def _written(value: Any, hint: Any, where: str) -> Any:
    """`value` as JSON values; `hint` tells where a union needs a tag."""
    if isinstance(value, float):
        if isnan(value):
            return None
        if not isfinite(value):
            raise ShotFileError(f"{where} is infinite, which no shot file can hold.")
        return value
    if isinstance(value, tuple):
        hints = _item_hints(hint, len(value), where)
        return [_written(v, h, f"{where}[{i}]") for i, (v, h) in enumerate(zip(value, hints, strict=True))]
    if is_dataclass(value):
        kind: Any = type(value)
        own = {f.name: _written(getattr(value, f.name), _hints(kind)[f.name], f"{where}.{f.name}")
               for f in fields(kind)}  # fmt: skip
        return {IS: kind.__name__, **own} if _tagged(_members(hint)) else own
    return value


def _item_hints(hint: Any, count: int, where: str) -> tuple[Any, ...]:
    args = next(get_args(m) for m in _members(hint) if get_origin(m) is tuple)
    if len(args) == 2 and args[1] is Ellipsis:
        return (args[0],) * count
    if len(args) != count:
        raise ShotFileError(f"{where} must have {len(args)} items, not {count}.")
    return args


def _read(value: Any, hint: Any, where: str) -> Any:
    """The value of type `hint` that `value` stands for; `where` is its path, for messages."""
    members = _members(hint)
    if value is None and NoneType in members:
        return None
    members = tuple(m for m in members if m is not NoneType)
    if _tagged(members):
        return _read_member(value, members, where)
    (kind,) = members
    if kind is float:
        return _read_float(value, where)
    if get_origin(kind) is tuple:
        if not isinstance(value, list):
            raise ShotFileError(f"{where} must be a list.")
        hints = _item_hints(kind, len(value), where)
        return tuple(_read(v, h, f"{where}[{i}]") for i, (v, h) in enumerate(zip(value, hints, strict=True)))
    if is_dataclass(kind):
        return _read_object(value, kind, where)
    if issubclass(kind, StrEnum):
        if not isinstance(value, str) or value not in tuple(kind):
            raise ShotFileError(f"{where} must be one of {', '.join(kind)}.")
        return kind(value)
    if type(value) is not kind:
        raise ShotFileError(f"{where} must be of type {kind.__name__}.")
    return value


def _read_float(value: Any, where: str) -> float:
    if value is None:
        return nan
    if type(value) not in (int, float):
        raise ShotFileError(f"{where} must be a number or null.")
    try:
        number = float(value)
    except OverflowError:
        number = float("inf")
    if not isfinite(number):
        raise ShotFileError(f"{where} is too large a number.")
    return number


def _read_member(value: Any, members: tuple[Any, ...], where: str) -> Any:
    kinds = {m.__name__: m for m in members}
    tag = value.get(IS) if isinstance(value, dict) else None
    if not isinstance(tag, str) or tag not in kinds:
        raise ShotFileError(f"{where}.{IS} must be one of {', '.join(kinds)}.")
    return _read_object({k: v for k, v in value.items() if k != IS}, kinds[tag], where)


def _read_object(value: Any, kind: Any, where: str) -> Any:
    names = [f.name for f in fields(kind)]
    if not isinstance(value, dict) or set(value) != set(names):
        raise ShotFileError(f"{where} must be an object with exactly {', '.join(names)}.")
    made = kind(**{name: _read(value[name], _hints(kind)[name], f"{where}.{name}") for name in names})
    if fault := _fault(made):
        raise ShotFileError(f"{where} {fault}.")
    return made


def _fault(made: Any) -> str | None:
    """What would break a replay or a drawing although every type is right."""
    rows: tuple[Sized, ...]
    match made:
        case SwingTrace():
            rows = (made.t, *made.hub, *made.hands, *made.head, made.lean, made.speed)
        case SoleTrace():
            rows = (made.t, *made.edge, made.lean, made.speed, made.pressure, made.arm, made.club)
            if len({len(row) for row in made.pressure}) > 1:
                return "must have as many pressures in every row"
        case Run():
            rows = (made.t, made.x, made.y, made.vx, made.vy, made.spin, made.phase)
            if not set(made.phase) <= set(Phase):
                return f"must have a phase written in the letters {' '.join(Phase)}"
        case Ground():
            return _ground_fault(made)
        case _:
            return None
    return "must have traces of one length" if len({len(row) for row in rows}) > 1 else None


def _ground_fault(ground: Ground) -> str | None:
    if not 2 <= len(ground.x) == len(ground.y) == len(ground.surfaces) + 1:
        return "must have two points or more, each with x and y, and a surface between every two"
    if not all(a < b for a, b in pairwise(ground.x)):
        return "must have x growing from point to point"
    if unknown := set(ground.surfaces) - set(SURFACES):
        return f"must have surfaces out of {', '.join(SURFACES)}, not {min(unknown)!r:.40}"
    return None
