"""What is taken home from the Bench: the recap page of two strokes with one small mistake, and a clip of what
is shown.

The two are A and B, those of the lesson on show, what "Why?" or a review has put right against what was set,
or else the lean lesson's pair of this set-up. Where one shot alone is on show, also one out of the notebook,
the clip is of that very shot.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from game.bench.lesson import NO_PLAYER, LessonActs
from game.handout import clip_in_parts, free_name, pictures_folder, recap_of, write_page
from game.library.notebook.store import FIRST_PLAYER
from game.text.clip import Film, OneShot
from game.text.quantity import shown_control
from game.text.recap import Recap, RecapSide
from game.text.units import UNIT_SYSTEMS
from game.ui.work import Answer
from levels.lessons import COUNTED, lesson_strokes, same_mistake
from physics.address import CONTROLS, Motion, Setup
from physics.cloud import cloud
from physics.course import Course
from physics.results import Shot
from physics.spread import Spread

__all__ = ["TakeHome"]

PAGE, CLIP = "recap page", "clip"  # channels of the worker
Stroke = tuple[Setup, Motion]
Step = float | tuple[Path, ...]  # the share that is done, at last the files


@dataclass(frozen=True)
class _Pair:
    """What is to be played: two strokes of one player on one course."""

    course: Course
    first: Stroke
    second: Stroke
    spread: Spread
    seed: int

    def recap(self, counted: bool, day: date, **told: object) -> Recap:
        """Both with the same mistake; with their own strokes counted, if asked."""
        a, b = same_mistake(self.course, self.first, self.second, self.spread, self.seed)
        clouds = None
        if counted:
            one, two = (
                cloud(self.course, *stroke, self.spread, self.seed, COUNTED)
                for stroke in (self.first, self.second)
            )
            clouds = (one, two)
        return recap_of(a, b, clouds, day, **told)


def _write_page(make: Callable[[bool], Recap], day: date) -> Iterator[Step]:
    yield 0.0
    recap = make(True)
    yield 0.6
    yield write_page(recap, free_name(pictures_folder(), f"fringework-recap-{day}", (".pdf", ".png")))


def _write_clip(make: Callable[[], Film], day: date) -> Iterator[Step]:
    yield 0.0
    film = make()
    ending = _clip_ending()
    file = free_name(pictures_folder(), f"fringework-clip-{day}", (ending,)).with_suffix(ending)
    yield from clip_in_parts(film, file)
    yield (file,)


def _clip_ending() -> str:
    """MP4 where the extra is installed: sharper and smaller."""
    from importlib.util import find_spec

    return ".mp4" if find_spec("av") else ".gif"


class TakeHome:
    """Writes page and clip beside the picture; one at a time, told as it goes, stopped between two parts."""

    def __init__(self, bench: LessonActs) -> None:
        self._bench = bench
        self.making = ""  # what is being written
        self._called = ""  # as it is called
        self.share = 0.0  # of it that is done
        self.wanted: tuple[str, float] | None = None  # a control of the shot on show, and where it belongs
        self.pupil = ""  # whose shot is on show, where it is not that of whoever plays

    def page(self) -> None:
        """Write the recap page, PDF and picture."""
        day = date.today()
        if self._free(PAGE) and (make := self._pair_maker(day)):
            self._start(PAGE, PAGE, lambda: _write_page(make, day))

    def clip(self) -> None:
        """Write the clip; asked again while it is made, stop."""
        day, shot = date.today(), self._alone
        if not self._free(CLIP):
            return
        if shot is not None:
            one = OneShot(shot, self._bench.junior, UNIT_SYSTEMS[self._bench.app.settings.units])
            self._start(CLIP, f"{CLIP} of this shot alone", lambda: _write_clip(lambda: one, day))
        elif make := self._pair_maker(day):
            self._start(CLIP, f"{CLIP} of both strokes", lambda: _write_clip(lambda: make(False), day))

    @property
    def _put_right(self) -> tuple[str, float] | None:
        """The control that was off, and where it belongs: what "Why?" has found, or what the shot is an
        example of."""
        if repair := self._bench.asked_why.repair:
            return repair.control, repair.best
        wanted, now = self.wanted, self._bench.state.now
        return wanted if wanted and now.value(wanted[0]) != wanted[1] else None

    @property
    def _alone(self) -> Shot | None:
        """The shot on show, where no other belongs to it."""
        b = self._bench
        return None if b.lesson or b.state.kept or b.asked_why.repair else b.state.shot

    def stop(self) -> None:
        """Leave what is being written; there is no file then."""
        self._bench.worker.forget(self.making)
        self._bench.app.say(f"The {self._called} was stopped; nothing was written.")
        self.making = ""

    def _free(self, what: str) -> bool:
        """Whether it can be begun: what is being made already is stopped, something else is told of."""
        if self.making == what:
            self.stop()
        elif self.making:
            self._bench.app.say(f"The {self._called} is still being made: Esc stops it.")
        else:
            return True
        return False

    def _start(self, what: str, called: str, job: Callable[[], Iterator[Step]]) -> None:
        self.making, self._called, self.share = what, called, 0.0
        self._bench.worker.ask(what, job, self._hear)
        self._say()

    def _pair_maker(self, day: date) -> Callable[[bool], Recap] | None:
        """What makes the recap of the two, or None and a sentence why not."""
        make = self._maker(day)
        if make is None:
            self._bench.app.say(NO_PLAYER)
        return make

    def _maker(self, day: date) -> Callable[[bool], Recap] | None:
        """What makes the recap of the two on show; None where nobody makes mistakes."""
        b, s = self._bench, self._bench.state
        junior, units = b.junior, UNIT_SYSTEMS[b.app.settings.units]
        title = ""  # said from the strokes
        pupil = self.pupil or b.app.player
        pupil = "" if pupil == FIRST_PLAYER else pupil
        if b.lesson:
            sides = [RecapSide(case.shot, case.solid) for case in b.lesson.cases[:2]]
            made = Recap(sides[0], sides[1], day, pupil=pupil, junior=junior, units=units)
            return lambda counted: made
        if s.spread.up <= 0.0:
            return None
        if s.kept:
            first, second = (s.kept.setup, s.kept.motion), (s.now.setup, s.now.motion)
        elif right := self._put_right:
            control, best = right
            mended = s.now.with_value(control, best)
            first, second = (mended.setup, mended.motion), (s.now.setup, s.now.motion)
            wanted, set_now = (shown_control(control, v) for v in (best, s.now.value(control)))
            title = f"{CONTROLS[control].label.capitalize()}: {wanted} against {set_now}"
        else:
            a, c = lesson_strokes("lean", s.now.setup, s.now.motion)
            first, second = a[1:], c[1:]
        pair = _Pair(s.course, first, second, s.spread, s.seed)
        return lambda counted: pair.recap(counted, day, title=title, pupil=pupil, junior=junior, units=units)

    def _hear(self, answer: Answer) -> None:
        if not answer.fresh or not self.making:  # a part that was done as it was stopped
            return
        if answer.problem:
            self.making = ""
        elif isinstance(answer.value, tuple):
            names = " and ".join(str(file) for file in answer.value)
            self._bench.app.say(f"Written: {names}")
            self.making = ""
        elif answer.value is not None:
            self.share = answer.value
            self._say()

    def _say(self) -> None:
        self._bench.app.say(f"The {self._called} is being made: {100 * self.share:.0f} %. Esc stops it.")
