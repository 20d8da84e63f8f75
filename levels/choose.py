"""What to play from here: the best few options that a player can tell apart, for this player's own strokes.

An option is a class of club (iron, pitching club, lofted wedge) with a kind of shot (low, standard, high),
at its best set-up. Set-ups are compared by the same strokes, halved in number and asked again with more
(common random numbers, successive halving as in `levels.search`); the winner of each kind is then judged by
strokes it was not searched with. Only matched set-ups that a faultless stroke strikes solid are offered,
unless nothing that may be set is so: a ball bladed from sand on purpose is no way to play.
Same situation, player, effort and seed: the same answer, on any number of threads.
"""

from collections.abc import Generator, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

import numpy as np

from levels.effort import CANOPY_COST, SAND_COST, WALL_COST, cost_of
from levels.families import Family, Kinds, family_of, is_matched
from levels.player_file import KnownPlayer, preset
from levels.reasons import Reason, reasons_of
from levels.search import Candidate
from levels.situation import CLUB_CLASSES, KEPT, ClubClass, Situation, first_setups
from levels.worthwhile import Strokes, Value, difference, played_strokes, worth_of
from physics.address import CONTROLS, Motion, Setup

__all__ = [
    "CAREFUL",
    "QUICK",
    "ChoiceEffort",
    "ChooseProgress",
    "ShotChoice",
    "ShotOption",
    "choose",
    "chosen",
]

MACHINE = preset("exact")
SEEDS = 1000  # seeds one choice may use
LOOK, REFINE, FINAL, JUDGE = 1, 100, 200, 300  # where each stage's seeds begin
SURE = 2.0  # standard errors of a difference beyond which two options differ
WORSE = 0.5  # strokes behind the best at which an option is no longer worth telling, assumed
LITTLE = 0.01  # of disasters by which two options are alike, assumed
SHOWN, LEAST = 4, 3
WORKERS = 2
CHUNK = 16  # set-ups between two signs of life


@dataclass(frozen=True)
class ChoiceEffort:
    """Set-ups and strokes of each stage."""

    lengths: int  # swing lengths of a way to set up
    look: int  # strokes of each set-up in the first look
    start: int  # set-ups of each kind that go on
    rounds: tuple[int, ...]  # strokes of each set-up, round by round
    children: int  # new set-ups near the best, each round
    finalists: int
    final: int  # strokes of a finalist
    judged: int  # fresh strokes of a winner

    def at_cost(self, cost: float) -> "ChoiceEffort":
        """The same for strokes that cost more: fewer of everything, in about the same time."""
        less = {1.0: 1.0, WALL_COST: 0.75, SAND_COST: 0.6, CANOPY_COST: 0.2}[cost]

        def cut(n: int, least: int) -> int:
            return max(round(n * less), least)

        return ChoiceEffort(
            cut(self.lengths, 5), cut(self.look, 4), cut(self.start, 2),
            tuple(cut(n, 8) for n in self.rounds),
            cut(self.children, 2), self.finalists, cut(self.final, 24), cut(self.judged, 120),
        )  # fmt: skip


CAREFUL = ChoiceEffort(
    lengths=11, look=12, start=4, rounds=(24, 40), children=6, finalists=3, final=120, judged=480
)
QUICK = ChoiceEffort(lengths=8, look=8, start=3, rounds=(24,), children=4, finalists=2, final=72, judged=240)


@dataclass(frozen=True)
class ShotOption:
    """One way to play it. `behind`: strokes over the best option and the standard error of that."""

    clubs: ClubClass
    family: Family
    setup: Setup
    motion: Motion
    matched: bool
    value: Value
    made: Strokes = field(repr=False, compare=False)
    behind: tuple[float, float] = (0.0, 0.0)
    reason: Reason | None = None

    @property
    def key(self) -> tuple[ClubClass, Family]:
        """What tells options apart."""
        return self.clubs, self.family

    @property
    def much_the_same(self) -> bool:
        """Whether the strokes played cannot tell it from the best."""
        return self.behind[0] <= SURE * self.behind[1]


