"""The club at equal times, the hands with it, and the words about them clear of one another."""

from dataclasses import replace
from math import cos, hypot, isfinite, radians, sin

import numpy as np
import pygame
import pytest

from game.bench.model import GROUNDS
from game.draw.camera import Camera, Rect
from game.draw.slope import Tilted, on_slope
from game.draw.turf import angles_at_ball
from game.shot_view import GolferPanel, TurfWindow, intend, stance_at
from game.shot_view.stance import head_at
from game.shot_view.strobe import as_struck, flashes, hands_at
from game.ui import Theme
from levels.files import load_library
from physics.address import Motion, Setup
from physics.course import level_course
from physics.shot import lie_of, play
from tests.game.shot_view.shots import chip, leaning, over

SIZE = (620, 330)


def deep():
    motion = Motion(depth=0.018, lean_change=radians(6), swing_length=radians(70))
    return play(level_course("soft", 8.0), Setup(shaft_lean=radians(12)), motion)


def window(shot, time=2.0, scale=1.0, size=SIZE, **how):
    """The window drawn, and its picture."""
    out, surface = TurfWindow(), pygame.Surface(size, 0, 32)
    attributes = {k: how.pop(k) for k in ("strobe", "spray", "still") if k in how}
    for name, value in attributes.items():
        setattr(out, name, value)
    intent = intend(shot.setup, shot.motion)
    out.draw(
        surface, Rect(0, 0, *size), Theme.of(False, scale), shot.course, intent, shot=shot, time=time, **how
    )
    return out, pygame.surfarray.array3d(surface).astype(int)


def test_flashes_are_equally_spaced_in_time_with_one_at_the_ball():
    for shot in (chip(), leaning(), deep()):
        row = flashes(shot, 0.25, 0.05)
        gaps = np.diff([f.time for f in row])
        assert gaps == pytest.approx(gaps[0])
        assert min(abs(f.time - shot.strike.time) for f in row) < 1e-9
        assert len(row) >= 4


def test_the_flashes_crowd_where_the_turf_slows_the_club():
    row = flashes(deep(), 0.25, 0.05)
    ball = deep().strike.time
    before = [f.edge[0] for f in row if f.time < ball][:2]
    after = [f.edge[0] for f in row if f.time > ball][:2]
    assert after[1] - after[0] < 0.6 * (before[1] - before[0])


def test_hands_are_a_club_away_from_the_edge_at_every_time_and_move_without_a_jump():
    shot = deep()
    sine = sin(shot.setup.club.lie)
    times = np.linspace(shot.strike.sole.t[0], shot.strike.sole.t[-1], 50)
    hands, edges = (np.array([f(shot, float(t))[:2] for t in times]) for f in (hands_at, head_at))
    long = np.hypot(hands[:, 0] - edges[:, 0], (hands[:, 1] - edges[:, 1]) / sine)
    assert long == pytest.approx(long[0], rel=1e-3)
    every = np.linspace(-0.06, 0.12, 400)
    way = np.array([hands_at(shot, float(t)) for t in every])
    assert np.hypot(*np.diff(way, axis=0).T).max() < 0.004  # m in half a millisecond


def test_a_club_that_met_nothing_goes_as_it_was_meant():
    shot = over()
    address = intend(shot.setup, shot.motion).address
    for time in (-0.1, 0.0, 0.05):
        meant, real = stance_at(shot, address, time), as_struck(shot, address, time)
        assert real.hands == pytest.approx(meant.hands, abs=0.002)
        assert real.edge == pytest.approx(meant.edge, abs=0.002)


