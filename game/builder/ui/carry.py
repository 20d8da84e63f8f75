"""Moving an object on the course: dragged by the pointer, or by so many metres with keys."""

from dataclasses import dataclass

from game.builder.model.edits import drag
from game.builder.model.handles import DragHandle
from game.builder.model.pick import Picker
from game.builder.ui.editing import Editing, object_of
from game.builder.ui.viewport import Viewport
from game.draw.camera import Camera
from game.ui.widget import Position
from levels.draft import Draft

__all__ = ["Carry"]


@dataclass(frozen=True)
class _Taken:
    """What was taken, and all as it was then: every move counts from there."""

    handle: DragHandle
    draft: Draft
    camera: Camera
    off: Position  # px from the pointer to the handle
    picker: Picker


class Carry:
    """At most one handle in the hand; a whole drag is one step of the history."""

    def __init__(self, editing: Editing, viewport: Viewport) -> None:
        self.editing, self.viewport = editing, viewport
        self._taken: _Taken | None = None

    @property
    def handle(self) -> DragHandle | None:
        """The handle in the hand, as it was when it was taken."""
        return self._taken.handle if self._taken else None

    def take(self, handle: DragHandle, at: Position) -> None:
        """Take hold of a handle at that pixel."""
        editing, viewport = self.editing, self.viewport
        editing.settle()
        editing.picked = object_of(handle.loc)
        x, y = viewport.pixel(handle.x, handle.y)
        off = (x - at[0], y - at[1])
        self._taken = _Taken(handle, editing.draft, viewport.camera, off, viewport.picker)
        editing.dragging = True

    def move(self, at: Position) -> None:
        """Move what was taken to that pixel."""
        if self._taken is None:
            return
        handle, off, box = self._taken.handle, self._taken.off, self.viewport.rect
        x, y = self._taken.camera.world(at[0] + off[0] - box.x, at[1] + off[1] - box.y)
        x, y = self.viewport.snapped_place(x, y, self._taken.picker, handle)
        self.editing.do(f"move the {handle.label}", drag(self._taken.draft, handle, x, y), "carry")

    def let_go(self) -> None:
        """The drag is over: one step."""
        self._taken, self.editing.dragging = None, False
        self.editing.settle()

    def nudge(self, handle: DragHandle, dx: float, dy: float) -> None:
        """Move a handle by so much (m)."""
        editing = self.editing
        editing.picked = object_of(handle.loc)
        moved = drag(editing.draft, handle, handle.x + dx, handle.y + dy)
        if not editing.do(f"move the {handle.label}", moved, f"nudge {handle.loc}"):
            editing.say(f"The {handle.label} cannot go further that way.")
