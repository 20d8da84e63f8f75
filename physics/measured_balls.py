"""Balls hit outside, as a tape and a felt strike tell of them, and how likely a player makes them.

The likelihood of a ball y = (carry, stop, felt) is the bank's mean over strokes i of
p(stray_i | player) / q(stray_i) * K(y, y_i). K is the error of measuring: normal in carry and stop, the
felt strike named as it was `felt_right` of the time, the other two equally often else. One ball in a
hundred has a story of its own (`odd`), so that a single one can rule nobody out.

Every ball is meant: a standard chip with that club from that lie, with the swing length that would stop a
faultless stroke at the target. What the player does otherwise on average is a habit (`physics.bank`).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import isnan, pi, sqrt

import numpy as np
from numpy.typing import NDArray

from physics.address import CONTROLS, Motion, Setup
from physics.bank import Floats, in_pieces, log_density, log_mixture, row_strays
from physics.cloud import CARRY, KIND, REST_X, play_many
from physics.course import Course, level_course
from physics.equipment import BAG
from physics.quality import FAT, SOLID, SPLASHED, THIN, TOPPED, TWICE
from physics.surfaces import SURFACES

__all__ = [
    "FELT",
    "PLAIN_GROUND",
    "TAPE",
    "TURNS",
    "BallErrors",
    "Bank",
    "MeantShot",
    "MeasuredBall",
    "PracticeGround",
    "ball_likelihoods",
    "bank_of",
    "drawn_balls",
    "joined_banks",
    "log_likelihood",
    "measured",
    "practice_course",
    "shot_reaching",
]  # fmt: skip

FELT = ("solid", "fat", "thin")
_FELT_CODE = {SOLID: 0, SPLASHED: 0, FAT: 1, TWICE: 1, THIN: 2, TOPPED: 2}
UNKNOWN = 3  # felt nothing at all: a ball missed may be called fat or thin
HALVINGS = 40
TURNS = 25  # strokes of each player of a bank
NEAR = 5.0  # standard errors beyond which a stroke says nothing of a ball


@dataclass(frozen=True)
class BallErrors:
    """How well paces, a tape and an eye tell, with the bumps of any green. All assumed.

    A length is off by so many m and by a share of itself together; `felt_right` is the chance that solid,
    fat or thin is named as it was; `odd` the chance that a ball has a story of its own.
    """

    stop: float = 0.15
    carry: float = 0.25
    share: float = 0.05
    felt_right: float = 0.8
    odd: float = 0.01


TAPE = BallErrors()


@dataclass(frozen=True)
class PracticeGround:
    """Level ground the balls are hit on: Stimpmeter reading (m) and firmness of the green."""

    green_speed: float = Course.green_speed
    firmness: float = Course.firmness


PLAIN_GROUND = PracticeGround()


@dataclass(frozen=True)
class MeantShot:
    """What was meant: from which lie, with which club, to stop where (m)."""

    lie: str
    club: str
    target: float


@dataclass(frozen=True)
class MeasuredBall:
    """One ball: where it landed and stopped (m from where it lay; nan where not measured), and how the
    strike felt: a word of FELT, or "" where nobody says."""

    shot: MeantShot
    carry: float
    stop: float
    felt: str = ""


def practice_course(shot: MeantShot, ground: PracticeGround) -> Course:
    """Level ground without a hole: two metres of the lie, one of fringe, then green."""
    course = level_course(shot.lie, shot.target)
    return replace(course, hole=None, green_speed=ground.green_speed, firmness=ground.firmness)


@lru_cache(maxsize=64)
def shot_reaching(shot: MeantShot, ground: PracticeGround = PLAIN_GROUND) -> tuple[Setup, Motion]:
    """The standard chip whose faultless stroke stops at the target. ValueError where none does."""
    course, setup = practice_course(shot, ground), Setup(club=BAG[shot.club])
    plain = Motion(depth=SURFACES[shot.lie].usual_depth)
    none = np.zeros((1, 7))
    none[0, 0] = 1.0

    def stop(length: float) -> float:
        rows, _ = play_many(course, setup, replace(plain, swing_length=length), none)
        return float(rows[0, REST_X])

    low, high = CONTROLS["swing_length"].low, CONTROLS["swing_length"].high
    if not stop(low) < shot.target < stop(high):
        raise ValueError(
            f"no standard chip from {SURFACES[shot.lie].label} with the {setup.club.label} stops "
            f"{shot.target:g} m out; allowed: between {stop(low):.1f} and {stop(high):.1f} m"
        )
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if stop(middle) < shot.target else (low, middle)
    return setup, replace(plain, swing_length=0.5 * (low + high))


# ---- the bank of one shot


@dataclass(frozen=True, eq=False)
class Bank:
    """Strokes of many players at one shot: strays (n, 7), log q (n,), carry and stop (m), felt code (n,),
    and the players (m, 9), each of whom played TURNS of them."""

    strays: Floats
    log_q: Floats
    carry: Floats
    stop: Floats
    felt: NDArray[np.int64]
    players: Floats


def bank_of(shot: MeantShot, ground: PracticeGround, players: Floats, seed: int) -> Bank:
    """Play a bank of TURNS strokes of each player (rows, (m, 9))."""
    strays = row_strays(players, seed, TURNS * len(players))
    rows = _played(shot, ground, strays)
    felt = np.array([_FELT_CODE.get(int(k), UNKNOWN) for k in rows[:, KIND]])
    carry = np.where(np.isnan(rows[:, CARRY]), 0.0, rows[:, CARRY])
    return Bank(strays, log_mixture(strays, players, aim=False), carry, rows[:, REST_X], felt, players)


def joined_banks(one: Bank, other: Bank) -> Bank:
    """The strokes of two banks of one shot, weighed by the mixture of all their players."""
    strays, carry, stop, players = (
        np.concatenate([getattr(bank, name) for bank in (one, other)])
        for name in ("strays", "carry", "stop", "players")
    )
    felt = np.concatenate([one.felt, other.felt])
    return Bank(strays, log_mixture(strays, players, aim=False), carry, stop, felt, players)


def _played(shot: MeantShot, ground: PracticeGround, strays: Floats) -> Floats:
    setup, motion = shot_reaching(shot, ground)
    rows, _ = play_many(practice_course(shot, ground), setup, motion, strays)
    return rows


def measured(
    shot: MeantShot, ground: PracticeGround, row: Floats, count: int, seed: int, errors: BallErrors = TAPE
) -> list[MeasuredBall]:
    """Balls of a known player, measured with errors: what a check knows the truth of."""
    rows = _played(shot, ground, row_strays(row[None, :], seed, count))
    chance = np.random.default_rng((seed, 2))
    return [
        _as_measured(shot, float(carry), float(stop), _FELT_CODE.get(int(kind), UNKNOWN), errors, chance)
        for carry, stop, kind in zip(rows[:, CARRY], rows[:, REST_X], rows[:, KIND], strict=True)
    ]


def drawn_balls(
    shot: MeantShot, bank: Bank, row: Floats, count: int, seed: int, errors: BallErrors = TAPE
) -> list[MeasuredBall]:
    """Balls of a player, drawn from a bank's strokes by their weights and measured with errors."""
    chance = np.random.default_rng((seed, 3))
    log_w = log_density(bank.strays, row[None, :], aim=False)[:, 0] - bank.log_q
    w = np.exp(log_w - log_w.max())
    which = chance.choice(len(w), count, p=w / w.sum())
    return [
        _as_measured(shot, float(bank.carry[i]), float(bank.stop[i]), int(bank.felt[i]), errors, chance)
        for i in which
    ]


