"""The picture of a lesson: nothing overlaps at any size, angles are drawn, words say what was measured."""

from functools import cache
from itertools import combinations, pairwise
from math import hypot

import numpy as np
import pygame
import pytest

from game.draw.camera import Rect
from game.draw.clubhead import head_shape, turned
from game.draw.lesson import (
    ball_at_impact,
    draw_impact,
    draw_lesson,
    impact_camera,
    lesson_layout,
    pose_at_impact,
)
from game.draw.palette import LIGHT
from game.draw.pen import sheet
from game.draw.slope import on_slope
from game.text.lesson import lesson_told
from levels.lessons import LESSONS, PlayedLesson, lesson
from physics.address import Motion, Setup
from physics.course import level_course
from physics.equipment import BALL
from physics.shot import play
from physics.spread import PLAYERS
from physics.surfaces import SURFACES

SIZES = [(640, 400), (1024, 640), (1280, 800), (1600, 900), (1920, 1080)]


@cache
def made(name: str, lie: str = "fairway", player: str = "club") -> PlayedLesson:
    motion = Motion(depth=SURFACES[lie].usual_depth)
    return lesson(name, level_course(lie, 8.0), Setup(), motion, PLAYERS[player], strokes=40)


@pytest.mark.parametrize("size", SIZES[1:])
@pytest.mark.parametrize("name", LESSONS)
@pytest.mark.parametrize(("lie", "player"), [("fairway", "club"), ("sand", "beginner")])
def test_nothing_overlaps(name: str, lie: str, player: str, size: tuple[int, int]) -> None:
    p = lesson_layout(made(name, lie, player), size)
    for a, b in combinations(p.boxes, 2):
        assert not a.inset(0.6).overlaps(b.inset(0.6)), (a, b)
    page = Rect(0, 0, *size)
    assert all(page.holds(box) for box in p.boxes)
    for window, words in zip(p.windows, p.angles, strict=True):
        assert len(words) == 2
        assert all(window.holds(word.box) for word in words)
        assert not words[0].box.overlaps(words[1].box)


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("size", SIZES[:2])
def test_both_heads_differ_on_the_page(dark: bool, size: tuple[int, int]) -> None:
    one = made("lean")
    page, p = draw_lesson(one, size, dark), lesson_layout(one, size)
    whole = pygame.surfarray.array3d(page).astype(int)
    cuts = [whole[int(b.x) : int(b.x + b.w) - 2, int(b.y) : int(b.y + b.h) - 2] for b in p.windows]
    shape = min(c.shape[0] for c in cuts)
    a, b = (c[:shape] for c in cuts)
    assert (a != b).any(axis=2).mean() > 0.02
    assert np.ptp(a) > 60


def test_the_page_says_what_was_measured() -> None:
    one = made("lean")
    said = " ".join(w.text for w in lesson_layout(one, (1600, 900)).words)
    for case in one.cases:
        assert case.solid is not None
        assert f"{case.solid.of_100} of 100 solid" in said
        assert f"{100 * case.kept:.0f} % of the distance its loft gives" in said
    assert "the sole arrives 5 mm too low" in said
    assert "The leading edge digs" in said
    assert "illustrative" in said
    assert "nan" not in said


def test_sentences_follow_the_numbers() -> None:
    one = made("lean")
    words = " ".join(lesson_told(one))
    assert one.worst
    assert f"costs most on {SURFACES[one.worst.lie].label}" in words
    assert not any(c.isdigit() for c in " ".join(lesson_told(one, numbers=False)))
    from_sand = made("lean", "sand")
    assert not from_sand.forgiven
    assert "cannot stand it" in " ".join(lesson_told(from_sand))


def test_from_sand_the_ball_is_drawn_where_the_club_meets_it_and_both_are_in_the_picture() -> None:
    course = level_course("sand", 8.0)
    shot = play(course, Setup(), Motion(depth=SURFACES["sand"].usual_depth))
    pose = pose_at_impact(shot)
    assert pose is not None
    assert pose.x > 0.015  # sand has carried it on: else this shows nothing
    box = Rect(0, 0, 420, 300)
    camera = on_slope(impact_camera(box, shot), course)
    rest, at = ball_at_impact(camera, shot)
    assert at[0] - rest[0] > 0.5 * BALL.radius * camera.scale
    outline, _ = head_shape(shot.setup.club, shot.setup.face_open)
    shape = [camera.at(*p) for p in turned(outline, pose)]
    assert all(box.x < x < box.right for x, _ in [*shape, at])
    nearest = min(
        hypot(x + s * (u - x) - at[0], y + s * (v - y) - at[1])
        for (x, y), (u, v) in pairwise([*shape, shape[0]])
        for s in np.linspace(0.0, 1.0, 60)
    )
    packed = shot.strike.cushion  # m of sand between face and ball
    assert nearest == pytest.approx((BALL.radius + packed) * camera.scale, rel=0.03)  # they touch
    pen = sheet(420, 300, 2)
    draw_impact(pen, box, shot, LIGHT, 1.0, ())
    drawn = pygame.surfarray.array3d(pen.surface).astype(int)
    x, y = round(2 * at[0]), round(2 * at[1])
    ball = drawn[x + 8 : x + 16, y - 8 : y + 8].reshape(-1, 3)
    assert np.abs(ball - np.array(LIGHT.ball)).mean() < 30.0
