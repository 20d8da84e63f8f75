"""The window of the system: opened, held to its least size, filled to the screen and back."""

import os
import sys

import pygame

from game.draw.icon import icon

__all__ = ["LEAST", "NO_DISPLAY", "WINDOW_TITLE", "Window", "fills", "open_window"]

LEAST = (1024, 640)  # px
FRAME = 64  # px, room the system takes for a title bar and a task bar, assumed
WINDOW_TITLE = "Fringework"
NO_DISPLAY = "There is no display to open a window on; play a shot with `fringework shot`."


class Window:
    """The resizable window; `size` is its size when it does not fill the screen."""

    def __init__(self, size: tuple[int, int]) -> None:
        self.size, self.full = size, False
        self._window = pygame.Window(WINDOW_TITLE, size, resizable=True)
        self._window.minimum_size = LEAST
        self._window.set_icon(icon())
        if fills(size, pygame.display.get_desktop_sizes()[0]):
            self._window.maximize()  # else the title bar pushes the lowest line off the screen

    @property
    def surface(self) -> pygame.Surface:
        """What to draw on now."""
        surface = self._window.get_surface()
        if not self.full:
            self.size = surface.get_size()
        return surface

    def show(self) -> None:
        """Bring what was drawn to the screen."""
        self._window.flip()

    def toggle_full(self) -> None:
        """Fill the screen, or go back."""
        self.full = not self.full
        if self.full:
            self._window.set_fullscreen(desktop=True)
        else:
            self._window.set_windowed()

    def close(self) -> None:
        """Give it back to the system."""
        self._window.destroy()
        pygame.display.quit()  # and no more: fonts may still be in use


def fills(size: tuple[int, int], desktop: tuple[int, int]) -> bool:
    """Whether a window of `size` px and its title bar do not fit in a desktop of so many px."""
    return size[0] > desktop[0] or size[1] + FRAME > desktop[1]


def open_window(size: tuple[int, int]) -> Window | None:
    """The window, at least LEAST px; None without a display."""
    wanted = ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER")
    if sys.platform == "linux" and not any(os.environ.get(name) for name in wanted):
        return None  # asking anyway would print the display library's own complaint
    try:
        pygame.display.init()
        # without a display the library falls back to drawing nowhere; that only counts when asked for
        if pygame.display.get_driver() in ("offscreen", "dummy") and not os.environ.get("SDL_VIDEODRIVER"):
            pygame.display.quit()
            return None
        return Window((max(size[0], LEAST[0]), max(size[1], LEAST[1])))
    except pygame.error:
        return None
