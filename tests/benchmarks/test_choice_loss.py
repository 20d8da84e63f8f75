"""What a fitted player is worth: strokes lost on average over all built-in scenarios by choosing with
somebody else's spread, judged by fresh strokes of the player himself. Long: FRINGEWORK_SEARCH=1, with -s.
"""

from dataclasses import dataclass

import numpy as np
import pytest

from levels.choose import QUICK, ChoiceEffort, chosen
from levels.files import library, load_library
from levels.player_file import KnownPlayer, fitted_file, preset
from levels.situation import scenario_situation
from levels.worthwhile import played_strokes
from physics.bank import player_row
from physics.fit import fit
from physics.measured_balls import PLAIN_GROUND, MeantShot, measured
from physics.spread import PLAYERS
from tests.conftest import SEARCHING

JUDGE_SEED, JUDGED = 900_000, 1000
WRONG = {"steady": "beginner", "club": "steady", "beginner": "steady"}


@dataclass(frozen=True)
class Losses:
    """Mean strokes over the scenarios behind choosing with the right preset, and the standard error."""

    fitted: tuple[float, float]
    wrong: tuple[float, float]


def own_file(name: str, balls: int = 10) -> KnownPlayer:
    """A preset as ten of his own balls show him."""
    made = measured(MeantShot("fairway", "SW", 8.0), PLAIN_GROUND, player_row(PLAYERS[name]), balls, 21)
    return fitted_file(fit(made), name, balls, PLAYERS[name].putter).player()


def losses(name: str, effort: ChoiceEffort = QUICK, scenarios: tuple[str, ...] = library()) -> Losses:
    """The losses of a player who is truly the preset of that name."""
    true, choosers = preset(name), (preset(name), own_file(name), preset(WRONG[name]))
    rows = []
    for scenario in scenarios:
        situation = scenario_situation(load_library(scenario))
        count = JUDGED if "willow" not in scenario else JUDGED // 5
        row = []
        for who in choosers:
            best = chosen(situation, who, effort).options[0]
            made = played_strokes(situation.course, best.setup, best.motion, true, JUDGE_SEED, count, 2)
            row.append(float(made.strokes.mean()))
        rows.append(row)
    lost = np.array(rows)[:, 1:] - np.array(rows)[:, :1]
    mean, error = lost.mean(axis=0), lost.std(axis=0, ddof=1) / np.sqrt(len(lost))
    return Losses((float(mean[0]), float(error[0])), (float(mean[1]), float(error[1])))


@pytest.mark.skipif(not SEARCHING, reason="some minutes; FRINGEWORK_SEARCH=1")
@pytest.mark.parametrize("name", WRONG)
def test_a_fitted_player_chooses_no_worse_than_a_wrong_preset(name: str) -> None:
    found = losses(name)
    print(name, found)
    assert found.fitted[0] <= found.wrong[0] + 2.0 * found.wrong[1]
