"""The turf window: a magnified cut through the ground at the ball, with the head as it went through."""

from dataclasses import dataclass
from math import cos, degrees, isfinite, sin

import numpy as np

from game.view.camera import Camera, Rect
from game.view.course import CUT, earth, grass, ground_at, surface_at, top_colour
from game.view.palette import Palette, mix
from game.view.pen import Pen, gradient, shade
from game.view.type import Type, Word, rail
from physics.equipment import BALL, Club
from physics.face import open_face
from physics.head import ELEMENTS, FACE_LENGTH, sole_elements
from physics.results import Contact, Shot
from physics.surfaces import SAND, SURFACES

__all__ = ["WIDE", "Pose", "camera_for", "draw", "head_shape", "labels", "legend", "poses", "summary"]

WIDE = 0.40  # m of ground in the window
SKIN = 0.001  # m, ground touched deeper than this counts as cut
TOP_LINE = (0.0490, 0.0052)  # m up the face and thickness of the blade there, assumed
KEY = ("intended path", "actual path")
SAMPLE = 2.0  # line sample of the legend, in line heights
ROOTS = 0.015  # m, root mat, the top 10-20 mm of turf

Point = tuple[float, float]
HOSEL: list[Point] = [(-0.006, 0.010), (-0.001, 0.068)]
SHAFT: list[Point] = [(-0.001, 0.060), (0.0, 0.45)]


@dataclass(frozen=True)
class Pose:
    """The head at one moment of the strike; `step` is its row in the sole trace."""

    name: str
    step: int
    x: float
    y: float
    lean: float


def _turn(points: list[Point], pose: Pose) -> list[Point]:
    c, s = cos(pose.lean), sin(pose.lean)
    return [(pose.x + x * c + y * s, pose.y - x * s + y * c) for x, y in points]


def head_shape(club: Club, opened: float) -> tuple[list[Point], np.ndarray]:
    """Outline of the head in its own frame (m, leading edge at the origin), and its sole strips."""
    face = open_face(club, opened)
    strips = np.zeros((ELEMENTS, 5))
    sole_elements(face.bounce, club.sole_width, club.camber, club.edge_radius, strips)
    sole = [(float(x), float(y)) for x, y in strips[:, :2]]
    crown = (-FACE_LENGTH * sin(face.loft), FACE_LENGTH * cos(face.loft))
    c, s = cos(face.loft), sin(face.loft)
    trail = (sole[-1][0] - 0.0010, sole[-1][1] + 0.0012)
    up, thick = trail[1] * c - trail[0] * s, -trail[0] * c - trail[1] * s  # along and behind the face
    back = []
    for part in (0.12, 0.25, 0.4, 0.6, 0.8, 1.0):  # the back hollows from the sole to the top line
        u = up + (TOP_LINE[0] - up) * part
        t = TOP_LINE[1] + (thick - TOP_LINE[1]) * (1.0 - part) ** 2.2
        back.append((-u * s - t * c, u * c - t * s))
    return [(0.0, 0.0), *sole, trail, *back, crown], strips


def poses(shot: Shot) -> tuple[Pose, ...]:
    """Moments worth drawing, in time: entering, ball, deepest, leaving. Near twins are left out."""
    sole = shot.strike.sole
    t, x, y = np.asarray(sole.t), np.asarray(sole.edge[0]), np.asarray(sole.edge[1])
    if not len(t):
        return ()
    ground = np.interp(x, shot.course.ground.x, shot.course.ground.y)
    at: list[tuple[str, int]] = []
    if isfinite(shot.strike.time):
        at.append(("ball", int(np.argmin(np.abs(t - shot.strike.time)))))
    at.append(("deepest", int(np.argmin(y - ground))))
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


def camera_for(box: Rect, shot: Shot, rows: float) -> Camera:
    """True scale, ball a little left of the middle; `rows` px below are kept for labels."""
    scale = box.w / WIDE
    low = ground_at(shot.course, 0.0)
    free = box.h - rows
    floor = box.y + free - 0.30 * free
    return Camera(scale, box.x + 0.5 * box.w, floor + low * scale)


