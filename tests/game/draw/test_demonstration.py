"""The coach's picture: one mistake, forgiven with bounce and punished without, told by its numbers."""

from dataclasses import replace
from itertools import combinations
from math import degrees

import numpy as np
import pygame
import pytest

from game.commands.lean_cases import LOWS, cases, forgiven
from game.draw.camera import Rect
from game.draw.demonstration import Case, demonstration_layout, draw_demonstration
from physics.address import Motion, Setup
from physics.course import level_course
from physics.equipment import BAG
from physics.results import Contact, TurfAction
from physics.shot import play

COURSE = level_course("fairway", 8.0)


@pytest.fixture(scope="module")
def made() -> tuple[Case, ...]:
    return cases(COURSE, Setup(), Motion())


def test_every_sole_arrives_equally_low(made: tuple[Case, ...]) -> None:
    assert [round(degrees(c.extra)) for c in made] == [0, 3, 6, 9]
    low = forgiven(COURSE, Setup(), Motion())
    assert all(abs(c.low - low) < 3e-4 for c in made)


def test_the_mistake_is_the_largest_that_the_chip_as_set_forgives() -> None:
    chip, low = Motion(), forgiven(COURSE, Setup(), Motion())
    assert low in LOWS
    assert play(COURSE, Setup(), replace(chip, depth=chip.depth + low)).strike.solid
    worse = [x for x in LOWS if x > low]
    assert not any(play(COURSE, Setup(), replace(chip, depth=chip.depth + x)).strike.solid for x in worse)


def test_without_bounce_a_smaller_mistake_is_shown() -> None:
    """A high-lofted wedge without bounce on soft turf forgives none of them: the least is drawn."""
    course, setup = level_course("soft", 8.0), Setup(club=BAG["LW-low"])
    assert forgiven(course, setup, Motion()) == min(LOWS)
    assert forgiven(level_course("fairway", 8.0), Setup(club=BAG["GW"]), Motion()) < max(LOWS)


def test_as_set_it_is_solid_and_with_nine_degrees_more_the_edge_digs(made: tuple[Case, ...]) -> None:
    first, last = made[0].shot.strike, made[-1].shot.strike
    assert (first.contact, first.turf) == (Contact.SOLID, TurfAction.SKID)
    assert (last.contact, last.turf) == (Contact.FAT, TurfAction.DIG)
    kept = [c.kept for c in made]
    assert kept == sorted(kept, reverse=True)


def test_the_more_lean_the_less_bounce_and_the_more_the_turf_takes(made: tuple[Case, ...]) -> None:
    lost, solid = [c.lost for c in made], [c.solid for c in made]
    bounce = [c.shot.strike.bounce for c in made]
    assert lost == sorted(lost)
    assert lost[-1] > 1.5 * lost[0]
    assert bounce == sorted(bounce, reverse=True)
    assert solid == sorted(solid, reverse=True)
    assert solid[0] > 2 * solid[-1]


def test_the_caption_says_what_was_measured(made: tuple[Case, ...]) -> None:
    said = " ".join(w.text for w in demonstration_layout(made, (1600, 760)).words)
    for case in (made[0], made[-1]):
        assert f"{100 * case.lost:.0f} % of the speed" in said
        assert f"{100 * case.kept:.0f} % of its distance" in said
        assert f"{100 * case.solid:.0f} % solid" in said
    assert f"{made[0].low * 1e3:.0f} mm too low in every window" in said
    assert "the leading edge digs" in said
    assert "illustrative" in said


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800), (1600, 760), (1920, 1080)])
def test_nothing_overlaps(made: tuple[Case, ...], size: tuple[int, int]) -> None:
    p = demonstration_layout(made, size)
    boxes = [*(w.box for w in p.words), *p.windows, *p.bars]
    for a, b in combinations(boxes, 2):
        assert not a.inset(0.6).overlaps(b.inset(0.6))
    page = Rect(0, 0, *size)
    assert all(page.holds(box) for box in boxes)
    for window, labels in zip(p.windows, p.labels, strict=True):
        assert all(window.holds(word.box) for word in labels)


@pytest.mark.parametrize("dark", [False, True])
def test_four_windows_differ_on_the_page(dark: bool) -> None:
    page = draw_demonstration(cases(COURSE, Setup(), Motion(), count=40), (1024, 640), dark)
    p = demonstration_layout(cases(COURSE, Setup(), Motion(), count=20), (1024, 640))
    views = [pygame.surfarray.array3d(page)[int(b.x) : int(b.x) + 150, int(b.y) : int(b.y) + 150]
             for b in p.windows]  # fmt: skip
    for a, b in combinations(views, 2):
        assert (a != b).any(axis=2).mean() > 0.01
    assert np.ptp(views[0]) > 60


def test_a_stroke_that_never_reaches_the_ball_is_told_too() -> None:
    deep = replace(Motion(), depth=0.02, swing_length=0.2)
    made = cases(COURSE, Setup(), deep, leans=(0.0, 15.0), low=0.05, count=20)
    said = " ".join(w.text for w in demonstration_layout(made, (1600, 760)).words)
    assert made[-1].lost == 1.0
    assert "nan" not in said
