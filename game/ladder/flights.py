"""The ladder's flights: the course from the side, one flight a ball, the chosen one strongest."""

from collections.abc import Callable
from math import ceil

import numpy as np
import pygame

from game.draw import course as view
from game.draw import fan
from game.draw.camera import Camera, Rect
from game.draw.course import course_unit
from game.draw.type import rail
from game.ladder.parts import LadderRow
from game.ui import Theme, Widget, paint
from game.ui.supersample import ZOOM, Cached, sprite, supersampled
from physics.equipment import BALL
from physics.results import Outcome, Run

__all__ = ["Fan"]

BEHIND, BEYOND = 0.9, 1.2  # m shown behind the ball and past the hole


class Fan(Widget):
    """The course from the side with every ball's flight; the chosen one is strongest."""

    focusable = False

    def __init__(self, row: Callable[[], LadderRow]) -> None:
        super().__init__("Flights")
        self.row = row
        self._still = Cached[pygame.Surface]()
        self._ways: dict[int, Cached[pygame.Surface]] = {}
        self._reach = (0.0, 0.0)

    def camera(self, row: LadderRow, w: float, h: float, earth: float) -> Camera:
        """True scale; holds everything played so far, and never narrows on the same ground."""
        course = row.ladder.course
        hole = course.hole.x if course.hole else 6.0
        runs = [p.shot.run for p in row.played.values()]
        right = max([hole + BEYOND, *(max(r.x) + 0.4 for r in runs)])
        top = max([1.2, *(max(r.y) + 0.3 for r in runs)])
        right, top = max(ceil(right), self._reach[0]), max(ceil(2 * top) / 2, self._reach[1])
        self._reach = (right, top)
        inside = [y for x, y in zip(course.ground.x, course.ground.y, strict=True) if -BEHIND < x < right]
        low = min([0.0, *inside])
        scale = min(w / (right + BEHIND), max(h - earth - 6, 20) / (top - low))
        return Camera(scale, w / 2 - 0.5 * (right - BEHIND) * scale, h - earth + low * scale)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        row, at = self.row(), paint.pixels(self.rect)
        unit, palette, course = course_unit(at.w), theme.palette, row.ladder.course
        line = theme.type.line("small")
        camera = self.camera(row, at.w, at.h, line + 20 * unit)
        key = (course, camera, palette, at.size, unit)

        def still() -> pygame.Surface:
            fine = view.layer(course, camera, palette, *at.size, unit, ZOOM)
            return pygame.transform.smoothscale(fine, at.size)

        with paint.clipped(surface, self.rect):
            surface.blit(self._still.get(key, still), at)
            order = [i for i in sorted(row.played) if i != row.chosen]
            for i in [*order, row.chosen] if row.chosen in row.played else order:
                self._way(surface, at, row, i, camera, theme, unit)
            self._labels(surface, at, row, camera, theme)

    def _way(
        self, surface: pygame.Surface, at: pygame.Rect, row: LadderRow, i: int, camera: Camera, theme: Theme,
        unit: float,
    ) -> None:  # fmt: skip
        """The flight of one ball as far as it has come, and the ball."""
        run, palette = row.played[i].shot.run, theme.palette
        strong, old = i == row.chosen, not row.current(i)

        def way() -> pygame.Surface:
            with sprite(*at.size, fan.colour_of(palette, i, row.count)) as (pen, out):
                fan.flight(pen, camera, palette, run, i, row.count, unit, strong, old)
            return out

        key = (row.played[i].shot, camera, palette, at.size, unit, strong, old, row.count)
        sheet = self._ways.setdefault(i, Cached[pygame.Surface]()).get(key, way)
        time = run.t[0] + row.clock[i] if i in row.clock else run.t[-1]
        x, y = _place(run, time)
        gone = [px for t, px in zip(run.t, run.x, strict=True) if t <= time]
        edge = camera.at(max([*gone, x]), 0)[0] + (12 * unit if i not in row.clock else 0)
        surface.blit(sheet, at, pygame.Rect(0, 0, min(max(ceil(edge), 0), at.w), at.h))
        if i not in row.clock and run.outcome not in (Outcome.REST, Outcome.MISSED, Outcome.STUCK):
            return
        px, py = camera.at(x, y - BALL.radius)
        with supersampled(surface, Rect(at.x + px - 14, at.y + py - 24, 28, 30)) as (pen, left, top):
            moved = Camera(camera.scale, camera.x0 + at.x - left, camera.y0 + at.y - top)
            fan.stop(pen, moved, palette, x, y - BALL.radius, i, row.count, unit)

    def _labels(
        self, surface: pygame.Surface, at: pygame.Rect, row: LadderRow, camera: Camera, theme: Theme
    ) -> None:  # fmt: skip
        """Numbers under the places where the balls ended; the chosen one first, so that it always fits."""
        type_, line = theme.type, theme.type.line("small")
        still = [i for i in row.played if i not in row.clock]
        still.sort(key=lambda i: i != row.chosen)
        items = tuple((f"{i + 1}", camera.at(row.played[i].shot.run.x[-1], 0)[0], "ink") for i in still)
        top = at.h - line - 1
        words = rail(type_, items, Rect(theme.gap, top, at.w - 2 * theme.gap, line), "small")
        for word in words:
            i = int(word.text) - 1
            x, end = camera.at(_end(row, i), view.ground_at(row.ladder.course, _end(row, i)))
            middle, tone = word.box.x + word.box.w / 2, fan.colour_of(theme.palette, i, row.count)
            pygame.draw.aaline(surface, tone, (at.x + x, at.y + end + 3), (at.x + middle, at.y + top))
            plate = Rect(at.x + word.box.x - 4, at.y + top, word.box.w + 8, line)
            paint.box(surface, plate, theme.palette.paper, tone, theme.radius, theme.line)
            paint.text(surface, theme, word.text, "small", at.x + word.box.x, at.y + top)
        if not row.played:
            self._invite(surface, at, row, camera, theme)

    def _invite(
        self, surface: pygame.Surface, at: pygame.Rect, row: LadderRow, camera: Camera, theme: Theme
    ) -> None:  # fmt: skip
        """What to do first, on paper, clear of the flagstick."""
        hole, gap, line = row.ladder.course.hole, theme.gap, theme.type.line("small")
        room = (camera.at(hole.x, 0)[0] if hole else at.w) - 3 * gap
        words = theme.type.wrap("Play a ball and its flight is drawn here.", "small", room)
        wide = max(theme.type.width(w, "small") for w in words)
        plate = Rect(at.x + gap, at.y + gap, wide + gap, len(words) * line)
        paint.box(surface, plate, theme.palette.paper, None, theme.radius)
        paint.lines(surface, theme, words, "small", plate.x + gap / 2, plate.y)


def _end(row: LadderRow, i: int) -> float:
    return row.played[i].shot.run.x[-1]


def _place(run: Run, time: float) -> tuple[float, float]:
    return float(np.interp(time, run.t, run.x)), float(np.interp(time, run.t, run.y))
