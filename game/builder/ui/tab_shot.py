"""The tab of the shot: who plays, with what, from which lie, in which weather, and what is open to change."""

from game.builder.model.edits import toggle_club, toggle_control
from game.builder.ui.boxes import Chip, Chips, Shares
from game.builder.ui.describe import names_at
from game.builder.ui.editing import Editing
from game.builder.ui.fields import choice_field, number_field, read_number
from game.builder.ui.tabs import Columns
from game.ui import Heading, Widget
from levels.parts import FILE_KEYS
from levels.rules import Loc
from physics.address import CONTROLS
from physics.equipment import BAG
from physics.spread import PLAYERS
from physics.surfaces import SURFACES

__all__ = ["ARROW_STEPS", "lie_fields", "shot_tab", "turn_control"]

ARROW_STEPS = {"deg": 1.0, "cm": 0.5, "mm": 1.0, "%": 1.0, "": 0.05}  # of the arrows, by unit
SURFACE_NAMES = tuple(SURFACES)
SURFACE_LABELS = tuple(s.label for s in SURFACES.values())


def lie_fields(e: Editing) -> list[Widget]:
    """How the ball lies."""
    return [
        choice_field(
            e,
            ("lie", "surface"),
            "Ball lies on",
            (None, *SURFACE_NAMES),
            ("the ground there", *SURFACE_LABELS),
        ),
        number_field(
            e,
            ("lie", "lift_mm"),
            "Ball sits up by",
            "mm",
            step=1.0,
            empty="0",
            tooltip="How far the ball is raised; a minus presses it down, as in an old divot.",
        ),
    ]


def shot_tab(e: Editing) -> Columns:
    """Who plays, with what, from which lie, in which weather; which controls are open and how far."""
    green = ("green_speed_m",) if e.draft.at(("green_speed_ft",)) is None else ("green_speed_ft",)
    players = tuple(PLAYERS)
    first: list[Widget] = [
        Heading("Player and place"),
        choice_field(e, ("player",), "Player", players, [PLAYERS[p].label for p in players], "club"),
        *lie_fields(e),
        number_field(
            e, green, "Green speed", green[0][-2:].replace("_", ""), step=0.1, empty="3.05", start=3.0
        ),
        number_field(
            e,
            ("firmness",),
            "Firmness",
            "",
            step=0.05,
            empty="1",
            start=1.0,
            tooltip="1 is the reference green; 0.5 is soft, 1.5 firm.",
        ),
        number_field(e, ("wind_m_per_s",), "Wind toward the target", "m/s", step=0.5, empty="0"),
    ]
    inside = names_at(e.draft, ("clubs",))
    names = tuple(BAG)

    def turn(now: list[str]) -> None:
        changed = set(now) ^ set(names_at(e.draft, ("clubs",)))
        draft = e.draft
        for name in changed:
            draft = toggle_club(draft, name)
        e.do("change the clubs", draft)

    offered = [n for n in names if n in inside] or list(names)
    second: list[Widget] = [
        Heading("Clubs"),
        Chips(
            "To choose from; with none in, only the one below",
            names,
            tuple(BAG[name].short for name in names),
            inside,
            turn,
            tooltips=[BAG[n].label for n in names],
            problem=e.problem_at(("clubs",)),
        ),
        choice_field(
            e, ("default_setup", "club"), "To begin with", offered, [BAG[n].label for n in offered], "SW"
        ),
    ]
    return [first, second, [Heading("Controls"), *_controls(e)]]


def _controls(e: Editing) -> list[Widget]:
    """Every control: the value to begin with, whether it is open, and how far."""
    opened = names_at(e.draft, ("open_controls",))
    out: list[Widget] = []
    for c in CONTROLS.values():
        key = FILE_KEYS[c.name]
        unit = "°" if c.unit == "deg" else c.unit
        step = ARROW_STEPS[c.unit]
        label = f"{c.label[:1].upper()}{c.label[1:]}"
        table = "default_setup" if c.owner == "setup" else "default_motion"
        start = number_field(e, (table, key), label, unit, step=step, empty="usual", tooltip=c.plain)
        is_open = c.name in opened
        turn = Chip(
            "open",
            is_open,
            lambda name=c.name: turn_control(e, name),  # type: ignore[misc]
            f"Whether the player may change the {c.label}.",
        )
        turn.now = lambda name=c.name: name in names_at(e.draft, ("open_controls",))
        out.append(Shares([start, turn], (0.76, 0.24), 8.5))
        if is_open:
            out.append(_limits(e, key, unit, step))
    return out


def turn_control(e: Editing, name: str) -> None:
    """Open a closed control, close an open one."""
    word = "close" if name in names_at(e.draft, ("open_controls",)) else "open"
    e.do(f"{word} {CONTROLS[name].label}", toggle_control(e.draft, name))


def _limits(e: Editing, key: str, unit: str, step: float) -> Widget:
    """From and to of an open control; both empty means as far as it goes."""
    loc: Loc = ("limits", key)

    def side(k: int, label: str) -> Widget:
        field = number_field(e, (*loc, k), label, unit, step=step)

        def write(typed: str) -> None:
            now = e.draft.at(loc)
            pair = list(now) if isinstance(now, list) and len(now) == 2 else ["", ""]
            pair[k] = "" if (value := read_number(typed, unit=unit)) is None else value
            e.set("change a limit", loc, None if pair == ["", ""] else pair, f"type {loc}")

        field.on_change = write
        field.on_step = None
        field.tooltip = "How far the player may move it; both empty means as far as it goes."
        return field

    return Shares([side(0, "   from"), side(1, "to")], (0.5, 0.5), 10.0)
