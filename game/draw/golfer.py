"""The golfer at address, face-on: ball position, stance and lean, with the swing as a fan of shafts."""

from math import cos, degrees, sin, tan

import numpy as np

from game.draw.camera import Camera, Rect
from game.draw.palette import Palette
from game.draw.path import draw_ball
from game.draw.pen import Pen, shade
from game.draw.type import Type, Word
from game.text.quantity import angle_words, percent
from physics.address import Setup
from physics.results import Shot, SwingTrace

__all__ = [
    "address_words",
    "arms",
    "draw_golfer",
    "fan",
    "golfer_camera",
    "golfer_club",
    "golfer_figure",
    "head",
    "legs",
    "torso",
]  # fmt: skip

Point = tuple[float, float]
GRIP = 0.10  # m of grip showing under the lower hand, assumed
TALL = 1.68  # m that the view must hold, assumed


def _address(setup: Setup, swing: SwingTrace) -> tuple[Point, Point]:
    """Hub as swung at the ball, and hands as set at address (m)."""
    k = int(np.argmin(np.abs(np.asarray(swing.t))))
    long = (setup.club.length - 0.5 * GRIP - 0.02) * sin(setup.club.lie)
    tall = long * cos(setup.shaft_lean)
    return (swing.hub[0][k], swing.hub[1][k]), (swing.head[0][k] + tall * tan(setup.shaft_lean), tall)


def legs(pen: Pen, camera: Camera, palette: Palette, setup: Setup, hip: Point) -> None:
    """Legs from the hip to the shoes of the stance."""
    s = camera.scale
    middle = -setup.ball_position
    for side in (-1.0, 1.0):
        foot = middle + side * setup.stance_width / 2
        colour = palette.trousers_shade if side < 0 else palette.trousers
        top, knee = (
            (hip[0] + side * 0.082, hip[1]),
            (0.55 * foot + 0.45 * (hip[0] + side * 0.1) + side * 0.012, 0.47),
        )
        ankle = (foot, 0.075)
        a, b, c = camera.at(*top), camera.at(*knee), camera.at(*ankle)
        pen.line([a, b], 0.172 * s, colour, 255, 0.76)
        pen.line([b, c], 0.131 * s, colour, 255, 0.72)
        shoe = [
            (foot - 0.048, 0.0),
            (foot - 0.05, 0.045),
            (foot - 0.03, 0.085),
            (foot + 0.03, 0.085),
            (foot + 0.05, 0.045),
            (foot + 0.048, 0.0),
        ]
        pen.fill(
            [camera.at(x + side * 0.012, y) for x, y in shoe],
            palette.shoe,
        )


def torso(pen: Pen, camera: Camera, palette: Palette, hub: Point, hip: Point) -> None:
    """Shirt between shoulders and hip."""
    trail, lead = (hub[0] - 0.185, hub[1] - 0.035), (hub[0] + 0.185, hub[1])
    shape = [
        (hub[0] - 0.07, hub[1] + 0.055), (hub[0] + 0.07, hub[1] + 0.06),
        (lead[0] - 0.02, lead[1] + 0.03), (lead[0] + 0.02, lead[1] - 0.04),
        (hub[0] + 0.165, hub[1] - 0.20), (hip[0] + 0.15, hip[1] + 0.06), (hip[0] + 0.163, hip[1] - 0.03),
        (hip[0] - 0.163, hip[1] - 0.03), (hip[0] - 0.15, hip[1] + 0.06), (hub[0] - 0.165, hub[1] - 0.22),
        (trail[0] - 0.02, trail[1] - 0.04), (trail[0] + 0.02, trail[1] + 0.03),
    ]  # fmt: skip
    pen.fill([camera.at(*p) for p in shape], palette.shirt)
    fold = [
        (hub[0] - 0.185, hub[1] - 0.10),
        (hub[0] - 0.11, hub[1] - 0.22),
        (hip[0] - 0.06, hip[1] - 0.03),
        (hip[0] - 0.163, hip[1] - 0.03),
        (hip[0] - 0.15, hip[1] + 0.06),
    ]
    pen.fill([camera.at(*p) for p in fold], palette.shirt_shade)


