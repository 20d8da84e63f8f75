"""The course with every option's flight, and, once one has picked, its strokes as dots along the foot."""

from collections.abc import Callable
from dataclasses import dataclass

import pygame

from game.choosing.answer import ChoiceAnswer
from game.draw import course as view
from game.draw.camera import Camera, Rect
from game.draw.dots import draw_dot, heaped
from game.draw.palette import Palette, mix
from game.draw.path import path, stretches
from game.draw.pen import Pen
from game.shot_view.sight import sight_of
from game.ui import Theme, Widget, paint
from game.ui.supersample import Cached, supersampled
from levels.strokes import SHOWN, ManyStrokes
from physics.course import Course
from physics.equipment import FLAGSTICK
from physics.results import Run

__all__ = ["ChoicePane", "ChoicePicture"]

DOT, BETWEEN, LEVELS = 3.2, 1.2, 3  # px of radius at scale 1, between two dots, and dots on each other
EDGE = 3  # columns at the edge for what lies beyond it
PLACES = (0.5, 0.36, 0.64, 0.24, 0.76, 0.15)  # shares of a flight where its number may stand


@dataclass(frozen=True)
class _Sizes:
    """Measures (px) of a picture at a theme."""

    unit: float
    pitch: float
    row: float
    radius: float  # of a number's disc


class ChoicePicture:
    """Draws an answer into a box; kept until something in it changes."""

    def __init__(self) -> None:
        self._kept = Cached[pygame.Surface]()

    def draw(
        self, surface: pygame.Surface, theme: Theme, rect: Rect, course: Course,
        answer: ChoiceAnswer | None, at: int,
    ) -> None:  # fmt: skip
        """The course with the flights, option `at` (from 0) before the others; else as it lies."""
        box = paint.pixels(rect)
        if box.w < 8 or box.h < 8:
            return
        flights = answer.flights if answer else ()
        strokes = answer.strokes if answer and answer.picked is not None else ()
        key = (course, answer, at, len(strokes), theme, box.size)
        surface.blit(self._kept.get(key, lambda: _sheet(theme, box.size, course, flights, strokes, at)), box)


class ChoicePane(Widget):
    """The picture among the words, where there is no room for it beside them; `draws` draws it in a box."""

    focusable = False
    SKY, LOW_SKY = 0.40, 0.22  # of the room's height, for the course; the lower one over dots

    def __init__(self, room: float, rows: int, draws: Callable[[pygame.Surface, Rect], None]) -> None:
        super().__init__("Course")
        self.room, self.rows, self.draws = room, rows, draws

    def height(self, theme: Theme, width: float) -> float:
        sky = (self.LOW_SKY if self.rows else self.SKY) * self.room
        return max(sky, 16 * theme.gap) + self.rows * _sizes(theme, width).row

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        self.draws(surface, self.rect)


def _sizes(theme: Theme, w: float) -> _Sizes:
    unit = view.course_unit(w)
    pitch = theme.scale**0.5 * (2 * DOT + BETWEEN)
    radius = 0.62 * theme.type.line("small")
    return _Sizes(unit, pitch, max(LEVELS * pitch + theme.gap, 2.4 * radius), radius)


def _sheet(
    theme: Theme, size: tuple[int, int], course: Course, flights: tuple[Run, ...],
    strokes: tuple[ManyStrokes, ...], at: int,
) -> pygame.Surface:  # fmt: skip
    s = _sizes(theme, size[0])
    w, h = size
    tall = min(s.row * len(strokes), 0.6 * h)
    camera = _camera(course, flights, w, h - tall, 22 * s.unit)
    out = pygame.Surface(size, 0, 32)
    out.fill(theme.palette.paper)
    air = view.still(course, camera, theme.palette, w, max(round(h - tall), 1), s.unit)
    out.blit(air, (0, 0))
    sky = Rect(0, 0, w, h - tall)
    with supersampled(out, sky) as (pen, _, _):
        for i in sorted(range(len(flights)), key=lambda i: i == at):
            _flight(pen, camera, theme.palette, flights[i], s.unit * theme.scale**0.5, i == at)
    places = _numbers(camera, flights, s.radius, sky)
    for i in sorted(range(len(places)), key=lambda i: i == at):
        _number(out, theme, places[i], s.radius, i + 1, i == at)
    if strokes:
        hole = course.hole.x if course.hole else None
        _dots(out, theme, Rect(0, h - tall, w, tall), strokes, hole, camera, at, s)
    return out


