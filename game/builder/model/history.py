"""The undo history of a draft, without limit: drafts share what they have in common, so a step is small."""

from dataclasses import dataclass

from levels.draft import Draft

__all__ = ["History"]


@dataclass(frozen=True)
class _Step:
    name: str  # what was done to arrive here
    draft: Draft
    merge: str = ""


class History:
    """A line of drafts and the place in it. A new step after an undo drops the steps that were undone."""

    def __init__(self, draft: Draft) -> None:
        self._steps = [_Step("", draft)]
        self._at = 0

    @property
    def draft(self) -> Draft:
        """The draft as it stands."""
        return self._steps[self._at].draft

    def do(self, name: str, draft: Draft, merge: str = "") -> bool:
        """Take one step; whether anything changed.

        The same `merge` that the newest step has, not settled meanwhile, makes both one step: a drag is
        undone at once. A merged step that comes back to where it began is no step.
        """
        top = self._steps[self._at]
        if draft is self.draft or draft == self.draft:
            return False
        del self._steps[self._at + 1 :]
        if merge and merge == top.merge:
            self._steps.pop()
            if draft == self._steps[-1].draft:
                self._at -= 1
                self._steps[self._at] = _Step(self._steps[-1].name, self._steps[-1].draft)
                return True
        self._steps.append(_Step(name, draft, merge))
        self._at = len(self._steps) - 1
        return True

    def settle(self) -> None:
        """Close the newest step: whatever comes next is a step of its own."""
        top = self._steps[self._at]
        self._steps[self._at] = _Step(top.name, top.draft)

    def undo(self) -> bool:
        """Go one step back; False at the beginning."""
        self.settle()
        if not self.can_undo:
            return False
        self._at -= 1
        self.settle()
        return True

    def redo(self) -> bool:
        """Go one step forward again; False where nothing was undone."""
        self.settle()
        if not self.can_redo:
            return False
        self._at += 1
        self.settle()
        return True

    @property
    def can_undo(self) -> bool:
        return self._at > 0

    @property
    def can_redo(self) -> bool:
        return self._at < len(self._steps) - 1

    @property
    def undo_name(self) -> str:
        """What `undo` would take back, "" for nothing."""
        return self._steps[self._at].name if self.can_undo else ""

    @property
    def redo_name(self) -> str:
        """What `redo` would do again, "" for nothing."""
        return self._steps[self._at + 1].name if self.can_redo else ""
