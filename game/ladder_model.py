"""The ladder: a row of balls from back to front of one stance, and which trio suits each of them.

The feet stay. Every ball has its own lean, release and follow-through (the trio), and a swing as long
as the player makes it. The first ladder keeps the hands where the middle ball has them, so that a ball
further back stands under more lean.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from math import atan, degrees, isnan, nan, radians, sin

import numpy as np

from physics.address import CONTROLS, Motion, Setup
from physics.cloud import REST_X, Cloud, cloud, play_many
from physics.course import Course
from physics.results import Outcome, Shot
from physics.shot import play
from physics.spread import EXACT, Spread, draw

__all__ = [
    "FRESH", "REACH", "STROKES", "TRIO", "Best", "Ladder", "Played", "Rung", "Seeking", "asked", "closing",
    "compared", "measure", "play_rung", "row", "search", "swing_to_hole", "trio_words",
]  # fmt: skip

REACH = 0.09  # m, the outermost balls from the middle of the stance
TRIO = ("shaft_lean", "release", "follow_through")
STROKES = 60  # of one candidate in a search
MEASURED = 120  # of a trio that is shown
FRESH = 7  # seed of the strokes a found trio is measured on: not those it was chosen by
COARSE = (tuple(radians(v) for v in (-5, 0, 5, 10, 15)), (0.6, 1.0, 1.4, 1.8), (0.0, 0.5, 1.0))
FINE = (radians(2.5), 0.2, 0.25)  # first step of the refinement; the second is half of it
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
    """One ball as it was played: exactly, and as the player's strokes would scatter."""

    rung: Rung
    shot: Shot
    cloud: Cloud


@dataclass(frozen=True)
class Best:
    """The trio found for one ball, what fresh strokes say of it, and its exact shot."""

    rung: Rung
    cloud: Cloud
    shot: Shot


@dataclass(frozen=True)
class Seeking:
    """How far a search is. `best` comes with the last one."""

    done: int
    total: int
    best: Best | None = None


