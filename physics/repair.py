"""What to change in a set-up: the part out of place put right, else another part that makes up for it.

First each control that is out of place (`physics.agreement`) is put back to what agrees with the rest, over
strokes that all share (`physics.removal`). Only where none of those gains enough are all named controls
tried over their ranges, a few strokes at first; half of the values, or more where they clearly lose, fall
out before the rest play on (successive halving, Karnin, Koren & Somekh 2013). The gain in expected strokes
is what that part cost. A repair that gains less than is worth a word is no repair.
"""

from collections.abc import Generator, Iterator, Sequence
from concurrent.futures import Executor, ThreadPoolExecutor
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from physics.address import CONTROLS, Intention, Motion, Setup
from physics.agreement import HABITS, LEANERS
from physics.cloud import WORKERS
from physics.course import Course
from physics.removal import WORTH, Removal, clear_gain, gap_error, set_removals, stroke_costs
from physics.spread import EXACT, Spread, draw_strays

__all__ = ["ROUNDS", "TRIED", "Kind", "Repair", "Trying", "repairs", "search_repairs"]

Floats = NDArray[np.float64]
TRIED = (
    "lean_change", "ball_position", "shaft_lean", "release", "follow_through", "lead_weight",
    "face_open", "swing_length", "depth",
)  # fmt: skip
CANDIDATES = 5  # values tried over each control's range, besides the present one and a plain chip's
ROUNDS = (8, 24, 72, 160)  # strokes each value has played after a round, assumed
KEEP = (9, 5, 3)  # values that go on to the next round at most, assumed
CLEAR = 2.5  # standard errors by which a clear loser loses, assumed
ENOUGH = 72  # strokes the answer must rest on, assumed
SAME = 0.01  # expected strokes two repairs may differ and count as alike, assumed


class Kind(StrEnum):
    """What a repair does."""

    MENDS = "mends"  # it puts back the part that was out of place
    MAKES_UP = "makes up"  # it makes up for a part out of place that stays
    IMPROVES = "improves"  # nothing is out of place, and it does better


@dataclass(frozen=True)
class Repair:
    """One control moved to a better value. SI; `gain` in expected strokes (see `physics.removal` for no
    hole) with its standard `error`, over so many common `strokes`. `off` is the control out of place that a
    repair makes up for, `lean_off` the lean (rad) beyond the promise that a mended part brought."""

    control: str
    label: str
    now: float
    best: float
    gain: float
    strokes: int = 0
    error: float = 0.0
    kind: Kind = Kind.MENDS
    off: str = ""
    lean_off: float = 0.0


@dataclass(frozen=True)
class Trying:
    """Where a search stands: the control it tries, the how manyth of how many; later the labels `left` in
    the race; at last, `done`, what was `found`, best first, nothing where nothing is worth a word."""

    label: str
    step: int
    of: int
    left: tuple[str, ...] = ()
    found: tuple[Repair, ...] = ()
    done: bool = False


class _Entry(NamedTuple):
    """A control at a value; "" for everything as it is."""

    name: str
    value: float


class _Race:
    """What every entry cost so far, stroke by stroke; all entries meet the same strokes."""

    def __init__(self, course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int) -> None:
        self.course, self.intention, self.seed = course, Intention(setup, motion), seed
        self.spread = spread
        self.rounds = (1,) if spread == EXACT else ROUNDS
        self.strays = draw_strays(spread, seed, self.rounds[-1])
        self.base = _Entry("", 0.0)
        self.costs: dict[_Entry, Floats] = {self.base: np.zeros(0)}

    def _cost(self, entry: _Entry, start: int, stop: int) -> Floats:
        tried = self.intention.with_value(*entry) if entry.name else self.intention
        return stroke_costs(self.course, tried, self.strays[start:stop], self.spread, self.seed)

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
        return float(more.mean()), gap_error(more)

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
    """Look for which of the named controls to move and where to, and say how far it is.

    The last thing said is `done` and carries what was `found`, best first; nothing where no repair is worth
    a word. It ends as soon as one control is sure to gain most. KeyError for an unknown control.
    """
    for name in names:
        CONTROLS[name]  # before any stroke is played
    yield Trying("", 0, len(names))
    removals = set_removals(course, Intention(setup, motion), spread, seed)
    costly = [r for r in removals if clear_gain(r.gain, r.error)]
    found = tuple(_mending(r) for r in costly if r.component in names)
    if not found:
        off = _left_out_of_place(removals, costly)
        tried = names if off else tuple(n for n in names if n not in (*LEANERS, *HABITS))
        race = _Race(course, setup, motion, spread, seed)
        found = yield from _others(race, tried, off)
    yield Trying("", len(names), len(names), (), found, done=True)


def _mending(r: Removal) -> Repair:
    """The repair that puts back what a removal took out."""
    label = CONTROLS[r.component].label
    return Repair(r.component, label, r.was, r.back, r.gain, r.strokes, r.error, lean_off=r.lean_off)


def _left_out_of_place(removals: Sequence[Removal], costly: Sequence[Removal]) -> str:
    """The control out of place that another has to make up for: one that costs and cannot be moved, else one
    that keeps the lean from coming back; "" when nothing does."""
    leaning = [r for r in removals if r.component in (*LEANERS, *HABITS)]
    return next((r.component for r in (*costly, *leaning)), "")


def _others(race: _Race, names: tuple[str, ...], off: str) -> Generator[Trying, None, tuple[Repair, ...]]:
    """Try the named controls over their ranges, saying how far it is; gives what is worth a word."""
    tried, of = list[_Entry](), len(names)
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
            left = [e for e in _going_on(race, left, most) if not _hopeless(race, e)]
            labels = tuple(dict.fromkeys(CONTROLS[e.name].label for e in left))
            if not left or (len(labels) < 2 and len(race.costs[race.base]) >= ENOUGH):
                break
            yield Trying(next(iter(labels), ""), of, of, labels)
            race.play(left, count, pool)
    return _found(race, left, off)


def _hopeless(race: _Race, entry: _Entry) -> bool:
    """Whether more strokes would hardly make this value worth a word."""
    more, error = race.gap(entry, race.base)
    return -more < WORTH - CLEAR * error


def _found(race: _Race, left: Sequence[_Entry], off: str) -> tuple[Repair, ...]:
    """The repairs worth a word among the values that stayed in the race, best first, one for each control."""
    out = []
    for name in {e.name for e in left}:
        best = _best(race, [e for e in left if e.name == name])
        more, error = race.gap(best, race.base)
        if clear_gain(-more, error):
            label, strokes = CONTROLS[name].label, len(race.costs[best])
            kind = Kind.IMPROVES if not off else Kind.MENDS if name == off else Kind.MAKES_UP
            now = race.intention.value(name)
            out.append(Repair(name, label, now, best.value, -more, strokes, error, kind, off))
    first = _best(race, left).name if left else ""
    return tuple(sorted(out, key=lambda r: (r.control != first, -r.gain)))


def repairs(
    course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int = 0,
    names: tuple[str, ...] = TRIED,
) -> tuple[Repair, ...]:  # fmt: skip
    """Which of the named controls to move and what it would gain, best first; nothing where no repair is
    worth a word. KeyError for an unknown control.

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
