"""Small tools of the scenario model: numbers with limits, names from a list, rules over several keys."""

import reprlib
from collections.abc import Iterable
from difflib import get_close_matches
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, Field, Strict, WithJsonSchema
from pydantic_core import PydanticCustomError

__all__ = ["Faults", "Loc", "Number", "count_between", "limited_number", "named_once", "one_of", "refuse_if"]

Loc = tuple[str | int, ...]
Faults = list[tuple[Loc, str]]  # where (below the key being checked) and what is wrong

Number = Annotated[float, Strict()]  # 3 and 3.0, but neither "3" nor true


def limited_number(what: str, low: float, high: float, unit: str = "", default: Any = ...) -> Any:
    """A number from low to high; its description states the limits, and error messages quote it."""
    limits = f"{low:g} to {high:g} {unit}".rstrip()
    return Field(default=default, ge=low, le=high, description=f"{what}, {limits}")


def one_of(names: Iterable[str], what: str) -> list[Any]:
    """The annotations of a string that must be one of `names`."""
    allowed = tuple(names)

    def known(name: str) -> str:
        if name in allowed:
            return name
        near = get_close_matches(name[:40], allowed, n=1)
        hint = f" (did you mean '{near[0]}'?)" if near else ""
        text = f"{reprlib.repr(name)} is no {what}{hint}; allowed: {', '.join(allowed)}"
        raise PydanticCustomError("unknown_name", "{text}", {"text": text})

    return [AfterValidator(known), WithJsonSchema({"type": "string", "enum": list(allowed)})]


def count_between(low: int, high: int) -> list[Any]:
    """The annotations of a list with low to high entries.

    Counted before the items are looked at: a hostile file must not cost time, and a list with bad items
    is not also too short.
    """

    def counted(value: Any) -> Any:
        if isinstance(value, (list, tuple)) and not low <= len(value) <= high:
            allowed = f"{low} to {high}" if low < high else f"{low}"
            refuse_if([((), f"has {len(value)} entries; allowed: {allowed}")])
        return value

    return [BeforeValidator(counted), Field(json_schema_extra={"minItems": low, "maxItems": high})]


def refuse_if(found: Faults) -> None:
    """Raise every broken rule as one validation error; `levels.problems` takes it apart again."""
    if found:
        text = "; ".join(what for _, what in found)
        raise PydanticCustomError("broken_rules", "{text}", {"text": text, "found": found})


def named_once(names: tuple[str, ...]) -> tuple[str, ...]:
    """Refuse a list that names a thing twice."""
    twice = [((i,), f"'{n}' is named twice; allowed: once") for i, n in enumerate(names) if n in names[:i]]
    refuse_if([*twice])
    return names
