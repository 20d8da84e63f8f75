"""What balls from another lie would tell of a player that the balls so far have not.

Expected posteriors by the bank: likely players hit five more balls there, drawn from one half of a bank,
and the other half says how far their posteriors would narrow (preposterior analysis; Lindley 1956). Two
halves, or a ball would be recognised by the very stroke that made it.
"""

from collections.abc import Generator, Sequence
from dataclasses import dataclass

import numpy as np

from physics.ball_test import (
    TAPE, TURNS, Ball, BallErrors, Bank, TestGround, TestShot, ball_likelihoods, bank_of, drawn_balls,
)  # fmt: skip
from physics.fit import Posterior

__all__ = ["NextTest", "candidates", "next_test", "next_tests"]

BALLS = 5
LIES = ("mat", "tight", "soft", "fairway")  # where five more balls are hit at little cost
WHO = 80  # likely players whose strokes are played
GUESSED = 40  # of them hit the balls
ASKED = 400  # draws of the posterior that are weighed


@dataclass(frozen=True)
class NextTest:
    """So many balls at one shot: by what share each number's standard deviation would fall further,
    on average, in the order of a player's row, shape (9,); and the same of all together."""

    shot: TestShot
    balls: int
    narrowed: tuple[float, ...]
    together: float


def candidates(balls: Sequence[Ball]) -> list[TestShot]:
    """Shots worth asking about: the first one meant, from each of LIES."""
    first = balls[0].shot
    return [TestShot(lie, first.club, first.target) for lie in LIES]


def next_tests(
    balls: Sequence[Ball], found: Posterior, ground: TestGround, seed: int = 0, errors: BallErrors = TAPE
) -> Generator[NextTest, None, None]:
    """What five more balls from each lie would tell; lies from which the shot cannot be made are left out."""
    for i, shot in enumerate(candidates(balls)):
        try:
            yield next_test(shot, found, ground, seed + i, errors)
        except ValueError:
            continue


def next_test(
    shot: TestShot, found: Posterior, ground: TestGround, seed: int = 0, errors: BallErrors = TAPE
) -> NextTest:
    """What five balls at one shot would tell. ValueError where it cannot be made."""
    hitters = found.plausible(WHO, seed)
    played = bank_of(shot, ground, hitters, seed + 20)
    cut = TURNS // 2 * WHO
    asked = found.plausible(ASKED, seed + 1)
    balls = [
        ball
        for i in range(GUESSED)
        for ball in drawn_balls(shot, _part(played, slice(0, cut)), hitters[i], BALLS, seed + i, errors)
    ]
    each = ball_likelihoods(balls, _part(played, slice(cut, None)), asked, errors)
    told = each.reshape(GUESSED, BALLS, ASKED).sum(axis=1)
    w = np.exp(told - told.max(axis=1, keepdims=True))
    w /= w.sum(axis=1, keepdims=True)
    many = 1.0 / (w * w).sum(axis=1)
    mean = w @ asked
    var = (w @ asked**2 - mean**2) * (many / np.maximum(many - 1.0, 1.0))[:, None]
    ratio = np.sqrt(np.maximum(var, 0.0).mean(axis=0) / asked.var(axis=0))
    return NextTest(shot, BALLS, tuple(float(v) for v in 1.0 - ratio), float(1.0 - ratio.mean()))


def _part(bank: Bank, which: slice) -> Bank:
    names = ("strays", "log_q", "carry", "stop", "felt")
    return Bank(*(getattr(bank, name)[which] for name in names), bank.players)

