"""The Builder's page: boxes from sizes alone, the round of its parts and problems, and no needless layout."""

import pygame
import pytest
from ui_events import key, motion, press, release

from game.app.frame import App
from game.builder.ui.layout import TightSizes, WideSizes, tight_boxes, wide_boxes
from game.builder.ui.problem_tour import ProblemTour
from game.builder.ui.regions import first_of_next
from game.draw.camera import Rect
from game.library.settings import Settings
from game.ui import Button, Row
from levels.draft import Problem

BOX = Rect(0.0, 40.0, 1280.0, 720.0)
WIDE = WideSizes(tools=50.0, surfaces=0.0, tabs=34.0, line=20.0, actions_width=260.0)
TIGHT = TightSizes(part_choice=40.0, tool_choice=40.0, surfaces=0.0, actions=40.0, line=20.0)


def shown(boxes):
    return [b for b in vars(boxes).values() if b is not None]


def apart(boxes):
    rects = shown(boxes)
    return not any(a.inset(0.6).overlaps(b.inset(0.6)) for i, a in enumerate(rects) for b in rects[i + 1 :])


@pytest.mark.parametrize("surfaces", [0.0, 30.0])
@pytest.mark.parametrize("proof", [False, True])
def test_wide_parts_lie_apart_inside_the_page(surfaces, proof):
    sizes = WideSizes(50.0, surfaces, 34.0, 20.0, 260.0)
    boxes = wide_boxes(BOX, 8.0, sizes, course_only=False, proof=proof)
    assert all(BOX.holds(b, 1.0) for b in shown(boxes))
    assert apart(boxes)
    assert (boxes.surfaces is None) == (surfaces == 0.0)


def test_the_course_has_less_beside_a_proof_and_all_the_rest_alone():
    beside, proof, alone = (
        wide_boxes(BOX, 8.0, WIDE, course_only=only, proof=proof).canvas.h
        for only, proof in ((False, False), (False, True), (True, False))
    )
    assert proof < beside < alone
    assert alone > 0.7 * BOX.h


def test_a_tight_page_shows_the_course_or_the_panel():
    course = tight_boxes(BOX, 8.0, 40.0, TIGHT, course=True)
    panel = tight_boxes(BOX, 8.0, 40.0, TIGHT, course=False)
    assert (course.panel, panel.canvas, panel.sentence) == (None, None, None)
    assert course.canvas is not None
    assert panel.panel is not None
    assert apart(course)
    assert apart(panel)


def test_the_round_of_parts_passes_over_what_cannot_have_the_focus():
    a, b, c = (Button(name, lambda: None) for name in "abc")
    b.enabled = False
    parts = ((Row([a]),), (Row([b]),), (Row([c]),))
    assert first_of_next(parts, a, 1, {}) is c
    assert first_of_next(parts, a, -1, {}) is c
    assert first_of_next(parts, None, 1, {c: a}) is a


def test_problems_come_round_again():
    tour = ProblemTour()
    problems = [Problem(("goal", "shots"), "goal.shots", "too many."), Problem((), "", "no ground.")]
    told = [tour.next(problems)[1] for _ in range(3)]
    assert told[0] == "1 of 2. goal.shots: Too many."
    assert told[1].startswith("2 of 2.")
    assert told[2] == told[0]


@pytest.fixture
def counted(tmp_path, monkeypatch):
    """An app on the Builder, and a list that grows with every layout of the page."""
    app = App.headless((1280, 800), Settings(), "Builder", tmp_path)
    app.frame([], 0.1)
    laid = []
    layout = app.screen.layout
    monkeypatch.setattr(app.screen, "layout", lambda *given: (laid.append(1), layout(*given)))
    return app, laid


def test_a_drag_and_an_undo_lay_nothing_out_anew(counted):
    app, laid = counted
    x, y = app.screen.canvas.grip_of(("hole",)).at
    before = app.screen.editing.draft
    app.frame([motion(x, y), press(x, y)], 0.1)
    for step in range(1, 9):
        app.frame([motion(x + 5 * step, y, True)], 0.1)
    app.frame([release(x + 40, y)], 0.1)
    assert app.screen.editing.draft != before
    app.frame([key(pygame.K_z, pygame.KMOD_LCTRL)], 0.1)
    assert app.screen.editing.draft == before
    assert laid == []


def test_the_page_is_laid_out_anew_when_the_row_of_surfaces_comes_and_goes(counted):
    app, laid = counted
    app.frame([key(pygame.K_b, 0, "b")], 0.1)
    assert laid == []
    app.frame([key(pygame.K_s, 0, "s")], 0.1)
    assert len(laid) == 1
    high = app.screen.canvas.rect.h
    app.frame([key(pygame.K_m, 0, "m")], 0.1)
    assert len(laid) == 2
    assert app.screen.canvas.rect.h > high
