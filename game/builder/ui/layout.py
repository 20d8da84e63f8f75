"""The boxes of the parts of the Builder's page: all at once where there is room, else one part at a time."""

from dataclasses import dataclass

from game.draw.camera import Rect
from game.ui import layout

__all__ = ["PageBoxes", "TightSizes", "WideSizes", "inside", "tight_boxes", "tight_head", "wide_boxes"]

PROOF_SHARE = 0.36  # of what tools, sentence and tabs leave: the course beside a proof, a picture, too
COURSE_SHARE = 0.56  # the course beside any other tab; the notes have the rest
LEAST = 60.0  # px of height the course always has where it stands alone


@dataclass(frozen=True)
class PageBoxes:
    """A box (px) for every part that shows; None for those that do not."""

    panel: Rect | None = None
    canvas: Rect | None = None
    sentence: Rect | None = None
    surfaces: Rect | None = None
    actions: Rect | None = None
    tools: Rect | None = None
    tabs: Rect | None = None
    part_choice: Rect | None = None
    tool_choice: Rect | None = None


@dataclass(frozen=True)
class WideSizes:
    """Natural sizes (px): heights of tools, the row of surfaces (0 for none), the row of tabs and actions,
    and a line of the sentence; the width of the actions."""

    tools: float
    surfaces: float
    tabs: float
    line: float
    actions_width: float


@dataclass(frozen=True)
class TightSizes:
    """Natural heights (px) of choices, the row of surfaces (0 for none), actions, a line of the sentence."""

    part_choice: float
    tool_choice: float
    surfaces: float
    actions: float
    line: float


def inside(box: Rect, gap: float) -> Rect:
    """The page without its margins; no margin at the foot."""
    return Rect(box.x + gap, box.y + gap / 2, box.w - 2 * gap, box.h - gap / 2)


def wide_boxes(box: Rect, gap: float, sizes: WideSizes, *, course_only: bool, proof: bool) -> PageBoxes:
    """From top to foot: tools, surfaces, course, its sentence, tabs and actions, the panel."""
    inner = inside(box, gap)
    extra = sizes.surfaces + gap / 2 if sizes.surfaces else 0.0
    sentence = (1 if course_only else 2) * sizes.line + gap / 2
    top = inner.y + sizes.tools + gap / 2
    rest = inner.bottom - top - extra - sentence - sizes.tabs - 1.5 * gap
    share = PROOF_SHARE if proof else COURSE_SHARE
    high = round(rest + gap if course_only else share * rest)
    told = top + extra + high + gap / 2
    row = told + sentence
    foot = row + sizes.tabs + gap / 2
    acts = sizes.actions_width
    return PageBoxes(
        tools=Rect(inner.x, inner.y, inner.w, sizes.tools),
        surfaces=Rect(inner.x, top, inner.w, extra - gap / 2) if extra else None,
        canvas=Rect(box.x, top + extra, box.w, high),
        sentence=Rect(inner.x + gap, told, inner.w - 2 * gap, sentence),
        tabs=Rect(inner.x, row, inner.w - acts - 2 * gap, sizes.tabs),
        actions=Rect(inner.right - acts, row, acts + 1, sizes.tabs),
        panel=Rect(inner.x, foot, inner.w, max(box.bottom - foot, 1.0)),
    )


def tight_head(box: Rect, gap: float, target: float) -> tuple[Rect, Rect]:
    """The two places at the top of a tight page: which part shows, and what belongs to it."""
    inner = inside(box, gap)
    left, right = layout.split(Rect(inner.x, inner.y, inner.w, target), (0.8, 1.0), 2 * gap)
    return left, right


def tight_boxes(box: Rect, gap: float, target: float, sizes: TightSizes, *, course: bool) -> PageBoxes:
    """One part at a time: the course with its tool and sentence, or the panel with the actions."""
    inner = inside(box, gap)
    left, right = tight_head(box, gap, target)
    choice = Rect(left.x, left.y, left.w, sizes.part_choice)
    y = inner.y + sizes.part_choice + gap
    if not course:
        y = max(y, right.y + sizes.actions + gap / 2)
        return PageBoxes(
            part_choice=choice,
            actions=Rect(right.x, right.y, right.w, sizes.actions),
            panel=Rect(inner.x, y, inner.w, max(box.bottom - y, 1.0)),
        )
    surfaces = Rect(inner.x, y, inner.w, sizes.surfaces) if sizes.surfaces else None
    if surfaces:
        y += sizes.surfaces + gap / 2
    sentence = 2 * sizes.line
    return PageBoxes(
        part_choice=choice,
        tool_choice=Rect(right.x, right.y, right.w, sizes.tool_choice),
        surfaces=surfaces,
        canvas=Rect(box.x, y, box.w, max(inner.bottom - y - sentence - gap / 2, LEAST)),
        sentence=Rect(inner.x, inner.bottom - sentence, inner.w, sentence),
    )
