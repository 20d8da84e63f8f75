"""Quantities as they are read: numbers with a true minus and never a negative zero, and their units."""

from math import degrees, isnan, pi

from physics.address import CONTROLS

__all__ = [
    "DEGREE",
    "MINUS",
    "NONE",
    "angle_plain",
    "angle_words",
    "decimal",
    "figure_of_control",
    "percent",
    "plural",
    "revolutions",
    "rpm",
    "shown_control",
    "significant",
    "times",
    "with_unit",
]  # fmt: skip

MINUS, DEGREE = "\N{MINUS SIGN}", "\N{DEGREE SIGN}"
NONE = "-"  # shown for what did not happen (nan)
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
