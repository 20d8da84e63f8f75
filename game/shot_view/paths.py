"""Where balls went, on the stage: band of likely stops, ghost, and the path as far as the ball has come."""

from dataclasses import replace
from math import ceil

import numpy as np
import pygame

from game.draw import path
from game.draw.camera import Camera
from game.draw.palette import Palette
from game.shot_view.stance import read, table
from game.ui.supersample import Cached, sprite
from physics.course import Course
from physics.results import Run, Shot

__all__ = ["Ways", "ball_at"]

AHEAD = 0.5  # s before the ball leaves in which its path is drawn, not yet shown
Drawn = tuple[pygame.Surface, tuple[int, int]]  # a piece of the picture, and where its corner lies (px)


def ball_at(run: Run, time: float) -> tuple[float, float]:
    """Centre of the ball (m) at a time (s)."""
    x, y = read(table(run, lambda: (run.t, run.x, run.y)), time)
    return x, y


class Ways:
    """Draws on the part of a surface that a camera looks at; every piece is made once, no larger than it
    must be, and kept. `look` comes first; `unit` is px of a line of weight 1."""

    def __init__(self) -> None:
        self._band, self._way, self._ghost = Cached[Drawn](), Cached[Drawn](), Cached[Drawn]()
        self.camera, self.at = Camera(1.0, 0.0, 0.0), pygame.Rect(0, 0, 1, 1)

    def look(self, at: pygame.Rect, camera: Camera) -> None:
        """Draw in this place (px) from now on; the camera counts from its corner."""
        self.at, self.camera = at, camera

    def likely(
        self, surface: pygame.Surface, course: Course, stops: tuple[float, ...], palette: Palette, unit: float
    ) -> None:  # fmt: skip
        """The band of likely stops (m)."""
        if len(stops) < 2:
            return
        camera, at = self.camera, self.at

        def band() -> Drawn:
            ground = course.ground
            ys = camera.y0 - camera.scale * np.interp(stops, ground.x, ground.y)
            ends = [camera.at(x, 0)[0] for x in (min(stops), max(stops))]
            spare = 3.0 * camera.scale * float(np.std(stops)) + 10.0
            x, y = max(int(min(ends) - spare), 0), int(float(ys.min()) - 24 * unit)
            wide, high = min(ceil(max(ends) + spare), at.w) - x, ceil(float(np.ptp(ys)) + 30 * unit)
            moved = Camera(camera.scale, camera.x0 - x, camera.y0 - y)
            with sprite(wide, high, palette.stops) as (pen, out):
                path.stops(pen, moved, palette, course, stops, unit)
            return out, (x, y)

        self._put(surface, self._band.get((stops, course, camera, palette, unit, at.size), band))

    def ghost(
        self, surface: pygame.Surface, course: Course, shot: Shot, palette: Palette, unit: float
    ) -> None:
        """Another shot, whole."""
        camera, at = self.camera, self.at

        def shade() -> Drawn:
            around = self._around(shot.run, unit)
            with sprite(*around.size, palette.ghost) as (pen, out):
                path.ghost(pen, _moved(camera, around), palette, shot.run, course, unit)
            return out, around.topleft

        self._put(surface, self._ghost.get((shot, course, camera, palette, unit, at.size), shade))

    def gone(self, surface: pygame.Surface, shot: Shot, time: float, palette: Palette, unit: float) -> None:
        """The path of the shot as far as the ball has come at a time (s)."""
        camera, at, run = self.camera, self.at, shot.run
        if time <= run.t[0] - AHEAD:
            return

        def way() -> Drawn:
            around = self._around(run, unit)
            with sprite(*around.size, palette.path) as (pen, out):
                path.path(pen, _moved(camera, around), palette, run, unit)
                path.landing_diamond(pen, _moved(camera, around), palette, run, unit)
            return out, around.topleft

        drawn = self._way.get((shot, camera, palette, unit, at.size), way)
        if time <= run.t[0]:
            return  # drawn on the way down, when there is little else to draw
        left, right = self._columns(run, time, unit)
        self._put(surface, drawn, (int(left), ceil(right)))

    # ---- pieces

    def _put(self, surface: pygame.Surface, drawn: Drawn, span: tuple[int, int] | None = None) -> None:
        """A piece in its place, or only what lies between two columns of it (px of the place)."""
        sheet, (x, y) = drawn
        cut = sheet.get_rect()
        if span:
            cut = pygame.Rect(span[0] - x, 0, max(span[1] - span[0], 0), cut.h).clip(cut)
        surface.blit(sheet, (self.at.x + x + cut.x, self.at.y + y), cut)

    def _columns(self, run: Run, time: float, unit: float) -> tuple[float, float]:
        """Columns (px) between which the ball has been until then."""
        rows = table(run, lambda: (run.t, run.x, run.y))
        been = rows[1, : int(np.searchsorted(rows[0], time, side="right"))]
        now = ball_at(run, time)[0]
        ends = [self.camera.at(x, 0)[0] for x in (min(float(been.min()), now), max(float(been.max()), now))]
        spare = 12 * unit if time >= run.t[-1] else 0.0
        return min(ends) - 12 * unit, max(ends) + spare

    def _around(self, run: Run, unit: float) -> pygame.Rect:
        """The part of the place that the marks of a run may fill."""
        rows = table(run, lambda: (run.t, run.x, run.y))
        low, high = rows[1:].min(axis=1), rows[1:].max(axis=1)
        corners = [self.camera.at(float(x), float(y)) for x, y in (low, high)]
        (left, right), (top, foot) = (sorted(c) for c in zip(*corners, strict=True))
        spare = 26 * unit
        box = pygame.Rect(int(left - spare), int(top - spare), 0, 0)
        box.size = ceil(right + spare) - box.x, ceil(foot + spare) - box.y
        return box.clip(pygame.Rect((0, 0), self.at.size))


def _moved(camera: Camera, box: pygame.Rect) -> Camera:
    """The same view from the corner of a box in it."""
    return replace(camera, x0=camera.x0 - box.x, y0=camera.y0 - box.y)
