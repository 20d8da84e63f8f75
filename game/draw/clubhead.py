"""The club head from the side: its outline at a pose, hosel and shaft, and what the turf pushes with."""

from dataclasses import dataclass
from functools import lru_cache
from math import cos, pi, sin

import numpy as np

from game.draw.camera import Camera
from game.draw.palette import Colour, Palette
from game.draw.pen import Pen, shade
from physics.equipment import Club
from physics.face import open_face
from physics.head import EDGE_UNDERSIDE, ELEMENTS, FACE_LENGTH, edge_centre, sole_elements
from physics.results import Shot

__all__ = [
    "HOSEL", "SHAFT", "Pose", "draw_club", "head_shape", "pressure", "rimmed_arrow", "shaft", "turned",
]  # fmt: skip

Point = tuple[float, float]
HOSEL: list[Point] = [(-0.006, 0.010), (-0.001, 0.068)]  # m, head frame, assumed
SHAFT: list[Point] = [(-0.001, 0.060), (0.0, 0.45)]
EDGE_POINTS = 9  # of the arc as drawn
TOP_LINE = (0.0490, 0.0052)  # m up the face and thickness of the blade there, assumed


@dataclass(frozen=True)
class Pose:
    """The head at one moment of the strike; `step` is its row in the sole trace."""

    name: str
    step: int
    x: float
    y: float
    lean: float


def turned(points: list[Point], pose: Pose) -> list[Point]:
    """Points (m) of the head's own frame where the pose has them."""
    c, s = cos(pose.lean), sin(pose.lean)
    return [(pose.x + x * c + y * s, pose.y - x * s + y * c) for x, y in points]


@lru_cache(16)
def head_shape(club: Club, opened: float) -> tuple[list[Point], np.ndarray]:
    """Outline of the head in its own frame (m, leading edge at the origin), and its sole strips.

    From the foot of the face round the edge to sole, trail and back, up to the crown: what the laws hit
    the ball with is the arc and the line from the last point to the first. Kept for the last clubs: do not
    change what it gives.
    """
    face = open_face(club, opened)
    strips = np.zeros((ELEMENTS, 5))
    sole_elements(face.bounce, club.sole_width, club.camber, club.edge_radius, strips)
    sole = [(float(x), float(y)) for x, y in strips[:, :2]]
    edge = _edge_arc(club.edge_radius, face.loft)
    c, s, (fx, fy) = cos(face.loft), sin(face.loft), edge[0]
    crown = (fx - FACE_LENGTH * s, fy + FACE_LENGTH * c)
    trail = (sole[-1][0] - 0.0010, sole[-1][1] + 0.0012)
    x, y = trail[0] - fx, trail[1] - fy
    up, thick = y * c - x * s, -x * c - y * s  # along and behind the face, from its foot
    back = []
    for part in (0.12, 0.25, 0.4, 0.6, 0.8, 1.0):  # the back hollows from the sole to the top line
        u = up + (TOP_LINE[0] - up) * part
        t = TOP_LINE[1] + (thick - TOP_LINE[1]) * (1.0 - part) ** 2.2
        back.append((fx - u * s - t * c, fy + u * c - t * s))
    return [*edge, *sole, trail, *back, crown], strips


def _edge_arc(radius: float, loft: float) -> list[Point]:
    """The rounded edge from where the face leaves it, on a tangent, to where the sole's strips begin."""
    cx, cy = edge_centre(radius, 0.0)
    steep = np.linspace(0.5 * pi + loft, EDGE_UNDERSIDE, EDGE_POINTS).tolist()
    return [(cx + radius * sin(a), cy - radius * cos(a)) for a in steep]


def draw_club(
    pen: Pen, camera: Camera, palette: Palette, shot: Shot, pose: Pose, solid: bool, unit: float
) -> None:
    """The head at a pose, and hollow with a hair of shaft where it is not `solid`."""
    outline, _ = head_shape(shot.setup.club, shot.setup.face_open)
    shape = [camera.at(*p) for p in turned(outline, pose)]
    if solid:
        pen.fill(shape, palette.steel)
        pen.fill([shape[0], *shape[-3:]], palette.steel_lit)
        pen.line([*shape, shape[0]], 1.9 * unit, palette.steel_edge)
        return
    pen.line([camera.at(*p) for p in turned([HOSEL[0], SHAFT[1]], pose)], 1.2 * unit, palette.ghost, 90)
    pen.fill(shape, palette.steel, 80)
    pen.line([*shape, shape[0]], 1.4 * unit, palette.steel_edge, 150)


def shaft(pen: Pen, camera: Camera, palette: Palette, pose: Pose, unit: float) -> None:
    """Shaft and hosel; they stand at the heel, behind ball and blade."""
    s, rim = camera.scale, 3.0 * unit
    for line, thick, tone in (
        (SHAFT, 0.0094, shade(palette.steel_lit, -0.06)),
        (HOSEL, 0.0130, palette.steel),
    ):
        points = [camera.at(*p) for p in turned(line, pose)]
        pen.line(points, thick * s, palette.steel_edge)
        pen.line(points, thick * s - rim, tone)


def pressure(pen: Pen, camera: Camera, palette: Palette, shot: Shot, pose: Pose, unit: float) -> None:
    """What the turf pushes with: short arrows onto the sole, longest where it is greatest."""
    rows = shot.strike.sole.pressure
    most = max((max(row, default=0.0) for row in rows), default=0.0)
    row = rows[pose.step] if pose.step < len(rows) else ()
    _, strips = head_shape(shot.setup.club, shot.setup.face_open)
    if most <= 0.0 or len(row) != len(strips):
        return
    for k in range(1, len(row), 3):
        share = row[k] / most
        if share < 0.08:
            continue
        x, y, nx, ny = (float(v) for v in strips[k, :4])
        long = 0.005 + 0.013 * share
        tip, tail = turned([(x + 0.001 * nx, y + 0.001 * ny), (x + long * nx, y + long * ny)], pose)
        rimmed_arrow(pen, camera.at(*tail), camera.at(*tip), 2.0 * unit, palette.pressure, palette.halo)


def rimmed_arrow(pen: Pen, tail: Point, tip: Point, width: float, colour: Colour, rim: Colour) -> None:
    """An arrow (px) on a light rim, to be seen on any ground."""
    off = 0.5 * width
    for x, y in ((-off, -off), (-off, off), (off, -off), (off, off)):
        pen.arrow((tail[0] + x, tail[1] + y), (tip[0] + x, tip[1] + y), width, rim)
    pen.arrow(tail, tip, width, colour)
