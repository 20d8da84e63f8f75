"""Edits of hazards: put in, moved, made larger and smaller, taken out. Lengths in m, keys as in the file."""

from collections.abc import Iterable
from typing import Any

from game.builder.model.ground_edits import CLOSE, walkable
from game.builder.model.profile import (
    GroundPoint,
    clamp,
    fine,
    height,
    is_usable,
    mm,
    profile,
    profile_surface,
    with_profile,
)
from levels import parts
from levels.draft import Draft
from levels.parts import RISE, X_HIGH, X_LOW
from levels.scenario import MOST_HAZARDS

__all__ = [
    "KINDS", "add_bunker", "add_hazard", "duplicate_hazard", "hazards", "move_hazard", "nearest_free",
    "remove_hazard", "resize_hazard", "standing",
]  # fmt: skip

KINDS = ("water", "wall", "lip", "tree", "out_of_bounds")
CLEAR = 0.1  # m, what a scenario asks between a standing hazard and ball or hole
POND, SHALLOW = 2.0, 0.05  # m, assumed: a new water's width, and how high it stands over its lowest bank
_MODELS: dict[str, type[parts.Part]] = {
    "water": parts.WaterTable, "wall": parts.WallTable, "lip": parts.LipTable, "tree": parts.TreeTable,
    "out_of_bounds": parts.OutOfBoundsTable,
}  # fmt: skip
_NEEDED: dict[str, tuple[str, ...]] = {  # numbers without which a size cannot be set
    "left_m": ("right_m",), "right_m": ("left_m",), "level_m": ("left_m", "right_m"),
    **dict.fromkeys(("height_m", "thickness_m", "overhang_m", "trunk_m", "radius_m", "side"), ("x_m",)),
}  # fmt: skip
_NEW: dict[str, dict[str, Any]] = {  # assumed: sizes a short game meets
    "wall": {"height_m": 0.6, "thickness_m": 0.15},
    "lip": {"height_m": 0.12, "overhang_m": 0.05},
    "tree": {"trunk_m": 3.0, "radius_m": 1.5, "density": 0.5},
}


def hazards(d: Draft) -> list[dict[str, Any]]:
    """The entries under `hazards`; an entry that is no table is empty here."""
    rows = d.at(("hazards",), [])
    return [row if isinstance(row, dict) else {} for row in rows] if isinstance(rows, list) else []


def add_hazard(d: Draft, kind: str, x: float) -> Draft:
    """A hazard of sound size at the end of the list, as near x as the rules allow."""
    ground = profile(d)
    if not ground or kind not in KINDS or len(hazards(d)) >= MOST_HAZARDS:
        return d
    if kind == "water":
        return d.insert(("hazards", len(hazards(d))), _new_water(d, x))
    if kind == "out_of_bounds":
        return d.insert(("hazards", len(hazards(d))), _new_stake(d, x))
    new = {"kind": kind, "x_m": 0.0, **_NEW[kind]}
    new["x_m"] = _free_place(d, new, clamp(x, ground[0].x, ground[-1].x))
    return d.insert(("hazards", len(hazards(d))), new)


def remove_hazard(d: Draft, i: int) -> Draft:
    """Without hazard i."""
    return d.remove(("hazards", i))


def duplicate_hazard(d: Draft, i: int) -> Draft:
    """A like hazard beside it, as near as the rules allow; it comes last in the list."""
    rows = hazards(d)
    if not 0 <= i < len(rows) or len(rows) >= MOST_HAZARDS:
        return d
    twin, last = dict(rows[i]), len(rows)
    d = d.insert(("hazards", last), twin)
    if twin.get("kind") == "water" and is_usable(twin.get("left_m")) and is_usable(twin.get("right_m")):
        return move_hazard(d, last, twin["right_m"] - twin["left_m"] + 0.5, 0.0)
    return move_hazard(d, last, 0.5, 0.0)


