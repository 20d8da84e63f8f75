"""A strike lies in the frame of its slope; this camera shows it on the slope."""

from dataclasses import dataclass
from functools import cached_property
from math import cos, sin

from game.draw.camera import Camera
from physics.course import Course
from physics.shot import lie_of

__all__ = ["Tilted", "on_slope"]


@dataclass(frozen=True)
class Tilted(Camera):
    """Camera for points in the frame of the ground at the ball: `tilt` (rad, + uphill), `low` its height
    (m)."""

    tilt: float = 0.0
    low: float = 0.0

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Pixel of a point (m) along and off the slope."""
        c, s = self._turn  # written out, for it is asked for every point of every frame
        side = -1.0 if self.mirrored else 1.0
        px = self.x0 + side * (x * c - y * s) * self.scale
        return px, self.y0 - (self.low + x * s + y * c) * self.scale

    @cached_property
    def _turn(self) -> tuple[float, float]:
        return cos(self.tilt), sin(self.tilt)

    def true(self, x: float, y: float) -> tuple[float, float]:
        """The point (m) in the world."""
        c, s = self._turn
        return x * c - y * s, self.low + x * s + y * c


def on_slope(camera: Camera, course: Course) -> Tilted:
    """The camera, tilted as the ground under the ball of the course."""
    _, low, tilt = lie_of(course)
    return Tilted(camera.scale, camera.x0, camera.y0, camera.mirrored, tilt, low)