def summary(shot: Shot) -> str:
    """Loft, bounce and attack at the ball in one line; empty when the ball was missed."""
    strike = shot.strike
    if strike.contact is Contact.MISSED:
        return ""
    sign = "\N{MINUS SIGN}" if strike.attack < 0 else "+"
    parts = (
        f"loft {degrees(strike.loft):.0f}\N{DEGREE SIGN}",
        f"bounce {degrees(strike.bounce):.0f}\N{DEGREE SIGN}".replace("-", "\N{MINUS SIGN}"),
        f"attack {sign}{abs(degrees(strike.attack)):.0f}\N{DEGREE SIGN}",
    )
    return ", ".join(parts)


def _marks(shot: Shot) -> tuple[tuple[str, float], ...]:
    """Label and the x it points to (m), the most telling first."""
    strike, swing = shot.strike, shot.swing
    out = []
    if strike.depth > SKIN and len(strike.divot[0]):
        left, right = _divot_span(shot)
        name = shot.course.lie.surface or surface_at(shot.course, 0.0)
        noun = "cut" if SURFACES[name].kind == SAND else "divot" if strike.depth > 0.002 else "brush"
        out.append(
            (f"{noun} {strike.length * 100:.0f} cm, {strike.depth * 1000:.0f} mm", 0.7 * left + 0.3 * right)
        )
    out.append(("low point", swing.low_point))
    if swing.flat_spot > 0:
        end = min(swing.low_point + swing.flat_spot / 2, 0.46 * WIDE)
        out.append((f"flat spot {swing.flat_spot * 100:.0f} cm", end))
    return tuple(out)


def labels(type_: Type, box: Rect, shot: Shot) -> tuple[Word, ...]:
    """Words of the window on rails at its foot."""
    camera = camera_for(box, shot, 0)
    items = tuple((text, min(max(camera.at(x, 0)[0], box.x), box.right), "ink") for text, x in _marks(shot))
    pad = 0.6 * type_.line("small")
    strip = Rect(box.x + pad, box.bottom - 0.5 * pad - type_.line("small"), box.w - 2 * pad, box.h)
    return rail(type_, items, strip, "small")


def _divot_span(shot: Shot) -> Point:
    x, y = (np.asarray(v) for v in shot.strike.divot)
    cut = np.interp(x, shot.course.ground.x, shot.course.ground.y) - y > 0.5 * SKIN
    return (float(x[cut][0]), float(x[cut][-1])) if cut.any() else (0.0, 0.0)


