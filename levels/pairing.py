"""Which entry of an old list became which of a new one, so that what was written beside it stays there."""

from difflib import SequenceMatcher
from typing import Any

__all__ = ["partners_of"]

MOST = 10_000  # pairs looked at one by one in a stretch, assumed: longer stretches are paired in order
MOST_COMPARED = 4_000_000  # pairs of entries of whole lists, assumed: far more than any scenario has


def partners_of(old: list[Any], new: list[Any]) -> list[int | None]:
    """For every new entry the place of the old one it is or came from, None for one that came in.

    Entries that did not change are found first, also where they changed places; those between them are
    paired by what they have in common.
    """
    a, b = [repr(one) for one in old], [repr(one) for one in new]
    if len(a) * len(b) > MOST_COMPARED:
        return [j if j < len(a) else None for j in range(len(b))]
    found: list[int | None] = [None] * len(new)
    for i, j, n in SequenceMatcher(None, a, b, autojunk=False).get_matching_blocks():
        found[j : j + n] = range(i, i + n)
    taken, places = set(found), dict[str, list[int]]()
    for i, text in enumerate(a):
        if i not in taken:
            places.setdefault(text, []).append(i)
    for j, text in enumerate(b):
        if found[j] is None and places.get(text):
            found[j] = places[text].pop(0)
    for olds, news in _gaps(found, len(old)):
        for i, j in _alike([old[i] for i in olds], [new[j] for j in news]):
            found[news[j]] = olds[i]
    return found


def _gaps(found: list[int | None], count: int) -> list[tuple[list[int], list[int]]]:
    """Stretches of old and new entries without a partner, between partners in order."""
    used = {i for i in found if i is not None}
    stretches, last, news = [], -1, list[int]()
    for j, i in enumerate([*found, count]):
        if i is None:
            news.append(j)
        elif i > last:
            stretches.append(([k for k in range(last + 1, i) if k not in used], news))
            last, news = i, []
    return [(olds, news) for olds, news in stretches if olds and news]


def _alike(olds: list[Any], news: list[Any]) -> list[tuple[int, int]]:
    """Partners in order such that they have most in common (Needleman & Wunsch 1970)."""
    n, m = len(olds), len(news)
    if n == m or n * m > MOST:
        return [(k, k) for k in range(min(n, m))]
    best = [[0.0] * (m + 1) for _ in range(n + 1)]
    for i in reversed(range(n)):
        for j in reversed(range(m)):
            both = _common(olds[i], news[j]) + best[i + 1][j + 1]
            best[i][j] = max(both, best[i + 1][j], best[i][j + 1])
    found, i, j = [], 0, 0
    while i < n and j < m:
        both = _common(olds[i], news[j])
        if both and best[i][j] == both + best[i + 1][j + 1]:
            found.append((i, j))
            i, j = i + 1, j + 1
        elif best[i][j] == best[i + 1][j]:
            i += 1
        else:
            j += 1
    return found


def _common(a: Any, b: Any) -> float:
    """How much two entries have in common, 0 for nothing."""
    if isinstance(a, dict) and isinstance(b, dict):
        if a.get("kind") != b.get("kind"):
            return 0.0
        return 0.5 + sum(1.0 for key, value in a.items() if key in b and b[key] == value)
    return 0.5 if type(a) is type(b) else 0.0
