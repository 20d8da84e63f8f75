"""The door of the Bench: set, play, see why; a scenario can be opened on it."""

from game.bench.screen import Bench, scenario_on_bench, shot_on_bench

__all__ = ["Bench", "scenario_on_bench", "shot_on_bench"]
