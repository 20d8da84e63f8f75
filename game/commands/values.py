"""Option values: text from the command line to checked SI numbers, each refusal saying what is allowed."""

import re
from argparse import ArgumentTypeError
from collections.abc import Callable, Iterable
from math import isfinite
from pathlib import Path

from physics.constants import FOOT, YARD

__all__ = ["CONTROL_UNITS", "file_ending", "length", "name_of", "number", "picture_size", "span", "whole"]

METRES = {"": 1.0, "m": 1.0, "yd": YARD, "ft": FOOT}
CONTROL_UNITS = {"deg": "DEG", "cm": "CM", "mm": "MM", "%": "PERCENT", "": "NUMBER"}
ROUNDING = 1e-9  # share of a limit that is rounding, not a wrong value


def span(low: float, high: float, unit: str = "") -> str:
    """`-10 and 20 deg`."""
    return f"{low:.6g} and {high:.6g} {unit}".rstrip()


def _number(text: str, allowed: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = float("nan")
    if not isfinite(value):
        raise ArgumentTypeError(f"must be a number between {allowed}, not '{text}'")
    return value


def number(low: float, high: float, unit: str = "", scale: float = 1.0) -> Callable[[str], float]:
    """Type of a number shown in `unit` from low to high (SI); shown value = SI value * scale."""
    allowed = span(low * scale, high * scale, unit)

    def read(text: str) -> float:
        value = _number(text, allowed) / scale
        slack = ROUNDING * max(abs(low), abs(high))
        if not low - slack <= value <= high + slack:
            raise ArgumentTypeError(f"must be between {allowed}, not {text}")
        return min(max(value, low), high)

    return read


def length(low: float, high: float) -> Callable[[str], float]:
    """Type of a length in m, or with m, yd or ft behind the number."""
    allowed = f"{span(low, high, 'm')} ({span(round(low / FOOT, 1), round(high / FOOT, 1), 'ft')})"

    def read(text: str) -> float:
        match = re.fullmatch(r"(.*?)\s*(m|yd|ft|)", text.strip(), re.DOTALL)
        assert match  # the unit may be empty
        value = _number(match[1], allowed) * METRES[match[2]]
        if not low - ROUNDING <= value <= high + ROUNDING:
            raise ArgumentTypeError(f"must be between {allowed}, not {text}")
        return min(max(value, low), high)

    return read


def whole(low: int, high: int) -> Callable[[str], int]:
    """Type of a whole number from low to high."""

    def read(text: str) -> int:
        if not re.fullmatch(r"[+-]?\d{1,20}", text.strip()) or not low <= int(text) <= high:
            raise ArgumentTypeError(f"must be a whole number between {low} and {high}, not '{text}'")
        return int(text)

    return read


def name_of(names: Iterable[str]) -> Callable[[str], str]:
    """Type of one name out of several; case does not matter."""
    allowed = {name.lower(): name for name in names}

    def read(text: str) -> str:
        try:
            return allowed[text.lower()]
        except KeyError:
            raise ArgumentTypeError(f"must be one of {', '.join(allowed.values())}, not '{text}'") from None

    return read


def picture_size(text: str) -> tuple[int, int]:
    """Type of WxH in px."""
    match = re.fullmatch(r"(\d{1,5})[xX](\d{1,5})", text)
    if match:
        size = int(match[1]), int(match[2])
        if 640 <= size[0] <= 3840 and 400 <= size[1] <= 2400:
            return size
    raise ArgumentTypeError(f"must be between 640x400 and 3840x2400 px, not '{text}'")


def file_ending(ending: str) -> Callable[[str], Path]:
    """Type of a file name with that ending."""

    def read(text: str) -> Path:
        if not text.lower().endswith(ending) or "\0" in text:
            raise ArgumentTypeError(f"must end in {ending}, not '{text}'")
        return Path(text)

    return read
