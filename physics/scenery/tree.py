"""A tree in the plane of the shot: a trunk, and a canopy of seeded wood among leaves.

Leaves slow the ball, wood turns it. The number of branches follows from `density`: a straight
path of a ball through the middle of the canopy sweeps the area 4 R (r + b) (R canopy, r ball, b mean
branch), so wood strewn with -ln(1 - density) / (4 R (r + b)) pieces a unit area is met with the
probability `density` (Poisson; derived). Only in the plane: a ball beside the tree is never asked.
"""

from math import cos, hypot, log, pi, sin, sqrt
from random import Random

from physics.course import Course, Tree
from physics.equipment import BALL
from physics.scenery.region import Leaves, SceneryRegion, around
from physics.scenery.solid import Solid, ground_height

__all__ = ["tree", "twigs"]

TRUNK = 0.12  # m, half width, assumed
TRUNK_RESTITUTION = 0.4  # assumed
TWIG = (0.008, 0.022)  # m, smallest and largest branch radius, assumed
TWIG_RESTITUTION = 0.3  # assumed: branches give
WOOD_FRICTION = 0.4  # assumed
LEAF_DRAG = 0.5  # 1/m at density 1, assumed: e-fold of speed in 2 m of the densest leaves
DENSEST = 0.98  # density 1 would need endless wood


def _poisson(chance: Random, mean: float) -> int:
    """Poisson number by counting unit-rate arrivals."""
    count, passed = -1, 0.0
    while passed < mean:
        passed += chance.expovariate(1.0)
        count += 1
    return max(count, 0)


def twigs(x: float, y: float, radius: float, density: float, seed: int) -> tuple[Solid, ...]:
    """Branches (m) in the canopy round (x, y), never so close together that a ball hangs between two."""
    chance = Random(seed)
    middle = 0.5 * (TWIG[0] + TWIG[1])
    mean = -log(1.0 - min(density, DENSEST)) * pi * radius / (4.0 * (BALL.radius + middle))
    placed: list[tuple[float, float, float]] = [(x, y - radius - TRUNK, TRUNK)]  # the trunk's round top
    for _ in range(_poisson(chance, mean)):
        for _attempt in range(20):
            away, turn = radius * sqrt(chance.random()), 2.0 * pi * chance.random()
            spot = (x + away * cos(turn), y + away * sin(turn), chance.uniform(*TWIG))
            if all(hypot(spot[0] - a, spot[1] - b) > spot[2] + c + 2.1 * BALL.radius for a, b, c in placed):
                placed.append(spot)
                break
    return tuple(Solid("branch", ((a, b),), c, TWIG_RESTITUTION, WOOD_FRICTION) for a, b, c in placed[1:])


def tree(course: Course, item: Tree, seed: int) -> tuple[SceneryRegion, SceneryRegion]:
    """Trunk and canopy as two regions, so that the ground beside the trunk stays free."""
    foot = ground_height(course, item.x)
    y = foot + item.trunk
    fork = max(foot + TRUNK, y - item.radius)
    stem = ((item.x, foot - TRUNK), (item.x, fork - TRUNK))  # its round top ends at the fork
    solid = Solid("trunk", stem, TRUNK, TRUNK_RESTITUTION, WOOD_FRICTION)
    leaves = Leaves(item.x, y, item.radius, LEAF_DRAG * item.density)
    wood = twigs(item.x, y, item.radius, item.density, seed)
    canopy = around(item.x - item.radius, y - item.radius, item.x + item.radius, y + item.radius)
    return (
        SceneryRegion("trunk", around(item.x - TRUNK, foot, item.x + TRUNK, fork), (solid,)),
        SceneryRegion("canopy", canopy, wood, leaves=leaves),
    )
