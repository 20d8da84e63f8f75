"""The leaves of the builder's notes: of what they speak, when their fields change, what has no field."""

from typing import Any

from game.builder.ui.boxes import Note
from game.builder.ui.editing import Making, sentence
from game.builder.ui.words import listed, names_in
from game.ui import Widget

__all__ = ["ROOTS", "Lanes", "notes", "shape_of"]

Lanes = list[list[Widget]]
ROOTS: dict[str, tuple[str, ...]] = {  # keys of the file that a leaf speaks of
    "Shot": ("player", "clubs", "open_controls", "limits", "wind_m_per_s", "green_speed_m", "green_speed_ft",
             "firmness", "lie", "default_setup", "default_motion"),
    "Goal": ("goal", "predict"),
    "Words": ("title", "chapter", "order", "lesson", "hints", "question"),
    "Reference": ("reference",),
}  # fmt: skip


def shape_of(m: Making, tab: str) -> tuple[Any, ...]:
    """What decides which fields stand on a leaf; while it stays the same, they only change what they show."""
    d = m.draft
    match tab:
        case "Prove":
            return (m.scenario.digest if m.scenario else None,)
        case "File":
            return (m.desk.path, m.desk.dirty, tuple(m.desk.recent()))
        case "Thing":
            kind = d.at((*m.picked, "kind")) if m.picked else None
            count = (len(listed(d, ("hazards",))), len(listed(d, ("ground",))))
            goals = d.at(("goal", "must_clear")) is None, d.at(("goal", "land_between_m")) is None
            return (m.picked, kind, goals, count)
        case "Shot":
            return (
                *names_in(d, ("open_controls",)),
                d.at(("green_speed_ft",)) is None,
                *names_in(d, ("clubs",)),
            )
        case "Goal":
            goal = d.at(("goal",), {})
            return tuple(sorted(goal)) if isinstance(goal, dict) else ()
        case "Words":
            return (d.at(("question",)) is None,)
        case "Reference":
            opened = tuple(names_in(d, ("open_controls",)))
            return (d.at(("reference",)) is None, opened, *names_in(d, ("clubs",)))
    return ()


def notes(m: Making, tab: str, lanes: Lanes) -> list[Widget]:
    """Sentences about what is wrong on this leaf but has no field to stand under."""
    shown = {getattr(w, "loc", None) for lane in lanes for v in lane for w in (v, *v.parts)}
    out: list[Widget] = []
    for p in m.problems:
        at_field = any(loc is not None and p.loc[: len(loc)] == loc for loc in shown)
        if p.loc and p.loc[0] in ROOTS.get(tab, ()) and not at_field:
            out.append(Note(f"{p.key_text}: {sentence(p)}"))
    return out
