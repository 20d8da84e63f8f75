"""The whole swing as it is meant, over the golfer at address: the hands' way from top to finish, and the
club at both ends. Swing length, release, follow-through and lean change show here before any swing."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import cos, sin

import numpy as np
import pygame

from game.draw.camera import Camera, Rect
from game.draw.palette import Palette
from game.draw.pen import Pen
from game.ui import Theme
from game.ui.supersample import Cached, dashed, sprite
from physics.address import CONTROLS, Motion, Setup
from physics.compiled import as_record
from physics.corridor import bench, stroke_of
from physics.face import open_face
from physics.head import sole_elements
from physics.swing import edge, links, reach

__all__ = ["IntendedSwing", "Way", "idle_words", "swing_path_of"]

Point = tuple[float, float]
SAMPLES = 61
NONE_LOST = 0.5e-3  # m of sinking too little to see


@dataclass(frozen=True)
class Way:
    """Hands from top to finish; grip and head at the top, at the ball and at the finish; hub (m)."""

    hands: tuple[Point, ...]
    top: tuple[Point, Point]
    ball: tuple[Point, Point]
    finish: tuple[Point, Point]
    hub: Point
    heads: tuple[Point, ...] = ()  # the leading edge from top to finish


@lru_cache(32)
def swing_path_of(setup: Setup, motion: Motion) -> Way:
    """The meant way of a setting; well under a millisecond once the laws are compiled."""
    face, elements, club = open_face(setup.club, setup.face_open), bench().elements, setup.club
    sole_elements(face.bounce, club.sole_width, club.camber, club.edge_radius, elements)
    link = links(as_record(club), stroke_of(setup, motion), face.loft, elements)

    def hands(arm: float) -> Point:
        r = reach(link, arm)
        return link.hub_x + r * sin(arm), link.hub_y - link.sine * r * cos(arm)

    def limb(arm: float) -> tuple[Point, Point]:
        x, y, _ = edge(link, arm)
        return hands(arm), (x, y)

    arms = np.linspace(link.arm_top, link.arm_finish, SAMPLES).tolist()
    return Way(
        tuple(hands(a) for a in arms), limb(link.arm_top), limb(link.arm_ball), limb(link.arm_finish),
        (link.hub_x, link.hub_y), tuple(edge(link, a)[:2] for a in arms),
    )  # fmt: skip


def idle_words(name: str, setup: Setup, motion: Motion) -> str:
    """One sentence where moving a control can change nothing here; "" where it does."""
    if name == "drop":
        low, high = CONTROLS[name].low, CONTROLS[name].high
        ends = [swing_path_of(setup, Motion(**{**vars(motion), name: v})).hub[1] for v in (low, high)]
        if abs(ends[0] - ends[1]) < NONE_LOST:
            return "Drop does nothing while the handle comes back where it was: there is no reach to make up."
    return ""


class IntendedSwing:
    """Draws the way of a setting, and that of an older one dashed behind it."""

    def __init__(self) -> None:
        self._sheet = Cached[pygame.Surface]()

    def draw(
        self, surface: pygame.Surface, rect: Rect, theme: Theme, camera: Camera, now: Way,
        old: Way | None = None,
    ) -> None:  # fmt: skip
        """Over a golfer drawn in the rect by the camera."""
        if rect.w < 8 or rect.h < 8:
            return
        unit = max(0.8, min(rect.h / 320, 1.4))
        c = Camera(camera.scale, camera.x0 - rect.x, camera.y0 - rect.y, camera.mirrored)

        def sheet() -> pygame.Surface:
            with sprite(round(rect.w), round(rect.h), theme.palette.paper) as (pen, out):
                if old:
                    _old(pen, c, theme.palette, old, unit)
                _now(pen, c, theme.palette, now, unit)
            return out

        key = (now, old, c, theme.palette, rect.w, rect.h)
        surface.blit(self._sheet.get(key, sheet), (round(rect.x), round(rect.y)))


def _line(c: Camera, points: Sequence[Point]) -> list[Point]:
    return [c.at(*p) for p in points]


def _now(pen: Pen, c: Camera, palette: Palette, way: Way, unit: float) -> None:
    """Hands' way and the club at top and finish, thin on a light rim."""
    for points, wide in ((way.hands, 1.8), (way.top, 1.2), (way.finish, 1.2), (way.ball, 1.2)):
        line = _line(c, points)
        pen.line(line, (wide + 1.8) * unit, palette.halo)
        pen.line(line, wide * unit, palette.intended)
    for at in (way.top[0], way.finish[0], way.ball[0]):
        pen.disc(c.at(*at), 2.6 * unit, palette.intended)


def _old(pen: Pen, c: Camera, palette: Palette, way: Way, unit: float) -> None:
    """The same of the setting before, dashed, with hollow ends."""
    for points in (way.hands, way.top, way.finish, way.ball):
        dashed(pen, _line(c, points), 1.5 * unit, palette.ghost, 8 * unit)
    for at in (way.top[0], way.finish[0]):
        pen.disc(c.at(*at), 3.4 * unit, palette.ghost)
        pen.disc(c.at(*at), 1.8 * unit, palette.paper)
