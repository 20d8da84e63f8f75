"""The club head in the side view: a face line, a cambered sole, a rounded leading edge.

Head frame at zero lean: origin at the leading edge, x toward the target, y up. A head with lean f
is turned clockwise by f, so loft and bounce both fall by f, exactly (rotation about heel-toe).

One outline serves drawing, clearing the ground and hitting the ball: sole arc, then the arc of the
rounded edge, then the face, each tangent to the one before. For the ball, edge and face are together
everything within the edge's radius of a line up the face (`reach_of_face`).
"""

from math import asin, cos, sin, sqrt

import numpy as np

from physics.compiled import law

__all__ = [
    "EDGE_WIDTH", "ELEMENTS", "FACE_LENGTH", "SOLE_WIDTH", "edge_centre", "lowest_point", "reach_of_face",
    "sole_elements",
]  # fmt: skip

SOLE_WIDTH = 0.055  # m heel to toe in the turf, assumed within 50-60 mm
EDGE_WIDTH = 0.070  # m heel to toe along the leading edge, assumed
FACE_LENGTH = 0.050  # m leading edge to top line, assumed
EDGE_ELEMENTS = 2
SOLE_ELEMENTS = 12
ELEMENTS = EDGE_ELEMENTS + SOLE_ELEMENTS
EDGE_UNDERSIDE = 1.05  # rad (60 deg): steeper parts of the edge cut instead of bearing, assumed


@law
def sole_elements(bounce: float, width: float, camber: float, edge_radius: float, out: np.ndarray) -> None:
    """Fill `out`, shape (ELEMENTS, 5): x, y, outward normal x, y and length of each strip (m).

    The sole is one arc whose chord lies `bounce` below the horizontal; its tangent therefore starts
    asin(W / 2R) steeper than the bounce and ends as much flatter (trailing relief). The first
    EDGE_ELEMENTS strips are the underside of the rounded leading edge.
    """
    half = asin(width / (2.0 * camber))
    start = bounce + half
    span = max(EDGE_UNDERSIDE - start, 0.05)
    for i in range(EDGE_ELEMENTS):
        steep = start + span * (EDGE_ELEMENTS - i - 0.5) / EDGE_ELEMENTS
        out[i, 0] = edge_radius * (sin(steep) - sin(EDGE_UNDERSIDE))
        out[i, 1] = edge_radius * (cos(EDGE_UNDERSIDE) - cos(steep))
        out[i, 2] = sin(steep)
        out[i, 3] = -cos(steep)
        out[i, 4] = edge_radius * span / EDGE_ELEMENTS
    left = edge_radius * (sin(start) - sin(EDGE_UNDERSIDE))
    down = edge_radius * (cos(EDGE_UNDERSIDE) - cos(start))
    for i in range(SOLE_ELEMENTS):
        steep = start - 2.0 * half * (i + 0.5) / SOLE_ELEMENTS
        k = EDGE_ELEMENTS + i
        out[k, 0] = left - camber * (sin(start) - sin(steep))
        out[k, 1] = down - camber * (cos(steep) - cos(start))
        out[k, 2] = sin(steep)
        out[k, 3] = -cos(steep)
        out[k, 4] = 2.0 * half * camber / SOLE_ELEMENTS


@law
def lowest_point(elements: np.ndarray, lean: float) -> float:
    """Height (m, <= 0) of the lowest sole strip under the leading edge at that lean."""
    lowest = 0.0
    for i in range(elements.shape[0]):
        lowest = min(lowest, elements[i, 1] * cos(lean) - elements[i, 0] * sin(lean))
    return lowest


@law
def edge_centre(edge_radius: float, lean: float) -> tuple[float, float]:
    """Centre of the rounded edge seen from the leading edge, x and y (m), at that lean."""
    turn = EDGE_UNDERSIDE - lean
    return -edge_radius * sin(turn), edge_radius * cos(turn)


@law
def reach_of_face(
    x: float, y: float, lean: float, loft: float, edge_radius: float, bx: float, by: float
) -> tuple[float, float, float, float]:
    """Distance (m) of a point (bx, by) from edge and face of a head whose leading edge is at (x, y).

    Returns it with the unit normal there (x, y) and how far up the face it is (m; below 0: on the edge).
    """
    nx, ny = cos(loft - lean), sin(loft - lean)
    cx, cy = edge_centre(edge_radius, lean)
    dx, dy = bx - x - cx, by - y - cy
    along = dy * nx - dx * ny
    held = min(max(along, 0.0), FACE_LENGTH)
    px, py = dx + held * ny, dy - held * nx
    distance = sqrt(px * px + py * py)
    return distance - edge_radius, px / distance, py / distance, along
