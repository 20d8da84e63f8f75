"""Thrown turf and sand: as much as the club loosened, off as the club sends it, the same every time."""

from functools import cache
from math import hypot, radians

import numpy as np
import pygame
import pytest

from game.draw.camera import Camera, Rect
from game.draw.palette import DARK, LIGHT
from game.shot_view import TurfWindow, intend
from game.shot_view.spray import LONGEST, STEP, Track, ground_under, throw
from game.shot_view.spray_look import Spray
from game.shot_view.spray_seed import MOST_CLODS, Clod, clods_of, loosened
from game.ui import Theme
from levels.files import load_library
from physics.address import Motion, Setup
from physics.course import level_course
from physics.results import Shot
from physics.shot import play
from tests.game.shot_view.shots import chip, over
from tests.work_done import counted


@cache
def deep() -> Shot:
    """A lean, steep, fat dig in soft turf."""
    setup = Setup(shaft_lean=radians(12))
    motion = Motion(depth=0.018, lean_change=radians(6), swing_length=radians(70))
    return play(level_course("soft", 8.0), setup, motion)


@cache
def splash(ground: str = "sand") -> Shot:
    """An open face through sand."""
    setup = Setup(face_open=radians(20), ball_position=0.02)
    return play(level_course(ground, 8.0), setup, Motion(depth=0.015, swing_length=radians(80)))


@cache
def downhill() -> Shot:
    """A fat dig on a slope of twelve degrees."""
    scenario = load_library("harrow-fen-downhill-lie")
    return play(scenario.course(), scenario.setup(), Motion(depth=0.016, swing_length=radians(60)))


@cache
def flown(which: str) -> Track:
    return throw({"deep": deep, "splash": splash, "downhill": downhill, "chip": chip}[which]())


def divot_area(shot: Shot) -> float:
    """Area (m2) under the old ground, by the trapezoid rule on what the strike left."""
    x, y = (np.asarray(v) for v in shot.strike.divot)
    return float(np.trapezoid(np.clip(-y, 0.0, None), x))


def own_area(clod: Clod) -> float:
    """Area (m2) of the body that flies: of its outline, or its disc."""
    if not clod.outline:
        return float(np.pi * clod.radius**2)
    x, y = np.array(clod.outline).T
    return abs(0.5 * float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))))


def test_all_the_sand_of_the_cut_flies():
    shot = splash()
    assert sum(own_area(c) for c in clods_of(shot)) == pytest.approx(divot_area(shot), rel=0.02)


def test_of_turf_what_the_edge_cut_flies_and_what_the_sole_pressed_stays():
    shot = deep()
    sole, (xs, _) = shot.strike.sole, shot.strike.divot
    edge = -np.interp(np.asarray(xs), sole.edge[0], sole.edge[1])
    cut = float(np.trapezoid(np.clip(edge, 0.0, None), xs))
    flying = sum(own_area(c) for c in clods_of(shot))
    assert 0.85 * cut < flying <= divot_area(shot)
    # a bounced chip presses its whole brush, and rubs off a tenth
    assert 0.0 < sum(own_area(c) for c in clods_of(chip())) < 0.2 * divot_area(chip())


@pytest.mark.parametrize("shot", [deep, splash, downhill, chip])
def test_nothing_of_the_loosened_earth_is_lost(shot):
    columns, cut = loosened(shot())
    assert sum(c.area for c in clods_of(shot())) == pytest.approx(float(cut.sum()) * 1e-3, rel=1e-6)
    assert len(columns) == len(cut)


def test_a_clean_chip_throws_a_few_crumbs_a_missed_ball_and_a_mat_nothing():
    crumbs = clods_of(chip())
    assert 1 <= len(crumbs) <= 6
    assert {c.kind for c in crumbs} == {"crumb"}
    assert clods_of(over()) == ()
    assert clods_of(play(level_course("mat", 8.0), Setup(), Motion(depth=0.006))) == ()
    assert not throw(over()).pieces
    assert len(throw(over()).at(1.0)[0]) == 0


def test_turf_comes_out_in_clumps_and_crumbs_and_sand_in_a_fan():
    turf, sand = clods_of(deep()), clods_of(splash())
    assert {c.kind for c in turf} == {"clump", "crumb"}
    assert max(c.area for c in turf if c.kind == "clump") > 10 * np.median([c.area for c in turf])
    assert {c.kind for c in sand} == {"grain"}
    assert len(turf) <= MOST_CLODS
    assert len(sand) <= MOST_CLODS
    angles = [np.arctan2(c.velocity[1], c.velocity[0]) for c in sand]
    assert np.ptp(angles) > radians(40)


def test_pieces_leave_where_and_when_the_edge_cut_them_no_faster_than_it():
    for shot in (deep(), splash()):
        sole = shot.strike.sole
        for clod in clods_of(shot):
            k = int(np.argmin(np.abs(np.asarray(sole.edge[0]) - clod.at[0])))
            assert 0.0 <= clod.born - sole.t[k] + 1e-3 < 0.007
            assert 0.0 < hypot(*clod.velocity) < 1.1 * sole.speed[k]
            assert clod.velocity[0] > 0.0 or clod.velocity[1] > 0.0
            assert -shot.strike.depth <= clod.at[1] <= 0.0


def test_a_faster_club_throws_further():
    def furthest(swing: float) -> float:
        track = throw(
            play(level_course("sand", 8.0), Setup(), Motion(depth=0.012, swing_length=radians(swing)))
        )
        return float(np.quantile(track.x[-1], 0.9))

    assert furthest(90) > furthest(40) + 0.3


