"""What the player has done so far in the scenarios, kept in one small JSON file."""

import json
from dataclasses import dataclass, field, replace
from math import isfinite
from pathlib import Path
from typing import Any

from game.library.set_aside import set_aside
from levels.files import replace_file
from levels.teaching import MOST_SHOTS

__all__ = ["FILE", "Past", "Progress", "load", "save"]

FILE = "progress.json"
FORMAT = 1
KEPT_GAPS = 200  # newest prediction gaps kept of a scenario, assumed: enough for a trend, small on disk


@dataclass(frozen=True)
class Past:
    """One scenario's past: shots ever played, whether it was ever passed, and the newest few."""

    tries: int = 0
    done: bool = False
    results: tuple[bool, ...] = ()  # whether each of the newest MOST_SHOTS met every goal, oldest first
    gaps: tuple[float, ...] = ()  # m between called and actual stop, oldest first

    def after(self, met: bool, passed: bool, gap: float) -> "Past":
        """The past once one more shot is played; a gap that is nan was never called."""
        gaps = (*self.gaps, gap) if isfinite(gap) else self.gaps
        return Past(
            self.tries + 1, self.done or passed, (*self.results, met)[-MOST_SHOTS:], gaps[-KEPT_GAPS:]
        )


@dataclass(frozen=True)
class Progress:
    """The past of every scenario by its name."""

    scenarios: dict[str, Past] = field(default_factory=dict)

    def of(self, key: str) -> Past:
        """That scenario's past; an empty one before its first shot."""
        return self.scenarios.get(key, Past())

    def with_past(self, key: str, past: Past) -> "Progress":
        """The same with this scenario's past in place of its old one."""
        return replace(self, scenarios={**self.scenarios, key: past})


def load(home: Path) -> tuple[Progress, str]:
    """What is kept there, and one sentence when it could not be used ("" when all is well).

    A file that cannot be read as progress is set aside beside the new one, never thrown away.
    """
    file = home / FILE
    try:
        return _progress(json.loads(file.read_text(encoding="utf-8"))), ""
    except FileNotFoundError:
        return Progress(), ""
    except OSError as error:
        return Progress(), f"Your progress cannot be read ({error.strerror or error}); it starts afresh."
    except (ValueError, RecursionError) as error:
        return Progress(), _set_aside(file, error)


def save(home: Path, progress: Progress) -> str:
    """Write it whole or not at all; one sentence when the disk refuses ("" when all is well)."""
    kept = {
        key: {"tries": p.tries, "done": p.done, "results": list(p.results), "stop_gaps_m": list(p.gaps)}
        for key, p in progress.scenarios.items()
    }
    try:
        home.mkdir(parents=True, exist_ok=True)
        replace_file(home / FILE, json.dumps({"format": FORMAT, "scenarios": kept}, indent=1) + "\n")
    except OSError as error:
        return f"Your progress could not be kept: {error.strerror or error}."
    return ""


def _progress(kept: Any) -> Progress:
    if not isinstance(kept, dict) or not isinstance(kept.get("scenarios"), dict):
        raise ValueError("it holds no progress")
    if kept.get("format") != FORMAT:
        raise ValueError(f"it has format {kept.get('format')!r}, not {FORMAT}")
    return Progress({key: _past(key, entry) for key, entry in kept["scenarios"].items()})


def _past(key: str, entry: Any) -> Past:
    """One entry, every part of it looked at. ValueError says which scenario is odd."""
    if isinstance(entry, dict):
        tries, done = entry.get("tries"), entry.get("done")
        results, gaps = entry.get("results"), entry.get("stop_gaps_m")
        if (
            type(tries) is int and tries >= 0 and type(done) is bool
            and isinstance(results, list) and all(type(r) is bool for r in results)
            and isinstance(gaps, list) and all(type(g) in (int, float) and isfinite(g) for g in gaps)
        ):  # fmt: skip
            return Past(tries, done, tuple(results)[-MOST_SHOTS:], tuple(map(float, gaps))[-KEPT_GAPS:])
    raise ValueError(f"the entry of '{key}' is odd")


def _set_aside(file: Path, error: Exception) -> str:
    why, name = set_aside(file, error)
    if not name:
        return f"The progress file cannot be used: {why}. Progress starts afresh."
    return f"The progress file could not be used: {why}. It is kept as {name}; progress starts afresh."
