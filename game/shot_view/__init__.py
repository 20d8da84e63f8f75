"""The parts of every screen that shows a shot: stage, turf window, golfer, ribbon, controls, sentences."""

from game.shot_view.controls import ControlPanel
from game.shot_view.golfer_panel import GolferPanel
from game.shot_view.ribbon import TimeRibbon
from game.shot_view.sentence import SentenceView
from game.shot_view.stage import Stage
from game.shot_view.stance import Intent, Stance, intend, stance_at
from game.shot_view.timeline import Timeline, timeline
from game.shot_view.turf_window import TurfWindow

__all__ = [
    "ControlPanel", "GolferPanel", "Intent", "SentenceView", "Stage", "Stance", "TimeRibbon", "Timeline",
    "TurfWindow", "intend", "stance_at", "timeline",
]  # fmt: skip
