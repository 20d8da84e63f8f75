"""Many shots in one picture: each ball of a row has its own colour, shape and number."""

from math import cos, pi, sin

from game.draw.camera import Camera
from game.draw.palette import Colour, Palette
from game.draw.path import landing_at, stretches
from game.draw.pen import Pen
from physics.equipment import BALL
from physics.results import Run

__all__ = ["MOST_BALLS", "SHAPES", "colour_of", "flight", "shape", "stop"]

MOST_BALLS = 9  # balls that can be told apart
# Colours by place from the middle ball outward: the middle is ink; the others keep the hues of Okabe and
# Ito (2008), darkened or lightened like those of the palette until they hold 3:1 on sky and halo.
LIGHT_HUES: tuple[Colour, ...] = (
    (0x8A, 0x1F, 0x5C), (0x00, 0x5F, 0x99), (0x00, 0x6B, 0x4A), (0x6A, 0x4A, 0xA8),
    (0xB3, 0x47, 0x00), (0x80, 0x58, 0x00), (0xA3, 0x2E, 0x2E), (0x00, 0x66, 0x70),
)  # fmt: skip
DARK_HUES: tuple[Colour, ...] = (
    (0xF0, 0x9A, 0xCB), (0x6E, 0xC3, 0xF0), (0x5F, 0xD0, 0xA4), (0xBF, 0xAE, 0xF7),
    (0xF5, 0x9A, 0x4C), (0xE8, 0xBE, 0x4A), (0xFF, 0x9C, 0x8E), (0x7A, 0xD6, 0xD6),
)  # fmt: skip
SHAPES = (
    "triangle", "square", "diamond", "pentagon", "disc", "star", "cross", "wedge", "bar",
)  # fmt: skip


def colour_of(palette: Palette, at: int, count: int) -> Colour:
    """Colour of ball `at` of `count`: ink for the middle one."""
    middle = count // 2
    if at == middle:
        return palette.ink
    hues = DARK_HUES if palette.name == "dark" else LIGHT_HUES
    return hues[at + (4 - middle) - (1 if at > middle else 0)]


def _ring(n: int, turn: float, inner: float = 1.0) -> list[tuple[float, float]]:
    """Corners of a regular shape of radius 1; with `inner` every other one lies further in."""
    out = []
    for k in range(n):
        r = inner if k % 2 and inner < 1.0 else 1.0
        a = turn + 2.0 * pi * k / n
        out.append((r * sin(a), -r * cos(a)))
    return out


def _corners(name: str) -> list[tuple[float, float]]:
    wide, thin = 0.95, 0.34
    fixed = {
        "triangle": _ring(3, 0.0), "wedge": _ring(3, pi), "square": _ring(4, pi / 4),
        "diamond": _ring(4, 0.0), "pentagon": _ring(5, 0.0), "disc": _ring(24, 0.0),
        "star": _ring(10, 0.0, 0.45),
        "bar": [(-wide, -thin), (wide, -thin), (wide, thin), (-wide, thin)],
        "cross": [
            (-thin, -wide), (thin, -wide), (thin, -thin), (wide, -thin), (wide, thin), (thin, thin),
            (thin, wide), (-thin, wide), (-thin, thin), (-wide, thin), (-wide, -thin), (-thin, -thin),
        ],
    }  # fmt: skip
    return fixed[name]


def shape(pen: Pen, palette: Palette, at: int, count: int, point: tuple[float, float], radius: float) -> None:
    """The mark of ball `at` of `count` about a point, on a light rim."""
    corners = _corners(SHAPES[at + 4 - count // 2])
    for size, colour in ((1.35, palette.halo), (1.0, colour_of(palette, at, count))):
        pen.fill([(point[0] + size * radius * x, point[1] + size * radius * y) for x, y in corners], colour)


def flight(
    pen: Pen, camera: Camera, palette: Palette, run: Run, at: int, count: int, unit: float,
    strong: bool = False, old: bool = False,
) -> None:  # fmt: skip
    """Path of one ball: full in the air, dotted on the ground; dashed throughout when it is `old`.

    Its mark stands where it first came down.
    """
    tone, wide = colour_of(palette, at, count), (3.4 if strong else 1.9) * unit
    for air, a, b in stretches(run):
        line = camera.line(run.x[a : b + 1], run.y[a : b + 1])
        if strong and air:
            pen.line(line, wide + 3.0 * unit, palette.halo, 190)
        if air and not old:
            pen.line(line, wide, tone)
        else:
            pen.dashes(line, wide, tone, (6 if air else 2) * unit, 6 * unit)
    land = landing_at(run)
    if land is not None:
        point = camera.at(run.x[land], run.y[land] - BALL.radius)
        shape(pen, palette, at, count, point, (8.0 if strong else 5.5) * unit)


def stop(
    pen: Pen, camera: Camera, palette: Palette, x: float, low: float, at: int, count: int, unit: float
) -> None:
    """A ball at rest whose lowest point is at (x, low), ringed in its colour."""
    r = max(BALL.radius * camera.scale, 4.5 * unit)
    px, py = camera.at(x, low)
    pen.disc((px, py - r), r + 2.4 * unit, colour_of(palette, at, count))
    pen.disc((px, py - r), r, palette.ball)
