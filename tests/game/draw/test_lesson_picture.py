"""The picture of a lesson: nothing overlaps at any size, angles are drawn, words say what was measured."""

from functools import cache
from itertools import combinations

import numpy as np
import pygame
import pytest

from game.draw.camera import Rect
from game.draw.lesson import draw_lesson, lesson_layout
from game.text.lesson import lesson_told
from levels.lessons import LESSONS, PlayedLesson, lesson
from physics.address import Motion, Setup
from physics.course import level_course
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
    beginner = " ".join(lesson_told(made("lean", "fairway", "beginner")))
    assert "cannot stand it" in beginner
