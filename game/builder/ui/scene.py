"""What the Builder's canvas draws: course, grid, the draft's ground, problems, grips, the tool at work."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Protocol

import numpy as np
import pygame

from game.builder.model.profile import Profile, is_usable, profile
from game.builder.ui.backdrop import Backdrop
from game.builder.ui.editing import Editing
from game.builder.ui.gesture import Gesture
from game.builder.ui.grid import draw_grid
from game.builder.ui.grip import Grip, grip_of
from game.builder.ui.tools import tool
from game.builder.ui.viewport import Viewport
from game.draw import path
from game.draw.camera import Camera, Rect
from game.draw.course import course_unit, top_colour
from game.draw.palette import Colour, mix
from game.shot_view.stage import Stage
from game.shot_view.strip_marks import draw_goal
from game.ui import Theme, paint
from game.ui.supersample import supersampled
from physics.surfaces import SURFACES

__all__ = ["draw_plate", "draw_scene"]


class Drawn(Protocol):
    """What the scene is drawn from: the draft, where one looks, and what lies over the course."""

    editing: Editing
    viewport: Viewport
    backdrop: Backdrop
    gesture: Gesture
    grips: tuple[Grip, ...]

    @property
    def cross(self) -> tuple[float, float] | None:
        """The place (m) the tool in hand is aimed at."""


def draw_scene(surface: pygame.Surface, theme: Theme, drawn: Drawn) -> None:
    """All of it inside the viewport's box, framed."""
    editing, viewport = drawn.editing, drawn.viewport
    at = paint.pixels(viewport.rect)
    box = Rect(at.x, at.y, at.w, at.h)
    with paint.clipped(surface, box):
        last_valid = editing.last_valid
        if last_valid:
            course = last_valid.course()
            drawn.backdrop.draw(surface, at, course, viewport.camera, theme.palette, viewport.origin)
        else:
            surface.fill(theme.palette.sky_low, at)
        draw_grid(surface, theme, box, viewport.camera, viewport.snap_step, editing.yards)
        stale = editing.scenario is None or not drawn.backdrop.fresh
        _draw_ground(surface, theme, box, viewport.camera, editing, stale)
        _draw_goal(surface, theme, box, viewport.camera, editing)
        _draw_ball(surface, theme, box, viewport)
        _draw_marks(surface, theme, editing, drawn.grips)
        for grip in sorted(drawn.grips, key=lambda g: (g.picked, g.focused)):
            grip.draw(surface, theme)
        _draw_tool(surface, theme, box, drawn)
    paint.box(surface, box, None, theme.palette.rule, 0.0, theme.line)


