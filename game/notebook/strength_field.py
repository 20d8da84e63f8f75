"""One kind of shot on the strengths map: an arc over its stretch of ground, and a bar for its strokes."""

from math import log2

import pygame

from game.draw.camera import Rect
from game.draw.palette import Colour, Palette
from game.draw.pen import Pen
from game.text.notebook import field_title, strength_words
from game.text.units import UnitSystem
from game.ui import Theme, Widget
from game.ui.supersample import dashed, supersampled
from levels.intervals import Estimate
from levels.strengths import Strength

__all__ = ["StrengthField", "draw_turf_strip"]

RISE = {"low": 0.24, "standard": 0.52, "high": 0.86}  # of the room over the ground, drawn
LANDS = {"low": 0.42, "standard": 0.62, "high": 0.82}  # of the way, drawn: a low shot rolls most of it
LEFT, RIGHT = 1.5, 4.0  # strokes at the ends of the bar
THICKEST = 6.0  # steps of log2 of the tries


class StrengthField(Widget):
    """In focus it tells its numbers; nothing is pressed."""

    def __init__(self, field: Strength, units: UnitSystem) -> None:
        super().__init__(field_title(field), group="map")
        self.field, self.words = field, strength_words(field, units)

    @property
    def caption(self) -> str:
        return f"{self.label}. {self.words}"

    def handle(self, event: pygame.event.Event) -> bool:
        return event.type == pygame.MOUSEBUTTONDOWN

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, gap = self.rect, theme.gap
        with supersampled(surface, r) as (pen, left, top):
            inner = Rect(r.x - left + gap, r.y - top + gap, r.w - 2 * gap, r.h - 2 * gap)
            _arc(pen, theme, Rect(inner.x, inner.y, inner.w, inner.h - 3 * gap), self.field)
            if self.field.strokes and self.field.advice != "too little":
                _bar(pen, theme, inner, self.field.strokes)
        self.draw_focus(surface, theme, r.inset(0.25 * gap))


def draw_turf_strip(surface: pygame.Surface, theme: Theme, row: Rect, turf: Colour) -> None:
    """The stretch of ground under a row of fields, with a trace of earth."""
    gap, p = theme.gap, theme.palette
    y = row.bottom - 4 * gap
    pygame.draw.rect(surface, p.soil, (round(row.x), round(y), round(row.w), round(0.8 * gap)))
    pygame.draw.rect(surface, turf, (round(row.x), round(y), round(row.w), round(0.4 * gap)))


def _colour(palette: Palette, advice: str) -> Colour:
    named = {"seek": palette.path, "careful": palette.landing, "": palette.ink}
    return named.get(advice, palette.muted)


def _arc(pen: Pen, theme: Theme, room: Rect, field: Strength) -> None:
    """From the ball to where it lands, then along the ground; broken while too little is known."""
    p, line = theme.palette, theme.line
    colour, family = _colour(p, field.advice), field.place.family
    high, lands = RISE[family] * (room.h - 2 * theme.gap), LANDS[family]
    steps = [i / 24 for i in range(25)]
    points = [(room.x + t * lands * room.w, room.bottom - 4 * t * (1 - t) * high) for t in steps]
    points.append((room.right, room.bottom))
    wide = line * (1.0 + 0.6 * min(log2(max(field.tries, 1)), THICKEST))
    if field.advice == "too little":
        dashed(pen, points, wide, colour, 1.2 * theme.gap)
        return
    pen.line(points, wide, colour)
    x, y, r = room.x + 0.5 * lands * room.w, room.bottom - high - 1.1 * theme.gap, 0.55 * theme.gap
    if field.advice == "seek":
        pen.disc((x, y), r, colour)
    elif field.advice == "careful":
        pen.fill([(x, y - r), (x + r, y + 0.8 * r), (x - r, y + 0.8 * r)], colour)


def _bar(pen: Pen, theme: Theme, room: Rect, strokes: Estimate) -> None:
    """The expected strokes with their range: left is fewer."""

    def at(value: float) -> float:
        return room.x + room.w * (min(max(value, LEFT), RIGHT) - LEFT) / (RIGHT - LEFT)

    y, p = room.bottom - 0.6 * theme.gap, theme.palette
    pen.line([(room.x, y), (room.right, y)], theme.line, p.rule)
    pen.line([(at(strokes.low), y), (at(strokes.high), y)], 3 * theme.line, p.ink)
    pen.disc((at(strokes.value), y), 0.5 * theme.gap, p.ink)
