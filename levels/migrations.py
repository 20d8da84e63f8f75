"""Older scenario formats brought up to today's, one step a function, each from dict to a new dict."""

import reprlib
from collections.abc import Callable, Mapping
from typing import Any, Final

__all__ = ["SCENARIO_FORMAT", "SCENARIO_MIGRATIONS", "Migration", "migrated"]

SCENARIO_FORMAT: Final = 1
Migration = Callable[[dict[str, Any]], dict[str, Any]]
SCENARIO_MIGRATIONS: dict[int, Migration] = {}  # n: from format n to n + 1; format 1 is the first


def migrated(
    data: dict[str, Any], steps: Mapping[int, Migration] = SCENARIO_MIGRATIONS, newest: int = SCENARIO_FORMAT,
    key: str = "format",
) -> dict[str, Any]:  # fmt: skip
    """`data` in the newest format, whose number stands at `key`.

    ValueError, one sentence, when its format is none this program reads.
    """
    number = data.get(key)
    allowed = f"allowed: 1 to {newest}" if newest > 1 else "allowed: 1"
    if number is None:
        raise ValueError(f"is missing; {allowed}")
    if type(number) is not int or number < 1:
        raise ValueError(f"is not a format number; {allowed}")
    if number > newest:
        raise ValueError(f"{reprlib.repr(number)} is newer than this program; {allowed}")
    for step in range(number, newest):
        data = {**steps[step](data), key: step + 1}
    return data
