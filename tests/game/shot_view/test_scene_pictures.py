"""What stage and turf window show at a time; nothing ahead of it."""

from dataclasses import replace
from itertools import combinations
from math import radians

import numpy as np
import pygame
import pytest

from game.draw.camera import Rect
from game.draw.course import still
from game.draw.course_marks import course_marks
from game.shot_view import Stage, TurfWindow, intend
from game.shot_view.dot_rows import DotRow, DotRows
from game.shot_view.sight import Sight
from game.shot_view.spray import throw
from game.shot_view.stage import NEAR, Scene, ball_at, leader_parts
from game.text.mark import mark_words
from game.text.units import METRIC, YARDS
from game.ui import Theme
from physics.results import Shot
from physics.shot import play
from tests.game.shot_view.shots import chip, leaning

THEME = Theme()
BOX = Rect(0, 0, 900, 280)


def scene(time: float, **more) -> Scene:
    shot = chip()
    return Scene(shot.course, shot.setup, intend(shot.setup, shot.motion).address, shot, time, **more)


def drawn(stage: Stage, what: Scene) -> np.ndarray:
    surface = pygame.Surface((900, 280), 0, 32)
    stage.draw(surface, BOX, THEME, what)
    return pygame.surfarray.array3d(surface).astype(int)


def blue(picture: np.ndarray, left: float, right: float) -> int:
    """Pixels in the colour of the path between two columns."""
    near = np.abs(picture - np.array(THEME.palette.path)).sum(axis=2) < 60
    return int(near[int(max(left, 0)) : int(right)].sum())


def test_the_path_is_drawn_as_far_as_the_ball_has_come():
    stage, shot = Stage(), chip()
    time = 0.5 * shot.run.t[-1]
    picture = drawn(stage, scene(time))
    x = stage.camera.at(ball_at(shot.run, time)[0], 0)[0]
    assert blue(picture, 0, x) > 100
    assert blue(picture, x + 20, 900) == 0
    assert blue(drawn(stage, scene(shot.run.t[-1])), x + 20, 900) > 20


def test_before_the_strike_there_is_no_path():
    assert blue(drawn(Stage(), scene(-0.2)), 0, 900) == 0


def test_the_view_stays_until_a_ball_leaves_it():
    stage = Stage()
    drawn(stage, scene(0.0))
    first = stage.camera
    drawn(stage, scene(3.0))
    assert stage.camera == first
    far = leaning()
    what = scene(0.0, ghost=far)
    drawn(stage, what)
    right = stage.camera.world(900, 0)[0]
    assert right > max(far.run.x)


def test_the_likely_stops_lie_as_a_band_on_the_ground():
    stage = Stage()
    plain, banded = drawn(stage, scene(0.0)), drawn(stage, scene(0.0, stops=(6.9, 7.0, 7.1, 7.3)))
    columns = np.flatnonzero(np.abs(plain - banded).sum(axis=(1, 2)))
    left, right = stage.camera.at(6.9, 0)[0], stage.camera.at(7.3, 0)[0]
    assert columns.min() > left - 120
    assert columns.max() < right + 120
    assert len(columns) > right - left - 2


def test_a_phrase_lights_a_place_on_the_stage():
    stage, end = Stage(), chip().run.t[-1]
    for place in ("hands", "flight", "landing", "roll", "hole"):
        assert (drawn(stage, scene(end)) != drawn(stage, scene(end, lit=place))).any(), place


def test_places_are_named_in_the_reader_s_unit():
    shot = chip()
    marks = course_marks(shot.course, shot)
    metres, yards = (scene(shot.run.t[-1], marks=marks, units=units) for units in (METRIC, YARDS))
    bare = scene(shot.run.t[-1], marks=marks, numbers=False)
    pictures = [drawn(Stage(), one) for one in (metres, yards, bare)]
    assert all((a != b).any() for a, b in combinations(pictures, 2))
    assert mark_words(course_marks(shot.course, None)[0]) == "hole 8.0 m"


def window(turf: TurfWindow, **more) -> np.ndarray:
    surface = pygame.Surface((500, 240), 0, 32)
    shot = leaning()
    turf.draw(surface, Rect(0, 0, 500, 240), THEME, shot.course, intend(shot.setup, shot.motion), **more)
    return pygame.surfarray.array3d(surface).astype(int)


def test_the_turf_is_cut_only_where_the_edge_has_been():
    turf, shot = TurfWindow(), leaning()
    sole = shot.strike.sole
    k = int(np.searchsorted(sole.edge[0], 0.03))
    early, late = window(turf, shot=shot, time=sole.t[k]), window(turf, shot=shot, time=sole.t[-1])
    intended = window(turf)
    ahead = int(turf.camera.at(0.13, 0)[0])
    rows = slice(int(turf.camera.y0), int(turf.camera.y0) + 12)
    assert (early[ahead:, rows] == intended[ahead:, rows]).all()
    assert (late != early).any()


@pytest.mark.parametrize("lit", ["sole", "edge", "turf", "ball", "face"])
def test_a_phrase_lights_a_place_in_the_turf(lit):
    turf = TurfWindow()
    assert (window(turf) != window(turf, lit=lit)).any()


def test_the_setting_before_stays_as_a_ghost():
    turf, shot = TurfWindow(), leaning()
    old = intend(chip().setup, chip().motion)
    assert (window(turf) != window(turf, old=old)).any()
    assert (window(turf, shot=shot, time=0.0) == window(turf, shot=shot, time=0.0, old=old)).all()


