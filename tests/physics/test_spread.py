"""Three players' spreads and the strokes drawn from them."""

from dataclasses import astuple, fields
from itertools import pairwise

import numpy as np
import pytest

from physics.putting import PUTTERS
from physics.spread import EXACT, MOST, PLAYERS, Spread, Stray, draw_strays

CLUB = PLAYERS["club"]


def test_same_seed_same_strokes_and_more_strokes_begin_alike() -> None:
    assert np.array_equal(draw_strays(CLUB, 5, 40), draw_strays(CLUB, 5, 40))
    assert np.array_equal(draw_strays(CLUB, 5, 40)[:7], draw_strays(CLUB, 5, 7))
    assert not np.array_equal(draw_strays(CLUB, 5, 40), draw_strays(CLUB, 6, 40))


def test_machine_never_strays() -> None:
    assert np.array_equal(draw_strays(EXACT, 3, 9), np.tile(astuple(Stray()), (9, 1)))


def test_columns_have_the_order_of_a_stray() -> None:
    names = [f.name for f in fields(Stray)]
    assert names == [f.name for f in fields(Spread)][2:9]
    for i, name in enumerate(names):
        alone = Spread("x", "x", **{n: 0.1 if n == name else 0.0 for n in names})
        assert np.flatnonzero(draw_strays(alone, 1, 50).std(axis=0)).tolist() == [i]


@pytest.mark.parametrize("name", ["steady", "club", "beginner"])
def test_spread_and_mean_are_those_asked_for(name: str) -> None:
    """4000 strokes: deviations within 5 % (three standard errors; holding the tails costs 1.3 %), no bias."""
    spread = PLAYERS[name]
    strays, sizes = draw_strays(spread, 8, 4000), np.array(astuple(spread)[2:9])
    assert strays.std(axis=0) == pytest.approx(sizes, rel=0.05)
    assert (abs(strays.mean(axis=0) - astuple(Stray())) < 4.0 * sizes / np.sqrt(4000)).all()
    assert (abs(strays - astuple(Stray())) <= MOST * sizes + 1e-12).all()
    assert abs(np.corrcoef(strays.T) - np.eye(7)).max() < 0.07


def test_practice_narrows_every_spread() -> None:
    order = [np.array(astuple(PLAYERS[n])[2:9]) for n in ("exact", "steady", "club", "beginner")]
    assert all((a < b).all() for a, b in pairwise(order))
    assert all(p.name == name and p.putter in PUTTERS for name, p in PLAYERS.items())