@pytest.mark.parametrize("which", ["deep", "splash", "downhill"])
def test_pieces_come_to_rest_on_the_ground_and_never_sink_into_it(which):
    shot = {"deep": deep, "splash": splash, "downhill": downhill}[which]()
    track, ground = flown(which), np.array(ground_under(shot)).T
    height = track.y[-1] - np.interp(track.x[-1], *ground)
    reach = np.array([max((hypot(*p) for p in c.outline), default=c.radius) for c in track.pieces])
    assert (height > -0.002).all()
    x, y = track.x[-1], track.y[-1]
    for i in np.flatnonzero(height >= reach + 0.004):  # what is not on the ground lies on another piece
        apart = np.hypot(np.delete(x, i) - x[i], np.delete(y, i) - y[i])
        assert (apart < np.delete(reach, i) + reach[i] + 0.004).any()
        assert height[i] < 2.0 * reach.max()
    lowest = (track.y - np.interp(track.x, *ground)).min()
    assert lowest > -0.015  # a fast piece presses in for a step, and is pushed out
    last = np.hypot(np.diff(track.x[-4:], axis=0), np.diff(track.y[-4:], axis=0))
    assert last.max() < 0.003


def test_a_piece_falls_as_anything_thrown():
    """Straight from the launch, before anything is touched: y = v t - g t^2 / 2, but for the air."""
    track = flown("splash")
    k = int(np.argmax([c.velocity[1] for c in track.pieces]))
    piece, t = track.pieces[k], 30 * track.step
    free = piece.velocity[1] * t - 0.5 * 9.81 * t * t
    risen = track.y[30, k] - track.y[0, k]
    assert free > 0.1
    assert 0.85 * free < risen < 1.01 * free


def test_the_same_shot_always_flies_the_same_and_another_seed_differently():
    first, again = throw(splash()), throw(splash())
    assert first.pieces == again.pieces
    assert (first.x == again.x).all()
    assert (first.angle == again.angle).all()
    other = throw(play(level_course("sand", 8.0), splash().setup, splash().motion, seed=7))
    assert other.pieces != first.pieces


def test_a_track_reads_the_same_forward_and_back_and_hides_what_is_not_cut_yet():
    track = flown("deep")
    times = np.linspace(track.born.min() - 0.01, track.born.max() + 2.0, 40)
    onward = [track.at(float(t)) for t in times]
    back = [track.at(float(t)) for t in times[::-1]][::-1]
    assert all((a[1] == b[1]).all() for a, b in zip(onward, back, strict=True))
    counts = [len(a[0]) for a in onward]
    assert counts[0] == 0
    assert counts == sorted(counts)
    assert counts[-1] == len(track.pieces)
    assert onward[-1][1] == pytest.approx(track.x[-1])


def test_the_steps_are_fine_and_a_deep_dig_is_flown_with_little_work():
    """800 steps at the most, of as many bodies as are allowed, and few calls about them (16 ms in all
    where this was written)."""
    assert STEP <= 1.0 / 500.0
    shot = deep()
    with counted() as calls:
        track = throw(shot)
    assert len(track.pieces) <= MOST_CLODS
    assert (len(track.x) - 1) * track.step <= LONGEST <= 800 * STEP
    assert calls[0] < 60_000


# ---- drawn


def pictured(time: float, track: Track | None, still: bool = False) -> np.ndarray:
    surface, shot, window = pygame.Surface((500, 260), 0, 32), deep(), TurfWindow()
    window.spray, window.still = track, still
    intent = intend(shot.setup, shot.motion)
    window.draw(surface, Rect(0, 0, 500, 260), Theme(), shot.course, intent, shot=shot, time=time)
    return pygame.surfarray.array3d(surface).astype(int)


def test_the_turf_window_shows_flying_turf_only_with_its_track():
    at = deep().strike.time
    assert (pictured(at, flown("deep")) != pictured(at, None)).any()
    before = deep().strike.sole.t[0] - 0.001
    assert (pictured(before, flown("deep")) == pictured(before, None)).all()


def test_where_nothing_may_fly_the_pieces_lie_at_once_where_they_will():
    at, end = deep().strike.time, deep().strike.time + 3.0
    lying = np.abs(pictured(end, flown("deep"), True) - pictured(end, None)).sum(axis=2) > 0
    now = np.abs(pictured(at, flown("deep"), True) - pictured(at, None)).sum(axis=2) > 0
    flying = np.abs(pictured(at, flown("deep")) - pictured(at, None)).sum(axis=2) > 0
    assert lying.any()
    assert not now[:, :80].any()  # no piece is in the air
    assert flying[:, :80].any() or flying[:, :130].sum() > 3 * now[:, :130].sum()


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda p: p.name)
@pytest.mark.parametrize("which", ["deep", "splash"])
def test_the_stage_may_draw_the_same_track_small(which, palette):
    track, surface = flown(which), pygame.Surface((600, 200), 0, 32)
    camera = Camera(90.0, 120.0, 180.0)
    spray = Spray(track, palette, "sand" if which == "splash" else "soft")
    spray.draw(surface, camera, float(track.born.max()) + 0.15)
    lit = np.argwhere(pygame.surfarray.array3d(surface).sum(axis=2) > 0)
    assert len(lit) > 20
    assert lit[:, 0].min() > 100  # toward the target