def _as_measured(
    shot: MeantShot, carry: float, stop: float, felt: int, errors: BallErrors, chance: np.random.Generator
) -> MeasuredBall:
    made = 0.0 if isnan(carry) else carry
    word = FELT[int(chance.choice(3, p=_felt_shares(errors)[felt]))]
    told = made + _sd(made, errors.carry, errors.share) * chance.standard_normal()
    return MeasuredBall(
        shot, told, stop + _sd(stop, errors.stop, errors.share) * chance.standard_normal(), word
    )


def _felt_shares(errors: BallErrors) -> Floats:
    """Chance of each word of FELT for each code, shape (4, 3)."""
    other = 0.5 * (1.0 - errors.felt_right)
    shares = np.full((4, 3), other)
    shares[np.arange(3), np.arange(3)] = errors.felt_right
    shares[UNKNOWN] = (other, 0.5 * (1.0 - other), 0.5 * (1.0 - other))
    return shares


def _sd(value: float, least: float, share: float) -> float:
    return sqrt(least * least + share * share * value * value)


# ---- likelihood


def log_likelihood(
    balls: Sequence[MeasuredBall], banks: dict[MeantShot, Bank], players: Floats, errors: BallErrors = TAPE
) -> Floats:
    """Logarithm of how likely each player (m, 9) makes all these balls together, shape (m,)."""
    out = np.zeros(len(players))
    for shot, bank in banks.items():
        of_shot = [ball for ball in balls if ball.shot == shot]
        if of_shot:
            out += ball_likelihoods(of_shot, bank, players, errors).sum(axis=0)
    return out


