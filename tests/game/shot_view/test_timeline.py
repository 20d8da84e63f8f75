from itertools import pairwise

import pytest

from game.shot_view.timeline import timeline
from physics.results import Outcome
from tests.game.shot_view.shots import chip, over


def test_moments_stand_in_order_on_the_line():
    line = timeline(chip())
    names = [m.name for m in line.moments]
    assert names[0] == "address"
    assert names[-3:] == ["apex", "landing", "rest"]
    assert {"turf", "ball"} < set(names)
    assert all(a.time < b.time for a, b in pairwise(line.moments))
    assert all(a < b for a, b in pairwise(line.times))


def test_a_place_on_the_line_is_a_time_and_back():
    line = timeline(chip())
    assert (line.share(line.start), line.share(line.end)) == (0.0, 1.0)
    for share in (0.0, 0.13, 0.3, 0.46, 0.8, 1.0):
        assert line.share(line.time(share)) == pytest.approx(share)


def test_a_first_showing_is_slow_through_the_strike_and_ends():
    line = timeline(chip())
    ball = next(m.time for m in line.moments if m.name == "ball")
    assert line.advance(ball, 0.1) == pytest.approx(ball + 0.001)
    assert line.advance(line.start, 0.1) == pytest.approx(line.start + 0.025)
    assert line.advance(line.start, 60.0) == line.end


def test_a_missed_ball_still_has_a_line():
    shot = over()
    assert shot.run.outcome is Outcome.MISSED
    line = timeline(shot)
    assert [m.name for m in line.moments][-1] == "finish"
    assert line.next(line.end, 1).name == "finish"
    assert line.next(line.start, -1).name == "address"
