"""SI values as the reader wants them: metres or yards, always with their unit."""

from dataclasses import dataclass
from math import degrees, isnan, pi

from physics.constants import FOOT, INCH, MILE, YARD

__all__ = ["UNITS", "Units", "angle", "percent", "revolutions"]

NONE = "-"  # shown for a stage that did not happen


def _shown(value: float, places: int, unit: str) -> str:
    if isnan(value):
        return NONE
    text = f"{value:.{places}f}"
    if float(text) == 0.0:
        text = text.lstrip("-")
    return f"{text} {unit}".rstrip()


@dataclass(frozen=True)
class Units:
    """How lengths and speeds are shown."""

    name: str
    far_unit: str
    far_scale: float
    near_unit: str
    near_scale: float
    small_unit: str
    small_scale: float
    small_places: int
    speed_unit: str
    speed_scale: float

    def far(self, metres: float) -> str:
        """A distance along the course."""
        return _shown(metres * self.far_scale, 1, self.far_unit)

    def near(self, metres: float) -> str:
        """A leave or a height."""
        return _shown(metres * self.near_scale, 1, self.near_unit)

    def small(self, metres: float) -> str:
        """A length in the turf."""
        return _shown(metres * self.small_scale, self.small_places, self.small_unit)

    def speed(self, metres_per_second: float) -> str:
        """A speed."""
        return _shown(metres_per_second * self.speed_scale, 1, self.speed_unit)


UNITS: dict[str, Units] = {
    "m": Units("m", "m", 1.0, "m", 1.0, "mm", 1e3, 1, "m/s", 1.0),
    "yd": Units("yd", "yd", 1 / YARD, "ft", 1 / FOOT, "in", 1 / INCH, 2, "mph", 3600 / MILE),
}


def angle(radians: float) -> str:
    """An angle in degrees."""
    return _shown(degrees(radians), 1, "deg")


def percent(share: float) -> str:
    """A share in whole percent."""
    return _shown(100.0 * share, 0, "%")


def revolutions(radians_per_second: float) -> str:
    """A spin in revolutions a minute; back or top."""
    rpm = radians_per_second * 30.0 / pi
    if isnan(rpm):
        return NONE
    return f"{abs(rpm):.0f} rpm {'back' if rpm >= 0 else 'top'}"
