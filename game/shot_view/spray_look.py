"""What thrown turf and sand look like: clumps with grass on top, crumbs, and handfuls of sand that open."""

from math import cos, degrees, pi, sin

import numpy as np
import pygame

from game.draw.camera import Camera
from game.draw.course import top_colour
from game.draw.palette import Colour, Palette, mix
from game.draw.pen import shade
from game.shot_view.spray import Track
from game.shot_view.spray_seed import Clod

__all__ = ["Spray"]

FINE = 4  # sprites are drawn this many times larger, then shrunk
SHAPES = 6  # different crumbs and handfuls
OPENS = (1.0, 1.4, 1.8, 2.3, 2.8, 3.3, 3.9, 4.5, 5.2)  # a handful of sand coming apart, over its radius
OPENING = 0.012  # s from one to the next, assumed
GRAIN = 0.5e-3  # m, radius of a drawn grain: coarse sand, assumed
LEAST = 1.0  # px, least radius of a crumb
LIES = 0.012  # s of flight left in which a handful comes down flat, assumed
ROOTS = 0.005  # m, earth from above this is grass and thatch

Sprite = pygame.Surface


class Spray:
    """Draws a Track in the colours of a palette. Pictures of pieces are made once and kept."""

    def __init__(self, track: Track, palette: Palette, surface: str) -> None:
        self.track, self.palette = track, palette
        self._sprites: dict[tuple[object, ...], Sprite] = {}
        top, soil = top_colour(palette, surface), palette.soil
        self._tones: dict[str, tuple[Colour, ...]] = {
            "grass": (top, shade(top, 0.12), shade(top, -0.18), palette.thatch),
            "earth": (
                mix(soil, palette.ink, 0.42), mix(soil, palette.ink, 0.54),
                mix(palette.thatch, palette.ink, 0.25), mix(soil, palette.ink, 0.30),
            ),
            "sand": tuple(mix(palette.sand_deep, palette.ink, share) for share in (0.12, 0.26, 0.38, 0.5)),
        }  # fmt: skip

    def draw(self, surface: pygame.Surface, camera: Camera, time: float, still: bool = False) -> None:
        """Blit every loose piece that can be seen at a time (s); `still` shows them at rest."""
        loose, xs, ys, angles = self.track.at(time, still)
        if not len(loose):
            return
        wide, high = surface.get_size()
        blits = []
        for i, x, y, a in zip(loose.tolist(), xs.tolist(), ys.tolist(), angles.tolist(), strict=True):
            px, py = camera.at(x, y)
            if -40 < px < wide + 40 and -40 < py < high + 40:
                sprite = self._sprite(i, self.track.pieces[i], a, camera, time, still)
                w, h = sprite.get_size()
                blits.append((sprite, (round(px - w / 2), round(py - h / 2))))
        surface.fblits(blits)

    def _sprite(self, i: int, clod: Clod, angle: float, camera: Camera, time: float, still: bool) -> Sprite:
        s, side = camera.scale, -1.0 if camera.mirrored else 1.0
        if clod.kind == "clump":
            if clod.radius * s < 2.0:
                return self._kept(("dot", 0, 4), lambda: _crumb(2.0, self._tones["earth"], 1))
            base = self._kept(("clump", i, s, side), lambda: self._clump(i, clod, s, side))
            turned = round(side * degrees(angle) / 3.0) * 3
            return self._kept(
                ("clump", i, s, side, turned), lambda: pygame.transform.rotozoom(base, turned, 1.0 / FINE)
            )
        shape, r = i % SHAPES, clod.radius * s
        if clod.kind == "crumb":
            size = max(round(4 * r) / 4, LEAST)
            sort = "grass" if clod.depth < ROOTS and i % 3 else "earth"
            return self._kept((sort, shape, size), lambda: _crumb(size, self._tones[sort], shape))
        size, age = max(round(2 * r) / 2, LEAST), time - clod.born
        left = self.track.landed(i) - age
        if still or left < LIES:
            return self._kept(("lies", shape, size), lambda: self._handful(size, 3.0, 0.35, shape, s))
        k = min(int(age / OPENING), len(OPENS) - 1)
        return self._kept(("sand", shape, size, k), lambda: self._handful(size, OPENS[k], OPENS[k], shape, s))

    def _kept(self, key: tuple[object, ...], make: "object") -> Sprite:
        found = self._sprites.get(key)
        if found is None:
            if len(self._sprites) > 600:
                self._sprites.clear()
            found = self._sprites[key] = make()  # type: ignore[operator]
        return found

    def _clump(self, i: int, clod: Clod, s: float, side: float) -> Sprite:
        """A piece of the turf as it was cut: grass, thatch, earth; FINE times larger, unturned."""
        f = FINE * s
        reach = max(max(abs(x), abs(y)) for x, y in clod.outline) + 0.006
        half = round(reach * f)
        out = pygame.Surface((2 * half, 2 * half), pygame.SRCALPHA, 32)
        chance = np.random.default_rng(i + 11)
        left, right, *under = clod.outline
        ragged = [(x, y + float(chance.normal(0.0, 0.0006))) for x, y in under]

        def at(x: float, y: float) -> tuple[float, float]:
            return half + side * x * f, half - y * f

        dark, _, thatch, light = self._tones["earth"]
        pygame.draw.polygon(out, dark, [at(*p) for p in (left, right, *ragged)])
        inner = [(0.94 * x, 0.72 * y + 0.28 * left[1] + 0.0004) for x, y in ragged]
        pygame.draw.polygon(out, light, [at(*p) for p in (left, right, *inner)])
        for deep, tone in ((0.0035, thatch), (0.0018, self._tones["grass"][0])):
            band = [left, right, (right[0] - 0.0006, right[1] - deep), (left[0] + 0.0006, left[1] - deep)]
            pygame.draw.polygon(out, tone, [at(*p) for p in band])
        for x in np.linspace(left[0], right[0], max(round((right[0] - left[0]) / 0.0016), 2)):
            tall, bow = float(chance.uniform(0.002, 0.005)), float(chance.normal(0.0, 0.0015))
            tone = self._tones["grass"][int(chance.integers(0, 3))]
            pygame.draw.line(out, tone, at(float(x), left[1]), at(float(x) + bow, left[1] + tall), FINE)
        return out

    def _handful(self, size: float, wide: float, high: float, shape: int, s: float) -> Sprite:
        """Grains strewn over a disc `wide` by `high` times the handful."""
        chance = np.random.default_rng(shape + 3)
        grain = max(GRAIN * s, 0.7)
        count = int(min(max((size / grain) ** 2 * 1.3, 3), 80))
        half_w, half_h = size * wide + 2, size * high + 2
        out = pygame.Surface((round(2 * half_w * FINE), round(2 * half_h * FINE)), pygame.SRCALPHA, 32)
        out.fill((*self._tones["sand"][0], 0))
        for _ in range(count):
            r, a = float(chance.uniform(0.0, 1.0)) ** 0.7, float(chance.uniform(0.0, 2.0 * pi))
            x, y = half_w + r * size * wide * cos(a), half_h + r * size * high * sin(a)
            tone = self._tones["sand"][int(chance.integers(0, 4))]
            wide_of = grain * FINE * float(chance.uniform(0.7, 1.2))
            pygame.draw.circle(out, tone, (x * FINE, y * FINE), wide_of)
        return pygame.transform.smoothscale(out, (round(2 * half_w), round(2 * half_h)))


def _crumb(size: float, tones: tuple[Colour, ...], shape: int) -> Sprite:
    """An uneven bit of earth or grass, lit from above."""
    chance = np.random.default_rng(shape)
    half = size * 1.5 + 1.0
    out = pygame.Surface((round(2 * half * FINE),) * 2, pygame.SRCALPHA, 32)
    out.fill((*tones[0], 0))
    turn = np.linspace(0.0, 2.0 * pi, 8)[:-1]
    rough = chance.uniform(0.7, 1.25, len(turn))
    tone = tones[shape % len(tones)]
    for part, lift, colour in ((1.0, 0.0, shade(tone, -0.18)), (0.7, 0.22, tone)):
        wide, high, mid = part * size * FINE, 0.85 * part * size * FINE, (half - lift * size) * FINE
        points = [
            (half * FINE + wide * r * cos(a), mid + high * r * sin(a))
            for r, a in zip(rough.tolist(), turn.tolist(), strict=True)
        ]
        pygame.draw.polygon(out, mix(colour, tone, 0.2), points)
    return pygame.transform.smoothscale(out, (max(round(2 * half), 1),) * 2)
