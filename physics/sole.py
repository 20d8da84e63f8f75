"""The ground's forces on the head: strips of sole bear and rub, the edge cuts, the face throws sand.

One column of ground remembers how deep it was pressed and cut; it does not push its neighbour.
"""

from math import atan2, cos, hypot, sin
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from physics.bearing import bearing_pressure, inclined_cohesion, janosi_shear, plate_pressure
from physics.compiled import law
from physics.cutting import cutting_force
from physics.granular import sand_push
from physics.head import EDGE_ELEMENTS, EDGE_WIDTH, SOLE_WIDTH
from physics.surfaces import MAT, SAND
from physics.twolink import HeadPose

__all__ = ["CELL", "CELLS", "GROUND_LEFT", "Load", "Soil", "ground_load", "working_bounce", "yield_pressure"]

Floats = NDArray[np.float64]

CELL = 1.0e-3  # m, ground column
CELLS = 1300
GROUND_LEFT = -0.90  # m from the ball: where the strike first looks for the ground
ROOT_MAT = 0.020  # m, depth of the root mat (10-20 mm, sod literature), upper end
ROOT_MAT_FADE = 1.0e-3  # m over which the mat ends, assumed
SOLE_ASPECT = 0.4  # breadth over length of a sole in the ground, 22 by 55 mm
DAMP_DEPTH = 2.0e-3  # m over which the cohesion of damp sand comes to bear, assumed


class Soil(NamedTuple):
    """Work space of one strike: head strips (n, 5), columns pressed and cut (m), slip and pressure."""

    elements: Floats
    pressed: Floats
    cut: Floats
    slip: Floats
    pressure: Floats


class Load(NamedTuple):
    """What ground does to the head."""

    fx: float  # N
    fy: float
    moment: float  # N m about the leading edge, counter-clockwise
    taken: float  # m of earth the edge takes
    lift: float  # N, upward from the sole
    pull: float  # N, downward from cutting
    beta: float  # rad, failure plane, handed back at the next step


@law
def yield_pressure(surface: Any) -> float:
    """Pressure (Pa) at which the ground gives way under the sole; a mat never does.

    Of damp sand it is what its cohesion bears under a sliding sole, on top of the grains' own resistance.
    """
    if surface.kind == MAT:
        return 1.0e9
    bearing = bearing_pressure(surface.cohesion, surface.friction_angle)
    if surface.kind == SAND:
        return bearing * inclined_cohesion(surface.friction_angle, surface.steel_angle, SOLE_ASPECT)
    return bearing


@law
def working_bounce(elements: Floats, lean: float) -> float:
    """Effective bounce (rad): the sole's chord under the leading edge at that lean."""
    last, first = elements.shape[0] - 1, EDGE_ELEMENTS
    return atan2(elements[first, 1] - elements[last, 1], elements[first, 0] - elements[last, 0]) - lean


@law
def _turf_element(
    depth: float, cell: int, vn: float, vt: float, slip: float, surface: Any,
    limit: float, pressed: Floats, cut: Floats,
) -> tuple[float, float]:  # fmt: skip
    """Pressure and shear (Pa, against vt) of turf or mat on a sole strip; remembers the deepest press."""
    bearing_depth = depth - cut[cell]
    if bearing_depth <= 0.0 and pressed[cell] <= 0.0:
        return 0.0, 0.0
    pressure = plate_pressure(
        bearing_depth, pressed[cell], surface.stiffness, limit, surface.rebound,
        surface.cover, surface.cover_share,
    )  # fmt: skip
    if bearing_depth > pressed[cell]:
        pressed[cell] = bearing_depth
    if pressure > 0.0 and vn > 0.0:
        pressure += surface.inertia * surface.density * vn * vn
    shear = janosi_shear(0.0, pressure, surface.steel_angle, slip, surface.shear_travel)
    return pressure, shear if vt > 0.0 else -shear


