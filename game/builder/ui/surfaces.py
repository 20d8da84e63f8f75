"""Which surface the Surface tool lays: words with a dab of the colour, one chosen."""

from functools import partial

import pygame

from game.builder.ui.editing import Editing
from game.draw.camera import Rect
from game.draw.course import top_colour
from game.ui import Button, Row, Theme, layout, paint
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


class SurfaceRow(Row):
    """All surfaces; arrows go along them, Enter or a click chooses."""

    def __init__(self, editing: Editing) -> None:
        self.editing = editing
        self._dabs = []
        for name, surface in SURFACES.items():
            dab = _Dab(
                surface.label, partial(self.choose, name), group="surfaces", current=name == editing.surface
            )
            dab.name = name
            self._dabs.append(dab)
        super().__init__(self._dabs)
        self.label = "Surface to lay"

    def choose(self, name: str) -> None:
        """This one from now on."""
        self.editing.surface = name
        for dab in self._dabs:
            dab.current = dab.name == name

    def _boxes(self, theme: Theme, box: Rect) -> tuple[Rect, ...]:
        return layout.flow(
            box, [d.width(theme) for d in self._dabs], self._dabs[0].height(theme, 0), 0.5 * theme.gap
        )
