"""Chances: what a share of strokes says, and how likely a task of several shots is passed in one go."""

from math import comb, sqrt

from levels.teaching import Goal

__all__ = ["SURE", "interval", "pass_chance"]

SURE = 1.959963984540054  # standard normal quantile of 97.5 %: the two-sided 95 % interval


def interval(good: int, played: int) -> tuple[float, float]:
    """95 % interval of a chance of which `good` of `played` strokes came off (Wilson, 1927)."""
    if played == 0:
        return 0.0, 1.0
    share, z2 = good / played, SURE**2
    middle = share + z2 / (2 * played)
    half = SURE * sqrt(share * (1.0 - share) / played + z2 / (4 * played**2))
    low, high = ((middle + way * half) / (1.0 + z2 / played) for way in (-1.0, 1.0))
    return max(low, 0.0), min(high, 1.0)


def pass_chance(goal: Goal, chance: float) -> float:
    """Chance that `goal.shots` strokes pass the task, each good with `chance` on its own.

    The same rule as `levels.facts.passed`: so many good ones among them (binomial), or so many good ones
    in a row (a walk over the length of the present row).
    """
    n, k = goal.shots, goal.successes
    if not goal.in_a_row:
        return min(1.0, sum(comb(n, i) * chance**i * (1.0 - chance) ** (n - i) for i in range(k, n + 1)))
    row = [1.0] + [0.0] * k  # chance of each length of the present row; the last place keeps
    for _ in range(n):
        broken, longer = (1.0 - chance) * sum(row[:k]), [chance * p for p in row[:k]]
        row = [broken, *longer[:-1], row[k] + longer[-1]]
    return min(1.0, row[k])
