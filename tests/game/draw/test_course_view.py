"""What stands still on the course: the flag always inside the picture, grass only where it is seen."""

import numpy as np
import pygame
import pytest

from game.draw import course as view
from game.draw.camera import Camera, Rect
from game.draw.distance import wash
from game.draw.palette import DARK, LIGHT
from game.draw.pen import sheet
from physics.course import Course, Ground, Hole

W, H = 900, 240
COURSE = Course(Ground((-60.0, 2.0, 70.0), (0.0, 0.0, 0.0), ("rough", "green")), hole=Hole(7.0))


def flag(camera: Camera, palette=LIGHT, course=COURSE) -> np.ndarray:
    """Rows (px) of the picture in the colour of the flag."""
    pixels = pygame.surfarray.array3d(view.still(course, camera, palette, W, H, 0.75)).astype(int)
    return np.flatnonzero((np.abs(pixels - np.array(palette.flag)).sum(axis=2) < 24).any(axis=0))


@pytest.mark.parametrize("scale", [60.0, 95.0, 110.0, 160.0])
@pytest.mark.parametrize("palette", [LIGHT, DARK])
def test_the_flag_is_inside_the_picture_at_every_scale(scale, palette):
    rows = flag(Camera(scale, 450.0 - 7.0 * scale, 190.0), palette)
    assert len(rows) >= 0.2 * scale
    assert rows.min() >= 3
    assert rows.max() < 190 - 0.4 * min(2.13 * scale, 186.0)


def test_a_stick_that_fits_keeps_its_height():
    assert flag(Camera(60.0, 120.0, 190.0)).min() == pytest.approx(190 - 2.13 * 60, abs=3)


def test_a_low_picture_has_a_small_flag_over_the_ground():
    rows = flag(Camera(110.0, 120.0, 60.0))
    assert len(rows)
    assert rows.max() < 60 - 0.4 * 55


def test_grass_far_outside_is_not_drawn_and_changes_nothing(monkeypatch):
    drawn = []
    monkeypatch.setattr(view, "_blades", lambda pen, foot, *rest: drawn.append(foot.shape[1]))
    pen, camera = sheet(W, H, 2), Camera(60.0, 120.0, 190.0)
    view.grass(pen, camera, [(-60.0, 0.0), (70.0, 0.0)], 0.05, LIGHT.rough, 1)
    assert W / 2.2 * 0.8 < drawn[0] < W / 2.2 * 1.2  # one blade every 2.2 px of what is seen


def test_blades_stand_on_their_line():
    pen, camera = sheet(W, H, 2), Camera(60.0, 120.0, 190.0)
    view.grass(pen, camera, [(0.0, 0.0), (5.0, 0.5)], 0.2, LIGHT.rough, 1)
    found = pygame.surfarray.array3d(pen.surface).any(axis=2)
    columns = np.flatnonzero(found.any(axis=1)) / 2
    assert columns.min() > 120 - 10
    assert columns.max() < 120 + 300 + 10
    for x in (130, 270, 400):
        rows = np.flatnonzero(found[2 * x - 12 : 2 * x + 12].any(axis=0)) / 2
        ground = 190 - 0.1 * (x - 120)
        assert ground - 0.2 * 60 * 1.15 - 3 < rows.min() < ground - 3
        assert rows.max() < ground + 4


def test_a_wash_goes_from_one_colour_to_the_other_without_bands():
    pen = sheet(64, 120, 2)
    wash(pen, Rect(0, 0, 64, 120), [(0.0, (100, 120, 140)), (1.0, (110, 120, 120))])
    pixels = pygame.surfarray.array3d(pen.surface).astype(float)
    assert pixels[:, 0].mean(axis=0) == pytest.approx((100, 120, 140), abs=1)
    assert pixels[:, -1].mean(axis=0) == pytest.approx((110, 120, 120), abs=1)
    assert len(np.unique(pixels[:, 90:94, 0])) == 2  # a level in between is met by chance, pixel by pixel
    assert (np.abs(np.diff(pixels[:, :, 0].mean(axis=0))) < 0.6).all()


def test_a_view_is_drawn_once():
    camera = Camera(61.0, 120.0, 190.0)
    assert view.still(COURSE, camera, LIGHT, W, H, 0.75) is view.still(COURSE, camera, LIGHT, W, H, 0.75)
