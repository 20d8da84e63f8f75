"""The turf window: a magnified cut through the ground at the ball, with the head as it went through."""

from collections.abc import Sequence
from dataclasses import replace
from math import cos, isfinite, sin

import numpy as np
import pygame

from game.draw.camera import Camera, Rect
from game.draw.clubhead import Pose, draw_club, pressure, shaft
from game.draw.course import CUT, earth, grass, ground_at, surface_at, top_colour
from game.draw.palette import Palette, mix
from game.draw.pen import Pen, gradient
from game.draw.slope import on_slope
from game.draw.type import Type, Word, rail
from game.text.mark import TurfKind, TurfMark, turf_mark_words
from game.text.quantity import angle_words
from physics.equipment import BALL
from physics.results import Contact, Shot, TurfAction
from physics.shot import lie_of
from physics.surfaces import MAT, SAND, SURFACES

__all__ = [
    "WIDE",
    "angles_at_ball",
    "blades",
    "divot_floor",
    "draw_turf",
    "ground_profile",
    "labels",
    "legend",
    "marks",
    "poses",
    "soil",
    "turf_camera",
]  # fmt: skip

WIDE = 0.40  # m of ground in the window
SKIN = 0.001  # m, ground touched deeper than this counts as cut
KEY = ("intended path", "actual path")
SAMPLE = 2.0  # line sample of the legend, in line heights
ROOTS = 0.015  # m, root mat, the top 10-20 mm of turf
RAGGED = 9  # columns of the divot; a pit narrower than this is levelled

Point = tuple[float, float]
Edge = tuple[Sequence[float], Sequence[float]]  # x, y (m)


def poses(shot: Shot) -> tuple[Pose, ...]:
    """Moments worth drawing, in time: entering, ball, deepest, leaving. Near twins are left out."""
    sole = shot.strike.sole
    t, x, y = np.asarray(sole.t), np.asarray(sole.edge[0]), np.asarray(sole.edge[1])
    if not len(t):
        return ()
    at: list[tuple[str, int]] = []
    if isfinite(shot.strike.time):
        at.append(("ball", int(np.argmin(np.abs(t - shot.strike.time)))))
    at.append(("deepest", int(np.argmin(y))))
    at.append(("entering", int(np.argmin(np.abs(x + 0.26 * WIDE)))))
    at.append(("leaving", int(np.argmin(np.abs(x - 0.27 * WIDE)))))
    kept: list[tuple[str, int]] = []
    for name, k in at:
        if all(abs(x[k] - x[j]) > 0.022 for _, j in kept):
            kept.append((name, k))
    return tuple(
        Pose(name, k, float(x[k]), float(y[k]), float(sole.lean[k]))
        for name, k in sorted(kept, key=lambda p: p[1])
    )


def turf_camera(box: Rect, shot: Shot, rows: float) -> Camera:
    """True scale, ball a little left of the middle; `rows` px below are kept for labels."""
    scale = box.w / WIDE
    low = ground_at(shot.course, 0.0)
    free = box.h - rows
    floor = box.y + free - 0.30 * free
    return Camera(scale, box.x + 0.5 * box.w, floor + low * scale)


def angles_at_ball(shot: Shot) -> str:
    """Loft, bounce and attack at the ball in one line; empty when the ball was missed."""
    strike = shot.strike
    if strike.contact is Contact.MISSED:
        return ""
    parts = (
        f"loft {angle_words(strike.loft)}", f"bounce {angle_words(strike.bounce)}",
        f"attack {angle_words(strike.attack, signed=True)}",
    )  # fmt: skip
    return ", ".join(parts)


def marks(shot: Shot) -> tuple[TurfMark, ...]:
    """What is named under the turf, the most telling first."""
    strike, swing = shot.strike, shot.swing
    out = []
    if strike.depth > SKIN and len(strike.divot[0]):
        left, right = _divot_span(shot)
        name = shot.course.lie.surface or surface_at(shot.course, 0.0)
        on_turf = {TurfAction.DIG: TurfKind.DIVOT, TurfAction.SKID: TurfKind.SKID}
        kind = {SAND: TurfKind.CUT, MAT: TurfKind.PRESSED}.get(
            SURFACES[name].kind, on_turf.get(strike.turf, TurfKind.BRUSH)
        )
        deep = strike.edge_depth if kind is TurfKind.DIVOT else strike.depth
        out.append(TurfMark(kind, 0.7 * left + 0.3 * right, strike.length, deep))
    out.append(TurfMark(TurfKind.LOW_POINT, swing.low_point))
    if swing.flat_spot > 0:
        end = min(swing.low_point + swing.flat_spot / 2, 0.46 * WIDE)
        out.append(TurfMark(TurfKind.FLAT_SPOT, end, swing.flat_spot))
    return tuple(out)


