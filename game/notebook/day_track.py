"""The shots of a day as balls along strips of turf: played ones filled, a flag at the next."""

from collections.abc import Sequence
from itertools import groupby

import pygame

from game.draw.camera import Rect
from game.text.notebook import part_title
from game.ui import Theme, Widget, layout, paint
from game.ui.supersample import supersampled
from levels.practice import Planned

__all__ = ["DayTrack"]

PITCH = 2.9  # steps of the rhythm from ball to ball
TALL = 6.0  # of a strip, without its name


class DayTrack(Widget):
    """Reads only: `shots` in their order, `done` says of each whether it was played."""

    focusable = False

    def __init__(self, shots: Sequence[Planned], done: Sequence[bool]) -> None:
        super().__init__("")
        self.shots, self.done = tuple(shots), tuple(done)
        numbered = groupby(range(len(self.shots)), key=lambda i: self.shots[i].part)
        self._strips = tuple((part, tuple(members)) for part, members in numbered)

    def _boxes(self, theme: Theme, box: Rect) -> tuple[Rect, ...]:
        """Strips beside each other, in as many rows as they need."""
        wide = [
            max(len(m) * PITCH * theme.gap, theme.type.width(part_title(p), "small")) + 2 * theme.gap
            for p, m in self._strips
        ]
        return layout.flow(box, wide, TALL * theme.gap + theme.type.line("small"), theme.gap)

    def height(self, theme: Theme, width: float) -> float:
        return max((box.bottom for box in self._boxes(theme, Rect(0, 0, width, 0))), default=0.0)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        coming = next((i for i, done in enumerate(self.done) if not done), -1)
        for (part, members), box in zip(self._strips, self._boxes(theme, self.rect), strict=True):
            self._strip(surface, theme, box, members, coming)
            y = box.bottom - theme.type.line("small")
            paint.text(surface, theme, part_title(part), "small", box.x, y, "muted")

    def _strip(
        self, surface: pygame.Surface, theme: Theme, box: Rect, members: tuple[int, ...], coming: int
    ) -> None:  # fmt: skip
        p, gap, line = theme.palette, theme.gap, theme.line
        pitch = min(PITCH * gap, (box.w - gap) / len(members))
        radius = min(0.95 * gap, 0.4 * pitch)
        ground = box.y + (TALL - 1.0) * gap
        with supersampled(surface, Rect(box.x, box.y, box.w, TALL * gap)) as (pen, left, top):
            x, y = box.x - left, ground - top
            wide, foot = pitch * len(members), y + 0.7 * gap
            pen.fill([(x, y), (x + wide, y), (x + wide, foot), (x, foot)], p.fairway)
            for k, i in enumerate(members):
                at = (x + (k + 0.5) * pitch, y - radius)
                pen.disc(at, radius, theme.accent if self.done[i] else theme.edge)
                if not self.done[i]:
                    pen.disc(at, radius - 1.4 * line, p.paper)
                if i == coming:
                    pole, cloth = y - 4.4 * gap, 1.0 * gap
                    stick = at[0] + radius + 0.35 * gap
                    pen.line([(stick, y), (stick, pole)], 1.4 * line, p.ink)
                    tip = (stick + 1.3 * cloth, pole + cloth / 2)
                    pen.fill([(stick, pole), tip, (stick, pole + cloth)], p.flag)
