"""Option values: text from the command line to checked SI numbers, each refusal saying what is allowed."""

import re
from argparse import ArgumentTypeError
from collections.abc import Callable, Iterable
from math import isfinite
from pathlib import Path

from game.text.typed import UnitError, read_quantity
from physics.constants import FOOT

__all__ = ["CONTROL_UNITS", "file_ending", "length", "name_of", "number", "picture_size", "span", "whole"]

CONTROL_UNITS = {"deg": "DEG", "cm": "CM", "mm": "MM", "%": "PERCENT", "": "NUMBER"}
ROUNDING = 1e-9  # share of a limit that is rounding, not a wrong value


def span(low: float, high: float, unit: str = "") -> str:
    """`-10 and 20 deg`."""
    return f"{low:.6g} and {high:.6g} {unit}".rstrip()


def _number(text: str, unit: str, allowed: str) -> float:
    """The number of an option in its unit; a unit typed behind it is converted."""
    try:
        value = read_quantity(text, unit)
    except UnitError:
        raise ArgumentTypeError(f"must be in a unit that fits, between {allowed}, not '{text}'") from None
    except ValueError:
        value = float("nan")
    if not isfinite(value):
        raise ArgumentTypeError(f"must be a number between {allowed}, not '{text}'")
    return value


def number(low: float, high: float, unit: str = "", scale: float = 1.0) -> Callable[[str], float]:
    """Type of a number in `unit`, or with a unit behind it, from low to high (SI); shown = SI * scale."""
    return _limited(low, high, unit, scale, span(low * scale, high * scale, unit))


def length(low: float, high: float) -> Callable[[str], float]:
    """Type of a length in m, or with m, cm, mm, yd, ft or in behind the number."""
    feet = span(round(low / FOOT, 1), round(high / FOOT, 1), "ft")
    return _limited(low, high, "m", 1.0, f"{span(low, high, 'm')} ({feet})")


def _limited(low: float, high: float, unit: str, scale: float, allowed: str) -> Callable[[str], float]:
    def read(text: str) -> float:
        value = _number(text, unit, allowed) / scale
        slack = ROUNDING * max(abs(low), abs(high))
        if not low - slack <= value <= high + slack:
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


def file_ending(*endings: str) -> Callable[[str], Path]:
    """Type of a file name with one of these endings."""

    def read(text: str) -> Path:
        if not text.lower().endswith(endings) or "\0" in text:
            raise ArgumentTypeError(f"must end in {' or '.join(endings)}, not '{text}'")
        return Path(text)

    return read
