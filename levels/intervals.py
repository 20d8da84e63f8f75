"""How well a share or a mean is known from so many tries: 95 % intervals.

A share by Wilson's score interval (Wilson 1927), a mean by Student's t with Fisher and Cornish's
expansion of its quantile (Abramowitz and Stegun 1964, 26.7.5).
"""

from dataclasses import dataclass
from math import sqrt
from statistics import NormalDist

__all__ = ["LEVEL", "Estimate", "mean_estimate", "share_estimate", "t_quantile"]

LEVEL = 0.95


@dataclass(frozen=True)
class Estimate:
    """A value and the interval it lies in with probability LEVEL; `count` tries stand behind it."""

    value: float
    low: float
    high: float
    count: int


def share_estimate(good: int, count: int, level: float = LEVEL) -> Estimate | None:
    """The share of good ones with its Wilson score interval; None without a try.

    >>> found = share_estimate(8, 10)
    >>> round(found.low, 3), round(found.high, 3)
    (0.49, 0.943)
    """
    if not count:
        return None
    z = NormalDist().inv_cdf(0.5 * (1.0 + level))
    p, spread = good / count, z * z / count
    middle = (p + 0.5 * spread) / (1.0 + spread)
    half = z / (1.0 + spread) * sqrt(p * (1.0 - p) / count + 0.25 * spread / count)
    low = 0.0 if good == 0 else max(middle - half, 0.0)
    high = 1.0 if good == count else min(middle + half, 1.0)
    return Estimate(p, low, high, count)


def mean_estimate(count: int, total: float, squares: float, level: float = LEVEL) -> Estimate | None:
    """The mean of `count` values with the given sum and sum of squares; None with fewer than two."""
    if count < 2:
        return None
    mean = total / count
    variance = max(squares - count * mean * mean, 0.0) / (count - 1)
    half = t_quantile(0.5 * (1.0 + level), count - 1) * sqrt(variance / count)
    return Estimate(mean, mean - half, mean + half, count)


def t_quantile(share: float, freedom: int) -> float:
    """The value a Student t stays below with that probability. Good to 1e-4 from five degrees of freedom."""
    z = NormalDist().inv_cdf(share)
    terms = (
        (z**3 + z) / 4.0,
        (5.0 * z**5 + 16.0 * z**3 + 3.0 * z) / 96.0,
        (3.0 * z**7 + 19.0 * z**5 + 17.0 * z**3 - 15.0 * z) / 384.0,
        (79.0 * z**9 + 776.0 * z**7 + 1482.0 * z**5 - 1920.0 * z**3 - 945.0 * z) / 92160.0,
    )
    return z + sum(term / float(freedom) ** (i + 1) for i, term in enumerate(terms))
