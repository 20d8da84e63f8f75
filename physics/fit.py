"""Who hits balls like these: the posterior of a player's spread, from about ten measured balls.

Prior (assumed, wide): the logarithms of the seven standard deviations are jointly normal round the club
player. One part is common, so that who is unsteady in one thing tends to be so in others: the steady and
the beginner preset lie one standard deviation either side. The rest is each part's own. Two habits, the
average speed and height, are normal round nought. The likelihood is that of `physics.measured_balls`.

Sampler: importance sampling from the prior, then from normal distributions fitted to what was found, all
draws weighed by the mixture they came from (adaptive multiple importance sampling; Cornuet, Marin, Mira &
Robert 2012, Scand. J. Stat. 39:798). The first fit is to a tempered posterior, or few draws would decide.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from physics.bank import PARTS, ROW, Floats, effective, player_row
from physics.measured_balls import (
    PLAIN_GROUND,
    TAPE,
    BallErrors,
    Bank,
    MeantShot,
    MeasuredBall,
    PracticeGround,
    bank_of,
    joined_banks,
    log_likelihood,
)
from physics.spread import PLAYERS

__all__ = [
    "PRIOR",
    "BankSize",
    "Normal",
    "Posterior",
    "first_banks",
    "fit",
    "posterior_of",
    "prior_players",
]

OWN = 0.35  # standard deviation of each part's own logarithm, assumed
SPEED_HABIT, UP_HABIT = 0.10, 3e-3  # share of the speed, m; assumed
WIDER = 1.15  # players of a bank over the prior, assumed
FEWEST = 60  # players of one shot's bank, assumed
ENOUGH = 80.0  # draws' worth that a fit of the next proposal needs, assumed
ROUNDS, DRAWS = 4, 1200
SOUND = 400.0  # draws' worth of an answer; below it more strokes are played
TURNS_MOST = 3
AS_MANY, MOST_TIMES = 10, 4  # balls the usual bank is for; how much larger it may get
INFLATE = 1.3  # variance of a proposal over what was found, assumed


@dataclass(frozen=True, eq=False)
class Normal:
    """A normal distribution of rows: mean (k,), covariance (k, k)."""

    mean: Floats
    cov: Floats

    def draw(self, count: int, chance: np.random.Generator) -> Floats:
        """Rows, shape (count, k)."""
        root = np.linalg.cholesky(self.cov)
        return np.asarray(self.mean + chance.standard_normal((count, len(self.mean))) @ root.T)

    def log_pdf(self, rows: Floats) -> Floats:
        """Logarithm of the density, shape (n,)."""
        root = np.linalg.cholesky(self.cov)
        z = np.linalg.solve(root, (rows - self.mean).T)
        constant = len(self.mean) * np.log(2.0 * np.pi) + 2.0 * np.log(np.diag(root)).sum()
        return np.asarray(-0.5 * ((z * z).sum(axis=0) + constant))


def _prior() -> Normal:
    steady, club, beginner = (player_row(PLAYERS[n]) for n in ("steady", "club", "beginner"))
    common = 0.5 * (beginner - steady)
    own = np.array([OWN] * len(PARTS) + [SPEED_HABIT, UP_HABIT])
    return Normal(club, np.outer(common, common) + np.diag(own**2))


PRIOR = _prior()


@dataclass(frozen=True, eq=False)
class Posterior:
    """Players who might have hit the balls: rows (n, 9) and how much each counts (n,), in all 1."""

    rows: Floats
    weights: Floats

    @property
    def draws(self) -> float:
        """How many equal draws these are worth."""
        return effective(self.weights)

    @property
    def mean(self) -> Floats:
        """Mean row, shape (9,)."""
        return np.asarray(self.weights @ self.rows)

    @property
    def cov(self) -> Floats:
        """Covariance of the rows, shape (9, 9)."""
        off = self.rows - self.mean
        return np.asarray((off * self.weights[:, None]).T @ off)

    def quantile(self, share: float) -> Floats:
        """That quantile of every number of the row, shape (9,)."""
        out = np.empty(ROW)
        for k in range(ROW):
            order = np.argsort(self.rows[:, k])
            sums = np.cumsum(self.weights[order]) - 0.5 * self.weights[order]
            out[k] = np.interp(share, sums, self.rows[order, k])
        return out

    def rank(self, row: Floats) -> Floats:
        """Share of the posterior below each number of a row, shape (9,): uniform when all is right."""
        return np.asarray(((self.rows < row) * self.weights[:, None]).sum(axis=0))

    def narrowed(self) -> Floats:
        """By what share each number's standard deviation fell against the prior, shape (9,)."""
        return np.asarray(1.0 - np.sqrt(np.diag(self.cov) / np.diag(PRIOR.cov)))

    def correlation(self) -> Floats:
        """Correlations of the numbers of the row, shape (9, 9)."""
        sd = np.sqrt(np.diag(self.cov))
        return np.asarray(self.cov / np.outer(sd, sd))

    def plausible(self, count: int, seed: int = 0) -> Floats:
        """Players drawn from it, shape (count, 9), evenly spaced through its weights (systematic)."""
        start = np.random.default_rng((seed, 7)).random()
        order = np.random.default_rng((seed, 8)).permutation(len(self.rows))
        sums = np.cumsum(self.weights[order])
        places = (start + np.arange(count)) / count * sums[-1]
        return np.asarray(self.rows[order[np.searchsorted(sums, places)]])


