"""The tab of the picked object: its numbers; without a pick, a list of all that can be picked."""

from collections.abc import Callable

from game.builder.model.edits import handles
from game.builder.ui.boxes import ProblemNote, quiet_line
from game.builder.ui.describe import list_at, object_name
from game.builder.ui.editing import Editing, object_of
from game.builder.ui.fields import choice_field, number_field, switch_field
from game.builder.ui.live import Live
from game.builder.ui.tab_shot import lie_fields
from game.builder.ui.tabs import Columns
from game.ui import Button, Row, TextBlock, Widget
from levels.rules import Loc
from physics.surfaces import SURFACES

__all__ = ["object_tab"]

SURFACE_NAMES = tuple(SURFACES)
SURFACE_LABELS = tuple(s.label for s in SURFACES.values())


def _point(e: Editing, loc: Loc) -> Columns:
    last = int(loc[1]) == len(list_at(e.draft, ("ground",))) - 1
    surface: list[Widget] = [quiet_line("The ground ends here.")] if last else [
        choice_field(e, (*loc, "surface"), "Surface from here on", SURFACE_NAMES, SURFACE_LABELS)
    ]  # fmt: skip
    return [[number_field(e, (*loc, "x_m"), "Distance from the ball", "m"),
             number_field(e, (*loc, "y_m"), "Height", "m", step=0.05)], surface]  # fmt: skip


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


def _hazard(e: Editing, loc: Loc) -> Columns:
    kind = str(e.draft.at((*loc, "kind")))
    fields: list[Widget] = [
        number_field(e, (*loc, key), label, unit, step=step, empty=_ASSUMED.get(key, ""))
        for key, label, unit, step in _SIZES.get(kind, ())
    ]
    if kind == "out_of_bounds":
        fields.append(
            choice_field(e, (*loc, "side"), "What is out", ("target", "behind"),
                   ("beyond the stake", "behind the stake"), "target")
        )  # fmt: skip
    columns = [fields[:2], fields[2:]]
    acts = Row([
        Button("Duplicate", lambda: e.duplicate(loc), hint="Ctrl+D", group="thing"),
        Button("Remove", lambda: e.delete(loc), hint="Delete", group="thing"),
    ])  # fmt: skip
    return [*(column for column in columns if column), [acts]]


def _goal_mark(e: Editing, loc: Loc) -> Columns:
    if loc[:2] == ("goal", "must_clear"):
        fields: list[Widget] = [
            number_field(e, (*loc[:2], "x_m"), "Distance from the ball", "m"),
            number_field(e, (*loc[:2], "height_m"), "Height over the ground", "m", step=0.05),
        ]
    else:
        fields = [number_field(e, (*loc[:2], k), label, "m") for k, label in enumerate(("From", "To"))]
    return [fields, [Row([Button("Remove", lambda: e.delete(loc), hint="Delete")])]]


def object_tab(e: Editing, pick: Callable[[Loc], None]) -> Columns:
    """Numbers of the object picked; without one, a list of all that can be picked."""
    loc = e.picked
    if loc is None:
        return _all_objects(e, pick)
    head: list[Widget] = []
    if loc[0] == "ground":
        columns = _point(e, loc)
    elif loc[0] == "hazards":
        columns = _hazard(e, loc)
    elif loc[0] == "goal":
        columns = _goal_mark(e, loc)
    elif loc[0] == "hole":
        columns = [[number_field(e, ("hole", "x_m"), "Distance from the ball", "m"),
                  switch_field(e, ("hole", "flagstick"), "Flagstick in the hole", True)]]  # fmt: skip
    else:
        columns = [lie_fields(e)]
    if problem := e.problem_at(loc):
        shown = {w.loc for column in columns for w in column if isinstance(w, Live)}
        if not any(p.loc in shown for p in e.problems if p.loc[: len(loc)] == loc):
            head.append(ProblemNote(problem))
    return [[*head, *columns[0]], *columns[1:]]


def _all_objects(e: Editing, pick: Callable[[Loc], None]) -> Columns:
    """A button for every object but the points of the ground."""
    listed: list[Loc] = []
    for h in handles(e.draft):
        if h.kind != "point" and object_of(h.loc) not in listed:
            listed.append(object_of(h.loc))
    buttons = [
        Button(object_name(e.draft, loc, e.yards), lambda loc=loc: pick(loc), group="things")  # type: ignore[misc]
        for loc in listed
    ]
    count = len(list_at(e.draft, ("ground",)))
    told = f"Nothing is picked. Press an object there, or one of these. The ground has {count} points."
    return [[TextBlock(told, "label", "muted"), Row(buttons)]]
