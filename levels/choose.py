"""What to play from here: the best few options that a player can tell apart, for this player's own strokes.

An option is a class of club (iron, pitching club, lofted wedge) with a kind of shot (low, standard, high),
at its best set-up. Set-ups are compared by the same strokes, and asked again with more the fewer are left
(`levels.race`); the winner of each kind is then judged by strokes it was not searched with. Only matched
set-ups that a faultless stroke strikes solid are offered, unless nothing that may be set is so: a ball bladed
from sand on purpose is no way to play.
Same situation, player, effort and seed: the same answer, on any number of threads.
"""

from collections.abc import Generator, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import NamedTuple, TypeVar

import numpy as np

from levels.effort import CANOPY_COST, SAND_COST, WALL_COST, cost_of
from levels.families import Family, Kinds, family_of, is_matched
from levels.player_file import KnownPlayer
from levels.race import LEAST_TOLD, MOST_TOLD, WORSE, Key, Race
from levels.reasons import Reason, reasons_of
from levels.search import Candidate
from levels.situation import CLUB_CLASSES, KEPT, ClubClass, Situation, first_setups
from levels.worthwhile import Strokes, Value, difference, strokes_of_strays, worth_of
from physics.address import CONTROLS, Motion, Setup
from physics.putting import PUTTERS

__all__ = [
    "CAREFUL",
    "QUICK",
    "ChoiceEffort",
    "ChooseProgress",
    "OptionSearch",
    "ShotChoice",
    "ShotOption",
    "choose",
    "chosen",
    "thrift",
]

T = TypeVar("T")
BESIDE = 0.15  # m beside the hole that a first look's ball passes: more than the hole reaches, assumed
SEEDS = 1000  # seeds one choice may use
LOOK, REFINE, FINAL, JUDGE = 1, 100, 200, 300  # where each stage's seeds begin
SURE = 2.0  # standard errors of a difference beyond which two options differ
LITTLE = 0.01  # of disasters by which two options are alike, assumed
GAINS = 0.3  # strokes a kind may still gain once its first set-ups are looked at, assumed
# How far a new set-up lies from its parent in the first round: a share of the swing length, m, rad; assumed
WIDTHS = {"swing_length": 0.12, "depth": 1.5e-3, "face_open": 0.08, "ball_position": 0.008}
WORKERS = 2
STEP = 0.01  # of the whole between two signs of life


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
        less = thrift(cost)

        def cut(n: int, least: int) -> int:
            return max(round(n * less), least)

        return ChoiceEffort(
            cut(self.lengths, 5), cut(self.look, 4), cut(self.start, 2),
            tuple(cut(n, 8) for n in self.rounds),
            cut(self.children, 2), self.finalists, cut(self.final, 24), cut(self.judged, 120),
        )  # fmt: skip


def thrift(cost: float) -> float:
    """The share of all strokes that is played where one costs so much (`levels.effort.cost_of`)."""
    return {1.0: 1.0, WALL_COST: 0.75, SAND_COST: 0.6, CANOPY_COST: 0.2}[cost]


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
    effort, told = effort.at_cost(cost_of(situation.course)), -STEP
    with ThreadPoolExecutor(WORKERS) as threads:
        steps = OptionSearch(situation, effort, seed * SEEDS, Race(situation, player, threads)).whole()
        while True:
            try:
                share = next(steps)
            except StopIteration as end:
                yield ChooseProgress(1.0, end.value)
                return
            if share >= told + STEP:
                told = share
                yield ChooseProgress(share)


def _within(steps: Generator[float, None, T], start: float, stop: float) -> Generator[float, None, T]:
    """A stage's own progress as a part of the whole."""
    while True:
        try:
            share = next(steps)
        except StopIteration as end:
            found: T = end.value
            return found
        yield start + share * (stop - start)


class SetupKind(NamedTuple):
    """What tells an option apart, whether it is matched, and whether its faultless stroke is solid, or
    splashed as it should be."""

    key: Key
    matched: bool
    solid: bool


