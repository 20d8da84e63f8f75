"""How near strokes came to a scenario's goals: a slope for a search to climb where no stroke meets them.

Only a guide. Whether a goal is met is asked of `levels.facts` alone.
"""

from collections.abc import Callable
from math import radians

import numpy as np
from numpy.typing import NDArray

from levels.facts import Facts, goals_asked, goals_met
from levels.teaching import Goal

__all__ = ["closeness"]

Floats = NDArray[np.float64]
NEVER = 4.0  # shortfall of a stroke that did nothing of what was asked, assumed
STEEP = 2.0  # how fast closeness falls with the shortfall, assumed
NEAR_MISS = 0.5  # most that a stroke which misses may count beside one that meets the goals, assumed


def _leave(goal: Goal, f: Facts) -> Floats:
    limit = goal.leave_m or 1.0
    return np.asarray(f.leave / limit - 1.0)


def _land(goal: Goal, f: Facts) -> Floats:
    near, far = goal.land_between_m or (0.0, 0.0)
    return np.maximum(near - f.carry, f.carry - far) / (0.5 * (far - near))


def _clear(goal: Goal, f: Facts) -> Floats:
    need = goal.must_clear.height_m if goal.must_clear else 1.0
    low = (need - f.height) / need
    short = 1.0 + np.maximum(0.0, 1.0 - f.carry / goal.must_clear.x_m) if goal.must_clear else low
    return np.where(np.isnan(f.height), short, low)


def _ceiling(goal: Goal, f: Facts) -> Floats:
    return np.asarray(f.apex / (goal.ceiling_m or 1.0) - 1.0)


def _strike(goal: Goal, f: Facts) -> Floats:
    off = np.minimum(np.abs(f.struck_gap), 2.0)
    return np.where(f.solid, off, 0.5 + off)


def _match(goal: Goal, f: Facts) -> Floats:
    return np.asarray(np.abs(f.lean_off) / radians(goal.match_deg or 1.0) - 1.0)


_SHORT: dict[str, Callable[[Goal, Facts], Floats]] = {
    "leave_m": _leave, "land_between_m": _land, "must_clear": _clear, "ceiling_m": _ceiling,
    "strike": _strike, "match_deg": _match,
}  # fmt: skip


def closeness(goal: Goal, facts: Facts) -> Floats:
    """1 for a stroke that meets every goal, else below NEAR_MISS and falling with the way to go; (n,)."""
    short = np.zeros(len(facts.leave))
    for kind in goals_asked(goal):
        way = np.nan_to_num(_SHORT[kind](goal, facts), nan=NEVER, posinf=NEVER)
        short += np.clip(way, 0.0, NEVER)
    return np.where(goals_met(goal, facts), 1.0, NEAR_MISS * np.exp(-STEEP * short))
