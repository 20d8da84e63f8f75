"""A kept attempt as a row: a small picture of its shot, and what was played, predicted and named."""

from collections.abc import Callable
from math import isfinite

import pygame

from game.draw.camera import Rect
from game.draw.course import lie_colour
from game.draw.dots import draw_dot
from game.notebook.tracks import KeptTrack
from game.text.notebook import attempt_lines, attempt_title
from game.text.units import UnitSystem
from game.ui import Theme, Widget, paint
from game.ui.button import pressed
from game.ui.supersample import supersampled
from levels.attempts import Attempt
from levels.strokes import StrikeKind

__all__ = ["KeptShotRow"]

WIDE, HIGH = 22.0, 6.5  # of the small picture, in steps of the rhythm
PICTURE = 0.3  # of the row at most
LEAST = 4.0  # m along the line that a picture shows at least
KINDS = {"solid": StrikeKind.SOLID, "fat": StrikeKind.FAT, "thin": StrikeKind.THIN}


class KeptShotRow(Widget):
    """Enter or a click shows the shot again; arrows go from row to row."""

    def __init__(
        self, one: Attempt, find: Callable[[str], KeptTrack | None], on_open: Callable[[], None],
        units: UnitSystem, numbers: bool,
    ) -> None:  # fmt: skip
        words = "Enter shows this very shot again on the Bench."
        super().__init__(attempt_title(one), tooltip=words, group="attempts")
        self.one, self.find, self.on_open = one, find, on_open
        self.words = attempt_lines(one, units, numbers)

    @property
    def caption(self) -> str:
        return f"{self.label}. {' '.join(self.words)}"

    @staticmethod
    def _wide(theme: Theme, width: float) -> float:
        """Width (px) of the picture: less of it where there is little room for words."""
        return min(WIDE * theme.gap, PICTURE * width)

    def _room(self, theme: Theme, width: float) -> float:
        return width - self._wide(theme, width) - 3.0 * theme.gap

    def _title(self, theme: Theme, width: float) -> tuple[str, ...]:
        return theme.type.wrap(self.label, "strong", self._room(theme, width))

    def _lines(self, theme: Theme, width: float) -> tuple[str, ...]:
        room = self._room(theme, width)
        return tuple(line for words in self.words for line in theme.type.wrap(words, "small", room))

    def height(self, theme: Theme, width: float) -> float:
        told = len(self._lines(theme, width)) * theme.type.line("small")
        title = len(self._title(theme, width)) * theme.type.line("strong")
        return max(title + told, HIGH * theme.gap) + theme.gap

    def handle(self, event: pygame.event.Event) -> bool:
        return pressed(self, event, self.on_open)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, gap = self.rect, theme.gap
        if self.hovered:
            paint.box(surface, r, theme.hover, None, theme.radius)
        picture = Rect(r.x + gap / 2, r.y + gap / 2, self._wide(theme, r.w), HIGH * gap)
        _draw_sketch(surface, theme, picture, self.one, self.find(self.one.uid))
        x, y = picture.right + 2 * gap, r.y + gap / 2
        title = self._title(theme, r.w)
        paint.lines(surface, theme, title, "strong", x, y)
        clock = f"{self.one.when:%H:%M}"
        if theme.type.width(self.label, "strong") + theme.type.width(clock, "small") + gap < r.right - x:
            paint.text(surface, theme, clock, "small", r.right - gap, y, "muted", 1.0)
        y += len(title) * theme.type.line("strong")
        paint.lines(surface, theme, self._lines(theme, r.w), "small", x, y, "muted")
        self.draw_focus(surface, theme)


def _draw_sketch(
    surface: pygame.Surface, theme: Theme, box: Rect, one: Attempt, track: KeptTrack | None
) -> None:
    """The ground, the flag, the ball's path once it is played again, and the dot where it stopped: shape and
    colour say how it was struck, as everywhere."""
    p, goal, rest = theme.palette, one.distance, one.result.rest
    rest = rest if isfinite(rest) else 0.0
    points = track.points if track and track.same else ()
    ends = (0.0, rest, goal or 0.0, *(x for x, _ in points))
    low, high = min(ends), max(*ends, LEAST)
    foot, edge = 1.2 * theme.gap, 1.4 * theme.gap  # at the sides there is room for ball and flag
    scale = min((box.w - 2 * edge) / (high - low), (box.h - foot) / max([1.6, *(y for _, y in points)]))
    with supersampled(surface, box) as (pen, left, top):

        def at(x: float, y: float = 0.0) -> tuple[float, float]:
            middle = 0.5 * (box.w - (high - low) * scale)
            return box.x - left + middle + (x - low) * scale, box.bottom - top - foot - y * scale

        ground = at(0.0)[1]
        right, bottom = box.right - left, box.bottom - top
        pen.fill([(box.x - left, ground), (right, ground), (right, bottom), (box.x - left, bottom)], p.soil)
        turf = lie_colour(p, one.lie)
        cover = ground + 0.4 * theme.gap
        pen.fill([(box.x - left, ground), (right, ground), (right, cover), (box.x - left, cover)], turf)
        if goal is not None:
            mast = at(goal, 0.0)
            head = (mast[0], mast[1] - min(1.2 * scale, 0.55 * box.h) - theme.gap)
            pen.line([mast, head], theme.line, p.ink)
            flag = 0.9 * theme.gap
            pen.fill([head, (head[0] + flag, head[1] + 0.45 * flag), (head[0], head[1] + 0.9 * flag)], p.flag)
        if len(points) > 1:
            pen.line([at(x, max(y, 0.0)) for x, y in points], 1.4 * theme.line, p.path)
        kind = KINDS.get(one.result.strike, StrikeKind.OTHER)
        x, y = at(rest, max(points[-1][1], 0.0) if points else 0.0)
        draw_dot(pen, p, kind, (x, y - 0.35 * theme.gap), 0.5 * theme.gap)
