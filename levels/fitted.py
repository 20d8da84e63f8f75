"""From a table of balls to a player's file, and what those balls told and did not tell.

Every part of the spread narrows a little because the others do: who is steady in one thing tends to be in
all. The start line leaves no mark in a tape's lengths, so what it narrowed by is that company alone. A part
that narrowed by hardly more was not told by the balls.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from levels.other_flight import OtherFlight, other_flights, without_landings
from levels.player_file import PlayerFile, fitted_file
from physics.bank import PARTS
from physics.fit import PRIOR, Posterior, first_banks, fit
from physics.measured_balls import PLAIN_GROUND, MeasuredBall, PracticeGround, shot_reaching
from physics.next_balls import NextBalls, next_balls

__all__ = ["FitProgress", "FitReport", "fit_balls"]

BEYOND_COMPANY = 0.08  # narrower than the start line by so much counts as told, assumed
BOUND = 0.4  # correlation from which two numbers can be traded for each other, assumed
MOVED = 0.2  # and by which that has to differ from what was known before the balls, assumed
NUMBERS = (*PARTS, "habit_speed", "habit_up")


@dataclass(frozen=True)
class FitReport:
    """A fitted player and how sure that is.

    `narrowed`: by what share each number's standard deviation fell against the prior, by name (PARTS, then
    the two habits). `told` and `little`: parts the balls spoke of, and those they hardly did. `bound`: pairs
    of numbers that can be traded for each other, with their correlation. `draws`: draws' worth behind it.
    """

    player: PlayerFile
    narrowed: dict[str, float]
    told: tuple[str, ...]
    little: tuple[str, ...]
    bound: tuple[tuple[str, str, float], ...]
    draws: float
    more: tuple[NextBalls, ...] = ()
    flights: tuple[OtherFlight, ...] = ()  # shots that flew otherwise; their landings were left out

    def would_tell(self, test: NextBalls) -> dict[str, float]:
        """By what share five more balls would narrow each part further, the start line's company off."""
        company = max(test.narrowed[PARTS.index("aim")], 0.0)
        return {name: max(v - company, 0.0) for name, v in zip(NUMBERS, test.narrowed, strict=True)}


@dataclass(frozen=True)
class FitProgress:
    """How far a fit is; the last part carries the report."""

    share: float
    report: FitReport | None = None


def fit_balls(
    balls: tuple[MeasuredBall, ...], ground: PracticeGround = PLAIN_GROUND, label: str = "own",
    putter: str = "ninety", seed: int = 0,
) -> Iterator[FitProgress]:  # fmt: skip
    """Fit a player in parts; whoever stops asking has cancelled it. ValueError names a shot that nobody
    could have meant (out of the club's reach from that lie)."""
    yield FitProgress(0.0)
    shots = list(dict.fromkeys(ball.shot for ball in balls))
    for shot in shots:
        shot_reaching(shot, ground)
    flights = other_flights(balls, ground)
    balls = without_landings(balls, flights)
    yield FitProgress(0.1)
    banks = first_banks(shots, ground, seed)  # as `fit` would: a part of its own, so that others come between
    yield FitProgress(0.25)
    found = fit(balls, ground, seed, banks=banks)
    report = _report(found, fitted_file(found, label, len(balls), putter, seed))
    report = replace(report, flights=flights)
    yield FitProgress(0.6)
    for test in next_balls(balls, found, ground, seed):
        report = replace(report, more=(*report.more, test))
        yield FitProgress(min(0.6 + 0.1 * len(report.more), 0.99))
    yield FitProgress(1.0, report)


def _report(found: Posterior, player: PlayerFile) -> FitReport:
    narrowed = {name: float(v) for name, v in zip(NUMBERS, found.narrowed(), strict=True)}
    seen = [name for name in PARTS if name != "aim"]
    told = tuple(name for name in seen if narrowed[name] - narrowed["aim"] >= BEYOND_COMPANY)
    corr = found.correlation()
    sd = np.sqrt(np.diag(PRIOR.cov))
    before = PRIOR.cov / np.outer(sd, sd)  # who is steady in one thing is so in others: no news of the balls
    bound = tuple(
        (NUMBERS[i], NUMBERS[j], float(corr[i, j]))
        for i in range(len(NUMBERS))
        for j in range(i + 1, len(NUMBERS))
        if abs(corr[i, j]) >= BOUND and abs(corr[i, j] - before[i, j]) >= MOVED
    )
    little = tuple(name for name in (*seen, "aim") if name not in told)
    return FitReport(player, narrowed, told, little, bound, found.draws)
