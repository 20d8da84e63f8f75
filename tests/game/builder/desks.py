"""A file written by hand and the steps that tests of the desk take."""

from pathlib import Path

from game.builder.model.desk import Desk
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


def did(desk: Desk, draft: Draft) -> None:
    """One step, kept."""
    assert desk.history.do("step", draft)
    desk.autosave()


def retitle(desk: Desk, title: str) -> None:
    """One step that changes the title."""
    did(desk, set_value(desk.draft, ("title",), title))


def kept(desk: Desk) -> list[Path]:
    """The recovery files there are."""
    return sorted((desk.home / FOLDER).glob("*.json"))
