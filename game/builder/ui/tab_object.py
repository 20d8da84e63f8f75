"""The Thing leaf: the numbers of what is picked; without a pick, a list of all that can be picked."""

from collections.abc import Callable

from game.builder.model.edits import handles
from game.builder.ui.boxes import Note, said
from game.builder.ui.editing import Making, thing_of
from game.builder.ui.fields import choice, number, switch
from game.builder.ui.tab_shot import lie
from game.builder.ui.words import listed, name_of
from game.ui import Button, Row, TextBlock, Widget
from levels.rules import Loc
from physics.surfaces import SURFACES

__all__ = ["thing"]

Lanes = list[list[Widget]]
SURFACE_NAMES = tuple(SURFACES)
SURFACE_LABELS = tuple(s.label for s in SURFACES.values())


def _point(m: Making, loc: Loc) -> Lanes:
    last = int(loc[1]) == len(listed(m.draft, ("ground",))) - 1
    surface: list[Widget] = [said("The ground ends here.")] if last else [
        choice(m, (*loc, "surface"), "Surface from here on", SURFACE_NAMES, SURFACE_LABELS)
    ]  # fmt: skip
    return [[number(m, (*loc, "x_m"), "Distance from the ball", "m"),
             number(m, (*loc, "y_m"), "Height", "m", step=0.05)], surface]  # fmt: skip


_OUT = ("x_m", "Distance from the ball", "m", 0.1)
_SIZES: dict[str, tuple[tuple[str, str, str, float], ...]] = {  # key, label, unit, step of the arrows
    "water": (
        ("left_m", "Begins at", "m", 0.1), ("right_m", "Ends at", "m", 0.1), ("level_m", "Level", "m", 0.05),
    ),
    "wall": (_OUT, ("height_m", "Height", "m", 0.05), ("thickness_m", "Thickness", "m", 0.05)),
    "lip": (_OUT, ("height_m", "Height", "m", 0.02), ("overhang_m", "Hangs over by", "m", 0.01)),
    "tree": (
        _OUT, ("trunk_m", "Height of the crown's middle", "m", 0.1),
        ("radius_m", "Radius of the crown", "m", 0.1), ("density", "Share of wood in the crown", "", 0.05),
    ),
    "out_of_bounds": (_OUT,),
}  # fmt: skip
_ASSUMED = {"thickness_m": "0.15", "overhang_m": "0.05", "density": "0.5"}


def _hazard(m: Making, loc: Loc) -> Lanes:
    kind = str(m.draft.at((*loc, "kind")))
    fields: list[Widget] = [
        number(m, (*loc, key), label, unit, step=step, empty=_ASSUMED.get(key, ""))
        for key, label, unit, step in _SIZES.get(kind, ())
    ]
    if kind == "out_of_bounds":
        fields.append(
            choice(m, (*loc, "side"), "What is out", ("target", "behind"),
                   ("beyond the stake", "behind the stake"), "target")
        )  # fmt: skip
    lanes = [fields[:2], fields[2:]]
    acts = Row([
        Button("Duplicate", lambda: m.duplicate(loc), hint="Ctrl+D", group="thing"),
        Button("Take out", lambda: m.delete(loc), hint="Delete", group="thing"),
    ])  # fmt: skip
    return [*(lane for lane in lanes if lane), [acts]]


def _goal_mark(m: Making, loc: Loc) -> Lanes:
    if loc[:2] == ("goal", "must_clear"):
        fields: list[Widget] = [
            number(m, (*loc[:2], "x_m"), "Distance from the ball", "m"),
            number(m, (*loc[:2], "height_m"), "Height over the ground", "m", step=0.05),
        ]
    else:
        fields = [number(m, (*loc[:2], k), label, "m") for k, label in enumerate(("From", "To"))]
    return [fields, [Row([Button("Take out", lambda: m.delete(loc), hint="Delete")])]]


def thing(m: Making, pick: Callable[[Loc], None]) -> Lanes:
    """Numbers of the thing picked; without one, a list of all that can be picked."""
    loc = m.picked
    if loc is None:
        return _all_things(m, pick)
    head: list[Widget] = []
    if loc[0] == "ground":
        lanes = _point(m, loc)
    elif loc[0] == "hazards":
        lanes = _hazard(m, loc)
    elif loc[0] == "goal":
        lanes = _goal_mark(m, loc)
    elif loc[0] == "hole":
        lanes = [[number(m, ("hole", "x_m"), "Distance from the ball", "m"),
                  switch(m, ("hole", "flagstick"), "Flagstick in the hole", True)]]  # fmt: skip
    else:
        lanes = [lie(m)]
    if problem := m.problem_at(loc):
        shown = {getattr(w, "loc", None) for lane in lanes for w in lane}
        if not any(p.loc in shown for p in m.problems if p.loc[: len(loc)] == loc):
            head.append(Note(problem))
    return [[*head, *lanes[0]], *lanes[1:]]


def _all_things(m: Making, pick: Callable[[Loc], None]) -> Lanes:
    """A button for every thing but the points of the ground."""
    seen: list[Loc] = []
    for h in handles(m.draft):
        if h.kind != "point" and thing_of(h.loc) not in seen:
            seen.append(thing_of(h.loc))
    buttons = [
        Button(name_of(m.draft, loc, m.yards), lambda loc=loc: pick(loc), group="things")  # type: ignore[misc]
        for loc in seen
    ]
    count = len(listed(m.draft, ("ground",)))
    told = f"Nothing is picked. Press a thing on the course, or one of these. The ground has {count} points."
    return [[TextBlock(told, "label", "muted"), Row(buttons)]]
