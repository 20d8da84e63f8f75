"""The course in the form the laws read: ground as straight pieces, boxes where scenery takes over.

A ball's place is its centre. Boxes are those of `physics.scenery`, for the ball's centre.
"""

from dataclasses import dataclass
from math import atan2, inf, nan, sqrt
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from physics.compiled import as_records, law
from physics.course import Course, OutOfBounds, Water
from physics.equipment import BALL_RADIUS, FLAGSTICK
from physics.scenery.region import around, overlap
from physics.scenery.regions import scenery_boxes
from physics.scenery.solid import ground_height
from physics.surfaces import SURFACES, as_played

__all__ = [
    "Field", "Segment", "above_one", "build_field", "clearance", "entry", "height_at", "nearest",
    "segment_at", "slope_at",
]  # fmt: skip

Floats = NDArray[np.float64]

LEVEL_ON = 1.0e4  # m the ground goes on level beyond both ends of the profile, assumed


@dataclass(frozen=True)
class Segment:
    """One straight piece of ground, from its left knot."""

    x: float  # m, left knot
    y: float
    width: float  # m, along x
    slope: float  # rise over run
    tilt: float  # rad
    first: float  # m along the segment where a rolling ball's touching point may start
    last: float  # m, and end: a ball touches short of a hollow knot
    surface: int  # row of `Field.surfaces`


class Field(NamedTuple):
    """A course, compiled. The first and last piece of ground are its level ends."""

    ground: Any  # record array of Segment, left to right
    surfaces: Any  # record array of Surface
    water: Floats  # (m, 4) boxes the centre enters when the ball's bottom meets the water
    boxes: Floats  # (k, 4) scenery: x least, y least, x most, y most
    cup: int  # number of the hole's box; that row of `boxes` is the flagstick, if there is one
    joined: bool  # other scenery stands in the hole's box: pymunk has both
    hole: float  # x, nan for none
    lo: float  # out of bounds before, -inf for none
    hi: float  # out of bounds beyond, inf for none
    wind: float  # m/s at 10 m
    steepest: float  # share of a vertical gap that is surely a gap: 1 / sqrt(1 + slope^2)


def _knots(course: Course) -> tuple[Floats, Floats, list[str]]:
    """Profile with its level ends, and one surface name a segment."""
    g = course.ground
    xs = np.array([g.x[0] - LEVEL_ON, *g.x, g.x[-1] + LEVEL_ON], dtype=np.float64)
    ys = np.array([g.y[0], *g.y, g.y[-1]], dtype=np.float64)
    return xs, ys, [g.surfaces[0], *g.surfaces, g.surfaces[-1]]


def _segments(xs: Floats, ys: Floats, surface: list[int]) -> list[Segment]:
    """The pieces between knots; a ball's touching point stays R tan(turn / 2) off a hollow knot."""
    width = np.diff(xs)
    slope = np.diff(ys) / width
    tilt = np.arctan(slope)
    cut = BALL_RADIUS * np.tan(np.maximum(np.diff(tilt), 0.0) / 2.0)
    first = np.concatenate(([0.0], cut))
    last = np.hypot(width, np.diff(ys)) - np.concatenate((cut, [0.0]))
    middle = 0.5 * (first + last)
    columns = (xs[:-1], ys[:-1], width, slope, tilt, np.minimum(first, middle), np.maximum(last, middle))
    rows = np.column_stack(columns).tolist()
    return [
        Segment(x, y, w, m, b, f, e, surface=k)
        for (x, y, w, m, b, f, e), k in zip(rows, surface, strict=True)
    ]


def _boxes(course: Course) -> tuple[int, bool, Floats]:
    """Number of the hole's box, whether other scenery overlaps it, and all boxes.

    Those are the hazards' as the scenery counts them, then the flagstick's. On the middle the hole's box
    is widest.
    """
    found = scenery_boxes(course, 0.0)
    boxes = [box[:4] for box in found if box[4] != "hole"]
    number = len(boxes)
    joined = any(overlap(hole[:4], box) for hole in found[number:] for box in boxes)
    if course.hole is not None and course.hole.flagstick:
        base = ground_height(course, course.hole.x)
        side = FLAGSTICK.radius
        boxes.append(around(course.hole.x - side, base, course.hole.x + side, base + FLAGSTICK.height))
    return number, joined, np.array(boxes, dtype=np.float64).reshape(-1, 4)


