"""What to play from here: the best few options that a player can tell apart, for this player's own strokes.

An option is a class of club (iron, pitching club, lofted wedge) with a kind of shot (low, standard, high),
at its best set-up (`levels.option_search`), judged by strokes it was not searched with. Only matched set-ups
that a faultless stroke strikes solid are offered, unless nothing that may be set is so: a ball bladed from
sand on purpose is no way to play.
Same situation, player, effort and seed: the same answer, on any number of threads.
"""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

from levels.choice_effort import CAREFUL, ChoiceEffort
from levels.effort import cost_of
from levels.families import Family
from levels.option_search import JUDGE, FoundOption, OptionSearch
from levels.player_file import KnownPlayer
from levels.race import LEAST_TOLD, MOST_TOLD, WORSE, Race
from levels.reasons import Reason, reasons_of
from levels.situation import ClubClass, Situation
from levels.worthwhile import Strokes, Value, difference, worth_of
from physics.address import Motion, Setup

__all__ = [
    "ChooseProgress",
    "ShotChoice",
    "ShotOption",
    "choose",
    "chosen",
]

SEEDS = 1000  # seeds one choice may use
SURE = 2.0  # standard errors of a difference beyond which two options differ
LITTLE = 0.01  # of disasters by which two options are alike, assumed
WORKERS = 2
STEP = 0.01  # of the whole between two signs of life


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
        race = Race(situation, player, threads)
        steps = OptionSearch(situation, effort, seed * SEEDS, race).whole()
        while True:
            try:
                share = next(steps)
            except StopIteration as end:
                options = [_valued(found, situation, player, seed * SEEDS) for found in end.value]
                yield ChooseProgress(1.0, _told(options, race.played))
                return
            if share >= told + STEP:
                told = share
                yield ChooseProgress(share)


def _valued(found: FoundOption, situation: Situation, player: KnownPlayer, seed: int) -> ShotOption:
    """What a winner is worth."""
    value = worth_of(found.made, player, seed + JUDGE)
    return ShotOption(*found.key, *situation.space.shot(found.point), found.matched, value, found.made)


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