def move_hazard(d: Draft, i: int, dx: float, dy: float) -> Draft:
    """Hazard i moved; only water also goes up and down. What stands keeps clear of ball and hole."""
    rows = hazards(d)
    if not 0 <= i < len(rows):
        return d
    row = rows[i]
    if row.get("kind") == "water":
        return _moved_water(d, i, row, dx, dy)
    if not is_usable(row.get("x_m")):
        return d
    ground, x = profile(d), row["x_m"] + dx
    if row.get("kind") == "out_of_bounds":
        behind = row.get("side") == "behind"
        x = min(x, min(marks(d)) - CLEAR) if behind else max(x, max(marks(d)) + CLEAR)
    elif ground:
        x = _free_place(d, row, clamp(x, ground[0].x, ground[-1].x))
    return d.put(("hazards", i, "x_m"), mm(clamp(x, X_LOW, X_HIGH)))


def resize_hazard(d: Draft, i: int, handle: str, x: float, y: float) -> Draft:
    """The size named by `handle`, its key in the file, such that its handle is as near (x, y) as the limits
    allow: left_m, right_m, level_m; height_m, thickness_m; overhang_m; trunk_m, radius_m; side."""
    rows = hazards(d)
    if not 0 <= i < len(rows) or not _has_size(rows[i], handle):
        return d
    row = rows[i]
    if handle == "side":
        return d.put(("hazards", i, "side"), "target" if x >= row["x_m"] else "behind")
    low, high = _limits(row["kind"], handle)
    return d.put(("hazards", i, handle), clamp(mm(_size_at(row, handle, profile(d), x, y)), low, high))


def add_bunker(d: Draft, left: float, right: float, depth: float) -> Draft:
    """A bunker from left to right: its hollow in the ground, sand, and a lip at the far edge.

    Without the lip where that would stand on ball or hole.
    """
    ground = profile(d)
    left, right = sorted((mm(left), mm(right)))
    if not ground or right - left < 0.2 or left < ground[0].x + CLOSE or right > ground[-1].x - CLOSE:
        return d
    depth, beyond = clamp(depth, 0.05, 0.6 * (right - left)), profile_surface(ground, right)
    rim = ((left, 0.0), (left + 0.15 * (right - left), 0.6), (left + 0.4 * (right - left), 1.0),
           (left + 0.75 * (right - left), 0.95), (left + 0.92 * (right - left), 0.6))  # fmt: skip
    bowl = [GroundPoint(mm(x), round(height(ground, x) - share * depth, 4), "sand") for x, share in rim]
    edge = GroundPoint(right, round(height(ground, right), 4), beyond)
    before = [p for p in ground if p.x <= left - CLOSE]
    after = [p for p in ground if p.x >= right + CLOSE]
    first = len(before)
    d = with_profile(d, walkable([*before, *bowl, edge, *after], first, first + len(bowl) + 1))
    at = _free_place(d, {"kind": "lip"}, right)
    if abs(at - right) > CLOSE or len(hazards(d)) >= MOST_HAZARDS:
        return d
    return d.insert(("hazards", len(hazards(d))), {"kind": "lip", "x_m": right, **_NEW["lip"]})


def marks(d: Draft) -> list[float]:
    """Where ball and hole are (m)."""
    hole = d.at(("hole", "x_m"))
    return [0.0, float(hole)] if is_usable(hole) else [0.0]


def standing(d: Draft) -> list[tuple[float, float]]:
    """Spans (m) in which neither ball nor hole may be, for walls, lips and trees."""
    rows = [row for row in hazards(d) if is_usable(row.get("x_m")) and str(row.get("kind")) in _NEW]
    return [(row["x_m"] - _room(row), row["x_m"] + _room(row)) for row in rows]


def _room(row: dict[str, Any]) -> float:
    """What a standing hazard has to keep from ball and hole (m)."""
    thick = row.get("thickness_m", 0.15) if row.get("kind") == "wall" else 0.0
    return CLEAR + 0.5 * (thick if is_usable(thick) else 0.0) + 1e-3


def _free_place(d: Draft, row: dict[str, Any], x: float) -> float:
    """Nearest place to x that is clear of ball and hole."""
    ground, room = profile(d), _room(row)
    low, high = (ground[0].x, ground[-1].x) if ground else (X_LOW, X_HIGH)
    return mm(nearest_free(x, [(m - room, m + room) for m in marks(d)], low, high))


