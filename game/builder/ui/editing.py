"""The editing session: the document, what is picked, the tool in hand; it makes every change of the draft."""

from collections.abc import Callable
from typing import Any

from game.builder.model.document import Document
from game.builder.model.edits import delete_point, duplicate_hazard, handles, remove_hazard, set_value
from game.builder.model.handles import DragHandle
from game.builder.model.history import History
from game.builder.ui.describe import list_at
from levels.draft import Draft, Problem
from levels.rules import Loc
from levels.scenario import Scenario

__all__ = ["Editing", "object_of"]

KEEP = 0.3  # s after a letter or a pull until it is kept, assumed
PAUSE = 0.8  # s between two presses of an arrow that still make one step, assumed


def object_of(loc: Loc) -> Loc:
    """The object a path belongs to: a hazard for its sizes, a goal mark for its ends."""
    if loc[:1] == ("hazards",) or loc[:1] == ("ground",):
        return loc[:2]
    if loc[:2] in (("goal", "land_between_m"), ("goal", "must_clear")):
        return loc[:2]
    return {"hole": ("hole",), "lie": ("ball",)}.get(str(loc[0]), loc) if loc else loc


class Editing:
    """The document, the object picked, the tool in hand; `changed` is called after every change."""

    def __init__(self, document: Document, changed: Callable[[], None], say: Callable[[str], None]) -> None:
        self.document, self.changed, self.say = document, changed, say
        self.picked: Loc | None = None
        self.tool, self.surface = "move", "green"
        self.snapping, self.yards = True, False
        self._merged = False
        self.dragging = False  # a drag goes on
        self.rebuilding = False  # fields are made anew in the middle of a step
        self._rested = 0.0
        self._unkept = False  # a step has not yet been kept for recovery
        self._last_valid: Scenario | None = None

    @property
    def history(self) -> History:
        return self.document.history

    @property
    def draft(self) -> Draft:
        return self.history.draft

    @property
    def scenario(self) -> Scenario | None:
        """The scenario as it stands, None while a rule is broken."""
        return self.draft.scenario()

    @property
    def last_valid(self) -> Scenario | None:
        """The scenario as it last stood without a broken rule."""
        self._last_valid = self.scenario or self._last_valid
        return self._last_valid

    def forget(self) -> None:
        """Another document is open: nothing of the old one counts."""
        self.picked, self._last_valid, self._merged = None, None, False

    # ---- steps

    def do(self, name: str, draft: Draft, merge: str = "") -> bool:
        """Take a step; whether anything changed."""
        if not self.history.do(name, draft, merge):
            return False
        self._merged, self._rested = bool(merge), 0.0
        self._unkept = True
        if not merge:
            self.keep()
        self.changed()
        return True

    def toggle_snapping(self) -> None:
        """Snapping to the grid on or off, and say which."""
        self.snapping = not self.snapping
        self.say("Snapping to the grid." if self.snapping else "Snapping is off.")

    def keep(self) -> None:
        """Keep the draft for recovery, and say so when the disk refuses."""
        if self._unkept:
            self._unkept = False
            self.document.autosave()
            if self.document.keeping:
                self.say(self.document.keeping)

    def set(self, name: str, loc: Loc, value: Any, merge: str = "") -> None:
        """Put a value at a path (None takes the key away)."""
        self.do(name, set_value(self.draft, loc, value), merge)

    def settle(self) -> None:
        """The step that was going on is done."""
        if self.rebuilding:
            return
        if self._merged:
            self._merged = False
            self.history.settle()
        self.keep()

    def rest(self, dt: float) -> None:
        """Let time pass: after a pause the presses of an arrow are one step."""
        self._rested += dt
        if self._merged and self._rested > PAUSE and not self.dragging:
            self.settle()
        if self._unkept and self._rested > KEEP:
            self.keep()

    def undo(self) -> None:
        """One step back, and say which."""
        name = self.history.undo_name
        if self.history.undo():
            self._merged, self._unkept = False, True
            self.keep()
            self._told(f"Undone: {name}.")
        else:
            self.say("There is nothing to undo.")

    def redo(self) -> None:
        """One step forward again, and say which."""
        name = self.history.redo_name
        if self.history.redo():
            self._merged, self._unkept = False, True
            self.keep()
            self._told(f"Done again: {name}.")
        else:
            self.say("There is nothing to do again.")

    def _told(self, problem_sentence: str) -> None:
        if self.picked and self.handle_of(self.picked) is None:
            self.picked = None
        self.changed()
        self.say(problem_sentence)

    # ---- objects

    def handle_of(self, loc: Loc) -> DragHandle | None:
        """The first handle of an object."""
        return next((h for h in handles(self.draft) if object_of(h.loc) == object_of(loc)), None)

    def delete(self, loc: Loc) -> None:
        """Take an object out, or say why it stays."""
        if loc[0] == "hazards":
            self.do("remove a hazard", remove_hazard(self.draft, int(loc[1])))
        elif loc[0] == "ground":
            before = self.draft
            if not self.do("remove a point", delete_point(before, int(loc[1]))):
                self.say("This point stays: the ground needs it.")
                return
        elif loc[0] == "goal":
            self.do("remove a goal mark", set_value(self.draft, loc[:2], None))
        else:
            self.say(f"The {loc[0]} stays: every scenario has one. Drag it elsewhere.")
            return
        self.picked = None
        self.changed()

    def duplicate(self, loc: Loc) -> None:
        """A second one beside it; only hazards come twice."""
        if loc[0] != "hazards":
            self.say("Only hazards can be there twice.")
            return
        if self.do("duplicate a hazard", duplicate_hazard(self.draft, int(loc[1]))):
            self.picked = ("hazards", len(list_at(self.draft, ("hazards",))) - 1)
            self.changed()
        else:
            self.say("There is room for no more hazards.")

    # ---- problems

    @property
    def problems(self) -> tuple[Problem, ...]:
        return self.draft.problems()

    def problem_at(self, loc: Loc) -> str:
        """What is wrong at the path or inside it, one sentence."""
        n = len(loc)
        return next((problem_sentence(p) for p in self.problems if p.loc[:n] == loc), "")


def problem_sentence(problem: Problem) -> str:
    """The problem's words as a sentence of their own."""
    words = problem.sentence
    return f"{words[:1].upper()}{words[1:]}"
