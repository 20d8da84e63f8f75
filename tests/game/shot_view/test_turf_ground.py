"""The ground of the turf window: looking closer never waits for it, and what stands in lies where it must."""

from math import radians

import numpy as np
import pygame
import pytest

from game.app.frame import App
from game.bench.screen import Bench
from game.draw.camera import Camera
from game.shot_view import turf_marks
from game.shot_view.turf_ground import rescaled
from game.ui.work import Worker
from tests.ui_events import key, motion, press, release

Z, PLUS = key(pygame.K_z, 0, "z"), key(pygame.K_PLUS, 0, "+")


class Later(Worker):
    """Does its work only when told, as a thread does it beside the frames."""

    def __init__(self):
        super().__init__(threaded=False)
        self.free = False

    def step(self):
        return self.free and super().step()


@pytest.fixture
def large(monkeypatch):
    """A Bench whose turf fills the screen, after a stroke, and what its frames drew of the ground."""
    drawn = []
    real = turf_marks.ground
    app = App.headless((1280, 800), screen=Bench)
    app.worker = worker = Later()
    worker.free = True
    app.screen.set_control("lean_change", radians(8))
    app.frame([Z], 0.016)
    app.screen.play()
    for _ in range(900):
        app.frame([], 0.016)
    assert app.screen.ribbon.at_end
    worker.free = False
    monkeypatch.setattr(turf_marks, "ground", lambda *a: drawn.append(worker.free) or real(*a))
    return app, worker, drawn


def picture(app):
    return pygame.surfarray.array3d(app.surface).astype(int)


def test_looking_closer_and_moving_draw_no_ground_in_a_frame_and_the_sharp_one_comes(large):
    app, worker, drawn = large
    start = picture(app)
    app.frame([PLUS], 0.016)
    rough = picture(app)
    assert np.abs(rough - start).mean() > 2.0  # it is closer at once
    app.frame([press(600, 400)], 0.016)
    for x in range(590, 540, -10):
        app.frame([motion(x, 400)], 0.016)
    app.frame([release(540, 400)], 0.016)
    assert drawn == []
    moved = picture(app)
    worker.free = True
    app.frame([], 0.016)
    app.frame([], 0.016)
    assert drawn
    assert all(drawn)
    sharp = picture(app)
    assert 0.0 < np.abs(sharp - moved).mean() < 14.0  # the same place, but drawn anew


def test_a_new_stroke_has_its_cut_drawn_before_the_club_comes_and_not_in_a_frame(large):
    app, worker, drawn = large
    app.screen.set_control("lean_change", radians(5))
    app.frame([], 0.016)
    assert drawn == []
    worker.free = True
    app.screen.play()
    app.frame([], 0.016)
    turf = app.screen.pictures.turfs[0]
    app.frame([], 0.016)
    assert app.screen.ribbon.time < -0.5
    assert turf._cut_by is app.screen.state.shot is turf._cut.drawn.key[0]
    assert all(drawn)


def test_what_stands_in_shows_every_place_where_the_new_camera_has_it():
    was, now = Camera(100.0, 200.0, 100.0), Camera(180.0, 150.0, 130.0)
    board = pygame.Surface((400, 200), 0, 32)
    board.fill((10, 20, 30))
    x, y = was.at(0.5, 0.3)
    pygame.draw.circle(board, (250, 0, 0), (x, y), 6)
    for camera in (now, Camera(60.0, 200.0, 100.0), Camera(100.0, 460.0, 100.0)):
        out = rescaled(board, was, camera, (400, 200))
        px, py = camera.at(0.5, 0.3)
        if 0 < px < 400:
            assert out.get_at((round(px), round(py)))[:3] == (250, 0, 0)
        assert out.get_at((1, 1))[:3] == (10, 20, 30)  # beyond its sides its edges go on
        assert out.get_at((398, 198))[:3] == (10, 20, 30)