def test_a_note_stands_under_the_labels_and_nothing_lies_on_it():
    plain, noted = Stage(), Stage()
    noted.note = "This view shows height and distance."
    without, with_note = drawn(plain, scene(0.0)), drawn(noted, scene(0.0))
    line = int(THEME.type.line("small"))
    foot = (slice(0, 400), slice(280 - line, 280))
    muted = np.abs(with_note[foot] - np.array(THEME.palette.muted)).sum(axis=2) < 60
    assert muted.sum() > 100
    assert not (np.abs(without[foot] - np.array(THEME.palette.muted)).sum(axis=2) < 60).any()
    assert noted.camera.y0 <= plain.camera.y0 - 0.9 * line


def test_marks_grow_with_the_text_but_less():
    def ball(scale: float) -> int:
        surface = pygame.Surface((900, 280), 0, 32)
        stage = Stage()
        stage.draw(surface, BOX, Theme(scale=scale), scene(0.0))
        x, y = stage.camera.at(0.0, 0.0)
        near = pygame.surfarray.array3d(surface)[int(x) - 14 : int(x) + 14, int(y) - 30 : int(y) + 4]
        return int((near.min(axis=2) > 250).sum())

    assert 1.3 * ball(1.0) < ball(2.0) < 3.9 * ball(1.0)


def test_thrown_turf_is_shown_where_the_view_is_near_enough():
    shot = leaning()
    what = Scene(shot.course, shot.setup, intend(shot.setup, shot.motion).address, shot, shot.run.t[-1])
    for width, near in ((900, False), (2400, True)):
        pictures = []
        for spray in (None, throw(shot)):
            stage, surface = Stage(), pygame.Surface((width, width // 3), 0, 32)
            stage.spray = spray
            stage.draw(surface, Rect(0, 0, width, width // 3), THEME, what)
            pictures.append(pygame.surfarray.array3d(surface))
            assert (stage.camera.scale >= NEAR) == near
        assert (pictures[0] != pictures[1]).any() == near


def a_long_one() -> Shot:
    """A shot that runs far out of the first view."""
    shot = leaning()
    far = max(shot.run.x)
    return (
        shot if far > 12.0 else play(shot.course, shot.setup, replace(shot.motion, swing_length=radians(110)))
    )


def test_before_the_strike_the_view_does_not_tell_how_far_the_ball_will_go():
    short, long = chip(), a_long_one()
    assert max(long.run.x) > max(short.run.x) + 4.0
    cameras = []
    for shot in (short, long):
        stage = Stage()
        what = Scene(shot.course, shot.setup, intend(shot.setup, shot.motion).address, shot, -0.1)
        drawn(stage, replace(what, shot=replace(shot, swing=short.swing)))
        cameras.append(stage.camera)
    assert cameras[0] == cameras[1]


def test_the_view_follows_the_ball_and_keeps_what_was_seen():
    stage, shot = Stage(), a_long_one()
    what = Scene(shot.course, shot.setup, intend(shot.setup, shot.motion).address, shot)
    rights = []
    for time in np.linspace(-0.2, shot.run.t[-1], 40).tolist():
        drawn(stage, replace(what, time=time))
        right = stage.camera.world(900, 0)[0]
        assert ball_at(shot.run, max(time, shot.run.t[0]))[0] < right
        rights.append(right)
    assert rights == sorted(rights)
    assert rights[0] < max(shot.run.x) < rights[-1]
    drawn(stage, replace(what, time=0.0))
    assert stage.camera.world(900, 0)[0] == pytest.approx(rights[-1])


def test_no_step_of_the_view_is_drawn_while_the_shot_runs():
    stage, shot = Stage(), a_long_one()
    what = Scene(shot.course, shot.setup, intend(shot.setup, shot.motion).address, shot, -0.2)
    drawn(stage, what)
    before = still.cache_info().misses
    for time in np.linspace(-0.1, shot.run.t[-1], 20).tolist():
        drawn(stage, replace(what, time=time))
    assert still.cache_info().misses == before


def test_a_step_of_the_sight_depends_on_the_sight_alone():
    sight = Sight(-1.5, 9.5, 2.5)
    assert sight.following(9.2, 0.0) == sight.following(12.0, 0.0)
    assert sight.following(5.0, 1.0) == sight


def test_no_hair_of_a_label_runs_through_the_words_over_the_dots():
    parts = leader_parts((100.0, 50.0), (120.0, 150.0), ((80.0, 95.0), (120.0, 130.0)))
    assert [(round(a[1]), round(b[1])) for a, b in parts] == [(50, 80), (95, 120), (130, 150)]
    assert all(a[0] == pytest.approx(100.0 + 0.2 * (a[1] - 50.0)) for a, _ in parts)
    assert leader_parts((0.0, 60.0), (0.0, 90.0), ()) == [((0.0, 60.0), (0.0, 90.0))]
    assert leader_parts((0.0, 90.0), (0.0, 60.0), ()) == []
    rows, theme = DotRows(), Theme()
    pair = (DotRow(None, 8.0, 2.0, "A"), DotRow(None, 8.0, 2.0, "B"))
    told = rows.captions(theme, pair, 500.0)
    assert len(told) == 2
    assert all(b - a == theme.type.line("small") for a, b in told)
    assert told[1][1] < rows.height(theme, pair, 500.0)
