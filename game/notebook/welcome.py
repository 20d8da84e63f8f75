"""The page of an empty notebook: what will be here and how to fill it, over a picture of the idea."""

from collections.abc import Sequence
from functools import partial

import pygame

from game.draw.camera import Rect
from game.draw.palette import mix
from game.draw.pen import Pen
from game.text.notebook import EMPTY_HISTORY
from game.ui import Button, Heading, Row, TextBlock, Theme, Widget, layout
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
        self._land = Rect(0, 0, 1, 1)

    @property
    def widgets(self) -> Sequence[Widget]:
        return (self._ways,)

    def place(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        wide = min(box.w, MEASURE * gap)
        left = Rect(box.x, box.y, wide, box.h)
        parts = (self._head, self._words, self._ways)
        heights = [w.height(theme, wide) for w in parts]
        tall = sum(heights) + 2 * gap
        below = max(box.h - tall - 3 * gap, 0.0)
        for w, rect in zip(
            parts, layout.column(Rect(left.x, box.y + gap, wide, tall), heights, gap), strict=True
        ):
            w.place(rect, theme)
        self._land = Rect(box.x, box.bottom - below, box.w, below)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        """Words and picture; the buttons are drawn with the widgets."""
        self._head.draw(surface, theme)
        self._words.draw(surface, theme)
        if self._land.h > 8 * theme.gap:
            with supersampled(surface, self._land) as (pen, left, top):
                at = Rect(self._land.x - left, self._land.y - top, self._land.w, self._land.h)
                _draw_land(pen, theme, at)


def _draw_land(pen: Pen, theme: Theme, box: Rect) -> None:
    """A ball, a flag, and the arcs that are still to be written, in dots."""
    p, unit = theme.palette, theme.scale**0.5
    ground = box.y + 0.78 * box.h
    tall = 0.62 * box.h
    pen.fill([(box.x, ground), (box.right, ground), (box.right, box.bottom), (box.x, box.bottom)], p.green)
    turf = box.x + 0.16 * box.w
    pen.fill([(box.x, ground), (turf, ground), (turf - 8 * unit, box.bottom), (box.x, box.bottom)], p.fairway)
    start, flag = box.x + 0.10 * box.w, box.x + 0.86 * box.w
    faint = mix(p.paper, p.path, 0.6)
    for high, far in ARCS:
        land = box.x + far * box.w
        count = 42
        for i in range(count + 1):
            s = i / count
            at = (start + (land - start) * s, ground - 4 * high * tall * s * (1 - s) - 3 * unit)
            pen.disc(at, 1.3 * unit, faint)
        for i in range(1, 9):
            pen.disc(
                (land + (flag - land) * i / 10, ground - 2 * unit), 1.3 * unit, mix(p.green, p.ink, 0.45)
            )
    pen.line([(flag, ground), (flag, ground - 0.5 * tall)], 2.0 * unit, p.ink)
    top = ground - 0.5 * tall
    pen.fill([(flag, top), (flag + 26 * unit, top + 9 * unit), (flag, top + 18 * unit)], p.flag)
    pen.disc((start, ground - 5 * unit), 6.0 * unit, p.outline)
    pen.disc((start, ground - 5 * unit), 4.8 * unit, p.ball)
