"""Why an option is better or worse than the others, as values: the one thing in which it differs most."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from levels.worthwhile import Value

__all__ = ["Reason", "ReasonKind", "reasons_of"]

ReasonKind = Literal["disaster", "inside", "solid", "spread"]
# By how much two options differ noticeably in each: shares, and of the spread of stops a share of itself
WEIGHS: dict[ReasonKind, float] = {"disaster": 0.05, "inside": 0.08, "solid": 0.10, "spread": 0.25}


@dataclass(frozen=True)
class Reason:
    """The kind of thing, its value here and the mean of the other options (shares; m for the spread of
    stops), and whether this option is the better one in it. Alone, `others` is the value itself."""

    kind: ReasonKind
    value: float
    others: float
    better: bool


def reasons_of(values: Sequence[Value]) -> list[Reason]:
    """One reason for each option: what speaks most for the better half, and against the rest."""
    mean = float(np.mean([v.strokes for v in values]))
    return [_reason(v, [o for o in values if o is not v], v.strokes <= mean) for v in values]


def _reason(value: Value, others: Sequence[Value], wanted: bool) -> Reason:
    found = []
    for kind, weighs in WEIGHS.items():
        own, rest = _measure(value, kind), float(np.mean([_measure(o, kind) for o in others] or [_measure(value, kind)]))
        gain = own - rest if kind in ("inside", "solid") else rest - own
        size = gain / (weighs * max(rest, 0.1) if kind == "spread" else weighs)
        found.append((size if wanted else -size, Reason(kind, own, rest, gain >= 0.0)))
    return max(found, key=lambda f: f[0])[1]


def _measure(value: Value, kind: ReasonKind) -> float:
    return {"disaster": value.disaster, "inside": value.inside, "solid": value.solid, "spread": value.depth}[kind]
