"""The fit against closed forms, where outcomes are linear in one stray.

Posterior of a normal spread with mean and variance unknown and the usual flat prior: scaled inverse
chi-square (Gelman et al., Bayesian data analysis, 3rd ed. 2013, section 3.2); the numbers by scipy.
"""

from math import log, nan

import numpy as np
from scipy import stats

from physics.bank import HABIT_SPEED, ROW, log_mixture, player_row, row_strays, stray_weights
from physics.measured_balls import BallErrors, Bank, MeantShot, MeasuredBall, ball_likelihoods
from physics.spread import PLAYERS

SHOT = MeantShot("fairway", "SW", 8.0)
METRES = 8.0  # m further for the whole speed more: the linear law
EXACT_TAPE = BallErrors(stop=0.04, share=0.0, odd=0.0)
SD, COUNT = 0.08, 40_000


def _bank() -> Bank:
    """Strokes that stop METRES times their speed out and land nowhere in particular."""
    wide = player_row(PLAYERS["club"])
    wide[0] = log(0.16)
    players = np.array([player_row(PLAYERS["club"]), wide])
    strays = row_strays(players, 1, COUNT)
    log_q = log_mixture(strays, players, aim=False)
    none = np.zeros(COUNT)
    return Bank(strays, log_q, none, METRES * strays[:, 0], none.astype(np.int64), players)


def _players(sd: np.ndarray, habit: np.ndarray) -> np.ndarray:
    rows = np.tile(player_row(PLAYERS["club"]), (len(sd), 1))
    rows[:, 0], rows[:, HABIT_SPEED] = np.log(sd), habit
    assert rows.shape[1] == ROW
    return rows


STOPS = METRES * (1.0 + stats.norm(0.02, SD).rvs(10, random_state=4))
BALLS = [MeasuredBall(SHOT, nan, float(stop)) for stop in STOPS]


def test_likelihood_of_a_linear_outcome_is_normal() -> None:
    """Derived: a linear outcome of a normal stray is normal, the errors of the tape added in squares."""
    sd, habit = np.array([0.05, 0.08, 0.11]), np.array([0.0, 0.03, -0.02])
    found = ball_likelihoods(BALLS, _bank(), _players(sd, habit), EXACT_TAPE)
    spread = np.hypot(METRES * sd, EXACT_TAPE.stop)
    wanted = stats.norm.logpdf(STOPS[:, None], METRES * (1.0 + habit), spread)
    assert np.abs(found - wanted).max() < 0.25
    assert np.abs((found - wanted).sum(axis=0)).max() < 0.8


def test_posterior_of_the_spread_is_scaled_inverse_chi_square() -> None:
    """Gelman et al. 2013, section 3.2."""
    sd, habit = (g.ravel() for g in np.meshgrid(np.geomspace(0.04, 0.2, 60), np.linspace(-0.12, 0.16, 57)))
    told = ball_likelihoods(BALLS, _bank(), _players(sd, habit), EXACT_TAPE).sum(axis=0)
    w = np.exp(told - told.max())  # flat in log sd and in the mean: the grid is even in both
    w /= w.sum()
    n, var = len(STOPS), float(np.var(STOPS / METRES, ddof=1))
    exact = stats.invgamma((n - 1) / 2, scale=(n - 1) * var / 2)
    order = np.argsort(sd, kind="stable")
    below = np.cumsum(w[order])
    for share in (0.1, 0.5, 0.9):
        found = float(sd[order][np.searchsorted(below, share)])
        assert found == np.clip(found, 0.94 * exact.ppf(share) ** 0.5, 1.06 * exact.ppf(share) ** 0.5)


def test_weights_give_the_mean_of_another_player() -> None:
    """Derived: the mean square of a normal stray held at three standard deviations."""
    drawn = np.array([player_row(PLAYERS[n]) for n in ("steady", "club", "beginner")])
    strays = row_strays(drawn, 2, 6000)
    weights = stray_weights(strays, drawn, drawn)
    squares = ((strays[:, 0] - 1.0) ** 2) @ weights
    held = stats.norm.expect(lambda z: np.clip(z, -3.0, 3.0) ** 2)
    assert np.abs(np.sqrt(squares / held) / np.exp(drawn[:, 0]) - 1.0).max() < 0.06
