"""Widgets that stand still: one picture of them is kept and shown until one of them looks different."""

from collections.abc import Sequence
from typing import Any

import pygame

from game.ui import paint
from game.ui.theme import Theme
from game.ui.widget import Widget, walk

__all__ = ["Still"]


class Still:
    """Draws widgets on plain paper. They must draw from what they hold and from the theme alone; whatever
    they hold may change at any time."""

    def __init__(self) -> None:
        self._key: tuple[Any, ...] = ()
        self._pieces: list[tuple[pygame.Surface, pygame.Rect]] = []

    def draw(self, surface: pygame.Surface, theme: Theme, widgets: Sequence[Widget]) -> None:
        """Draw them in order. Nothing but paper may lie where they paint."""
        area, every = surface.get_clip(), list(walk(widgets))
        key = (theme, tuple(area), *map(_held, every))
        typed = any(w.typing for w in every)  # what is being typed lies deeper than one looks
        if key == self._key and not typed:
            surface.fblits(self._pieces)
            return
        for widget in widgets:
            widget.draw(surface, theme)
        self._key, self._pieces = () if typed else key, []
        for widget in () if typed else widgets:
            at = paint.pixels(widget.painted(theme)).clip(area)
            if at.w and at.h:
                self._pieces.append((surface.subsurface(at).copy(), at))


def _held(widget: Widget) -> tuple[Any, ...]:
    """All that a widget holds, lists as they are now."""
    return tuple(tuple(v) if isinstance(v, list) else v for v in vars(widget).values())
