"""World to pixel at true scale: one number of pixels a metre, both ways."""

from dataclasses import dataclass, replace
from typing import Self

__all__ = ["Camera", "Rect"]


@dataclass(frozen=True)
class Rect:
    """Box in pixels, y down."""

    x: float
    y: float
    w: float
    h: float

    @property
    def right(self) -> float:
        return self.x + self.w

    @property
    def bottom(self) -> float:
        return self.y + self.h

    def inset(self, by: float) -> "Rect":
        return Rect(self.x + by, self.y + by, self.w - 2 * by, self.h - 2 * by)

    def overlaps(self, other: "Rect") -> bool:
        """True when the two share an area (touching edges do not count)."""
        apart = (
            self.right <= other.x or other.right <= self.x
            or self.bottom <= other.y or other.bottom <= self.y
        )  # fmt: skip
        return not apart

    def holds(self, other: "Rect", slack: float = 0.5) -> bool:
        """True when the other lies inside, to within `slack` pixels."""
        return (
            other.x >= self.x - slack and other.right <= self.right + slack
            and other.y >= self.y - slack and other.bottom <= self.bottom + slack
        )  # fmt: skip


@dataclass(frozen=True)
class Camera:
    """World origin at pixel (x0, y0); `scale` pixels a metre; mirrored for a left-hander."""

    scale: float
    x0: float
    y0: float
    mirrored: bool = False

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Pixel of a world point (m)."""
        side = -1.0 if self.mirrored else 1.0
        return self.x0 + side * x * self.scale, self.y0 - y * self.scale

    def world(self, px: float, py: float) -> tuple[float, float]:
        """World point (m) of a pixel."""
        side = -1.0 if self.mirrored else 1.0
        return side * (px - self.x0) / self.scale, (self.y0 - py) / self.scale

    def moved(self, dx: float, dy: float) -> Self:
        """The same view so many pixels to the right and down."""
        return replace(self, x0=self.x0 + dx, y0=self.y0 + dy)

    @property
    def half(self) -> "Camera":
        """The same view on a page half as wide and tall."""
        return Camera(self.scale / 2, self.x0 / 2, self.y0 / 2, self.mirrored)

    def line(self, xs: tuple[float, ...], ys: tuple[float, ...]) -> list[tuple[float, float]]:
        """Pixels of a trace."""
        return [self.at(x, y) for x, y in zip(xs, ys, strict=True)]
