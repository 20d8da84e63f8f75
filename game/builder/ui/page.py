"""The widgets of the Builder's page: which of them show, and putting each into its box."""

from collections.abc import Sequence
from dataclasses import dataclass

from game.builder.ui.canvas import Canvas
from game.builder.ui.layout import (
    PageBoxes,
    TightSizes,
    WideSizes,
    inside,
    tight_boxes,
    tight_head,
    wide_boxes,
)
from game.builder.ui.panel import Panel
from game.builder.ui.surfaces import SurfaceRow
from game.builder.ui.toolbar import Toolbar
from game.draw.camera import Rect
from game.ui import Choice, Row, Theme, Widget

__all__ = ["Page", "Showing"]

NARROW, LOW = 110.0, 70.0  # steps of the rhythm below which one part shows at a time


@dataclass(frozen=True)
class Showing:
    """What decides which widgets show: `tight` shows either the course or the panel, else all show but what
    `course_only` leaves out; `surfaces`: whether surfaces are laid, `proof`: whether its tab is in front."""

    tight: bool
    course: bool  # where tight: the course, not the panel
    course_only: bool
    surfaces: bool
    proof: bool


@dataclass(frozen=True)
class Page:
    """All widgets of the Builder. `actions` mend and play; `part_choice` chooses the part where tight."""

    toolbar: Toolbar
    surfaces: SurfaceRow
    canvas: Canvas
    panel: Panel
    actions: Row
    part_choice: Choice

    @staticmethod
    def is_tight(box: Rect, theme: Theme) -> bool:
        """Whether there is room for one part at a time only."""
        return box.w < NARROW * theme.gap or box.h < LOW * theme.gap

    def widgets(self, showing: Showing) -> Sequence[Widget]:
        """Those that show, in Tab order."""
        surfaces = (self.surfaces,) if showing.surfaces else ()
        if showing.tight and showing.course:
            return (self.part_choice, self.toolbar.choice, *surfaces, self.canvas)
        if showing.tight:
            return (self.part_choice, self.actions, *self.panel.columns)
        notes = () if showing.course_only else self.panel.columns
        return (self.toolbar.row, self.canvas, *surfaces, self.panel.bar, self.actions, *notes)

    def place(self, box: Rect, theme: Theme, showing: Showing) -> PageBoxes:
        """Put what shows into its boxes, which are given back."""
        boxes = (self._tight if showing.tight else self._wide)(box, theme, showing)
        for part, place in (
            (self.toolbar.row, boxes.tools), (self.surfaces, boxes.surfaces), (self.canvas, boxes.canvas),
            (self.panel.bar, boxes.tabs), (self.actions, boxes.actions), (self.panel, boxes.panel),
            (self.part_choice, boxes.part_choice), (self.toolbar.choice, boxes.tool_choice),
        ):  # fmt: skip
            if place:
                part.place(place, theme)
        return boxes

    def _wide(self, box: Rect, theme: Theme, showing: Showing) -> PageBoxes:
        width, acts = inside(box, theme.gap).w, self.actions.width(theme)
        bar = self.panel.bar.height(theme, width - acts - 2 * theme.gap)
        sizes = WideSizes(
            tools=self.toolbar.row.height(theme, width),
            surfaces=self.surfaces.height(theme, width) if showing.surfaces else 0.0,
            tabs=max(bar, self.actions.height(theme, acts + 1)),
            line=theme.type.line("label"),
            actions_width=acts,
        )
        return wide_boxes(box, theme.gap, sizes, course_only=showing.course_only, proof=showing.proof)

    def _tight(self, box: Rect, theme: Theme, showing: Showing) -> PageBoxes:
        left, right = tight_head(box, theme.gap, theme.target)
        width = inside(box, theme.gap).w
        sizes = TightSizes(
            part_choice=self.part_choice.height(theme, left.w),
            tool_choice=self.toolbar.choice.height(theme, right.w),
            surfaces=self.surfaces.height(theme, width) if showing.surfaces else 0.0,
            actions=self.actions.height(theme, right.w),
            line=theme.type.line("label"),
        )
        return tight_boxes(box, theme.gap, theme.target, sizes, course=showing.course)
