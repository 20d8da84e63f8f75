"""What stands on the course strip besides the shot: the goal, and the gaps after a call."""

from dataclasses import dataclass
from math import isfinite

import numpy as np
import pygame

from game.draw.camera import Rect
from game.draw.course import ground_at
from game.draw.palette import Colour, Palette
from game.draw.pen import Pen
from game.shot_view.stage import Stage
from game.text.units import system_of
from game.text.verdict import gap_label
from game.ui import Theme, paint
from game.ui.supersample import supersampled
from levels.scenario import Scenario
from physics.course import Course

__all__ = ["ROWS", "Bracket", "brackets", "draw_bracket", "draw_goal", "plate", "pole"]

Spot = tuple[float, float]
ROWS = {"landing": 0, "stop": 1}  # each has a row of its own, so that no two plates meet
HATCH = 24.0  # px from stroke to stroke over a ceiling


def plate(theme: Theme, box: Rect, row: int, wide: float, x: float) -> Rect:
    """Plate of that width about x, in its row under the top of the box."""
    tall = max(theme.type.line("small") + 0.75 * theme.gap, 24.0)
    left = min(max(x - wide / 2, box.x + 2), max(box.right - wide - 2, box.x + 2))
    return Rect(left, box.y + theme.gap + row * (tall + theme.gap), wide, tall)


def _shape(pen: Pen, at: tuple[float, float], what: str, colour: Colour, theme: Theme, hollow: bool) -> None:
    """Diamond for the landing, disc for the stop; hollow while it is only called."""
    p, r, (x, y) = theme.palette, 7.0 * min(theme.scale, 1.4), at
    for size, tone in ((r + 3.4, p.halo), (r + 1.6, p.ink), (r, p.paper if hollow else colour)):
        if what == "landing":
            pen.fill([(x, y - size), (x + size, y), (x, y + size), (x - size, y)], tone)
        else:
            pen.disc(at, size, tone)
    if hollow and what == "landing":
        q = 0.45 * r
        pen.fill([(x, y - q), (x + q, y), (x, y + q), (x - q, y)], colour)
    elif hollow:
        pen.disc(at, 0.45 * r, colour)


def _colour(what: str, theme: Theme) -> Colour:
    return theme.palette.landing if what == "landing" else theme.palette.path


def pole(
    surface: pygame.Surface, theme: Theme, x: float, top: float, foot: float, what: str, hollow: bool
) -> None:  # fmt: skip
    """A line from a plate down to the ground, its shape at the foot."""
    with supersampled(surface, Rect(x - 14, top, 28, max(foot - top, 0.0) + 14)) as (pen, left, up):
        line = [(x - left, top - up), (x - left, foot - up)]
        pen.line(line, 4.2, theme.palette.halo)
        pen.line(line, 1.8, theme.palette.ink)
        _shape(pen, (x - left, foot - up), what, _colour(what, theme), theme, hollow)


# ---- gaps


@dataclass(frozen=True)
class Bracket:
    """A called place and the true one (m; nan if it never came to that), and its words."""

    what: str
    called: float
    actual: float
    words: str


def brackets(called: dict[str, float], actual: dict[str, float], numbers: bool, yards: bool) -> tuple[
    Bracket, ...
]:  # fmt: skip
    """The gaps between what was called and what was."""
    out = []
    for what, x in called.items():
        verb = "landed" if what == "landing" else "stopped"
        words = gap_label(actual[what] - x, verb, system_of(yards), numbers)
        out.append(Bracket(what, x, actual[what], words))
    return tuple(out)


