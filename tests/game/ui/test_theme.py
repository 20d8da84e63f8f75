import pytest

from game.app.frame import App
from game.draw.palette import contrast
from game.library.settings import Settings
from game.ui.theme import Theme, widget_pairs
from game.ui.widget import walk


@pytest.mark.parametrize("dark", [False, True])
def test_every_pair_keeps_its_contrast(dark):
    for what, front, back, least in widget_pairs(Theme.of(dark, 1.0)):
        assert contrast(front, back) >= least, what


def test_scale_is_held_and_targets_are_large_enough():
    assert Theme.of(False, 0.3).scale == 1.0
    assert Theme.of(False, 9.0).scale == 2.0
    assert Theme.of(False, 1.0).target >= 24.0
    assert Theme.of(False, 2.0).target == 2 * Theme.of(False, 1.0).target


@pytest.mark.parametrize("name", ["Bench", "Play", "Ladder", "Builder", "Settings"])
def test_words_grow_with_the_window_on_every_screen_and_never_faster_than_it(name):
    scales = []
    for size in ((1024, 640), (1280, 800), (1920, 1080), (3840, 2160)):
        app = App.headless(size, screen=name)
        scales.append(app.theme.scale)
        assert app.theme.scale <= max(min(size[0] / 1280, size[1] / 800), 1.0)
    assert scales[0] == scales[1] == 1.0
    assert scales[2] > 1.2
    assert scales[3] > 2.0
    large = App.headless((3840, 2160), Settings(text_scale=2.0), name)
    assert large.theme.scale > scales[3]


@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080), (3840, 2160)])
def test_settings_leave_no_blank_column_in_a_large_window(size):
    app = App.headless(size, screen="Settings")
    right = max(w.rect.right for w in walk(app.screen.widgets))
    assert right > 0.78 * size[0]