@dataclass
class OptionSearch:
    """One choice in the making: its stages from the first look to the strokes that judge."""

    situation: Situation
    effort: ChoiceEffort
    seed: int
    race: Race
    kinds: Kinds = field(init=False)
    seen: dict[Candidate, SetupKind] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.kinds = Kinds(self.situation.course)

    def whole(self) -> Generator[float, None, ShotChoice]:
        """All stages; yields the share done."""
        e, seed = self.effort, self.seed
        best = yield from _within(self.looked_at(), 0.0, 0.25)
        best = yield from _within(self.race.best(best, e.look, seed + LOOK, e.start, GAINS), 0.25, 0.35)
        parts = np.linspace(0.35, 0.65, len(e.rounds) + 1).tolist()
        for i, (count, start, stop) in enumerate(zip(e.rounds, parts, parts[1:], strict=False)):
            chance = np.random.default_rng((seed, i))
            best = self.with_children(best, chance, 2.0**-i)
            found = self.race.best(best, count, seed + REFINE + i, e.finalists, GAINS / 2.0)
            best = yield from _within(found, start, stop)
        best = yield from _within(self.race.best(best, e.final, seed + FINAL, 1, 0.0), 0.65, 0.8)
        best = yield from _within(self.race.best(best, e.judged, seed + JUDGE, 1, 0.0), 0.8, 1.0)
        return _told([self.option(key, point) for key, (point,) in best.items()], self.race.played)

    def looked_at(self) -> Generator[float, None, dict[Key, list[Candidate]]]:
        """By kind, the set-ups whose faultless stroke ends best among their swing lengths."""
        pools: tuple[dict[Key, list[Candidate]], ...] = {}, {}, {}
        ways = list(first_setups(self.situation, self.effort.lengths))
        for n, found in enumerate(self.race.threads.map(self.of_way, ways)):
            for rank, key, point in found:
                pools[rank].setdefault(key, []).append(point)
            yield n / len(ways)
        return next(pool for pool in pools if pool)

    def of_way(self, points: tuple[Candidate, ...]) -> list[tuple[int, Key, Candidate]]:
        """The best swing lengths of one way to set up, each with its kind and how it may be offered: 0 where
        it is matched and solid, 1 matched, 2 neither."""
        made = self.near_hole(points)
        found = []
        for point in sorted(made, key=lambda p: float(made[p].strokes[0]))[:KEPT]:
            about = self.about(point)
            found.append(((0 if about.solid else 1) if about.matched else 2, about.key, point))
        return found

    def near_hole(self, points: tuple[Candidate, ...]) -> dict[Candidate, Strokes]:
        """Faultless strokes of a way's own swing length, and of the others on the way to the pair between
        which the ball comes to the hole: what is short needs a longer swing, what is over a shorter one."""
        hole = self.situation.course.hole
        own, others = points[0], points[1:]
        made, low, high = {own: self.faultless(own)}, 0, len(others)
        while low < high:
            middle = (low + high) // 2
            made[others[middle]] = stroke = self.faultless(others[middle])
            if hole and (stroke.rest[0] < hole.x) == (hole.x > 0.0):
                low = middle + 1
            else:
                high = middle
        return made

    def faultless(self, point: Candidate) -> Strokes:
        """The stroke with nothing astray, its ball passing the hole: in the hole none would be too hard."""
        course, shot = self.situation.course, self.situation.space.shot(point)
        beside = BESIDE / abs(course.hole.x) if course.hole else 0.0
        return strokes_of_strays(
            course, *shot, np.array([[1.0, 0.0, 0.0, 0.0, 0.0, 0.0, beside]]), PUTTERS["tour"]
        )

    def about(self, point: Candidate) -> SetupKind:
        """What kind of option a set-up is; looked at once."""
        if point not in self.seen:
            meant = self.kinds.intended(*self.situation.space.shot(point))
            key = CLUB_CLASSES[point.club], family_of(meant)
            self.seen[point] = SetupKind(key, is_matched(meant), bool(self.faultless(point).solid[0]))
        return self.seen[point]

    def option(self, key: Key, point: Candidate) -> ShotOption:
        """What a winner is worth, by the strokes of the race just run."""
        made = self.race.made[point]
        value = worth_of(made, self.race.player, self.seed + JUDGE)
        return ShotOption(*key, *self.situation.space.shot(point), self.about(point).matched, value, made)

    def with_children(
        self, best: dict[Key, list[Candidate]], chance: np.random.Generator, step: float
    ) -> dict[Key, list[Candidate]]:
        """The set-ups and new ones near them, of the same kind and as good in being matched and solid."""
        some = [(p, self.near(p, chance, step)) for parents in best.values() for p in self.turns(parents)]
        kinds = self.race.threads.map(self.about, [child for _, child in some])
        out = {key: list(parents) for key, parents in best.items()}
        for (parent, child), found in zip(some, kinds, strict=True):
            own = self.about(parent)
            if found.key == own.key and found.matched >= own.matched and found.solid >= own.solid:
                out[own.key].append(child)
        return out

    def turns(self, parents: list[Candidate]) -> list[Candidate]:
        """Parents in turn, one for each child."""
        return [parents[i % len(parents)] for i in range(self.effort.children)]

    def near(self, parent: Candidate, chance: np.random.Generator, step: float) -> Candidate:
        """A set-up near another: with another length, depth, face or ball position."""
        space, moved = self.situation.space, list[float]()
        opens = CLUB_CLASSES[parent.club] == "lofted"
        for name, value in zip(space.controls, parent.values, strict=True):
            width = WIDTHS.get(name, 0.0) * (value if name == "swing_length" else 1.0)
            width = 0.0 if name == "face_open" and not opens else width
            moved.append(max(value + step * width * chance.standard_normal(), CONTROLS[name].low))
        return Candidate(parent.club, space.held(moved))


def _told(options: list[ShotOption], played: int) -> ShotChoice:
    """The best few, how far each is behind, why, and which is robust or bold."""
    order = sorted(options, key=lambda o: o.value.strokes)
    near = [
        o
        for i, o in enumerate(order[:MOST_TOLD])
        if i < LEAST_TOLD or o.value.strokes - order[0].value.strokes < WORSE
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
