"""Rows of dots under the course: each the first fifty strokes of one set-up, each dot where its ball stops.

The dots share the course's own scale, so that two heaps show as two. Target and middle stand in the row.
"""

from dataclasses import dataclass
from math import ceil

import pygame

from game.draw.camera import Camera, Rect
from game.draw.dots import draw_dot, heaped
from game.draw.palette import mix
from game.draw.pen import Pen
from game.text.spread import kind_words, stops_words
from game.text.units import METRIC, UnitSystem
from game.ui import Theme, paint
from game.ui.supersample import Cached, supersampled
from levels.strokes import SHOWN, ManyStrokes

__all__ = ["DotRow", "DotRows"]

DOT, BETWEEN = 3.4, 1.2  # px of radius at scale 1, and between two dots
LEVELS, FEW, LOW = 5, 3, 300.0  # dots that may stand on each other, and in a picture lower than so many px
EDGE = 3  # columns at the edge for what lies beyond it
MOST = 0.36  # share of the picture's height the rows may take; then the captions go


@dataclass(frozen=True)
class DotRow:
    """One set-up's strokes. None: they are still being played, and the row's place is kept."""

    many: ManyStrokes | None
    hole: float | None = None  # m
    target: float = 0.0  # m about the hole
    letter: str = ""  # of the set-up, where there are two
    units: UnitSystem = METRIC
    numbers: bool = True


class DotRows:
    """Draws rows along the foot of a box; made once, kept as long as nothing changes."""

    def __init__(self) -> None:
        self._kept = Cached[pygame.Surface]()

    def height(self, theme: Theme, rows: tuple[DotRow, ...], tall: float) -> float:
        """Height (px) of the rows in a picture so tall."""
        one = self._caption(theme, rows, tall) + self._room(theme, tall)
        return ceil(len(rows) * one)

    def captions(
        self, theme: Theme, rows: tuple[DotRow, ...], tall: float
    ) -> tuple[tuple[float, float], ...]:
        """Top and bottom (px under the top of the rows) of each caption, which no line may cross."""
        words = self._caption(theme, rows, tall)
        one = words + self._room(theme, tall)
        return tuple((k * one, k * one + words) for k in range(len(rows))) if words else ()

    @staticmethod
    def _size(theme: Theme, tall: float) -> float:
        """How large dots are: they grow less than the words, but in a tall picture as much as these."""
        return float(max(theme.scale**0.5, min(theme.scale, tall / LOW)))

    def _pitch(self, theme: Theme, tall: float) -> float:
        return self._size(theme, tall) * (2 * DOT + BETWEEN)

    def _room(self, theme: Theme, tall: float) -> float:
        return (FEW if tall < LOW * self._size(theme, tall) else LEVELS) * self._pitch(theme, tall)

    def _caption(self, theme: Theme, rows: tuple[DotRow, ...], tall: float) -> float:
        """Height of a caption; 0 where there is no room for one."""
        line = theme.type.line("small")
        return line if len(rows) * (line + self._room(theme, tall)) <= MOST * tall else 0.0

    def draw(
        self, surface: pygame.Surface, theme: Theme, rect: Rect, rows: tuple[DotRow, ...], camera: Camera,
        tall: float,
    ) -> None:  # fmt: skip
        """Draw them in the rect; the camera counts from its left edge, `tall` is the picture's height."""
        if not rows:
            return
        at = paint.pixels(rect)

        def sheet() -> pygame.Surface:
            out = pygame.Surface((max(at.w, 1), max(at.h, 1)), 0, 32)
            out.fill(theme.palette.paper)
            caption, room = self._caption(theme, rows, tall), self._room(theme, tall)
            for k, row in enumerate(rows):
                box = Rect(0.0, k * (caption + room), at.w, caption + room)
                self._row(out, theme, box, row, camera, caption, tall)
            return out

        surface.blit(self._kept.get((rows, camera, theme, at.size, tall), sheet), at)

    def _row(
        self, out: pygame.Surface, theme: Theme, box: Rect, row: DotRow, camera: Camera, caption: float,
        tall: float,
    ) -> None:  # fmt: skip
        palette = theme.palette
        band = Rect(box.x, box.y + caption, box.w, box.h - caption)
        if row.hole is not None:
            left, right = (camera.at(row.hole + side * row.target, 0.0)[0] for side in (-1.0, 1.0))
            paint.box(out, Rect(left, band.y, right - left, band.h), mix(palette.paper, palette.green, 0.35))
        foot = Rect(band.x, band.bottom - theme.line, band.w, theme.line)
        paint.box(out, foot, palette.rule)
        if row.many is None:
            return
        with supersampled(out, band) as (pen, _, top):
            self._dots(pen, theme, band, row.many, camera, band.bottom - top, self._pitch(theme, tall))
        if caption:
            edge = camera.world(band.w - self._pitch(theme, tall), 0.0)[0]
            beyond = sum(stop > edge for stop in row.many.stops[:SHOWN])
            head = Rect(box.x, box.y, box.w, caption)
            self._words(out, theme, head, row, row.many, beyond, 0.5 * self._pitch(theme, tall))

    def _dots(
        self, pen: Pen, theme: Theme, band: Rect, many: ManyStrokes, camera: Camera, foot: float,
        pitch: float,
    ) -> None:  # fmt: skip
        """Dots, those beyond the picture heaped at its edge, and a stroke where half of the balls stop by."""
        r = 0.5 * pitch - 0.5 * BETWEEN
        xs = [camera.at(x, 0.0)[0] for x in many.stops[:SHOWN]]
        for k, x in enumerate(xs):
            if x > band.w - pitch:
                xs[k] = band.w - (1 + k % EDGE) * pitch
            elif x < pitch:
                xs[k] = (1 + k % EDGE) * pitch
        middle = camera.at(many.middle, 0.0)[0]
        if 0.0 < middle < band.w:
            pen.line([(middle, foot), (middle, foot - band.h)], 1.6 * theme.line, theme.palette.ink)
        for kind, (x, up) in zip(many.kinds, heaped(xs, pitch, band.h), strict=False):
            draw_dot(pen, theme.palette, kind, (x, foot - up), r)

    def _words(
        self, out: pygame.Surface, theme: Theme, box: Rect, row: DotRow, many: ManyStrokes, beyond: int,
        r: float,
    ) -> None:  # fmt: skip
        """The legend with its counts, its dots of radius `r`, and as many of the words as fit beside it."""
        type_, gap = theme.type, theme.gap
        x = box.x + gap
        if row.letter:
            paint.text(out, theme, row.letter, "small", x, box.y)
            x += type_.width(row.letter, "small") + 1.5 * gap
        for kind, words in kind_words(many, row.numbers):
            with supersampled(out, Rect(x, box.y, 3 * r, box.h)) as (pen, left, top):
                draw_dot(pen, theme.palette, kind, (x + r - left, box.y + box.h / 2 - top), r - 0.5)
            x += 2 * r + 0.75 * gap
            paint.text(out, theme, words, "small", x, box.y)
            x += type_.width(words, "small") + 1.5 * gap
        if row.hole is None:
            return
        if beyond and row.numbers:
            further = f"{beyond} further \N{RIGHTWARDS ARROW}"
            left = box.right - type_.width(further, "small") - gap
            if x > left:
                return
            paint.text(out, theme, further, "small", left, box.y)
            box = Rect(box.x, box.y, left - box.x, box.h)
        words = stops_words(many, row.target, row.units, row.numbers)
        if x + type_.width(words, "small") + gap <= box.right:
            paint.text(out, theme, words, "small", x + gap, box.y, "muted")
