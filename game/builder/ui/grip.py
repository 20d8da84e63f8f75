"""A grip: something of the draft to take hold of on the course, by hand or by keys."""

from collections.abc import Iterable
from typing import Protocol

import pygame

from game.builder.model.handles import DragHandle
from game.builder.ui.carry import Carry
from game.builder.ui.describe import object_name
from game.builder.ui.editing import Editing, object_of
from game.builder.ui.viewport import Viewport
from game.draw.camera import Rect
from game.draw.pen import Pen
from game.ui import Theme, Widget
from game.ui.supersample import supersampled
from game.ui.widget import Position
from levels.rules import Loc

__all__ = ["CENTIMETRE", "GRIP_REACH", "Grip", "grip_of"]

GRIP_REACH = 13.0  # px a grip can be taken hold of around its middle
CENTIMETRE = 0.01  # m, the fine step
ARROWS = {pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, 1), pygame.K_DOWN: (0, -1)}


class GripHost(Protocol):
    """What a grip asks of the canvas it lies on."""

    editing: Editing
    viewport: Viewport
    carry: Carry

    def grip_at(self, at: Position) -> "Grip | None":
        """The grip a hand at that pixel would take."""

    def edit_numbers(self) -> None:
        """To the numbers of what is picked."""


class Grip(Widget):
    """Arrows move it (Shift ten steps, Alt a centimetre), Enter edits its numbers, Delete takes it out."""

    def __init__(self, host: GripHost, handle: DragHandle) -> None:
        super().__init__(handle.label)
        self.host, self.of = host, handle
        self._held = False

    @property
    def loc(self) -> Loc:
        """The object it belongs to."""
        return object_of(self.of.loc)

    @property
    def picked(self) -> bool:
        return self.host.editing.picked == self.loc

    @property
    def caption(self) -> str:
        editing = self.host.editing
        return f"{object_name(editing.draft, self.loc, editing.yards)}, {self.of.label}"

    @property
    def at(self) -> Position:
        """Its middle on the screen."""
        return self.host.viewport.pixel(self.of.x, self.of.y)

    def follow(self) -> None:
        """Put its box where the camera sees it."""
        x, y = self.at
        self.rect = Rect(x - GRIP_REACH, y - GRIP_REACH, 2 * GRIP_REACH, 2 * GRIP_REACH)
        self.clip = self.host.viewport.rect

    def hit(self, at: Position) -> bool:
        return self.host.grip_at(at) is self

    # ---- events

    def _mouse(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEBUTTONDOWN:
            self._held = True
            self.host.carry.take(self.of, event.pos)
        elif event.type == pygame.MOUSEMOTION and self._held:
            self.host.carry.move(event.pos)
        elif event.type == pygame.MOUSEBUTTONUP:
            self._held = False
            self.host.carry.let_go()
        else:
            return False
        return True

    def _key(self, event: pygame.event.Event) -> bool:
        editing = self.host.editing
        if event.key in ARROWS and not event.mod & pygame.KMOD_CTRL:
            step = self.host.viewport.step * (10 if event.mod & pygame.KMOD_SHIFT else 1)
            if event.mod & pygame.KMOD_ALT:
                step = CENTIMETRE
            dx, dy = ARROWS[event.key]
            self.host.carry.nudge(self.of, dx * step, dy * step)
        elif event.key in (pygame.K_DELETE, pygame.K_BACKSPACE):
            editing.delete(self.loc)
        elif event.key in (pygame.K_RETURN, pygame.K_KP_ENTER):
            editing.picked = self.loc
            self.host.edit_numbers()
        else:
            return False
        return True

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.KEYDOWN:
            return self._key(event)
        return self._mouse(event)

    def leave(self) -> None:
        self._held = False
        self.host.editing.settle()

    # ---- drawing

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        x, y = self.at
        clip = self.host.viewport.rect
        if not (clip.x - 20 < x < clip.right + 20 and clip.y - 20 < y < clip.bottom + 20):
            return
        p = theme.palette
        r = 5.0 if self.of.kind == "point" else 6.5
        r *= min(theme.scale, 1.5)
        lit = self.hovered or self.focused or self._held
        with supersampled(surface, Rect(x - 16, y - 16, 32, 32)) as (pen, left, top):
            at = (x - left, y - top)
            fill = theme.accent if self.picked else p.paper
            size = r + (2.0 if lit else 0.0)
            for grow, tone in ((3.2, p.halo), (1.6, p.ink), (0.0, fill)):
                self._shape(pen, at, size + grow, tone)
        if self.focused:
            self.draw_focus(surface, theme, Rect(x - 10, y - 10, 20, 20))

    def _shape(self, pen: Pen, at: Position, r: float, tone: tuple[int, int, int]) -> None:
        """Discs are places, diamonds are sizes."""
        x, y = at
        if self.of.kind in ("size", "land", "clear"):
            q = 1.15 * r
            pen.fill([(x, y - q), (x + q, y), (x, y + q), (x - q, y)], tone)
        else:
            pen.disc(at, r, tone)


def grip_of(grips: Iterable[Grip], loc: Loc | None) -> Grip | None:
    """The first grip of an object."""
    return next((g for g in grips if loc is not None and g.loc == object_of(loc)), None)
