"""Is the posterior right, and how much do more balls help? Long; run with FRINGEWORK_SEARCH=1.

Simulation-based calibration (Talts et al. 2018): ranks of 200 known players within their posteriors are
even, 80 % ranges hold 75 to 85 % of them (200 players tell a share to within 6 at two standard errors: a
single number is allowed that and two more, their mean is not), and errors of expected strokes fall with the
number of balls.
"""

import numpy as np
import pytest
from scipy import stats

from tests.conftest import SEARCHING
from tests.synthetic_players import BINS, chi_square, covered, guesses

PLAYERS, BALLS = 200, 10
NUMBERS = 10  # seven parts, two habits, expected strokes


@pytest.mark.skipif(not SEARCHING, reason="half an hour; FRINGEWORK_SEARCH=1")
def test_ranks_are_even_and_ranges_hold() -> None:
    ranks = np.array([g.ranks for g in guesses(PLAYERS, BALLS)])
    inside, uneven = covered(ranks), chi_square(ranks)
    print("80 % ranges hold", np.round(inside, 3), "chi-square", np.round(uneven, 1))
    error = 2.0 * np.sqrt(0.8 * 0.2 / PLAYERS)
    assert ((inside > 0.80 - error - 0.02) & (inside < 0.80 + error + 0.02)).all()
    assert 0.75 <= inside.mean() <= 0.85
    assert (uneven < stats.chi2(BINS - 1).ppf(1.0 - 0.01 / NUMBERS)).all()


@pytest.mark.skipif(not SEARCHING, reason="half an hour; FRINGEWORK_SEARCH=1")
def test_more_balls_lessen_the_error_of_expected_strokes() -> None:
    errors = []
    for balls in (5, 10, 20, 40):
        made = guesses(40, balls)
        errors.append(float(np.sqrt(np.mean([(g.guessed - g.strokes) ** 2 for g in made]))))
        print(balls, "balls: error", round(errors[-1], 3), "strokes")
    assert errors[3] < errors[0]
