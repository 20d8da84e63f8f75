"""Where the ball went: flight, bounces, roll, landing mark, resting ball, ghost and likely stops."""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil

import numpy as np
import pygame

from game.draw.camera import Camera
from game.draw.course import ground_at
from game.draw.palette import Palette
from game.draw.pen import Pen
from physics.course import Course
from physics.equipment import BALL
from physics.results import Outcome, Phase, Run

__all__ = ["draw_ball", "ghost", "landing_at", "landing_diamond", "path", "stops", "stretches"]

AIR = {Phase.FLIGHT.value, Phase.CONTACT.value}


def stretches(run: Run) -> tuple[tuple[bool, int, int], ...]:
    """The run cut into stretches: (in the air, first sample, last sample)."""
    if len(run.x) < 2:
        return ()
    air = [letter in AIR for letter in run.phase]
    cuts = [0, *(k for k in range(1, len(air)) if air[k] != air[k - 1]), len(air) - 1]
    return tuple((air[a], max(a - 1, 0), b) for a, b in pairwise(cuts) if b > a)


def landing_at(run: Run) -> int | None:
    """Sample of the first landing; None when the ball never came down."""
    at = run.phase.find(Phase.BOUNCE.value)
    return at if at >= 0 else None


def draw_ball(
    pen: Pen, camera: Camera, palette: Palette, x: float, low: float, unit: float, hollow: bool = False
) -> None:
    """A ball whose lowest point is at (x, low); never smaller than can be seen."""
    r = max(BALL.radius * camera.scale, 5.0 * unit)
    px, py = camera.at(x, low)
    pen.disc((px, py - r), r + 3.2 * unit, palette.halo, 200)
    pen.disc((px, py - r), r + 1.4 * unit, palette.outline)
    pen.disc((px, py - r), r, palette.sky_low if hollow else palette.ball)
    if not hollow:
        pen.disc((px + 0.22 * r, py - 0.74 * r), 0.72 * r, palette.steel_lit, 60)


def path(pen: Pen, camera: Camera, palette: Palette, run: Run, unit: float) -> None:
    """Flight as a full line with a dot every tenth of a second, roll as a dotted line."""
    for air, a, b in stretches(run):
        line = camera.line(run.x[a : b + 1], run.y[a : b + 1])
        if air:
            pen.line(line, 5.6 * unit, palette.halo, 170)
            pen.line(line, 2.8 * unit, palette.path)
        else:
            pen.dashes(line, 4.6 * unit, palette.halo, 2 * unit, 8 * unit)
            pen.dashes(line, 2.8 * unit, palette.path, 2 * unit, 8 * unit)
    at = landing_at(run)
    if at is None:
        return
    ticks = np.arange(run.t[0] + 0.1, run.t[at], 0.1)
    for x, y in zip(np.interp(ticks, run.t, run.x), np.interp(ticks, run.t, run.y), strict=True):
        pen.disc(camera.at(float(x), float(y)), 4.6 * unit, palette.halo)
        pen.disc(camera.at(float(x), float(y)), 3.4 * unit, palette.path)


def landing_diamond(pen: Pen, camera: Camera, palette: Palette, run: Run, unit: float) -> None:
    """A small diamond where the ball first came down."""
    at = landing_at(run)
    if at is None:
        return
    x, y = camera.at(run.x[at], run.y[at] - BALL.radius)
    for size, colour in ((10.5, palette.halo), (8.6, palette.outline), (6.6, palette.landing)):
        r = size * unit
        pen.fill([(x, y - r), (x + r, y), (x, y + r), (x - r, y)], colour)


def ghost(pen: Pen, camera: Camera, palette: Palette, run: Run, course: Course, unit: float) -> None:
    """Another shot, dashed and hollow, behind the one that counts."""
    for air, a, b in stretches(run):
        line = camera.line(run.x[a : b + 1], run.y[a : b + 1])
        pen.dashes(line, 1.8 * unit, palette.ghost, (9 if air else 2) * unit, 7 * unit)
    if run.outcome is Outcome.REST:
        draw_ball(pen, camera, palette, run.rest, ground_at(course, run.rest), unit, hollow=True)


def stops(
    pen: Pen, camera: Camera, palette: Palette, course: Course, at: Sequence[float], unit: float
) -> None:
    """Likely stops: a soft band on the ground, denser where more balls end; ticks hold the middle 80 %."""
    if len(at) < 2:
        return
    wide = max(1.06 * float(np.std(at)) * len(at) ** -0.2, 0.08)  # Silverman (1986), rule of thumb
    left, right = (camera.at(x, 0)[0] for x in (min(at) - 3 * wide, max(at) + 3 * wide))
    clip = pen.surface.get_clip()
    first, last = max(round(min(left, right) * pen.zoom), clip.left), round(max(left, right) * pen.zoom)
    _band(pen, camera, palette, course, np.array(at), wide, (first, min(last, clip.right)), unit)
    inner = [float(np.quantile(at, q)) for q in (0.1, 0.9)]
    for x in inner:
        px, py = camera.at(x, ground_at(course, x))
        pen.line([(px, py), (px, py - 16 * unit)], 2.0 * unit, palette.stops)


def _share(at: np.ndarray, wide: float, xs: np.ndarray) -> np.ndarray:
    """How densely balls lie at `xs`, the densest place 1: Gaussian kernels `wide` m, summed on a grid of
    a quarter of that, which is finer than can be seen."""
    n = min(ceil((float(np.ptp(at)) + 8 * wide) / (0.25 * wide)), 400)
    grid = np.linspace(float(at.min()) - 4 * wide, float(at.max()) + 4 * wide, n)
    much = np.exp(-0.5 * ((grid[:, None] - at[None, :]) / wide) ** 2).sum(axis=1)
    share: np.ndarray = np.interp(xs, grid, much / much.max())
    return share


def _band(
    pen: Pen, camera: Camera, palette: Palette, course: Course, at: np.ndarray, wide: float,
    span: tuple[int, int], unit: float,
) -> None:  # fmt: skip
    """The band of likely stops over a span of sheet columns, one see-through slice every three."""
    if span[1] <= span[0]:
        return
    z, ground, step = pen.zoom, course.ground, 3
    edges = np.arange(*span, step)
    side = -1.0 if camera.mirrored else 1.0
    xs = side * ((edges + 0.5 * step) / z - camera.x0) / camera.scale
    ys = np.rint(z * (camera.y0 - camera.scale * np.interp(xs, ground.x, ground.y))).astype(int)
    tall = round(13 * unit * z)
    top = int(ys.min()) - tall
    veil = pygame.Surface((span[1] - span[0] + step, int(ys.max()) - top), pygame.SRCALPHA, 32)
    alphas = np.rint(150 * _share(at, wide, xs)).astype(int)
    for e, y, alpha in zip(edges.tolist(), ys.tolist(), alphas.tolist(), strict=True):
        veil.fill((*palette.stops, alpha), (e - span[0], y - tall - top, step, tall))
    pen.surface.blit(veil, (span[0], top))
