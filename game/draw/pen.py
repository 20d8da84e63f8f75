"""Drawing with even line weights: every shape is drawn enlarged and the sheet shrunk once."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, hypot

import numpy as np
import pygame

from game.draw.camera import Rect
from game.draw.palette import Colour, mix

__all__ = ["Pen", "Points", "gradient", "resample", "shade", "sheet"]

Points = Sequence[tuple[float, float]]


def sheet(w: float, h: float, zoom: int) -> "Pen":
    """A fresh opaque sheet of w x h px, drawn `zoom` times larger."""
    return Pen(pygame.Surface((ceil(w) * zoom, ceil(h) * zoom), 0, 32), zoom)


def resample(points: Points, step: float) -> list[tuple[float, float]]:
    """The same line with points every `step`."""
    p = np.asarray(points, dtype=float)
    s = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(p, axis=0).T))])
    n = max(int(s[-1] / step), 1)
    at = np.linspace(0.0, s[-1], n + 1)
    return list(zip(np.interp(at, s, p[:, 0]).tolist(), np.interp(at, s, p[:, 1]).tolist(), strict=True))


@dataclass(frozen=True)
class Pen:
    """A sheet and how much larger than the page it is. All arguments are page pixels."""

    surface: pygame.Surface
    zoom: int

    def shrink(self) -> pygame.Surface:
        """The page itself."""
        z = self.zoom
        if z == 1:
            return self.surface
        fine = pygame.surfarray.pixels3d(self.surface)
        w, h = fine.shape[0] // z, fine.shape[1] // z
        total = np.full((w, h, 3), z * z // 2, dtype=np.uint16)  # own mean: the library's rounds down
        for i in range(z):
            for j in range(z):
                total += fine[i : w * z : z, j : h * z : z]
        page = pygame.Surface((w, h), 0, 32)
        pygame.surfarray.blit_array(page, (total // (z * z)).astype(np.uint8))
        return page

    @contextmanager
    def inside(self, box: Rect) -> Iterator[None]:
        """Draw only inside the box."""
        z, old = self.zoom, self.surface.get_clip()
        self.surface.set_clip(
            pygame.Rect(round(box.x * z), round(box.y * z), round(box.w * z), round(box.h * z))
        )
        try:
            yield
        finally:
            self.surface.set_clip(old)

    def _veil(self, points: Points, pad: float, alpha: int) -> tuple["Pen", tuple[int, int]] | None:
        """A clear sheet over the bounding box of the points, for see-through shapes."""
        z = self.zoom
        box = self.surface.get_clip()
        xs, ys = [p[0] * z for p in points], [p[1] * z for p in points]
        left, top = int(max(min(xs) - pad * z, box.left)), int(max(min(ys) - pad * z, box.top))
        right, low = ceil(min(max(xs) + pad * z, box.right)), ceil(min(max(ys) + pad * z, box.bottom))
        if right <= left or low <= top:
            return None
        layer = pygame.Surface((right - left, low - top), pygame.SRCALPHA, 32)
        layer.set_alpha(alpha)
        return Pen(layer, z), (left, top)

    def fill(self, points: Points, colour: Colour, alpha: int = 255) -> None:
        """Filled polygon."""
        if len(points) < 3:
            return
        z = self.zoom
        if alpha < 255:
            if veil := self._veil(points, 1, alpha):
                pen, (left, top) = veil
                pen.fill([(x - left / z, y - top / z) for x, y in points], colour)
                self.surface.blit(pen.surface, (left, top))
            return
        pygame.draw.polygon(self.surface, colour, [(x * z, y * z) for x, y in points])

    def line(
        self, points: Points, width: float, colour: Colour, alpha: int = 255, taper: float = 1.0
    ) -> None:
        """Round-jointed line; `taper` is the width at its end over the width at its start."""
        if len(points) < 2:
            return
        z = self.zoom
        if alpha < 255:
            if veil := self._veil(points, width, alpha):
                pen, (left, top) = veil
                pen.line([(x - left / z, y - top / z) for x, y in points], width, colour, 255, taper)
                self.surface.blit(pen.surface, (left, top))
            return
        n, half = len(points) - 1, width * z / 2
        fine = [(x * z, y * z, half * (1 + (taper - 1) * i / n)) for i, (x, y) in enumerate(points)]
        surface, circle, polygon = self.surface, pygame.draw.circle, pygame.draw.polygon
        for x, y, r in fine:
            circle(surface, colour, (x, y), max(r, 0.5))
        for (ax, ay, ra), (bx, by, rb) in pairwise(fine):
            dx, dy = bx - ax, by - ay
            d = hypot(dx, dy)
            if d > 0:
                nx, ny = -dy / d, dx / d
                sides = (
                    (ax + nx * ra, ay + ny * ra), (bx + nx * rb, by + ny * rb),
                    (bx - nx * rb, by - ny * rb), (ax - nx * ra, ay - ny * ra),
                )  # fmt: skip
                polygon(surface, colour, sides)

    def dashes(
        self, points: Points, width: float, colour: Colour, on: float, off: float, alpha: int = 255
    ) -> None:
        """Dashed line, dash and gap in px."""
        if len(points) < 2:
            return
        fine = resample(points, 1.0)
        step = max(round(on + off), 2)
        for i in range(0, len(fine) - 1, step):
            self.line(fine[i : i + max(round(on), 1) + 1], width, colour, alpha)

    def disc(self, at: tuple[float, float], radius: float, colour: Colour, alpha: int = 255) -> None:
        """Filled circle."""
        z = self.zoom
        if alpha < 255:
            if veil := self._veil([at], radius + 1, alpha):
                pen, (left, top) = veil
                pen.disc((at[0] - left / z, at[1] - top / z), radius, colour)
                self.surface.blit(pen.surface, (left, top))
            return
        pygame.draw.circle(self.surface, colour, (at[0] * z, at[1] * z), radius * z)

    def arrow(
        self, tail: tuple[float, float], tip: tuple[float, float], width: float, colour: Colour
    ) -> None:
        """Line with a small solid head."""
        dx, dy = tip[0] - tail[0], tip[1] - tail[1]
        d = hypot(dx, dy)
        if d < 1e-6:
            return
        ux, uy, head = dx / d, dy / d, min(width * 3.2, d)
        neck = (tip[0] - ux * head, tip[1] - uy * head)
        self.line([tail, neck], width, colour)
        side = head * 0.55
        self.fill(
            [tip, (neck[0] - uy * side, neck[1] + ux * side), (neck[0] + uy * side, neck[1] - ux * side)],
            colour,
        )


def gradient(pen: Pen, box: Rect, stops: Sequence[tuple[float, Colour]], seed: int = 1) -> None:
    """Vertical gradient with noise of one level, so that no bands show. `stops`: (share down, colour)."""
    z = pen.zoom
    w, h = round(box.w * z), round(box.h * z)
    at = np.linspace(0.0, 1.0, h)
    grain = np.random.default_rng(seed).random((w, h), dtype=np.float32) - 0.5
    pixels = np.empty((w, h, 3), dtype=np.uint8)
    for k in range(3):
        level = np.interp(at, [s for s, _ in stops], [c[k] for _, c in stops]).astype(np.float32)
        pixels[:, :, k] = np.clip(np.rint(level[None, :] + grain), 0, 255)
    layer = pygame.Surface((w, h), 0, 32)
    pygame.surfarray.blit_array(layer, pixels)
    pen.surface.blit(layer, (round(box.x * z), round(box.y * z)))


def shade(colour: Colour, by: float) -> Colour:
    """Darker (by < 0) or lighter (by > 0) version."""
    return mix(colour, (255, 255, 255) if by > 0 else (0, 0, 0), abs(by))
