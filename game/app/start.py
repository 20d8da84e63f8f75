"""The start of the window: it stands there with the name before what takes seconds is loaded."""

import argparse
import sys
from concurrent.futures import ThreadPoolExecutor
from importlib import import_module
from time import sleep

import pygame

from game.app.window import NO_DISPLAY, WINDOW_TITLE, Window, open_window
from game.draw.palette import DARK, LIGHT
from game.draw.type import ROLES, font_cut, font_file
from game.library.home import data_home
from game.library.log import keep_log
from game.library.settings import SETTINGS, kept_settings

__all__ = ["run"]

LOOK = 0.05  # s between looks whether all is loaded
NEEDED = ("game.app.frame", "game.app.first_start")


def run(args: argparse.Namespace) -> int:
    """Open the window and stay until it is closed. Exit code 0, or 2 without a display."""
    home = data_home(getattr(args, "data_dir", None))
    keep_log(home)
    new = not (home / SETTINGS.name).exists()
    settings, problem = kept_settings(home)
    window = open_window((settings.width, settings.height))
    if window is None:
        print(NO_DISPLAY, file=sys.stderr)
        return 2
    _load(window, settings.dark)
    from game.app.first_start import Prepare
    from game.app.frame import App, stay
    from game.ui.work import Worker

    app = App(window.surface, settings, home, Worker(), window)
    app.show(Prepare(app, asks=new))
    if problem:
        app.say(problem)
    sys.setswitchinterval(0.001)  # s: plain Python on the worker's thread made frames twice as long at 5 ms
    stay(app, window)
    app.close()
    window.close()
    return 0


def _load(window: Window, dark: bool) -> None:
    """Load the game and cut its letters while the name stands in the window; events wait for it."""
    with ThreadPoolExecutor(1) as beside:
        loaded = beside.submit(_needed)
        while not loaded.done():
            name_on_paper(window.surface, dark)  # again: something may have lain over it
            window.show()
            pygame.event.pump()
            sleep(LOOK)
        loaded.result()


def _needed() -> None:
    for name in NEEDED:
        import_module(name)
    for weight in sorted({weight for _, weight in ROLES.values()}):
        font_file(weight)


def name_on_paper(surface: pygame.Surface, dark: bool) -> None:
    """The name alone, in our letters once they have been cut."""
    palette = DARK if dark else LIGHT
    surface.fill(palette.paper)
    pygame.font.init()
    size, weight = ROLES["title"]
    file = font_cut(weight)
    font = pygame.font.Font(file if file.exists() else None, round(size))
    word = font.render(WINDOW_TITLE, True, palette.ink)
    wide, high = surface.get_size()
    surface.blit(word, ((wide - word.get_width()) // 2, round(0.4 * high) - word.get_height() // 2))
