"""Two set-ups on the Bench: told apart by letter, line and ball, and in step at the ball."""

from math import isfinite

import pygame

from game.bench.model import State, differences
from game.draw.camera import Rect
from game.draw.course_marks import course_marks
from game.text.mark import Mark
from game.text.spread import solid_words
from game.ui import Theme, paint
from game.ui.supersample import supersampled
from levels.strokes import ManyStrokes
from physics.course import Course
from physics.results import Shot

__all__ = ["between_words", "draw_key", "draw_letter", "letter_words", "marks_of_both", "seconds_apart"]

NARROW = 40.0  # steps of the rhythm below which the letter stands under the words of a picture


def seconds_apart(first: Shot | None, second: Shot | None) -> float:
    """Seconds the second shot meets its ball later than the first, each on its own line."""
    if first is None or second is None:
        return 0.0
    a, b = (s.strike.time if isfinite(s.strike.time) else 0.0 for s in (first, second))
    return b - a


def between_words(state: State) -> str:
    """What B sets otherwise than A."""
    return differences(state.kept, state.now) if state.kept else ""


def letter_words(letter: str, many: ManyStrokes | None) -> str:
    """Over the words of a set-up: its letter and how often it is struck solid."""
    name = "A, kept" if letter == "A" else letter
    return f"{name}: {solid_words(many)}" if many else name


def marks_of_both(course: Course, first: Shot | None, second: Shot | None) -> tuple[Mark, ...]:
    """Places along the foot of the course, each with the letter of its shot, A's first; the hole belongs to
    neither and stands there once."""
    both = course_marks(course, first, (), "A")
    return (*both, *(mark for mark in course_marks(course, second, (), "B") if mark.whose))


def draw_letter(surface: pygame.Surface, theme: Theme, rect: Rect, letter: str) -> None:
    """The letter of a set-up on a plate in the corner of its picture."""
    wide, line = theme.type.width(letter, "lead"), theme.type.line("lead")
    top = rect.y + theme.gap / 2 + (theme.type.line("small") if rect.w < NARROW * theme.gap else 0.0)
    plate = Rect(rect.right - wide - 3 * theme.gap, top, wide + 2 * theme.gap, line)
    paint.box(surface, plate, theme.palette.paper, theme.edge, theme.radius, theme.line)
    paint.text(surface, theme, letter, "lead", plate.x + theme.gap, plate.y)


def draw_key(surface: pygame.Surface, theme: Theme, rect: Rect) -> None:
    """Which line is whose, in the corner of a picture that holds both: A dashed and hollow, B full."""
    type_, line, gap = theme.type, theme.type.line("small"), theme.gap
    long, letter = 4.0 * gap, max(type_.width(v, "small") for v in "AB")
    plate = Rect(0, 0, long + letter + 3.5 * gap, 2 * line + gap / 2)
    plate = Rect(rect.right - plate.w - gap, rect.y + gap / 2, plate.w, plate.h)
    paint.box(surface, plate, theme.palette.paper, theme.edge, theme.radius, theme.line)
    for k, name in enumerate("AB"):
        y = plate.y + gap / 4 + k * line
        paint.text(surface, theme, name, "small", plate.x + gap, y)
        x, mid = plate.x + letter + 1.8 * gap, y + line / 2
        with supersampled(surface, Rect(x - 2, y, long + gap, line)) as (pen, left, top):
            at, across = x - left, mid - top
            if k == 1:
                pen.line([(at, across), (at + long - gap, across)], 2.4 * theme.line, theme.palette.path)
                pen.disc((at + long, across), 0.55 * gap, theme.palette.path)
                continue
            for j in range(3):
                a = at + j * (long - gap) / 2.6
                pen.line([(a, across), (a + 0.7 * gap, across)], 2.0 * theme.line, theme.palette.ghost)
            pen.disc((at + long, across), 0.55 * gap, theme.palette.ghost)
            pen.disc((at + long, across), 0.30 * gap, theme.palette.paper)
