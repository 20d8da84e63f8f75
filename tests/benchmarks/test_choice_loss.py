"""What a fitted player is worth: strokes lost on average over all built-in scenarios by choosing with
somebody else's spread, judged by fresh strokes of the player himself. Long: FRINGEWORK_SEARCH=1, with -s.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import numpy as np
import pytest
from numpy.typing import NDArray

from levels import worthwhile
from levels.choice_effort import QUICK, ChoiceEffort
from levels.choose import chosen
from levels.files import library, load_library
from levels.player_file import KnownPlayer, fitted_file, preset
from levels.situation import scenario_situation
from levels.worthwhile import played_strokes
from physics import measured_balls
from physics.bank import row_strays
from physics.fit import fit
from physics.measured_balls import PLAIN_GROUND, MeantShot, measured
from tests.conftest import SEARCHING

JUDGE_SEED, JUDGED = 900_000, 1000
ALONG = 1  # place of the low point along the line in a stray


@dataclass(frozen=True)
class TruePlayer:
    """Who hits the balls: a preset's spread, his low point `along` (m) from where he means it on average,
    and the preset somebody takes him for."""

    spread: str
    wrong: str
    along: float = 0.0


TRUE = {
    "steady": TruePlayer("steady", "beginner"),
    "club": TruePlayer("club", "steady"),
    "beginner": TruePlayer("beginner", "steady"),
    "behind the ball": TruePlayer("beginner", "steady", -0.030),  # fat: no preset and no fit knows of it
}


@dataclass(frozen=True)
class Losses:
    """Mean strokes over the scenarios behind choosing as the player himself would, and the standard error;
    `gain`: by how much the fitted player loses less than the wrong preset, with its own standard error."""

    fitted: tuple[float, float]
    wrong: tuple[float, float]
    gain: tuple[float, float]


@contextmanager
def strokes_of_his(along: float) -> Iterator[None]:
    """All strokes played meanwhile have their low point so far (m) along the line."""

    def strays(rows: NDArray[np.float64], seed: int, count: int) -> NDArray[np.float64]:
        made = row_strays(rows, seed, count)
        made[:, ALONG] += along
        return made

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(worthwhile, "row_strays", strays)
        patch.setattr(measured_balls, "row_strays", strays)
        yield


def own_file(name: str, balls: int = 10) -> KnownPlayer:
    """A player as ten of his own balls show him."""
    true = preset(TRUE[name].spread)
    with strokes_of_his(TRUE[name].along):
        made = measured(MeantShot("fairway", "SW", 8.0), PLAIN_GROUND, true.rows[0], balls, 21)
    return fitted_file(fit(made), name, balls, true.spread.putter).player()


def losses(name: str, effort: ChoiceEffort = QUICK, scenarios: tuple[str, ...] = library()) -> Losses:
    """The losses of that player."""
    who = TRUE[name]
    true, own, wrong = preset(who.spread), own_file(name), preset(who.wrong)
    rows = []
    for scenario in scenarios:
        situation = scenario_situation(load_library(scenario))
        count = JUDGED if "willow" not in scenario else JUDGED // 5
        row = []
        for chooser, along in ((true, who.along), (own, 0.0), (wrong, 0.0)):
            with strokes_of_his(along):
                best = chosen(situation, chooser, effort).options[0]
            with strokes_of_his(who.along):
                made = played_strokes(situation.course, best.setup, best.motion, true, JUDGE_SEED, count, 2)
            row.append(float(made.strokes.mean()))
        rows.append(row)
    right, fitted, other = np.array(rows).T
    return Losses(_mean(fitted - right), _mean(other - right), _mean(other - fitted))


def _mean(values: NDArray[np.float64]) -> tuple[float, float]:
    return float(values.mean()), float(values.std(ddof=1) / np.sqrt(len(values)))


@pytest.mark.skipif(not SEARCHING, reason="some minutes; FRINGEWORK_SEARCH=1")
@pytest.mark.parametrize("name", TRUE)
def test_a_fitted_player_chooses_no_worse_than_a_wrong_preset(name: str) -> None:
    found = losses(name)
    print(name, found)
    assert found.gain[0] >= -2.0 * found.gain[1]
