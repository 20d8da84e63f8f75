"""How a chapter stands: tries, solved scenarios, predictions that came true, and the one to try next."""

from collections.abc import Iterable
from dataclasses import dataclass

from game.library.progress import CAME_TRUE, Past, Progress

__all__ = ["ChapterSummary", "summary_of"]


@dataclass(frozen=True)
class ChapterSummary:
    """Counts over a chapter's scenarios; each place and each strike called is one prediction.

    `next_key` is "" for an empty chapter; `why` one of "begun",
    "new" and "predict": not yet solved, never tried, or all solved and this one predicted worst."""

    scenarios: int
    solved: int
    tries: int
    predicted: int
    came_true: int
    next_key: str
    why: str


def summary_of(keys: Iterable[str], progress: Progress) -> ChapterSummary:
    """The counts over these scenarios, and which of them is worth the next shot."""
    pasts = {key: progress.of(key) for key in keys}
    gaps = [gap for past in pasts.values() for gap in past.gaps]
    calls = [true for past in pasts.values() for true in past.calls]
    key, why = _next(pasts)
    return ChapterSummary(
        len(pasts), sum(p.done for p in pasts.values()), sum(p.tries for p in pasts.values()),
        len(gaps) + len(calls),
        sum(abs(gap) <= CAME_TRUE for gap in gaps) + sum(calls), key, why,
    )  # fmt: skip


def _next(pasts: dict[str, Past]) -> tuple[str, str]:
    """What was begun and not solved comes first, then what is new, then what is predicted worst."""
    begun = [key for key, past in pasts.items() if past.tries and not past.done]
    new = [key for key, past in pasts.items() if not past.tries]
    if begun:
        return min(begun, key=lambda key: pasts[key].tries), "begun"
    if new:
        return new[0], "new"
    if not pasts:
        return "", ""
    return max(pasts, key=lambda key: _mean_gap(pasts[key])), "predict"


def _mean_gap(past: Past) -> float:
    return sum(map(abs, past.gaps)) / len(past.gaps) if past.gaps else 0.0
