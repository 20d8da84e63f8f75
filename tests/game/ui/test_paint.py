"""Boxes: large ones are put together from strips, and look as if they were drawn whole."""

import numpy as np
import pygame
import pytest

from game.draw.camera import Rect
from game.ui import paint


@pytest.mark.parametrize(("radius", "line"), [(0.0, 1.0), (6.0, 2.0), (11.5, 2.6), (3.0, 5.0)])
@pytest.mark.parametrize("filled", [True, False])
def test_a_large_box_looks_as_if_drawn_whole(radius, line, filled):
    colour, size = (180, 60, 20), (300, 170)
    shown, whole = (pygame.Surface((340, 200), 0, 32) for _ in range(2))
    for surface in (shown, whole):
        surface.fill((90, 120, 200))
    rect = Rect(20, 10, *size)
    paint.box(shown, rect, colour if filled else None, None if filled else colour, radius, line)
    width = 0 if filled else max(round(line * paint.FINE), paint.FINE)
    whole.blit(paint._soft(*size, round(radius * paint.FINE), colour, width), (20, 10))
    a, b = (pygame.surfarray.array3d(s).astype(int) for s in (shown, whole))
    assert np.abs(a - b).max() <= 3


def test_a_ring_round_a_whole_window_needs_no_sheet_of_its_size():
    strips = paint._rim(1900, 900, 12, 24, (0, 90, 160), 8)
    assert sum(s.get_width() * s.get_height() for s, _ in strips) < 0.05 * 1900 * 900
