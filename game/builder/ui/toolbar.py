"""The tools as buttons and as one choice, with undo and redo beside them; all show what is in hand."""

from collections.abc import Callable

from game.builder.ui.editing import Editing
from game.builder.ui.tools import TOOLS, ToolButton, ToolRow
from game.ui import Choice

__all__ = ["Toolbar"]


class Toolbar:
    """`row` where there is room, `choice` where there is none. `take` hears a tool and whether by a key."""

    def __init__(self, editing: Editing, take: Callable[[str, bool], None]) -> None:
        self.editing, self._take = editing, take
        self.buttons = {t.name: ToolButton(
            t.name, t.label, lambda name=t.name: self._pressed(name),  # type: ignore[misc]
            tooltip=f"{t.label}, key {t.key}: {t.usage}", group="tools",
        ) for t in TOOLS}  # fmt: skip
        self.undo = ToolButton("undo", "Undo", editing.undo, group="steps")
        self.redo = ToolButton("redo", "Redo", editing.redo, group="steps")
        tools = list(self.buttons.values())
        self.row = ToolRow([tools[:5], tools[5:11], tools[11:], (self.undo, self.redo)])
        self.choice = Choice(
            "", [t.label for t in TOOLS], 0, lambda i: take(TOOLS[i].name, True), tooltip="The tool in hand."
        )

    def _pressed(self, name: str) -> None:
        self._take(name, self.buttons[name].by_key)

    def refresh(self) -> None:
        """Show the tool in hand, and what can be undone and redone."""
        for name, button in self.buttons.items():
            button.current = name == self.editing.tool
        self.choice.index = next(i for i, t in enumerate(TOOLS) if t.name == self.editing.tool)
        history = self.editing.history
        for button, can, verb, name in (
            (self.undo, history.can_undo, "Undo", history.undo_name),
            (self.redo, history.can_redo, "Redo", history.redo_name),
        ):
            button.enabled = can
            button.tooltip = f"{verb}: {name}." if can else f"Nothing to {verb.lower()}."