def head(pen: Pen, camera: Camera, palette: Palette, hub: Point) -> None:
    """Neck, face and cap over the hub."""
    s = camera.scale
    x, y = hub[0] + 0.005, hub[1] + 0.165
    pen.line([camera.at(hub[0], hub[1] + 0.02), camera.at(x, y - 0.05)], 0.10 * s, shade(palette.skin, -0.12))
    face = [(x + 0.083 * cos(a), y + 0.105 * sin(a)) for a in np.linspace(0, 6.2832, 40)]
    pen.fill([camera.at(*p) for p in face], palette.skin)
    crown = [(x + 0.094 * cos(a), y + 0.012 + 0.112 * sin(a)) for a in np.linspace(0, 3.1416, 30)]
    pen.fill([camera.at(*p) for p in crown], palette.cap)
    brim = [(x + 0.108 * cos(a), y + 0.010 + 0.036 * sin(a)) for a in np.linspace(0, 6.2832, 40)]
    pen.fill([camera.at(*p) for p in brim], shade(palette.cap, -0.16))


def arms(pen: Pen, camera: Camera, palette: Palette, hub: Point, hands: Point) -> None:
    """Both arms from the shoulders to the hands."""
    s = camera.scale
    for side, drop, colour in ((-1.0, 0.035, palette.shirt_shade), (1.0, 0.0, palette.shirt)):
        shoulder = (hub[0] + side * 0.165, hub[1] - drop - 0.022)
        wrist = (hands[0] + side * 0.012, hands[1] + 0.02 + (0.03 if side > 0 else 0.0))
        elbow = (0.5 * (shoulder[0] + wrist[0]) + side * 0.035, 0.5 * (shoulder[1] + wrist[1]))
        pen.line([camera.at(*elbow), camera.at(*wrist)], 0.078 * s, palette.skin, 255, 0.68)
        pen.line(
            [camera.at(*shoulder), camera.at(*elbow)],
            0.102 * s,
            shade(colour, -0.10 if side > 0 else -0.06),
            255,
            0.80,
        )


def golfer_club(
    pen: Pen, camera: Camera, palette: Palette, hands: Point, edge: Point, lean: float, unit: float
) -> None:
    """Shaft, grip and blade; `lean` (rad) is that of the line from edge to hands."""
    s = camera.scale
    up = (sin(lean), cos(lean))
    end = (hands[0] + up[0] * 0.11, hands[1] + up[1] * 0.11)
    pen.line([camera.at(*edge), camera.at(*end)], max(0.011 * s, 1.6 * unit), palette.steel_edge)
    low = (hands[0] - up[0] * GRIP, hands[1] - up[1] * GRIP)
    pen.line(
        [camera.at(*low), camera.at(*end)],
        max(0.024 * s, 2.2 * unit),
        palette.grip,
    )
    x, y = edge
    blade = [(x, y), (x - 0.048, y + 0.040), (x - 0.056, y + 0.034), (x - 0.026, y - 0.002)]
    pen.fill([camera.at(*p) for p in blade], palette.steel_edge)


def golfer_figure(
    pen: Pen, camera: Camera, palette: Palette, setup: Setup, swing: SwingTrace, unit: float
) -> None:
    """The golfer at address at true scale, ball and club included."""
    hub, hands = _address(setup, swing)
    shift = (setup.lead_weight - 0.5) * (setup.stance_width + 0.10)
    hip = (-setup.ball_position + shift, 0.86)
    k = int(np.argmin(np.abs(np.asarray(swing.t))))
    edge = (swing.head[0][k], max(swing.head[1][k], 0.002))
    legs(pen, camera, palette, setup, hip)
    torso(pen, camera, palette, hub, hip)
    head(pen, camera, palette, hub)
    golfer_club(pen, camera, palette, hands, edge, setup.shaft_lean, unit)
    arms(pen, camera, palette, hub, hands)
    pen.disc(camera.at(*hands), 0.047 * camera.scale, palette.skin)


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
    scale = min(box.h / (TALL + 0.04), box.w / wide)
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
