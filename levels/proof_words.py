"""What a coach should look at in a scenario, in plain sentences; every threshold is named here."""

from functools import cache
from math import degrees

from levels.families import Kinds, apart_from
from levels.files import library, load_library
from levels.proof import FamilyProof, Proof, Reward
from levels.scenario import Scenario
from physics.cause import CLOSE

__all__ = ["PASSES", "before_sharing", "rewards_match", "warnings_of"]

PASSES = 0.5  # chance to pass the task in one go from which it counts as solvable, assumed
NOBODY = 0.1  # below which it counts as out of reach, assumed
LUCKY = 0.25  # chance of the default, or of a set-up taken at random, that is too good, assumed
HOLDS = 0.5  # chance that a reference should have, assumed
REWARD = 0.1  # lead in chance that counts as winning, assumed


def rewards_match(families: tuple[FamilyProof, ...], apart: float | None) -> Reward:
    """Whether matched set-ups win: the best of them against the best that comes back far off."""
    best = max((f.chance for f in families if f.matched and f.chance is not None), default=None)
    if best is None or apart is None or max(best, apart) < REWARD:
        return "cannot tell"
    return "yes" if best >= apart + REWARD else "no"


def warnings_of(scenario: Scenario, proof: Proof) -> tuple[str, ...]:
    """What to look at; () for a sound scenario. One kind of shot that works alone is no fault."""
    return (*_reach(proof), *_luck(proof), *_reference(scenario, proof))


def before_sharing(scenario: Scenario) -> tuple[str, ...]:
    """What to look at before others are given it; () when its proof is of this version and finds no fault.

    Nothing is played: what only strokes can tell is taken from the proof.
    """
    proof = scenario.proof
    if proof is None and scenario.digest in _built_in():
        return ()  # every built-in scenario is proved by the tests, and so is a copy that plays the same
    if proof is None:
        return ("It is not proved: nobody knows yet whether it can be solved.",)
    if proof.digest != scenario.digest:
        return ("Its proof is of an earlier version of it: prove it again.",)
    return tuple(dict.fromkeys((*_reach(proof), *_luck(proof), *proof.warnings)))


@cache
def _built_in() -> frozenset[str]:
    return frozenset(load_library(name).digest for name in library())


def _times(share: float) -> str:
    count = round(100.0 * share)
    return f"{count} time{'' if count == 1 else 's'} in 100"


def _reach(proof: Proof) -> list[str]:
    passing = max((f.pass_chance or 0.0 for f in proof.families), default=0.0)
    apart = proof.unmatched_chance or 0.0
    if passing >= PASSES:
        if not any(f.solvable and f.matched for f in proof.families):
            return ["Only an unmatched set-up passes: the handle has to come back elsewhere."]
        if proof.rewards_match == "no":
            return ["A handle that comes back far off does as well as one that comes back where it was set."]
        return []
    best = max((f.chance or 0.0 for f in proof.families), default=0.0)
    if apart > best + REWARD and apart >= HOLDS:
        return ["Only an unmatched set-up passes: the handle has to come back elsewhere."]
    if passing < NOBODY:
        return [f"Nobody can be expected to pass: the best set-up found passes {_times(passing)}."]
    return [f"It is hard: the best set-up found passes {_times(passing)}."]


def _luck(proof: Proof) -> list[str]:
    out = []
    if proof.random_chance >= LUCKY:
        out.append(f"A set-up taken at random meets the goals {_times(proof.random_chance)}.")
    if proof.default_chance >= LUCKY:
        out.append(f"The default set-up meets the goals {_times(proof.default_chance)} as it is.")
    return out


def _reference(scenario: Scenario, proof: Proof) -> list[str]:
    shot, chance = scenario.reference_shot(), proof.reference_chance
    if scenario.reference is None or shot is None or chance is None:
        return []
    out = []
    if chance < HOLDS:
        out.append(f"The coach's set-up meets the goals only {_times(chance)}.")
    name, meant = scenario.reference.family, Kinds(scenario.course()).intended(*shot)
    if apart_from(name, meant) > 0.0:
        steep = degrees(meant.landing)
        out.append(f"The coach's set-up is called {name}, but on the level it lands at {steep:.0f} degrees.")
    change = degrees(meant.lean_added)
    if abs(change) > CLOSE:
        off = f"{abs(change):.0f} degrees from where it was set"
        out.append(f"The coach's set-up brings the handle back {off}.")
    return out
