"""Known players hit balls, the fit guesses them: ranks of the truth, and errors of expected strokes.

Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv 1804.06788): players
drawn from the prior must lie anywhere within their own posteriors, evenly.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from physics.address import Motion, Setup
from physics.ball_test import Bank, TestGround, TestShot, measured
from physics.bank import Floats, log_density, log_mixture, row_strays
from physics.cloud import CODE, REST_X, play_many, worth
from physics.course import level_course
from physics.fit import BankSize, first_banks, fit, prior_players
from physics.putting import PUTTERS

SHOT, GROUND = TestShot("fairway", "SW", 8.0), TestGround()
SIZE = BankSize()
JUDGES = 320  # players of the bank that expected strokes are read from
TURNS = 20
BINS = 10


@cache
def banks() -> dict[TestShot, Bank]:
    """The first bank, shared by all."""
    return first_banks([SHOT], GROUND, 0, SIZE)


@cache
def judging() -> tuple[Floats, Floats, Floats]:
    """Strays, their log density and strokes to hole out of a plain chip to a hole 8 m away."""
    players = prior_players(JUDGES, 77, 1.1)
    strays = row_strays(players, 78, JUDGES * TURNS)
    course = level_course("fairway", 8.0)
    rows, table = play_many(course, Setup(), Motion(), strays)
    side = rows[:, REST_X] * strays[:, 6]
    values = worth(course, table, rows[:, REST_X], side, rows[:, CODE], PUTTERS["ninety"])
    return strays, log_mixture(strays, players), values[:, 1]


def strokes_of(players: Floats) -> Floats:
    """Expected strokes of players (m, 9) at that chip, without their habits, shape (m,)."""
    strays, log_q, values = judging()
    plain = players.copy()
    plain[:, 7:] = 0.0
    w = np.exp(log_density(strays, plain).astype(np.float64) - log_q[:, None])
    return np.asarray((values @ w) / w.sum(axis=0))


@dataclass(frozen=True)
class Guessed:
    """One known player: share of the posterior below the truth for each number of the row and, last, for
    the expected strokes; expected strokes as they are and as they are guessed; draws' worth."""

    ranks: Floats
    strokes: float
    guessed: float
    draws: float


def guess(row: Floats, count: int, seed: int) -> Guessed:
    """Let a known player hit so many balls and fit them."""
    found = fit(measured(SHOT, GROUND, row, count, seed), GROUND, seed, banks=banks(), size=SIZE)
    likely = found.plausible(200, seed)
    strokes, true = strokes_of(likely), float(strokes_of(row[None, :])[0])
    ranks = np.append(found.rank(row), (strokes < true).mean())
    return Guessed(ranks, true, float(strokes.mean()), found.draws)


def guesses(players: int, count: int, seed: int = 1000) -> list[Guessed]:
    """Players of the prior, one after the other."""
    return [guess(row, count, seed + i) for i, row in enumerate(prior_players(players, seed))]


def covered(ranks: Floats, share: float = 0.8) -> Floats:
    """Share of truths within the middle `share` of their posteriors, shape (10,)."""
    return np.asarray((np.abs(ranks - 0.5) < 0.5 * share).mean(axis=0))


def chi_square(ranks: Floats) -> Floats:
    """Chi-square of each rank histogram against even, BINS - 1 degrees of freedom, shape (10,)."""
    counts = np.array([np.histogram(column, BINS, (0.0, 1.0))[0] for column in ranks.T])
    even = len(ranks) / BINS
    return np.asarray(((counts - even) ** 2 / even).sum(axis=1))
