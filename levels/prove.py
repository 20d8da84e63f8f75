"""Whether a scenario can be done, by which kinds of shot, how forgiving it is, and what it rewards.

Four stages, each with strokes of its own, so that nothing is judged by the strokes it was chosen by:
set-ups strewn evenly over all that is open; the best of each kind refined; a few finalists chosen; the
winner judged. Same scenario, effort and seed: the same proof to the last digit, on any number of threads.
"""

from collections.abc import Generator, Iterator
from dataclasses import dataclass, field

from levels.effort import FULL, Effort, cost_of
from levels.families import Family, Kinds, is_matched
from levels.forgiveness import chart_of, near_share, reaches, slack_of
from levels.odds import interval, pass_chance
from levels.parts import FILE_KEYS, file_value, si_value
from levels.proof import FamilyProof, Proof
from levels.proof_words import PASSES, rewards_match, warnings_of
from levels.regions import SearchRegion, regions_of, survey
from levels.scenario import Scenario
from levels.search import Candidate, Space, Trials, refine, space_of
from levels.teaching import Reference
from physics.address import CONTROLS
from physics.spread import Spread

__all__ = ["ProofProgress", "proof_is_stale", "prove", "proved"]

BLOCK = 50  # strokes judged with one seed; the next block meets other branches of a tree
SEEDS = 1000  # seeds one proof may use
DRAW, REFINE, CHOOSE, JUDGE, FEEL = 0, 100, 200, 300, 900  # where each stage's seeds begin
FAINT = 0.02  # chance below which there is nothing to be forgiving about, assumed


@dataclass(frozen=True)
class ProofProgress:
    """How far a proof is, in words; the last part carries the proof."""

    share: float
    words: str
    proof: Proof | None = None


def proof_is_stale(scenario: Scenario) -> bool:
    """Whether the scenario carries a proof that was made of something else."""
    return scenario.proof is not None and scenario.proof.digest != scenario.digest


def proved(scenario: Scenario, effort: Effort = FULL, seed: int = 0) -> Proof:
    """The proof, in one go; `prove` tells how far it is.

    >>> from levels.effort import SMALL
    >>> from levels.files import load_library
    >>> first = next(prove(load_library("harrow-fen-after-rain"), SMALL))
    >>> first.proof is None, 0.0 <= first.share < 0.1
    (True, True)
    """
    *_, last = prove(scenario, effort, seed)
    assert last.proof is not None
    return last.proof


def prove(
    scenario: Scenario, effort: Effort = FULL, seed: int = 0, spread: Spread | None = None
) -> Iterator[ProofProgress]:
    """Prove a scenario in parts; whoever stops asking for parts has cancelled it.

    `spread`: another player's than the scenario's own. Such a proof is for looking at, not for its file.
    """
    work = _Work(scenario, effort.at_cost(cost_of(scenario.course())), seed, spread)
    steps = work.whole()
    while True:
        try:
            played = next(steps)
        except StopIteration as end:
            yield ProofProgress(1.0, "Proved.", end.value)
            return
        yield ProofProgress(min(played / work.planned, 0.99), work.words)


@dataclass(frozen=True)
class _Judged:
    """The winner of a region and what fresh strokes said of it."""

    point: Candidate
    good: int
    played: int

    @property
    def chance(self) -> float:
        return self.good / self.played


