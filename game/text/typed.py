"""Numbers that people type: their commas and minus signs, and the units they put behind."""

import re

from game.text.quantity import DEGREE, MINUS
from physics.constants import FOOT, INCH, MILE, YARD

__all__ = ["UNIT_LETTERS", "UnitError", "as_typed", "read_quantity", "read_typed"]

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
    game.text.typed.UnitError: “3 deg” is an angle, not a length; allowed: m, cm, mm, yd, ft, in.
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
