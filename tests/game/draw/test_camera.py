"""World to pixel and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.draw.camera import Camera, Rect

metres = st.floats(-100, 100)


@given(metres, metres, st.floats(1, 2000), st.booleans())
def test_there_and_back(x, y, scale, mirrored):
    camera = Camera(scale, 321.0, 123.0, mirrored)
    assert camera.world(*camera.at(x, y)) == pytest.approx((x, y), abs=1e-9)


@given(metres, metres, st.floats(0.01, 5), st.booleans())
def test_true_scale_is_the_same_both_ways(x, y, step, mirrored):
    camera = Camera(80.0, 0.0, 0.0, mirrored)
    a = camera.at(x, y)
    assert abs(camera.at(x + step, y)[0] - a[0]) == pytest.approx(80 * step)
    assert a[1] - camera.at(x, y + step)[1] == pytest.approx(80 * step)


def test_mirror_swaps_left_and_right_only():
    plain, mirrored = Camera(10, 50, 50), Camera(10, 50, 50, True)
    assert plain.at(1, 2) == (60, 30)
    assert mirrored.at(1, 2) == (40, 30)


def test_boxes_that_touch_do_not_overlap():
    assert not Rect(0, 0, 10, 10).overlaps(Rect(10, 0, 5, 5))
    assert Rect(0, 0, 10, 10).overlaps(Rect(9, 9, 5, 5))
    assert Rect(0, 0, 10, 10).holds(Rect(1, 1, 9, 9))
    assert not Rect(0, 0, 10, 10).holds(Rect(1, 1, 12, 3))
