"""The turf window, alive: ground before and after are drawn once, the head goes through every frame."""

from itertools import pairwise
from math import degrees, isfinite
from types import SimpleNamespace
from typing import Any, cast

import numpy as np
import pygame

from game.scene.patch import ZOOM, Kept, dashed, patch, rail_of
from game.scene.stage import ball_at, ring
from game.scene.stance import Intent, Stance, Trail, head_at, table
from game.ui import Theme, paint
from game.view import turf
from game.view.camera import Camera, Rect
from game.view.course import ground_at, surface_at
from game.view.palette import Palette
from game.view.pen import Pen, gradient, sheet
from game.view.type import Word
from physics.address import Setup
from physics.course import Course
from physics.equipment import BALL
from physics.results import Shot
from physics.surfaces import SURFACES

__all__ = ["PLACES", "TurfWindow", "lie_height"]

PLACES = ("sole", "edge", "turf", "ball", "face")  # places of phrases that lie in this window
ROWS = 1.6  # lines kept at the foot for labels


def lie_height(course: Course) -> float:
    """Height (m) of the bottom of the ball at rest in its lie."""
    surface = SURFACES[course.lie.surface or surface_at(course, 0.0)]
    return ground_at(course, 0.0) + surface.ball_raise + course.lie.lift


def _like(setup: Setup, course: Course, shot: Shot | None = None) -> Shot:
    """What the drawing of ground and head asks a Shot for, where none was played or its club is to be
    left out: set-up, course and ground."""
    divot = shot.strike.divot if shot else ((), ())
    return cast(Shot, SimpleNamespace(setup=setup, course=course, strike=SimpleNamespace(divot=divot)))


