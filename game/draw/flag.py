"""The hole from the side: cup, flagstick and flag, which always finds room in the picture."""

from game.draw.camera import Camera, Rect
from game.draw.palette import Palette
from game.draw.pen import Pen, shade
from physics.course import Hole
from physics.equipment import FLAGSTICK, HOLE_RADIUS

__all__ = ["CUP_DEPTH", "draw_cup", "draw_flagstick", "draw_hole", "stick_top"]

CUP_DEPTH = 0.1016  # m, Rules of Golf: at least
FLAG_AIR = 6.0  # px over a flag whose stick would leave the picture, at line weight 1
CLOTH = 0.45  # of what is seen of the stick, at most, the cloth hangs down


def draw_hole(
    pen: Pen, box: Rect, hole: Hole, low: float, camera: Camera, palette: Palette, unit: float
) -> None:  # fmt: skip
    """Cup, stick and cloth on ground `low` m high. A stick that would leave the box is drawn shorter, with
    a break in it."""
    draw_cup(pen, hole, low, camera, palette, unit)
    if hole.flagstick:
        draw_flagstick(pen, box, hole, low, camera, palette, unit)


def draw_cup(pen: Pen, hole: Hole, low: float, camera: Camera, palette: Palette, unit: float) -> None:
    """The cut through the cup."""
    left, right = camera.at(hole.x - HOLE_RADIUS, low), camera.at(hole.x + HOLE_RADIUS, low - CUP_DEPTH)
    pen.fill([left, (right[0], left[1]), right, (left[0], right[1])], shade(palette.soil, -0.55))
    for x in (left[0], right[0]):
        pen.line([(x, left[1] + 1), (x, right[1])], 1.3 * unit, palette.ball)


def stick_top(box: Rect, low: float, camera: Camera, unit: float) -> float:
    """Height (px from above) of the stick's end as drawn in the box."""
    return max(camera.at(0.0, low + FLAGSTICK.height)[1], box.y + FLAG_AIR * unit)


def draw_flagstick(
    pen: Pen, box: Rect, hole: Hole, low: float, camera: Camera, palette: Palette, unit: float,
    lean: float = 0.0,
) -> None:  # fmt: skip
    """Stick and cloth; `lean` is how far (share of its height) the top is swayed along x."""
    foot = camera.at(hole.x, low - CUP_DEPTH)
    floor, whole = camera.at(hole.x, low)[1], camera.at(hole.x, low + FLAGSTICK.height)[1]
    y = stick_top(box, low, camera, unit)
    x = foot[0] + lean * (foot[1] - y)
    bow = (foot[0] + 0.36 * (x - foot[0]), 0.5 * (foot[1] + y))  # it bends more toward its end
    line = [foot, bow, (x, y)] if lean else [foot, (x, y)]
    pen.line(line, max(2 * FLAGSTICK.radius * camera.scale, 3.2 * unit), palette.outline)
    pen.line(line, max(1.2 * FLAGSTICK.radius * camera.scale, 1.6 * unit), palette.ball)
    s = min(camera.scale * FLAGSTICK.height / 2.13, max(floor - y, 0.0) * CLOTH / 0.31)
    if y > whole:
        _break(pen, bow[0] if lean else x, 0.5 * (y + 0.31 * s + floor), palette, unit)
    _cloth(pen, x, y, s, palette, 6.0 * lean)


def _cloth(pen: Pen, x: float, y: float, s: float, palette: Palette, shaken: float) -> None:
    """The flag at the top (x, y) of its stick; `s` px a metre. Shaken, it swings out and up."""
    cloth = ((0.0, 0.02), (0.24, 0.05), (0.46, 0.16), (0.22, 0.23), (0.0, 0.31))
    hem = ((0.0, 0.02), (0.05, 0.03), (0.05, 0.295), (0.0, 0.31))
    pen.fill([(x + a * s, y + (b + a * shaken) * s) for a, b in cloth], palette.flag)
    pen.fill([(x + a * s, y + b * s) for a, b in hem], shade(palette.flag, -0.22))


def _break(pen: Pen, x: float, y: float, palette: Palette, unit: float) -> None:
    """Two slanted strokes across the stick: a part of it is left out."""
    for shift, wide, colour in ((0.0, 6.0, palette.field), (-3.5, 1.4, palette.outline),
                                (3.5, 1.4, palette.outline)):  # fmt: skip
        at = y + shift * unit
        pen.line([(x - 5 * unit, at + 3 * unit), (x + 5 * unit, at - 3 * unit)], wide * unit, colour)