def ball_likelihoods(
    balls: Sequence[MeasuredBall], bank: Bank, players: Floats, errors: BallErrors = TAPE
) -> Floats:
    """Logarithms for each ball of one shot and each player, shape (b, m).

    A mean that rests on k strokes' worth is lowered by 2 / k in its logarithm: where one or two strokes
    decide, chance makes spikes, and a sampler looks for spikes. With the hundred or so of a sound bank it
    does nothing.
    """
    kernel = np.array([_kernel(ball, bank, errors) for ball in balls])
    told = np.flatnonzero(kernel.max(axis=0) > 0.0)
    part = (kernel[:, told] / len(bank.stop)).astype(np.float32)
    mean, square = np.zeros((2, len(balls), len(players)))
    for piece in in_pieces(len(told), len(players)):
        log_w = log_density(bank.strays[told[piece]], players, aim=False)
        log_w -= bank.log_q[told[piece], None].astype(np.float32)
        w = np.exp(np.minimum(log_w, 40.0))
        mean += part[:, piece] @ w
        w *= w
        square += part[:, piece] ** 2 @ w
    few = np.clip(square / np.maximum(mean * mean, 1e-300), 0.0, 1.0)  # 1 / strokes' worth behind the mean
    floor = np.array([[_odd_density(ball)] for ball in balls])
    return np.asarray(np.log((1.0 - errors.odd) * mean * np.exp(-2.0 * few) + errors.odd * floor))


def _kernel(ball: MeasuredBall, bank: Bank, errors: BallErrors) -> Floats:
    """K of one ball against every stroke of the bank, shape (n,)."""
    out = np.ones(len(bank.stop))
    for seen, made, least in ((ball.carry, bank.carry, errors.carry), (ball.stop, bank.stop, errors.stop)):
        if not isnan(seen):
            sd = np.sqrt(least**2 + (errors.share * made) ** 2)
            z = (seen - made) / sd
            out *= np.where(np.abs(z) < NEAR, np.exp(-0.5 * z * z) / (sd * sqrt(2.0 * pi)), 0.0)
    if ball.felt:
        out *= _felt_shares(errors)[bank.felt, FELT.index(ball.felt)]
    return out


def _odd_density(ball: MeasuredBall) -> float:
    """Density of a ball with a story of its own: anywhere up to twice the target, felt anyhow."""
    width = 2.0 * ball.shot.target
    density = 1.0
    for seen in (ball.carry, ball.stop):
        density /= 1.0 if isnan(seen) else width
    return density / (3.0 if ball.felt else 1.0)
