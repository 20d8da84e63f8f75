"""What opening the face does to loft and bounce: exact geometry of turning the head about its shaft."""

from dataclasses import dataclass
from math import asin, atan2, cos, sin
from typing import Any

from physics.compiled import law
from physics.equipment import Club

__all__ = ["FaceOpen", "open_face", "opened_face", "opened_head"]


@dataclass(frozen=True)
class FaceOpen:
    """What opening the face does, shaft still vertical in the side view (rad)."""

    loft: float
    bounce: float  # along the target line
    azimuth: float  # where the face looks, to the right of the target for a right-hander


@law
def opened_face(lie: float, loft: float, bounce: float, opened: float) -> tuple[float, float, float]:
    """Loft, bounce along the target line and face azimuth (rad) of a head turned `opened` about its shaft.

    Axes x target, y toward the golfer, z up; shaft s = (0, cos lie, sin lie). Face normal
    (cos L, 0, sin L) and sole normal (sin b, 0, -cos b) are turned by -opened about s
    (Rodrigues): exact, derived.
    """
    o = opened
    turn = 1.0 - cos(o)
    nx = cos(loft) * cos(o) - cos(lie) * sin(loft) * sin(o)
    ny = -sin(lie) * cos(loft) * sin(o) + sin(lie) * cos(lie) * sin(loft) * turn
    nz = sin(loft) * cos(o) + cos(lie) * cos(loft) * sin(o) + sin(lie) ** 2 * sin(loft) * turn
    mx = sin(bounce) * cos(o) + cos(lie) * cos(bounce) * sin(o)
    mz = -cos(bounce) * cos(o) + cos(lie) * sin(bounce) * sin(o) - sin(lie) ** 2 * cos(bounce) * turn
    return asin(nz), atan2(mx, -mz), atan2(-ny, nx)


@law
def opened_head(club: Any, opened: float) -> tuple[float, float, float]:
    """Loft, bounce and azimuth (rad) of a club opened by `opened`; of the bounce that a full sole
    would gain the heel relief of its grind leaves a share."""
    loft, bounce, azimuth = opened_face(club.lie, club.loft, club.bounce, opened)
    return loft, club.bounce + club.grind * (bounce - club.bounce), azimuth


def open_face(club: Club, opened: float) -> FaceOpen:
    """What opening this club's face by `opened` (rad) does, heel relief included."""
    loft, bounce, azimuth = opened_face(club.lie, club.loft, club.bounce, opened)
    return FaceOpen(loft, club.bounce + club.grind * (bounce - club.bounce), azimuth)
