"""Names and sentences for the objects of a draft: what each is, where, how large, how to change it."""

from typing import Any

from game.builder.model.profile import is_usable, profile
from game.text.quantity import decimal
from levels.draft import Draft
from levels.rules import Loc
from physics.constants import YARD
from physics.surfaces import SURFACES

__all__ = ["list_at", "names_at", "object_name", "object_sentence", "surface_label"]


def _length(value: Any, yards: bool, places: int = 1) -> str:
    """A length (m) in the reader's unit."""
    if not is_usable(value):
        return "?"
    return f"{decimal(value / YARD, places)} yd" if yards else f"{decimal(value, places)} m"


def list_at(d: Draft, loc: Loc) -> list[Any]:
    """The list at a path; none where something else stands."""
    found = d.at(loc, [])
    return found if isinstance(found, list) else []


def names_at(d: Draft, loc: Loc) -> list[str]:
    """The names in a list, without what is no name."""
    return [one for one in list_at(d, loc) if isinstance(one, str)]


def surface_label(name: Any) -> str:
    """A surface as people say it."""
    return SURFACES[name].label if name in SURFACES else str(name)


def _out(x: Any, yards: bool) -> str:
    """How far out something is, from the ball."""
    if not is_usable(x):
        return "somewhere"
    return f"{_length(abs(x), yards)} {'behind the ball' if x < 0 else 'out'}"


def _row(d: Draft, i: int) -> dict[str, Any]:
    row = d.at(("hazards", i), {})
    return row if isinstance(row, dict) else {}


def object_name(d: Draft, loc: Loc, yards: bool) -> str:
    """Name and place in a few words."""
    if loc[0] == "hazards":
        row = _row(d, int(loc[1]))
        kind = str(row.get("kind", "hazard"))
        if kind == "water":
            span = f"{_length(row.get('left_m'), yards)} to {_length(row.get('right_m'), yards)}"
            return f"Water, {span}"
        word = "Out of bounds" if kind == "out_of_bounds" else kind.capitalize()
        return f"{word}, {_out(row.get('x_m'), yards)}"
    if loc[0] == "ground":
        ground, i = profile(d), int(loc[1])
        if not i < len(ground):
            return f"Ground point {i + 1}"
        return f"Ground point {i + 1}, {_out(ground[i].x, yards)}"
    if loc[0] == "hole":
        return f"Hole, {_out(d.at(('hole', 'x_m')), yards)}"
    if loc[:2] == ("goal", "must_clear"):
        return f"Place to clear, {_out(d.at(('goal', 'must_clear', 'x_m')), yards)}"
    if loc[:2] == ("goal", "land_between_m"):
        ends = [_length(d.at(("goal", "land_between_m", k)), yards) for k in (0, 1)]
        return f"Landing zone, {ends[0]} to {ends[1]}"
    return "Ball"


def _hazard_words(d: Draft, i: int, yards: bool) -> str:
    row = _row(d, i)

    def of(key: str, default: Any = None) -> str:
        return _length(row.get(key, default), yards, 2)

    match row.get("kind"):
        case "water":
            return f"level {of('level_m')}. Drag it anywhere; its ends and its level have handles."
        case "wall":
            return f"{of('height_m')} high, {of('thickness_m', 0.15)} thick. Drag its top to make it higher."
        case "lip":
            return (
                f"{of('height_m')} high, hanging over by {of('overhang_m', 0.05)}. Drag its nose or its top."
            )
        case "tree":
            trunk, radius = row.get("trunk_m"), row.get("radius_m")
            tall = _length(sum((trunk, radius)), yards) if is_usable(trunk) and is_usable(radius) else "?"
            return f"{tall} high. Drag its crown to widen it, the middle of the crown to raise it."
        case "out_of_bounds":
            side = "behind it" if row.get("side") == "behind" else "beyond it"
            return f"everything {side} is out. Drag the other handle across to turn it round."
    return "this is no hazard; Delete takes it out."


def object_sentence(d: Draft, loc: Loc, yards: bool) -> str:
    """One or two sentences on an object."""
    name = object_name(d, loc, yards)
    if loc[0] == "hazards":
        return f"{name}: {_hazard_words(d, int(loc[1]), yards)}"
    if loc[0] == "ground":
        ground, i = profile(d), int(loc[1])
        if not i < len(ground):
            return name
        high = _length(ground[i].y, yards, 2)
        after = ground[i].surface
        grows = f", {surface_label(after)} from here on" if after else ", where the ground ends"
        return f"{name}, {high} high{grows}. Drag it; Delete takes it out."
    if loc[0] == "hole":
        flag = "with its flagstick" if d.at(("hole", "flagstick"), True) else "without a flagstick"
        return f"{name}, {flag}. Drag it along the green."
    if loc[:2] == ("goal", "must_clear"):
        high = _length(d.at((*loc[:2], "height_m")), yards, 2)
        return f"{name}, {high} up: the ball has to fly over it. Drag it."
    if loc[:2] == ("goal", "land_between_m"):
        return f"{name}: the ball has to land there first. Drag its ends."
    return "Ball: everything is measured from here. Drag it along the ground."