def nearest_free(x: float, taken: Iterable[tuple[float, float]], low: float, high: float) -> float:
    """Nearest place to x within low..high outside every open span; x itself where there is none."""
    spans = list(taken)
    places = [x, *(edge for span in spans for edge in span)]
    free = [p for p in places if low <= p <= high and not any(a < p < b for a, b in spans)]
    return min(free, key=lambda p: abs(p - x), default=x)


def _waters(d: Draft) -> list[tuple[float, float]]:
    return [
        (row["left_m"], row["right_m"])
        for row in hazards(d)
        if row.get("kind") == "water" and is_usable(row.get("left_m")) and is_usable(row.get("right_m"))
    ]


def _new_water(d: Draft, x: float) -> dict[str, Any]:
    """Water around x, narrower where another water, the ball or the hole is near."""
    ground = profile(d)
    x = clamp(x, X_LOW + POND, X_HIGH - POND)
    marked = [(m - 0.3, m + 0.3) for m in marks(d)]
    taken = [*_waters(d), *marked]
    x = nearest_free(x, [(a - 0.3, b + 0.3) for a, b in taken], X_LOW, X_HIGH)
    left = max([x - 0.5 * POND, *(b for _, b in taken if b <= x)])
    right = min([x + 0.5 * POND, *(a for a, _ in taken if a >= x)])
    level = min(height(ground, left), height(ground, right)) + SHALLOW
    level = mm(clamp(level, -RISE, RISE))
    return {"kind": "water", "left_m": mm(left), "right_m": mm(right), "level_m": level}


def _moved_water(d: Draft, i: int, row: dict[str, Any], dx: float, dy: float) -> Draft:
    if not all(is_usable(row.get(key)) for key in ("left_m", "right_m", "level_m")):
        return d
    dx = clamp(mm(dx), X_LOW - row["left_m"], X_HIGH - row["right_m"])
    level = clamp(row["level_m"] + mm(dy), -RISE, RISE)
    ends = {key: fine(row[key] + dx) for key in ("left_m", "right_m")}
    return d.put(("hazards", i), {**row, **ends, "level_m": fine(level)})


def _new_stake(d: Draft, x: float) -> dict[str, Any]:
    """A stake behind the ball where x is nearer that side, else beyond the hole."""
    places = marks(d)
    if x < 0.5 * min(places):
        return {"kind": "out_of_bounds", "x_m": mm(clamp(x, X_LOW, -0.1)), "side": "behind"}
    if x <= 0:
        return {"kind": "out_of_bounds", "x_m": mm(clamp(x, X_LOW, -0.1)), "side": "behind"}
    return {"kind": "out_of_bounds", "x_m": mm(clamp(x, max(places) + 0.1, X_HIGH)), "side": "target"}


def _has_size(row: dict[str, Any], handle: str) -> bool:
    """Whether the entry is of a kind with this size, and has the numbers needed to set it."""
    kind, needed = _MODELS.get(str(row.get("kind"))), _NEEDED.get(handle)
    return bool(
        kind and needed and handle in kind.model_fields and all(is_usable(row.get(key)) for key in needed)
    )


def _size_at(row: dict[str, Any], handle: str, ground: list[GroundPoint], x: float, y: float) -> float:
    """The size with which the handle would be at (x, y) m."""
    if handle == "left_m":
        return min(x, float(row["right_m"]) - CLOSE)
    if handle == "right_m":
        return max(x, float(row["left_m"]) + CLOSE)
    if handle == "level_m":
        return y
    at = float(row["x_m"])
    if handle in ("thickness_m", "overhang_m", "radius_m"):
        return {"thickness_m": x - at, "overhang_m": at - x, "radius_m": abs(x - at)}[handle]
    over = row.get("overhang_m", 0.05) if row["kind"] == "lip" else 0.0
    return y - height(ground, at - (over if is_usable(over) else 0.0))


def _limits(kind: str, key: str) -> tuple[float, float]:
    """Least and greatest value of a number in the file, as the scenario's model has them."""
    told = _MODELS[kind].model_fields[key].metadata
    low = next(m.ge for m in told if hasattr(m, "ge"))
    return float(low), float(next(m.le for m in told if hasattr(m, "le")))
