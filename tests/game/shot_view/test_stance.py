from math import hypot, radians, sin

import numpy as np
import pytest

from game.shot_view.stance import BACKSWING, head_at, intend, stance_at
from physics.address import Motion, Setup
from tests.game.shot_view.shots import chip, leaning


@pytest.mark.parametrize("shot", [chip(), leaning()])
def test_the_intended_pose_is_the_one_the_physics_swings_to(shot):
    intent, swing = intend(shot.setup, shot.motion), shot.swing
    head = [np.interp(0.0, swing.t, v) for v in swing.head]
    assert intent.ball.edge == pytest.approx(head, abs=2e-5)  # the trace is sampled
    assert intent.low_point == pytest.approx(swing.low_point, abs=0.006)  # sampled more coarsely
    assert intent.flat_spot == pytest.approx(swing.flat_spot, abs=0.015)
    assert intent.bounce == pytest.approx(shot.strike.bounce, abs=radians(0.3))  # turf turns the head
    assert intent.loft == pytest.approx(shot.strike.loft, abs=radians(0.3))


def test_the_lean_at_the_ball_is_the_motions_own_and_what_the_player_adds():
    plain, added = (intend(Setup(shaft_lean=radians(4)), Motion(lean_change=radians(d))) for d in (0, 6))
    for intent in (plain, added):
        assert intent.address.lean == intent.promised == pytest.approx(radians(4))
        assert intent.ball.lean == intent.delivered
    assert added.delivered - plain.delivered == pytest.approx(radians(6))
    assert added.loft - plain.loft == pytest.approx(-radians(6))
    assert added.bounce - plain.bounce == pytest.approx(-radians(6))
    assert added.ball.hands[0] > added.address.hands[0]
    held = intend(Setup(shaft_lean=radians(4)), Motion(follow_through=0.2))
    assert held.delivered != plain.delivered  # a motion brings its own lean, whatever was set


def test_leans_are_those_of_the_shot():
    shot = leaning()
    intent = intend(shot.setup, shot.motion)
    assert intent.promised == pytest.approx(shot.swing.promised)
    assert intent.delivered == pytest.approx(shot.swing.delivered)


def test_swinging_back_keeps_the_club_as_long_as_it_is():
    shot = chip()
    address = intend(shot.setup, shot.motion).address
    start = shot.swing.t[0] - BACKSWING
    assert stance_at(shot, address, start - 1.0) == stance_at(shot, address, start)
    assert stance_at(shot, address, start).hands == pytest.approx(address.hands)
    sine = sin(shot.setup.club.lie)
    longs = []
    for t in np.linspace(start, 0.0, 40):
        s = stance_at(shot, address, float(t))
        longs.append(hypot(s.hands[0] - s.edge[0], (s.hands[1] - s.edge[1]) / sine))
    assert np.ptp(longs) < 0.02  # the side view of a slanted plane bends angles a little


def test_the_head_goes_where_the_strike_says_and_never_jumps():
    shot = leaning()
    sole = shot.strike.sole
    k = len(sole.t) // 2
    assert head_at(shot, sole.t[k]) == pytest.approx((sole.edge[0][k], sole.edge[1][k], sole.lean[k]))
    times = np.arange(sole.t[0] - 0.05, sole.t[-1] + 0.05, 0.001)
    xs = [head_at(shot, float(t))[0] for t in times]
    assert max(abs(np.diff(xs))) < 0.012  # m in a millisecond: no faster than 12 m/s
