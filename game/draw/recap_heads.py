"""A head in the turf as ink on paper: ground cut so far, ball, head at the ball, its bounce and its lean."""

from math import cos, hypot, pi, sin

import numpy as np

from game.draw.camera import Rect
from game.draw.clubhead import HOSEL, SHAFT, Pose, head_shape, turned
from game.draw.course import CUT
from game.draw.lesson import (
    ImpactAngle,
    ball_at_impact,
    cut_so_far,
    impact_angles,
    impact_camera,
    pose_at_impact,
)
from game.draw.palette import Colour
from game.draw.printed import Clipped, Disc, Fill, Ink, Ruled, Words, printed_width
from game.draw.slope import Tilted, on_slope
from game.draw.turf import divot_floor
from physics.cause import lie_surface
from physics.equipment import BALL
from physics.results import Shot
from physics.surfaces import MAT, SAND

__all__ = ["PRINT", "PrintColours", "printed_head"]

Point = tuple[float, float]
SKIN = 0.001  # m, ground cut deeper than this is drawn as cut
BLADE = 0.012  # m, tallest blade drawn: the page is about the sole
SHAFT_WIDE, HOSEL_WIDE = 0.0094, 0.0130  # m, assumed
ROUND = 24  # parts of an arc


class PrintColours:
    """Ink on white paper; in grey each still stands apart from its neighbours by lightness alone."""

    paper: Colour = (255, 255, 255)
    ink: Colour = (20, 24, 26)
    muted: Colour = (78, 84, 86)
    rule: Colour = (150, 150, 146)
    shade: Colour = (240, 238, 232)
    soil: Colour = (226, 214, 194)
    sand: Colour = (240, 230, 204)
    mat: Colour = (206, 212, 208)
    grass: Colour = (84, 108, 66)
    steel: Colour = (158, 168, 173)
    steel_lit: Colour = (204, 212, 215)
    mark: Colour = (166, 62, 0)


PRINT = PrintColours()


def printed_head(box: Rect, shot: Shot, size: float) -> tuple[Ink, ...]:
    """The picture in its frame; `size` (pt) is that of the names of the angles."""
    camera, pose = impact_camera(box, shot), pose_at_impact(shot)
    slope = on_slope(camera, shot.course)
    inks: list[Ink] = [*_ground(box, slope, cut_so_far(shot, pose.x if pose else -1.0))]
    if pose:
        inks += _shaft(slope, pose)
    inks += _ball(slope, shot)
    if pose:
        inks += _club(slope, shot, pose)
        angles = impact_angles(shot, pose, True)
        for angle in angles:
            inks += _angle(slope, angle)
        ball_top = ball_at_impact(slope, shot)[1][1] - BALL.radius * slope.scale
        inks += _names(box, slope, angles, size, ball_top)
    corners = (
        (box.x, box.y),
        (box.right, box.y),
        (box.right, box.bottom),
        (box.x, box.bottom),
        (box.x, box.y),
    )
    return Clipped(box, tuple(inks)), Ruled(corners, 0.8, PRINT.rule)


def _ground(box: Rect, camera: Tilted, shot: Shot) -> list[Ink]:
    """Earth as it lies now, the old surface dashed over the cut, and the grass that stands."""
    surface = lie_surface(shot.course)
    xs = np.linspace(camera.world(box.x, 0.0)[0] - 0.002, camera.world(box.right, 0.0)[0] + 0.002, 240)
    before = np.interp(xs, shot.course.ground.x, shot.course.ground.y)
    after = before.copy()
    fx, fy = divot_floor(shot)
    if len(fx):
        inside = (xs >= fx[0]) & (xs <= fx[-1])
        after = np.where(inside, np.minimum(np.interp(xs, fx, fy), before), before)
    top = [_flat(camera, x, y) for x, y in zip(xs, after, strict=True)]
    soil = {SAND: PRINT.sand, MAT: PRINT.mat}.get(surface.kind, PRINT.soil)
    low = box.bottom + 2.0
    inks: list[Ink] = [
        Fill((*top, (top[-1][0], low), (top[0][0], low)), soil),
        Ruled(tuple(top), 1.1, PRINT.ink),
    ]
    cut = np.flatnonzero(before - after > SKIN)
    if len(cut) > 1:
        old = tuple(_flat(camera, xs[k], before[k]) for k in (int(cut[0]), int(cut[-1])))
        inks.append(Ruled(old, 0.9, PRINT.ink, (3.0, 3.0)))
    tall = min(CUT.get(surface.name, 0.0), BLADE)
    if tall:
        inks += _blades(camera, xs, before, before - after < SKIN, tall)
    return inks


def _flat(camera: Tilted, x: float, y: float) -> Point:
    """Paper point of a point (m) of the world, which the slope has not turned."""
    return camera.x0 + float(x) * camera.scale, camera.y0 - float(y) * camera.scale