@law
def _sole_force(
    head: HeadPose, dt: float, soil: Soil, surface: Any, limit: float
) -> tuple[float, float, float]:
    """Force x, y (N) and moment about the leading edge (N m, counter-clockwise) of ground on the sole."""
    fx, fy, moment = 0.0, 0.0, 0.0
    c, s = cos(head.lean), sin(head.lean)
    elements, slip, pressure = soil.elements, soil.slip, soil.pressure
    pressed, cut = soil.pressed, soil.cut
    for i in range(elements.shape[0]):
        pressure[i] = 0.0
        ex = elements[i, 0] * c + elements[i, 1] * s
        ey = elements[i, 1] * c - elements[i, 0] * s
        depth = -(head.y + ey)
        if depth <= 0.0:
            slip[i] = 0.0
            continue
        cell = int((head.x + ex - GROUND_LEFT) / CELL)
        if cell < 0 or cell >= CELLS:
            continue
        nx = elements[i, 2] * c + elements[i, 3] * s
        ny = elements[i, 3] * c - elements[i, 2] * s
        ux = head.vx - head.turn * ey
        uy = head.vy + head.turn * ex
        vn = ux * nx + uy * ny
        vt = -ux * ny + uy * nx
        area = elements[i, 4] * (EDGE_WIDTH if i < EDGE_ELEMENTS else SOLE_WIDTH)
        if surface.kind == SAND:
            px, py = sand_push(
                nx, ny, ux, uy, depth, surface.grain, surface.density, surface.inertia,
                limit * min(1.0, depth / DAMP_DEPTH),
            )  # fmt: skip
            pressure[i] = -(px * nx + py * ny)
            if vn > 0.0 and depth > pressed[cell]:
                pressed[cell] = depth
        else:
            slip[i] += abs(vt) * dt
            p, shear = _turf_element(depth, cell, vn, vt, slip[i], surface, limit, pressed, cut)
            pressure[i] = p
            px = -p * nx + shear * ny
            py = -p * ny - shear * nx
        fx += px * area
        fy += py * area
        moment += (ex * py - ey * px) * area
    return fx, fy, moment


@law
def _face_in_sand(head: HeadPose, loft: float, beta: float, surface: Any) -> tuple[float, float, float]:
    """Force x, y (N) of the wedge of sand the face ploughs up, and its shear plane (rad).

    The earth-moving equation with its momentum term: what the head loses is what the sand gains and
    what it rubs off on its plane.
    """
    if head.y >= 0.0 or head.vx <= 0.0:
        return 0.0, 0.0, beta
    drag, pull, beta = cutting_force(
        -head.y, EDGE_WIDTH, head.vx, 1.5707963267948966 - (loft - head.lean), surface.density,
        surface.cohesion, surface.friction_angle, surface.steel_angle, beta,
    )  # fmt: skip
    return -drag, -pull, beta


@law
def _edge_cut(
    head: HeadPose, loft: float, edge_radius: float, beta: float, surface: Any, cut: Floats
) -> tuple[float, float, float, float]:
    """Force x, y (N) of turf cut by edge and face, the failure plane, and the depth cut (m).

    Earth-moving equation at rake 90 degrees - dynamic loft, plus the roots as a line force against
    the motion. A rounded edge slides before it cuts: the cut grows in over one edge radius (blend
    assumed).
    """
    depth = -head.y
    if depth <= 0.0 or head.vx <= 0.0:
        return 0.0, 0.0, beta, 0.0
    share = min(1.0, depth / edge_radius)
    drag, pull, beta = cutting_force(
        depth, EDGE_WIDTH, head.vx, 1.5707963267948966 - (loft - head.lean), surface.density,
        surface.cohesion, surface.friction_angle, surface.steel_angle, beta,
    )  # fmt: skip
    speed = hypot(head.vx, head.vy)
    below = min(max((ROOT_MAT - depth) / ROOT_MAT_FADE, 0.0), 1.0)
    roots = surface.root_line * EDGE_WIDTH * below
    fx = -share * (drag + roots * head.vx / speed)
    fy = -share * (pull + roots * head.vy / speed)
    cell = int((head.x - GROUND_LEFT) / CELL)
    taken = share * depth
    if 0 <= cell < CELLS and taken > cut[cell]:
        cut[cell] = taken
    return fx, fy, beta, taken


@law
def ground_load(
    head: HeadPose,
    loft: float,
    edge_radius: float,
    dt: float,
    soil: Soil,
    surface: Any,
    limit: float,
    beta: float,
) -> Load:
    """Everything the ground does to a head that is in it."""
    fx, fy, moment = _sole_force(head, dt, soil, surface, limit)
    lift = max(fy, 0.0)
    if surface.kind == MAT:
        return Load(fx, fy, moment, 0.0, lift, 0.0, beta)
    if surface.kind == SAND:
        gx, gy, beta = _face_in_sand(head, loft, beta, surface)
        return Load(fx + gx, fy + gy, moment, max(-head.y, 0.0), lift, max(-gy, 0.0), beta)
    gx, gy, beta, taken = _edge_cut(head, loft, edge_radius, beta, surface, soil.cut)
    return Load(fx + gx, fy + gy, moment, taken, lift, max(-gy, 0.0), beta)
