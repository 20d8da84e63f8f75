"""Scenery as drawn agrees with what the physics meets: crown and trunk, water and its basin, sand."""

from dataclasses import replace

import numpy as np
import pygame
import pytest

from game.draw.bunker import sand_stretches
from game.draw.camera import Camera
from game.draw.palette import DARK, LIGHT
from game.draw.pen import sheet
from game.draw.trees import draw_tree, weeps
from game.draw.water import draw_water, is_wet, water_bed
from levels.files import load_library
from physics.course import Tree, Water, level_course
from physics.scenery.tree import TRUNK, tree

W, H = 900, 500
CAMERA = Camera(50.0, 450.0, 470.0)
WILLOW = load_library("harrow-fen-under-the-willow").course()


def drawn(paint, palette=LIGHT) -> np.ndarray:
    """Which px of an empty sheet the painter touched."""
    pen = sheet(W, H, 2)
    pen.surface.fill((255, 0, 255))
    paint(pen, palette)
    pixels = pygame.surfarray.array3d(pen.surface).astype(int)
    return (np.abs(pixels - (255, 0, 255)).sum(axis=2) > 0)[::2, ::2]


@pytest.mark.parametrize("item", [WILLOW.hazards[0], Tree(0.0, 4.5, 2.0), Tree(1.0, 2.4, 1.0)])
@pytest.mark.parametrize("palette", [LIGHT, DARK])
def test_a_tree_is_drawn_as_large_as_what_the_ball_meets(item: Tree, palette) -> None:
    seen = drawn(lambda pen, p: draw_tree(pen, item, 0.0, CAMERA, p, 1.0), palette)
    trunk, canopy = tree(replace(WILLOW, hazards=(item,)), item, 1)
    leaves = canopy.leaves
    assert leaves
    columns = np.flatnonzero(seen.any(axis=1))
    rows = np.flatnonzero(seen.any(axis=0))
    spare = 6.0  # px
    assert columns.min() == pytest.approx(CAMERA.at(leaves.x - leaves.radius, 0)[0], abs=spare + 4)
    assert columns.max() == pytest.approx(CAMERA.at(leaves.x + leaves.radius, 0)[0], abs=spare + 4)
    assert rows.min() == pytest.approx(CAMERA.at(0, item.trunk + leaves.radius)[1], abs=spare + 8)
    far = [
        (x, y) for x, y in zip(*np.nonzero(seen), strict=True)
        if np.hypot(x - CAMERA.at(item.x, 0)[0], y - CAMERA.at(0, item.trunk)[1])
        > leaves.radius * CAMERA.scale + spare and abs(x - CAMERA.at(item.x, 0)[0]) > 2 * TRUNK * CAMERA.scale
    ]  # fmt: skip
    assert not far  # nothing outside the disc but the trunk
    assert trunk.kind == "trunk"


def test_the_trunk_is_as_wide_as_the_one_that_turns_the_ball() -> None:
    item = Tree(0.0, 4.5, 2.0)
    seen = drawn(lambda pen, p: draw_tree(pen, item, 0.0, CAMERA, p, 1.0))
    row = seen[:, int(CAMERA.at(0, 1.5)[1])]
    assert row.sum() == pytest.approx(2 * TRUNK * CAMERA.scale, abs=2)


def test_the_library_s_willow_weeps() -> None:
    assert weeps(WILLOW.hazards[0])


def test_water_on_level_ground_lies_in_a_basin() -> None:
    water = Water(3.0, 6.0, 0.0)
    course = replace(level_course("fairway", 9.0), hazards=(water,))
    xs, bed = water_bed(course, water)
    assert (xs[0], xs[-1]) == (3.0, 6.0)
    assert bed[0] == bed[-1] == water.level  # the banks meet the ground
    assert water.level - bed.min() > 0.2
    camera = Camera(50.0, 100.0, 300.0)
    seen = drawn(lambda pen, p: draw_water(pen, water, course, camera, p, 1.0, float(H)))
    middle = seen[int(camera.at(4.5, 0)[0])]
    assert middle[300 : 300 + int(0.2 * 50)].all()  # much more than a line
    assert is_wet(course, 4.5)
    assert not is_wet(course, 2.9)


def test_a_basin_is_never_dug_out_of_the_picture() -> None:
    water = Water(3.0, 6.0, 0.0)
    course = replace(level_course("fairway", 9.0), hazards=(water,))
    seen = drawn(lambda pen, p: draw_water(pen, water, course, Camera(50.0, 100.0, 300.0), p, 1.0, 320.0))
    assert np.flatnonzero(seen.any(axis=0)).max() < 320


def test_where_ground_stands_over_the_water_none_is_drawn() -> None:
    water = Water(1.0, 4.0, -0.5)
    course = replace(level_course("fairway", 9.0), hazards=(water,))
    assert not drawn(lambda pen, p: draw_water(pen, water, course, CAMERA, p, 1.0, float(H))).any()


def test_water_in_a_hollow_reaches_its_own_bed() -> None:
    course = load_library("harrow-fen-back-tier").course()
    water = next(h for h in course.hazards if isinstance(h, Water))
    xs, bed = water_bed(course, water)
    ground = np.interp(xs, course.ground.x, course.ground.y)
    assert (bed <= np.minimum(ground, water.level) + 1e-9).all()
    dry = ground > water.level + 0.01
    assert dry.any()
    assert (bed[dry] == water.level).all()


def test_sand_is_found_as_the_course_has_it() -> None:
    course = load_library("harrow-fen-over-the-bunker").course()
    stretches = sand_stretches(course)
    assert len(stretches) == 1
    left, right = stretches[0]
    assert course.ground.surfaces[course.ground.x.index(left)] == "sand"
    assert course.ground.surfaces[course.ground.x.index(right)] == "rough"
