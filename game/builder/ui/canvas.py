"""The page of the builder: the course at true scale, everything on it within reach."""

from __future__ import annotations

from collections.abc import Callable
from statistics import median

import pygame

from game.builder.model.edits import drag, handles
from game.builder.model.handles import DragHandle
from game.builder.model.pick import Picker
from game.builder.model.profile import height, profile
from game.builder.ui.backdrop import Backdrop
from game.builder.ui.editing import Editing, object_of
from game.builder.ui.eye import Eye, grid_step
from game.builder.ui.gesture import Gesture
from game.builder.ui.grip import GRIP_REACH, Grip
from game.builder.ui.scene import draw_scene
from game.builder.ui.tools import tool
from game.draw.camera import Camera, Rect
from game.ui import Theme, Widget
from game.ui.modifiers import held
from game.ui.widget import Position
from levels.draft import Draft

__all__ = ["Canvas"]

FINE_STEP = 3.5  # px of a grid step at least
NEAR = 7.0  # px within which a hand snaps to another thing
PAN = 60.0  # px an arrow moves the picture
WHEEL = 1.0  # notches of zoom a wheel notch is worth


def frame_shift(old: Draft, new: Draft) -> tuple[float, float]:
    """How far (m) everything moved because the ball lies elsewhere now: the frame of all numbers."""
    a, b = profile(old), profile(new)
    if len(a) != len(b) or not a:
        return 0.0, 0.0
    return median(q.x - p.x for p, q in zip(a, b, strict=True)), median(
        q.y - p.y for p, q in zip(a, b, strict=True)
    )


def tree_tops(d: Draft) -> list[float]:
    """Heights (m) of the tops of trees."""
    held = {(h.loc[1], h.loc[-1]): h for h in handles(d) if h.kind == "size"}
    edges = [(h, held.get((i, "radius_m"))) for (i, key), h in held.items() if key == "trunk_m"]
    return [mid.y + abs(edge.x - mid.x) for mid, edge in edges if edge]


