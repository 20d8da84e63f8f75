"""The tabs under the course: what each is called, which keys of the file it shows, when its fields change."""

from dataclasses import dataclass
from typing import Any

from game.builder.ui.boxes import ProblemNote
from game.builder.ui.describe import list_at, names_at
from game.builder.ui.editing import Editing, problem_sentence
from game.builder.ui.live import Live
from game.ui import Widget

__all__ = ["TABS", "Columns", "Tab", "loose_problems", "tab_shape"]

Columns = list[list[Widget]]  # the widgets of a tab, column by column


@dataclass(frozen=True)
class Tab:
    """`keys` are those of the scenario file that it shows."""

    name: str
    label: str
    tooltip: str
    keys: tuple[str, ...] = ()


TABS: tuple[Tab, ...] = (
    Tab("object", "Object", "Numbers of what is picked on the course."),
    Tab("shot", "Shot", "Player, lie, clubs, controls and weather.",
        ("player", "clubs", "open_controls", "limits", "wind_m_per_s", "green_speed_m", "green_speed_ft",
         "firmness", "lie", "default_setup", "default_motion")),
    Tab("goal", "Goal", "What counts as done, and what the player calls first.", ("goal", "predict")),
    Tab("text", "Text", "Title, lesson, hints and the question.",
        ("title", "chapter", "order", "lesson", "hints", "question")),
    Tab("reference", "Coach's set-up", "How the coach does the task.", ("reference",)),
    Tab("prove", "Prove", "Whether it can be done, by which kinds of shot, and how forgiving it is."),
    Tab("file", "File", "New, open, save, and share."),
)  # fmt: skip


def _tab_named(name: str) -> Tab:
    """The tab of that name."""
    return next(tab for tab in TABS if tab.name == name)


def tab_shape(e: Editing, tab: str) -> tuple[Any, ...]:
    """What decides which fields stand on a tab; while it stays the same, they only change what they show."""
    d = e.draft
    match tab:
        case "prove":
            return (e.scenario.digest if e.scenario else None,)
        case "file":
            return (e.document.path, e.document.dirty, tuple(e.document.recent()))
        case "object":
            kind = d.at((*e.picked, "kind")) if e.picked else None
            count = (len(list_at(d, ("hazards",))), len(list_at(d, ("ground",))))
            goals = d.at(("goal", "must_clear")) is None, d.at(("goal", "land_between_m")) is None
            return (e.picked, kind, goals, count)
        case "shot":
            return (
                *names_at(d, ("open_controls",)),
                d.at(("green_speed_ft",)) is None,
                *names_at(d, ("clubs",)),
            )
        case "goal":
            goal = d.at(("goal",), {})
            return tuple(sorted(goal)) if isinstance(goal, dict) else ()
        case "text":
            return (d.at(("question",)) is None,)
        case "reference":
            opened = tuple(names_at(d, ("open_controls",)))
            return (d.at(("reference",)) is None, opened, *names_at(d, ("clubs",)))
    return ()


def loose_problems(e: Editing, tab: str, columns: Columns) -> list[Widget]:
    """Sentences about what is wrong on this tab but has no field to stand under."""
    keys = _tab_named(tab).keys
    shown = {w.loc for column in columns for v in column for w in (v, *v.parts) if isinstance(w, Live)} - {()}
    return [
        ProblemNote(f"{p.key_text}: {problem_sentence(p)}")
        for p in e.problems
        if p.loc and p.loc[0] in keys and not any(p.loc[: len(loc)] == loc for loc in shown)
    ]
