"""The course in the form the laws read: ground as straight pieces, boxes where scenery takes over.

A ball's place is its centre. Boxes are grown by the ball's radius, so that testing the centre
is enough.
"""

from dataclasses import replace
from math import atan2, cos, inf, nan, sqrt, tan
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from physics.compiled import as_records, law
from physics.course import Course, Lip, OutOfBounds, Tree, Wall, Water
from physics.equipment import BALL, FLAGSTICK, HOLE_RADIUS
from physics.surfaces import SURFACES, TURF, Surface, green

__all__ = [
    "STICK_REACH", "Field", "build_field", "clearance", "entry", "half_chord", "height_at", "nearest",
    "segment_at", "slope_at",
]  # fmt: skip

Floats = NDArray[np.float64]

STICK_REACH = BALL.radius + FLAGSTICK.radius  # m, sideways offset within which the stick is met
LEVEL_ON = 1.0e4  # m the ground goes on level beyond both ends of the profile, assumed
TRUNK_HALF = 0.15  # m, half the thickness of a trunk, assumed
_RADIUS = BALL.radius


class Field(NamedTuple):
    """A course, compiled. n knots, n - 1 segments; the first and last segment are the level ends."""

    xs: Floats  # (n,) m
    ys: Floats  # (n,) m
    slope: Floats  # (n - 1,) rise over run
    tilt: Floats  # (n - 1,) rad
    first: Floats  # (n - 1,) m along the segment where a rolling ball's touching point may start
    last: Floats  # (n - 1,) and end: a ball touches short of a hollow knot
    surface: NDArray[np.int64]  # (n - 1,) row of `surfaces`
    surfaces: Any  # record array of Surface
    water: Floats  # (m, 4) boxes the centre enters when the ball's bottom meets the water
    boxes: Floats  # (k, 4) scenery: x least, y least, x most, y most
    stick: int  # row of `boxes` that is the flagstick, -1 for none
    hole: float  # x, nan for none
    lo: float  # out of bounds before, -inf for none
    hi: float  # out of bounds beyond, inf for none
    wind: float  # m/s at 10 m
    steepest: float  # share of a vertical gap that is surely a gap: 1 / sqrt(1 + slope^2)


def _firm(surface: Surface, course: Course) -> Surface:
    """The surface as it plays today: green speed and firmness; other turf half as much, assumed."""
    if surface.name == "green":
        return green(course.green_speed, course.firmness)
    if surface.kind != TURF:
        return surface
    f = course.firmness
    return replace(surface, crater=surface.crater * (1.3 - 0.3 * f), bounce=surface.bounce * (0.8 + 0.2 * f))


def _knots(course: Course) -> tuple[Floats, Floats, list[str]]:
    """Profile with its level ends, and one surface name a segment."""
    g = course.ground
    xs = np.array([g.x[0] - LEVEL_ON, *g.x, g.x[-1] + LEVEL_ON], dtype=np.float64)
    ys = np.array([g.y[0], *g.y, g.y[-1]], dtype=np.float64)
    return xs, ys, [g.surfaces[0], *g.surfaces, g.surfaces[-1]]


def _reach(tilt: Floats, length: Floats) -> tuple[Floats, Floats]:
    """Where the touching point may be on each segment: cut back R tan(turn / 2) at hollow knots."""
    turn = np.maximum(np.diff(tilt), 0.0)
    cut = np.array([_RADIUS * tan(t / 2.0) for t in turn])
    first = np.concatenate(([0.0], cut))
    last = length - np.concatenate((cut, [0.0]))
    middle = 0.5 * (first + last)
    return np.minimum(first, middle), np.maximum(last, middle)


def _scenery(course: Course, xs: Floats, ys: Floats) -> list[tuple[float, float, float, float]]:
    """Boxes round wall, lip and tree, in the order of the hazards; a tree has two, trunk first."""

    def ground(x: float) -> float:
        return float(np.interp(x, xs, ys))

    boxes: list[tuple[float, float, float, float]] = []
    for h in course.hazards:
        match h:
            case Wall(x, height, thickness):
                low = min(ground(x - thickness), ground(x + thickness))
                top = max(ground(x - thickness), ground(x + thickness)) + height
                boxes.append((x - thickness, low, x + thickness, top))
            case Lip(x, height, overhang):
                low = min(ground(x - overhang), ground(x + overhang))
                top = max(ground(x - overhang), ground(x + overhang)) + height
                boxes.append((x - overhang, low, x + overhang, top))
            case Tree(x, trunk, radius):
                low, mid = ground(x), ground(x) + trunk
                boxes.append((x - TRUNK_HALF, low, x + TRUNK_HALF, mid))
                boxes.append((x - radius, mid - radius, x + radius, mid + radius))
            case Water() | OutOfBounds():
                pass
    return boxes


