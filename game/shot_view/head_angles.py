"""Loft, bounce and lean on the head: each an arc between two lines from the leading edge, with its label."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, isfinite, pi, sin

import numpy as np
import pygame

from game.draw.camera import Camera
from game.draw.palette import Colour
from game.shot_view.spots import PointName
from game.shot_view.stance import Intent, head_at
from game.text.angle_marks import EDGE_WORDS, bounce_label, lean_label, loft_label
from game.ui import Theme
from physics.face import open_face
from physics.results import Shot

__all__ = ["HeadAngles", "angle_asks", "angles_at", "angles_meant", "draw_angles"]

# Radii as shares of the height that is seen (m), so that closer looks keep the arcs in sight.
LEAN, LOFT, BOUNCE = 0.60, 0.36, 0.34
BEYOND = 1.14  # lines go on past their arc
EDGE_DOT = 3.2  # px a unit
Point = tuple[float, float]


@dataclass(frozen=True)
class HeadAngles:
    """Where the leading edge is (m, on the slope) and the three angles there (rad)."""

    edge: Point
    lean: float
    loft: float
    bounce: float


def angles_meant(intent: Intent) -> HeadAngles:
    """As a setting means them at the ball."""
    return HeadAngles(intent.ball.edge, intent.ball.lean, intent.loft, intent.bounce)


def angles_at(shot: Shot, time: float, gone: bool) -> HeadAngles | None:
    """At a time (s) of the shot; once the head is `gone`, and at the ball itself, the strike's own values.
    None where the ball was missed and the head is gone."""
    strike = shot.strike
    if gone and not isfinite(strike.time):
        return None
    if gone or time == strike.time:
        return HeadAngles(head_at(shot, strike.time)[:2], strike.lean, strike.loft, strike.bounce)
    x, y, lean = head_at(shot, time)
    face = open_face(shot.setup.club, shot.setup.face_open)
    return HeadAngles((x, y), lean, face.loft - lean, face.bounce - lean)


@dataclass(frozen=True)
class _Arc:
    """An angle from `first` to `last` (rad, clockwise from straight up), its radius (m)."""

    first: float
    last: float
    radius: float

    def at(self, edge: Point, angle: float, share: float = 1.0) -> Point:
        r = self.radius * share
        return edge[0] + r * sin(angle), edge[1] + r * cos(angle)


def _arcs(angles: HeadAngles, seen: float) -> tuple[_Arc, _Arc, _Arc]:
    """Lean from upright to the shaft, loft from upright to the face, bounce from level to the sole."""
    back = -0.5 * pi
    return (
        _Arc(0.0, angles.lean, LEAN * seen), _Arc(0.0, -angles.loft, LOFT * seen),
        _Arc(back, back - angles.bounce, BOUNCE * seen),
    )  # fmt: skip


def draw_angles(
    surface: pygame.Surface, camera: Camera, theme: Theme, angles: HeadAngles, seen: float, unit: float
) -> None:  # fmt: skip
    """Lines and arcs; `seen` is the height (m) of what is in sight."""
    palette, edge = theme.palette, angles.edge
    tones: tuple[Colour, ...] = (palette.shirt, palette.path, palette.landing)
    foot = camera.at(*edge)
    for arc, tone in zip(_arcs(angles, seen), tones, strict=True):
        turn = np.linspace(arc.first, arc.last, 17).tolist()
        bow = [camera.at(*arc.at(edge, a)) for a in turn]
        _veil(surface, [foot, *bow], tone)
        zero, side = (camera.at(*arc.at(edge, a, BEYOND)) for a in (arc.first, arc.last))
        _line(surface, _dashes(foot, zero, 5.0 * unit), palette.halo, palette.ink, 1.3 * unit)
        _line(surface, [(foot, side)], palette.halo, palette.ink, 1.6 * unit)
        _line(surface, list(pairwise(bow)), palette.halo, tone, 2.4 * unit)
    for r, colour in ((EDGE_DOT + 1.4, palette.halo), (EDGE_DOT, palette.pressure)):
        pygame.draw.aacircle(surface, colour, foot, r * unit)


def _veil(surface: pygame.Surface, points: list[Point], tone: Colour) -> None:
    """A see-through sector, so that a small angle still has a body."""
    box = pygame.Rect(0, 0, 0, 0)
    box.x, box.y = int(min(p[0] for p in points)), int(min(p[1] for p in points))
    box.w, box.h = int(max(p[0] for p in points)) - box.x + 2, int(max(p[1] for p in points)) - box.y + 2
    if box.w < 2 or box.h < 2:
        return
    layer = pygame.Surface(box.size, pygame.SRCALPHA, 32)
    pygame.draw.polygon(layer, (*tone, 90), [(x - box.x, y - box.y) for x, y in points])
    surface.blit(layer, box)


def _dashes(a: Point, b: Point, step: float) -> list[tuple[Point, Point]]:
    n = max(int(np.hypot(b[0] - a[0], b[1] - a[1]) / step), 2)
    at = np.linspace(0.0, 1.0, n + 1).tolist()
    points = [(a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])) for s in at]
    return list(pairwise(points))[::2]


def _line(
    surface: pygame.Surface, parts: Sequence[tuple[Point, Point]], rim: Colour, tone: Colour, wide: float
) -> None:  # fmt: skip
    for width, colour in ((round(wide) + 3, rim), (max(round(wide), 1), tone)):
        for a, b in parts:
            pygame.draw.aaline(surface, colour, a, b, width)


def angle_asks(camera: Camera, angles: HeadAngles, seen: float, numbers: bool) -> tuple[PointName, ...]:
    """The labels and the points (px) they speak of: on the middle of each arc, and the leading edge."""
    lean, loft, bounce = _arcs(angles, seen)
    ahead = -1 if camera.mirrored else 1  # px toward the target
    side = ahead if angles.lean >= 0.0 else -ahead

    def on(arc: _Arc, share: float = 1.0) -> Point:
        return camera.at(*arc.at(angles.edge, 0.5 * (arc.first + arc.last), share))

    return (
        PointName(lean_label(angles.lean, numbers), on(lean), (side, -side)),
        PointName(loft_label(angles.loft, numbers), on(loft), (-ahead, ahead)),
        PointName(bounce_label(angles.bounce, numbers), on(bounce), (-ahead, ahead)),
        PointName(EDGE_WORDS, camera.at(*angles.edge), (ahead, -ahead), below=True),
    )
