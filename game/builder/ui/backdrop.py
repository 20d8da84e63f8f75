"""The course under the builder's hands: drawn finely at rest, the last drawing stretched while it moves."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pygame

from game.draw import course as course_picture
from game.draw.camera import Camera, Rect
from game.draw.course import course_unit
from game.draw.palette import Palette
from physics.course import Course, Ground

__all__ = ["REDRAW_AFTER", "Backdrop", "cropped"]

REDRAW_AFTER = 0.12  # s without a change until the picture is drawn anew, assumed
ZOOM = 2
SPARE = 1.0  # m of ground kept beyond both edges


def cropped(course: Course, left: float, right: float) -> Course:
    """The same course, its ground only from left to right (m): what is not seen costs no drawing."""
    g = course.ground
    left, right = max(left, g.x[0]), min(right, g.x[-1])
    if left >= right:
        return course
    inner = [(x, y, s) for x, y, s in zip(g.x, g.y, (*g.surfaces, ""), strict=True) if left < x < right]
    xs = [left, *(x for x, _, _ in inner), right]
    ys = [float(v) for v in np.interp(xs, g.x, g.y)]
    over = tuple(course_picture.surface_at(course, (a + b) / 2) for a, b in pairwise(xs))
    return replace(course, ground=Ground(tuple(xs), tuple(ys), over))


class Backdrop:
    """One picture of one course through one camera; another is asked for by `draw` and made once it rests."""

    def __init__(self) -> None:
        self._made: pygame.Surface | None = None
        self._of: tuple[Course, Camera, Palette, tuple[int, int]] | None = None
        self._wanted: tuple[Course, Camera, Palette, tuple[int, int]] | None = None
        self._still = 0.0
        self._frame = self._now = (0.0, 0.0)

    @property
    def fresh(self) -> bool:
        """Whether the picture is of the course that was last asked for."""
        return self._of is not None and self._wanted is not None and self._of[0] == self._wanted[0]

    def update(self, dt: float) -> None:
        """Let time pass; what has rested long enough is drawn."""
        self._still += dt
        if self._wanted is not None and self._wanted != self._of and self._still >= REDRAW_AFTER:
            self._make()

    def _make(self) -> None:
        assert self._wanted is not None
        self._frame = self._now
        course, camera, palette, (w, h) = self._of = self._wanted
        left, right = camera.world(0, 0)[0] - SPARE, camera.world(w, 0)[0] + SPARE
        unit = course_unit(w)
        fine = course_picture.layer(cropped(course, left, right), camera, palette, w, h, unit, ZOOM)
        self._made = pygame.transform.smoothscale(fine, (w, h))

    def draw(
        self, surface: pygame.Surface, at: pygame.Rect, course: Course, camera: Camera, palette: Palette,
        frame: tuple[float, float] = (0.0, 0.0),
    ) -> None:  # fmt: skip
        """Draw the course; the camera counts from the corner of `at`.

        `frame` (m) says where the origin lies now: a ball put elsewhere moves all numbers, not the picture.
        """
        self._now = frame
        wanted = (course, camera, palette, at.size)
        if wanted != self._wanted:
            self._wanted, self._still = wanted, 0.0
        of = self._of
        if of is None or self._made is None or of[2:] != wanted[2:]:
            self._make()
        assert self._of is not None
        assert self._made is not None
        old = self._of[1]
        dx, dy = frame[0] - self._frame[0], frame[1] - self._frame[1]
        old = Camera(old.scale, old.x0 - old.scale * dx, old.y0 + old.scale * dy)
        if old == camera:
            surface.blit(self._made, at)
        else:
            self._stretch(surface, at, self._made, old, camera, palette)

    @staticmethod
    def _stretch(
        surface: pygame.Surface, at: pygame.Rect, made: pygame.Surface, old: Camera, new: Camera,
        palette: Palette,
    ) -> None:  # fmt: skip
        """The old drawing where the new camera sees it; earth and sky go on beyond its edges."""
        k = new.scale / old.scale
        x, y = new.x0 - k * old.x0, new.y0 - k * old.y0
        whole = Rect(x, y, k * made.get_width(), k * made.get_height())
        seen = pygame.Rect(0, 0, *at.size)
        cut = pygame.Rect(int(-x / k) - 1, int(-y / k) - 1, int(at.w / k) + 3, int(at.h / k) + 3)
        cut = cut.clip(made.get_rect())
        surface.fill(palette.sky_high, at)
        foot = max(seen.h - int(whole.bottom), 0)
        if foot:
            surface.fill(palette.paper, (at.x, at.bottom - foot, at.w, foot))
        if cut.w > 0 and cut.h > 0:
            part = pygame.transform.scale(made.subsurface(cut), (round(cut.w * k), round(cut.h * k)))
            surface.blit(part, (at.x + round(x + cut.x * k), at.y + round(y + cut.y * k)))
