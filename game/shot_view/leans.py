"""The lean that is set and the lean that comes back, over the golfer at address: two thin shafts from the
ball with an arc between, and the words for them."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, degrees, sin

import pygame

from game.draw.camera import Camera, Rect
from game.draw.palette import Palette
from game.draw.pen import Pen
from game.shot_view.intended_swing import Way
from game.shot_view.stance import Intent
from game.text.quantity import angle_words
from game.text.strike_facts import return_of
from game.ui import Theme, paint
from game.ui.supersample import Cached, sprite
from physics.cause import MATCHED

__all__ = ["LeanMark", "lean_words"]

Point = tuple[float, float]
LONG = 0.84  # of the height of the hands: the shafts end under the grip
ARC = 0.93  # of a shaft's length at which the arc stands
BESIDE, TOP = 0.30, 0.44  # m from the ball past the legs, and to the height at which words begin


def lean_words(promised: float, delivered: float, numbers: bool) -> tuple[str, ...]:
    """What is set and what comes back; one word where both are the same within a degree, and nearly so up
    to three, as in the sentences."""
    kind = return_of(delivered - promised)
    if kind == "matched":
        return (f"matched, {angle_words(promised)}",) if numbers else ("matched",)
    nearly = "nearly there" if kind == "near" else ""
    if numbers:
        back = f"comes back {angle_words(delivered)}"
        return f"set {angle_words(promised)}", f"{back}, {nearly}" if nearly else back
    return "set", f"comes back {nearly or ('further forward' if delivered > promised else 'less forward')}"


class LeanMark:
    """Draws both leans. `words` and `box` are what was told last, and where."""

    def __init__(self) -> None:
        self._sheet = Cached[pygame.Surface]()
        self.words: tuple[str, ...] = ()
        self.box = Rect(0, 0, 0, 0)

    def draw(
        self, surface: pygame.Surface, rect: Rect, theme: Theme, camera: Camera, intent: Intent,
        ways: Sequence[Way], numbers: bool, knobs: Sequence[Rect],
    ) -> None:  # fmt: skip
        """Over a golfer drawn in the rect by the camera; `ways` and `knobs` are what words keep clear of."""
        if rect.w < 8 or rect.h < 8:
            return
        unit = max(0.8, min(rect.h / 320, 1.4))
        c = Camera(camera.scale, camera.x0 - rect.x, camera.y0 - rect.y, camera.mirrored)

        def sheet() -> pygame.Surface:
            with sprite(round(rect.w), round(rect.h), theme.palette.paper) as (pen, out):
                _shafts(pen, c, theme.palette, intent, unit)
            return out

        key = (intent, c, theme.palette, rect.w, rect.h)
        surface.blit(self._sheet.get(key, sheet), (round(rect.x), round(rect.y)))
        self.words = lean_words(intent.promised, intent.delivered, numbers)
        self._tell(surface, rect, theme, camera, ways, knobs)

    def _tell(
        self, surface: pygame.Surface, rect: Rect, theme: Theme, camera: Camera, ways: Sequence[Way],
        knobs: Sequence[Rect],
    ) -> None:  # fmt: skip
        """The words on a plate, each behind a piece of its shaft."""
        type_, line, pad = theme.type, theme.type.line("small"), 0.5 * theme.gap
        room = 0.5 * rect.w - BESIDE * camera.scale - 6 * pad
        mark = 2.0 * pad
        rows = [(i, row) for i, text in enumerate(self.words) for row in type_.wrap(text, "small", room)]
        wide = max(type_.width(row, "small") for _, row in rows) + mark + 3 * pad
        self.box = _free(rect, camera, ways, knobs, wide, len(rows) * line + pad)
        box, tones = self.box, _tones(theme.palette)
        paint.box(surface, box, theme.palette.paper, theme.palette.rule, theme.radius)
        last = -1
        for k, (i, row) in enumerate(rows):
            y = box.y + 0.5 * pad + k * line
            if i != last:
                tone = tones[-1] if len(self.words) == 1 else tones[i]
                thick = 2.0 if i == 0 and len(self.words) > 1 else 4.0
                at = Rect(box.x + pad, y + line / 2 - thick / 2, mark, thick)
                pygame.draw.rect(surface, tone, paint.pixels(at))
            last = i
            paint.text(surface, theme, row, "small", box.x + 2 * pad + mark, y)


def _tones(palette: Palette) -> tuple[tuple[int, int, int], tuple[int, int, int]]:
    """Colours of what is set and of what comes back."""
    return palette.ink, palette.landing


def _shafts(pen: Pen, c: Camera, palette: Palette, intent: Intent, unit: float) -> None:
    """Both shafts on light rims from the club's head behind the ball, and the arc from one to the other."""
    (x, y), long = intent.address.edge, LONG * intent.address.hands[1]

    def at(lean: float, share: float) -> Point:
        return c.at(x + share * long * sin(lean), y + share * long * cos(lean))

    a, b = intent.promised, intent.delivered
    same = abs(degrees(b - a)) <= MATCHED
    arc = [at(a + (b - a) * k / 12, ARC) for k in range(13)]
    if not same:
        pen.fill([at(0.5 * (a + b), 0.0), *arc], palette.halo, 130)
    for lean, wide, tone in zip((a, b), (1.3, 2.6), _tones(palette), strict=True):
        if lean == a and same:
            continue
        pen.line([at(lean, 0.0), at(lean, 1.0)], (wide + 2.0) * unit, palette.halo)
        pen.line([at(lean, 0.0), at(lean, 1.0)], wide * unit, tone)
    if not same:
        pen.line(arc, 4.2 * unit, palette.halo)
        pen.line(arc, 2.0 * unit, _tones(palette)[1])


def _free(
    rect: Rect, camera: Camera, ways: Sequence[Way], knobs: Sequence[Rect], wide: float, tall: float
) -> Rect:
    """The first place beside the ball, else in a corner above, where the plate covers no line or knob."""
    spots = list(_spots(rect, camera, wide, tall))
    lines = [[camera.at(*p) for p in part] for w in ways for part in (w.hands, w.top, w.finish)]

    def clear(box: Rect) -> bool:
        plate = pygame.Rect(int(box.x) - 3, int(box.y) - 3, int(box.w) + 6, int(box.h) + 6)
        crossed = any(plate.clipline(p, q) for line in lines for p, q in pairwise(line))
        return not crossed and not any(box.overlaps(knob) for knob in knobs)

    return next((box for box in spots if clear(box)), spots[0])


def _spots(rect: Rect, camera: Camera, wide: float, tall: float) -> Iterator[Rect]:
    """Target side and trail side of the legs, then the corners over the shoulders."""
    for side in (1.0, -1.0):
        x, y = camera.at(side * BESIDE, TOP)
        left = x if (side > 0) != camera.mirrored else x - wide
        for down in (0.0, 0.5 * tall, tall, rect.h):
            yield Rect(_held(left, rect, wide), min(y + down, rect.bottom - tall), wide, tall)
    for left in (rect.right - wide, rect.x) if not camera.mirrored else (rect.x, rect.right - wide):
        yield Rect(left, rect.y, wide, tall)


def _held(left: float, rect: Rect, wide: float) -> float:
    return max(min(left, rect.right - wide), rect.x)
