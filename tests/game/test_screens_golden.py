"""One kept picture a screen: what stands on it has changed only on purpose.

The screens draw what a keyboard brings them to, on fixed seeds, with all computing inside the frame and
without motion. Chapters and Play show scenarios made here, since the library may change. Where most of a
screen is paper, fewer pixels may differ.
"""

from functools import cache, partial

import pygame
import pytest
import tomli_w

from game.app.frame import App
from game.bench.screen import Bench
from game.chapters.contents import ShelfChapter
from game.chapters.screen import Chapters
from game.library.settings import Settings
from game.play.round import Step
from game.play.screen import Play
from levels.files import load_library, parse_scenario
from tests.game.golden import same_picture
from tests.ui_events import key

SIZE = (1024, 640)
KEPT = (512, 320)
SCENE = 0.004  # of the pixels: about one label in the picture
WORDS = 0.0008  # of the pixels where all is words on paper: a few letters
SPACE = key(pygame.K_SPACE, 0, " ")
ENTER = key(pygame.K_RETURN)


@cache
def fen() -> tuple[ShelfChapter, ...]:
    """Two chapters of our own making on the plain green."""
    base = load_library("harrow-fen-plain-chip").model_dump(exclude_none=True)
    made = []
    for i, title in enumerate(("The brush", "More lean", "Land and roll"), 1):
        own = {
            "title": title, "order": i, "predict": ["landing", "stop", "strike"],
            "hints": ["Look at the sole."], "reference": {"shaft_lean_deg": 4.0},
            "limits": {"shaft_lean_deg": [0.0, 12.0]},
            "goal": {"leave_m": 1.5, "land_between_m": [3.0, 6.0], "shots": 5, "successes": 3},
        }  # fmt: skip
        made.append((f"made-{i}", parse_scenario(tomli_w.dumps(base | own))))
    return (ShelfChapter("The strike", tuple(made)), ShelfChapter("The flight", tuple(made[:1])))


def still(screen=None, **settings) -> App:
    """An app without motion, its first work done."""
    app = App.headless(SIZE, Settings(reduced_motion=True, **settings), screen)
    settle(app)
    return app


def settle(app: App) -> None:
    """Let everything asked for be worked out and drawn, and every message pass."""
    for _ in range(4):
        app.frame([], 0.05)
    app.toast.hide()
    app.frame([], 0.0)


def test_bench_before_a_shot(tmp_path):
    app = still("Bench")
    same_picture(app.surface, "screen-bench-address", tmp_path, size=KEPT, share=SCENE)


def test_bench_with_the_ball_at_rest(tmp_path):
    app = still("Bench")
    app.frame([SPACE], 0.05)
    settle(app)
    screen = app.screen
    assert isinstance(screen, Bench)
    assert screen.ribbon.at_end
    assert "landed" in screen.said.text
    same_picture(app.surface, "screen-bench-rest", tmp_path, size=KEPT, share=SCENE)


def test_chapters(tmp_path):
    same_picture(
        still(partial(Chapters, chapters=fen)).surface, "screen-chapters", tmp_path, size=KEPT, share=SCENE
    )


def test_play_while_it_is_set_up(tmp_path):
    app = still(partial(Chapters, chapters=fen))
    app.frame([ENTER], 0.05)
    settle(app)
    app.frame([ENTER], 0.05)
    settle(app)
    screen = app.screen
    assert isinstance(screen, Play)
    assert screen.r.step is Step.SET
    same_picture(app.surface, "screen-play-set", tmp_path, size=KEPT, share=SCENE)


def test_ladder_before_a_ball(tmp_path):
    same_picture(still("Ladder").surface, "screen-ladder", tmp_path, size=KEPT, share=SCENE)


def test_builder_with_the_hole_picked(tmp_path):
    app = still("Builder")
    app.screen.pick(("hole",))
    settle(app)
    same_picture(app.surface, "screen-builder", tmp_path, size=KEPT, share=SCENE)


def test_settings(tmp_path):
    same_picture(still("Settings").surface, "screen-settings", tmp_path, size=KEPT, share=WORDS)


def test_help_over_the_settings(tmp_path):
    app = still("Settings")
    app.help()
    settle(app)
    same_picture(app.surface, "screen-help", tmp_path, size=KEPT, share=WORDS)


def test_one_switch_the_other_way_is_seen(tmp_path):
    with pytest.raises(AssertionError, match="of the pixels differ"):
        same_picture(
            still("Settings", left_handed=True).surface, "screen-settings", tmp_path, size=KEPT, share=WORDS
        )
    assert (tmp_path / "screen-settings-diff.png").exists()