def draw_bracket(surface: pygame.Surface, theme: Theme, box: Rect, stage: Stage, course: Course,
                 bracket: Bracket) -> Rect:  # fmt: skip
    """One gap: two poles joined by a bar that points from the call to what was. The plate's box."""
    xs = [bracket.called] + ([bracket.actual] if isfinite(bracket.actual) else [])
    px = [box.x + stage.camera.at(x, 0)[0] for x in xs]
    wide = theme.type.width(bracket.words, "small") + 2 * theme.gap
    label = plate(theme, box, ROWS[bracket.what], wide, sum(px) / len(px))
    bar = label.y + label.h / 2
    for k, (x, at) in enumerate(zip(xs, px, strict=True)):
        foot = box.y + stage.camera.at(x, ground_at(course, x))[1]
        if box.x <= at <= box.right:
            pole(surface, theme, at, bar, foot, bracket.what, hollow=k == 0)
    left, right = max(min(px), box.x), min(max(px), box.right)
    with supersampled(surface, Rect(left - 8, bar - 8, right - left + 16, 16)) as (pen, x0, y0):
        line = [(left - x0, bar - y0), (right - x0, bar - y0)]
        pen.line(line, 7.0, theme.palette.halo)
        pen.line(line, 4.0, _colour(bracket.what, theme))
    paint.box(surface, label, theme.palette.paper, theme.palette.ink, theme.radius, theme.line)
    y = label.y + (label.h - theme.type.line("small")) / 2
    paint.text(surface, theme, bracket.words, "small", label.x + label.w / 2, y, "ink", 0.5)
    return label


# ---- the goal


def draw_goal(surface: pygame.Surface, theme: Theme, box: Rect, stage: Stage, scenario: Scenario,
              course: Course) -> None:  # fmt: skip
    """The goal's places: a bar on the ground where the ball may stop, dashes where it has to land, a post
    with a crossbar that it has to fly over, a hatched line that it has to stay below."""
    goal, p, camera = scenario.goal, theme.palette, stage.camera

    def spot(x: float, up: float = 0.0) -> Spot:
        px, py = camera.at(x, ground_at(course, x) + up)
        return box.x + px, box.y + py

    def ground(a: float, b: float) -> list[Spot]:
        return [(x, y + 5.0) for x, y in (spot(float(v)) for v in np.linspace(a, b, 30))]

    if goal.leave_m is not None:
        line = ground(scenario.hole.x_m - goal.leave_m, scenario.hole.x_m + goal.leave_m)
        _strokes(surface, line, (7.0, p.halo, 0.0), (4.0, p.flag, 0.0))
    if goal.land_between_m is not None:
        _strokes(surface, ground(*goal.land_between_m), (7.0, p.halo, 0.0), (4.0, p.landing, 7.0))
    if goal.must_clear is not None:
        x, high = goal.must_clear.x_m, goal.must_clear.height_m
        post = [spot(x), spot(x, high)]
        bar = [(post[1][0] - 9, post[1][1]), (post[1][0] + 9, post[1][1])]
        _strokes(surface, post, (5.5, p.halo, 5.0), (2.5, p.landing, 5.0))
        _strokes(surface, bar, (5.5, p.halo, 0.0), (2.5, p.landing, 0.0))
    if goal.ceiling_m is not None:
        _draw_ceiling(surface, p, [spot(0.0, goal.ceiling_m), spot(scenario.hole.x_m)])


def _draw_ceiling(surface: pygame.Surface, p: Palette, ends: list[Spot]) -> None:
    """A level line from over the ball to over the hole, with strokes over it: what is above it is shut."""
    (x, y), (far, _) = ends
    count = max(int((far - x) / HATCH), 1)
    with supersampled(surface, Rect(x - 6, y - 12, far - x + 16, 18)) as (pen, left, top):
        line = [(x - left, y - top), (far - left, y - top)]
        pen.line(line, 5.5, p.halo)
        pen.line(line, 2.5, p.landing)
        for i in range(count):
            foot = line[0][0] + (far - x) * (i + 0.3) / count
            pen.line([(foot, line[0][1]), (foot + 5.0, line[0][1] - 7.0)], 1.5, p.landing)


def _strokes(surface: pygame.Surface, line: list[Spot], *strokes: tuple[float, Colour, float]) -> None:
    """The line in each (width, colour, dash in px, 0 for none), over as little of the surface as it needs."""
    xs, ys = [x for x, _ in line], [y for _, y in line]
    around = Rect(min(xs) - 6, min(ys) - 6, max(xs) - min(xs) + 12, max(ys) - min(ys) + 12)
    with supersampled(surface, around) as (pen, left, top):
        moved = [(x - left, y - top) for x, y in line]
        for wide, colour, dash in strokes:
            if dash:
                pen.dashes(moved, wide, colour, dash, 0.9 * dash)
            else:
                pen.line(moved, wide, colour)
