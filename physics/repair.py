"""What each component cost: the same strokes again with one component moved to its best value.

Every value is tried with the same strokes, a few at first; half of them, or more where they clearly
lose, fall out before the rest play on (successive halving, Karnin, Koren & Somekh 2013). The gain in
expected strokes is what that part cost.
"""

from collections.abc import Iterator, Sequence
from concurrent.futures import Executor, ThreadPoolExecutor
from dataclasses import dataclass
from math import sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from physics.address import CONTROLS, Intention, Motion, Setup
from physics.cloud import CODE, REST_X, SOLID, WORKERS, play_many, worth
from physics.course import Course
from physics.putting import PUTTERS
from physics.spread import EXACT, Spread, draw_strays

__all__ = ["ROUNDS", "TRIED", "Repair", "Trying", "repairs", "search_repairs"]

Floats = NDArray[np.float64]
TRIED = (
    "lean_change", "ball_position", "shaft_lean", "release", "follow_through", "lead_weight",
    "face_open", "swing_length", "depth",
)  # fmt: skip
CANDIDATES = 7  # values tried over each control's range, besides the present one
ROUNDS = (12, 36, 108, 240)  # strokes each value has played after a round, assumed
KEEP = (20, 9, 4)  # values that go on to the next round at most, assumed
CLEAR = 2.5  # standard errors by which a clear loser loses, assumed
LEAST = 0.3  # strokes of spread between two values at least, however alike a few strokes were; assumed
ENOUGH = 108  # strokes the answer must rest on, assumed
SAME = 0.01  # expected strokes two repairs may differ and count as alike, assumed


@dataclass(frozen=True)
class Repair:
    """One component moved to its best value. SI; `gain` in expected strokes (solid share where there
    is no hole), positive when the repair helps, over so many common `strokes`."""

    control: str
    label: str
    now: float
    best: float
    gain: float
    strokes: int = 0


@dataclass(frozen=True)
class Trying:
    """Where a search stands: the control it tries, the how manyth of how many; later the labels `left` in
    the race; at last what was `found`, best first."""

    label: str
    step: int
    of: int
    left: tuple[str, ...] = ()
    found: tuple[Repair, ...] = ()


class _Entry(NamedTuple):
    """A control at a value; "" for everything as it is."""

    name: str
    value: float


class _Race:
    """What every entry cost so far, stroke by stroke; all entries meet the same strokes."""

    def __init__(self, course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int) -> None:
        self.course, self.intention, self.seed = course, Intention(setup, motion), seed
        self.putter = PUTTERS[spread.putter]
        self.rounds = (1,) if spread == EXACT else ROUNDS
        self.strays = draw_strays(spread, seed, self.rounds[-1])
        self.base = _Entry("", 0.0)
        self.costs: dict[_Entry, Floats] = {self.base: np.zeros(0)}

    def _cost(self, entry: _Entry, start: int, stop: int) -> Floats:
        tried = self.intention.with_value(*entry) if entry.name else self.intention
        strays = self.strays[start:stop]
        out, table = play_many(self.course, tried.setup, tried.motion, strays, self.seed, workers=1)
        if self.course.hole is None:
            return 1.0 - out[:, SOLID]
        rest = out[:, REST_X]
        return worth(self.course, table, rest, rest * strays[:, 6], out[:, CODE], self.putter)[:, 1]

    def play(self, entries: Sequence[_Entry], count: int, pool: Executor) -> None:
        """Bring these entries, and things as they are, to so many strokes."""
        due = [e for e in {self.base, *entries} if len(self.costs.get(e, ())) < count]
        had = [self.costs.get(e, np.zeros(0)) for e in due]
        new = pool.map(lambda e, old: self._cost(e, len(old), count), due, had)
        for entry, old, costs in zip(due, had, new, strict=True):
            self.costs[entry] = np.concatenate([old, costs])

    def gap(self, entry: _Entry, other: _Entry) -> tuple[float, float]:
        """How much more an entry costs than another over the strokes both played, and its error."""
        n = min(len(self.costs[entry]), len(self.costs[other]))
        more = self.costs[entry][:n] - self.costs[other][:n]
        return float(more.mean()), max(float(more.std()), LEAST if n > 1 else 0.0) / sqrt(n)

    def strangeness(self, entry: _Entry) -> tuple[float, float]:
        """How far its control stands from a plain chip, and how near its value is to that; shares of the
        range. Of repairs that gain alike the one most out of place is the one to name."""
        if not entry.name:
            return 0.0, 0.0
        control = CONTROLS[entry.name]
        plain = Intention().value(entry.name)
        wide = control.high - control.low
        return abs(self.intention.value(entry.name) - plain) / wide, -abs(entry.value - plain) / wide


