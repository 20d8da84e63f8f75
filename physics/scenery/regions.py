"""All scenery of a course on one path, in the order that everybody counts it."""

from functools import lru_cache

from physics.course import Course, Lip, Tree, Wall
from physics.scenery.barrier import lip, wall
from physics.scenery.cup import hole
from physics.scenery.region import SceneryRegion
from physics.scenery.tree import tree

__all__ = ["regions", "scenery_boxes"]


@lru_cache(maxsize=256)
def regions(course: Course, offset: float, seed: int) -> tuple[SceneryRegion, ...]:
    """Walls, lips and trees (trunk, then canopy) as the hazards list them, then the hole if met."""
    found: list[SceneryRegion] = []
    for item in course.hazards:
        match item:
            case Wall():
                found.append(wall(course, item))
            case Lip():
                found.append(lip(course, item))
            case Tree():
                found.extend(tree(course, item, seed + len(found)))
            case _:
                pass
    last = hole(course, course.hole, offset) if course.hole else None
    return (*found, last) if last else tuple(found)


def scenery_boxes(course: Course, offset: float) -> tuple[tuple[float, float, float, float, str], ...]:
    """Boxes of ball centres that may meet scenery: (xmin, ymin, xmax, ymax in m, kind), one a region.

    Kinds: wall, lip, trunk, canopy, hole. `offset` (m) is how far beside the middle of the hole the
    path passes; a path more than the hole's radius off has no hole.
    """
    return tuple((*region.box, region.kind) for region in regions(course, offset, 0))
