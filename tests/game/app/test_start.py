"""The window has something to show before what takes seconds is loaded."""

import subprocess
import sys

import pygame
import pytest

from game.app.start import name_on_paper
from game.draw.palette import DARK, LIGHT

HEAVY = ("numba", "scipy", "pymunk", "fontTools", "game.app.frame", "levels.scenario", "physics.shot")


def test_the_start_loads_nothing_that_takes_seconds():
    told = subprocess.run(
        [sys.executable, "-c", "import sys, game.app.start; print(*sys.modules)"],
        check=True, capture_output=True, text=True, timeout=120,
    ).stdout.split()  # fmt: skip
    assert "game.app.start" in told
    assert [name for name in HEAVY if name in told] == []


@pytest.mark.parametrize(("dark", "palette"), [(False, LIGHT), (True, DARK)])
def test_the_name_stands_on_paper(dark, palette):
    surface = pygame.Surface((1280, 800), 0, 32)
    name_on_paper(surface, dark)
    assert surface.get_at((0, 0))[:3] == palette.paper
    pixels = pygame.surfarray.array3d(surface)
    words = (pixels != palette.paper).any(axis=2).nonzero()
    assert abs((words[0].min() + words[0].max()) / 2 - 640) < 4
    assert 60 < words[0].max() - words[0].min() < 400
