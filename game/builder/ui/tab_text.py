"""The leaves Words and Reference: what the coach says, asks and would do."""

from game.builder.ui.boxes import said
from game.builder.ui.editing import Making
from game.builder.ui.fields import choice, number, text, words
from game.builder.ui.tab_goal import part
from game.builder.ui.tab_shot import STEPS
from game.builder.ui.words import names_in
from game.ui import Widget
from levels.families import FAMILIES
from levels.parts import FILE_KEYS
from physics.address import CONTROLS
from physics.equipment import BAG

__all__ = ["reference", "words_tab"]

Lanes = list[list[Widget]]


def _hint(m: Making, k: int) -> Widget:
    def write(typed: str) -> None:
        now = m.draft.at(("hints",), [])
        hints = [*now, "", "", ""][:3] if isinstance(now, list) else ["", "", ""]
        hints[k] = typed
        while hints and hints[-1] == "":
            hints.pop()
        m.set("write a hint", ("hints",), hints, f"type hint {k}")

    return words(m, ("hints", k), f"Hint {k + 1}", rows=2, write=write, plain=True)


def _choice_text(m: Making, k: int) -> Widget:
    def write(typed: str) -> None:
        now = m.draft.at(("question", "choices"), [])
        choices = [*now, "", "", ""][:3] if isinstance(now, list) else ["", "", ""]
        choices[k] = typed
        m.set("write a cause", ("question", "choices"), choices, f"type cause {k}")

    return words(m, ("question", "choices", k), f"Cause {k + 1}", rows=2, write=write, plain=True)


def words_tab(m: Making) -> Lanes:
    """Title, lesson, hints and question."""
    first: list[Widget] = [
        text(m, ("title",), "Title", most=90),
        text(m, ("chapter",), "Chapter", most=50, empty="none"),
        number(m, ("order",), "Place in its chapter", "", whole=True, empty="1", start=1),
        *(_hint(m, k) for k in range(3)),
    ]
    second: list[Widget] = [
        words(m, ("lesson", "before"), "Before the shot", rows=4),
        words(m, ("lesson", "after"), "After the shot", rows=4),
    ]
    begin = {"ask": "What cost most?", "choices": ["", "", ""], "right": 1}
    third: list[Widget] = [part(m, ("question",), "Ask a question after the shot", begin)]
    if m.draft.at(("question",)) is not None:
        third += [
            words(m, ("question", "ask"), "Question", rows=2, plain=True),
            *(_choice_text(m, k) for k in range(3)),
            choice(m, ("question", "right"), "The right one", (1, 2, 3), ("1", "2", "3")),
            words(m, ("question", "because"), "Because", rows=3),
        ]
    return [first, second, third]


def reference(m: Making) -> Lanes:
    """The coach's own way to do the task: the open controls, where it differs from the default."""
    first: list[Widget] = [
        part(m, ("reference",), "Has a coach's way", {"family": "standard"}),
        said("A matched set-up that does the task; what stays empty is as at the beginning."),
    ]
    if m.draft.at(("reference",)) is None:
        return [first]
    first.append(choice(m, ("reference", "family"), "Kind of shot", FAMILIES, FAMILIES, "standard"))
    clubs = [n for n in names_in(m.draft, ("clubs",)) if n in BAG]
    if clubs:
        first.append(choice(m, ("reference", "club"), "Club", (None, *clubs),
                            ("as at the beginning", *(BAG[n].label for n in clubs))))  # fmt: skip
    fields: list[Widget] = []
    for name in names_in(m.draft, ("open_controls",)):
        if name in CONTROLS:
            c, key = CONTROLS[name], FILE_KEYS[name]
            table = "default_setup" if c.owner == "setup" else "default_motion"
            start = m.draft.at((table, key))
            empty = "as begun" if start is None else f"{start:g}" if isinstance(start, int | float) else ""
            step = STEPS[c.unit]
            fields.append(number(m, ("reference", key), f"{c.label[:1].upper()}{c.label[1:]}",
                                 "°" if c.unit == "deg" else c.unit, step=step, empty=empty))  # fmt: skip
    if not fields:
        fields.append(said("No control is open: open some under Shot."))
    half = (len(fields) + 1) // 2
    return [first, fields[:half], fields[half:]]