def prior_players(count: int, seed: int, wider: float = 1.0) -> Floats:
    """Players drawn from the prior, shape (count, 9); `wider` stretches it."""
    prior = Normal(PRIOR.mean, PRIOR.cov * wider**2)
    return prior.draw(count, np.random.default_rng((seed, 5)))


@dataclass(frozen=True)
class BankSize:
    """Players of a bank, in all its shots together: strewn over the prior, then from a first answer."""

    strewn: int = 160
    near: int = 240


USUAL = BankSize()


def first_banks(
    shots: Sequence[MeantShot], ground: PracticeGround, seed: int = 0, size: BankSize = USUAL
) -> dict[MeantShot, Bank]:
    """One bank for each shot, of players strewn over the prior, stretched a little so that its edge is
    covered. The players are shared out between the shots."""
    players = prior_players(size.strewn, seed, WIDER)
    return {
        shot: bank_of(shot, ground, players[: max(size.strewn // len(shots), FEWEST)], seed + i)
        for i, shot in enumerate(shots)
    }


def fit(
    balls: Sequence[MeasuredBall], ground: PracticeGround = PLAIN_GROUND, seed: int = 0,
    errors: BallErrors = TAPE, banks: dict[MeantShot, Bank] | None = None, size: BankSize = USUAL,
) -> Posterior:  # fmt: skip
    """The posterior of the player who hit these balls. Same balls, same seed, same answer.

    The steadiest and the wildest players are thinly sown in a bank of the prior, so a first answer says
    whose strokes are wanted, and these are played too. `banks`: first banks that are played already.
    """
    shots = list(dict.fromkeys(ball.shot for ball in balls))
    known = first_banks(shots, ground, seed, size) if banks is None else banks
    # the error of a sum of logarithms grows with the balls in it: more balls want a larger bank
    many = size.near * min(-(-len(balls) // AS_MANY), MOST_TIMES)
    for turn in range(TURNS_MOST):
        first = posterior_of(balls, known, seed + turn, errors)
        near = first.plausible(max(many // len(shots), FEWEST), seed + turn)
        near = np.concatenate([near[: len(near) // 2], _wider(near[len(near) // 2 :])])
        at = seed + 50 + 10 * turn
        known = {s: joined_banks(known[s], bank_of(s, ground, near, at + i)) for i, s in enumerate(shots)}
        found = posterior_of(balls, known, seed + turn + 1, errors)
        if found.draws >= SOUND:
            break
    return found


def _wider(players: Floats) -> Floats:
    """The same players somewhat wider: they keep the weights of the others bounded (defensive mixture)."""
    out = players.copy()
    out[:, : len(PARTS)] += 0.3
    return out


def posterior_of(
    balls: Sequence[MeasuredBall], banks: dict[MeantShot, Bank], seed: int = 0, errors: BallErrors = TAPE
) -> Posterior:
    """The same from banks that are played already, with so much of the likelihood only as leaves ENOUGH
    draws' worth: where two or three draws would decide, a wider answer is the honest one."""
    chance = np.random.default_rng((seed, 6))
    proposals = [PRIOR]
    rows, told, prior = np.empty((0, ROW)), np.empty(0), np.empty(0)
    for _ in range(ROUNDS):
        new = proposals[-1].draw(DRAWS, chance)
        rows = np.concatenate([rows, new])
        told = np.concatenate([told, log_likelihood(balls, banks, new, errors)])
        prior = np.concatenate([prior, PRIOR.log_pdf(new)])
        log_w = told + prior - np.logaddexp.reduce([p.log_pdf(rows) for p in proposals], axis=0)
        proposals.append(_next(rows, _tempered(log_w, told)))
    return Posterior(rows, _tempered(log_w, told))


def _shares(log_w: Floats) -> Floats:
    w: NDArray[np.float64] = np.exp(log_w - log_w.max())
    return np.asarray(w / w.sum())


def _tempered(log_w: Floats, told: Floats) -> Floats:
    """Shares with as much of the likelihood as leaves ENOUGH draws' worth."""
    low, high = 0.0, 1.0
    if effective(_shares(log_w)) >= ENOUGH:
        return _shares(log_w)
    for _ in range(20):
        middle = 0.5 * (low + high)
        enough = effective(_shares(log_w - (1.0 - middle) * told)) >= ENOUGH
        low, high = (middle, high) if enough else (low, middle)
    return _shares(log_w - (1.0 - low) * told)


def _next(rows: Floats, shares: Floats) -> Normal:
    mean = shares @ rows
    off = rows - mean
    cov = (off * shares[:, None]).T @ off
    return Normal(mean, INFLATE * cov + 0.02 * np.diag(np.diag(PRIOR.cov)))
