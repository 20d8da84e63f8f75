"""Heads that a stroke leaves standing in the turf window, as pictures: they stay while ball and turf fly."""

from collections.abc import Callable, Sequence
from functools import partial
from math import ceil
from typing import Any

import pygame

from game.draw import clubhead
from game.draw.camera import Camera
from game.draw.palette import Palette
from game.draw.pen import Pen
from game.ui.supersample import sprite
from physics.results import Shot

__all__ = ["PRESSED", "PassedHeads"]

PRESSED = ("ball", "deepest")  # moments at which what the turf pushes with is kept in sight
ABOUT = 0.022  # m about a head that the arrows of the turf reach
Piece = tuple[pygame.Surface, tuple[int, int]]  # a picture and its corner (px)
Draw = Callable[[Pen, Camera], None]


class PassedHeads:
    """Of the poses the first is the head at the ball, solid; the others are hollow. Kept while shot, look and
    poses stay."""

    def __init__(self) -> None:
        self._key: tuple[Any, ...] = ()
        self._left: list[Callable[[], None]] = []
        self._under: list[Piece] = []
        self._over: list[Piece] = []

    def plan(
        self, shot: Shot, poses: Sequence[clubhead.Pose], camera: Camera, palette: Palette, unit: float,
        size: tuple[int, int],
    ) -> None:  # fmt: skip
        """What is to be drawn, in a window of so many px."""
        key = (shot, tuple(poses), camera, palette, unit, size)
        if len(key) == len(self._key) and all(a is b or a == b for a, b in zip(key, self._key, strict=True)):
            return
        self._key, self._left, self._under, self._over = key, [], [], []
        if not poses:
            return
        shape, _ = clubhead.head_shape(shot.setup.club, shot.setup.face_open)
        whole = pygame.Rect(0, 0, *size)

        def add(to: list[Piece], pose: clubhead.Pose, up: bool, draw: Draw) -> None:
            points = [camera.at(*p) for p in clubhead.turned(shape, pose)]
            pad = ABOUT * camera.scale + 4 * unit
            if up:
                high = clubhead.turned([clubhead.HOSEL[0], clubhead.SHAFT[1]], pose)
                points += [camera.at(*p) for p in high]
            x, y = min(p[0] for p in points) - pad, min(p[1] for p in points) - pad
            wide, tall = max(p[0] for p in points) + pad - x, max(p[1] for p in points) + pad - y
            around = pygame.Rect(int(x), int(y), ceil(wide), ceil(tall)).clip(whole)
            self._left.append(partial(_piece, to, around, camera, palette, draw))

        for pose in poses[1:]:
            add(self._under, pose, True, partial(_hollow, palette, shot, pose, unit))
        add(self._under, poses[0], True, partial(_shaft, palette, poses[0], unit))
        add(self._over, poses[0], False, partial(_solid, palette, shot, poses[0], unit))
        for pose in poses:
            if pose.name in PRESSED:
                add(self._over, pose, False, partial(_pressure, palette, shot, pose, unit))

    def ahead(self) -> None:
        """Draw one more, before any is needed: so that no frame waits for all."""
        if self._left:
            self._left.pop(0)()

    def under(self, surface: pygame.Surface) -> None:
        """What the ball flies before."""
        while self._left:
            self.ahead()
        surface.fblits(self._under)

    def over(self, surface: pygame.Surface) -> None:
        """What stands before the ball."""
        surface.fblits(self._over)


def _piece(to: list[Piece], around: pygame.Rect, camera: Camera, palette: Palette, draw: Draw) -> None:
    if around.w < 1 or around.h < 1:
        return
    with sprite(*around.size, palette.steel_edge) as (pen, sheet):
        draw(pen, camera.moved(-around.x, -around.y))
    box = sheet.get_bounding_rect()
    if box.w and box.h:
        to.append((sheet.subsurface(box).copy(), (around.x + box.x, around.y + box.y)))


def _hollow(palette: Palette, shot: Shot, pose: clubhead.Pose, unit: float, pen: Pen, camera: Camera) -> None:
    clubhead.draw_club(pen, camera, palette, shot, pose, False, unit)


def _solid(palette: Palette, shot: Shot, pose: clubhead.Pose, unit: float, pen: Pen, camera: Camera) -> None:
    clubhead.draw_club(pen, camera, palette, shot, pose, True, unit)


def _shaft(palette: Palette, pose: clubhead.Pose, unit: float, pen: Pen, camera: Camera) -> None:
    clubhead.shaft(pen, camera, palette, pose, unit)


def _pressure(
    palette: Palette, shot: Shot, pose: clubhead.Pose, unit: float, pen: Pen, camera: Camera
) -> None:  # fmt: skip
    clubhead.pressure(pen, camera, palette, shot, pose, unit)