def _camera(course: Course, flights: tuple[Run, ...], w: float, h: float, earth: float) -> Camera:
    """True scale; everything in sight over so many px of earth."""
    sight = sight_of(course)
    for run in flights:
        sight = sight.holding(run)
    ground = zip(course.ground.x, course.ground.y, strict=True)
    inside = [y for x, y in ground if sight.left < x < sight.right]
    low = min([*inside, view.ground_at(course, sight.left), view.ground_at(course, sight.right)])
    scale = min(w / (sight.right - sight.left), max(h - earth - 8.0, 20.0) / (sight.top - low))
    return Camera(scale, w / 2 - 0.5 * (sight.left + sight.right) * scale, h - earth + low * scale)


def _flight(pen: Pen, camera: Camera, palette: Palette, run: Run, unit: float, first: bool) -> None:
    """The one before the others as paths are drawn; the others thinner."""
    if first:
        path(pen, camera, palette, run, unit)
        return
    for air, a, b in stretches(run):
        line = camera.line(run.x[a : b + 1], run.y[a : b + 1])
        if air:
            pen.line(line, 3.6 * unit, palette.halo, 150)
            pen.line(line, 1.6 * unit, palette.ink)
        else:
            pen.dashes(line, 1.6 * unit, palette.ink, 2 * unit, 7 * unit)


def _numbers(camera: Camera, flights: tuple[Run, ...], r: float, box: Rect) -> list[tuple[float, float]]:
    """Where each flight's number stands: on its line, clear of the others where there is a place."""
    out: list[tuple[float, float]] = []
    for run in flights:
        air = next(((a, b) for flying, a, b in stretches(run) if flying and b > a), (0, len(run.x) - 1))
        spots = []
        for share in PLACES:
            k = air[0] + round(share * (air[1] - air[0]))
            x, y = camera.at(run.x[k], run.y[k])
            x, y = min(max(x, box.x + r), box.right - r), min(max(y, box.y + r), box.bottom - r)
            clear = min((abs(x - a) + abs(y - b) for a, b in out), default=1e9)
            spots.append((clear >= 3.0 * r, clear, (x, y)))
        free = next((s for s in spots if s[0]), max(spots, key=lambda s: s[1]))
        out.append(free[2])
    return out


def _number(
    out: pygame.Surface, theme: Theme, at: tuple[float, float], r: float, number: int, first: bool
) -> None:  # fmt: skip
    fill = theme.accent if first else theme.palette.paper
    paint.disc(out, *at, r, fill, theme.accent if first else theme.palette.ink, theme.line)
    y = at[1] - theme.type.line("small") / 2
    paint.text(out, theme, str(number), "small", at[0], y, "paper" if first else "ink", 0.5)


def _dots(
    out: pygame.Surface, theme: Theme, box: Rect, strokes: tuple[ManyStrokes, ...], hole: float | None,
    camera: Camera, at: int, s: _Sizes,
) -> None:  # fmt: skip
    """A row of dots for each option, on the course's own scale; near the hole is shaded."""
    tall = box.h / len(strokes)
    for k, many in enumerate(strokes):
        band = Rect(box.x, box.y + k * tall, box.w, tall)
        if hole is not None:
            left, right = (camera.at(hole + d, 0.0)[0] for d in (-FLAGSTICK.height, FLAGSTICK.height))
            shade = mix(theme.palette.paper, theme.palette.green, 0.35)
            paint.box(out, Rect(left, band.y, right - left, band.h), shade)
        paint.box(out, Rect(band.x, band.bottom - theme.line, band.w, theme.line), theme.palette.rule)
        with supersampled(out, band) as (pen, _, top):
            _row(pen, theme, band, many, camera, s, band.bottom - top)
        _number(out, theme, (band.x + 2 * s.radius, band.y + tall / 2), s.radius, k + 1, k == at)


def _row(
    pen: Pen, theme: Theme, band: Rect, many: ManyStrokes, camera: Camera, s: _Sizes, foot: float
) -> None:  # fmt: skip
    xs = [camera.at(x, 0.0)[0] for x in many.stops[:SHOWN]]
    first = 4 * s.radius
    for k, x in enumerate(xs):
        if x > band.w - s.pitch:
            xs[k] = band.w - (1 + k % EDGE) * s.pitch
        elif x < first:
            xs[k] = first + (k % EDGE) * s.pitch
    for kind, (x, up) in zip(many.kinds, heaped(xs, s.pitch, band.h - theme.gap / 2), strict=False):
        draw_dot(pen, theme.palette, kind, (x, foot - up), 0.5 * (s.pitch - BETWEEN))
