"""A file written by hand and the steps that tests of the document take."""

from pathlib import Path

from game.builder.model.document import Document
from game.builder.model.edits import set_value
from game.builder.model.recovery import FOLDER
from levels.draft import Draft

__all__ = ["WRITTEN", "did", "kept", "retitle"]

WRITTEN = """# by hand
format = 1
title = "Hand" # mine
ground = [
  { x_m = -8, y_m = 0, surface = "fairway" }, # tee
  { x_m = 4.0, y_m = 0.00, surface = "green" },
  { x_m = 20.0, y_m = 0.0 },
]
hole = { x_m = 10.0 }
goal = { leave_m = 1.0 }
"""


def did(document: Document, draft: Draft) -> None:
    """One step, kept."""
    assert document.history.do("step", draft)
    document.autosave()


def retitle(document: Document, title: str) -> None:
    """One step that changes the title."""
    did(document, set_value(document.draft, ("title",), title))


def kept(document: Document) -> list[Path]:
    """The recovery files there are."""
    return sorted((document.home / FOLDER).glob("*.json"))
