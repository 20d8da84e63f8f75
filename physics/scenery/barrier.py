"""Walls and bunker lips: one convex polygon each.

Restitution and friction are assumed: no published value for a golf ball on boards, stone or a turf
edge is known to us. Boards between a golf ball on steel (about 0.8) and on turf (0.2-0.5).
"""

from physics.course import Course, Lip, Wall
from physics.scenery.region import SceneryRegion, around
from physics.scenery.solid import Solid, ground_height

__all__ = ["lip", "wall"]

WALL_RESTITUTION = 0.5  # assumed
WALL_FRICTION = 0.5  # assumed
LIP_RESTITUTION = 0.2  # assumed: turf on edge gives
LIP_FRICTION = 0.5  # assumed
SOD = 0.06  # m, assumed: thickness of the turf edge at its nose
ROOT = 0.05  # m that a barrier reaches into the ground, so that no ball gets under it


def wall(course: Course, item: Wall) -> SceneryRegion:
    """Wall whose near face stands at item.x and which is `thickness` deep toward the target."""
    near, far = item.x, item.x + item.thickness
    top = ground_height(course, near) + item.height
    foot = min(ground_height(course, near), ground_height(course, far))
    corners = ((near, foot - ROOT), (far, foot - ROOT), (far, top), (near, top))
    solid = Solid("wall", corners, 0.0, WALL_RESTITUTION, WALL_FRICTION)
    return SceneryRegion("wall", around(near, foot, far, top), (solid,))


def lip(course: Course, item: Lip) -> SceneryRegion:
    """Turf edge rooted at item.x; its nose hangs `overhang` back over the sand.

    The sand side is the ground under the nose; the top is `height` above it.
    """
    nose = item.x - item.overhang
    sand = ground_height(course, nose)
    top = sand + item.height
    sod = min(SOD, item.height)
    corners = ((nose, top - sod), (item.x, sand - ROOT), (item.x, top), (nose, top))
    solid = Solid("lip", corners, 0.0, LIP_RESTITUTION, LIP_FRICTION)
    return SceneryRegion("lip", around(nose, sand, item.x, top), (solid,))
