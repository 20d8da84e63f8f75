"""The proof table of a scenario file: what a search found out, a note beside the scenario and no part of it.

Values are rounded so that a person can read them; set-ups were judged at the rounded values. Whoever
changes what is played makes the note stale: it carries a digest of all that matters to it.
"""

import hashlib
import json
from typing import Annotated, Any, Literal, TypeAlias, get_args

from pydantic import Field, Strict, StringConstraints

from levels.families import FAMILIES, Family
from levels.parts import ClubName, ControlName, Part
from levels.rules import Number, count_between, limited_number
from levels.teaching import OneLine, Reference, Span
from physics.address import CONTROLS
from physics.equipment import BAG

__all__ = ["NOT_PLAYED", "Chart", "FamilyProof", "Proof", "Reward", "Slack", "digest_of"]

RULES = 2  # how a proof is judged; another number makes every older proof stale
NOT_PLAYED = frozenset({
    "format", "title", "chapter", "order", "predict", "lesson", "hints", "question", "proof"
})  # fmt: skip
MOST_CELLS, MOST_WARNINGS, FARTHEST = 41, 20, 1000.0
_FLAG: TypeAlias = Annotated[bool, Strict()]
_WHOLE: TypeAlias = Annotated[int, Strict()]
Reward = Literal["yes", "no", "cannot tell"]
_ROW = Annotated[str, StringConstraints(pattern=r"^\d{1,3}( \d{1,3}){1,40}$")]


def _share(what: str, default: Any = ...) -> Any:
    return limited_number(what, 0, 1, "", default)


class FamilyProof(Part):
    """One kind of shot: whether it does the task, by which set-up, how often."""

    family: Family = Field(description=f"kind of shot: {', '.join(FAMILIES)}")
    reachable: _FLAG = Field(description="true if the open controls allow such a set-up, false if not")
    solvable: _FLAG = Field(
        default=False, description="true if the best set-up passes the task more often than not, false if not"
    )
    matched: _FLAG = Field(
        default=False, description="true if its handle is meant to come back where it was set, false if not"
    )
    chance: Number | None = _share("share of strokes that meet every goal", None)
    chance_low: Number | None = _share("least value that share may truly have (95 %)", None)
    chance_high: Number | None = _share("greatest value that share may truly have (95 %)", None)
    pass_chance: Number | None = _share("chance to pass the whole task in one go", None)
    best: Reference | None = Field(default=None, description="table of the best set-up found")


class Slack(Part):
    """How far one control may be off before the chance of the best set-up halves."""

    control: ControlName = Field(description=f"control: {', '.join(CONTROLS)}")
    less: Number | None = limited_number(
        "how far below, left out where the limit comes first", 0, FARTHEST, "", None
    )
    more: Number | None = limited_number(
        "how far above, left out where the limit comes first", 0, FARTHEST, "", None
    )


class Chart(Part):
    """Chance to meet the goals over two controls, everything else as in the best set-up."""

    club: ClubName = Field(description=f"club in hand: {', '.join(BAG)}")
    across: ControlName = Field(description=f"control from left to right: {', '.join(CONTROLS)}")
    across_limits: Span = Field(description="its least and greatest value, in its unit")
    up: ControlName = Field(description=f"control from below upward: {', '.join(CONTROLS)}")
    up_limits: Span = Field(description="its least and greatest value, in its unit")
    percent: Annotated[tuple[_ROW, ...], *count_between(2, MOST_CELLS)] = Field(
        description="whole percents from left to right, the lowest row first, 2 to 41 rows"
    )

    @property
    def cells(self) -> tuple[tuple[float, ...], ...]:
        """Shares, row by row from the least value of `up`."""
        return tuple(tuple(min(int(v), 100) / 100.0 for v in row.split()) for row in self.percent)


class Proof(Part):
    """Everything found out, with the effort and the seed that find it again."""

    digest: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{16}$")] = Field(
        description="16 hexadecimal digits that change with the scenario"
    )
    effort: Literal["small", "full"] = Field(description="how hard it was searched: small, full")
    seed: _WHOLE = Field(ge=0, le=2**32 - 1, description="seed of the search, 0 to 2^32 - 1")
    strokes: _WHOLE = Field(ge=0, le=10**9, description="strokes played for it, 0 to 1e9")
    default_chance: Number = _share("share of strokes of the default set-up that meet the goals")
    random_chance: Number = _share("the same of a set-up taken at random, on average")
    reference_chance: Number | None = _share("the same of the reference", None)
    rewards_match: Reward = Field(
        description=f"whether a matched set-up wins over an unmatched one: {', '.join(get_args(Reward))}"
    )
    unmatched_chance: Number | None = _share("share of good strokes of the best unmatched set-up", None)
    forgiveness: Number = _share("share of set-ups near the best that meet the goals at least half the time")
    warnings: Annotated[tuple[OneLine, ...], *count_between(0, MOST_WARNINGS)] = Field(
        default=(), description=f"what the coach should look at, up to {MOST_WARNINGS} lines"
    )
    families: Annotated[tuple[FamilyProof, ...], *count_between(3, 3)] = Field(
        description="three tables, one a kind of shot"
    )
    slack: Annotated[tuple[Slack, ...], *count_between(0, len(CONTROLS))] = Field(
        default=(), description="tables of how far each open control may be off"
    )
    chart: Chart | None = Field(default=None, description="table of the chance over two controls")

    @property
    def best(self) -> FamilyProof | None:
        """The family that meets the goals most often; None where none does."""
        found = [f for f in self.families if f.chance]
        return max(found, key=lambda f: f.chance or 0.0) if found else None


def digest_of(played: dict[str, Any]) -> str:
    """Digest of a scenario's data without words and proof; the same for the same numbers."""
    kept = {key: value for key, value in played.items() if key not in NOT_PLAYED}
    text = json.dumps([RULES, kept], sort_keys=True, ensure_ascii=True)
    return hashlib.sha256(text.encode()).hexdigest()[:16]