class TurfWindow:
    """Draws the strike at a time, or what a setting intends. True scale, about 40 cm of ground."""

    def __init__(self) -> None:
        self._whole, self._cut = Kept[pygame.Surface](), Kept[pygame.Surface]()
        self._sheet = Kept[pygame.Surface]()
        self.camera = Camera(1.0, 0.0, 0.0)

    def draw(
        self, surface: pygame.Surface, rect: Rect, theme: Theme, course: Course, intent: Intent,
        *, shot: Shot | None = None, time: float = 0.0, old: Intent | None = None,
        ghost: Shot | None = None, apart: float = 0.0, lit: str = "",
        numbers: bool = True,
    ) -> None:  # fmt: skip
        """Draw in the rect. `shot` is drawn at `time` when given, else the intended club; `old` is the
        setting before, `ghost` a second shot, `apart` seconds off."""
        at = paint.pixels(rect)
        box, palette = Rect(at.x, at.y, at.w, at.h), theme.palette
        unit = min(max(box.w / 640, 0.6), 1.3)
        rows = ROWS * theme.type.line("small")
        own = Rect(0, 0, box.w, box.h)
        self.camera = turf.camera_for(own, _like(intent.setup, course), rows)
        key = (course, course.lie, at.size, palette, unit, rows)

        def sheet() -> pygame.Surface:
            out = self._earth(shot, time, intent, course, key, at.size, palette, unit)
            self._live(out, palette, course, intent, shot, time, old, ghost, apart, lit, unit)
            self._words(out, theme, intent, shot, time, numbers)
            return out

        now = (intent, shot, time, old, ghost, apart, lit, numbers, theme, *key)
        surface.blit(self._sheet.get(now, sheet), at)

    def _earth(
        self, shot: Shot | None, time: float, intent: Intent, course: Course, key: tuple[Any, ...],
        size: tuple[int, int], palette: Palette, unit: float,
    ) -> pygame.Surface:  # fmt: skip
        """A fresh copy of the ground, cut as far as the edge has come."""
        own, camera = Rect(0, 0, *size), self.camera
        before = _like(intent.setup, course)
        out = self._whole.get(key, lambda: _still(own, before, camera, palette, unit)).copy()
        if shot and shot.strike.sole.t:
            reach = round(camera.at(self._front(shot, time), 0)[0])
            if reach > 0:
                after = _like(shot.setup, course, shot)
                cut = self._cut.get((shot, *key), lambda: _still(own, after, camera, palette, unit))
                out.blit(cut, (0, 0), pygame.Rect(0, 0, min(reach, size[0]), size[1]))
        return out

    @staticmethod
    def _front(shot: Shot, time: float) -> float:
        """How far (m) the edge has come."""
        sole = shot.strike.sole
        rows = table(sole, lambda: (sole.t, *sole.edge, sole.lean))
        k = int(np.searchsorted(rows[0], time, side="right"))
        return float(rows[1, :k].max()) if k else -1.0

    @staticmethod
    def _gone(shot: Shot, time: float) -> bool:
        """Whether the head has gone through: then the window keeps where it was."""
        sole = shot.strike.sole
        return bool(sole.t) and (time >= sole.t[-1] or head_at(shot, time)[0] > 0.5 * turf.WIDE)

    def _live(
        self, surface: pygame.Surface, palette: Palette, course: Course, intent: Intent, shot: Shot | None,
        time: float, old: Intent | None, ghost: Shot | None, apart: float, lit: str, unit: float,
    ) -> None:  # fmt: skip
        """Ways of the edge straight on the window; heads and ball finely, only where they are."""
        camera, low = self.camera, ground_at(course, 0.0)
        _way(surface, camera, intent.trail, low, palette.intended)
        poses = [_pose_of(intent.ball, low)]
        ghosts: list[tuple[Setup, turf.Pose]] = []
        if shot is None:
            ghosts += [(old.setup, _pose_of(old.ball, low))] if old else []
        else:
            poses = [turf.Pose("now", _row(shot, time), *head_at(shot, time))]
            self._path(surface, palette, shot, time, unit)
            if self._gone(shot, time):
                poses += turf.poses(shot)
        if ghost:
            ghosts.append((ghost.setup, turf.Pose("ghost", 0, *head_at(ghost, time + apart))))
        x, y = self._ball_at(course, shot, time)
        near = [p.x for p in (*poses, *(g[1] for g in ghosts)) if abs(p.x) < turf.WIDE] + [intent.low_point]
        near += [x] if abs(x) < turf.WIDE else []
        left, right = camera.at(min(near) - 0.075, 0)[0], camera.at(max(near) + 0.085, 0)[0]
        with patch(surface, Rect(left, 0, right - left, surface.get_height())) as (pen, dx, _):
            moved = Camera(camera.scale, camera.x0 - dx, camera.y0)
            _low_point(pen, moved, intent, low, palette, unit)
            self._heads(pen, moved, palette, course, intent, shot, time, poses, ghosts, (x, y), unit)
            self._light(pen, moved, palette, course, poses[0], lit, unit)

    def _path(
        self, surface: pygame.Surface, palette: Palette, shot: Shot, time: float, unit: float
    ) -> None:  # fmt: skip
        """The way of the edge so far, light rim first."""
        sole = shot.strike.sole
        n = int(np.searchsorted(np.asarray(sole.t), time, side="right"))
        line = self.camera.line(sole.edge[0][:n:2], sole.edge[1][:n:2])
        for wide, colour in ((round(4.6 * unit), palette.halo), (max(round(2.4 * unit), 1), palette.path)):
            for a, b in pairwise(line):
                pygame.draw.aaline(surface, colour, a, b, wide)

    def _heads(
        self, pen: Pen, camera: Camera, palette: Palette, course: Course, intent: Intent, shot: Shot | None,
        time: float, poses: list[turf.Pose], ghosts: list[tuple[Setup, turf.Pose]],
        at: tuple[float, float], unit: float,
    ) -> None:  # fmt: skip
        """Ghosts, where the head went through, ball, head, and what the turf pushes with."""
        model = shot or _like(intent.setup, course)
        for setup, pose in ghosts:
            _outline(pen, camera, palette, setup, pose, unit)
        for pose in poses[1:]:
            turf._club(pen, camera, palette, model, pose, False, unit)
        turf._shaft(pen, camera, palette, poses[0], unit)
        if abs(at[0]) < turf.WIDE:
            _ball(pen, camera, palette, at, unit)
        turf._club(pen, camera, palette, model, poses[0], True, unit)
        if shot and shot.strike.sole.t and shot.strike.sole.t[0] <= time <= shot.strike.sole.t[-1]:
            turf._pressure(pen, camera, palette, shot, poses[0], unit)

    @staticmethod
    def _ball_at(course: Course, shot: Shot | None, time: float) -> tuple[float, float]:
        if shot and shot.launch and time > shot.run.t[0]:
            return ball_at(shot.run, time)
        return 0.0, lie_height(course) + BALL.radius

    @staticmethod
    def _light(
        pen: Pen, camera: Camera, palette: Palette, course: Course, pose: turf.Pose, lit: str, unit: float
    ) -> None:  # fmt: skip
        places = {
            "edge": (pose.x, pose.y), "sole": turf._turn([(-0.012, -0.001)], pose)[0],
            "face": turf._turn([(-0.012, 0.018)], pose)[0], "ball": (0.0, lie_height(course) + BALL.radius),
            "turf": (0.06, ground_at(course, 0.0) - 0.006),
        }  # fmt: skip
        if lit in places:
            ring(pen, camera.at(*places[lit]), 22 * unit, palette, unit)

    def _words(
        self, surface: pygame.Surface, theme: Theme, intent: Intent, shot: Shot | None, time: float,
        numbers: bool,
    ) -> None:  # fmt: skip
        """Labels at the foot; before the swing those of the intention."""
        type_, (w, h) = theme.type, surface.get_size()
        struck = shot if shot is not None and self._gone(shot, time) else None
        marks = turf._marks(struck) if struck and numbers else (("low point", intent.low_point),)
        line = type_.line("small")
        items = tuple((text, min(max(self.camera.at(x, 0)[0], 0), w), "ink") for text, x in marks)
        for word in rail_of(type_, items, Rect(theme.gap, h - line - 3, w - 2 * theme.gap, line), "small"):
            _plate(surface, theme, word)
        text = f"meant: loft {_degrees(intent.loft)}, bounce {_degrees(intent.bounce)}"
        if struck:
            text = f"made: {turf.summary(struck)}" if isfinite(struck.strike.time) else ""
        if text and numbers and type_.width(text, "small") < w - 2 * theme.gap:
            _plate(surface, theme, type_.word(text, "small", theme.gap, 3))


