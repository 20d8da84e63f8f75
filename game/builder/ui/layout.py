"""Where the parts of the builder stand: all at once where there is room, else one at a time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from game.draw.camera import Rect
from game.ui import Theme, layout

if TYPE_CHECKING:
    from game.builder.ui.screen import Builder

__all__ = ["place_tight", "place_wide"]

PROOF = 0.36  # the same beside a proof, which is a picture, too
SHARE = 0.56  # of what tools, sentence and tabs leave: the course; the notes have the rest


def _sentence(b: Builder, inner: Rect, y: float, tall: float) -> None:
    b.sentence_at = Rect(inner.x, y, inner.w, tall)


def place_wide(b: Builder, box: Rect, theme: Theme) -> None:
    """Tools, course, a sentence, tabs, lanes."""
    gap, line = theme.gap, theme.type.line("label")
    inner = Rect(box.x + gap, box.y + gap / 2, box.w - 2 * gap, box.h - gap / 2)
    tall = b.tools.height(theme, inner.w)
    b.tools.place(Rect(inner.x, inner.y, inner.w, tall), theme)
    extra = b.surfaces.height(theme, inner.w) + gap / 2 if b.editing.tool == "surface" else 0.0
    acts = b.acts.width(theme)
    tabs = max(b.panel.bar.height(theme, inner.w - acts - 2 * gap), b.acts.height(theme, acts + 1))
    said = (1 if b.alone else 2) * line + gap / 2
    top = inner.y + tall + gap / 2
    rest = inner.bottom - top - extra - said - tabs - 1.5 * gap
    share = PROOF if b.panel.tab == "Prove" else SHARE
    high = round(rest + gap if b.alone else share * rest)
    if extra:
        b.surfaces.place(Rect(inner.x, top, inner.w, extra - gap / 2), theme)
    b.canvas.place(Rect(box.x, top + extra, box.w, high), theme)
    y = top + extra + high + gap / 2
    _sentence(b, Rect(inner.x + gap, 0, inner.w - 2 * gap, 0), y, said)
    y += said
    b.panel.bar.place(Rect(inner.x, y, inner.w - acts - 2 * gap, tabs), theme)
    b.acts.place(Rect(inner.right - acts, y, acts + 1, tabs), theme)
    y += tabs + gap / 2
    b.panel.place(Rect(inner.x, y, inner.w, max(box.bottom - y, 1.0)), theme)


def place_tight(b: Builder, box: Rect, theme: Theme) -> None:
    """One part at a time, chosen at the top."""
    gap, line = theme.gap, theme.type.line("label")
    inner = Rect(box.x + gap, box.y + gap / 2, box.w - 2 * gap, box.h - gap / 2)
    left, right = layout.split(Rect(inner.x, inner.y, inner.w, theme.target), (0.8, 1.0), 2 * gap)
    tall = b.view_pick.height(theme, left.w)
    b.view_pick.place(Rect(left.x, left.y, left.w, tall), theme)
    y = inner.y + tall + gap
    if b.view == 0:
        b.tool_pick.place(Rect(right.x, right.y, right.w, b.tool_pick.height(theme, right.w)), theme)
        if b.editing.tool == "surface":
            extra = b.surfaces.height(theme, inner.w)
            b.surfaces.place(Rect(inner.x, y, inner.w, extra), theme)
            y += extra + gap / 2
        said = 2 * line
        b.canvas.place(Rect(box.x, y, box.w, max(inner.bottom - y - said - gap / 2, 60.0)), theme)
        _sentence(b, Rect(inner.x, 0, inner.w, 0), inner.bottom - said, said)
    else:
        acts = b.acts.height(theme, right.w)
        b.acts.place(Rect(right.x, right.y, right.w, acts), theme)
        y = max(y, right.y + acts + gap / 2)
        b.panel.place(Rect(inner.x, y, inner.w, max(box.bottom - y, 1.0)), theme)
