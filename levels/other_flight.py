"""Balls that fly otherwise than the shot a fit takes them for: their landings would be read as bad strokes.

A fit takes every ball for a standard chip with its club to its mark, on a green of the usual speed. Who
pitches higher, or plays on a slow green, lands farther out; ten tight balls would then look like ten wild
strokes of another shot. Such landings are left out and that is said; stops and felt strikes still count.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import isnan
from statistics import median

import numpy as np

from physics.cloud import CARRY, play_many
from physics.measured_balls import MeantShot, MeasuredBall, PracticeGround, practice_course, shot_reaching

__all__ = ["OtherFlight", "other_flights", "without_landings"]

# Share of the way to the stop by which the middle landing may lie elsewhere: 10 balls of players drawn from
# the prior stay within it 98 times in 100 (fairway and rough, gap and sand wedge), derived
OFF = 0.20
FEWEST_LANDINGS = 3  # solid balls with a landing that a middle is taken of, assumed


@dataclass(frozen=True)
class OtherFlight:
    """A shot whose balls land, on the whole, elsewhere than the standard chip with that club does: both as
    shares of the way to where they stop."""

    shot: MeantShot
    landed: float
    meant: float


def other_flights(balls: Sequence[MeasuredBall], ground: PracticeGround) -> tuple[OtherFlight, ...]:
    """The shots of these balls that flew otherwise. ValueError for a shot nobody could have meant.

    >>> from physics.measured_balls import PLAIN_GROUND
    >>> shot = MeantShot("fairway", "GW", 10.0)
    >>> pitched = [MeasuredBall(shot, 7.0 + 0.1 * i, 10.0 + 0.1 * i, "solid") for i in range(5)]
    >>> [round(one.meant, 2) for one in other_flights(pitched, PLAIN_GROUND)]
    [0.39]
    """
    out = []
    for shot in dict.fromkeys(ball.shot for ball in balls):
        shares = [
            ball.carry / ball.stop
            for ball in balls
            if ball.shot == shot and ball.felt in ("solid", "") and ball.stop > 0.0 and not isnan(ball.carry)
        ]
        if len(shares) < FEWEST_LANDINGS:
            continue
        meant = _meant_share(shot, ground)
        if abs(median(shares) - meant) > OFF:
            out.append(OtherFlight(shot, median(shares), meant))
    return tuple(out)


def without_landings(
    balls: Sequence[MeasuredBall], flights: Sequence[OtherFlight]
) -> tuple[MeasuredBall, ...]:
    """The balls, those of these shots without their landings."""
    shots = {one.shot for one in flights}
    return tuple(replace(ball, carry=float("nan")) if ball.shot in shots else ball for ball in balls)


def _meant_share(shot: MeantShot, ground: PracticeGround) -> float:
    """Where the faultless stroke lands, as a share of the way to the mark."""
    faultless = np.zeros((1, 7))
    faultless[0, 0] = 1.0
    rows, _ = play_many(practice_course(shot, ground), *shot_reaching(shot, ground), faultless)
    return float(rows[0, CARRY]) / shot.target