def _plate(surface: pygame.Surface, theme: Theme, word: Word) -> None:
    """A word on a plate of paper."""
    paint.box(
        surface, Rect(word.box.x - 4, word.box.y, word.box.w + 8, word.box.h), theme.palette.paper, None,
        theme.radius,
    )  # fmt: skip
    paint.text(surface, theme, word.text, "small", word.box.x, word.box.y)


def _outline(
    pen: Pen, camera: Camera, palette: Palette, setup: Setup, pose: turf.Pose, unit: float
) -> None:  # fmt: skip
    """The head of another setting, hollow and dashed."""
    shape, _ = turf.head_shape(setup.club, setup.face_open)
    line = [camera.at(*p) for p in turf._turn([*shape, shape[0]], pose)]
    dashed(pen, line, 3.2 * unit, palette.halo, 9 * unit)
    dashed(pen, line, 1.6 * unit, palette.ghost, 9 * unit)
    shaft = [camera.at(*p) for p in turf._turn([turf.HOSEL[0], turf.SHAFT[1]], pose)]
    dashed(pen, shaft, 1.6 * unit, palette.ghost, 9 * unit)


def _ball(pen: Pen, camera: Camera, palette: Palette, at: tuple[float, float], unit: float) -> None:
    (x, y), r = camera.at(*at), BALL.radius * camera.scale
    pen.disc((x, y), r, palette.outline)
    pen.disc((x, y), r - 1.8 * unit, palette.ball)
    pen.disc((x + 0.16 * r, y + 0.18 * r), 0.70 * r, palette.steel_lit, 40)


def _degrees(angle: float) -> str:
    return f"{degrees(angle):.0f}\N{DEGREE SIGN}".replace("-", "\N{MINUS SIGN}")


def _pose_of(stance: Stance, low: float) -> turf.Pose:
    return turf.Pose("intended", 0, stance.edge[0], stance.edge[1] + low, stance.lean)


def _row(shot: Shot, time: float) -> int:
    """Sample of the sole trace nearest to the time."""
    t = shot.strike.sole.t
    return int(np.argmin(np.abs(np.asarray(t) - time))) if t else 0


def _way(
    surface: pygame.Surface, camera: Camera, trail: Trail, low: float, colour: tuple[int, int, int]
) -> None:  # fmt: skip
    """Dashed way of the edge, a centimetre on and a centimetre off."""
    line = camera.line(trail[0], tuple(y + low for y in trail[1]))
    for (ax, ay), (bx, by), x in zip(line, line[1:], trail[0], strict=False):
        if int(x * 100.0 + 1000.0) % 2:
            pygame.draw.aaline(surface, colour, (ax, ay), (bx, by), 2)


def _low_point(
    pen: Pen, camera: Camera, intent: Intent, low: float, palette: Palette, unit: float
) -> None:  # fmt: skip
    """A small triangle under the intended low point."""
    x, y = camera.at(intent.low_point, low - 0.024)
    pen.fill([(x, y - 9 * unit), (x - 5 * unit, y), (x + 5 * unit, y)], palette.ink)


def _still(own: Rect, shot: Shot, camera: Camera, palette: Palette, unit: float) -> pygame.Surface:
    """Sky, earth and standing grass."""
    pen = sheet(own.w, own.h, ZOOM)
    gradient(pen, own, [(0.0, palette.sky_high), (0.7, palette.sky_low), (1.0, palette.sky_low)])
    turf._soil(pen, own, shot, camera, palette, unit)
    turf._blades(pen, own, shot, camera, palette, unit)
    return pygame.transform.smoothscale(pen.surface, (round(own.w), round(own.h)))
