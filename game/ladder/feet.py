"""The ladder's balls at the feet, seen from above."""

from collections.abc import Callable
from math import sin

import numpy as np
import pygame

from game.draw import course as view
from game.draw import fan
from game.draw.camera import Rect
from game.draw.pen import Pen
from game.ladder.model import Rung
from game.ladder.parts import LadderRow, step
from game.ui import Theme, Widget, paint
from game.ui.supersample import ZOOM, Cached
from physics.course import Course
from physics.equipment import BALL

__all__ = ["Feet"]

SHOE, TOES = 0.095, 0.030  # m, breadth of a shoe and how much of it shows
APART = 0.038  # m between the two files the balls lie in, so that none hides another


class Feet(Widget):
    """The balls from back to front of the stance, seen from above; the lines are the shafts as they lean.

    A click or the arrow keys choose a ball.
    """

    def __init__(self, row: Callable[[], LadderRow], choose: Callable[[int], None]) -> None:
        super().__init__("Balls", tooltip="Choose a ball: arrows, a click, or its number.", group="balls")
        self.row, self.choose = row, choose
        self._kept = Cached[pygame.Surface]()
        self._theme = Theme()

    @property
    def caption(self) -> str:
        return f"Ball {self.row().chosen + 1}"

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self._theme = theme

    def handle(self, event: pygame.event.Event) -> bool:
        row = self.row()
        if event.type == pygame.MOUSEBUTTONDOWN:
            near = min(range(row.count), key=lambda i: _gap(self.spot(row, i), event.pos))
            if _gap(self.spot(row, near), event.pos) <= max(1.6 * self._radius(row), 24.0):
                self.choose(near)
            return True
        return step(row, event, self.choose, row.mirrored)

    # ---- where things lie

    def _scale(self, row: LadderRow) -> float:
        """px a metre."""
        half = max(row.ladder.setup.stance_width / 2 + SHOE / 2, abs(row.ladder.rungs[0].ball) + BALL.radius)
        deep = TOES + 0.012 + APART + 2 * BALL.radius + 0.008
        tall = self.rect.h - self._theme.type.line("small") - self._theme.gap
        return max(min(self.rect.w / (2 * half + 0.04), tall / deep), 1.0)

    def _radius(self, row: LadderRow) -> float:
        return BALL.radius * self._scale(row)

    def spot(self, row: LadderRow, i: int) -> tuple[float, float]:
        """Middle of ball i (px): two files, so that none hides another."""
        s, side = self._scale(row), -1.0 if row.mirrored else 1.0
        y = TOES + 0.012 + BALL.radius + (APART if i % 2 != row.ladder.middle % 2 else 0.0)
        return self.rect.x + self.rect.w / 2 + side * row.ladder.rungs[i].ball * s, self.rect.y + y * s

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        row, at = self.row(), paint.pixels(self.rect)
        key = (row.ladder, row.chosen, tuple(row.current(i) for i in range(row.count)), row.mirrored,
               theme, at.size)  # fmt: skip
        surface.blit(self._kept.get(key, lambda: self._picture(row, theme, at)), at)
        self.draw_focus(surface, theme, self.rect.inset(2 * theme.ring))

    def _picture(self, row: LadderRow, theme: Theme, at: pygame.Rect) -> pygame.Surface:
        large = pygame.Surface((at.w * ZOOM, at.h * ZOOM), 0, 32)
        large.fill(view.top_colour(theme.palette, _lie(row.ladder.course)))
        pen = Pen(large, ZOOM)
        self._shoes(pen, row, theme, at)
        for i, rung in enumerate(row.ladder.rungs):
            self._shaft(pen, row, i, rung, theme, at)
        for i in range(row.count):
            self._ball(pen, row, i, theme, at)
        out = pygame.transform.smoothscale(large, at.size)
        for i in range(row.count):
            x, y = self.spot(row, i)
            role = "strong" if theme.type.line("strong") < 1.8 * self._radius(row) else "small"
            top = y - at.y - theme.type.line(role) / 2
            paint.text(out, Theme(scale=theme.scale), str(i + 1), role, x - at.x, top, "ink", 0.5)
        self._words(out, row, theme)
        return out

    def _shoes(self, pen: Pen, row: LadderRow, theme: Theme, at: pygame.Rect) -> None:
        s, middle = self._scale(row), at.w / 2
        for side in (-1.0, 1.0):
            x, half = middle + side * row.ladder.setup.stance_width / 2 * s, SHOE / 2 * s
            turn = np.linspace(0.0, np.pi, 17)
            toes = [(x + half * float(np.cos(a)), (TOES - 0.02) * s + 0.02 * s * sin(a)) for a in turn]
            pen.fill([(x + half, -4), *toes, (x - half, -4)], theme.palette.shoe)

    def _shaft(self, pen: Pen, row: LadderRow, i: int, rung: Rung, theme: Theme, at: pygame.Rect) -> None:
        """The shaft from the ball toward the hands, under its lean as seen face-on."""
        x, y = self.spot(row, i)
        x, y, side = x - at.x, y - at.y, -1.0 if row.mirrored else 1.0
        top = (x + side * (y + 4) * np.tan(rung.shaft_lean), -4.0)
        wide = (4.0 if i == row.chosen else 2.0) * theme.scale
        pen.line([(x, y), top], wide + 2.0, theme.palette.halo)
        pen.line([(x, y), top], wide, fan.colour_of(theme.palette, i, row.count))

    def _ball(self, pen: Pen, row: LadderRow, i: int, theme: Theme, at: pygame.Rect) -> None:
        """White ball, rim of its colour; a second rim when it is chosen, its mark once it was played."""
        x, y = self.spot(row, i)
        point, r = (x - at.x, y - at.y), self._radius(row)
        tone = fan.colour_of(theme.palette, i, row.count)
        if i == row.chosen:
            pen.disc(point, r, theme.palette.ink)
            pen.disc(point, r * 0.94, theme.palette.paper)
        pen.disc(point, r * 0.88, tone)
        pen.disc(point, r * 0.76, theme.palette.ball)
        if row.current(i):
            fan.shape(pen, theme.palette, i, row.count, (point[0], point[1] + 0.6 * r), 0.16 * r)

    def _words(self, out: pygame.Surface, row: LadderRow, theme: Theme) -> None:
        """Which end is which, on paper at the foot."""
        line, w = theme.type.line("small"), out.get_width()
        foot = Rect(0, out.get_height() - line, w, line)
        paint.box(out, foot, theme.palette.paper)
        ends = ("back", "to the target \N{RIGHTWARDS ARROW}")
        if row.mirrored:
            ends = ("\N{LEFTWARDS ARROW} to the target", "back")
        for text, x, align in ((ends[0], theme.gap, 0.0), (ends[1], w - theme.gap, 1.0)):
            paint.text(out, theme, text, "small", x, foot.y, "muted", align)


def _gap(a: tuple[float, float], b: tuple[float, float]) -> float:
    return float(np.hypot(a[0] - b[0], a[1] - b[1]))


def _lie(course: Course) -> str:
    return course.lie.surface or view.surface_at(course, 0.0)