def labels(type_: Type, box: Rect, shot: Shot) -> tuple[Word, ...]:
    """Words of the window on rails at its foot."""
    camera = turf_camera(box, shot, 0)
    items = tuple(
        (turf_mark_words(m), min(max(camera.at(m.x, 0)[0], box.x), box.right), "ink") for m in marks(shot)
    )
    pad = 0.6 * type_.line("small")
    strip = Rect(box.x + pad, box.bottom - 0.5 * pad - type_.line("small"), box.w - 2 * pad, box.h)
    return rail(type_, items, strip, "small")


def _divot_span(shot: Shot) -> Point:
    x, y = (np.asarray(v) for v in shot.strike.divot)
    cut = y < -0.5 * SKIN
    return (float(x[cut][0]), float(x[cut][-1])) if cut.any() else (0.0, 0.0)


def divot_floor(shot: Shot) -> tuple[np.ndarray, np.ndarray]:
    """Floor of the divot (m) in the world; pits of a column or two, which no club can cut, are level.
    A mat springs back and keeps none."""
    x, y = (np.asarray(v, dtype=float) for v in shot.strike.divot)
    surface, low, tilt = lie_of(shot.course)
    if len(x) < RAGGED or surface.kind == MAT:
        return np.zeros(0), np.zeros(0)
    for least in (False, True):  # the greatest, then the least of every few columns
        rows = np.lib.stride_tricks.sliding_window_view(np.pad(y, RAGGED // 2, mode="edge"), RAGGED)
        y = rows.min(axis=1) if least else rows.max(axis=1)
    return x * cos(tilt) - y * sin(tilt), low + x * sin(tilt) + y * cos(tilt)


def ground_profile(shot: Shot, xs: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Ground before and after at every x (m)."""
    before = np.interp(xs, shot.course.ground.x, shot.course.ground.y)
    x, y = divot_floor(shot)
    if not len(x):
        return before, before
    inside = (xs >= x[0]) & (xs <= x[-1])
    return before, np.where(inside, np.minimum(np.interp(xs, x, y), before), before)


def soil(pen: Pen, box: Rect, shot: Shot, camera: Camera, palette: Palette, unit: float) -> None:
    """Earth in its layers, cut where the club has cut it."""
    name = shot.course.lie.surface or surface_at(shot.course, 0.0)
    surface, s = SURFACES[name], camera.scale
    columns = round(box.w * pen.zoom)
    px = box.x + (np.arange(columns) + 0.5) / pen.zoom
    xs = (px - camera.x0) / s * (-1.0 if camera.mirrored else 1.0)
    before, after = ground_profile(shot, xs)
    cover = np.tile(np.array(top_colour(palette, name), dtype=float), (columns, 1))
    thick = np.full(columns, max(surface.cover, 0.003) * s)
    under = {SAND: palette.sand_deep, MAT: mix(palette.wall, palette.deep, 0.4)}.get(
        surface.kind, palette.soil
    )
    roots = {SAND: palette.sand, MAT: palette.wall}.get(surface.kind, mix(palette.thatch, under, 0.25))
    layers = [
        (0.0, roots), (0.6 * ROOTS * s, mix(roots, under, 0.4)), (ROOTS * s, under),
        (0.024 * s, mix(under, palette.deep, 0.5)), (0.034 * s, palette.deep), (9e3, palette.deep),
    ]  # fmt: skip
    air = pen.surface.copy()
    earth(pen, box, camera.y0 - s * before, cover, thick, layers, None)
    _carve(pen, box, air, camera.y0 - s * before, camera.y0 - s * after)
    rim = mix(under, palette.deep if surface.kind == SAND else palette.outline, 0.35)
    for a, b in _runs(before - after > SKIN):
        pen.line([camera.at(float(xs[k]), float(after[k])) for k in range(a, b, 4)], 1.6 * unit, rim, 150)
    _removed(pen, camera, palette, xs, before, after, unit)


def _carve(pen: Pen, box: Rect, air: pygame.Surface, top: np.ndarray, floor: np.ndarray) -> None:
    """Give the air back between the old ground and the floor (page px, one value a sheet column)."""
    cut = np.flatnonzero(floor > top + 0.05)
    if not len(cut):
        return
    z, left = pen.zoom, round(box.x * pen.zoom) + int(cut[0])
    high, low = int((top[cut].min() - 1) * z), int((floor[cut].max() + 2) * z)
    area = pygame.Rect(left, high, int(cut[-1] - cut[0]) + 1, low - high).clip(pen.surface.get_rect())
    y = (np.arange(area.top, area.bottom) + 0.5) / z
    gone = np.clip((floor[cut[0] : cut[0] + area.w, None] - y) * z + 0.5, 0.0, 1.0)[:, :, None]
    gone[np.isin(np.arange(area.w), cut - cut[0], invert=True)] = 0.0
    there = pygame.surfarray.pixels3d(pen.surface.subsurface(area))
    there[:] = gone * pygame.surfarray.array3d(air.subsurface(area)) + (1.0 - gone) * there


def blades(
    pen: Pen, box: Rect, shot: Shot, camera: Camera, palette: Palette, unit: float,
    bare: Sequence[Edge] = (),
) -> None:  # fmt: skip
    """Grass still standing, in front of everything; `bare`: lines (m) over which none stands."""
    name = shot.course.lie.surface or surface_at(shot.course, 0.0)
    if name not in CUT:
        return
    left, right = sorted(camera.world(px, 0.0)[0] for px in (box.x, box.right))
    xs = np.linspace(left, right, 400)
    before, after = ground_profile(shot, xs)
    stands = before - after < SKIN
    for x, _ in bare:
        stands &= (xs < x[0]) | (xs > x[-1])
    for a, b in _runs(stands):
        line = [(float(x), float(y)) for x, y in zip(xs[a:b], before[a:b], strict=True)]
        if len(line) > 1:
            grass(pen, camera, line, min(CUT[name], 0.045), top_colour(palette, name), 31 + a, 4.2 * unit)


def _runs(which: np.ndarray) -> list[tuple[int, int]]:
    """Runs of columns that have it, first and one past the last."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], which.astype(int), [0]])))
    return list(zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True))


def _removed(
    pen: Pen,
    camera: Camera,
    palette: Palette,
    xs: np.ndarray,
    before: np.ndarray,
    after: np.ndarray,
    unit: float,
) -> None:
    """The old surface over the divot, as a fine dashed line."""
    gone = np.flatnonzero(before - after > SKIN)
    if len(gone) > 1:
        line = [camera.at(float(xs[k]), float(before[k])) for k in gone[:: max(len(gone) // 60, 1)]]
        pen.dashes(line, 1.3 * unit, palette.ink, 4 * unit, 4 * unit, 150)


def _ball(pen: Pen, camera: Camera, palette: Palette, shot: Shot, unit: float) -> None:
    course = shot.course
    surface = SURFACES[course.lie.surface or surface_at(course, 0.0)]
    low = surface.ball_raise + course.lie.lift
    at, r = camera.at(0.0, low + BALL.radius), BALL.radius * camera.scale
    pen.disc(at, r, palette.outline)
    pen.disc(at, r - 1.8 * unit, palette.ball)
    pen.disc((at[0] + 0.16 * r, at[1] + 0.18 * r), 0.70 * r, palette.steel_lit, 40)
    rng = np.random.default_rng(2)
    for ring in range(1, 5):
        for k in range(6 * ring):
            a, d = 2 * np.pi * k / (6 * ring) + 0.3 * ring + rng.uniform(-0.02, 0.02), ring / 4.7 * r
            pen.disc(
                (at[0] + d * cos(a), at[1] + d * sin(a)),
                max(0.05 * r * (1.15 - 0.6 * d / r), 0.8),
                palette.steel_lit,
            )


def _lines(pen: Pen, camera: Camera, palette: Palette, shot: Shot, unit: float) -> None:
    """Intended and actual way of the leading edge."""
    pen.dashes(camera.line(*shot.swing.head), 1.8 * unit, palette.intended, 7 * unit, 6 * unit)
    if len(shot.strike.sole.t) > 1:
        line = camera.line(*shot.strike.sole.edge)
        pen.line(line, 4.6 * unit, palette.halo, 130)
        pen.line(line, 2.4 * unit, palette.path)


def legend(type_: Type, box: Rect) -> tuple[Word, ...]:
    """What the two lines are, in the upper left corner, where the shaft does not come; none if too wide."""
    pad, high = 0.6 * type_.line("small"), type_.line("small")
    x = box.x + pad + SAMPLE * high
    words = tuple(
        replace(type_.word(text, "small", x, box.y + 0.7 * pad + k * high, "ink"), item=k)
        for k, text in enumerate(KEY)
    )
    fits = all(w.box.right < box.x + 0.40 * box.w and w.box.bottom < box.y + 0.35 * box.h for w in words)
    return words if fits else ()


def _key(pen: Pen, palette: Palette, words: tuple[Word, ...], unit: float) -> None:
    """Line samples before the words of the legend."""
    for word in words:
        y, high = word.box.y + 0.52 * word.box.h, word.box.h
        line = [(word.box.x - SAMPLE * high, y), (word.box.x - 0.45 * high, y)]
        if word.item == 0:
            pen.dashes(line, 1.8 * unit, palette.intended, 7 * unit, 6 * unit)
        else:
            pen.line(line, 2.4 * unit, palette.path)


def _leaders(
    pen: Pen, box: Rect, camera: Camera, palette: Palette, shot: Shot, words: tuple[Word, ...], unit: float
) -> None:
    """A hair line from each label to its place: triangle at the low point, bracket along the flat spot."""
    swing, slope = shot.swing, on_slope(camera, shot.course)
    named = marks(shot)
    bracket = slope.at(0, -max(shot.strike.depth, 0.0) - 0.021)[1]
    for word in words:
        mark = named[word.item]
        x = min(max(camera.at(mark.x, 0)[0], box.x + 8 * unit), box.right - 8 * unit)
        foot = bracket
        if mark.kind is TurfKind.FLAT_SPOT:
            a = max(camera.at(swing.low_point - swing.flat_spot / 2, 0)[0], box.x + 8 * unit)
            pen.line(
                [(a, bracket - 5 * unit), (a, bracket), (x, bracket), (x, bracket - 5 * unit)],
                1.3 * unit,
                palette.ink,
            )
        elif mark.kind is TurfKind.LOW_POINT:
            foot = bracket - 10 * unit
            pen.fill([(x, foot - 9 * unit), (x - 5 * unit, foot), (x + 5 * unit, foot)], palette.ink)
        else:
            foot = camera.at(0, float(ground_profile(shot, np.array([mark.x]))[1][0]))[1] + 3 * unit
        under = min(max(x, word.box.x + 6 * unit), word.box.right - 6 * unit)
        pen.line([(x, foot), (x, word.box.y - 14 * unit), (under, word.box.y)], 1.1 * unit, palette.ink)


def draw_turf(
    pen: Pen, box: Rect, shot: Shot, palette: Palette, key: tuple[Word, ...], words: tuple[Word, ...],
    unit: float,
) -> None:  # fmt: skip
    """The whole window; `key` is its legend, `words` its labels. Ground and sky stand upright, club and ball
    as the slope has them."""
    rows = box.bottom - min((w.box.y for w in words), default=box.bottom)
    camera = turf_camera(box, shot, rows)
    with pen.inside(box):
        gradient(pen, box, [(0.0, palette.sky_high), (0.7, palette.sky_low), (1.0, palette.sky_low)])
        soil(pen, box, shot, camera, palette, unit)
        moments, slope = poses(shot), on_slope(camera, shot.course)
        for pose in moments:
            if pose.name != "ball":
                draw_club(pen, slope, palette, shot, pose, False, unit)
        _lines(pen, slope, palette, shot, unit)
        main = next((p for p in moments if p.name == "ball"), moments[-1] if moments else None)
        if main:
            shaft(pen, slope, palette, main, unit)
        _ball(pen, slope, palette, shot, unit)
        if main:
            draw_club(pen, slope, palette, shot, main, True, unit)
        blades(pen, box, shot, camera, palette, unit)
        for pose in moments:
            if pose.name in ("ball", "deepest"):
                pressure(pen, slope, palette, shot, pose, unit)
        _leaders(pen, box, camera, palette, shot, words, unit)
        _key(pen, palette, key, unit)
