"""What other people's files cost to read: the costliest legal texts against a plain text of a scenario's
largest size, in one run.

The ratios are reported, not asserted: a shared machine decides. `tests/levels/test_hostile_files.py`
asserts the work in calls. Run with `pytest tests/benchmarks/test_reading.py --benchmark-enable -s`.
"""

import sys
from contextlib import suppress
from pathlib import Path
from time import process_time
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1] / "levels"))
from hostile import COSTLY, LEAST

from levels.files import ScenarioError
from levels.packs import read_pack
from levels.reading import LARGEST_SCENARIO


def spent(path: Path, text: str) -> float:
    """Processor time (s) to open or refuse a text, the less of two."""
    path.write_text(text, encoding="utf-8")
    times = []
    for _ in range(2):
        start = process_time()
        with suppress(ScenarioError):
            read_pack(path)
        times.append(process_time() - start)
    return min(times)


def test_costly_texts_in_plain_ones(benchmark: Any, tmp_path: Path) -> None:
    path = tmp_path / "text.toml"
    costly = COSTLY if benchmark.enabled else {"dots": COSTLY["dots"]}
    plain = spent(path, LEAST + "#" * (LARGEST_SCENARIO - len(LEAST)))
    times = benchmark.pedantic(lambda: {name: spent(path, made()) for name, made in costly.items()}, rounds=1)
    assert times.keys() == costly.keys()
    for name, time in sorted(times.items(), key=lambda one: -one[1]):
        benchmark.extra_info[name] = time / plain
        print(f"{name:24} {time / plain:7.1f} times a plain text of {LARGEST_SCENARIO} bytes, {time:.2f} s")