def _values(race: _Race, name: str) -> list[_Entry]:
    """Values over the range of a control; a plain chip's own value too."""
    control = CONTROLS[name]
    plain = Intention().value(name)
    tried = {*np.linspace(control.low, control.high, CANDIDATES).tolist(), plain}
    return [_Entry(name, v) for v in sorted(tried - {race.intention.value(name)})]


def _finer(race: _Race, entries: Sequence[_Entry]) -> list[_Entry]:
    """Half a step to either side of the best value of each control."""
    out = []
    for name in {e.name for e in entries}:
        control, own = CONTROLS[name], [e for e in entries if e.name == name]
        best, step = _best(race, own), 0.5 * (control.high - control.low) / (CANDIDATES - 1)
        out += [_Entry(name, v) for v in (best.value - step, best.value + step)
                if control.low <= v <= control.high and v != race.intention.value(name)]  # fmt: skip
    return out


def _best(race: _Race, entries: Sequence[_Entry]) -> _Entry:
    """The entry that costs least; among those alike, the one whose control is most out of place."""
    least = min(entries, key=lambda e: race.gap(e, race.base)[0])
    alike = [e for e in entries if race.gap(e, least)[0] <= SAME]
    return max(alike, key=race.strangeness)


def _going_on(race: _Race, entries: Sequence[_Entry], most: int) -> list[_Entry]:
    """The entries worth more strokes: no clear losers, `most` at most, the best first."""
    if not entries:
        return []
    best = _best(race, entries)
    gaps = {e: race.gap(e, best) for e in entries}
    left = [e for e, (more, error) in gaps.items() if more <= max(CLEAR * error, SAME)]
    return sorted(left, key=lambda e: gaps[e][0])[:most]


def search_repairs(
    course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int = 0,
    names: tuple[str, ...] = TRIED,
) -> Iterator[Trying]:  # fmt: skip
    """Look for what moving one of the named controls to its best value would gain, and say how far it is.

    The last thing said carries what was `found`. It ends as soon as one control is sure to gain most.
    KeyError for an unknown control.
    """
    race, tried, of = _Race(course, setup, motion, spread, seed), list[_Entry](), len(names)
    with ThreadPoolExecutor(WORKERS) as pool:
        for step, name in enumerate(names, 1):
            yield Trying(CONTROLS[name].label, step, of)
            entries = _values(race, name)
            race.play(entries, race.rounds[0], pool)
            tried += entries
        left = _going_on(race, tried, KEEP[0])
        finer = [e for e in _finer(race, left) if e not in tried]
        race.play(finer, race.rounds[0], pool)
        left, tried = left + finer, tried + finer
        for most, count in zip(KEEP, race.rounds[1:], strict=False):
            left = _going_on(race, left, most)
            labels = tuple(dict.fromkeys(CONTROLS[e.name].label for e in left))
            if len(labels) < 2 and len(race.costs[race.base]) >= ENOUGH:
                break
            yield Trying(next(iter(labels), ""), of, of, labels)
            race.play(left, count, pool)
    yield Trying("", of, of, (), _found(race, names, tried))


def _found(race: _Race, names: tuple[str, ...], tried: list[_Entry]) -> tuple[Repair, ...]:
    """A repair for each control, best first. Those left out early are set against the winner over the
    strokes both played: a few strokes alone would tell a gain badly."""
    if not tried:
        return ()
    furthest = max(len(race.costs[e]) for e in tried)
    winner = _best(race, [e for e in tried if len(race.costs[e]) == furthest])
    most = -race.gap(winner, race.base)[0]
    out = []
    for name in names:
        own = [e for e in tried if e.name == name]
        best = winner if winner.name == name else _best(race, own)
        gain = max(0.0, most - (0.0 if best is winner else max(0.0, race.gap(best, winner)[0])))
        now, strokes = race.intention.value(name), len(race.costs[best])
        value = best.value if gain > 0.0 else now
        out.append(Repair(name, CONTROLS[name].label, now, value, gain, strokes))
    return tuple(sorted(out, key=lambda r: (r.control != winner.name, -r.gain)))


def repairs(
    course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int = 0,
    names: tuple[str, ...] = TRIED,
) -> tuple[Repair, ...]:  # fmt: skip
    """What moving each of the named controls to its best value would gain, best first. KeyError for an
    unknown control.

    >>> from math import radians
    >>> from physics.course import level_course
    >>> from physics.spread import PLAYERS
    >>> dug = Motion(radians(40), depth=0.018)
    >>> course, names = level_course("fairway", 8.0), ("depth", "drop")
    >>> best = repairs(course, Setup(), dug, PLAYERS["exact"], names=names)[0]
    >>> best.control, best.gain > 0.0
    ('depth', True)
    """
    *_, last = search_repairs(course, setup, motion, spread, seed, names)
    return last.found
