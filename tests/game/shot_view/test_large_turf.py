"""The turf window as the star: its frame, the angles on the head, the low point, scars, and words that never
lie on one another."""

from itertools import combinations
from math import degrees, radians

import numpy as np
import pygame
import pytest

from game.draw.camera import Rect
from game.draw.course import ground_at
from game.draw.turf import divot_floor
from game.draw.type import ROLES
from game.shot_view import TurfWindow, intend
from game.shot_view.back_row import CAPITALS, back_row_theme
from game.shot_view.head_angles import angles_at, angles_meant
from game.shot_view.scars import NO_SCARS, Scars
from game.shot_view.stance import head_at
from game.shot_view.turf_frame import CLOSEST, WHOLE, frame_turf
from game.shot_view.turf_marks import low_place, path_of
from game.ui import Theme
from physics.address import Motion, Setup
from physics.course import level_course
from physics.equipment import BALL
from physics.face import open_face
from physics.shot import play
from physics.spread import PLAYERS
from tests.game.shot_view.shots import chip, leaning, over


def digging():
    return play(level_course("fairway", 8.0), Setup(), Motion(lean_change=radians(9), drop=1.3))


def window(shot, size=(1280, 660), time=2.0, scale=1.0, dark=False, numbers=True, **attributes):
    out, surface = TurfWindow(), pygame.Surface(size, 0, 32)
    out.large = True
    for name, value in attributes.items():
        setattr(out, name, value)
    out.draw(
        surface, Rect(0, 0, *size), Theme.of(dark, scale), shot.course, intend(shot.setup, shot.motion),
        shot=shot, time=time, numbers=numbers,
    )  # fmt: skip
    return out, pygame.surfarray.array3d(surface).astype(int)


# ---- the angles


@pytest.mark.parametrize("shot", [chip, leaning, digging])
def test_the_angles_on_the_head_are_the_very_values_of_the_shot(shot):
    played = shot()
    strike = played.strike
    for time, gone in ((strike.time, False), (2.0, True)):
        at = angles_at(played, time, gone)
        assert (at.lean, at.loft, at.bounce) == (strike.lean, strike.loft, strike.bounce)
    out, _ = window(played)
    texts = [n.word.text.replace("\N{MINUS SIGN}", "-") for n in out.named]
    for name in ("lean", "loft", "bounce"):
        whole = round(degrees(getattr(strike, name)))
        assert f"{name} {whole}\N{DEGREE SIGN}" in texts


def test_before_the_ball_the_angles_are_those_of_the_head_as_it_comes_and_end_in_the_strikes_own():
    shot = digging()
    face = open_face(shot.setup.club, shot.setup.face_open)
    early = angles_at(shot, shot.strike.time - 0.02, False)
    assert early.lean == head_at(shot, shot.strike.time - 0.02)[2]
    assert early.loft + early.lean == pytest.approx(face.loft)
    assert early.bounce + early.lean == pytest.approx(face.bounce)
    late = angles_at(shot, shot.strike.time - 1e-5, False)
    assert late.loft == pytest.approx(shot.strike.loft, abs=radians(0.1))
    assert abs(early.lean - shot.strike.lean) > radians(0.2)  # the club turns: this is no copy of the end


def test_what_a_setting_means_is_told_at_address_and_a_miss_tells_no_angle():
    shot = leaning()
    intent = intend(shot.setup, shot.motion)
    meant = angles_meant(intent)
    assert (meant.loft, meant.bounce, meant.lean) == (intent.loft, intent.bounce, intent.delivered)
    assert angles_at(over(), 2.0, True) is None


def test_a_child_reads_words_and_no_numbers():
    out, _ = window(digging(), numbers=False)
    texts = [n.word.text for n in out.named]
    assert {"handle forward", "edge low", "leading edge"} <= set(texts)
    assert not any(c.isdigit() for text in texts for c in text)


# ---- the low point


@pytest.mark.parametrize("player", ["exact", "beginner"])
def test_the_low_point_is_the_lowest_point_of_the_dashed_way_of_the_edge(player):
    shot = play(level_course("fairway", 8.0), Setup(), Motion(), PLAYERS[player], 3)
    intent = intend(shot.setup, shot.motion)
    for struck in (None, shot):
        xs, ys = path_of(intent, struck)
        x, y = low_place(intent, struck)
        assert y == min(ys)
        assert xs[ys.index(y)] == x
    assert low_place(intent, shot)[0] == pytest.approx(shot.swing.low_point, abs=0.0015)
    drawn, _ = window(shot)
    end = next(at for word, at in drawn.said.leaders if word.text == "low point")
    path = [drawn.slope.at(*p) for p in zip(*path_of(intent, shot), strict=True)]
    assert end[1] == pytest.approx(max(p[1] for p in path), abs=0.01)  # px: lowest on the screen
    assert min(abs(p[0] - end[0]) + abs(p[1] - end[1]) for p in path) < 0.01


# ---- the frame


