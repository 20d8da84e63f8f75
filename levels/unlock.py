"""Which closed control, opened, would make a scenario solvable: one thrifty search for each of them.

A search proposes as a small proof does, over all that is open and that one control as far as it goes; what
it finds is judged by strokes that it has not seen.
"""

from collections.abc import Generator, Iterator
from dataclasses import dataclass

from levels.effort import SMALL, cost_of
from levels.families import Kinds, is_matched
from levels.odds import pass_chance
from levels.proof import Proof
from levels.proof_words import PASSES
from levels.scenario import Scenario
from levels.search import Trials, evenly, refine, space_of
from physics.address import CONTROLS

__all__ = ["UnlockProgress", "Unlocked", "is_solved", "unlock"]

DRAW, REFINE, CHOOSE, JUDGE = 0, 100, 200, 300  # where each stage's seeds begin


@dataclass(frozen=True)
class Unlocked:
    """A control that was opened, and what the best set-up found with it does; `matched`: its handle is
    meant to come back where it was set."""

    control: str
    pass_chance: float
    matched: bool


@dataclass(frozen=True)
class UnlockProgress:
    """How far it is, and the control being tried; the last part carries what was found, best first."""

    share: float
    control: str = ""
    found: tuple[Unlocked, ...] | None = None


def is_solved(proof: Proof) -> bool:
    """Whether some kind of shot passes the task more often than not."""
    return any(family.solvable for family in proof.families)


def unlock(scenario: Scenario) -> Iterator[UnlockProgress]:
    """Try every closed control in parts; whoever stops asking for parts has cancelled it.

    What is found passes the task more often than not; matched set-ups come first.
    """
    closed = [name for name in CONTROLS if name not in scenario.open_controls]
    found: list[Unlocked] = []
    for i, name in enumerate(closed):
        yield UnlockProgress(i / len(closed), name)
        steps = _tried(scenario, name)
        while True:
            try:
                next(steps)
            except StopIteration as end:
                found.append(end.value)
                break
            yield UnlockProgress(i / len(closed), name)
    enough = [one for one in found if one.pass_chance >= PASSES]
    yield UnlockProgress(1.0, "", tuple(sorted(enough, key=lambda one: (not one.matched, -one.pass_chance))))


def _tried(scenario: Scenario, name: str) -> Generator[int, None, Unlocked]:
    """The best set-up with that control open too; yields the strokes played so far."""
    opened = scenario.model_copy(update={"open_controls": (*scenario.open_controls, name)})
    effort = SMALL.at_cost(cost_of(scenario.course()))
    space = space_of(opened)
    trials = Trials(opened, space)
    own = space.point_of(opened.setup(), opened.motion())
    strewn = [space.at(unit) for unit in evenly(effort.draw, len(space.controls) + 1, DRAW)]
    drawn = yield from trials.many(strewn, [DRAW] * len(strewn), effort.draw_strokes)
    start = [own, *(t.point for t in sorted(drawn, key=lambda t: -t.close)[: effort.start])]
    better = yield from refine(trials, lambda *_: True, space, start, effort.plan(True), REFINE)
    last = [t.point for t in better[: effort.finalists]]
    chosen = yield from trials.many(last, [CHOOSE] * len(last), effort.chosen)
    best = max(chosen, key=lambda t: (t.share, t.close)).point
    judged = trials.met(best, JUDGE, effort.judged)
    matched = is_matched(Kinds(trials.course).intended(*space.shot(best)))
    return Unlocked(name, round(pass_chance(scenario.goal, judged.share), 3), matched)
