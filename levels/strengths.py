"""The strengths map: what a player's attempts say by lie, kind of shot and distance, and how surely.

It tells what the simulated shots did. Nothing here measures anybody's skill on grass.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from levels.attempts import Attempt
from levels.families import Family
from levels.intervals import Estimate, mean_estimate, share_estimate

__all__ = [
    "BANDS",
    "ENOUGH",
    "Advice",
    "PlaceTally",
    "ShotPlace",
    "Strength",
    "band_of",
    "shot_places",
    "strengths",
]

Band = tuple[float, float]
BANDS: tuple[Band, ...] = ((0.0, 6.0), (6.0, 12.0), (12.0, 20.0), (20.0, 150.0))  # m to the hole, assumed
ENOUGH = 15  # tries from which something is said: a share of 0.8 is then known to about 0.1 (binomial)
Advice = Literal["seek", "careful", "", "too little"]


@dataclass(frozen=True)
class ShotPlace:
    """A field of the map: the lie, the kind of shot, from how far (m)."""

    lie: str
    family: Family
    band: Band


@dataclass(frozen=True)
class PlaceTally:
    """Sums over the attempts of one field; strokes and gaps with their squares."""

    scored: int = 0  # attempts with expected strokes
    strokes: float = 0.0
    strokes_squared: float = 0.0
    solid: int = 0
    tries: int = 0
    called: int = 0  # attempts whose stop was called
    gap: float = 0.0  # m, without sign
    gap_squared: float = 0.0

    def plus(self, other: "PlaceTally") -> "PlaceTally":
        """Both together."""
        mine, theirs = vars(self), vars(other)
        return PlaceTally(**{name: mine[name] + theirs[name] for name in mine})


@dataclass(frozen=True)
class Strength:
    """What one field says. Estimates are None where there was nothing to count."""

    place: ShotPlace
    tries: int
    strokes: Estimate | None  # expected to hole out
    solid: Estimate | None  # share
    gap: Estimate | None  # m between called and actual stop, without sign
    advice: Advice


def band_of(distance: float) -> Band:
    """The band a distance (m) lies in."""
    return next((band for band in BANDS if distance < band[1]), BANDS[-1])


def shot_places(attempts: Iterable[Attempt]) -> dict[ShotPlace, PlaceTally]:
    """The sums of attempts by field; attempts without a hole are left out."""
    out: dict[ShotPlace, PlaceTally] = {}
    for one in attempts:
        if one.distance is not None:
            place = ShotPlace(one.lie, one.family, band_of(one.distance))
            out[place] = out.get(place, PlaceTally()).plus(_tally(one))
    return out


def _tally(one: Attempt) -> PlaceTally:
    strokes, gap = one.result.strokes, one.stop_gap
    scored, called = int(strokes is not None), int(gap is not None)
    s, g = strokes or 0.0, abs(gap or 0.0)
    return PlaceTally(scored, s, s * s, int(one.result.solid), 1, called, g, g * g)


def strengths(places: Mapping[ShotPlace, PlaceTally]) -> tuple[Strength, ...]:
    """The map, field by field: from near to far, lies by name, low to high.

    A field is to seek when its expected strokes lie, with their whole interval, below the mean of all
    other shots from that distance together, and to be careful with when above. Only distance is held
    equal; lies and tasks may differ.
    """
    order = ("low", "standard", "high")
    ranked = sorted(places, key=lambda p: (p.band, p.lie, order.index(p.family)))
    return tuple(_strength(place, places) for place in ranked)


def _strength(place: ShotPlace, places: Mapping[ShotPlace, PlaceTally]) -> Strength:
    own = places[place]
    others = PlaceTally()
    for other, tally in places.items():
        if other.band == place.band and other != place:
            others = others.plus(tally)
    strokes = mean_estimate(own.scored, own.strokes, own.strokes_squared)
    return Strength(
        place, own.tries, strokes, share_estimate(own.solid, own.tries),
        mean_estimate(own.called, own.gap, own.gap_squared),
        _advice(own, strokes, mean_estimate(others.scored, others.strokes, others.strokes_squared)),
    )  # fmt: skip


def _advice(own: PlaceTally, strokes: Estimate | None, others: Estimate | None) -> Advice:
    if own.scored < ENOUGH:
        return "too little"
    if strokes is None or others is None or others.count < ENOUGH:
        return ""
    if strokes.high < others.low:
        return "seek"
    return "careful" if strokes.low > others.high else ""
