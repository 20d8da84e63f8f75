"""The first screen: the laws are compiled beside it, and it says how far that is."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator

import pygame

from game import startup
from game.draw.camera import Rect
from game.sound.loudspeaker import loudspeaker
from game.ui import Theme, paint
from game.ui.screen import Host, Screen
from game.ui.work import Answer

__all__ = ["STEPS", "Prepare"]

FIRST = (
    "The laws of turf and flight are made ready for this computer. "
    "That happens once and takes about a minute."
)
AGAIN = "The laws of turf and flight are fetched."
SAMPLE = "harrow-fen-plain-chip"
STROKES = 40  # of the small cloud: enough for both of its threads


def _read() -> None:
    from levels.files import load_library

    load_library(SAMPLE)


def _strike() -> None:
    import numpy as np

    from levels.files import load_library
    from physics.compiled import as_record
    from physics.corridor import bench, standard_of, strike_stray, stroke_of
    from physics.shot import lie_of
    from physics.spread import EXACT, draw_strays
    from physics.strike import LOG_COLUMNS

    sample = load_library(SAMPLE)
    course, setup = sample.course(), sample.setup()
    club, surface, stroke = (
        as_record(setup.club),
        as_record(lie_of(course)[0]),
        stroke_of(setup, sample.motion()),
    )
    work, log = bench(), np.zeros((4096, LOG_COLUMNS))
    standard = standard_of(club, surface, course.lie.lift, stroke, work, log[:0])
    strike_stray(
        club, surface, course.lie.lift, stroke, draw_strays(EXACT, 0, 1)[0], work, log, True, standard
    )


def _shot() -> None:
    from levels.files import load_library
    from physics.shot import play

    sample = load_library(SAMPLE)
    play(sample.course(), sample.setup(), sample.motion())
    startup.mark_done("shot")


def _cloud() -> None:
    from levels.files import load_library
    from physics.cloud import cloud
    from physics.spread import PLAYERS

    sample = load_library(SAMPLE)
    cloud(sample.course(), sample.setup(), sample.motion(), PLAYERS["club"], count=STROKES)
    startup.mark_done("cloud")


STEPS: tuple[tuple[str, Callable[[], None]], ...] = (
    ("reading the course", _read),
    ("swing and turf", _strike),
    ("one whole shot, with flight, landing and roll", _shot),
    ("many shots at once", _cloud),
)


def in_steps(steps: tuple[tuple[str, Callable[[], None]], ...]) -> Iterator[int]:
    """Do the steps; after each, how many are done."""
    for done, (_, step) in enumerate(steps, 1):
        step()
        yield done


class Prepare(Screen):
    """Does the steps, then opens the first screen of the bar."""

    title = "Getting ready"
    bar = False

    def __init__(self, app: Host, steps: tuple[tuple[str, Callable[[], None]], ...] = STEPS) -> None:
        super().__init__(app)
        self.steps, self.done, self.seconds, self.problem = steps, 0, 0.0, ""
        self.asked = self.ready = False
        self.first = startup.first_time("shot") or startup.first_time("cloud")
        self._box = Rect(0, 0, 1, 1)

    def enter(self) -> None:
        if not self.asked:
            self.asked = True
            self.app.worker.ask("first shot", lambda: in_steps(self.steps), self._hear)

    def _hear(self, answer: Answer) -> None:
        if answer.problem:
            self.problem = answer.problem
        elif answer.last:
            self.ready = True
        else:
            self.done = answer.value

    def layout(self, box: Rect, theme: Theme) -> None:
        self._box = box

    @property
    def moving(self) -> bool:
        return not self.problem

    def update(self, dt: float) -> None:
        self.seconds += dt
        if self.ready:  # here, not when it is heard: the help may lie over this screen
            loudspeaker(
                self.app.settings
            )  # opening the mixer takes longer than a frame: not at the first strike
            gc.collect()
            gc.freeze()  # what lives as long as the program need not be looked through in a frame
            self.app.open(self.app.titles[0])

    @property
    def words(self) -> str:
        """What is being done now."""
        if self.problem:
            return self.problem
        if self.done == len(self.steps):
            return "Ready."
        return f"Step {self.done + 1} of {len(self.steps)}, {self.seconds:.0f} s: {self.steps[self.done][0]}."

    def draw(self, surface: pygame.Surface) -> None:
        theme, box = self.app.theme, self._box
        wide = min(box.w - 8 * theme.gap, 70 * theme.gap)
        x, line = box.x + (box.w - wide) / 2, theme.type.line("label")
        said = theme.type.wrap(FIRST if self.first else AGAIN, "label", wide)
        now = theme.type.wrap(self.words, "label", wide)
        y = box.y + max(box.h * 0.38 - len(said) * line, theme.gap)
        paint.text(surface, theme, "Fringework", "title", x, y - theme.type.line("title"))
        y += theme.gap
        paint.lines(surface, theme, said, "label", x, y, "muted")
        y += len(said) * line + 3 * theme.gap
        self._draw_steps(surface, theme, Rect(x, y, wide, theme.gap))
        paint.lines(surface, theme, now, "label", x, y + 3 * theme.gap)

    def _draw_steps(self, surface: pygame.Surface, theme: Theme, rail: Rect) -> None:
        """One stretch for each step; in the one under way a mark moves, which promises nothing."""
        paint.box(surface, rail, theme.hover, theme.edge, rail.h / 2, theme.line)
        stretch = rail.w / len(self.steps)
        if self.done:
            paint.box(
                surface, Rect(rail.x, rail.y, stretch * self.done, rail.h), theme.accent, None, rail.h / 2
            )
        if self.done < len(self.steps) and not self.problem:
            still = self.app.settings.reduced_motion
            share = 0.5 if still else (self.seconds / 2.0) % 1.0
            x = rail.x + stretch * self.done + rail.h + share * (stretch - 2 * rail.h)
            paint.disc(surface, x, rail.y + rail.h / 2, rail.h / 2 - theme.line, theme.accent)
