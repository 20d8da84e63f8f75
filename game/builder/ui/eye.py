"""Where one looks at the course: always true scale; zoom at a point, pan, fit, and the grid's step."""

from dataclasses import dataclass, replace
from math import floor, log10

from game.draw.camera import Camera, Rect
from physics.constants import YARD

__all__ = ["FARTHEST", "NEAREST", "Eye", "grid_step", "places_of"]

FARTHEST, NEAREST = 4.0, 260.0  # px a metre
NOTCH = 1.25  # one turn of the wheel
WIDE = 70.0  # px between two labelled lines at least
HORIZON = 40.0  # px the ground at the ball may lie under the picture: the sky needs a horizon


def grid_step(scale: float, yards: bool = False, wide: float = WIDE) -> float:
    """Metres between labelled lines: 1, 2 or 5 times a power of ten, in the reader's unit."""
    unit = YARD if yards else 1.0
    least = wide / (scale * unit)
    power = 10.0 ** floor(log10(least))
    step = next(k * power for k in (1.0, 2.0, 5.0, 10.0) if k * power >= least * 0.999)
    return step * unit


def places_of(step: float) -> int:
    """Digits after the point that a step needs."""
    return max(0, -floor(log10(step) + 1e-9))


@dataclass(frozen=True)
class Eye:
    """`scale` px a metre, the world point (x, y) in the middle of the picture."""

    scale: float = 40.0
    x: float = 5.0
    y: float = 1.0

    def camera(self, box: Rect) -> Camera:
        """Camera that counts pixels from the corner of the box."""
        return Camera(self.scale, box.w / 2 - self.x * self.scale, box.h / 2 + self.y * self.scale)

    def clamped(self, box: Rect, left: float, right: float, low: float) -> "Eye":
        """Never so far off that the ground from left to right (m), lowest at `low`, goes out of sight."""
        scale = min(max(self.scale, FARTHEST), NEAREST)
        x = min(max(self.x, left), right)
        up = (box.h / 2 + HORIZON) / scale  # the ground at the ball has height 0
        down = low - box.h / 2 / scale
        return Eye(scale, x, min(max(self.y, down), up))

    def zoomed(self, by: float, at: tuple[float, float], box: Rect) -> "Eye":
        """So many notches nearer (or farther) with the pixel `at` held in its place."""
        x, y = self.camera(box).world(at[0] - box.x, at[1] - box.y)
        scale = min(max(self.scale * NOTCH**by, FARTHEST), NEAREST)
        k = self.scale / scale
        return Eye(scale, x + (self.x - x) * k, y + (self.y - y) * k)

    def panned(self, dx: float, dy: float) -> "Eye":
        """Moved with the hand by so many pixels."""
        return replace(self, x=self.x - dx / self.scale, y=self.y + dy / self.scale)

    @classmethod
    def fit(cls, box: Rect, left: float, right: float, low: float, high: float, earth: float) -> "Eye":
        """All of it, over `earth` px of ground."""
        room = max(box.h - earth - 12.0, 40.0)
        scale = min(box.w / max(right - left, 1.0), room / max(high - low, 1.0), NEAREST)
        scale = max(scale, FARTHEST)
        foot = box.h - earth  # px of the lowest point
        return cls(scale, (left + right) / 2, low + (foot - box.h / 2) / scale)
