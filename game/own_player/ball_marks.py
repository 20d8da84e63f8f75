"""The balls so far on a strip of ground: where each landed and stopped, and the mark they were meant for."""

from collections.abc import Callable
from math import isnan

import pygame

from game.draw.camera import Rect
from game.draw.course import top_colour
from game.draw.dots import draw_dot, heaped
from game.ui import Theme, Widget, paint
from game.ui.supersample import supersampled
from levels.strokes import StrikeKind
from physics.measured_balls import MeasuredBall

__all__ = ["BallMarks"]

DOT = 4.2  # px of radius at scale 1
LEVELS = 4  # balls that may stand on each other
APRON, FRINGE = 2.0, 1.0  # m of the lie and of fringe before the green, as the fit plays it
KINDS = {"solid": StrikeKind.SOLID, "fat": StrikeKind.FAT, "thin": StrikeKind.THIN, "": StrikeKind.SOLID}


class BallMarks(Widget):
    """`balls` gives the balls, the mark (m) and the lie of now. A ring where each landed, a dot where it
    stopped."""

    focusable = False

    def __init__(self, balls: Callable[[], tuple[tuple[MeasuredBall, ...], float, str]]) -> None:
        super().__init__("Balls on the ground")
        self.balls = balls

    @property
    def caption(self) -> str:
        balls, mark, _ = self.balls()
        short = sum(ball.stop < mark for ball in balls)
        return f"{short} of {len(balls)} stopped short of the mark." if balls else ""

    def _pitch(self, theme: Theme) -> float:
        return float(2 * DOT * theme.scale**0.5 + 1.5)

    def height(self, theme: Theme, width: float) -> float:
        return 2 * theme.type.line("small") + (LEVELS + 1.5) * self._pitch(theme) + 2 * theme.gap

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        balls, mark, lie = self.balls()
        if not balls:
            return
        r, small, pitch = self.rect, theme.type.line("small"), self._pitch(theme)
        pad = 2 * theme.gap
        ends = [0.0, mark, *(b.stop for b in balls), *(b.carry for b in balls if not isnan(b.carry))]
        low, high = min(ends), max(1.1 * mark, max(ends) + 0.5)

        def x(metres: float) -> float:
            return r.x + pad + (metres - low) / (high - low) * (r.w - 2 * pad)

        ground = Rect(r.x, r.bottom - small - theme.gap - theme.gap / 2, r.w, theme.gap)
        edges = (ground.x, x(APRON), x(APRON + FRINGE), ground.right)
        for left, right, name in zip(edges, edges[1:], (lie, "fringe", "green"), strict=False):
            if right > left:
                paint.box(
                    surface, Rect(left, ground.y, right - left, ground.h), top_colour(theme.palette, name)
                )
        paint.box(surface, Rect(x(mark) - theme.line, r.y + small, 2 * theme.line, ground.y - r.y - small),
                  theme.palette.ink)  # fmt: skip
        paint.text(surface, theme, "mark", "small", x(mark), r.y, "ink", 0.5)
        paint.text(surface, theme, "ball", "small", x(0.0), ground.bottom + theme.gap / 2, "muted", 0.5)
        paint.text(
            surface, theme, self.caption, "small", r.right, ground.bottom + theme.gap / 2, "muted", 1.0
        )
        room = Rect(r.x, r.y + small, r.w, ground.y - r.y - small)
        spots = heaped([x(b.stop) for b in balls], pitch, room.h - pitch)
        with supersampled(surface, room) as (pen, left, top):
            for ball, (px, up) in zip(balls, spots, strict=True):
                at = (px - left, ground.y - top - up)
                if not isnan(ball.carry):
                    ring = (x(ball.carry) - left, ground.y - top - 0.5 * pitch)
                    pen.disc(ring, 0.42 * pitch, theme.palette.landing)
                    pen.disc(ring, 0.26 * pitch, theme.palette.paper)
                draw_dot(pen, theme.palette, KINDS[ball.felt], at, 0.5 * pitch - 0.75)
