"""A scenario built step by step on the Builder's own screen, for the pictures of the read-me."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pygame

from game.app.frame import App
from game.builder.model.edits import add_bunker, move_hole, set_value
from game.builder.ui.screen import Builder
from game.library.settings import Settings
from levels.effort import FULL, Effort

__all__ = ["TITLE", "short_sided", "walk_through"]

TITLE = "Short-sided over a bunker"
SIZE = (1280, 800)
BUNKER = (2.0, 4.2, 0.5)  # from, to and depth, m
HOLE = 7.5  # m
WORDS: dict[tuple[str, ...], Any] = {
    ("title",): TITLE,
    ("lesson", "before"): "A bunker lies before you, the hole just behind it.\nHow high must the ball go?",
    ("lesson", "after"): "Loft, ball and swing worked together.\nThe ball came down steep.",
    ("hints",): [
        "How much green is there to stop on?",
        "More loft, ball a little forward.",
        "Lob wedge, no lean, a long swing.",
    ],
}
TASK: dict[tuple[str, ...], Any] = {
    ("player",): "steady",
    ("clubs",): ["GW-high", "SW", "LW"],
    ("open_controls",): ["ball_position", "shaft_lean", "swing_length"],
    ("goal", "must_clear"): {"x_m": 3.1, "height_m": 1.0},
    ("goal", "leave_m"): 2.5,
    ("predict",): ["landing", "stop"],
}


def short_sided(builder: Builder) -> None:
    """Bunker, hole, task and words, each a step that can be undone."""
    editing = builder.editing
    editing.do("dig a bunker", add_bunker(editing.draft, *BUNKER))
    editing.do("move the hole", move_hole(editing.draft, HOLE))
    for loc, value in (*TASK.items(), *WORDS.items()):
        editing.do(f"set {loc[-1]}", set_value(editing.draft, loc, value))


def walk_through(
    home: Path, dark: bool = False, effort: Effort = FULL
) -> Iterator[tuple[str, pygame.Surface]]:
    """Name and picture of each step; files are kept in `home`. The surface is drawn over by the next step."""
    app = App.headless(SIZE, Settings(dark=dark), "Builder", home)
    builder = app.screen
    assert isinstance(builder, Builder)
    short_sided(builder)
    builder.pick(("hole",))
    yield "5-builder-course", _seen(app)
    builder.show_tab("goal")
    yield "6-builder-goal", _seen(app)
    builder.show_tab("prove")
    builder.proving.start(effort)
    while builder.proving.running:
        app.frame([], 0.0)
    builder.proving.keep()
    yield "7-builder-proof", _seen(app)
    builder.play()
    yield "8-builder-play", _seen(app)
    app.close()


def _seen(app: App) -> pygame.Surface:
    """The screen after what was begun has been drawn."""
    for _ in range(3):
        app.frame([], 1.0 / 60.0)
    app.toast.hide()
    app.frame([], 0.0)
    return app.surface
