"""A lesson on the Bench: two strokes with one small mistake side by side, stopped at impact, then run out.

What stood on the Bench before comes back when the lesson is left.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial
from math import isfinite

import pygame

from game.bench.acts import BenchActs
from game.bench.model import Setting, State
from game.draw.camera import Rect
from game.draw.lesson import draw_impact, impact_words
from game.draw.pen import sheet
from game.draw.type import Word
from game.shot_view.session import Shown, shown_with_spray
from game.text.lesson import (
    BUTTONS,
    TITLES,
    case_name,
    did_words,
    lesson_told,
    lies_words,
    shares_later,
    shares_words,
    stop_words,
)
from game.text.units import UNIT_SYSTEMS
from game.ui import Theme, paint
from game.ui.screen import Host
from game.ui.supersample import Cached
from game.ui.work import Answer
from levels.lessons import LessonCase, PlayedLesson, lesson_in_parts
from physics.course import Course
from physics.results import Shot
from physics.spread import Spread

__all__ = ["LEAVE_FIRST", "LessonActs", "draw_stopped"]

CHANNEL = "lesson"
STOPPED = 6.0  # s for which the heads stand at impact
AT_IMPACT = 1e-6  # s
ZOOM = 2
NO_PLAYER = "A machine makes no mistakes: choose another player for a lesson."
LEAVE_FIRST = "Press Esc or L to leave the lesson first: your own set-up comes back."
Part = tuple[PlayedLesson, list[Shown]]


@dataclass(frozen=True)
class _Own:
    """What stood on the Bench before the lesson."""

    state: State
    thrown: tuple[Shown, ...]
    time: float
    shown: int
    at_address: bool
    seen_through: bool
    beside: bool
    numbers: bool
    strobe: bool


def _parts(name: str, course: Course, setting: Setting, spread: Spread) -> Iterator[Part]:
    """The lesson as it grows, with the thrown turf of its first two shots."""
    shots: list[Shown] = []
    for made in lesson_in_parts(name, course, setting.setup, setting.motion, spread):
        shots = shots or [shown_with_spray(case.shot) for case in made.cases[:2]]
        yield made, shots


class LessonActs(BenchActs):
    """The acts of a lesson: ask for one, watch it, go on from impact, leave it. `shown` is the part of the
    Bench that shows with large text."""

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self.shown = 0
        self.lesson: PlayedLesson | None = None  # on show
        self.lesson_asked = ""  # being worked out
        self._waits = ""  # what is said meanwhile
        self._own: _Own | None = None
        self._stopped = False  # this showing has stopped at impact
        self._left = 0.0  # s until it goes on by itself

    def look_at(self, view: str) -> None:
        """With large text: let this part show."""

    @property
    def in_lesson(self) -> bool:
        return self._own is not None

    @property
    def own_state(self) -> State:
        return self._own.state if self._own else self.state

    @property
    def impact(self) -> float:
        """When B meets the ball (s); when it is deepest if it never does."""
        shot = self.state.shot
        if shot is None or not shot.strike.sole.t:
            return 0.0
        sole = shot.strike.sole
        if isfinite(shot.strike.time):
            return shot.strike.time
        return sole.t[sole.edge[1].index(min(sole.edge[1]))]

    @property
    def stopped(self) -> bool:
        """Whether the heads stand at impact now."""
        return self.in_lesson and not self.ribbon.playing and abs(self.ribbon.time - self.impact) < AT_IMPACT

    @property
    def moving(self) -> bool:
        return self.session.moving or self._left > 0.0

    # ---- coming and going

    def learn(self, name: str = "") -> None:
        """Show that lesson; without a name the first one, or leave the lesson on show."""
        if not name and (self.in_lesson or self.lesson_asked):
            self.leave_lesson()
            return
        s = self.state if self._own is None else self._own.state
        if s.spread.up <= 0.0:
            self.app.say(NO_PLAYER)
            return
        self.lesson_asked = name or "lean"
        job = partial(_parts, self.lesson_asked, s.course, s.standard, s.spread)
        self.worker.ask(CHANNEL, job, self._hear_lesson)
        self._waits = f"{TITLES[self.lesson_asked]}: the strokes are being played."
        self.app.say(self._waits)
        self.again()

    def _hear_lesson(self, answer: Answer) -> None:
        if not answer.fresh or (answer.last and not answer.problem):
            return
        self.app.toast.take_back(self._waits)
        if answer.problem:
            self.lesson_asked = ""
            self.again()
            return
        made, shots = answer.value
        first = self.lesson_asked == made.name
        self.lesson = made
        if first:
            self.lesson_asked = ""
            self._begin(made, shots)
        self.again()

    def _begin(self, made: PlayedLesson, shots: list[Shown]) -> None:
        """Put the Bench's own aside and show the first two cases as A and B."""
        if self._own is None:
            self._own = _Own(
                self.state, self.thrown, self.ribbon.time, self.shown, self.at_address, self.seen_through,
                self.beside, self.numbers, self.strobe,
            )  # fmt: skip
        self.worker.forget("shot")
        first, second = (Setting(case.setup, case.motion, own_depth=True) for case in made.cases[:2])
        self.state = replace(
            self._own.state, kept=first, now=second, settled=second, ghost=None,
            kept_shot=shots[0].shot, shot=shots[1].shot,
        )  # fmt: skip
        self.thrown = tuple(shots)
        self.waiting, self.beside, self.numbers, self.strobe = False, True, False, False
        self._show()

    def _show(self) -> None:
        """The film from its start; without motion the heads at impact at once."""
        assert self.state.shot
        self._stopped, self._left, self.at_address, self.seen_through = False, 0.0, False, False
        self.session.show(self.state.shot, slow=True)
        if self.session.still:
            self.ribbon.seek(self.impact)
            self._stopped = True
        self.look_at("Turf")

    def leave_lesson(self) -> None:
        """What stood on the Bench before, as it was."""
        self.worker.forget(CHANNEL)
        self.app.toast.take_back(self._waits)
        self.lesson_asked, own = "", self._own
        if own is None:
            self.again()
            return
        self.lesson, self._own, self._left = None, None, 0.0
        self.state, self.thrown, self.shown = own.state, own.thrown, own.shown
        self.beside, self.numbers, self.strobe = own.beside, own.numbers, own.strobe
        self.ribbon.clear()
        if own.state.shot:
            self.session.show(own.state.shot, slow=False, at_end=True)
            self.ribbon.seek(own.time)
        self.at_address, self.seen_through, self.shown_time = (
            own.at_address,
            own.seen_through,
            self.ribbon.time,
        )
        self.panel.sync(own.state.now.setup, own.state.now.motion)
        self.again()

    # ---- time

    def pass_time(self, dt: float) -> None:
        """Let the film run; in a lesson it stands at impact for a while."""
        if not self.in_lesson:
            self.session.advance(dt)
            return
        if self._left > 0.0:
            if self.stopped:
                self._left -= dt
                if self._left <= 0.0:
                    self.go_on()
                return
            self._left = 0.0  # somebody has moved the time
        ran = self.ribbon.playing and self.ribbon.time < self.impact
        first = self.ribbon.first
        self.session.advance(dt)
        if ran and not self._stopped and self.ribbon.time >= self.impact:
            self.ribbon.seek(self.impact)
            self.ribbon.first = first
            self._stopped, self._left = True, STOPPED
            self.again()

    def go_on(self) -> None:
        """From impact to rest."""
        self._left = 0.0
        if self.session.still:
            assert self.ribbon.line
            self.ribbon.seek(self.ribbon.line.end)
        else:
            self.ribbon.playing = True
        self.look_at("Course")
        self.again()

    def play_or_pause(self) -> None:
        if not self.in_lesson:
            super().play_or_pause()
        elif self.stopped:
            self.go_on()
        elif self.ribbon.at_end:
            self._show()
            self.again()
        else:
            self.ribbon.toggle()

    def watch(self) -> None:
        if not self.in_lesson:
            super().watch()
            return
        self._show()
        self.again()

    def seen(self) -> None:
        if not self.in_lesson:
            super().seen()
            return
        self.seen_through = True
        self.look_at("Text")
        self.again()

    # ---- words

    def case_words(self) -> tuple[tuple[str, str, tuple[str, ...]], ...]:
        """For every case what became of it, how often it comes off, and the longest this may come to be."""
        made, numbers = self.lesson, not self.junior
        if made is None:
            return ()
        letters = ("A: ", "B: ", "Besides: ")
        return tuple(
            (f"{letter}{self._did(made, case, numbers)}", shares_words(case, numbers), shares_later(numbers))
            for letter, case in zip(letters, made.cases, strict=False)
        )

    def _did(self, made: PlayedLesson, case: LessonCase, numbers: bool) -> str:
        stop = f" and {stop_words(case.shot, UNIT_SYSTEMS[self.app.settings.units])}" if numbers else ""
        return f"{case_name(made, case, numbers)}: {did_words(case, numbers)}{stop}."

    def lesson_words(self) -> tuple[str, ...]:
        """Mistake, for whom it is counted, and last, because it grows, what every lie shows."""
        made, numbers = self.lesson, not self.junior
        if made is None:
            return ()
        whose = f"The standard chip, {made.spread.label}"
        many = f", {made.strokes} strokes each" if numbers else ""
        return (
            lesson_told(made, numbers=numbers)[0],
            f"{whose}{many}. Esc: your own set-up.",
            *lies_words(made, numbers),
        )

    def lesson_buttons(self) -> tuple[tuple[str, str], ...]:
        """Name and words of each lesson that can be asked for."""
        return tuple(BUTTONS.items())