def surface_names(course: Course) -> tuple[str, ...]:
    """Names of the rows of `Field.surfaces`, in order."""
    return tuple(sorted(set(course.ground.surfaces)))


def build_field(course: Course) -> Field:
    """The course as numpy arrays a law can read. Knots of the ground must rise in x."""
    xs, ys, names = _knots(course)
    kinds = surface_names(course)
    ground = _segments(xs, ys, [kinds.index(n) for n in names])
    cup, joined, boxes = _boxes(course)
    outs = [h for h in course.hazards if isinstance(h, OutOfBounds)]
    pools = [h for h in course.hazards if isinstance(h, Water)]
    return Field(
        as_records(ground),
        as_records(as_played(SURFACES[n], course.green_speed, course.firmness) for n in kinds),
        np.array([(w.left, -inf, w.right, w.level + BALL_RADIUS + 1e-6) for w in pools]).reshape(-1, 4),
        boxes, cup, joined,
        float(course.hole.x) if course.hole else nan,
        max((h.x for h in outs if h.side < 0), default=-inf),
        min((h.x for h in outs if h.side > 0), default=inf),
        float(course.wind),
        1.0 / sqrt(1.0 + max(g.slope**2 for g in ground)),
    )  # fmt: skip


@law
def segment_at(field: Field, x: float) -> int:
    """Index of the piece of ground over which x lies; at a knot the one to its right."""
    low, high = 0, len(field.ground)
    while high - low > 1:
        mid = (low + high) // 2
        if field.ground[mid].x <= x:
            low = mid
        else:
            high = mid
    return low


@law
def height_at(field: Field, x: float) -> float:
    """Ground height (m) at x."""
    g = field.ground[segment_at(field, x)]
    return float(g.y + g.slope * (x - g.x))


@law
def slope_at(field: Field, x: float) -> float:
    """Tilt of the ground (rad) at x, + uphill toward the target."""
    return float(field.ground[segment_at(field, x)].tilt)


@law
def nearest(field: Field, x: float, y: float) -> tuple[float, float, int]:
    """Gap between a ball at (x, y) and the ground, tilt of the ground where it is nearest, its segment.

    The gap is negative when the ball is in the ground. At a ridge the tilt is that of a line at
    right angles to the way from ridge to centre.
    """
    up = y - height_at(field, x)
    reach = abs(up) + 1e-12  # no nearer point lies further off sideways than the one straight below
    best, tilt, seg = inf, 0.0, 0
    i = segment_at(field, x - reach)
    while i < len(field.ground) and field.ground[i].x <= x + reach:
        g = field.ground[i]
        share = ((x - g.x) + (y - g.y) * g.slope) / ((1.0 + g.slope * g.slope) * g.width)
        on = min(1.0, max(0.0, share)) * g.width
        dx, dy = x - (g.x + on), y - (g.y + on * g.slope)
        d = dx * dx + dy * dy
        if d < best:
            best, seg = d, i
            tilt = g.tilt if 0.0 < share < 1.0 or up <= 0.0 else atan2(-dx, dy)
        i += 1
    gap = sqrt(best)
    return (gap if up > 0.0 else -gap) - BALL_RADIUS, tilt, seg


@law
def above_one(field: Field, x0: float, x1: float, y1: float) -> bool:
    """Whether a ball flying from x0 to (x1, y1) has but one straight piece below and ends clear of it.

    It then never touched it: off a straight line, a falling path is nearest at its ends.
    """
    g = field.ground[segment_at(field, min(x0, x1) - BALL_RADIUS)]
    if max(x0, x1) + BALL_RADIUS > g.x + g.width:
        return False
    return bool(y1 - (g.y + g.slope * (x1 - g.x)) > BALL_RADIUS * sqrt(1.0 + g.slope * g.slope))


@law
def clearance(field: Field, x: float, y: float) -> float:
    """Cheap lower bound of the gap of a ball at (x, y): the vertical one, shortened by the steepest slope."""
    up = y - height_at(field, x)
    return up * field.steepest - BALL_RADIUS if up > 0.0 else up - BALL_RADIUS


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