def test_the_strobe_shows_only_what_has_been_and_can_be_turned_off():
    shot = chip()
    row = flashes(shot, 0.24, 0.07)
    time = row[len(row) // 2].time
    out, on = window(shot, time, strobe=True)
    _, off = window(shot, time)
    changed = np.flatnonzero(np.abs(on - off).sum(axis=2)[:, :120].any(axis=1))
    assert len(changed)
    ahead = out.camera.at(head_at(shot, time)[0] + 0.06, 0)[0]
    assert changed.max() < ahead
    assert (window(shot, -0.5, strobe=True)[1] == window(shot, -0.5)[1]).all()


def golfer(time: float, strobe: bool, lit: str = "", mirrored: bool = False) -> np.ndarray:
    shot, theme, surface = leaning(), Theme(), pygame.Surface((420, 360), 0, 32)
    surface.fill(theme.palette.paper)
    panel = GolferPanel(lambda *_: None)
    panel.strobe = strobe
    panel.place(Rect(0, 0, 420, 360), theme)
    intent = intend(shot.setup, shot.motion)
    panel.show(intent, mirrored, (), False, theme)
    panel.draw(surface, theme, stance_at(shot, intent.address, time), shot=shot, time=time, lit=lit)
    return pygame.surfarray.array3d(surface).astype(int)


@pytest.mark.parametrize("mirrored", [False, True])
def test_the_golfer_leaves_hands_and_shafts_behind_it(mirrored):
    on, off = golfer(0.0, True, mirrored=mirrored), golfer(0.0, False, mirrored=mirrored)
    changed = np.flatnonzero(np.abs(on - off).sum(axis=2).any(axis=1))
    middle = np.mean(changed) - 210
    assert len(changed) > 60
    assert middle > 0 if mirrored else middle < 0  # the side the club came from
    assert (golfer(-0.5, True) == golfer(-0.5, False)).all()


def test_the_hands_are_lit_on_the_golfer_and_named_in_the_turf():
    assert (golfer(0.02, False, "hands") != golfer(0.02, False)).any()
    assert (window(leaning(), 0.02, lit="hands")[1] != window(leaning(), 0.02)[1]).any()
    for phrase in ("sole", "flight", ""):
        assert (golfer(0.02, False, phrase) == golfer(0.02, False)).all()


# ---- words


@pytest.mark.parametrize("size", [SIZE, (380, 240)])
@pytest.mark.parametrize("scale", [1.0, 2.0])
@pytest.mark.parametrize("ground", GROUNDS)
def test_no_plate_lies_on_another_or_on_the_head_or_leaves_the_window(ground, scale, size):
    shot = play(level_course(ground, 8.0), Setup(), Motion(depth=0.006))
    out, intent, surface = TurfWindow(), intend(shot.setup, shot.motion), pygame.Surface(size, 0, 32)
    out.strobe, theme = True, Theme.of(False, scale)
    for time in (-0.05, -0.03, -0.01, 0.0, 0.02, 0.03, 1.0):
        out.draw(surface, Rect(0, 0, *size), theme, shot.course, intent, shot=shot, time=time)
        plates = out.said.plates
        for i, a in enumerate(plates):
            assert Rect(0, 0, *size).holds(a), out.said.words[i].text
            assert not any(a.overlaps(b) for b in plates[i + 1 :])
            for x, y in (p for part in out.heads(intent, shot, time) for p in part):
                assert not (a.x < x < a.right and a.y < y < a.bottom), out.said.words[i].text


def test_low_point_and_flat_spot_are_marked_where_they_are():
    shot = chip()
    out, _ = window(shot, 2.0)
    marks = {word.text.split(" ")[0]: at for word, at in out.said.leaders}
    low, flat = shot.swing.low_point, shot.swing.flat_spot
    assert out.slope.world(*marks["low"])[0] == pytest.approx(low, abs=0.001)
    left, right = (out.slope.world(*p)[0] for p in out.said.bracket)
    shown = out.slope.world(SIZE[0] - 8.0, 0.0)[0]  # marks keep 8 px from the side of the window
    assert right == pytest.approx(min(left + flat, 0.46 * 0.4, shown), abs=0.003)
    x, floor = next(marks[word] for word in ("divot", "brush", "skid") if word in marks)
    assert out.slope.world(x, floor)[1] < 0.0


def test_zero_has_no_sign():
    played = chip()
    shot = replace(played, strike=replace(played.strike, attack=radians(-0.3)))
    assert angles_at_ball(shot).endswith("attack 0°")
    assert "\N{MINUS SIGN}0°" not in angles_at_ball(shot)


def test_knobs_say_their_value_without_minus_zero_or_only_what_they_move():
    panel = GolferPanel(lambda *_: None)
    panel.place(Rect(0, 0, 400, 300), Theme())
    panel.show(intend(Setup(shaft_lean=radians(-0.01)), Motion()), False, ("shaft_lean",), True, Theme())
    (handle,) = panel.parts
    assert handle.caption == "handle 0.0°"
    panel.numbered(False)
    assert handle.caption == "handle"


# ---- slopes


def test_on_a_slope_the_club_goes_through_the_turf_that_is_drawn():
    scenario = load_library("harrow-fen-downhill-lie")
    shot = play(scenario.course(), scenario.setup(), scenario.motion())
    assert isfinite(shot.strike.time)
    _, _, tilt = lie_of(shot.course)
    assert tilt < radians(-10)
    camera = on_slope(Camera(1.0, 0.0, 0.0), shot.course)
    x, y = camera.true(0.1, 0.0)
    ground = np.interp(x, shot.course.ground.x, shot.course.ground.y)
    assert y == pytest.approx(ground, abs=0.001)
    out, _ = window(shot, 2.0)
    assert isinstance(out.slope, Tilted)
    a, b = out.slope.at(0.0, 0.0), out.slope.at(0.1, 0.0)
    assert b[1] > a[1] + 10  # px lower on the page: the ground falls away


def test_a_tilted_camera_turns_and_keeps_lengths():
    camera = Tilted(100.0, 50.0, 60.0, tilt=0.2, low=0.03)
    a, b = camera.true(0.0, 0.0), camera.true(0.3, 0.4)
    assert hypot(b[0] - a[0], b[1] - a[1]) == pytest.approx(0.5)
    assert a == pytest.approx((0.0, 0.03))
    assert camera.true(1.0, 0.0) == pytest.approx((cos(0.2), 0.03 + sin(0.2)))
