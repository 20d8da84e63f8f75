"""What a proof costs, in plain strokes of the same scenario measured in the same run.

The ratio is reported, not asserted: a shared machine decides. Asserted is that the proof counts its
strokes. Run with `pytest tests/benchmarks --benchmark-enable -s`.
"""

from time import process_time
from typing import Any

import pytest

from levels.effort import EFFORTS
from levels.facts import cloud_facts
from levels.files import load_library
from levels.prove import proved
from physics.spread import PLAYERS

NAMES = ("back-tier", "the-hummock", "fried-egg", "under-the-willow")  # plain, clearing, sand, branches


@pytest.mark.parametrize("effort", EFFORTS)
@pytest.mark.parametrize("name", NAMES)
def test_a_proof_in_thousands_of_plain_strokes(benchmark: Any, name: str, effort: str) -> None:
    made = load_library(f"harrow-fen-{name}")
    if not benchmark.enabled and (effort == "full" or name != "back-tier"):
        effort, made = "small", load_library("harrow-fen-back-tier")
    found = benchmark.pedantic(lambda: proved(made, EFFORTS[effort]), rounds=1)
    assert 500 < found.strokes < 40_000
    if benchmark.enabled:
        shot = made.reference_shot()
        assert shot is not None
        start = process_time()
        cloud_facts(made.goal, made.course(), *shot, PLAYERS[made.player], 0, 1000)
        thousand = process_time() - start
        start = process_time()
        proved(made, EFFORTS[effort])
        whole = process_time() - start
        benchmark.extra_info.update(thousands=whole / thousand, strokes=found.strokes, cpu_s=whole)
        print(f"{name} {effort}: {whole / thousand:.1f} thousand strokes' time, {found.strokes} strokes")