# ---- the picture


_KEPT: tuple[Cached[pygame.Surface], Cached[pygame.Surface]] = (Cached(), Cached())


def draw_stopped(
    surface: pygame.Surface, theme: Theme, rects: tuple[Rect, Rect], shots: tuple[Shot, Shot], numbers: bool
) -> None:  # fmt: skip
    """Both heads at impact, large, with bounce and lean drawn on them."""
    boxes = [Rect(0, 0, at.w, at.h) for at in map(paint.pixels, rects)]
    told = [impact_words(theme.type, box, shot, numbers) for box, shot in zip(boxes, shots, strict=True)]
    if any(word.role == "small" for words in told for word in words):  # both speak as loud
        told = [
            impact_words(theme.type, b, shot, numbers, "small") for b, shot in zip(boxes, shots, strict=True)
        ]
    for kept, rect, box, shot, words in zip(_KEPT, rects, boxes, shots, told, strict=True):
        at = paint.pixels(rect)
        unit = min(max(box.w / 480, 0.7), 2.8)
        made = partial(_close_up, theme, box, shot, unit, words, numbers)
        surface.blit(kept.get((shot, box, unit, numbers, theme), made), at)


def _close_up(
    theme: Theme, box: Rect, shot: Shot, unit: float, words: tuple[Word, ...], numbers: bool
) -> pygame.Surface:
    pen = sheet(box.w, box.h, ZOOM)
    draw_impact(pen, box, shot, theme.palette, unit, words, numbers)
    out = pen.shrink()
    for word in words:
        theme.type.draw(out, word, theme.palette.ink)
    return out