def _profile(shot: Shot, xs: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Ground before and after at every x (m)."""
    before = np.interp(xs, shot.course.ground.x, shot.course.ground.y)
    if not len(shot.strike.divot[0]):
        return before, before
    x, y = (np.asarray(v) for v in shot.strike.divot)
    inside = (xs >= x[0]) & (xs <= x[-1])
    return before, np.where(inside, np.interp(xs, x, y), before)


def _soil(pen: Pen, box: Rect, shot: Shot, camera: Camera, palette: Palette, unit: float) -> None:
    name = shot.course.lie.surface or surface_at(shot.course, 0.0)
    surface, s = SURFACES[name], camera.scale
    columns = round(box.w * pen.zoom)
    px = box.x + (np.arange(columns) + 0.5) / pen.zoom
    xs = (px - camera.x0) / s
    before, after = _profile(shot, xs)
    cut = before - after
    cover = np.tile(np.array(top_colour(palette, name), dtype=float), (columns, 1))
    thick = np.clip(max(surface.cover, 0.003) - cut, 0.0, None) * s
    soil = palette.sand_deep if surface.kind == SAND else palette.soil
    roots = palette.sand if surface.kind == SAND else mix(palette.thatch, soil, 0.25)
    layers = [
        (0.0, roots), (0.6 * ROOTS * s, mix(roots, soil, 0.4)), (ROOTS * s, soil),
        (0.024 * s, mix(soil, palette.deep, 0.5)), (0.034 * s, palette.deep), (9e3, palette.deep),
    ]  # fmt: skip
    floor = np.array([camera.at(0, y)[1] for y in after])
    earth(pen, box, floor, cover, thick, layers, None)
    _removed(pen, camera, palette, xs, before, after, unit)


def _blades(pen: Pen, box: Rect, shot: Shot, camera: Camera, palette: Palette, unit: float) -> None:
    """Grass still standing, in front of everything."""
    name = shot.course.lie.surface or surface_at(shot.course, 0.0)
    if name not in CUT:
        return
    xs = np.linspace((box.x - camera.x0) / camera.scale, (box.right - camera.x0) / camera.scale, 400)
    before, after = _profile(shot, xs)
    for a, b in _standing(xs, before - after):
        line = [(float(x), float(y)) for x, y in zip(xs[a:b], before[a:b], strict=True)]
        if len(line) > 1:
            grass(pen, camera, line, min(CUT[name], 0.045), top_colour(palette, name), 31 + a, 4.2 * unit)


def _standing(xs: np.ndarray, cut: np.ndarray) -> list[tuple[int, int]]:
    """Runs of columns where the grass still stands."""
    up = np.concatenate([[0], (cut < SKIN).astype(int), [0]])
    edges = np.flatnonzero(np.diff(up))
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


def _club(
    pen: Pen, camera: Camera, palette: Palette, shot: Shot, pose: Pose, solid: bool, unit: float
) -> None:
    outline, _ = head_shape(shot.setup.club, shot.setup.face_open)
    shape = [camera.at(*p) for p in _turn(outline, pose)]
    if solid:
        pen.fill(shape, palette.steel)
        pen.fill([shape[0], *shape[-3:]], palette.steel_lit)
        pen.line([*shape, shape[0]], 1.9 * unit, palette.steel_edge)
        return
    pen.line([camera.at(*p) for p in _turn([HOSEL[0], SHAFT[1]], pose)], 1.2 * unit, palette.ghost, 90)
    pen.fill(shape, palette.steel, 80)
    pen.line([*shape, shape[0]], 1.4 * unit, palette.steel_edge, 150)


def _shaft(pen: Pen, camera: Camera, palette: Palette, pose: Pose, unit: float) -> None:
    """Shaft and hosel; they stand at the heel, behind ball and blade."""
    s, rim = camera.scale, 3.0 * unit
    for line, thick, tone in (
        (SHAFT, 0.0094, shade(palette.steel_lit, -0.06)),
        (HOSEL, 0.0130, palette.steel),
    ):
        points = [camera.at(*p) for p in _turn(line, pose)]
        pen.line(points, thick * s, palette.steel_edge)
        pen.line(points, thick * s - rim, tone)


def _pressure(pen: Pen, camera: Camera, palette: Palette, shot: Shot, pose: Pose, unit: float) -> None:
    """What the turf pushes with: short arrows onto the sole, longest where it is greatest."""
    rows = shot.strike.sole.pressure
    most = max((max(row, default=0.0) for row in rows), default=0.0)
    row = rows[pose.step] if pose.step < len(rows) else ()
    _, strips = head_shape(shot.setup.club, shot.setup.face_open)
    if most <= 0.0 or len(row) != len(strips):
        return
    for k in range(1, len(row), 3):
        share = row[k] / most
        if share < 0.08:
            continue
        x, y, nx, ny = (float(v) for v in strips[k, :4])
        long = 0.005 + 0.013 * share
        tip, tail = _turn([(x + 0.001 * nx, y + 0.001 * ny), (x + long * nx, y + long * ny)], pose)
        pen.line([camera.at(*tail), camera.at(*tip)], 3.6 * unit, palette.halo, 150)
        pen.arrow(camera.at(*tail), camera.at(*tip), 2.0 * unit, palette.pressure)


def _ball(pen: Pen, camera: Camera, palette: Palette, shot: Shot, unit: float) -> None:
    course = shot.course
    surface = SURFACES[course.lie.surface or surface_at(course, 0.0)]
    low = ground_at(course, 0.0) + surface.ball_raise + course.lie.lift
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
        type_.word(text, "small", x, box.y + 0.7 * pad + k * high, "ink") for k, text in enumerate(KEY)
    )
    fits = all(w.box.right < box.x + 0.40 * box.w and w.box.bottom < box.y + 0.35 * box.h for w in words)
    return words if fits else ()


def _key(pen: Pen, palette: Palette, words: tuple[Word, ...], unit: float) -> None:
    """Line samples before the words of the legend."""
    for word in words:
        y, high = word.box.y + 0.52 * word.box.h, word.box.h
        line = [(word.box.x - SAMPLE * high, y), (word.box.x - 0.45 * high, y)]
        if word.text == KEY[0]:
            pen.dashes(line, 1.8 * unit, palette.intended, 7 * unit, 6 * unit)
        else:
            pen.line(line, 2.4 * unit, palette.path)


def _leaders(
    pen: Pen, box: Rect, camera: Camera, palette: Palette, shot: Shot, words: tuple[Word, ...], unit: float
) -> None:
    """A hair line from each label to its place: triangle at the low point, bracket along the flat spot."""
    low, swing = ground_at(shot.course, 0.0), shot.swing
    at = dict(_marks(shot))
    bracket = camera.at(0, low - max(shot.strike.depth, 0.0) - 0.021)[1]
    for word in (w for w in words if w.text in at):
        x = min(max(camera.at(at[word.text], 0)[0], box.x + 8 * unit), box.right - 8 * unit)
        foot = bracket
        if word.text.startswith("flat"):
            a = max(camera.at(swing.low_point - swing.flat_spot / 2, 0)[0], box.x + 8 * unit)
            pen.line(
                [(a, bracket - 5 * unit), (a, bracket), (x, bracket), (x, bracket - 5 * unit)],
                1.3 * unit,
                palette.ink,
            )
        elif word.text == "low point":
            foot = bracket - 10 * unit
            pen.fill([(x, foot - 9 * unit), (x - 5 * unit, foot), (x + 5 * unit, foot)], palette.ink)
        else:
            foot = camera.at(0, float(_profile(shot, np.array([at[word.text]]))[1][0]))[1] + 3 * unit
        under = min(max(x, word.box.x + 6 * unit), word.box.right - 6 * unit)
        pen.line([(x, foot), (x, word.box.y - 14 * unit), (under, word.box.y)], 1.1 * unit, palette.ink)


def draw(pen: Pen, box: Rect, shot: Shot, palette: Palette, words: tuple[Word, ...], unit: float) -> None:
    """The whole window."""
    rows = box.bottom - min((w.box.y for w in words if w.text not in KEY), default=box.bottom)
    camera = camera_for(box, shot, rows)
    with pen.inside(box):
        gradient(pen, box, [(0.0, palette.sky_high), (0.7, palette.sky_low), (1.0, palette.sky_low)])
        _soil(pen, box, shot, camera, palette, unit)
        moments = poses(shot)
        for pose in moments:
            if pose.name != "ball":
                _club(pen, camera, palette, shot, pose, False, unit)
        _lines(pen, camera, palette, shot, unit)
        main = next((p for p in moments if p.name == "ball"), moments[-1] if moments else None)
        if main:
            _shaft(pen, camera, palette, main, unit)
        _ball(pen, camera, palette, shot, unit)
        if main:
            _club(pen, camera, palette, shot, main, True, unit)
        _blades(pen, box, shot, camera, palette, unit)
        for pose in moments:
            if pose.name in ("ball", "deepest"):
                _pressure(pen, camera, palette, shot, pose, unit)
        _leaders(pen, box, camera, palette, shot, words, unit)
        _key(pen, palette, tuple(w for w in words if w.text in KEY), unit)
