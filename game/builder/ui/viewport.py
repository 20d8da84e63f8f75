"""The part of the course the canvas shows: where it looks, and which place of the course a pixel means."""

from collections.abc import Callable
from statistics import median

import pygame

from game.builder.model.edits import handles
from game.builder.model.handles import DragHandle
from game.builder.model.pick import Picker
from game.builder.model.profile import height, profile
from game.builder.ui.editing import Editing
from game.builder.ui.eye import Eye, grid_step
from game.draw.camera import Camera, Rect
from game.ui import Theme
from game.ui.modifiers import modifiers_held
from game.ui.widget import NOWHERE, Position
from levels.draft import Draft

__all__ = ["Viewport"]

FINE_STEP = 3.5  # px of a grid step at least
NEAR = 7.0  # px within which a hand snaps to another object


def _origin_shift(old: Draft, new: Draft) -> tuple[float, float]:
    """How far (m) everything moved because the ball lies elsewhere now: the origin of all numbers."""
    a, b = profile(old), profile(new)
    if len(a) != len(b) or not a:
        return 0.0, 0.0
    return median(q.x - p.x for p, q in zip(a, b, strict=True)), median(
        q.y - p.y for p, q in zip(a, b, strict=True)
    )


def _tree_tops(d: Draft) -> list[float]:
    """Heights (m) of the tops of trees."""
    sizes = {(h.loc[1], h.loc[-1]): h for h in handles(d) if h.kind == "size"}
    edges = [(h, sizes.get((i, "radius_m"))) for (i, key), h in sizes.items() if key == "trunk_m"]
    return [mid.y + abs(edge.x - mid.x) for mid, edge in edges if edge]


class Viewport:
    """Eye, camera and box of the picture. `on_move` is called whenever a place lies on another pixel now."""

    def __init__(self, editing: Editing, on_move: Callable[[], None]) -> None:
        self.editing, self.on_move = editing, on_move
        self.rect, self.theme = NOWHERE, Theme()
        self.eye, self.camera = Eye(), Camera(1.0, 0.0, 0.0)
        self.origin = (0.0, 0.0)  # m, where the numbers' origin lies on the page
        self._picker: tuple[Draft, Picker] | None = None

    # ---- looking

    def place(self, rect: Rect, theme: Theme) -> None:
        """Another box on the screen; what lies at the foot of the picture stays there."""
        old, self.rect, self.theme = self.rect, rect, theme
        if old.w > 50 and (old.w, old.h) != (rect.w, rect.h):
            eye, scale = self.eye, self.eye.scale * rect.w / old.w
            foot = eye.y - old.h / 2 / eye.scale
            self.eye = Eye(scale, eye.x, foot + rect.h / 2 / scale)
        self.look(self.eye)

    def look(self, eye: Eye) -> None:
        """Look there, as far as the ground stays in sight."""
        ground = profile(self.editing.draft)
        left, right = (ground[0].x, ground[-1].x) if ground else (-10.0, 30.0)
        low = min((p.y for p in ground), default=0.0)
        self.eye = eye.clamped(self.rect, left - 5.0, right + 5.0, low)
        self.camera = self.eye.camera(self.rect)
        self.on_move()

    def follow(self, old: Draft, new: Draft) -> None:
        """Let the picture stay although the ball, from which all numbers count, may lie elsewhere."""
        dx, dy = _origin_shift(old, new)
        self.origin = (self.origin[0] + dx, self.origin[1] + dy)
        self.eye = Eye(self.eye.scale, self.eye.x + dx, self.eye.y + dy)

    def fit(self) -> None:
        """All that is on the course, as large as it goes."""
        draft = self.editing.draft
        ground = profile(draft)
        xs = [p.x for p in ground] or [-8.0, 20.0]
        ys = [p.y for p in ground] + [h.y for h in handles(draft)] + _tree_tops(draft)
        earth = 2.2 * self.theme.type.line("small") + 14.0
        self.look(Eye.fit(self.rect, min(xs) - 0.5, max(xs) + 0.5, min(ys), max(*ys, 2.6), earth))

    def zoom(self, notches: float, at: Position) -> None:
        """Nearer or farther; the place under that pixel stays there."""
        self.look(self.eye.zoomed(notches, at, self.rect))

    def pan(self, dx: float, dy: float) -> None:
        """Move the picture by so many pixels."""
        self.look(self.eye.panned(dx, dy))

    def reveal(self, at: Position, edge: float) -> None:
        """Move the picture until that pixel lies so far (px) inside its edges."""
        r = self.rect
        dx = max(r.x + edge - at[0], 0.0) + min(r.right - edge - at[0], 0.0)
        dy = max(r.y + edge - at[1], 0.0) + min(r.bottom - edge - at[1], 0.0)
        if dx or dy:
            self.pan(dx, dy)

    # ---- places and pixels

    def world(self, at: Position) -> tuple[float, float]:
        """The place (m) under a pixel."""
        return self.camera.world(at[0] - self.rect.x, at[1] - self.rect.y)

    def pixel(self, x: float, y: float) -> Position:
        """The pixel of a place (m)."""
        px, py = self.camera.at(x, y)
        return self.rect.x + px, self.rect.y + py

    def ground_y(self, x: float) -> float:
        """Height (m) of the draft's ground."""
        return height(profile(self.editing.draft), x)

    # ---- snapping

    @property
    def step(self) -> float:
        """The grid's step (m) at this zoom."""
        return max(grid_step(self.eye.scale, self.editing.yards, FINE_STEP), 0.01)

    @property
    def snap_step(self) -> float:
        """The step (m) to snap to; 0 while snapping is off or Alt is held."""
        return self.step if self.editing.snapping and not modifiers_held(pygame.KMOD_ALT) else 0.0

    @property
    def picker(self) -> Picker:
        """What answers for the draft as it stands; one is kept as long as its draft is."""
        draft = self.editing.draft
        if self._picker is None or self._picker[0] is not draft:
            self._picker = (draft, Picker(draft))
        return self._picker[1]

    def snapped(self, at: Position) -> tuple[float, float]:
        """The place (m) a hand at that pixel means."""
        x, y = self.world(at)
        return self.snapped_place(x, y, self.picker)

    def snapped_place(
        self, x: float, y: float, picker: Picker, without: DragHandle | None = None
    ) -> tuple[float, float]:
        """The place (m) on the grid, the ground or another object that (x, y) is near to."""
        if not self.snap_step:
            return x, y
        return picker.snap(x, y, self.snap_step, NEAR / self.eye.scale, without)[:2]
