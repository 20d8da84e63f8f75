"""Quantities as they are read: numbers with a true minus and never a negative zero, and their units."""

import re
from math import degrees, isnan, pi

from physics.address import CONTROLS
from physics.constants import FOOT, INCH, MILE, YARD

__all__ = [
    "DEGREE",
    "MINUS",
    "NONE",
    "UNIT_LETTERS",
    "UnitError",
    "angle_plain",
    "angle_words",
    "as_typed",
    "decimal",
    "figure_of_control",
    "percent",
    "plural",
    "read_quantity",
    "read_typed",
    "revolutions",
    "rpm",
    "shown_control",
    "significant",
    "times",
    "with_unit",
]  # fmt: skip

MINUS, DEGREE = "\N{MINUS SIGN}", "\N{DEGREE SIGN}"
NONE = "-"  # shown for what did not happen (nan)
# what it measures, and its size in m, degrees, percent or m/s; by the names people type
_TYPED: dict[str, tuple[tuple[str, ...], float]] = {
    "m": (("m", "metre", "metres", "meter", "meters"), 1.0),
    "cm": (("cm",), 0.01), "mm": (("mm",), 0.001),
    "yd": (("yd", "yds", "yard", "yards"), YARD), "ft": (("ft", "feet", "foot", "'", "\u2032"), FOOT),
    "in": (("in", "inch", "inches", '"', "\u2033"), INCH),
    "deg": (("deg", "degree", "degrees", DEGREE), 1.0), "%": (("%", "percent"), 1.0),
    "m/s": (("m/s",), 1.0), "km/h": (("km/h", "kmh"), 1.0 / 3.6), "mph": (("mph",), MILE / 3600.0),
}  # fmt: skip
_MEASURES = {
    "a length": ("m", "cm", "mm", "yd", "ft", "in"), "an angle": ("deg",), "a share": ("%",),
    "a speed": ("m/s", "km/h", "mph"),
}  # fmt: skip
_BY_NAME = {name: unit for unit, (names, _) in _TYPED.items() for name in names}
UNIT_LETTERS = frozenset("".join(_BY_NAME)) | frozenset(" .")
USUAL_PLACES = {"deg": 0, "cm": 1, "mm": 0, "%": 0, "": 2}  # of a control told in a sentence, by its unit


# ---- numbers


def decimal(value: float, places: int = 0) -> str:
    """The number with so many places: `4.50`."""
    return _signed(f"{value:.{places}f}")


def significant(value: float, digits: int = 3) -> str:
    """The number with so many digits at most: `4.5`."""
    return _signed(f"{value:.{digits}g}")


def _signed(number: str) -> str:
    """A number as Python writes it, with the reader's minus."""
    return number.lstrip("-") if float(number) == 0.0 else number.replace("-", MINUS)


def as_typed(text: str) -> str:
    """What has been typed of a number so far, with the reader's minus."""
    return text.replace("-", MINUS)


def read_typed(text: str) -> str:
    """What was typed for a number, as Python reads it: a comma is a point, every minus is one."""
    return text.strip().replace(",", ".").replace(MINUS, "-")


class UnitError(ValueError):
    """A unit that does not fit what is asked for; the text is one sentence."""


def read_quantity(text: str, unit: str = "") -> float:
    """The number typed, in `unit`; a unit typed behind it is converted.

    UnitError where the unit does not fit, another ValueError where there is no number.

    >>> read_quantity("8ft", "m"), read_quantity("30 in", "cm"), read_quantity("2,5", "m")
    (2.4384, 76.2, 2.5)
    >>> read_quantity("3 deg", "m")
    Traceback (most recent call last):
    game.text.quantity.UnitError: “3 deg” is an angle, not a length; allowed: m, cm, mm, yd, ft, in.
    """
    found = re.fullmatch(r"(.*?)\s*([^\s\d.+-]*)\.?", plain := read_typed(text))
    value = float(found[1]) if found and found[2] else float(plain)
    if not found or not found[2]:
        return value
    shown = text.strip()
    name, asked = _BY_NAME.get(found[2].lower(), ""), _BY_NAME.get(unit)
    if asked is None:
        raise UnitError(f"“{shown}” has a unit, but here stands a plain number; leave “{found[2]}” away.")
    allowed = ", ".join(next(units for units in _MEASURES.values() if asked in units))
    if not name:
        raise UnitError(f"“{found[2]}” is no unit that fits here; allowed: {allowed}.")
    if _measured(name) != _measured(asked):
        raise UnitError(f"“{shown}” is {_measured(name)}, not {_measured(asked)}; allowed: {allowed}.")
    return float(f"{value * _TYPED[name][1] / _TYPED[asked][1]:.12g}")  # 12 digits: no dust of the conversion


def _measured(unit: str) -> str:
    return next(what for what, units in _MEASURES.items() if unit in units)


# ---- with their units


def with_unit(number: str, unit: str) -> str:
    """`5°`, `4.5 cm`, `0.6`; `unit` as a control has it ("deg" or "°" for degrees, "" for none)."""
    return f"{number}{DEGREE}" if unit in ("deg", DEGREE) else f"{number} {unit}".rstrip()


def angle_words(radians: float, places: int = 0, *, signed: bool = False) -> str:
    """An angle (rad): `5°`; `signed` gives what is above zero a plus."""
    value = degrees(radians)
    plus = "+" if signed and round(value, places) > 0.0 else ""
    return f"{plus}{decimal(value, places)}{DEGREE}"


def angle_plain(radians: float) -> str:
    """An angle (rad) in a table: `5.0 deg`, or NONE for nan."""
    return NONE if isnan(radians) else f"{decimal(degrees(radians), 1)} deg"


def percent(share: float) -> str:
    """A share in whole percent, or NONE for nan."""
    return NONE if isnan(share) else f"{decimal(100.0 * share)} %"


def rpm(radians_per_second: float) -> float:
    """A spin (rad/s) in revolutions a minute."""
    return radians_per_second * 30.0 / pi


def revolutions(radians_per_second: float) -> str:
    """A spin (rad/s) in revolutions a minute, back or top, or NONE for nan."""
    turns = rpm(radians_per_second)
    return NONE if isnan(turns) else f"{decimal(abs(turns))} rpm {'back' if turns >= 0 else 'top'}"


# ---- controls


def figure_of_control(name: str, value: float, digits: int = 3) -> str:
    """A control's value, given in its own unit, with so many digits at most: `4.5 cm`, `0.6`, `8°`."""
    return with_unit(significant(value, digits), CONTROLS[name].unit)


def shown_control(name: str, value: float, more: int = 0) -> str:
    """A control's value (SI) with its unit, to the places usual in a sentence and so many more."""
    control = CONTROLS[name]
    return with_unit(decimal(value * control.scale, USUAL_PLACES[control.unit] + more), control.unit)


# ---- counts


def times(count: int) -> str:
    """`once`, `twice`, `3 times`."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def plural(number: str, noun: str) -> str:
    """A number and what it counts: `1 degree`, `3 degrees`, `1.5 degrees`."""
    return f"{number} {noun}" if number.lstrip(MINUS) == "1" else f"{number} {noun}s"
