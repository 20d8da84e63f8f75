"""A task at a glance: days along a line with a mark a try, and the prediction gap as a shrinking bracket."""

from math import ceil, floor

import pygame

from game.draw.camera import Rect
from game.draw.pen import Pen
from game.reviewing.reading import TaskTries
from game.text.answered import short_day
from game.text.units import UnitSystem
from game.ui import Theme, paint
from game.ui.supersample import supersampled

__all__ = ["draw_gap", "draw_tries", "mark_pitch"]

PITCH, LEAST = 1.6, 0.4  # steps of the rhythm from mark to mark, at most and at least


def mark_pitch(most: int, wide: float, tall: float, gap: float) -> tuple[float, int]:
    """Distance (px) of marks, and how many stand on each other, so that `most` fit into a day's box."""
    pitch = PITCH * gap
    while pitch > LEAST * gap:
        rows = max(floor(tall / pitch), 1)
        if ceil(most / rows) * pitch <= wide:
            return pitch, rows
        pitch *= 0.9
    return pitch, max(floor(tall / pitch), 1)


def draw_tries(surface: pygame.Surface, theme: Theme, box: Rect, tries: TaskTries) -> None:
    """Marks heaped over their day, oldest first, filled when every goal was met; days named below."""
    if not tries.days:
        return
    foot = theme.type.line("small")
    high, slot = box.h - foot, box.w / len(tries.days)
    most = max((len(met) for met in tries.met), default=1)
    pitch, rows = mark_pitch(max(most, 1), 0.92 * slot, high - 0.5 * theme.gap, theme.gap)
    with supersampled(surface, box) as (pen, left, top):
        x0, ground = box.x - left, box.y - top + high
        pen.line([(x0, ground), (x0 + box.w, ground)], theme.line, theme.palette.rule)
        for i, met in enumerate(tries.met):
            x = x0 + i * slot
            pen.line([(x, ground), (x, ground + 0.4 * theme.gap)], theme.line, theme.palette.rule)
            shown = met[-rows * max(floor(0.92 * slot / pitch), 1) :]  # of very many the last ones
            for k, good in enumerate(shown):
                at = (x + 0.04 * slot + (k // rows + 0.5) * pitch, ground - (k % rows + 0.5) * pitch - 1)
                _mark(pen, theme, at, 0.36 * pitch, good)
    end = -1e9
    for i, day in enumerate(tries.days):
        x, words = box.x + i * slot, short_day(day)
        if x >= end and x + theme.type.width(words, "small") <= box.right:
            paint.text(surface, theme, words, "small", x, box.bottom - foot, "muted")
            end = x + theme.type.width(words, "small") + theme.gap


def _mark(pen: Pen, theme: Theme, at: tuple[float, float], r: float, good: bool) -> None:
    pen.disc(at, r, theme.palette.path if good else theme.palette.ghost)
    if not good:
        pen.disc(at, max(r - 1.4 * theme.line, 0.45 * r), theme.palette.paper)


def draw_gap(
    surface: pygame.Surface, theme: Theme, box: Rect, gaps: tuple[float, float], widest: float,
    units: UnitSystem,
) -> None:  # fmt: skip
    """Two brackets on one scale: the mean gap (m) of the first predictions over that of the last."""
    line = theme.type.line("small")
    words = tuple(f"{name} {units.near(gap)}" for name, gap in zip(("first", "last"), gaps, strict=True))
    room = max(theme.type.width(w, "small") for w in words) + theme.gap
    scale = (box.w - room) / max(widest, 1e-9)
    with supersampled(surface, box) as (pen, left, top):
        for i, gap in enumerate(gaps):
            x, y = box.x - left, box.y - top + (i + 0.5) * line
            far, arm = x + max(gap * scale, theme.line), 0.4 * theme.gap
            colour = theme.palette.path if i else theme.palette.ghost
            pen.line([(x, y - arm), (x, y + arm)], 1.6 * theme.line, colour)
            pen.line([(far, y - arm), (far, y + arm)], 1.6 * theme.line, colour)
            pen.line([(x, y), (far, y)], 1.6 * theme.line, colour)
    for i, (word, gap) in enumerate(zip(words, gaps, strict=True)):
        x = box.x + max(gap * scale, theme.line) + theme.gap
        paint.text(surface, theme, word, "small", x, box.y + i * line, "muted")
