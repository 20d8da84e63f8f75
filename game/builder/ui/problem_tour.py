"""F8: from one thing that breaks a rule to the next, to its field and its place on the course."""

from __future__ import annotations

from typing import TYPE_CHECKING

from game.builder.ui.editing import problem_sentence
from game.ui.widget import walk

if TYPE_CHECKING:
    from game.builder.ui.screen import Builder

__all__ = ["Mending"]


class Mending:
    """Remembers which came last."""

    def __init__(self, builder: Builder) -> None:
        self.builder = builder
        self._last = -1

    def go(self) -> None:
        """To the next one, with its sentence."""
        b = self.builder
        problems = b.editing.problems
        if not problems:
            b.app.say("Everything is in order.")
            return
        self._last = (self._last + 1) % len(problems)
        problem = problems[self._last]
        b.alone = False
        tab = b.panel.tab_of(problem.loc)
        grip = b.canvas.grip_of(problem.loc) if problem.loc else None
        if grip and tab in ("Thing", "Goal"):
            b.editing.tool, b.editing.picked = "move", grip.loc
            b.canvas.reveal(grip)
        b.show_tab(tab)
        b.changed()
        b.app.arrange()
        field = b.panel.field_of(problem.loc) or grip
        if field in list(walk(b.widgets)):
            b.refocus(field)
        where = f"{problem.key_text}: " if problem.key_text else ""
        b.app.say(f"{self._last + 1} of {len(problems)}. {where}{problem_sentence(problem)}")