@pytest.mark.parametrize("size", [(560, 260), (1024, 460), (1920, 960), (3840, 2000), (630, 660)])
def test_the_frame_holds_head_and_ball_and_gives_them_most_of_the_picture(size):
    course = chip().course
    camera = frame_turf(Rect(0, 0, *size), course, 30.0)
    for x, y in ((-0.055, 0.05), (0.0, 2 * BALL.radius), (0.04, 0.0), (-0.05, -0.025)):
        px, py = camera.at(x, y)
        assert 0 < px < size[0]
        assert 0 < py < size[1] - 30.0
    head = 0.055 * camera.scale
    assert head > 0.4 * min(size[1] - 30.0, 0.6 * size[0])


def test_the_frame_is_the_same_through_the_whole_shot_and_for_any_shot():
    seen = {window(shot, time=t)[0].camera for shot in (chip(), digging()) for t in (-0.3, 0.0, 0.01, 2.0)}
    assert len(seen) == 1


def test_closer_keeps_the_place_under_the_pointer_and_stays_in_its_limits():
    box, course = Rect(0, 0, 1280, 660), chip().course
    before = frame_turf(box, course, 0.0)
    at = before.at(0.02, 0.01)
    off = ((at[0] - 640) / before.scale, (330 - at[1]) / before.scale)
    after = frame_turf(box, course, 0.0, WHOLE.by(2, off))
    assert after.scale > 1.5 * before.scale
    assert after.at(0.02, 0.01) == pytest.approx(at, abs=1.0)
    assert WHOLE.by(99).times == CLOSEST
    assert WHOLE.by(99).by(-99) == WHOLE


# ---- scars


def test_a_scar_is_the_cut_of_the_strike_and_lasts_until_the_ground_changes():
    shot = digging()
    scars = NO_SCARS.after(shot)
    (x, y), floor = scars.floors()[0], divot_floor(shot)
    assert np.interp(x, *floor) == pytest.approx(y)
    assert min(y) < ground_at(shot.course, 0.0) - 0.004
    other = level_course("soft", 8.0)
    assert scars.on(shot.course) == scars
    assert scars.on(level_course("fairway", 12.0)) == NO_SCARS  # other ground
    assert scars.on(other) == NO_SCARS
    assert scars.on(shot.course, shot) == NO_SCARS
    assert scars.after(play(other, shot.setup, shot.motion)).shots[0].course == other


def test_a_mat_and_a_missed_turf_keep_no_scar():
    mat = play(level_course("mat", 8.0), Setup(), Motion(lean_change=radians(9), drop=1.3))
    assert not NO_SCARS.after(mat).floors()
    assert not NO_SCARS.after(over()).floors()


def test_the_scar_is_seen_in_the_turf_before_the_next_shot():
    shot = digging()
    size = (800, 420)
    pictures = []
    for scars in (NO_SCARS, Scars((shot,))):
        out, surface = TurfWindow(), pygame.Surface(size, 0, 32)
        out.scars = scars
        out.draw(surface, Rect(0, 0, *size), Theme(), shot.course, intend(Setup(), Motion()))
        pictures.append(pygame.surfarray.array3d(surface).astype(int))
    changed = np.abs(pictures[0] - pictures[1]).sum(axis=2) > 60
    x, _ = scars.floors()[0]
    left, right = (round(out.camera.at(v, 0.0)[0]) for v in (x[0], x[-1]))
    earth = changed[:, round(out.camera.y0) + 2 :].any(axis=1)  # under the grass, which is strewn anew
    assert earth[max(left, 0) : right].mean() > 0.5
    assert not earth[: max(left - 4, 0)].any()
    assert not earth[right + 4 :].any()


# ---- words


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize(
    ("size", "scale"),
    [((1024, 330), 2.0), ((1024, 470), 1.0), ((1280, 620), 1.5), ((1920, 900), 1.0), ((3840, 1900), 2.0),
     ((632, 620), 1.0)],
)  # fmt: skip
def test_no_word_lies_on_another_or_out_of_the_window(size, scale, mirrored):
    for shot in (chip(), digging(), leaning(), over()):
        for time in (shot.swing.t[0], -0.03, 0.0, 0.004, 2.0):
            out, _ = window(shot, size, time, scale, mirrored=mirrored)
            words = [n.word for n in out.named] + list(out.said.words)
            for a, b in combinations(words, 2):
                assert not a.box.overlaps(b.box), (a.text, b.text)
            for word in words:
                assert Rect(0, 0, *size).holds(word.box), word.text


@pytest.mark.parametrize("high", [330.0, 640.0, 960.0, 2000.0])
def test_the_smallest_words_can_be_read_from_the_back_row(high):
    theme = back_row_theme(Theme(), high)
    assert theme.type.size("small") * 0.727 >= CAPITALS * high - 0.5
    assert back_row_theme(Theme.of(False, 2.0), 300.0).type.size("small") >= 2 * ROLES["small"][0]


def test_a_left_handers_window_is_the_mirror_image():
    shot = digging()
    (right, _), (left, _) = (window(shot, mirrored=m) for m in (False, True))
    for point in ((0.0, 0.0), (-0.05, 0.02)):
        a, b = right.slope.at(*point), left.slope.at(*point)
        assert (a[0] + b[0], a[1]) == pytest.approx((1280.0, b[1]))
