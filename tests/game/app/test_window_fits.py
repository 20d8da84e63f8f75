"""A window as large as the desktop fills it, so that its title bar pushes no line off the screen."""

import pytest

from game.app.window import LEAST, fills


@pytest.mark.parametrize(
    ("size", "desktop", "expected"),
    [
        ((1280, 800), (1280, 800), True),  # seen: the line of keys was under the lower edge
        ((1280, 800), (1366, 768), True),  # a small laptop
        ((1280, 720), (1280, 800), False),
        ((1280, 800), (1920, 1080), False),
        (LEAST, (1024, 768), False),
        ((1600, 700), (1280, 800), True),
    ],
)
def test_it_fills_a_desktop_it_does_not_fit_in(
    size: tuple[int, int], desktop: tuple[int, int], expected: bool
) -> None:
    assert fills(size, desktop) is expected
