"""Boxes from boxes: pure functions that never let two boxes overlap."""

from collections.abc import Sequence

from game.draw.camera import Rect

__all__ = ["column", "flow", "grid", "in_row", "split", "take"]


def column(box: Rect, heights: Sequence[float], gap: float = 0.0) -> tuple[Rect, ...]:
    """Boxes of these heights under each other, as wide as the box; they may run out at its foot."""
    out, y = [], box.y
    for h in heights:
        out.append(Rect(box.x, y, box.w, h))
        y += h + gap
    return tuple(out)


def in_row(box: Rect, widths: Sequence[float], gap: float = 0.0) -> tuple[Rect, ...]:
    """Boxes of these widths beside each other, as high as the box."""
    out, x = [], box.x
    for w in widths:
        out.append(Rect(x, box.y, w, box.h))
        x += w + gap
    return tuple(out)


def split(box: Rect, shares: Sequence[float], gap: float = 0.0, down: bool = False) -> tuple[Rect, ...]:
    """The whole box in these shares, beside or (`down`) under each other."""
    room = max((box.h if down else box.w) - gap * (len(shares) - 1), 0.0)
    sizes = [room * s / sum(shares) for s in shares]
    return column(box, sizes, gap) if down else in_row(box, sizes, gap)


def take(box: Rect, top: float = 0.0, bottom: float = 0.0, gap: float = 0.0) -> tuple[Rect, Rect, Rect]:
    """Head of height `top`, foot of height `bottom` and what is left between them."""
    head = Rect(box.x, box.y, box.w, top)
    foot = Rect(box.x, box.bottom - bottom, box.w, bottom)
    y = head.bottom + (gap if top else 0.0)
    return head, Rect(box.x, y, box.w, max(foot.y - (gap if bottom else 0.0) - y, 0.0)), foot


def grid(box: Rect, columns: int, count: int, height: float, gap: float = 0.0) -> tuple[Rect, ...]:
    """`count` equal boxes of this height in so many columns, row by row."""
    wide = split(Rect(box.x, box.y, box.w, height), [1.0] * columns, gap)
    return tuple(
        Rect(wide[i % columns].x, box.y + (i // columns) * (height + gap), wide[i % columns].w, height)
        for i in range(count)
    )


def flow(box: Rect, widths: Sequence[float], height: float, gap: float = 0.0) -> tuple[Rect, ...]:
    """Boxes of these widths in as many rows as they need; a wider one is held to the box."""
    out: list[Rect] = []
    x, y = box.x, box.y
    for w in (min(w, box.w) for w in widths):
        if out and x + w > box.right + 0.5:
            x, y = box.x, y + height + gap
        out.append(Rect(x, y, w, height))
        x += w + gap
    return tuple(out)