@dataclass(frozen=True)
class ShotChoice:
    """The options, best first. `robust` ends badly least often (the least worst fifth decides where two are
    alike); `bold` gets close most often, None where the robust one does that too. `strokes` were played."""

    options: tuple[ShotOption, ...]
    robust: int
    bold: int | None
    strokes: int

    def ranked(self) -> tuple[tuple[ClubClass, Family], ...]:
        """What tells the options apart, best first."""
        return tuple(option.key for option in self.options)


@dataclass(frozen=True)
class ChooseProgress:
    """How far choosing is; the last part carries the choice."""

    share: float
    choice: ShotChoice | None = None


def chosen(
    situation: Situation, player: KnownPlayer, effort: ChoiceEffort = CAREFUL, seed: int = 0
) -> ShotChoice:
    """The choice, in one go; `choose` tells how far it is."""
    *_, last = choose(situation, player, effort, seed)
    assert last.choice is not None
    return last.choice


def choose(
    situation: Situation, player: KnownPlayer, effort: ChoiceEffort = CAREFUL, seed: int = 0
) -> Iterator[ChooseProgress]:
    """Choose in parts; whoever stops asking for parts has cancelled it. ValueError without a hole."""
    work = _Work(situation, player, effort.at_cost(cost_of(situation.course)), seed * SEEDS)
    steps = work.whole()
    while True:
        try:
            share = next(steps)
        except StopIteration as end:
            yield ChooseProgress(1.0, end.value)
            return
        yield ChooseProgress(min(share, 0.99))


Key = tuple[ClubClass, Family]


