from math import hypot, radians, sin

import numpy as np
import pytest

from game.scene.stance import BACKSWING, head_at, intend, stance_at
from physics.address import Motion, Setup
from tests.game.scene.shots import chip, leaning


@pytest.mark.parametrize("shot", [chip(), leaning()])
def test_the_intended_pose_is_the_one_the_physics_swings_to(shot):
    intent, swing = intend(shot.setup, shot.motion), shot.swing
    head = [np.interp(0.0, swing.t, v) for v in swing.head]
    assert intent.ball.edge == pytest.approx(head, abs=1e-5)
    assert intent.low_point == pytest.approx(swing.low_point, abs=0.006)  # sampled more coarsely
    assert intent.flat_spot == pytest.approx(swing.flat_spot, abs=0.015)
    assert intent.bounce == pytest.approx(shot.strike.bounce, abs=radians(0.2))
    assert intent.loft == pytest.approx(shot.strike.loft, abs=radians(0.2))


def test_lean_at_address_and_at_the_ball_differ_by_the_change():
    intent = intend(Setup(shaft_lean=radians(4)), Motion(lean_change=radians(6)))
    assert intent.address.lean == pytest.approx(radians(4))
    assert intent.ball.lean == pytest.approx(radians(10))
    assert intent.ball.hands[0] > intent.address.hands[0]


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
