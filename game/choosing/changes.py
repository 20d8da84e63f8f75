"""What if: a row for each thing otherwise, every option by its number with its strokes then."""

from dataclasses import dataclass

import pygame

from game.draw.camera import Rect
from game.text.choice import as_it_is_words, changed_lead, changed_verdict, changed_words
from game.text.quantity import decimal
from game.ui import Theme, Widget, paint
from levels.choose import ShotChoice
from levels.what_if import Changed

__all__ = ["ChangeLine", "ChangeRow", "as_it_is_line", "changed_line"]

LEAD, CELL, WIDE = 32.0, 11.0, 110.0  # steps: what is otherwise, an option, and all in one line


@dataclass(frozen=True)
class ChangeLine:
    """One row in words: what is otherwise, each option's strokes ("" without numbers), which is in front,
    and the verdict; `said` is all of it as a sentence."""

    lead: str
    strokes: tuple[str, ...]
    first: int
    verdict: str
    said: str


def as_it_is_line(choice: ShotChoice, numbers: bool) -> ChangeLine:
    """The choice itself, to compare with."""
    lead, verdict = as_it_is_words(choice)
    strokes = tuple(decimal(o.value.strokes, 2) if numbers else "" for o in choice.options)
    return ChangeLine(lead, strokes, 0, verdict, f"{lead}: {verdict}.")


def changed_line(changed: Changed, choice: ShotChoice, usual_green: float | None = None) -> ChangeLine:
    """One thing otherwise; without numbers where the usual green (m) is given."""
    lead, verdict, numbers = changed_lead(changed, usual_green), changed_verdict(changed), usual_green is None
    strokes = tuple(decimal(v, 2) if numbers else "" for v in changed.strokes)
    said = changed_words(changed, choice) if numbers else f"{lead}: {verdict}."
    return ChangeLine(lead, strokes, changed.order[0], verdict, said)


class ChangeRow(Widget):
    """A line of a table where there is room, else the words over the numbers."""

    focusable = False

    def __init__(self, line: ChangeLine) -> None:
        super().__init__(line.said)
        self.line = line

    def _one_line(self, theme: Theme, width: float) -> bool:
        return width >= WIDE * theme.gap

    def _words(self, theme: Theme, width: float) -> tuple[str, ...]:
        """What stands over the numbers, or at their left."""
        if self._one_line(theme, width):
            return theme.type.wrap(self.line.lead, "label", LEAD * theme.gap)
        return theme.type.wrap(f"{self.line.lead}: {self.line.verdict}", "label", width)

    def height(self, theme: Theme, width: float) -> float:
        line = theme.type.line("label")
        rows = max(len(self._words(theme, width)), 1)
        return (rows if self._one_line(theme, width) else rows + 1) * line + theme.gap / 2

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, line = self.rect, theme.type.line("label")
        words = self._words(theme, r.w)
        paint.lines(surface, theme, words, "label", r.x, r.y)
        beside = self._one_line(theme, r.w)
        x = r.x + (LEAD + 1) * theme.gap if beside else r.x
        y = r.y if beside else r.y + len(words) * line
        cell = min(CELL * theme.gap, r.w / max(len(self.line.strokes), 1))
        for k, strokes in enumerate(self.line.strokes):
            self._cell(surface, theme, Rect(x + k * cell, y, cell, line), k, strokes)
        if beside:
            end = x + len(self.line.strokes) * cell + theme.gap
            paint.text(surface, theme, self.line.verdict, "label", end, r.y)
        foot = Rect(r.x, r.bottom - theme.line, r.w, theme.line)
        paint.box(surface, foot, theme.palette.rule)

    def _cell(self, surface: pygame.Surface, theme: Theme, box: Rect, index: int, strokes: str) -> None:
        first, radius = index == self.line.first, 0.5 * box.h
        fill, edge = (theme.accent,) * 2 if first else (theme.palette.paper, theme.palette.rule)
        x, y = box.x + radius, box.y + box.h / 2
        paint.disc(surface, x, y, radius, fill, edge, theme.line)
        small = theme.type.line("small")
        paint.text(
            surface, theme, str(index + 1), "small", x, y - small / 2, "paper" if first else "ink", 0.5
        )
        role = "strong" if first else "label"
        top = y - theme.type.line(role) / 2
        paint.text(surface, theme, strokes, role, box.x + 2 * radius + theme.gap / 2, top)
