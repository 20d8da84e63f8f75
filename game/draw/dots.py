"""Strokes as dots: one shape and colour for each kind of strike, heaped where many balls stop."""

from collections.abc import Sequence

from game.draw.palette import Colour, Palette
from game.draw.pen import Pen
from levels.strokes import StrikeKind

__all__ = ["draw_dot", "heaped", "strike_colour"]

Point = tuple[float, float]
# Reddish purple of Okabe and Ito (2008), darkened or lightened until it holds 3:1 on paper
THIN_LIGHT, THIN_DARK = (0x8A, 0x1F, 0x5C), (0xF0, 0x9A, 0xCB)


def strike_colour(palette: Palette, kind: StrikeKind) -> Colour:
    """Colour of a kind of strike."""
    thin = THIN_DARK if palette.name == "dark" else THIN_LIGHT
    return {
        StrikeKind.SOLID: palette.path, StrikeKind.FAT: palette.landing, StrikeKind.THIN: thin,
        StrikeKind.OTHER: palette.ink,
    }[kind]  # fmt: skip


def draw_dot(pen: Pen, palette: Palette, kind: StrikeKind, at: Point, r: float) -> None:
    """Solid a disc, fat a wedge pointing into the ground, thin a flat bar, anything else a cross."""
    (x, y), colour = at, strike_colour(palette, kind)
    if kind is StrikeKind.SOLID:
        pen.disc(at, r, colour)
    elif kind is StrikeKind.FAT:
        pen.fill([(x - 1.15 * r, y - 0.9 * r), (x + 1.15 * r, y - 0.9 * r), (x, y + 1.15 * r)], colour)
    elif kind is StrikeKind.THIN:
        w, h = 1.2 * r, 0.5 * r
        pen.fill([(x - w, y - h), (x + w, y - h), (x + w, y + h), (x - w, y + h)], colour)
    else:
        pen.line([(x - r, y - r), (x + r, y + r)], 0.6 * r, colour)
        pen.line([(x - r, y + r), (x + r, y - r)], 0.6 * r, colour)


def heaped(xs: Sequence[float], pitch: float, room: float) -> tuple[Point, ...]:
    """Places (px, height over the foot) of dots at these xs: dots of one column stand on each other, closer
    where the highest heap would not fit into the room. Same order as the xs."""
    columns = [round(x / pitch) for x in xs]
    most = max((columns.count(c) for c in set(columns)), default=1)
    step = min(pitch, (room - pitch) / max(most - 1, 1))
    seen: dict[int, int] = {}
    out = []
    for column in columns:
        level = seen.get(column, 0)
        seen[column] = level + 1
        out.append((column * pitch, pitch / 2 + level * step))
    return tuple(out)