def _pixels(box: Rect, camera: Camera, points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    return [(box.x + x, box.y + y) for x, y in (camera.at(*p) for p in points)]


def _stroke(
    surface: pygame.Surface, points: list[tuple[float, float]], width: float, colour: Colour
) -> None:  # fmt: skip
    """A fine line over a live surface, inside what is to be drawn on."""
    clip = surface.get_clip()
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    around = Rect(min(xs) - 6, min(ys) - 6, max(xs) - min(xs) + 12, max(ys) - min(ys) + 12)
    if not pygame.Rect(paint.pixels(around)).colliderect(clip):
        return
    near = [
        (
            min(max(x, clip.x - 4000.0), clip.right + 4000.0),
            min(max(y, clip.y - 4000.0), clip.bottom + 4000.0),
        )
        for x, y in points
    ]
    with supersampled(surface, around) as (pen, left, top):
        moved = [(x - left, y - top) for x, y in near]
        pen.line(moved, width, colour)


def _draw_ground(
    surface: pygame.Surface, theme: Theme, box: Rect, camera: Camera, editing: Editing, stale: bool
) -> None:
    """The draft's ground as a line; coloured by its surfaces while the picture is stale or one is laid."""
    ground, p = profile(editing.draft), theme.palette
    if not ground:
        return
    places = _pixels(box, camera, [(g.x, g.y) for g in ground])
    laying = editing.tool == "surface"
    if stale or laying:
        for (a, b), point in zip(pairwise(places), ground[:-1], strict=True):
            if b[0] < box.x - 8 or a[0] > box.right + 8:
                continue
            name = point.surface if point.surface in SURFACES else "green"
            tone = top_colour(p, name)
            if laying:
                _stroke(surface, [a, b], 11.0, p.ink)
            _stroke(surface, [a, b], 9.0 if laying else 5.0, tone)
    pygame.draw.aalines(surface, p.ink, False, places)
    pygame.draw.aalines(surface, mix(p.ink, p.rough, 0.4), False, [(x, y + 1) for x, y in places])
    if laying:
        _surface_names(surface, theme, box, ground, places)


def _surface_names(
    surface: pygame.Surface, theme: Theme, box: Rect, ground: Profile, places: list[tuple[float, float]]
) -> None:  # fmt: skip
    """The names of the surfaces over their stretches, where there is room."""
    runs: list[tuple[str, float, float, float]] = []
    for (a, b), point in zip(pairwise(places), ground[:-1], strict=True):
        name = SURFACES[point.surface].label if point.surface in SURFACES else "?"
        if runs and runs[-1][0] == name:
            runs[-1] = (name, runs[-1][1], b[0], min(runs[-1][3], b[1]))
        else:
            runs.append((name, a[0], b[0], min(a[1], b[1])))
    line = theme.type.line("small")
    for name, left, right, top in runs:
        left, right = max(left, box.x + 4), min(right, box.right - 4)
        wide = theme.type.width(name, "small") + 10
        if right - left > wide:
            plate = Rect((left + right - wide) / 2, max(top - line - 22, box.y + 4), wide, line)
            paint.box(surface, plate, theme.palette.paper, theme.palette.rule, theme.radius)
            paint.text(surface, theme, name, "small", plate.x + wide / 2, plate.y, "ink", 0.5)


def _draw_goal(surface: pygame.Surface, theme: Theme, box: Rect, camera: Camera, editing: Editing) -> None:
    scenario = editing.scenario
    if scenario is None:
        return
    stage = Stage()
    stage.camera = camera
    draw_goal(surface, theme, box, stage, scenario, scenario.course())


def _draw_ball(surface: pygame.Surface, theme: Theme, box: Rect, viewport: Viewport) -> None:
    c, y = viewport.camera, viewport.ground_y(0.0)
    px, py = c.at(0.0, y)
    unit = course_unit(box.w)
    r = 16 * unit + 0.03 * c.scale
    around = Rect(box.x + px - r, box.y + py - 2 * r, 2 * r, 2 * r + 10)
    with supersampled(surface, around) as (pen, left, top):
        path.draw_ball(
            pen, Camera(c.scale, c.x0 + box.x - left, c.y0 + box.y - top), theme.palette, 0.0, y, unit
        )


def _draw_marks(surface: pygame.Surface, theme: Theme, editing: Editing, grips: Sequence[Grip]) -> None:
    """A diamond with a stem over everything that breaks a rule."""
    told = set()
    for problem in editing.problems:
        grip = grip_of(grips, problem.loc) if problem.loc else None
        if grip is None or grip.loc in told:
            continue
        told.add(grip.loc)
        (x, y), r = grip.at, 8.0
        top = y - 30.0
        with supersampled(surface, Rect(x - 16, top - 16, 32, 46)) as (pen, left, up):
            at = (x - left, top - up)
            pen.line([(at[0], at[1] + r), (at[0], y - up - 8)], 2.4, theme.palette.landing)
            for size, tone in (
                (r + 3, theme.palette.halo),
                (r + 1, theme.palette.ink),
                (r, theme.palette.landing),
            ):
                pen.fill(
                    [
                        (at[0], at[1] - size),
                        (at[0] + size, at[1]),
                        (at[0], at[1] + size),
                        (at[0] - size, at[1]),
                    ],
                    tone,
                )
            pen.line([(at[0], at[1] - 4), (at[0], at[1] + 1)], 2.0, theme.palette.paper)
            pen.disc((at[0], at[1] + 4), 1.2, theme.palette.paper)


def _draw_tool(surface: pygame.Surface, theme: Theme, box: Rect, drawn: Drawn) -> None:
    """What the tool in hand is about to do: a cross, a stretch, a line."""
    viewport, gesture, p = drawn.viewport, drawn.gesture, theme.palette
    takes = tool(drawn.editing.tool).takes
    if takes == "stretch" and gesture.start and gesture.end:
        xs = np.linspace(gesture.start[0], gesture.end[0], 40)
        line = _pixels(box, viewport.camera, [(float(x), viewport.ground_y(float(x))) for x in xs])
        _stroke(surface, line, 9.0, p.halo)
        _stroke(surface, line, 5.0, theme.accent)
    if takes == "line" and len(gesture.line) > 1:
        _stroke(surface, _pixels(box, viewport.camera, gesture.line), 5.0, p.halo)
        _stroke(surface, _pixels(box, viewport.camera, gesture.line), 2.6, theme.accent)
    cross = drawn.cross if takes else None
    if cross and is_usable(cross[0]):
        foot = (cross[0], viewport.ground_y(cross[0]))
        _cross(surface, theme, *_pixels(box, viewport.camera, [cross, foot]))


def _cross(
    surface: pygame.Surface, theme: Theme, centre: tuple[float, float], under: tuple[float, float]
) -> None:
    """A cross at one pixel and a foot on the ground under it."""
    (x, y), foot = centre, under[1]
    low, high = min(y, foot) - 18, max(y, foot) + 18
    with supersampled(surface, Rect(x - 20, low, 40, high - low)) as (pen, left, top):
        at = (x - left, y - top)
        for width, tone in ((5.0, theme.palette.halo), (2.2, theme.accent)):
            pen.line([(at[0] - 12, at[1]), (at[0] + 12, at[1])], width, tone)
            pen.line([(at[0], at[1] - 12), (at[0], at[1] + 12)], width, tone)
        if abs(foot - y) > 14:
            pen.dashes([(at[0], at[1]), (at[0], foot - top)], 1.6, theme.accent, 4.0, 4.0)
            pen.disc((at[0], foot - top), 3.0, theme.accent)


def draw_plate(surface: pygame.Surface, theme: Theme, box: Rect, name: str, dirty: bool) -> None:
    """The document's name, in the corner of the sky."""
    words = f"{name}, not saved" if dirty else name
    line = theme.type.line("small")
    shown = theme.type.wrap(words, "small", 0.6 * box.w)[:1]
    wide = theme.type.width(shown[0], "small") + 2 * theme.gap if shown else 0.0
    plate = Rect(box.x + theme.gap, box.y + theme.gap, wide, line + 4)
    paint.box(surface, plate, theme.palette.paper, theme.palette.rule, theme.radius, theme.line)
    paint.lines(surface, theme, shown, "small", plate.x + theme.gap, plate.y + 2, "muted")
