"""The course on the Builder's page, at true scale: everything on it can be taken hold of."""

from collections.abc import Callable

import pygame

from game.builder.model.edits import handles
from game.builder.ui.backdrop import Backdrop
from game.builder.ui.carry import Carry
from game.builder.ui.editing import Editing
from game.builder.ui.eye import Eye
from game.builder.ui.gesture import Gesture
from game.builder.ui.grip import GRIP_REACH, Grip, grip_of
from game.builder.ui.scene import draw_scene
from game.builder.ui.tools import tool
from game.builder.ui.viewport import Viewport
from game.draw.camera import Rect
from game.ui import Theme, Widget
from game.ui.modifiers import modifiers_held
from game.ui.widget import Position
from levels.draft import Draft
from levels.rules import Loc

__all__ = ["Canvas"]

PAN = 60.0  # px an arrow moves the picture
EDGE = 24.0  # px a grip that has the focus stays from the edge
WHEEL = 1.0  # notches of zoom a wheel notch is worth
NOWHERE_NEAR: tuple[Position, Grip | None] = ((-1.0, -1.0), None)


class Canvas(Widget):
    """Gives events to the grips, the tool in hand and the picture itself.

    `edit_numbers` leads to the numbers of what is picked, `on_focus` gives a widget the focus.
    """

    def __init__(
        self, editing: Editing, edit_numbers: Callable[[], None], on_focus: Callable[[Widget], None]
    ) -> None:
        super().__init__(
            "The course", tooltip="Everything on it can be dragged; Tab goes from object to object."
        )
        self.editing, self._edit_numbers, self.on_focus = editing, edit_numbers, on_focus
        self.viewport = Viewport(editing, self._moved)
        self.carry = Carry(editing, self.viewport)
        self.gesture = Gesture(editing, self.viewport, self._focus_object)
        self.backdrop = Backdrop()
        self.pointer: Position = (-1.0, -1.0)
        self.grips: tuple[Grip, ...] = ()
        self._shown: Draft | None = None  # the draft the grips are of
        self._near = NOWHERE_NEAR  # the pixel asked last and the grip there
        self._pan: tuple[Position, Eye] | None = None
        self._fitted = False

    # ---- what is there

    @property
    def parts(self) -> tuple[Widget, ...]:
        return self.grips

    def refresh(self) -> None:
        """The draft, the pick or the tool has changed: grips for what is there now."""
        self._near = NOWHERE_NEAR
        draft = self.editing.draft
        if draft is self._shown:
            return
        if self._shown is not None:
            self.viewport.follow(self._shown, draft)
        self._shown = draft
        old = {g.of.loc: g for g in self.grips}
        grips = []
        for handle in handles(draft):
            grip = old.get(handle.loc) or Grip(self, handle)
            grip.of, grip.within = handle, self
            grips.append(grip)
        self.grips = tuple(grips)
        self.viewport.look(self.viewport.eye)

    def forget(self) -> None:
        """Another document: look at all of it."""
        self._shown, self.grips, self._fitted = None, (), False
        self.refresh()
        self.viewport.fit()

    def _moved(self) -> None:
        """Every place lies on another pixel now."""
        self._near = NOWHERE_NEAR
        for grip in self.grips:
            grip.follow()

    def grip_of(self, loc: Loc | None) -> Grip | None:
        """The first grip of an object."""
        return grip_of(self.grips, loc)

    def grip_at(self, at: Position) -> Grip | None:
        """The grip a hand at that pixel would take; none while a tool is in hand."""
        if self.editing.tool != "move" or not super().hit(at):
            return None
        if self._near[0] != at:
            best, least = None, GRIP_REACH
            for g in self.grips:
                x, y = g.at
                far = max(abs(x - at[0]), abs(y - at[1])) + (0.0 if g.picked else 1.0)
                if far <= least and (best is None or far < least):
                    best, least = g, far
            self._near = (at, best)
        return self._near[1]

    @property
    def cross(self) -> tuple[float, float] | None:
        """The place (m) the tool in hand is aimed at, by keys or else by the pointer."""
        if self.focused and not self.gesture.by_hand:
            return self.gesture.place_cross()
        return self.viewport.snapped(self.pointer) if self.hovered else None

    # ---- looking

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self.viewport.place(rect, theme)
        if not self._fitted and rect.w > 50:
            self._fitted = True
            self.refresh()
            self.viewport.fit()

    def zoom(self, notches: float, at: Position | None = None) -> None:
        """Nearer or farther, about a pixel or the picked object or the middle."""
        if at is None:
            grip = self.grip_of(self.editing.picked)
            at = grip.at if grip else (self.rect.x + self.rect.w / 2, self.rect.y + self.rect.h / 2)
        self.viewport.zoom(notches, at)

    def reveal(self, part: Widget) -> None:
        if isinstance(part, Grip):
            self.viewport.reveal(part.at, EDGE)

    def edit_numbers(self) -> None:
        """To the numbers of what is picked."""
        self._edit_numbers()

    def _focus_object(self, loc: Loc) -> None:
        if grip := self.grip_of(loc):
            self.on_focus(grip)

    # ---- events

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEWHEEL:
            if modifiers_held(pygame.KMOD_SHIFT) or event.x:
                self.viewport.pan(-PAN * (event.x or -event.y), 0.0)
            else:
                self.zoom(WHEEL * event.y, self.pointer if self.hit(self.pointer) else None)
            return True
        if event.type == pygame.KEYDOWN:
            return self.gesture.key(event) or self._key(event)
        if tool(self.editing.tool).takes:
            return self.gesture.mouse(event)
        return self._mouse(event)

    def _mouse(self, event: pygame.event.Event) -> bool:
        """With no tool in hand: take a body, or push the picture about."""
        if event.type == pygame.MOUSEBUTTONDOWN:
            body = self.viewport.picker.inside(*self.viewport.world(event.pos))
            if body:
                self.carry.take(body, event.pos)
            else:
                self.editing.picked = None
                self._pan = (event.pos, self.viewport.eye)
        elif event.type == pygame.MOUSEMOTION and self.carry.handle:
            self.carry.move(event.pos)
        elif event.type == pygame.MOUSEMOTION and self._pan:
            self._push(*self._pan, event.pos)
        elif event.type == pygame.MOUSEBUTTONUP:
            body = self.carry.handle
            self._pan = None
            self.carry.let_go()
            if body:
                self._focus_object(body.loc)
        else:
            return False
        return True

    def _push(self, pressed: Position, eye: Eye, at: Position) -> None:
        self.viewport.look(eye.panned(at[0] - pressed[0], at[1] - pressed[1]))

    def drag_picture(self, event: pygame.event.Event) -> bool:
        """The middle or right button pushes the picture whatever is in hand."""
        if event.type == pygame.MOUSEBUTTONDOWN and event.button in (2, 3) and super().hit(event.pos):
            self._pan = (event.pos, self.viewport.eye)
        elif event.type == pygame.MOUSEMOTION and self._pan and not self.carry.handle:
            self._push(*self._pan, event.pos)
        elif event.type == pygame.MOUSEBUTTONUP and event.button in (2, 3):
            self._pan = None
        else:
            return False
        return True

    def _key(self, event: pygame.event.Event) -> bool:
        by = {
            pygame.K_LEFT: (PAN, 0.0), pygame.K_RIGHT: (-PAN, 0.0), pygame.K_UP: (0.0, PAN),
            pygame.K_DOWN: (0.0, -PAN),
        }.get(event.key)  # fmt: skip
        if by is None or event.mod & pygame.KMOD_CTRL:
            return False
        self.viewport.pan(*by)
        return True

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        draw_scene(surface, theme, self)
        self.draw_focus(surface, theme, self.rect.inset(2 * theme.ring))

    def leave(self) -> None:
        self._pan = None
        self.gesture.cancel()
