"""Words of the turf window: on plates, each with a hair to its mark, none on another or on the head."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import isfinite

import pygame

from game.draw import turf
from game.draw.camera import Camera, Rect
from game.draw.type import Word
from game.shot_view.spots import PAD, clear_of
from game.shot_view.stance import Intent
from game.text.mark import TurfKind, TurfMark, turf_mark_words
from game.text.quantity import angle_words
from game.ui import Theme, paint
from game.ui.supersample import rail_of
from physics.results import Shot

__all__ = ["Said", "beside", "draw_words", "said"]

UNDER = 0.014  # m under the deepest ground at which the marks of the path stand
EDGE = 8.0  # px kept between a mark and the side of the window
Point = tuple[float, float]


@dataclass(frozen=True)
class Said:
    """Words in their places, and for those at the foot the mark (px) each points to; the flat spot's
    bracket from left to right, if it is named."""

    words: tuple[Word, ...]
    leaders: tuple[tuple[Word, Point], ...] = ()
    bracket: tuple[Point, Point] | None = None

    @property
    def plates(self) -> tuple[Rect, ...]:
        """The boxes that are painted over."""
        return tuple(Rect(w.box.x - PAD, w.box.y, w.box.w + 2 * PAD, w.box.h) for w in self.words)


def _depth_of_marks(intent: Intent, struck: Shot | None) -> float:
    """Height (m, on the slope) at which the flat spot is marked: under any ground cut."""
    deep = max(0.0, -min(intent.trail[1], default=0.0), struck.strike.depth if struck else 0.0)
    return -deep - UNDER


def said(
    theme: Theme, size: tuple[int, int], camera: Camera, intent: Intent, struck: Shot | None,
    numbers: bool, heads: Sequence[Sequence[Point]], every: float, lowest: Point, angles: bool = True,
) -> Said:  # fmt: skip
    """Place the words. `heads` are shapes (px) of head and shaft to keep clear of at the top; `every`
    (s) is the gap of the strobe, 0 where it does not show; `lowest` (m) the low point's place on its path;
    `angles` whether those at the ball are told in a corner."""
    type_, (w, h) = theme.type, size
    line, gap = type_.line("small"), theme.gap
    level = _depth_of_marks(intent, struck)
    low = struck.swing.low_point if struck else intent.low_point
    flat = struck.swing.flat_spot if struck else intent.flat_spot
    named = turf.marks(struck) if struck and numbers else (TurfMark(TurfKind.LOW_POINT, low),)
    if numbers and not struck and flat > 0.0:
        named = (*named, TurfMark(TurfKind.FLAT_SPOT, min(low + flat / 2, 0.46 * turf.WIDE), flat))
    foot = h - 1.9 * line  # marks stay over the words where the ground is seen from close by
    at = [_inside(camera.at(m.x, level), w, foot) for m in named]
    items = tuple((turf_mark_words(m), p[0], "ink") for m, p in zip(named, at, strict=True))
    row = rail_of(type_, items, Rect(gap, h - line - 3, w - 2 * gap, line), "small")
    leaders, bracket = [], None
    for word in row:
        mark, end = named[word.item], at[word.item]
        if mark.kind is TurfKind.FLAT_SPOT:
            left = _inside(camera.at(low - flat / 2, level), w, foot)
            bracket = (left, end)
        elif mark.kind is TurfKind.LOW_POINT:
            end = camera.at(*lowest)
        elif struck:
            end = camera.at(mark.x, _floor(struck, mark.x) - 0.001)
        leaders.append((word, end))
    top = _top(theme, w, struck, intent, heads, every, angles) if numbers else ()
    return Said((*row, *top), tuple(leaders), bracket)


def _inside(at: Point, wide: float, foot: float) -> Point:
    return min(max(at[0], EDGE), wide - EDGE), min(at[1], foot)


def _floor(shot: Shot, x: float) -> float:
    """Height (m) of the divot's floor on its slope."""
    xs, ys = shot.strike.divot
    return ys[min(range(len(xs)), key=lambda k: abs(xs[k] - x))] if xs else 0.0


