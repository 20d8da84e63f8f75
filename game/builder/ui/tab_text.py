"""The tabs of the text and of the reference: what the coach says, asks and would do."""

from game.builder.ui.boxes import quiet_line
from game.builder.ui.describe import names_at
from game.builder.ui.editing import Editing
from game.builder.ui.fields import area_field, choice_field, number_field, text_field
from game.builder.ui.tab_goal import optional_part
from game.builder.ui.tab_shot import ARROW_STEPS
from game.builder.ui.tabs import Columns
from game.ui import Widget
from levels.families import FAMILIES
from levels.parts import FILE_KEYS
from physics.address import CONTROLS
from physics.equipment import BAG

__all__ = ["reference_tab", "text_tab"]


def _hint(e: Editing, k: int) -> Widget:
    def write(typed: str) -> None:
        now = e.draft.at(("hints",), [])
        hints = [*now, "", "", ""][:3] if isinstance(now, list) else ["", "", ""]
        hints[k] = typed
        while hints and hints[-1] == "":
            hints.pop()
        e.set("write a hint", ("hints",), hints, f"type hint {k}")

    return area_field(e, ("hints", k), f"Hint {k + 1}", rows=2, write=write, plain=True)


def _choice_text(e: Editing, k: int) -> Widget:
    def write(typed: str) -> None:
        now = e.draft.at(("question", "choices"), [])
        choices = [*now, "", "", ""][:3] if isinstance(now, list) else ["", "", ""]
        choices[k] = typed
        e.set("write a cause", ("question", "choices"), choices, f"type cause {k}")

    return area_field(e, ("question", "choices", k), f"Cause {k + 1}", rows=2, write=write, plain=True)


def text_tab(e: Editing) -> Columns:
    """Title, lesson, hints and question."""
    first: list[Widget] = [
        text_field(e, ("title",), "Title", most=90),
        text_field(e, ("chapter",), "Chapter", most=50, empty="none"),
        number_field(e, ("order",), "Place in its chapter", "", whole=True, empty="1", start=1),
        *(_hint(e, k) for k in range(3)),
    ]
    second: list[Widget] = [
        area_field(e, ("lesson", "before"), "Before the shot", rows=4),
        area_field(e, ("lesson", "after"), "After the shot", rows=4),
    ]
    begin = {"ask": "What cost most?", "choices": ["", "", ""], "right": 1}
    third: list[Widget] = [optional_part(e, ("question",), "Ask a question after the shot", begin)]
    if e.draft.at(("question",)) is not None:
        third += [
            area_field(e, ("question", "ask"), "Question", rows=2, plain=True),
            *(_choice_text(e, k) for k in range(3)),
            choice_field(e, ("question", "right"), "The right one", (1, 2, 3), ("1", "2", "3")),
            area_field(e, ("question", "because"), "Because", rows=3),
        ]
    return [first, second, third]


def reference_tab(e: Editing) -> Columns:
    """The coach's own way to do the task: the open controls, where it differs from the default."""
    first: list[Widget] = [
        optional_part(e, ("reference",), "Has a coach's set-up", {"family": "standard"}),
        quiet_line("A matched set-up that does the task; what stays empty is as at the beginning."),
    ]
    if e.draft.at(("reference",)) is None:
        return [first]
    first.append(choice_field(e, ("reference", "family"), "Kind of shot", FAMILIES, FAMILIES, "standard"))
    clubs = [n for n in names_at(e.draft, ("clubs",)) if n in BAG]
    if clubs:
        first.append(choice_field(e, ("reference", "club"), "Club", (None, *clubs),
                            ("as at the beginning", *(BAG[n].label for n in clubs))))  # fmt: skip
    fields: list[Widget] = []
    for name in names_at(e.draft, ("open_controls",)):
        if name in CONTROLS:
            c, key = CONTROLS[name], FILE_KEYS[name]
            table = "default_setup" if c.owner == "setup" else "default_motion"
            start = e.draft.at((table, key))
            empty = "as begun" if start is None else f"{start:g}" if isinstance(start, int | float) else ""
            step = ARROW_STEPS[c.unit]
            fields.append(number_field(e, ("reference", key), f"{c.label[:1].upper()}{c.label[1:]}",
                                 "°" if c.unit == "deg" else c.unit, step=step, empty=empty))  # fmt: skip
    if not fields:
        fields.append(quiet_line("No control is open: open some under Shot."))
    half = (len(fields) + 1) // 2
    return [first, fields[:half], fields[half:]]