@dataclass
class _Work:
    """One choice in the making."""

    situation: Situation
    player: KnownPlayer
    effort: ChoiceEffort
    seed: int
    played: int = 0
    kinds: Kinds = field(init=False)

    def __post_init__(self) -> None:
        self.kinds = Kinds(self.situation.course)

    def whole(self) -> Generator[float, None, ShotChoice]:
        """All stages; yields the share done."""
        pool = yield from self.looked_at()
        best = yield from self.first(pool)
        for i, count in enumerate(self.effort.rounds):
            chance = np.random.default_rng((self.seed, i))
            best = {key: [*some, *self.children(key, some, chance, 2.0**-i)] for key, some in best.items()}
            best = yield from self.halved(
                best, count, self.seed + REFINE + i, self.effort.finalists, 0.3 + 0.2 * i
            )
        best = yield from self.halved(best, self.effort.final, self.seed + FINAL, 1, 0.7)
        return (yield from self.judged({key: some[0] for key, some in best.items()}))

    def looked_at(self) -> Generator[float, None, dict[Key, list[Candidate]]]:
        """By kind, the set-ups whose faultless stroke ends best among their swing lengths."""
        good: dict[Key, list[Candidate]] = {}
        matched: dict[Key, list[Candidate]] = {}
        rest: dict[Key, list[Candidate]] = {}
        for n, points in enumerate(first_setups(self.situation, self.effort.lengths)):
            made = [self.faultless(p) for p in points]
            for i in np.argsort([float(m.strokes[0]) for m in made], kind="stable")[:KEPT]:
                key, fits = self.kind(points[i])
                pool = (good if made[i].solid[0] else matched) if fits else rest
                pool.setdefault(key, []).append(points[i])
            yield min(0.002 * n, 0.15)
        return good or matched or rest

    def faultless(self, point: Candidate) -> Strokes:
        """The one stroke with nothing astray."""
        return played_strokes(self.situation.course, *self.situation.space.shot(point), MACHINE, 0, 1)

    def first(self, pool: dict[Key, list[Candidate]]) -> Generator[float, None, dict[Key, list[Candidate]]]:
        """The best of each kind by a few of the player's strokes."""
        return (yield from self.halved(pool, self.effort.look, self.seed + LOOK, self.effort.start, 0.15))

    def halved(
        self, pool: dict[Key, list[Candidate]], count: int, seed: int, keep: int, done: float
    ) -> Generator[float, None, dict[Key, list[Candidate]]]:
        """The best `keep` of each kind by `count` strokes, the same for all."""
        points = list(dict.fromkeys(p for some in pool.values() for p in some))
        found: dict[Candidate, float] = {}
        with ThreadPoolExecutor(WORKERS) as threads:
            for i in range(0, len(points), CHUNK):
                part = points[i : i + CHUNK]
                means = threads.map(lambda p: self.mean(p, self.player, seed, count), part)
                found.update(zip(part, means, strict=True))
                self.played += count * len(part)
                yield done + 0.15 * i / len(points)
        return {key: sorted(some, key=lambda p: found[p])[:keep] for key, some in pool.items()}

    def judged(self, winners: dict[Key, Candidate]) -> Generator[float, None, ShotChoice]:
        """The winners by fresh strokes, and the few of them worth telling."""
        count, seed = self.effort.judged, self.seed + JUDGE
        options = []
        for i, (key, point) in enumerate(winners.items()):
            setup, motion = self.situation.space.shot(point)
            made = played_strokes(self.situation.course, setup, motion, self.player, seed, count, WORKERS)
            self.played += count
            value = worth_of(made, self.player, seed)
            options.append(ShotOption(*key, setup, motion, self.kind(point)[1], value, made))
            yield 0.85 + 0.14 * i / len(winners)
        return _told(options, self.played)

    def mean(self, point: Candidate, player: KnownPlayer, seed: int, count: int) -> float:
        """Mean strokes to hole out with a set-up."""
        shot = self.situation.space.shot(point)
        return float(played_strokes(self.situation.course, *shot, player, seed, count).strokes.mean())

    def kind(self, point: Candidate) -> tuple[Key, bool]:
        """What kind of option a set-up is, and whether it is matched."""
        meant = self.kinds.intended(*self.situation.space.shot(point))
        return (CLUB_CLASSES[point.club], family_of(meant)), is_matched(meant)

    def struck(self, point: Candidate) -> bool:
        """Whether the faultless stroke is solid, or splashed as it should be."""
        return bool(self.faultless(point).solid[0])

    def children(
        self, key: Key, parents: list[Candidate], chance: np.random.Generator, step: float
    ) -> list[Candidate]:
        """Set-ups of the same kind near the parents: another length, depth, face or ball position."""
        space, out = self.situation.space, list[Candidate]()
        widths = {"swing_length": 0.12, "depth": 1.5e-3, "face_open": 0.08, "ball_position": 0.008}
        for i in range(self.effort.children):
            parent = parents[i % len(parents)]
            opens = CLUB_CLASSES[parent.club] == "lofted"
            moved = []
            for name, value in zip(space.controls, parent.values, strict=True):
                width = widths.get(name, 0.0) * (value if name == "swing_length" else 1.0)
                width = 0.0 if name == "face_open" and not opens else width
                floor = CONTROLS[name].low
                moved.append(max(value + step * width * chance.standard_normal(), floor))
            child = Candidate(parent.club, space.held(moved))
            kind, fits = self.kind(child)
            if kind == key and fits >= self.kind(parent)[1] and self.struck(child) >= self.struck(parent):
                out.append(child)
        return out


def _told(options: list[ShotOption], played: int) -> ShotChoice:
    """The best few, how far each is behind, why, and which is robust or bold."""
    order = sorted(options, key=lambda o: o.value.strokes)
    near = [
        o
        for i, o in enumerate(order[:SHOWN])
        if i < LEAST or o.value.strokes - order[0].value.strokes < WORSE
    ]
    reasons = reasons_of([o.value for o in near])
    shown = tuple(
        ShotOption(
            o.clubs, o.family, o.setup, o.motion, o.matched, o.value, o.made,
            difference(o.made, near[0].made) if i else (0.0, 0.0), reason,
        )
        for i, (o, reason) in enumerate(zip(near, reasons, strict=True))
    )  # fmt: skip
    least = min(o.value.disaster for o in shown) + LITTLE
    safe = [i for i, o in enumerate(shown) if o.value.disaster <= least]
    robust = min(safe, key=lambda i: shown[i].value.worst_fifth)
    close = max(range(len(shown)), key=lambda i: shown[i].value.inside)
    return ShotChoice(shown, robust, close if close != robust else None, played)
