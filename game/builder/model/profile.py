"""The ground of a draft as a line of points: reading it, and putting a changed one back on the ball."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Any, NamedTuple

from levels.draft import Draft
from levels.scenario import LEVEL

__all__ = [
    "GroundPoint",
    "Profile",
    "clamp",
    "fine",
    "height",
    "is_usable",
    "mm",
    "profile",
    "profile_surface",
    "raised",
    "with_profile",
]  # fmt: skip

FINE = 1e-9  # m, assumed: what a shift may round away


class GroundPoint(NamedTuple):
    """A point of the ground (m) and the surface from it to the next, None at the last."""

    x: float
    y: float
    surface: str | None


Profile = list[GroundPoint]


def mm(value: float) -> float:
    """A length (m) a hand has set: to the millimetre, so that files stay readable."""
    return round(value, 3) + 0.0


def fine(value: float) -> float:
    """A length (m) that was reckoned: without the dust of binary fractions."""
    return round(value, 9) + 0.0


def clamp(value: float, low: float, high: float) -> float:
    return max(low, min(value, high))


def is_usable(value: Any) -> bool:
    """Whether it is a number a picture can use."""
    return type(value) in (int, float) and abs(value) < 1e6


def profile(d: Draft) -> Profile:
    """The points in the order of the file; none while the ground is not a rising line of numbers."""
    rows = d.at(("ground",), [])
    if not isinstance(rows, list) or len(rows) < 2:
        return []
    found: Profile = []
    for row in rows:
        if not isinstance(row, dict) or not (is_usable(row.get("x_m")) and is_usable(row.get("y_m"))):
            return []
        surface = row.get("surface")
        found.append(GroundPoint(row["x_m"], row["y_m"], surface if isinstance(surface, str) else None))
    return found if all(a.x < b.x for a, b in pairwise(found)) else []


def height(ground: Sequence[GroundPoint], x: float) -> float:
    """Height (m) at x, straight between points, level beyond the ends; 0 without a ground."""
    if not ground:
        return 0.0
    if x <= ground[0].x:
        return ground[0].y
    for a, b in pairwise(ground):
        if x <= b.x:
            return a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x)
    return ground[-1].y


def profile_surface(ground: Sequence[GroundPoint], x: float) -> str:
    """Surface at x, at a point the one to its right; that of the end stretch beyond the ends."""
    names = [a.surface for a, b in pairwise(ground) if x < b.x]
    return (names[0] if names else ground[-2].surface) or "green"


def with_profile(d: Draft, ground: Profile) -> Draft:
    """The draft over another ground. Where its height at the ball changed, everything is lifted or sunk
    so that the ground passes through the ball's place again; heights count from there."""
    h = height(ground, 0.0)
    if abs(h) > LEVEL or abs(h - height(profile(d), 0.0)) > FINE:
        return raised(_written(d, ground), -round(h, 6))
    return _written(d, ground)


def raised(d: Draft, dy: float) -> Draft:
    """The draft with every height that counts from the ball (ground and water) changed by dy (m)."""
    if dy == 0.0:
        return d
    d = _written(d, [p._replace(y=fine(p.y + dy)) for p in profile(d)])
    rows = d.at(("hazards",))
    for i in range(len(rows) if isinstance(rows, list) else 0):
        if is_usable(level := d.at(("hazards", i, "level_m"))):
            d = d.put(("hazards", i, "level_m"), fine(level + dy))
    return d


def _written(d: Draft, ground: Profile) -> Draft:
    """The points put into the draft. What a row holds besides (a slip of the pen) stays in it."""
    rows = d.at(("ground",), [])
    by_x = {row["x_m"]: row for row in rows} if len(rows) != len(ground) else {}
    written = []
    for i, point in enumerate(ground):
        old = by_x.get(point.x, {}) if by_x else rows[i] if i < len(rows) else {}
        row = {**old, "x_m": point.x, "y_m": point.y, "surface": point.surface}
        if point.surface is None:
            del row["surface"]
        written.append(row)
    return d.put(("ground",), written)
