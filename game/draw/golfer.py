"""The golfer at address, face-on: ball position, stance and lean, with the swing as a fan of shafts."""

from math import cos, degrees, sin, tan

import numpy as np

from game.draw.body import ADDRESS, body_of
from game.draw.camera import Camera, Rect
from game.draw.clothes import draw_body
from game.draw.palette import Palette
from game.draw.path import draw_ball
from game.draw.pen import Pen
from game.draw.type import Type, Word
from game.text.quantity import angle_words, percent
from physics.address import Setup
from physics.results import Shot, SwingTrace

__all__ = ["RIM", "address_words", "draw_golfer", "fan", "golfer_camera", "golfer_club", "golfer_figure"]

Point = tuple[float, float]
GRIP = 0.10  # m of grip showing under the lower hand, assumed
TALL = 1.68  # m that the view must hold, assumed
RIM = 1.3  # px of light beside the shaft, at line weight 1


def _address(setup: Setup, swing: SwingTrace) -> tuple[Point, Point]:
    """Hub as swung at the ball, and hands as set at address (m)."""
    k = int(np.argmin(np.abs(np.asarray(swing.t))))
    long = (setup.club.length - 0.5 * GRIP - 0.02) * sin(setup.club.lie)
    tall = long * cos(setup.shaft_lean)
    return (swing.hub[0][k], swing.hub[1][k]), (swing.head[0][k] + tall * tan(setup.shaft_lean), tall)


def golfer_club(
    pen: Pen, camera: Camera, palette: Palette, hands: Point, edge: Point, lean: float, unit: float
) -> None:
    """Shaft, grip and blade on a rim that keeps them readable before any clothes; `lean` (rad) is that of
    the line from edge to hands."""
    s = camera.scale
    up = (sin(lean), cos(lean))
    end = camera.at(hands[0] + up[0] * 0.11, hands[1] + up[1] * 0.11)
    low = camera.at(hands[0] - up[0] * GRIP, hands[1] - up[1] * GRIP)
    foot, (x, y) = camera.at(*edge), edge
    c, d = up[1], up[0]
    blade = [(0.0, 0.0), (-0.048, 0.040), (-0.056, 0.034), (-0.026, -0.002)]
    shape = [camera.at(x + a * c + b * d, y - a * d + b * c) for a, b in blade]
    thin, thick, rim = max(0.011 * s, 1.6 * unit), max(0.024 * s, 2.2 * unit), RIM * unit
    pen.line([foot, low], thin + 2 * rim, palette.halo)
    pen.line([low, camera.at(*hands)], thick + 1.4 * rim, palette.halo)
    pen.line([foot, low], thin, palette.steel_edge)
    pen.line([low, end], thick, palette.grip)
    pen.fill(shape, palette.steel_edge)


def golfer_figure(
    pen: Pen, camera: Camera, palette: Palette, setup: Setup, swing: SwingTrace, unit: float,
    from_behind: bool = False,
) -> None:  # fmt: skip
    """The golfer at address at true scale, club included; `from_behind` who plays the other way round."""
    hub, hands = _address(setup, swing)
    k = int(np.argmin(np.abs(np.asarray(swing.t))))
    edge = (swing.head[0][k], max(swing.head[1][k], 0.002))
    body = body_of(setup, hub, hands, edge, ADDRESS, from_behind)

    def club() -> None:
        golfer_club(pen, camera, palette, hands, edge, setup.shaft_lean, unit)

    draw_body(pen, camera, palette, body, club)


def fan(pen: Pen, camera: Camera, palette: Palette, swing: SwingTrace, unit: float, count: int = 13) -> None:
    """Shafts at equal times through the swing, and the way of the head."""
    for t in np.linspace(swing.t[0], swing.t[-1], count):
        hands = (float(np.interp(t, swing.t, swing.hands[0])), float(np.interp(t, swing.t, swing.hands[1])))
        foot = (float(np.interp(t, swing.t, swing.head[0])), float(np.interp(t, swing.t, swing.head[1])))
        pen.line([camera.at(*hands), camera.at(*foot)], 1.2 * unit, palette.ghost, 90)
    pen.line(camera.line(*swing.head), 2.0 * unit, palette.path)
    pen.dashes(camera.line(*swing.hands), 1.4 * unit, palette.ghost, 5 * unit, 5 * unit)


def golfer_camera(box: Rect, shot: Shot, left_handed: bool) -> Camera:
    """Camera that holds the figure and the swing of the head."""
    middle = 0.0
    wide = 2 * max(max(abs(x) for x in shot.swing.head[0]) + 0.06, 0.70)
    tall = max(TALL, max(shot.swing.head[1]) + 0.04)
    scale = min(box.h / (tall + 0.04), box.w / wide)
    return Camera(scale, box.x + box.w / 2 - middle * scale, box.bottom - 0.02 * scale, left_handed)


def address_words(type_: Type, box: Rect, setup: Setup) -> tuple[Word, ...]:
    """The address in short lines, set from the top of the box."""
    place = setup.ball_position
    where = (
        "in the middle"
        if abs(place) < 0.005
        else f"{abs(place) * 100:.0f} cm {'forward' if place > 0 else 'back'} of middle"
    )
    lean = degrees(setup.shaft_lean)
    tilt = (
        "upright"
        if abs(lean) < 0.5
        else f"{angle_words(abs(setup.shaft_lean))} {'forward' if lean > 0 else 'back'}"
    )
    lines = [
        f"ball {where}",
        f"handle {tilt}",
        f"{percent(setup.lead_weight)} on the lead foot",
    ]
    if setup.face_open > 0.005:
        lines.append(f"face {angle_words(setup.face_open)} open")
    text = type_.wrap(", ".join(lines), "small", box.w)
    return tuple(
        type_.word(t, "small", box.x, box.y + i * type_.line("small"), "muted") for i, t in enumerate(text)
    )


def draw_golfer(pen: Pen, box: Rect, shot: Shot, palette: Palette, unit: float, left_handed: bool) -> None:
    """Figure, fan, ground and the marks of the address."""
    camera = golfer_camera(box, shot, left_handed)
    floor = camera.at(0, 0)[1]
    pen.line([(box.x, floor), (box.right, floor)], 2.0 * unit, palette.fairway)
    with pen.inside(box):
        fan(pen, camera, palette, shot.swing, unit)
        golfer_figure(pen, camera, palette, shot.setup, shot.swing, unit)
        draw_ball(pen, camera, palette, 0.0, 0.0, unit)
    middle = camera.at(-shot.setup.ball_position, 0)[0]
    pen.line([(middle, floor + 4 * unit), (middle, floor + 12 * unit)], 1.6 * unit, palette.muted)
