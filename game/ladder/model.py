"""The ladder: a row of balls from back to front of one stance, and which trio suits each of them.

The feet stay. Every ball has its own lean, release and follow-through (the trio), and a swing as long
as the player makes it. The first ladder keeps the hands where the middle ball has them, so that a ball
further back stands under more lean.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import product
from math import atan, isnan, radians, sin

import numpy as np

from game.shot_view.spray import Track, throw
from physics.address import CONTROLS, Motion, Setup
from physics.cloud import REST_X, Cloud, cloud, play_many
from physics.course import Course
from physics.results import Shot
from physics.shot import play
from physics.spread import EXACT, Spread, draw_strays

__all__ = [
    "FRESH",
    "NOTED",
    "REACH",
    "STROKES",
    "TAUGHT",
    "TRIO",
    "Best",
    "Ladder",
    "Played",
    "Rung",
    "Seeking",
    "asked",
    "ladder_of",
    "measure",
    "play_rung",
    "search",
    "swing_to_hole",
]  # fmt: skip

REACH = 0.09  # m, the outermost balls from the middle of the stance
TRIO = ("shaft_lean", "release", "follow_through")
Trio = tuple[float, ...]  # values of TRIO
STROKES = 60  # of one candidate in a search
MEASURED = 120  # of a trio that is shown
FRESH = 7  # seed of the strokes a found trio is measured on: not those it was chosen by
TAUGHT = ((radians(-5), radians(15)), (0.6, 1.4), (0.0, 1.0))  # of TRIO, as chips are taught: common practice
COARSE = (tuple(radians(v) for v in (-5, 0, 5, 10, 15)), (0.6, 0.8, 1.0, 1.2, 1.4), (0.0, 0.5, 1.0))
FINE = (radians(2.5), 0.1, 0.25)  # first step of the refinement; the second is half of it
ROUNDS = 2
NOTED = 0.05  # expected strokes a try that are worth a word: about what MEASURED strokes can tell apart


@dataclass(frozen=True)
class Rung:
    """One ball and how the player means to play it. SI, rad."""

    ball: float  # from the middle of the stance, + toward the target
    shaft_lean: float
    release: float
    follow_through: float
    swing_length: float
    lean_change: float = 0.0


@dataclass(frozen=True)
class Ladder:
    """The ground, what all balls share, and the balls from the back to the front of the stance."""

    course: Course
    setup: Setup
    motion: Motion
    rungs: tuple[Rung, ...]

    @property
    def middle(self) -> int:
        """Place of the standard ball."""
        return len(self.rungs) // 2

    def changed(self, at: int, **values: float) -> "Ladder":
        """The same ladder with one ball played otherwise."""
        rungs = tuple(replace(r, **values) if i == at else r for i, r in enumerate(self.rungs))
        return replace(self, rungs=rungs)

    def levelled(self) -> "Ladder":
        """Every ball played as the middle one."""
        standard = self.rungs[self.middle]
        return replace(self, rungs=tuple(replace(standard, ball=r.ball) for r in self.rungs))

    def hands_kept(self) -> "Ladder":
        """Every ball played as the middle one, but with the hands where the middle ball has them."""
        standard = self.rungs[self.middle]
        club, limits = self.setup.club, CONTROLS["shaft_lean"]
        tall = club.length * sin(club.lie)  # m, height of the grip end at address
        rungs = []
        for r in self.rungs:
            lean = standard.shaft_lean + atan((standard.ball - r.ball) / tall)
            rungs.append(replace(standard, ball=r.ball, shaft_lean=_held(lean, limits.low, limits.high)))
        return replace(self, rungs=tuple(rungs))


@dataclass(frozen=True)
class Played:
    """One ball as it was played: exactly, with the turf it loosened, and as the player's strokes scatter."""

    rung: Rung
    shot: Shot
    cloud: Cloud
    spray: Track


@dataclass(frozen=True)
class Best:
    """The trio found for one ball, what fresh strokes say of it, and its exact shot; how many trios were
    tried, and how many of them do as well within NOTED, this one included."""

    rung: Rung
    cloud: Cloud
    shot: Shot
    tried: int = 1
    alike: int = 1


@dataclass(frozen=True)
class Seeking:
    """How far a search is. `best` comes with the last one."""

    done: int
    total: int
    best: Best | None = None


