"""Finding what lies under the pointer: handles, bodies, and places to snap to, asked of a pymunk space.

The space holds still shapes only; nothing in it ever moves or falls.
"""

from itertools import pairwise
from typing import Any

import pymunk

from game.builder.model.handles import DragHandle, handles
from game.builder.model.hazard_edits import hazards
from game.builder.model.profile import GroundPoint, height, profile
from levels.draft import Draft

__all__ = ["Picker"]

HANDLE, BODY, GROUND = 1, 2, 4  # categories of shapes
BY = {mask: pymunk.ShapeFilter(mask=mask) for mask in (HANDLE, BODY, GROUND)}
RANK = ("ball", "hole", "point", "size", "clear", "land", "hazard")  # first counts where two lie together
THIN = 0.05  # m, assumed: half width in which a trunk, stake or lip is met
TOGETHER = 1e-6  # m


class Picker:
    """Questions about one draft; make another for another draft."""

    def __init__(self, draft: Draft) -> None:
        self.handles = handles(draft)
        self._ground = profile(draft)
        self._space = pymunk.Space()
        self._owner: dict[pymunk.Shape, DragHandle | int] = {}
        for handle in self.handles:
            self._add(pymunk.Circle(self._space.static_body, 0.0, (handle.x, handle.y)), HANDLE, handle)
            if handle.kind == "hazard":
                row = hazards(draft)[int(handle.loc[1])]
                for shape in self._body(row):
                    self._add(shape, BODY, handle)
        for i, (a, b) in enumerate(pairwise(self._ground)):
            ends = (a.x, a.y), (b.x, b.y)
            self._add(pymunk.Segment(self._space.static_body, *ends, 0.0), GROUND, i)

    def nearest(self, x: float, y: float, reach: float) -> DragHandle | None:
        """The handle nearest to (x, y) within reach (m); of two together ball and hole come first."""
        return self._nearest(x, y, reach, None)

    def inside(self, x: float, y: float) -> DragHandle | None:
        """The hazard whose body holds (x, y), the one with the nearest edge where bodies overlap."""
        found = self._space.point_query((x, y), 0.0, BY[BODY])
        best = max(found, key=lambda hit: hit.distance, default=None)
        return self._handle(best.shape) if best else None

    def snap(
        self, x: float, y: float, grid: float = 0.0, reach: float = 0.0, without: DragHandle | None = None
    ) -> tuple[float, float, str]:
        """The place a hand at (x, y) means, and what it snapped to: point, ground, grid or "".

        `grid` and `reach` in m, 0 for none. Another handle's place counts first, then the ground's surface
        (save by its own points), then the grid. `without` is the handle being dragged.
        """
        other = self._nearest(x, y, reach, without)
        if other is not None:
            return other.x, other.y, "point"
        gx, gy = (round(round(v / grid) * grid, 9) + 0.0 if grid > 0.0 else v for v in (x, y))
        if (without is None or without.kind != "point") and self._on_ground(x, y, reach):
            return gx, height(self._ground, gx), "ground"
        return gx, gy, "grid" if grid > 0.0 else ""

    def _add(self, shape: pymunk.Shape, category: int, owner: DragHandle | int) -> None:
        shape.filter = pymunk.ShapeFilter(categories=category)
        shape.sensor = True
        self._owner[shape] = owner
        self._space.add(shape)

    def _handle(self, shape: pymunk.Shape | None) -> DragHandle | None:
        owner = self._owner.get(shape) if shape else None
        return owner if isinstance(owner, DragHandle) else None

    def _nearest(self, x: float, y: float, reach: float, without: DragHandle | None) -> DragHandle | None:
        if reach <= 0.0:
            return None
        hits = self._space.point_query((x, y), reach, BY[HANDLE])
        found = [(hit.distance, self._handle(hit.shape)) for hit in hits]
        near = [(distance, h) for distance, h in found if h and not _part_of(h, without)]
        if not near:
            return None
        least = min(distance for distance, _ in near)
        together = [h for distance, h in near if distance < least + TOGETHER]
        return min(together, key=lambda h: (RANK.index(h.kind), self.handles.index(h)))

    def _on_ground(self, x: float, y: float, reach: float) -> bool:
        if reach <= 0.0 or not self._ground:
            return False
        return self._space.segment_query_first((x, y + reach), (x, y - reach), 0.0, BY[GROUND]) is not None

    def _body(self, row: dict[str, Any]) -> list[pymunk.Shape]:
        return [_shape(self._space.static_body, *made) for made in _outline(row, self._ground)]


def _part_of(h: DragHandle, held: DragHandle | None) -> bool:
    """Whether the handle moves along with the one held: itself, a size of a held body, its body."""
    if held is None:
        return False
    n = min(len(h.loc), len(held.loc))
    return h.loc[:n] == held.loc[:n] and (h.loc == held.loc or "hazards" in h.loc)


def _shape(body: pymunk.Body, kind: str, data: Any, radius: float) -> pymunk.Shape:
    if kind == "circle":
        return pymunk.Circle(body, radius, data)
    if kind == "line":
        return pymunk.Segment(body, data[0], data[1], radius)
    return pymunk.Poly(body, data, radius=radius)


def _outline(row: dict[str, Any], ground: list[GroundPoint]) -> list[tuple[str, Any, float]]:
    """The shapes of a hazard, as the ball meets them: kind, places (m), radius (m)."""
    x = row.get("x_m", 0.0)
    foot = height(ground, x)
    match row["kind"]:
        case "water":
            return _water(row, ground)
        case "wall":
            far, top = x + row.get("thickness_m", 0.15), foot + row["height_m"]
            return [("box", [(x, foot), (far, foot), (far, top), (x, top)], 0.0)]
        case "lip":
            nose = x - row.get("overhang_m", 0.05)
            sand = height(ground, nose)
            return [("line", ((nose, sand + row["height_m"]), (x, sand)), THIN)]
        case "tree":
            middle = (x, foot + row["trunk_m"])
            return [("line", ((x, foot), middle), THIN), ("circle", middle, row["radius_m"])]
    return [("line", ((x, foot), (x, foot + 0.75)), THIN)]


def _water(row: dict[str, Any], ground: list[GroundPoint]) -> list[tuple[str, Any, float]]:
    """One box from the surface of the water down to the lowest ground in it, at least a decimetre deep."""
    left, right, level = row["left_m"], row["right_m"], row["level_m"]
    if right <= left:
        return []
    beds = [height(ground, left), height(ground, right), *(p.y for p in ground if left < p.x < right)]
    bed = min(*beds, level - 0.1)
    return [("box", [(left, bed), (right, bed), (right, level), (left, level)], 0.0)]
