"""Any edit of the Builder, drawn from a seeded source of chance: for machines, fuzzing and sudden ends."""

from collections.abc import Callable
from random import Random

from game.builder.model import edits as e
from levels.draft import Draft
from levels.parts import FILE_KEYS
from physics.address import CONTROLS
from physics.equipment import BAG
from physics.surfaces import SURFACES

__all__ = ["EDITS", "any_edit"]

TITLES = ("Plain", "", "a\nb", '"quoted" \\', "\u00e9\u2028", None)
SIZES = (
    "left_m",
    "right_m",
    "level_m",
    "height_m",
    "thickness_m",
    "overhang_m",
    "trunk_m",
    "radius_m",
    "side",
)


def x(r: Random) -> float:
    return r.choice([r.uniform(-12, 30), r.uniform(-1, 6), r.choice([0.0, -0.5, 1e9, -1e9, 4.0])])


def y(r: Random) -> float:
    return r.choice([r.uniform(-1, 2), r.uniform(-40, 40), 0.0])


def number(d: Draft, r: Random, key: str) -> int:
    rows = d.at((key,))
    return r.randint(-1, len(rows) if isinstance(rows, list) else 0)


def stroke(r: Random) -> list[tuple[float, float]]:
    start, step = x(r), r.choice([-1, 1]) * r.uniform(0.001, 0.5)
    return [(start + k * step + r.uniform(-0.2, 0.2), r.uniform(-0.5, 0.5)) for k in range(r.randint(0, 40))]


def dragged(d: Draft, r: Random) -> Draft:
    return e.drag(d, r.choice(e.handles(d)), x(r), y(r))


def tried_goal(d: Draft, r: Random) -> Draft:
    value = r.choice([None, {"x_m": 3.0, "height_m": 0.5}])
    return e.set_value(e.set_value(d, ("goal", "must_clear"), value), ("goal", "land_between_m"), [2.0, 4.5])


EDITS: dict[str, Callable[[Draft, Random], Draft]] = {
    "add a point": lambda d, r: e.insert_point(d, x(r)),
    "move a point": lambda d, r: e.move_point(d, number(d, r, "ground"), x(r), y(r)),
    "delete a point": lambda d, r: e.delete_point(d, number(d, r, "ground")),
    "smooth": lambda d, r: e.smooth(d, x(r), x(r)),
    "paint": lambda d, r: e.paint(d, x(r), x(r), r.choice(sorted(SURFACES))),
    "draw": lambda d, r: e.draw_ground(d, stroke(r)),
    "add a bunker": lambda d, r: e.add_bunker(d, x(r), x(r), r.uniform(0, 3)),
    "add a hazard": lambda d, r: e.add_hazard(d, r.choice(e.KINDS), x(r)),
    "move a hazard": lambda d, r: e.move_hazard(d, number(d, r, "hazards"), x(r), y(r)),
    "size a hazard": lambda d, r: e.resize_hazard(d, number(d, r, "hazards"), r.choice(SIZES), x(r), y(r)),
    "remove a hazard": lambda d, r: e.remove_hazard(d, number(d, r, "hazards")),
    "duplicate a hazard": lambda d, r: e.duplicate_hazard(d, number(d, r, "hazards")),
    "move the ball": lambda d, r: e.move_ball(d, x(r)),
    "move the hole": lambda d, r: e.move_hole(d, x(r)),
    "set the lie": lambda d, r: e.set_lie(d, r.choice([None, *SURFACES]), r.uniform(-90, 90)),
    "open or close a control": lambda d, r: e.toggle_control(d, r.choice(sorted(CONTROLS))),
    "offer or take a club": lambda d, r: e.toggle_club(d, r.choice(sorted(BAG))),
    "set the title": lambda d, r: e.set_value(d, ("title",), r.choice(TITLES)),
    "set a limit": lambda d, r: e.set_value(
        d, ("limits", r.choice(sorted(FILE_KEYS.values()))), [1, r.random()]
    ),
    "set the goal": tried_goal,
    "drag": dragged,
}  # fmt: skip


def any_edit(d: Draft, r: Random) -> tuple[str, Draft]:
    """The name of an edit and what it makes of the draft."""
    name = r.choice(sorted(EDITS))
    return name, EDITS[name](d, r)
