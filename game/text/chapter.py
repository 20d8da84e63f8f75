"""How a chapter stands, in a line: solved, tried, predicted, and what to try next and why."""

from game.library.chapter_summary import ChapterSummary
from game.library.progress import CAME_TRUE
from game.text.quantity import plural
from game.text.units import UnitSystem

__all__ = ["chapter_line"]

WHY = {"begun": "tried, not yet solved", "new": "new", "predict": "solved, but hardest to predict"}


def chapter_line(s: ChapterSummary, next_title: str, units: UnitSystem, numbers: bool = True) -> str:
    """One line; without numbers only what to try next. "" for a chapter without scenarios."""
    if not s.next_key:
        return ""
    then = f"Next: {next_title} ({WHY[s.why]})."
    if not numbers or not s.tries:
        return then
    told = f"{s.solved} of {s.scenarios} solved in {plural(str(s.tries), 'shot')}."
    if s.predicted:
        told += f" {s.came_true} of {plural(str(s.predicted), 'prediction')} came true"
        told += f" (a place within {units.near(CAME_TRUE)})."
    return f"{told} {then}"
