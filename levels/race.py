"""Who is still in the running: set-ups against each other by the same strokes, in heats.

All of a heat play the same strays (common random numbers), so two set-ups differ by less than each is
known. What is surely not among the best leaves after the heat (racing; Maron & Moore 1994), and no stroke
is spent on it any more. Whoever stays to the end has played every stroke: leaving early touches no range.
"""

from collections.abc import Generator, Mapping, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, field
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from levels.families import Family
from levels.player_file import KnownPlayer
from levels.search import Candidate
from levels.situation import ClubClass, Situation
from levels.worthwhile import Strokes, played_strokes

__all__ = ["LEAST_TOLD", "MOST_TOLD", "WORSE", "Key", "Race", "heats", "may_be_told", "surely_behind"]

Floats = NDArray[np.float64]
Key = tuple[ClubClass, Family]
Pool = dict[Key, list[Candidate]]
HEATS = (0.25, 0.5, 1.0)  # shares of a race's strokes after which the ones behind leave, assumed
FIRST_HEAT = 12  # strokes below which nobody leaves, assumed
SURELY = 2.5  # standard errors of a difference by which one is behind, assumed
WORSE = 0.5  # strokes behind the best at which an option is no longer worth telling, assumed
MOST_TOLD, LEAST_TOLD = 4, 3  # options told, at most and at least


def heats(count: int) -> list[int]:
    """The strokes after which the ones behind leave, rising to `count`.

    >>> heats(480), heats(12)
    ([120, 240, 480], [12])
    """
    return sorted({min(max(round(share * count), FIRST_HEAT), count) for share in HEATS})


def surely_behind(one: Floats, other: Floats, by: float = 0.0) -> bool:
    """Whether one takes more than `by` strokes over another, as far as the same strays can tell."""
    apart = one - other
    return bool(apart.mean() - SURELY * apart.std(ddof=1) / sqrt(len(apart)) > by)


def may_be_told(best: Mapping[Key, Floats], slack: float = 0.0) -> set[Key]:
    """The kinds that may yet be among the options told, from the strokes of the best of each.

    `slack`: strokes a kind may still gain. The third best is always told, the fourth if it is close.
    """
    order = sorted(best, key=lambda key: float(best[key].mean()))
    first, third, last = best[order[0]], best[order[:LEAST_TOLD][-1]], best[order[:MOST_TOLD][-1]]

    def left(key: Key) -> bool:
        s = best[key]
        far = surely_behind(s, first, WORSE + slack) and surely_behind(s, third, slack)
        return far or surely_behind(s, last, slack)

    return {key for i, key in enumerate(order) if i < LEAST_TOLD or not left(key)}


@dataclass
class Race:
    """Races in one situation for one player, on threads; `played` counts the strokes."""

    situation: Situation
    player: KnownPlayer
    threads: Executor
    played: int = 0
    made: dict[Candidate, Strokes] = field(default_factory=dict)

    def best(
        self, pool: Pool, count: int, seed: int, keep: int, slack: float
    ) -> Generator[float, None, Pool]:
        """The best `keep` of each kind that may be told, by `count` strokes; yields the share done.

        What each of them made stands in `made` until the next race.
        """
        self.made, start = {}, 0
        for stop in heats(count):
            points = list(dict.fromkeys(p for some in pool.values() for p in some))
            jobs = self.threads.map(lambda p, a=start, b=stop: self._more(p, seed, a, b), points)
            for i, (point, more) in enumerate(zip(points, jobs, strict=True)):
                self.made[point] = self.made[point].then(more) if start else more
                yield (start + (stop - start) * i / len(points)) / count
            self.played += (stop - start) * len(points)
            pool, start = self._still_in(pool, keep, slack), stop
        return {key: some[:keep] for key, some in pool.items()}

    def _more(self, point: Candidate, seed: int, start: int, stop: int) -> Strokes:
        shot = self.situation.space.shot(point)
        return played_strokes(self.situation.course, *shot, self.player, seed, stop, start=start)

    def _still_in(self, pool: Pool, keep: int, slack: float) -> Pool:
        """Best first, without what surely is not among the best `keep` or not of a kind that is told."""
        ranked = {key: sorted(some, key=self._mean) for key, some in pool.items()}
        told = may_be_told({key: self.made[some[0]].strokes for key, some in ranked.items()}, slack)
        return {key: self._near(some, keep) for key, some in ranked.items() if key in told}

    def _near(self, ranked: Sequence[Candidate], keep: int) -> list[Candidate]:
        last = self.made[ranked[:keep][-1]].strokes
        return [p for i, p in enumerate(ranked) if i < keep or not surely_behind(self.made[p].strokes, last)]

    def _mean(self, point: Candidate) -> float:
        return float(self.made[point].strokes.mean())