def _held(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def row(course: Course, setup: Setup, motion: Motion, count: int = 7, reach: float = REACH) -> Ladder:
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
    return Played(rung, play(ladder.course, *asked(ladder, rung)), measure(ladder, rung, spread))


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
        rest = float(play_many(bare, setup, motion, draw(EXACT, 0, 1))[0][0, REST_X])
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
    control from the best.

    Every candidate gets the swing that reaches the hole, and is worth the expected strokes to hole out
    of STROKES strokes of the player (without a hole: the share that is not playable). Yields after
    each candidate; the found trio is measured on fresh strokes.
    """
    start = replace(ladder.rungs[at], lean_change=0.0)
    own = tuple(getattr(start, name) for name in TRIO)
    grid = [own, *(trio for trio in product(*coarse) if trio != own)]
    total = len(grid) + ROUNDS * 2 * len(TRIO)
    worth: dict[tuple[float, ...], tuple[float, Rung]] = {}

    def value(trio: tuple[float, ...]) -> None:
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
    rung = min(worth.values(), key=lambda found: found[0])[1]
    shot = play(ladder.course, *asked(ladder, rung))
    yield Seeking(total, total, Best(rung, measure(ladder, rung, spread), shot))


def _cost(ladder: Ladder, many: Cloud) -> float:
    return many.mean_strokes if ladder.course.hole else 1.0 - many.playable_share


def _around(trio: tuple[float, ...], scale: float) -> tuple[tuple[float, ...], ...]:
    """One step either way along each control, held to its limits."""
    out = []
    for k, (name, step) in enumerate(zip(TRIO, FINE, strict=True)):
        limits = CONTROLS[name]
        for way in (-1.0, 1.0):
            moved = _held(trio[k] + way * scale * step, limits.low, limits.high)
            out.append((*trio[:k], moved, *trio[k + 1 :]))
    return tuple(out)


# ---- words


def trio_words(rung: Rung) -> str:
    """`lean 5°, release 1.0, follow-through 0.6, swing 45°`."""
    lean = f"{degrees(rung.shaft_lean):.0f}".replace("-", "\N{MINUS SIGN}")
    lean = "0" if lean == "\N{MINUS SIGN}0" else lean
    return (
        f"lean {lean}\N{DEGREE SIGN}, release {rung.release:.1f}, follow-through {rung.follow_through:.1f}, "
        f"swing {degrees(rung.swing_length):.0f}\N{DEGREE SIGN}"
    )


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"


def _far(metres: float, yards: bool) -> str:
    return f"{metres / 0.9144:.1f} yd" if yards else f"{metres:.1f} m"


def compared(own: Played | None, best: Best | None, *, junior: bool = False) -> tuple[str, ...]:
    """The player's own trio beside the one found, in sentences; empty before either is there."""
    if junior:
        return _compared_junior(own, best)
    out = []
    if own:
        out.append(f"Yours: {trio_words(own.rung)}. {_worth(own.cloud)}")
    if best:
        out.append(f"Found: {trio_words(best.rung)}. {_worth(best.cloud)}")
    return tuple(out)


def _worth(many: Cloud) -> str:
    strokes = many.mean_strokes
    tail = "" if isnan(strokes) else f", {strokes:.1f} strokes to hole out"
    return f"{_percent(many.playable_share)} playable{tail}."


def _compared_junior(own: Played | None, best: Best | None) -> tuple[str, ...]:
    if own is None or best is None:
        return ()
    a, b = own.rung, best.rung
    asks = [
        f"{'more' if change > 0 else 'less'} {word}"
        for change, least, word in (
            (b.shaft_lean - a.shaft_lean, radians(1.0), "lean"),
            (b.release - a.release, 0.1, "release"),
            (b.swing_length - a.swing_length, radians(3.0), "swing"),
        )
        if abs(change) >= least
    ]
    return (f"Try {' and '.join(asks)} here." if asks else "Your way suits this ball.",)


def closing(
    ladder: Ladder, played: dict[int, Played], best: dict[int, Best], *, junior: bool = False,
    yards: bool = False,
) -> tuple[str, ...]:  # fmt: skip
    """What the row shows, in sentences; every number is read from what was played or found."""
    if len(played) < 2:
        return ("Play two balls or more, and the row is told here.",)
    order = sorted(played)
    steady = max(order, key=lambda i: played[i].cloud.playable_share)
    shaky = min(order, key=lambda i: played[i].cloud.playable_share)
    if junior:
        out = [_flight_junior(played, order)]
        if shaky != steady:
            out.append(f"Ball {steady + 1} worked best, ball {shaky + 1} least.")
        return (*out, *_found_junior(best))
    share = [_percent(played[i].cloud.playable_share) for i in (steady, shaky)]
    out = [_flight(played, order, yards)]
    if shaky != steady:
        out.append(
            f"Ball {steady + 1} forgave most, with {share[0]} of the strokes playable; ball {shaky + 1} "
            f"least, with {share[1]}."
        )
    return (*out, *_found(best, played))


def _launch(one: Played) -> float:
    return degrees(one.shot.launch.angle) if one.shot.launch else nan


def _flight(played: dict[int, Played], order: list[int], yards: bool) -> str:
    a, b = order[0], order[-1]
    angles = [_launch(played[i]) for i in (a, b)]
    rests = [played[i].shot.run.rest for i in order if played[i].shot.run.outcome is not Outcome.MISSED]
    ends = f"the balls ended {_far(min(rests), yards)} to {_far(max(rests), yards)} away" if rests else ""
    if any(isnan(v) for v in angles):
        missed = [str(i + 1) for i in order if played[i].shot.launch is None]
        return f"Ball {', '.join(missed)} was never met{'; ' + ends if ends else ''}."
    return (
        f"From ball {a + 1} to ball {b + 1} the start of the flight went from {angles[0]:.0f} to "
        f"{angles[1]:.0f} degrees, and {ends}."
    )


def _flight_junior(played: dict[int, Played], order: list[int]) -> str:
    low, high = _launch(played[order[0]]), _launch(played[order[-1]])
    if isnan(low) or isnan(high):
        return "One ball was missed."
    if abs(high - low) < 1.0:
        return "The balls flew much alike."
    return f"The balls at the {'front' if high > low else 'back'} flew higher."


def _found(best: dict[int, Best], played: dict[int, Played]) -> tuple[str, ...]:
    if not best:
        return ()
    order, out = sorted(best), []
    if len(order) > 1:
        a, b = best[order[0]].rung, best[order[-1]].rung
        out.append(
            f"What suits changes along the row: ball {order[0] + 1} likes {trio_words(a)}; "
            f"ball {order[-1] + 1} likes {trio_words(b)}."
        )
    gains = {
        i: played[i].cloud.mean_strokes - best[i].cloud.mean_strokes
        for i in order
        if i in played and not isnan(best[i].cloud.mean_strokes)
    }
    if gains:
        most = max(gains, key=lambda i: gains[i])
        if gains[most] > NOTED:
            out.append(f"Most is to be won at ball {most + 1}: {gains[most]:.1f} strokes a try.")
        else:
            out.append("Your own trios are about as good as what the search found.")
    return tuple(out)


def _found_junior(best: dict[int, Best]) -> tuple[str, ...]:
    if len(best) < 2:
        return ()
    order = sorted(best)
    change = degrees(best[order[0]].rung.shaft_lean - best[order[-1]].rung.shaft_lean)
    if abs(change) < 1.0:
        return ("Front and back balls like the same lean.",)
    return (f"Balls at the {'back' if change > 0 else 'front'} like more lean.",)
