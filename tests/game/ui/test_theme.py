import pytest

from game.draw.palette import contrast
from game.ui.theme import Theme, widget_pairs


@pytest.mark.parametrize("dark", [False, True])
def test_every_pair_keeps_its_contrast(dark):
    for what, front, back, least in widget_pairs(Theme.of(dark, 1.0)):
        assert contrast(front, back) >= least, what


def test_scale_is_held_and_targets_are_large_enough():
    assert Theme.of(False, 0.3).scale == 1.0
    assert Theme.of(False, 9.0).scale == 2.0
    assert Theme.of(False, 1.0).target >= 24.0
    assert Theme.of(False, 2.0).target == 2 * Theme.of(False, 1.0).target
