"""The tabs of the builder's notes: of what they speak, when their fields change, what has no field."""

from typing import Any

from game.builder.ui.boxes import ProblemNote
from game.builder.ui.describe import list_at, names_at
from game.builder.ui.editing import Editing, problem_sentence
from game.ui import Widget

__all__ = ["TAB_KEYS", "Columns", "loose_problems", "tab_shape"]

Columns = list[list[Widget]]
TAB_KEYS: dict[str, tuple[str, ...]] = {  # keys of the file that a tab speaks of
    "Shot": ("player", "clubs", "open_controls", "limits", "wind_m_per_s", "green_speed_m", "green_speed_ft",
             "firmness", "lie", "default_setup", "default_motion"),
    "Goal": ("goal", "predict"),
    "Words": ("title", "chapter", "order", "lesson", "hints", "question"),
    "Reference": ("reference",),
}  # fmt: skip


def tab_shape(e: Editing, tab: str) -> tuple[Any, ...]:
    """What decides which fields stand on a tab; while it stays the same, they only change what they show."""
    d = e.draft
    match tab:
        case "Prove":
            return (e.scenario.digest if e.scenario else None,)
        case "File":
            return (e.document.path, e.document.dirty, tuple(e.document.recent()))
        case "Thing":
            kind = d.at((*e.picked, "kind")) if e.picked else None
            count = (len(list_at(d, ("hazards",))), len(list_at(d, ("ground",))))
            goals = d.at(("goal", "must_clear")) is None, d.at(("goal", "land_between_m")) is None
            return (e.picked, kind, goals, count)
        case "Shot":
            return (
                *names_at(d, ("open_controls",)),
                d.at(("green_speed_ft",)) is None,
                *names_at(d, ("clubs",)),
            )
        case "Goal":
            goal = d.at(("goal",), {})
            return tuple(sorted(goal)) if isinstance(goal, dict) else ()
        case "Words":
            return (d.at(("question",)) is None,)
        case "Reference":
            opened = tuple(names_at(d, ("open_controls",)))
            return (d.at(("reference",)) is None, opened, *names_at(d, ("clubs",)))
    return ()


def loose_problems(e: Editing, tab: str, columns: Columns) -> list[Widget]:
    """Sentences about what is wrong on this tab but has no field to stand under."""
    shown = {getattr(w, "loc", None) for column in columns for v in column for w in (v, *v.parts)}
    out: list[Widget] = []
    for p in e.problems:
        at_field = any(loc is not None and p.loc[: len(loc)] == loc for loc in shown)
        if p.loc and p.loc[0] in TAB_KEYS.get(tab, ()) and not at_field:
            out.append(ProblemNote(f"{p.key_text}: {problem_sentence(p)}"))
    return out
