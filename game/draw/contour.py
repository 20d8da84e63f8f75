"""A chance over two controls as a soft field with contour lines: one hue, darker where more comes off."""

from collections.abc import Sequence

import numpy as np
import pygame
from numpy.typing import NDArray

from game.draw.camera import Rect
from game.draw.palette import Colour, Palette, mix

__all__ = ["CONTOUR_LEVELS", "field_colour", "paint_field", "smoothed"]

Floats = NDArray[np.float64]
CONTOUR_LEVELS = (0.25, 0.5, 0.75)  # contour lines; the middle one is strong
DEEP = 0.62  # share of the hue where everything comes off
FINE = 2  # lines are worked out this many times finer, then shrunk


def smoothed(cells: Sequence[Sequence[float]], passes: int = 1) -> Floats:
    """Cells with the chance of few strokes evened out: weights 1, 2, 1 each way; edges keep their own."""
    field = np.array(cells, dtype=np.float64)
    for _ in range(passes):
        for axis in (0, 1):
            pad = np.pad(field, [(1, 1) if k == axis else (0, 0) for k in (0, 1)], mode="edge")
            n = field.shape[axis]
            left, middle, right = (np.take(pad, range(k, k + n), axis=axis) for k in range(3))
            field = 0.25 * left + 0.5 * middle + 0.25 * right
    return field


def _weights(many: int, cells: int) -> Floats:
    """Catmull-Rom weights of `cells` values at `many` even places, first to last, shape (many, cells)."""
    at = np.linspace(0.0, cells - 1.0, many)
    base = np.minimum(at.astype(int), cells - 2)
    t = at - base
    parts = (
        -0.5 * t + t**2 - 0.5 * t**3, 1.0 - 2.5 * t**2 + 1.5 * t**3,
        0.5 * t + 2.0 * t**2 - 1.5 * t**3, -0.5 * t**2 + 0.5 * t**3,
    )  # fmt: skip
    out = np.zeros((many, cells))
    for k, part in enumerate(parts, start=-1):
        np.add.at(out, (np.arange(many), np.clip(base + k, 0, cells - 1)), part)
    return out


def field_colour(palette: Palette, share: float) -> Colour:
    """Colour of a chance."""
    return mix(palette.paper, palette.path, DEEP * share)


def paint_field(
    surface: pygame.Surface, box: Rect, cells: Sequence[Sequence[float]], palette: Palette, line: float
) -> None:
    """Fill the box: cells row by row from below upward; `line` is the width (px) of a thin contour."""
    w, h = max(round(box.w), 2) * FINE, max(round(box.h), 2) * FINE
    field = smoothed(cells)
    rows, columns = field.shape
    fine = _weights(w, columns) @ field.T @ _weights(h, rows)[::-1].T  # (w, h), y down
    fine = np.clip(fine, 0.0, 1.0)
    ends = [np.array(field_colour(palette, s), dtype=np.float64) for s in (0.0, 1.0)]
    colour = ends[0] + fine[:, :, None] * (ends[1] - ends[0])
    slope = np.hypot(*np.gradient(fine)) + 1e-6
    for level in CONTOUR_LEVELS:
        wide = line * FINE * (1.7 if level == 0.5 else 0.8)
        there = np.clip(0.5 * wide - np.abs(fine - level) / slope + 0.5, 0.0, 1.0) * (slope > 2e-4)
        there *= 0.9 if level == 0.5 else 0.45
        colour += there[:, :, None] * (np.array(palette.ink) - colour)
    sheet = pygame.Surface((w, h), 0, 32)
    pygame.surfarray.blit_array(sheet, np.rint(colour).astype(np.uint8))
    surface.blit(pygame.transform.smoothscale(sheet, (w // FINE, h // FINE)), (round(box.x), round(box.y)))
