"""The strike at equal times: where hands and club were, as they really moved."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, hypot, isfinite, sin

import pygame

from game.draw import clubhead
from game.draw.camera import Camera
from game.draw.palette import Palette, mix
from game.draw.pen import Pen
from game.shot_view.stance import Stance, head_at, read, stance_at, table
from game.ui.supersample import sprite
from physics.address import Setup
from physics.results import Shot

__all__ = [
    "FAINT", "OLDEST", "Flash", "Sprites", "as_struck", "club_sprites", "flashes", "hands_at", "show",
    "swung",
]  # fmt: skip

GAPS = (0.005, 0.010, 0.015, 0.020, 0.030, 0.050, 0.080)  # s between flashes
OFF = 0.03  # m between real and intended way from which no flash is shown where only the latter is known
JOIN = 0.1  # s over which the real way meets the intended one, as the head does
FADE = 0.030  # s in which a flash fades
OLDEST = 0.80  # clearness of the first flash on the golfer
FAINT, BRIGHT = 150, 255  # of 255, how clear it is after and before
BLADE = 0.050  # m of blade drawn on the golfer's clubs

Point = tuple[float, float]
Sprites = tuple[tuple[float, pygame.Surface, tuple[int, int]], ...]  # time, picture, where


@dataclass(frozen=True)
class Flash:
    """Club and hands at one time."""

    time: float
    edge: Point  # m, leading edge
    hands: Point  # m
    lean: float


def _real_hands(shot: Shot, time: float) -> Point:
    """Hands (m) from the edge and the angle the club really had, inside the strike."""
    sole, swing, sine = shot.strike.sole, shot.swing, sin(shot.setup.club.lie)
    x, y, club = read(table(sole.club, lambda: (sole.t, *sole.edge, sole.club)), time)
    wide, tall = swing.head[0][0] - swing.hands[0][0], swing.hands[1][0] - swing.head[1][0]
    long = hypot(wide, tall / sine)
    return x - long * sin(club), y + sine * long * cos(club)


def hands_at(shot: Shot, time: float) -> Point:
    """Hands (m) as they really were; outside the strike the intended way, shifted so that it joins."""
    swing, sole = shot.swing, shot.strike.sole
    rows = table(swing.hands, lambda: (swing.t, *swing.hands))
    intended = read(rows, time)
    if not sole.t:
        return intended[0], intended[1]
    inside = min(max(time, sole.t[0]), sole.t[-1])
    share = max(1.0 - abs(time - inside) / JOIN, 0.0)
    real, there = _real_hands(shot, inside), read(rows, inside)
    return (
        intended[0] + share * (real[0] - there[0]),
        intended[1] + share * (real[1] - there[1]),
    )  # fmt: skip


def as_struck(shot: Shot, address: Stance, time: float) -> Stance:
    """Golfer and club at a time, with hands and club as ground and ball really left them."""
    stance = stance_at(shot, address, time)
    if time < shot.swing.t[0]:
        return stance
    x, y, lean = head_at(shot, time)
    return Stance(stance.hub, hands_at(shot, time), (x, y), lean)


def flashes(shot: Shot, reach: float, apart: float) -> tuple[Flash, ...]:
    """Flashes at equal times, one at the ball, while the edge is within `reach` (m) of it. The gap is
    the shortest of GAPS in which the head comes `apart` (m) or more."""
    ball = shot.strike.time if isfinite(shot.strike.time) else 0.0
    speed, last = max(shot.strike.speed_before, 0.5), _last(shot)
    gap = next((g for g in GAPS if g * speed >= apart), GAPS[-1])
    out = []
    for side in (-1, 1):
        for k in range(0 if side > 0 else 1, 60):
            time = ball + side * k * gap
            x, y, lean = head_at(shot, time)
            if abs(x) > reach or not shot.swing.t[0] <= time <= last:
                break
            out.append(Flash(time, (x, y), hands_at(shot, time), lean))
    return tuple(sorted(out, key=lambda f: f.time))


def _last(shot: Shot) -> float:
    """Time (s) up to which the way of the club is known."""
    t, end = shot.strike.sole.t, shot.swing.t[-1]
    if not t:
        return end
    (rx, ry), (ix, iy) = _edges(shot, t[-1])
    return end if hypot(rx - ix, ry - iy) < OFF else t[-1]


def _edges(shot: Shot, time: float) -> tuple[Point, Point]:
    """The edge (m) as it was and as it was meant."""
    swing = shot.swing
    meant = read(table(swing.head, lambda: (swing.t, *swing.head)), time)
    return head_at(shot, time)[:2], (meant[0], meant[1])


def swung(pen: Pen, camera: Camera, palette: Palette, past: Sequence[Flash], unit: float) -> None:
    """Shafts, blades and hands before the golfer, oldest first; the newest are the clearest."""
    for k, flash in enumerate(past):
        tone = mix(palette.paper, palette.ghost, OLDEST + (1.0 - OLDEST) * (k + 1) / len(past))
        shaft = [camera.at(*flash.hands), camera.at(*flash.edge)]
        pen.line(shaft, 2.4 * unit, palette.halo)
        pen.line(shaft, 1.3 * unit, tone)
        lean = flash.lean
        c, s = cos(lean), sin(lean)
        blade = [(0.0, 0.0), (-BLADE, 0.8 * BLADE), (-BLADE, 0.1 * BLADE)]
        points = [camera.at(flash.edge[0] + x * c + y * s, flash.edge[1] - x * s + y * c) for x, y in blade]
        pen.line([*points, points[0]], 1.1 * unit, tone)
    for flash in past:
        at = camera.at(*flash.hands)
        pen.disc(at, 4.2 * unit, palette.halo)
        pen.disc(at, 2.9 * unit, palette.ghost)


def club_sprites(
    row: Sequence[Flash], setup: Setup, camera: Camera, palette: Palette, unit: float, size: tuple[int, int]
) -> Sprites:  # fmt: skip
    """Each flash in the turf window as a small picture: the shaft as a hair, the head hollow."""
    out = []
    shape, _ = clubhead.head_shape(setup.club, setup.face_open)
    for flash in row:
        pose = clubhead.Pose("flash", 0, *flash.edge, flash.lean)
        line = [camera.at(*p) for p in clubhead.turned([*shape, shape[0]], pose)]
        up = _in_sight(camera.at(*clubhead.turned([clubhead.HOSEL[0]], pose)[0]), camera.at(*flash.hands))
        around = pygame.Rect(0, 0, *size).clip(_round([*line, *up], round(3 * unit)))
        with sprite(*around.size, palette.steel_edge) as (pen, sheet):
            line, up = ([(x - around.x, y - around.y) for x, y in part] for part in (line, up))
            pen.line(up, 1.1 * unit, palette.steel_edge)
            pen.fill(line, palette.steel_lit, 70)
            pen.line(line, 1.5 * unit, palette.steel_edge)
        box = sheet.get_bounding_rect()
        corner = (around.x + box.x, around.y + box.y)
        out.append((flash.time, sheet.subsurface(box).copy(), corner))
    return tuple(out)


def _in_sight(low: Point, high: Point) -> list[Point]:
    """The line cut off at the top of the window."""
    share = min(max(low[1] / max(low[1] - high[1], 1e-6), 0.0), 1.0)
    return [low, (low[0] + share * (high[0] - low[0]), low[1] + share * (high[1] - low[1]))]


def _round(points: Sequence[Point], pad: int) -> pygame.Rect:
    """The box (px) of the points with a margin."""
    xs, ys = [int(p[0]) for p in points], [int(p[1]) for p in points]
    return pygame.Rect(min(xs) - pad, min(ys) - pad, max(xs) - min(xs) + 2 * pad, max(ys) - min(ys) + 2 * pad)


def show(surface: pygame.Surface, sprites: Sprites, time: float) -> None:
    """Blit the flashes before the time; each fades and then stays faint."""
    for at, picture, corner in sprites:
        if at <= time:
            fresh = max(1.0 - (time - at) / FADE, 0.0)
            picture.set_alpha(round(FAINT + (BRIGHT - FAINT) * fresh))
            surface.blit(picture, corner)
