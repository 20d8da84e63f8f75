"""The posterior of known players: right where it can be known, the same twice, honest where not."""

from functools import cache

import numpy as np
import pytest

from physics.bank import HABIT_SPEED, PARTS, player_row
from physics.fit import ENOUGH, PRIOR, BankSize, Posterior, first_banks, fit, posterior_of, prior_players
from physics.measured_balls import PLAIN_GROUND, MeantShot, MeasuredBall, measured, shot_reaching
from physics.next_balls import five_more
from physics.spread import PLAYERS
from tests.synthetic_players import covered, guesses

SHOT = MeantShot("fairway", "SW", 8.0)
SMALL = BankSize(80, 80)


@cache
def _found(name: str) -> Posterior:
    return fit(_balls(name), seed=1, size=SMALL)


@cache
def _balls(name: str) -> list[MeasuredBall]:
    return measured(SHOT, PLAIN_GROUND, player_row(PLAYERS[name]), 20, 11)


def test_the_meant_stroke_stops_at_its_mark() -> None:
    setup, motion = shot_reaching(SHOT)
    assert setup.club.name == "SW"
    assert 0.2 < motion.swing_length < 2.0
    with pytest.raises(ValueError, match="allowed: between"):
        shot_reaching(MeantShot("rough", "LW", 40.0))


def test_steadier_players_are_found_steadier() -> None:
    speeds = [_found(name).mean[0] for name in ("steady", "club", "beginner")]
    assert speeds == sorted(speeds)
    for name in ("steady", "club", "beginner"):
        off = _found(name).mean - player_row(PLAYERS[name])
        assert np.abs(off[:7]).max() < 3.0 * np.sqrt(np.diag(PRIOR.cov))[:7].max()


def test_balls_narrow_what_they_see_more_than_the_start_line() -> None:
    narrowed = _found("club").narrowed()
    assert narrowed[PARTS.index("speed")] > narrowed[PARTS.index("aim")] + 0.1
    assert narrowed[7] > 0.5  # the average speed


def test_same_balls_same_answer() -> None:
    again = fit(_balls("club"), seed=1, size=SMALL)
    assert np.array_equal(again.rows, _found("club").rows)
    assert np.array_equal(again.weights, _found("club").weights)


def test_likely_players_have_the_posterior_s_mean() -> None:
    found = _found("club")
    likely = found.plausible(400)
    error = np.sqrt(np.diag(found.cov) / 400)
    assert (np.abs(likely.mean(axis=0) - found.mean) < 4.0 * error).all()
    assert ((found.quantile(0.1) < found.mean) & (found.mean < found.quantile(0.9))).all()


def test_five_more_balls_narrow_and_from_nowhere_they_cannot() -> None:
    more = five_more(MeantShot("mat", "SW", 8.0), _found("club"), PLAIN_GROUND)
    assert len(more.narrowed) == 9
    assert 0.0 < more.together < 0.5
    assert more.narrowed[0] > more.narrowed[PARTS.index("aim")]


def test_a_few_known_players_lie_within_their_ranges() -> None:
    """The long check is tests/benchmarks/test_fit_calibration.py; here three players."""
    made = guesses(3, 10)
    ranks = np.array([g.ranks for g in made])
    assert (covered(ranks, 0.98) >= 0.6).all()
    assert min(g.draws for g in made) > 100.0
    assert np.abs([g.guessed - g.strokes for g in made]).max() < 0.5


def test_prior_lies_round_the_club_player_with_the_presets_inside() -> None:
    players = prior_players(4000, 1)
    for name in ("steady", "club", "beginner"):
        rank = (players < player_row(PLAYERS[name])).mean(axis=0)
        assert ((rank[:7] > 0.05) & (rank[:7] < 0.95)).all()


def test_an_unusual_player_s_many_balls_are_not_told_by_two_or_three_draws() -> None:
    row = player_row(PLAYERS["steady"])
    row[PARTS.index("up")], row[HABIT_SPEED] = np.log(0.4e-3), -0.15  # where a bank of the prior is thin
    balls = measured(SHOT, PLAIN_GROUND, row, 40, 3)
    thin = first_banks([SHOT], PLAIN_GROUND, 1, BankSize(60, 60))
    assert posterior_of(balls, thin, 1).draws > 0.9 * ENOUGH