def _held(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def ladder_of(course: Course, setup: Setup, motion: Motion, count: int = 7, reach: float = REACH) -> Ladder:
    """A ladder of `count` balls (7 or 9) over -reach..reach, hands where the middle ball has them.

    ValueError for another count: the middle ball must be there, and neighbours must differ.
    """
    if count not in (7, 9):
        raise ValueError(f"a ladder has 7 or 9 balls, not {count}")
    standard = Rung(
        0.0, setup.shaft_lean, motion.release, motion.follow_through, motion.swing_length, motion.lean_change
    )
    balls = np.linspace(-reach, reach, count)
    balls[count // 2] = 0.0
    return Ladder(course, setup, motion, tuple(replace(standard, ball=float(b)) for b in balls)).hands_kept()


def asked(ladder: Ladder, rung: Rung) -> tuple[Setup, Motion]:
    """Set-up and stroke of one ball; everything that is not the ball's own is the ladder's."""
    setup = replace(ladder.setup, ball_position=rung.ball, shaft_lean=rung.shaft_lean)
    motion = replace(
        ladder.motion, release=rung.release, follow_through=rung.follow_through,
        swing_length=rung.swing_length, lean_change=rung.lean_change,
    )  # fmt: skip
    return setup, motion


# ---- playing


def measure(ladder: Ladder, rung: Rung, spread: Spread, seed: int = FRESH, count: int = MEASURED) -> Cloud:
    """The player's strokes at one ball. Same seed, same strokes: trios are compared on equal terms."""
    return cloud(ladder.course, *asked(ladder, rung), spread, seed, count)


def play_rung(ladder: Ladder, at: int, spread: Spread) -> Played:
    """Play one ball exactly, and measure it."""
    rung = ladder.rungs[at]
    shot = play(ladder.course, *asked(ladder, rung))
    return Played(rung, shot, measure(ladder, rung, spread), throw(shot))


# ---- searching


def swing_to_hole(ladder: Ladder, rung: Rung) -> Rung:
    """The same trio with the swing that brings the exact ball to the hole's place (regula falsi in the
    swing length, the hole itself taken away so that it neither catches nor stops the ball).

    Unchanged without a hole; held to the limits of the swing where the hole is out of reach.
    """
    hole = ladder.course.hole
    if hole is None:
        return rung
    bare = replace(ladder.course, hole=None)
    limits = CONTROLS["swing_length"]

    def past(length: float) -> float:
        setup, motion = asked(ladder, replace(rung, swing_length=length))
        rest = float(play_many(bare, setup, motion, draw_strays(EXACT, 0, 1))[0][0, REST_X])
        return (0.0 if isnan(rest) else rest) - hole.x

    low, high = limits.low, limits.high
    short, long = past(low), past(high)
    if long <= 0.0 or short >= 0.0:
        return replace(rung, swing_length=high if long <= 0.0 else low)
    length = high
    for _ in range(7):
        length = low + (high - low) * _held(-short / (long - short), 0.1, 0.9)
        miss = past(length)
        if abs(miss) < 0.05:
            break
        low, short, high, long = (length, miss, high, long) if miss < 0.0 else (low, short, length, miss)
    return replace(rung, swing_length=length)


def search(
    ladder: Ladder, at: int, spread: Spread, seed: int = 0, coarse: tuple[tuple[float, ...], ...] = COARSE
) -> Iterator[Seeking]:
    """Look for the trio that suits one ball: the player's own and a coarse grid, then steps along each
    control from the best, all of them (but the player's own) inside TAUGHT.

    Every candidate gets the swing that reaches the hole, and is worth the expected strokes to hole out
    of STROKES strokes of the player (without a hole: the share that is not solid). Of those that do as
    well as can be told apart (NOTED) the one nearest to the player's own is taken: least has to be
    changed for it. Yields after each candidate; the found trio is measured on fresh strokes.
    """
    start = replace(ladder.rungs[at], lean_change=0.0)
    own = tuple(getattr(start, name) for name in TRIO)
    grid = [own, *(trio for trio in product(*coarse) if trio != own)]
    total = len(grid) + ROUNDS * 2 * len(TRIO)
    worth: dict[Trio, tuple[float, Rung]] = {}

    def value(trio: Trio) -> None:
        rung = swing_to_hole(ladder, replace(start, **dict(zip(TRIO, trio, strict=True))))
        many = measure(ladder, rung, spread, seed, STROKES)
        worth[trio] = (_cost(ladder, many), rung)

    for trio in grid:
        value(trio)
        yield Seeking(len(worth), total)
    done = len(worth)
    for step in range(ROUNDS):
        for trio in _around(min(worth, key=lambda t: worth[t][0]), 0.5**step):
            if trio not in worth:
                value(trio)
            done += 1
            yield Seeking(done, total)
    good = _good(worth)
    rung = worth[min(good, key=lambda trio: _steps(trio, own))][1]
    shot = play(ladder.course, *asked(ladder, rung))
    yield Seeking(total, total, Best(rung, measure(ladder, rung, spread), shot, len(worth), len(good)))


def _good(worth: Mapping[Trio, tuple[float, Rung]]) -> tuple[Trio, ...]:
    """The trios that do as well as the best, as far as can be told."""
    least = min(cost for cost, _ in worth.values())
    return tuple(trio for trio, (cost, _) in worth.items() if cost <= least + NOTED)


def _steps(trio: Trio, own: Trio) -> float:
    """How far a trio is from the player's own, in steps of FINE, squared."""
    return sum(((a - b) / step) ** 2 for a, b, step in zip(trio, own, FINE, strict=True))


def _cost(ladder: Ladder, many: Cloud) -> float:
    return many.mean_strokes if ladder.course.hole else 1.0 - many.solid_share


def _around(trio: Trio, scale: float) -> tuple[Trio, ...]:
    """One step either way along each control, held to what is taught."""
    out = []
    for k, (step, (low, high)) in enumerate(zip(FINE, TAUGHT, strict=True)):
        for way in (-1.0, 1.0):
            moved = _held(trio[k] + way * scale * step, low, high)
            out.append((*trio[:k], moved, *trio[k + 1 :]))
    return tuple(out)