def _blades(
    camera: Tilted, xs: np.ndarray, ground: np.ndarray, stands: np.ndarray, tall: float
) -> list[Ink]:  # fmt: skip
    rng = np.random.default_rng(3)
    inks: list[Ink] = []
    for x in np.arange(xs[0], xs[-1], 0.0016):
        k = min(int(np.searchsorted(xs, x)), len(xs) - 1)
        high, lean = tall * rng.uniform(0.55, 1.0), 0.3 * tall * rng.uniform(-1.0, 1.0)
        if stands[k]:
            foot = _flat(camera, x, ground[k])
            inks.append(Ruled((foot, _flat(camera, x + lean, ground[k] + high)), 0.7, PRINT.grass))
    return inks


def _shaft(camera: Tilted, pose: Pose) -> list[Ink]:
    inks: list[Ink] = []
    for line, wide, tone in ((SHAFT, SHAFT_WIDE, PRINT.steel_lit), (HOSEL, HOSEL_WIDE, PRINT.steel)):
        points = tuple(camera.at(*p) for p in turned(line, pose))
        inks.append(Ruled(points, wide * camera.scale, PRINT.ink))
        inks.append(Ruled(points, wide * camera.scale - 2.0, tone))
    return inks


def _ball(camera: Tilted, shot: Shot) -> list[Ink]:
    """The ball where it is as the club meets it: sand may have carried it on. Its place at rest is dashed."""
    rest, at = ball_at_impact(camera, shot)
    r = BALL.radius * camera.scale
    inks: list[Ink] = []
    if hypot(at[0] - rest[0], at[1] - rest[1]) > 0.25 * r:
        turns = np.linspace(0.0, 2.0 * pi, 2 * ROUND)
        ring = tuple((rest[0] + r * cos(t), rest[1] + r * sin(t)) for t in turns)
        inks.append(Ruled(ring, 0.9, PRINT.ink, (3.0, 3.0)))
    return [*inks, Disc(at, r, PRINT.ink), Disc(at, r - 1.2, PRINT.paper)]


def _club(camera: Tilted, shot: Shot, pose: Pose) -> list[Ink]:
    outline, _ = head_shape(shot.setup.club, shot.setup.face_open)
    shape = tuple(camera.at(*p) for p in turned(outline, pose))
    return [
        Fill(shape, PRINT.steel), Fill((shape[0], *shape[-3:]), PRINT.steel_lit),
        Ruled((*shape, shape[0]), 1.3, PRINT.ink),
    ]  # fmt: skip


def _angle(camera: Tilted, angle: ImpactAngle) -> list[Ink]:
    """The arm it is measured from dashed, the other full, the arc between them, each on a white rim."""

    def ray(turn: float, long: float) -> Point:
        return camera.at(angle.at[0] + long * cos(turn), angle.at[1] + long * sin(turn))

    start = camera.at(*angle.at)
    first, second = (start, ray(angle.first, angle.long)), (start, ray(angle.second, angle.long))
    arc = tuple(ray(float(a), angle.radius) for a in np.linspace(angle.first, angle.second, ROUND))
    rims = [Ruled(line, 3.6, PRINT.paper) for line in (first, second, arc)]
    return [
        *rims, Ruled(first, 1.2, PRINT.ink, (4.0, 3.0)), Ruled(second, 1.7, PRINT.mark),
        Ruled(arc, 1.9, PRINT.mark),
    ]  # fmt: skip


def _names(
    box: Rect, camera: Tilted, angles: tuple[ImpactAngle, ImpactAngle], size: float, ball_top: float
) -> list[Ink]:  # fmt: skip
    """`bounce 5°` under its arc in the ground, `lean 14°` beside the shaft and over the ball; on white."""
    bounce, lean = angles
    lowest = max(
        camera.at(*bounce.at)[1],
        camera.at(bounce.at[0], bounce.at[1] + bounce.radius * sin(bounce.second))[1],
    )
    left = camera.at(bounce.at[0] - bounce.long, 0.0)[0]
    ax, ay = camera.at(lean.at[0], lean.at[1] + 0.5 * lean.radius)
    wide = printed_width(lean.name, size, True)
    beside = ax - size - wide if lean.left else ax + size
    inks: list[Ink] = []
    for name, x, y in (
        (bounce.name, left, lowest + 1.5 * size),
        (lean.name, beside, min(ay, ball_top - 0.5 * size)),
    ):
        wide = printed_width(name, size, True)
        x = min(max(x, box.x + 0.5 * size), box.right - wide - 0.5 * size)
        y = min(max(y, box.y + 1.3 * size), box.bottom - 0.6 * size)
        pad = 0.25 * size
        plate = Rect(x - pad, y - 0.85 * size, wide + 2 * pad, 1.15 * size)
        inks.append(Fill(_corners(plate), PRINT.paper))
        inks.append(Words(name, x, y, size, PRINT.ink, bold=True))
    return inks


def _corners(box: Rect) -> tuple[Point, ...]:
    return (box.x, box.y), (box.right, box.y), (box.right, box.bottom), (box.x, box.bottom)
