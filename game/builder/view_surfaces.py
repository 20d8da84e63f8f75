"""Which surface the Surface tool lays: words with a dab of the colour, one chosen."""

from functools import partial

import pygame

from game.builder.view_making import Making
from game.ui import Button, Theme, Widget, layout, paint
from game.view.camera import Rect
from game.view.course import top_colour
from physics.surfaces import SURFACES

__all__ = ["SurfaceRow"]


class _Dab(Button):
    """A surface, with its colour."""

    name = ""

    def width(self, theme: Theme) -> float:
        return theme.type.width(self.label, "small") + 4.5 * theme.gap

    def height(self, theme: Theme, width: float) -> float:
        return max(theme.type.line("small") + 0.5 * theme.gap, 24.0)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r = self.rect
        edge, thick = (theme.accent, 2 * theme.line) if self.current else (theme.edge, theme.line)
        paint.box(surface, r, self.back(theme), edge, theme.radius, thick)
        dab = Rect(r.x + theme.gap, r.y + r.h / 2 - 0.7 * theme.gap, 1.6 * theme.gap, 1.4 * theme.gap)
        paint.box(surface, dab, top_colour(theme.palette, self.name), theme.edge, theme.radius / 2)
        y = r.y + (r.h - theme.type.line("small")) / 2
        paint.text(surface, theme, self.label, "small", dab.right + 0.75 * theme.gap, y,
                   "ink" if self.current else "muted")  # fmt: skip
        self.draw_focus(surface, theme)


class SurfaceRow(Widget):
    """All surfaces; arrows go along them, Enter or a click chooses."""

    focusable = False

    def __init__(self, making: Making) -> None:
        super().__init__("Surface to lay")
        self.making = making
        self._dabs = []
        for name, surface in SURFACES.items():
            dab = _Dab(
                surface.label, partial(self.choose, name), group="surfaces", current=name == making.surface
            )
            dab.name = name
            self._dabs.append(dab)

    @property
    def parts(self) -> tuple[Widget, ...]:
        return tuple(self._dabs)

    def choose(self, name: str) -> None:
        """This one from now on."""
        self.making.surface = name
        for dab in self._dabs:
            dab.current = dab.name == name

    def _boxes(self, theme: Theme, box: Rect) -> tuple[Rect, ...]:
        return layout.flow(
            box, [d.width(theme) for d in self._dabs], self._dabs[0].height(theme, 0), 0.5 * theme.gap
        )

    def height(self, theme: Theme, width: float) -> float:
        return max(b.bottom for b in self._boxes(theme, Rect(0, 0, width, 0)))

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        for dab, box in zip(self._dabs, self._boxes(theme, rect), strict=True):
            dab.place(box, theme)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        for dab in self._dabs:
            dab.draw(surface, theme)