def _top(
    theme: Theme, wide: float, struck: Shot | None, intent: Intent, heads: Sequence[Sequence[Point]],
    every: float, angular: bool,
) -> tuple[Word, ...]:  # fmt: skip
    """Angles at the ball in the upper corner that the club leaves free, and the gap of the strobe in
    the other or below."""
    type_, gap = theme.type, theme.gap
    angles = f"loft {angle_words(intent.loft)}, bounce {angle_words(intent.bounce)}"
    texts: list[tuple[str, ...]] = [(f"meant: {angles}", angles, f"loft {angle_words(intent.loft)}")]
    if struck:
        angles = turf.angles_at_ball(struck) if isfinite(struck.strike.time) else ""
        texts = [(f"made: {angles}", angles)] if angles else []
    if not angular:
        texts = []
    if every > 0.0:
        texts.append((f"club every {every * 1000:g} ms",))
    foot = 3 + type_.line("small")
    heads = [shape for shape in heads if any(y < foot for _, y in shape)]  # else none of its lines is near
    out: list[Word] = []
    for ways in texts:  # the shorter where the longer has no room
        corners = [
            type_.word(text, "small", x, 3, "ink", align)
            for text in ways for x, align in ((gap, 0.0), (wide - gap, 1.0))
        ]  # fmt: skip
        free = [
            c for c in corners
            if c.box.x > 0.5 * gap and c.box.right < wide - 0.5 * gap
            and clear_of(c.box, heads)
            and not any(_near(c.box, o.box, gap) for o in out)
        ]  # fmt: skip
        out += free[:1]
    return tuple(out)


def beside(
    theme: Theme, text: str, at: Point, off: float, wide: float, taken: Said, heads: Sequence[Sequence[Point]]
) -> Word:  # fmt: skip
    """A word to the right or left of a place, `off` px from it, or a line lower: the first that is clear
    of the words placed before and of the heads."""
    type_, line = theme.type, theme.type.line("small")
    spots = [
        type_.word(text, "small", at[0] + side * off, at[1] + row * (line + 4), "ink", align)
        for row in range(4) for side, align in ((1, 0.0), (-1, 1.0))
    ]  # fmt: skip
    clear = (
        word for word in spots
        if word.box.x >= PAD and word.box.right <= wide - PAD
        and not any(_near(word.box, other.box, PAD) for other in taken.words)
        and clear_of(word.box, heads)
    )  # fmt: skip
    return next(clear, spots[-1])


def _near(a: Rect, b: Rect, gap: float) -> bool:
    return a.overlaps(Rect(b.x - 2 * gap, b.y, b.w + 4 * gap, b.h))


def draw_words(surface: pygame.Surface, theme: Theme, what: Said, thick: int = 1) -> None:
    """Hairs and bracket `thick` px on a light rim, then the words on plates of paper."""
    ink, halo = theme.palette.ink, theme.palette.halo
    lines: list[list[Point]] = []
    if what.bracket:
        (ax, ay), (bx, by) = what.bracket
        lines.append([(ax, ay - 5), (ax, ay), (bx, by), (bx, by - 5)])
    for word, (x, y) in what.leaders:
        under = min(max(x, word.box.x + 5), word.box.right - 5)
        if y < word.box.y - 2:
            lines.append([(x, y), (x, max(word.box.y - 9, y)), (under, word.box.y)])
    for width, tone in ((thick + 2, halo), (thick, ink)):
        for line in lines:
            for a, b in pairwise(line):
                pygame.draw.aaline(surface, tone, a, b, width)
    for word, plate in zip(what.words, what.plates, strict=True):
        paint.box(surface, plate, theme.palette.paper, None, theme.radius)
        paint.text(surface, theme, word.text, "small", word.box.x, word.box.y)
