"""The page of an empty notebook: what will be here and how to fill it, over a picture of the idea."""

from collections.abc import Sequence
from functools import partial

import pygame

from game.draw.camera import Rect
from game.draw.palette import Colour, mix
from game.draw.pen import Pen
from game.text.notebook import EMPTY_HISTORY
from game.ui import Button, Column, Heading, Row, TextBlock, Theme, Widget
from game.ui.screen import Host
from game.ui.supersample import supersampled

__all__ = ["Welcome"]

MEASURE = 76.0  # steps of the rhythm the words are wide at most
ARCS = (
    (0.30, 0.52),
    (0.52, 0.66),
    (0.78, 0.72),
)  # height and landing, shares of the land


class Welcome:
    """Words, two ways to begin, and the land still without a mark on it."""

    def __init__(self, app: Host) -> None:
        self._head, self._words = Heading("Nothing written yet"), TextBlock(EMPTY_HISTORY, "body")
        known = (("Play a scenario", "Play", "F3"), ("A stroke on the Bench", "Bench", "F2"))
        self._ways = Row([
            Button(label, partial(app.open, title), kind="plain" if i else "main", hint=key)
            for i, (label, title, key) in enumerate(known) if title in app.titles
        ])  # fmt: skip
        self._column = Column([self._head, self._words, self._ways], 1.0)
        self._land = Rect(0, 0, 1, 1)

    @property
    def widgets(self) -> Sequence[Widget]:
        return (self._column,)

    def place(self, box: Rect, theme: Theme) -> None:
        """Words over the land; where there is little room they scroll and the land goes."""
        gap = theme.gap
        wide = min(box.w, MEASURE * gap)
        tall = self._column.height(theme, wide) + gap
        below = max(box.h - tall, 0.0)
        self._column.place(Rect(box.x, box.y, wide, min(tall, box.h)), theme)
        self._land = Rect(box.x, box.bottom - below, box.w, below)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        """The picture; words and buttons are drawn with the widgets."""
        if self._land.h > 8 * theme.gap:
            with supersampled(surface, self._land) as (pen, left, top):
                at = Rect(self._land.x - left, self._land.y - top, self._land.w, self._land.h)
                _draw_land(pen, theme, at)


def _draw_land(pen: Pen, theme: Theme, box: Rect) -> None:
    """A ball, a flag, and the arcs that are still to be written, in dots."""
    p, unit, gap = theme.palette, theme.scale**0.5, theme.gap
    ground = box.y + 0.86 * box.h
    tall, foot = 0.74 * box.h, ground + 1.2 * gap
    pen.fill([(box.x, box.y), (box.right, box.y), (box.right, ground), (box.x, ground)], _air(theme))
    pen.fill([(box.x, ground), (box.right, ground), (box.right, box.bottom), (box.x, box.bottom)], p.soil)
    pen.fill([(box.x, ground), (box.right, ground), (box.right, foot), (box.x, foot)], p.green)
    start, flag = box.x + 0.10 * box.w, box.x + 0.86 * box.w
    turf = box.x + 0.16 * box.w
    pen.fill([(box.x, ground), (turf, ground), (turf - gap, foot), (box.x, foot)], p.fairway)
    faint = mix(_air(theme), p.path, 0.7)
    for high, far in ARCS:
        land = box.x + far * box.w
        count = max(round((land - start) / (2.2 * gap)), 8)
        for i in range(2, count + 1):
            s = i / count
            at = (start + (land - start) * s, ground - 4 * high * tall * s * (1 - s) - 2 * unit)
            pen.disc(at, 2.1 * unit, faint)
    top = ground - 0.46 * tall
    pen.line([(flag, ground), (flag, top)], 2.0 * unit, p.ink)
    pen.fill([(flag, top), (flag + 26 * unit, top + 9 * unit), (flag, top + 18 * unit)], p.flag)
    pen.disc((start, ground - 5 * unit), 6.0 * unit, p.outline)
    pen.disc((start, ground - 5 * unit), 4.8 * unit, p.ball)


def _air(theme: Theme) -> Colour:
    return mix(theme.palette.paper, theme.palette.sky_high, 0.30)
