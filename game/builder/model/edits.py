"""Every edit of the Builder in one place: pure functions from a draft to another."""

from game.builder.model.ground_edits import (
    delete_point,
    draw_ground,
    insert_point,
    move_point,
    paint,
    smooth,
)
from game.builder.model.handles import DragHandle, drag, handles
from game.builder.model.hazard_edits import (
    KINDS,
    add_bunker,
    add_hazard,
    duplicate_hazard,
    move_hazard,
    remove_hazard,
    resize_hazard,
)
from game.builder.model.shot_edits import (
    move_ball,
    move_hole,
    set_lie,
    set_value,
    toggle_club,
    toggle_control,
)
from game.builder.model.starts import STARTS, new_draft

__all__ = [
    "KINDS", "STARTS", "DragHandle", "add_bunker", "add_hazard", "delete_point", "drag", "draw_ground",
    "duplicate_hazard", "handles", "insert_point", "move_ball", "move_hazard", "move_hole", "move_point",
    "new_draft", "paint", "remove_hazard", "resize_hazard", "set_lie", "set_value", "smooth", "toggle_club",
    "toggle_control",
]  # fmt: skip