def build_field(course: Course) -> Field:
    """The course as numpy arrays a law can read. Knots of the ground must rise in x."""
    xs, ys, names = _knots(course)
    kinds = sorted(set(names))
    slope = np.diff(ys) / np.diff(xs)
    tilt = np.arctan(slope)
    first, last = _reach(tilt, np.hypot(np.diff(xs), np.diff(ys)))
    boxes = _scenery(course, xs, ys)
    hole, stick = nan, -1
    if course.hole is not None:
        hole = course.hole.x
        base = float(np.interp(hole, xs, ys))
        if course.hole.flagstick:
            stick = len(boxes)
            half = FLAGSTICK.radius
            boxes.append((hole - half, base, hole + half, base + FLAGSTICK.height))
    grow = np.array([-_RADIUS, -_RADIUS, _RADIUS, _RADIUS])
    outs = [h for h in course.hazards if isinstance(h, OutOfBounds)]
    pools = [h for h in course.hazards if isinstance(h, Water)]
    return Field(
        xs, ys, slope, tilt, first, last,
        np.array([kinds.index(n) for n in names], dtype=np.int64),
        as_records(_firm(SURFACES[n], course) for n in kinds),
        np.array([(w.left, -inf, w.right, w.level + _RADIUS + 1e-6) for w in pools]).reshape(-1, 4),
        np.array(boxes, dtype=np.float64).reshape(-1, 4) + grow,
        stick, float(hole),
        max((h.x for h in outs if h.side < 0), default=-inf),
        min((h.x for h in outs if h.side > 0), default=inf),
        float(course.wind),
        1.0 / sqrt(1.0 + float(np.max(slope**2))),
    )  # fmt: skip


@law
def segment_at(field: Field, x: float) -> int:
    """Index of the segment over which x lies; at a knot the one to its right."""
    low, high = 0, field.xs.size - 1
    while high - low > 1:
        mid = (low + high) // 2
        if field.xs[mid] <= x:
            low = mid
        else:
            high = mid
    return low


@law
def height_at(field: Field, x: float) -> float:
    """Ground height (m) at x."""
    i = segment_at(field, x)
    return float(field.ys[i] + field.slope[i] * (x - field.xs[i]))


@law
def slope_at(field: Field, x: float) -> float:
    """Tilt of the ground (rad) at x, + uphill toward the target."""
    return float(field.tilt[segment_at(field, x)])


@law
def nearest(field: Field, x: float, y: float) -> tuple[float, float, int]:
    """Gap between a ball at (x, y) and the ground, tilt of the ground where it is nearest, segment.

    The gap is negative when the ball is in the ground. At a ridge the tilt is that of a line at
    right angles to the way from ridge to centre.
    """
    here = segment_at(field, x)
    up = y - (field.ys[here] + field.slope[here] * (x - field.xs[here]))
    reach = abs(up) + 1e-12  # no nearer point lies further off sideways than the one straight below
    best, tilt, seg = inf, 0.0, here
    i = segment_at(field, x - reach)
    while i < field.xs.size - 1 and field.xs[i] <= x + reach:
        wide, c = field.xs[i + 1] - field.xs[i], cos(field.tilt[i])
        along = (x - field.xs[i]) + (y - field.ys[i]) * field.slope[i]
        share = min(1.0, max(0.0, along * c * c / wide))
        dx = x - (field.xs[i] + share * wide)
        dy = y - (field.ys[i] + share * wide * field.slope[i])
        d = dx * dx + dy * dy
        if d < best:
            best, seg = d, i
            tilt = field.tilt[i] if 0.0 < share < 1.0 or up <= 0.0 else atan2(-dx, dy)
        i += 1
    gap = sqrt(best)
    return (gap if up > 0.0 else -gap) - _RADIUS, tilt, seg


@law
def clearance(field: Field, x: float, y: float) -> float:
    """Cheap lower bound of the gap of a ball at (x, y): the vertical one, shortened by the steepest slope."""
    up = y - height_at(field, x)
    return up * field.steepest - _RADIUS if up > 0.0 else up - _RADIUS


@law
def half_chord(offset: float) -> float:
    """Half the way across the hole (m) on a line passing its centre at `offset`; 0 when it misses."""
    return sqrt(HOLE_RADIUS * HOLE_RADIUS - offset * offset) if abs(offset) < HOLE_RADIUS else 0.0


@law
def entry(
    x0: float, y0: float, x1: float, y1: float, left: float, low: float, right: float, top: float
) -> float:
    """Share 0..1 of the straight way (x0, y0) to (x1, y1) at which it enters the box; 2 if never."""
    start, end = 0.0, 1.0
    dx, dy = x1 - x0, y1 - y0
    if dx == 0.0:
        if x0 < left or x0 > right:
            return 2.0
    else:
        a, b = (left - x0) / dx, (right - x0) / dx
        start, end = max(start, min(a, b)), min(end, max(a, b))
    if dy == 0.0:
        if y0 < low or y0 > top:
            return 2.0
    else:
        a, b = (low - y0) / dy, (top - y0) / dy
        start, end = max(start, min(a, b)), min(end, max(a, b))
    return start if start <= end else 2.0
