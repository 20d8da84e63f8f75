"""The walk-through of the read-me: what it builds is legal, solvable and can be undone to the beginning."""

from pathlib import Path

from game.app.frame import App
from game.builder.model.edits import new_draft
from game.commands.builder_pictures import HOLE, TITLE, short_sided, walk_through
from game.library.settings import Settings
from levels.effort import SMALL


def test_short_sided_is_legal_and_every_step_can_be_undone(tmp_path: Path) -> None:
    builder = App.headless((1280, 800), Settings(), "Builder", tmp_path).screen
    short_sided(builder)
    scenario = builder.editing.scenario
    assert scenario is not None
    assert (scenario.title, scenario.hole.x_m) == (TITLE, HOLE)
    assert any(p.surface == "sand" for p in scenario.ground)
    while builder.editing.history.can_undo:
        builder.editing.undo()
    assert builder.editing.draft == new_draft("plain green")


def test_the_walk_shows_four_screens_and_proves_what_it_built(tmp_path: Path) -> None:
    names, seen = [], set()
    for name, surface in walk_through(tmp_path, effort=SMALL):
        names.append(name)
        seen.add(bytes(surface.get_buffer()))
    assert names == ["5-builder-course", "6-builder-goal", "7-builder-proof", "8-builder-play"]
    assert len(seen) == len(names)