@dataclass
class _Work:
    """One proof in the making."""

    scenario: Scenario
    effort: Effort
    seed: int
    spread: Spread | None = None
    space: Space = field(init=False)
    trials: Trials = field(init=False)
    kinds: Kinds = field(init=False)
    words: str = ""
    planned: int = field(init=False)  # strokes in all, about
    known: "dict[tuple[Candidate, int], _Judged]" = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.space = space_of(self.scenario)
        self.trials = Trials(self.scenario, self.space, self.spread)
        self.kinds = Kinds(self.trials.course)
        self.plan(sum(bool(r.family or r.far) for r in regions_of(self.space, self.kinds)))

    def at(self, stage: int) -> int:
        return self.seed * SEEDS + stage

    def plan(self, many: int) -> None:
        """About how many strokes it will be with so many regions to search."""
        e = self.effort
        search = sum(e.rounds) * (e.children + e.parents) + e.finalists * e.chosen + e.judged
        feel = 14 * e.slack * len(self.space.controls) + e.near * e.near_strokes + e.side**2 * e.cell
        self.planned = e.draw * e.draw_strokes + many * search + feel + 2 * e.judged

    def whole(self) -> Generator[int, None, Proof]:
        """All stages; yields the strokes played so far."""
        regions = regions_of(self.space, self.kinds)
        self.words = "Looking over all set-ups."
        drawn = yield from survey(self.trials, regions, self.effort, self.at(DRAW))
        self.plan(sum(bool(drawn.best[r.name] and (r.family or r.far)) for r in regions))
        default = yield from self.judged(self.own(), self.effort.judged // 2)
        reference = yield from self.judged(self.told(), self.effort.judged)
        winners: dict[str, _Judged] = {}
        for i, region in enumerate(regions):
            start, wanted = drawn.best[region.name], region.family or region.far or not self.solved(winners)
            if start and wanted:
                self.words = f"Searching {region.words}."
                winners[region.name] = yield from self.searched(region, start, i)
        families = tuple(self.family(r.family, winners.get(r.name)) for r in regions if r.family)
        met = [(r, winners[r.name]) for r in regions if r.name in winners]
        apart = max((w.chance for r, w in met if not r.family), default=None)
        far = max((w.chance for r, w in met if r.far), default=None)
        best = max((w for r, w in met if r.family), key=_chance, default=max(winners.values(), key=_chance))
        found, forgiveness, chart = yield from self.felt(best)
        proof = Proof(
            digest=self.scenario.digest, effort=self.effort.name, seed=self.seed, strokes=self.trials.played,
            default_chance=_round(default.chance if default else 0.0), random_chance=_round(drawn.chance),
            reference_chance=_round(reference.chance) if reference else None,
            rewards_match=rewards_match(families, far),
            unmatched_chance=None if apart is None else _round(apart),
            forgiveness=_round(forgiveness), families=families, slack=slack_of(found), chart=chart,
        )  # fmt: skip
        return proof.model_copy(update={"warnings": warnings_of(self.scenario, proof)})

    def solved(self, winners: dict[str, _Judged]) -> bool:
        """Whether anything found so far passes the task more often than not."""
        return any(pass_chance(self.scenario.goal, w.chance) >= PASSES for w in winners.values())

    def own(self) -> Candidate:
        """The default set-up as a point."""
        return self.space.point_of(self.scenario.setup(), self.scenario.motion())

    def told(self) -> Candidate | None:
        """The reference as a point."""
        shot = self.scenario.reference_shot()
        return self.space.point_of(*shot) if shot else None

    def judged(self, point: Candidate | None, count: int) -> Generator[int, None, _Judged | None]:
        """A set-up judged by strokes that no stage before has seen, in blocks."""
        if point is None:
            return None
        if (point, count) in self.known:
            return self.known[point, count]
        blocks = -(-count // BLOCK)
        seeds = [self.at(JUDGE) + i for i in range(blocks)]
        found = yield from self.trials.many([point] * blocks, seeds, BLOCK)
        good = sum(round(f.share * BLOCK) for f in found)
        self.known[point, count] = _Judged(point, good, blocks * BLOCK)
        return self.known[point, count]

    def searched(self, region: SearchRegion, start: list[Candidate], i: int) -> Generator[int, None, _Judged]:
        """The best set-up of a region: refined, chosen among finalists, judged."""
        told = self.told()
        fits = told and region.holds(*self.space.shot(told)) and region.space.holds(told)
        known = [told] if told and fits else []
        plan, seed = self.effort.plan(region.family is not None), self.at(REFINE) + i
        found = yield from refine(self.trials, region.holds, region.space, [*known, *start], plan, seed)
        points = [self.tidy(f.point) for f in found[: self.effort.finalists]] + known
        points = [p for p in points if region.holds(*self.space.shot(p))] or [found[0].point]
        chosen = yield from self.trials.many(points, [self.at(CHOOSE)] * len(points), self.effort.chosen)
        winner = max(chosen, key=lambda f: (f.share, f.close)).point
        hope = any(f.share for f in (*found, *chosen))
        judged = yield from self.judged(winner, self.effort.judged if hope else BLOCK)
        assert judged is not None
        return judged

    def tidy(self, point: Candidate) -> Candidate:
        """The point with every value as a file keeps it."""
        values = []
        for name, value in zip(self.space.controls, point.values, strict=True):
            control = CONTROLS[name]
            values.append(si_value(control, round(file_value(control, value), 1 if control.unit else 2)))
        return Candidate(point.club, self.space.held(values))

    def family(self, family: Family, winner: _Judged | None) -> FamilyProof:
        """What is known of one kind of shot."""
        if winner is None:
            return FamilyProof(family=family, reachable=False)
        low, high = interval(winner.good, winner.played)
        passed = pass_chance(self.scenario.goal, winner.chance)
        return FamilyProof(
            family=family, reachable=True, solvable=passed >= PASSES,
            matched=is_matched(self.kinds.intended(*self.space.shot(winner.point))),
            chance=_round(winner.chance),
            chance_low=_round(low), chance_high=_round(high), pass_chance=_round(passed),
            best=self.table(family, winner.point),
        )  # fmt: skip

    def table(self, family: Family, point: Candidate) -> Reference:
        """A point as a scenario writes a reference."""
        values = zip(self.space.controls, point.values, strict=True)
        own = {FILE_KEYS[name]: file_value(CONTROLS[name], value) for name, value in values}
        club = {"club": point.club} if self.scenario.clubs else {}
        return Reference.model_validate({"family": family, **club, **own})

    def felt(self, best: _Judged):  # type: ignore[no-untyped-def]
        """Reach of each control, forgiveness and chart round the best set-up."""
        if best.chance < FAINT or not self.space.controls:
            return (), 0.0, None
        self.words = "Feeling how far it may be off."
        e, seed = self.effort, self.at(FEEL)
        found = yield from reaches(self.trials, best.point, seed, e.slack)
        share = yield from near_share(self.trials, best.point, seed + 1, e)
        also = tuple(p for p in (self.told(), self.own()) if p)
        self.words = "Drawing the chart."
        chart = yield from chart_of(self.trials, best.point, found, also, seed + 2, e)
        return found, share, chart


def _chance(judged: _Judged) -> float:
    return judged.chance


def _round(share: float) -> float:
    return round(share, 3)
