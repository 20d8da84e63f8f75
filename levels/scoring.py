"""What a shot was worth in a scenario: goals one by one, strokes, match, and the gap to what was called.

No stars, no lives: every mark is a distance, a count of strokes or a plain sentence. The same rules
judge one Shot and a whole cloud of strokes, so a scenario is proved by what it is played by.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import degrees, nan
from typing import Any

import numpy as np
from numpy.typing import NDArray

from levels.scenario import Scenario
from levels.teaching import Goal
from physics.address import Motion, Setup
from physics.cloud import Cloud, cloud, worth
from physics.compiled import as_record, law
from physics.corridor import bench, strike_stray, stroke_of
from physics.equipment import BALL
from physics.flight import STEP, fly_step
from physics.putting import PUTTERS
from physics.results import Contact, Outcome, Shot, TurfAction
from physics.run import HOLED, LOST, OUT, REST, WATER
from physics.shot import lie_of
from physics.spread import PLAYERS, draw
from physics.cause import lean_match
from physics.terrain import Field, build_field, height_at

__all__ = [
    "Facts", "GoalMark", "Match", "Prediction", "PredictionGap", "Verdict", "facts_of", "judge", "match",
    "passed", "prediction_gap", "reference_cloud", "strike_word", "success_share",
]  # fmt: skip
