"""Told causes against exhaustive replay, 500 mis-set and 500 strayed strokes of fixed seeds.

Run with `pytest tests/benchmarks/test_causes.py --benchmark-enable -s`; some twenty minutes of one core. The
plain suite runs a small part of it in `tests/physics/test_removal.py`. How fast "Why?" answers is reported,
not asserted: a shared machine decides.
"""

from statistics import median
from time import perf_counter, process_time
from typing import Any

import pytest

from levels.files import library, load_library
from physics.repair import repairs
from physics.spread import PLAYERS
from tests.told_causes import missets, strayed

STROKES = 500


def test_told_cause_agrees_with_exhaustive_replay(benchmark: Any) -> None:
    if not benchmark.enabled:
        pytest.skip("the long run")
    made, astray = benchmark.pedantic(lambda: (missets(STROKES), strayed(STROKES)), rounds=1)
    shares = {}
    for name, all_of in (("mis-set", made), ("strayed", astray)):
        clear = [m for m in all_of if m.clear]
        shares[name] = sum(m.agrees for m in clear) / len(clear)
        print(f"{name}: told cause agrees in {100 * shares[name]:.1f} % of {len(clear)} clear cases")
    owed = [m for m in made if m.owed]
    mends = sum(m.mends for m in owed) / len(owed)
    print(f"repairs that mend what was off: {100 * mends:.1f} % of {len(owed)}")
    benchmark.extra_info.update(shares, mends=mends)
    assert min(shares.values()) >= 0.95
    assert mends >= 0.85


def test_how_fast_why_answers(benchmark: Any) -> None:
    if not benchmark.enabled:
        pytest.skip("the long run")
    wall, cpu = [], []

    def all_of_them() -> None:
        for name in library():
            s = load_library(name)
            start = perf_counter(), process_time()
            repairs(s.course(), s.setup(), s.motion(), PLAYERS["club"])
            wall.append(perf_counter() - start[0])
            cpu.append(process_time() - start[1])

    benchmark.pedantic(all_of_them, rounds=1)
    for name, times in (("wall", wall), ("processor", cpu)):
        print(f"Why?, {name}: median {median(times):.2f} s, worst {max(times):.2f} s")
    benchmark.extra_info.update(median_s=median(wall), worst_s=max(wall))
