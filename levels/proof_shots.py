"""The best set-up of each kind of shot in a proof, played once without spread."""

from levels.proof import FamilyProof, Proof
from levels.scenario import Scenario
from physics.results import Shot
from physics.shot import play

__all__ = ["best_shots"]


def best_shots(scenario: Scenario, proof: Proof) -> tuple[Shot | None, ...]:
    """One shot a kind, in the order of `proof.families`; None where a kind has no set-up that does it."""
    return tuple(_best_shot(scenario, family) for family in proof.families)


def _best_shot(scenario: Scenario, family: FamilyProof) -> Shot | None:
    if family.best is None:
        return None
    stroke = scenario.model_copy(update={"reference": family.best}).reference_shot()
    return play(scenario.course(), *stroke) if stroke else None
