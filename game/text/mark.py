"""Places named in the pictures, along the foot of the course and under the turf: values, and their words."""

from dataclasses import dataclass
from enum import StrEnum

from game.text.quantity import decimal
from game.text.units import METRIC, UnitSystem

__all__ = ["Mark", "MarkKind", "TurfKind", "TurfMark", "mark_words", "turf_mark_words"]


class MarkKind(StrEnum):
    """What a mark stands for; the value is its word."""

    STOP = "stopped"
    HOLED = "holed"
    WATER = "in water"
    OUT = "out of bounds"
    STUCK = "stuck in the turf"
    LOST = "still moving after two minutes"
    LANDING = "landed"
    HOLE = "hole"
    LIKELY = "likely stops"


@dataclass(frozen=True)
class Mark:
    """`x` (m) is where it points, `value` (m) the distance that is told, None where none is; `whose` is the
    letter of its shot while two are compared, "" for what belongs to neither or where there is one shot."""

    kind: MarkKind
    x: float
    value: float | None = None
    whose: str = ""


def mark_words(mark: Mark, units: UnitSystem = METRIC, numbers: bool = True) -> str:
    """`B landed 3.4 m`; without numbers `B landed`."""
    far = units.far(mark.value) if numbers and mark.value is not None else ""
    return " ".join(part for part in (mark.whose, mark.kind.value, far) if part)


class TurfKind(StrEnum):
    """What a mark under the turf stands for; the value is its word."""

    DIVOT = "divot"
    BRUSH = "brush"
    SKID = "skid"
    CUT = "cut"  # through sand
    PRESSED = "pressed"  # into a mat
    LOW_POINT = "low point"
    FLAT_SPOT = "flat spot"


@dataclass(frozen=True)
class TurfMark:
    """`x`, `length` and `depth` in m; a low point has neither length nor depth, a flat spot no depth."""

    kind: TurfKind
    x: float
    length: float = 0.0
    depth: float = 0.0


def turf_mark_words(mark: TurfMark) -> str:
    """`divot 12 cm, 8 mm cut`, `skid 9 cm, 3 mm pressed`, `flat spot 9 cm`, `low point`. An edge cuts, a sole
    presses: the two depths are not to be compared."""
    long = f"{mark.kind} {decimal(100.0 * mark.length)} cm"
    match mark.kind:
        case TurfKind.LOW_POINT:
            return mark.kind.value
        case TurfKind.FLAT_SPOT:
            return long
        case TurfKind.DIVOT:
            return f"{long}, {decimal(1000.0 * mark.depth)} mm cut"
        case TurfKind.SKID | TurfKind.BRUSH:
            return f"{long}, {decimal(1000.0 * mark.depth)} mm pressed"
        case _:
            return f"{long}, {decimal(1000.0 * mark.depth)} mm"
