"""The parts of every screen that shows a shot: stage, turf window, golfer, ribbon, controls, sentences."""

from game.scene.controls import ControlPanel
from game.scene.golfer_panel import GolferPanel
from game.scene.ribbon import TimeRibbon
from game.scene.sentence import SentenceView
from game.scene.stage import Stage
from game.scene.stance import Intent, Stance, intend, stance_at
from game.scene.timeline import Timeline, timeline
from game.scene.turf_window import TurfWindow

__all__ = [
    "ControlPanel", "GolferPanel", "Intent", "SentenceView", "Stage", "Stance", "TimeRibbon", "Timeline",
    "TurfWindow", "intend", "stance_at", "timeline",
]  # fmt: skip
