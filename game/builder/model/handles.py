"""Everything of a draft that can be picked or dragged, and what dragging it does."""

from dataclasses import dataclass
from typing import Any

from game.builder.model.ground_edits import move_point
from game.builder.model.hazard_edits import hazards, move_hazard, resize_hazard
from game.builder.model.profile import Profile, clamp, height, is_usable, mm, profile
from game.builder.model.shot_edits import move_ball, move_hole
from levels.draft import Draft
from levels.rules import Loc

__all__ = ["DragHandle", "drag", "handles"]

STAKE = 0.75  # m, height at which a stake is held


@dataclass(frozen=True)
class DragHandle:
    """A place (m) to take hold of. `kind`: point, ball, hole, hazard, size, clear or land."""

    loc: Loc  # of the object in the draft
    kind: str
    x: float
    y: float
    label: str


def handles(d: Draft) -> tuple[DragHandle, ...]:
    """From left to right in each group: ball and hole, goal, hazards with their sizes, points."""
    ground = profile(d)
    found = [DragHandle(("ball",), "ball", 0.0, 0.0, "ball")]
    if is_usable(x := d.at(("hole", "x_m"))):
        found.append(DragHandle(("hole",), "hole", x, height(ground, x), "hole"))
    found += _of_goal(d, ground)
    for i, row in enumerate(hazards(d)):
        found += _of_hazard(i, row, ground)
    last = len(ground) - 1
    for i, spot in enumerate(ground):
        name = f"point {i + 1}" + (" (first)" if i == 0 else " (last)" if i == last else "")
        found.append(DragHandle(("ground", i), "point", spot.x, spot.y, name))
    return tuple(found)


def drag(d: Draft, handle: DragHandle, x: float, y: float) -> Draft:
    """The draft with the handle dragged to (x, y), as far as its edit allows.

    Give the draft in which the drag BEGAN and the handle as it was then: moving the ball or the ground
    under it shifts everything, so that drags must not be added up.
    """
    match handle.kind:
        case "point":
            return move_point(d, int(handle.loc[1]), x, y)
        case "ball":
            return move_ball(d, x)
        case "hole":
            return move_hole(d, x)
        case "hazard":
            return move_hazard(d, int(handle.loc[1]), x - handle.x, y - handle.y)
        case "size":
            return resize_hazard(d, int(handle.loc[1]), str(handle.loc[2]), x, y)
        case "clear":
            return _clear_at(d, x, y)
        case "land":
            return _land_end(d, int(handle.loc[2]), x)
    return d


def _of_goal(d: Draft, ground: Profile) -> list[DragHandle]:
    found = []
    x, high = d.at(("goal", "must_clear", "x_m")), d.at(("goal", "must_clear", "height_m"))
    if is_usable(x) and is_usable(high):
        top = height(ground, x) + high
        found.append(DragHandle(("goal", "must_clear"), "clear", x, top, "place to fly over"))
    for end, side in enumerate(("near", "far")):
        loc = ("goal", "land_between_m", end)
        if is_usable(x := d.at(loc)):
            found.append(DragHandle(loc, "land", x, height(ground, x), f"{side} end of the landing zone"))
    return found


def _of_hazard(i: int, row: dict[str, Any], ground: Profile) -> list[DragHandle]:
    """The body first, then its sizes. Nothing for an entry with missing or strange numbers."""
    kind = row.get("kind")
    sizes = _SIZES.get(str(kind))
    if sizes is None:
        return []
    whole = {**_DEFAULTS.get(str(kind), {}), **row}
    if not all(is_usable(whole.get(key)) for key in _NUMBERS[str(kind)]):
        return []
    name = f"{str(kind).replace('_', ' ')} {i + 1}"
    (bx, by), *rest = sizes(whole, ground)
    found = [DragHandle(("hazards", i), "hazard", bx, by, name)]
    return found + [
        DragHandle(("hazards", i, key), "size", x, y, f"{name}, {label}") for key, label, x, y in rest
    ]


_NUMBERS = {
    "water": ("left_m", "right_m", "level_m"),
    "wall": ("x_m", "height_m", "thickness_m"),
    "lip": ("x_m", "height_m", "overhang_m"),
    "tree": ("x_m", "trunk_m", "radius_m"),
    "out_of_bounds": ("x_m",),
}
_DEFAULTS: dict[str, dict[str, Any]] = {"wall": {"thickness_m": 0.15}, "lip": {"overhang_m": 0.05}}


def _water(row: dict[str, Any], _: Profile) -> list[Any]:
    left, right, level = row["left_m"], row["right_m"], row["level_m"]
    middle = 0.5 * (left + right)
    return [(middle, level - 0.1), ("left_m", "left end", left, level),
            ("right_m", "right end", right, level), ("level_m", "level", middle, level)]  # fmt: skip


def _wall(row: dict[str, Any], ground: Profile) -> list[Any]:
    x, thick = row["x_m"], row["thickness_m"]
    foot, top = height(ground, x), height(ground, x) + row["height_m"]
    return [(x, foot), ("height_m", "top", x, top),
            ("thickness_m", "far face", x + thick, 0.5 * (foot + top))]  # fmt: skip


def _lip(row: dict[str, Any], ground: Profile) -> list[Any]:
    x, nose = row["x_m"], row["x_m"] - row["overhang_m"]
    sand = height(ground, nose)
    return [(x, sand + 0.5 * row["height_m"]), ("height_m", "top", x, sand + row["height_m"]),
            ("overhang_m", "nose", nose, sand + 0.8 * row["height_m"])]  # fmt: skip


def _tree(row: dict[str, Any], ground: Profile) -> list[Any]:
    x, foot = row["x_m"], height(ground, row["x_m"])
    middle = foot + row["trunk_m"]
    return [(x, foot), ("trunk_m", "middle of the canopy", x, middle),
            ("radius_m", "edge of the canopy", x + row["radius_m"], middle)]  # fmt: skip


def _stake(row: dict[str, Any], ground: Profile) -> list[Any]:
    x, out = row["x_m"], -1.0 if row.get("side") == "behind" else 1.0
    foot = height(ground, x)
    return [(x, foot + STAKE), ("side", "side that is out", x + 0.9 * out, foot + STAKE)]


_SIZES = {"water": _water, "wall": _wall, "lip": _lip, "tree": _tree, "out_of_bounds": _stake}


def _clear_at(d: Draft, x: float, y: float) -> Draft:
    x = clamp(mm(x), 0.2, 100.0)
    high = clamp(mm(y - height(profile(d), x)), 0.02, 20.0)
    return d.put(("goal", "must_clear", "x_m"), x).put(("goal", "must_clear", "height_m"), high)


def _land_end(d: Draft, end: int, x: float) -> Draft:
    """One end of the landing zone, kept a decimetre from the other."""
    other = d.at(("goal", "land_between_m", 1 - end))
    low, high = (0.0, other - 0.1) if end == 0 else (other + 0.1, 100.0)
    return d if low > high else d.put(("goal", "land_between_m", end), clamp(mm(x), mm(low), mm(high)))