class Canvas(Widget):
    """Takes hold, pans, zooms; what a tool does is in `view_strokes`, what is drawn in `view_scene`."""

    def __init__(
        self, editing: Editing, on_edit: Callable[[], None], on_focus: Callable[[Widget], None]
    ) -> None:
        super().__init__(
            "The course", tooltip="Everything on it can be dragged; Tab goes from thing to thing."
        )
        self.editing, self.on_edit, self.on_focus = editing, on_edit, on_focus
        self.eye = Eye()
        self.camera = Camera(1.0, 0.0, 0.0)
        self.backdrop = Backdrop()
        self.frame = (0.0, 0.0)  # m, where the numbers' origin lies on the page
        self.pointer: Position = (-1.0, -1.0)
        self.gesture = Gesture(self)
        self.theme = Theme()
        self._grips: tuple[Grip, ...] = ()
        self._seen: Draft | None = None
        self._near: tuple[Position, Grip | None] = ((-1.0, -1.0), None)
        self._pan: tuple[Position, Eye] | None = None
        self._drag: tuple[DragHandle, Draft, Camera, Position, Picker] | None = None
        self._fitted = False
        self._asked: tuple[Draft, Picker] | None = None

    # ---- what is there

    @property
    def parts(self) -> tuple[Widget, ...]:
        return self._grips

    @property
    def grips(self) -> tuple[Grip, ...]:
        return self._grips

    @property
    def stale(self) -> bool:
        """Whether the picture below is not of the draft as it stands."""
        return self.editing.scenario is None or not self.backdrop.fresh

    @property
    def step(self) -> float:
        """The grid's step (m) at this zoom."""
        return max(grid_step(self.eye.scale, self.editing.yards, FINE_STEP), 0.01)

    @property
    def snap(self) -> float:
        """The step to snap to; 0 while snapping is off or Alt is held."""
        return self.step if self.editing.snapping and not held(pygame.KMOD_ALT) else 0.0

    def refresh(self) -> None:
        """The draft has changed: grips for what is there now, each kept as long as its thing is."""
        draft = self.editing.draft
        if draft is not self._seen:
            if self._seen is not None:
                sx, sy = frame_shift(self._seen, draft)
                self.frame = (self.frame[0] + sx, self.frame[1] + sy)
                self.eye = Eye(self.eye.scale, self.eye.x + sx, self.eye.y + sy)
            self._seen = draft
            old = {g.of.loc: g for g in self._grips}
            grips = []
            for handle in handles(draft):
                grip = old.get(handle.loc) or Grip(self, handle)
                grip.of = handle
                grips.append(grip)
            self._grips = tuple(grips)
        self._aim()

    def forget(self) -> None:
        """Another file: look at all of it."""
        self._seen, self._grips, self._fitted = None, (), False
        self.refresh()
        self.fit()

    def grip_of(self, loc: tuple[str | int, ...] | None) -> Grip | None:
        """The first grip of a thing."""
        return next((g for g in self._grips if loc is not None and g.loc == object_of(loc)), None)

    def grip_at(self, at: Position) -> Grip | None:
        """The grip a hand at that pixel would take; none while a tool is in hand."""
        if self.editing.tool != "move" or not super().hit(at):
            return None
        if self._near[0] != at:
            best, least = None, GRIP_REACH
            for g in self._grips:
                x, y = g.at
                far = max(abs(x - at[0]), abs(y - at[1])) + (0.0 if g.picked else 1.0)
                if far <= least and (best is None or far < least):
                    best, least = g, far
            self._near = (at, best)
        return self._near[1]

    # ---- looking

    def place(self, rect: Rect, theme: Theme) -> None:
        old = self.rect
        super().place(rect, theme)
        self.theme = theme
        if not self._fitted and rect.w > 50:
            self._fitted = True
            self.refresh()
            self.fit()
        elif old.w and (old.w, old.h) != (rect.w, rect.h) and old.w > 50:
            eye, scale = self.eye, self.eye.scale * rect.w / old.w
            foot = eye.y - old.h / 2 / eye.scale  # what lies at the foot stays there
            self.eye = Eye(scale, eye.x, foot + rect.h / 2 / scale)
        self._aim()

    def _aim(self) -> None:
        ground = profile(self.editing.draft)
        left, right = (ground[0].x, ground[-1].x) if ground else (-10.0, 30.0)
        low = min((p.y for p in ground), default=0.0)
        self.eye = self.eye.clamped(self.rect, left - 5.0, right + 5.0, low)
        self.camera = self.eye.camera(self.rect)
        self._near = ((-1.0, -1.0), None)
        for g in self._grips:
            g.settle()

    def fit(self) -> None:
        """All that is on the course, as large as it goes."""
        ground = profile(self.editing.draft)
        xs = [p.x for p in ground] or [-8.0, 20.0]
        ys = (
            [p.y for p in ground] + [h.y for h in handles(self.editing.draft)] + tree_tops(self.editing.draft)
        )
        earth = 2.2 * self.theme.type.line("small") + 14.0
        self.eye = Eye.fit(self.rect, min(xs) - 0.5, max(xs) + 0.5, min(ys), max(*ys, 2.6), earth)
        self._aim()

    def zoom(self, notches: float, at: Position | None = None) -> None:
        """Nearer or farther, about a pixel or the picked thing or the middle."""
        if at is None:
            grip = self.grip_of(self.editing.picked)
            at = grip.at if grip else (self.rect.x + self.rect.w / 2, self.rect.y + self.rect.h / 2)
        self.eye = self.eye.zoomed(notches, at, self.rect)
        self._aim()

    def pan(self, dx: float, dy: float) -> None:
        """Move the picture by so many pixels."""
        self.eye = self.eye.panned(dx, dy)
        self._aim()

    def reveal(self, part: Widget) -> None:
        if isinstance(part, Grip):
            (x, y), r, edge = part.at, self.rect, 24.0
            dx = max(r.x + edge - x, 0.0) + min(r.right - edge - x, 0.0)
            dy = max(r.y + edge - y, 0.0) + min(r.bottom - edge - y, 0.0)
            if dx or dy:
                self.pan(dx, dy)

    def world(self, at: Position) -> tuple[float, float]:
        """The place (m) under a pixel."""
        return self.camera.world(at[0] - self.rect.x, at[1] - self.rect.y)

    def ground_y(self, x: float) -> float:
        """Height (m) of the draft's ground."""
        return height(profile(self.editing.draft), x)

    @property
    def picker(self) -> Picker:
        """What answers for the draft as it stands; one is kept as long as its draft is."""
        draft = self.editing.draft
        if self._asked is None or self._asked[0] is not draft:
            self._asked = (draft, Picker(draft))
        return self._asked[1]

    def snapped(self, at: Position) -> tuple[float, float]:
        """The place a hand at that pixel means."""
        x, y = self.world(at)
        if not self.snap:
            return x, y
        return self.picker.snap(x, y, self.snap, NEAR / self.eye.scale)[:2]

    # ---- carrying

    def take(self, handle: DragHandle, at: Position) -> None:
        """Take hold of a handle at that pixel."""
        self.editing.settle()
        self.editing.picked = object_of(handle.loc)
        x, y = self.camera.at(handle.x, handle.y)
        off = (self.rect.x + x - at[0], self.rect.y + y - at[1])
        draft = self.editing.draft
        self._drag = (handle, draft, self.camera, off, self.picker)
        self.editing.dragging = True

    def carry(self, at: Position) -> None:
        """Move what was taken; every step counts from where it was taken."""
        if self._drag is None:
            return
        handle, draft, camera, off, picker = self._drag
        x, y = camera.world(at[0] + off[0] - self.rect.x, at[1] + off[1] - self.rect.y)
        if self.snap:
            x, y, _ = picker.snap(x, y, self.snap, NEAR / self.eye.scale, handle)
        if not self.editing.do(f"move the {handle.label}", drag(draft, handle, x, y), "carry"):
            self.refresh()

    def let_go(self) -> None:
        """The drag is over: one step."""
        self._drag, self.editing.dragging = None, False
        self.editing.settle()

    @property
    def carrying(self) -> bool:
        return self._drag is not None

    def nudge(self, handle: DragHandle, dx: float, dy: float) -> None:
        """Move a handle by so much (m), by keys."""
        draft = self.editing.draft
        self.editing.picked = object_of(handle.loc)
        moved = drag(draft, handle, handle.x + dx, handle.y + dy)
        if not self.editing.do(f"move the {handle.label}", moved, f"nudge {handle.loc}"):
            self.editing.say(f"The {handle.label} cannot go further that way.")

    # ---- events

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEWHEEL:
            if held(pygame.KMOD_SHIFT) or event.x:
                self.pan(-PAN * (event.x or -event.y), 0.0)
            else:
                self.zoom(WHEEL * event.y, self.pointer if self.hit(self.pointer) else None)
            return True
        if event.type == pygame.KEYDOWN:
            return self.gesture.key(event) or self._key(event)
        if tool(self.editing.tool).takes:
            return self.gesture.mouse(event)
        return self._move(event)

    def _move(self, event: pygame.event.Event) -> bool:
        """With nothing but the hand: take a body, or push the picture about."""
        if event.type == pygame.MOUSEBUTTONDOWN:
            body = self.picker.inside(*self.world(event.pos))
            if body:
                self.take(body, event.pos)
            else:
                self.editing.picked = None
                self._pan = (event.pos, self.eye)
        elif event.type == pygame.MOUSEMOTION and self._drag:
            self.carry(event.pos)
        elif event.type == pygame.MOUSEMOTION and self._pan:
            self._push(event.pos)
        elif event.type == pygame.MOUSEBUTTONUP:
            body = self._drag[0] if self._drag else None
            self._pan = None
            self.let_go()
            if body and (grip := self.grip_of(body.loc)):
                self.on_focus(grip)
        else:
            return False
        return True

    def _push(self, at: Position) -> None:
        assert self._pan is not None
        (x, y), eye = self._pan
        self.eye = eye.panned(at[0] - x, at[1] - y)
        self._aim()

    def drag_picture(self, event: pygame.event.Event) -> bool:
        """The middle or right button pushes the picture whatever is in hand."""
        if event.type == pygame.MOUSEBUTTONDOWN and event.button in (2, 3) and super().hit(event.pos):
            self._pan = (event.pos, self.eye)
        elif event.type == pygame.MOUSEMOTION and self._pan and not self._drag:
            self._push(event.pos)
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
        self.pan(*by)
        return True

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        draw_scene(surface, theme, self)
        self.draw_focus(surface, theme, self.rect.inset(2 * theme.ring))

    def leave(self) -> None:
        self._pan = None
        self.gesture.cancel()
