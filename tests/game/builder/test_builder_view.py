"""Where the Builder looks and what it draws, without a hand in it."""

import numpy as np
import pygame
import pytest

from game.builder.ui.backdrop import REDRAW_AFTER, Backdrop, cropped
from game.builder.ui.eye import FARTHEST, NEAREST, Eye, grid_step, places_of
from game.builder.ui.fields import read_number, value_text
from game.builder.ui.glyphs import glyph
from game.builder.ui.tools import TOOLS
from game.draw.camera import Camera, Rect
from game.draw.course import ground_at, surface_at
from game.draw.palette import DARK, LIGHT
from levels.files import load_library
from physics.constants import YARD

BOX = Rect(0, 0, 1280, 320)


@pytest.mark.parametrize("scale", [4.0, 11.0, 36.6, 90.0, 260.0])
@pytest.mark.parametrize("yards", [False, True])
def test_the_grid_goes_with_the_zoom_in_round_steps(scale, yards):
    step = grid_step(scale, yards)
    assert step * scale * 1.001 >= 70.0
    assert step * scale <= 70.0 * 2.51
    shown = step / (YARD if yards else 1.0)
    assert f"{shown:e}"[0] in "125"
    assert float(f"{shown:.{places_of(shown)}f}") == pytest.approx(shown)


def test_zoom_holds_the_pixel_under_the_pointer():
    eye, at = Eye(40.0, 6.0, 1.0), (900.0, 100.0)
    before = eye.camera(BOX).world(*at)
    for notches in (1, 3, -2):
        eye = eye.zoomed(notches, at, BOX)
        assert eye.camera(BOX).world(*at) == pytest.approx(before)


def test_the_eye_never_loses_the_ground():
    lost = Eye(9000.0, 500.0, 90.0).clamped(BOX, -8.0, 26.0, -1.0)
    assert (lost.scale, lost.x) == (NEAREST, 26.0)
    assert lost.camera(BOX).at(0.0, 0.0)[1] <= BOX.h + 41.0
    assert Eye(0.1, 0.0, -50.0).clamped(BOX, -8.0, 26.0, -1.0).scale == FARTHEST


def test_fit_shows_all_of_it():
    eye = Eye.fit(BOX, -8.0, 26.0, -0.9, 6.8, 50.0)
    c = eye.camera(BOX)
    (left, foot), (right, top) = c.at(-8.0, -0.9), c.at(26.0, 6.8)
    assert left >= -0.5
    assert right <= BOX.w + 0.5
    assert 0.0 <= top < foot <= BOX.h - 49.0


def test_a_cropped_course_is_the_same_where_it_is_seen():
    course = load_library("harrow-fen-over-the-bunker").course()
    part = cropped(course, 2.0, 9.0)
    assert len(part.ground.x) < len(course.ground.x)
    for x in np.linspace(2.0, 8.99, 200):
        assert ground_at(part, x) == pytest.approx(ground_at(course, x), abs=1e-9)
        assert surface_at(part, x) == surface_at(course, x)
    assert cropped(course, 200.0, 300.0) is course


def test_the_picture_is_drawn_anew_only_at_rest_and_follows_meanwhile():
    pygame.font.init()
    course = load_library("harrow-fen-plain-chip").course()
    sheet, at, drop = pygame.Surface((400, 200), 0, 32), pygame.Rect(0, 0, 400, 200), Backdrop()
    camera = Camera(20.0, 100.0, 140.0)
    drop.draw(sheet, at, course, camera, LIGHT)
    first = sheet.copy()
    moved = Camera(20.0, 130.0, 140.0)
    drop.draw(sheet, at, course, moved, LIGHT)
    assert sheet.get_at((230, 150)) == first.get_at((200, 150))  # the old picture, pushed along
    drop.update(REDRAW_AFTER / 2)
    drop.draw(sheet, at, course, moved, LIGHT)
    assert sheet.get_at((230, 150)) == first.get_at((200, 150))
    drop.update(REDRAW_AFTER)
    drop.draw(sheet, at, course, moved, LIGHT)
    assert pygame.transform.average_color(sheet)[:3] != (0, 0, 0)
    assert drop._of[1] == moved


def test_a_ball_put_elsewhere_moves_the_numbers_and_not_the_picture():
    course = load_library("harrow-fen-plain-chip").course()
    sheet, at, drop = pygame.Surface((400, 200), 0, 32), pygame.Rect(0, 0, 400, 200), Backdrop()
    drop.draw(sheet, at, course, Camera(20.0, 100.0, 140.0), LIGHT)
    first = sheet.copy()
    drop.draw(sheet, at, course, Camera(20.0, 140.0, 130.0), LIGHT, (-2.0, -0.5))
    assert pygame.image.tobytes(sheet, "RGB") == pygame.image.tobytes(first, "RGB")


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("1,5", 1.5),
        ("\u22123", -3.0),
        (" ", None),
        ("far", "far"),
        ("1.", 1.0),
        ("2 m", "2 m"),
        ("inf", "inf"),
    ],
)
def test_what_is_typed_is_read_or_kept(typed, read):
    assert read_number(typed) == read


def test_a_unit_is_converted_to_the_one_of_the_field():
    assert read_number("8ft", unit="m") == 2.4384
    assert read_number("8 kg", unit="m") == "8 kg"
    assert read_number("8 m", whole=True) == "8 m"


def test_whole_numbers_stay_whole():
    assert read_number("3", whole=True) == 3
    assert isinstance(read_number("3", whole=True), int)
    assert read_number("3.5", whole=True) == "3.5"
    assert [value_text(v) for v in (None, -2.0, 0.125, 7, "x", True)] == [
        "",
        "\u22122",
        "0.125",
        "7",
        "x",
        "True",
    ]


def test_every_tool_has_its_own_key_drawing_and_sentence():
    assert len({t.key for t in TOOLS}) == len(TOOLS)
    assert not {t.key for t in TOOLS} & set("PGV")  # keys of the screen
    drawn = set()
    for t in TOOLS:
        for palette in (LIGHT, DARK):
            picture = glyph(t.name, palette, 1.0)
            assert pygame.mask.from_surface(picture).count() > 30
            drawn.add(pygame.image.tobytes(picture, "RGBA"))
        assert t.usage.endswith(".")
    assert len(drawn) == 2 * len(TOOLS)
