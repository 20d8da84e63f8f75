"""The two systems of lengths and speeds a reader may choose, metres or yards, each with its units."""

from dataclasses import dataclass
from math import isnan

from game.text.quantity import NONE, decimal
from physics.constants import FOOT, INCH, MILE, YARD

__all__ = ["METRIC", "UNIT_SYSTEMS", "YARDS", "UnitSystem", "system_of"]


def _shown(value: float, places: int, unit: str) -> str:
    return NONE if isnan(value) else f"{decimal(value, places)} {unit}"


@dataclass(frozen=True)
class UnitSystem:
    """How lengths (m) and speeds (m/s) are shown; NONE for nan."""

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


METRIC = UnitSystem("m", "m", 1.0, "m", 1.0, "mm", 1e3, 1, "m/s", 1.0)
YARDS = UnitSystem("yd", "yd", 1 / YARD, "ft", 1 / FOOT, "in", 1 / INCH, 2, "mph", 3600 / MILE)
UNIT_SYSTEMS: dict[str, UnitSystem] = {system.name: system for system in (METRIC, YARDS)}


def system_of(yards: bool) -> UnitSystem:
    """Yards or metres."""
    return YARDS if yards else METRIC
