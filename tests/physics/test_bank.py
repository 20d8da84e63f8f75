"""Strays of many players: how they are drawn, how dense they are, what they weigh."""

import numpy as np
from scipy import stats

from physics.bank import (
    HABIT_SPEED,
    HABIT_UP,
    effective,
    log_density,
    log_mixture,
    player_row,
    row_spread,
    row_strays,
)  # fmt: skip
from physics.fit import prior_players
from physics.spread import PLAYERS, draw_strays

CLUB = player_row(PLAYERS["club"])


def test_a_row_gives_back_its_spread() -> None:
    for name, spread in PLAYERS.items():
        back = row_spread(player_row(spread), name, spread.label, spread.putter)
        if name != "exact":
            assert np.allclose(player_row(back), player_row(spread), atol=1e-5)


def test_one_player_draws_as_the_cloud_does() -> None:
    assert np.allclose(row_strays(CLUB[None, :], 5, 40), draw_strays(PLAYERS["club"], 5, 40))


def test_habits_move_speed_and_height() -> None:
    row = CLUB.copy()
    row[HABIT_SPEED], row[HABIT_UP] = 0.2, -0.01
    moved = row_strays(row[None, :], 5, 40) - row_strays(CLUB[None, :], 5, 40)
    assert np.allclose(moved[:, 0], 0.2)
    assert np.allclose(moved[:, 2], -0.01)
    assert np.allclose(np.delete(moved, (0, 2), axis=1), 0.0)


def test_density_is_normal_in_every_part() -> None:
    rows = prior_players(5, 3)
    strays = row_strays(rows, 4, 30)
    mean = np.zeros((5, 7))
    mean[:, 0], mean[:, 2] = 1.0 + rows[:, HABIT_SPEED], rows[:, HABIT_UP]
    wanted = stats.norm.logpdf(strays[:, None, :], mean, np.exp(rows[:, :7]))
    assert np.allclose(log_density(strays, rows), wanted.sum(axis=2), atol=2e-3, rtol=1e-4)
    assert np.allclose(
        log_density(strays, rows, aim=False), wanted[:, :, :6].sum(axis=2), atol=2e-3, rtol=1e-4
    )
    mixed = np.log(np.exp(wanted.sum(axis=2)).mean(axis=1))
    assert np.allclose(log_mixture(strays, rows), mixed, atol=2e-3, rtol=1e-4)


def test_effective_counts() -> None:
    assert effective(np.ones(7)) == 7.0
    assert effective(np.array([1.0, 0.0])) == 1.0
    assert effective(np.zeros(3)) == 0.0
