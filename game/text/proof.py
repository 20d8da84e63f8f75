"""What a proof found out, in sentences that a coach reads once."""

from collections.abc import Sequence

from game.text.quantity import figure_of_control
from levels.parts import FILE_KEYS
from levels.proof import FamilyProof, Proof, Slack
from levels.unlock import Unlocked
from physics.address import CONTROLS
from physics.equipment import BAG

__all__ = [
    "FAMILY_NAMES", "chance_words", "default_words", "family_words", "forgiveness_words", "lead",
    "match_words", "setup_words", "slack_words", "stale_words",
    "unlock_words", "unlocking_words",
]  # fmt: skip

FAMILY_NAMES = {"low": "low runner", "standard": "standard chip", "high": "high soft shot"}


def _odds(share: float) -> tuple[int, int]:
    """How many of how many: of ten; below one in ten and above nine in ten of a hundred."""
    of = 10 if 0.095 <= share <= 0.905 else 100
    return round(of * share), of


def chance_words(share: float) -> str:
    """`7 of 10`, `4 of 100`, `none of 100`."""
    count, of = _odds(share)
    return f"{count or 'none'} of {of}"


def _joined(parts: list[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def lead(proof: Proof) -> str:
    """The first sentence: can it be done, and by what."""
    solved = [f"a {FAMILY_NAMES[f.family]}" for f in proof.families if f.solvable]
    if solved:
        return f"It can be done with {_joined(solved)}."
    best = proof.best
    if best is None:
        return "No set-up that was found meets the goals."
    return f"No set-up passes more often than not; a {FAMILY_NAMES[best.family]} comes nearest."


def family_words(family: FamilyProof) -> str:
    """One kind of shot in a sentence or two."""
    name = FAMILY_NAMES[family.family].capitalize()
    if not family.reachable or family.chance is None:
        return f"{name}: cannot be set up with what is open here."
    if family.chance < 0.005:
        return f"{name}: no stroke of the best one found meets the goals."
    kept = "" if family.matched else " Its handle does not come back where it was set."
    return (
        f"{name}: {chance_words(family.chance)} strokes meet the goals, "
        f"{chance_words(family.pass_chance or 0.0)} goes pass the task.{kept}"
    )


def setup_words(family: FamilyProof) -> str:
    """`lob wedge 60/8, ball position 4.5 cm, face open 8°`; empty without one."""
    if family.best is None:
        return ""
    parts = [BAG[family.best.club].label] if family.best.club else []
    for name, key in FILE_KEYS.items():
        value = getattr(family.best, key)
        if value is not None:
            parts.append(f"{CONTROLS[name].label} {figure_of_control(name, value)}")
    return ", ".join(parts)


def slack_words(slack: Slack) -> str:
    """`swing length 6° less or 9° more`; empty where the limits come first both ways."""
    sides = [
        f"{figure_of_control(slack.control, far, 2)} {way}"
        for far, way in ((slack.less, "less"), (slack.more, "more"))
        if far is not None
    ]
    return f"{CONTROLS[slack.control].label} {' or '.join(sides)}" if sides else ""


def forgiveness_words(proof: Proof) -> tuple[str, ...]:
    """How far the best set-up may be off."""
    if proof.best is None:
        return ()
    near = chance_words(proof.forgiveness)
    out = [f"Of the set-ups near the best, {near} meet the goals at least half the time."]
    told = [words for slack in proof.slack if (words := slack_words(slack))]
    if told:
        out.append(f"The chance halves at {'; '.join(told)}.")
    free = [CONTROLS[s.control].label for s in proof.slack if not slack_words(s)]
    if free:
        out.append(f"{_joined(free).capitalize()} may be anywhere within the limits.")
    return tuple(out)


def default_words(proof: Proof) -> str:
    """What comes of doing nothing, and of doing anything."""
    return (
        f"Untouched, the starting set-up {_meets(proof.default_chance)}; "
        f"one taken at random, {_often(proof.random_chance)}."
    )


def _often(share: float) -> str:
    count, of = _odds(share)
    return f"{count} time{'' if count == 1 else 's'} in {of}" if count else "never"


def _meets(share: float) -> str:
    often = _often(share)
    return f"meets the goals {often}" if _odds(share)[0] else f"{often} meets the goals"


def match_words(proof: Proof) -> str:
    """Whether it pays to bring the handle back where it was set."""
    if proof.unmatched_chance is None:
        return "Whether matching pays cannot be told here: no open control lets the handle come back off."
    if proof.rewards_match == "cannot tell":
        return "Whether matching pays cannot be told here: neither matched nor unmatched set-ups come off."
    far = f"the best unmatched set-up {_meets(proof.unmatched_chance)}"
    if proof.rewards_match == "yes":
        return f"Matching pays: {far}."
    return f"Matching does not pay here: {far}."


def stale_words() -> str:
    """Of a proof that was made of something else."""
    return "This proof is of an earlier version of this scenario: prove it again."


def unlocking_words(control: str) -> str:
    """What is being tried."""
    return f"Trying it with the {CONTROLS[control].label} open." if control else "Done."


def unlock_words(found: Sequence[Unlocked]) -> tuple[str, ...]:
    """Which closed control to open, the best first."""
    if not found:
        return ("No closed control, opened alone, makes it solvable: ease the goal, or open two.",)
    first, *others = found
    kept = "" if first.matched else " Its handle then comes back elsewhere than it was set."
    out = [
        f"Open the {CONTROLS[first.control].label}: the best set-up found passes "
        f"{chance_words(first.pass_chance)} goes.{kept}"
    ]
    if others:
        also = [
            f"{CONTROLS[o.control].label}, {chance_words(o.pass_chance)}{'' if o.matched else ', unmatched'}"
            for o in others
        ]
        out.append(f"Or: {'; '.join(also)}.")
    return tuple(out)
