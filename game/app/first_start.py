"""The first screen: the laws are compiled beside it, and it says how far that is."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator

import pygame

from game import startup
from game.app.compile_steps import COMPILE_STEPS
from game.draw.camera import Camera, Rect
from game.draw.course import course_unit, still
from game.library.settings import DETAILS
from game.sound.loudspeaker import loudspeaker
from game.ui import Button, Choice, HeldLine, Theme, Toggle, Widget, paint
from game.ui.screen import Host, Screen
from game.ui.work import Answer
from physics.course import level_course

__all__ = ["Prepare"]

FIRST = (
    "The laws of turf and flight are made ready for this computer. "
    "That happens once: a minute or more, and several minutes on a slow computer."
)
OPENS = "You can leave this alone: the Bench opens by itself once all steps are done."
ENTER = (pygame.K_RETURN, pygame.K_KP_ENTER)
PLAIN = (  # one for each level of detail
    "Junior: short words, two sliders, numbers only if asked.",
    "Player: the controls that matter most, with their numbers.",
    "Coach: every control, and the strike at equal times.",
)
ABOVE = 0.25  # share of the room left over that stands over the words; the view has the rest
LEAST_VIEW = 12.0  # steps of height from which a view is one
ACROSS = 13.0  # m of ground in it
GREEN = level_course("fairway", 8.0)
AGAIN = "The laws of turf and flight are being loaded."


def in_steps(steps: tuple[tuple[str, Callable[[], None]], ...]) -> Iterator[int]:
    """Do the steps; after each, how many are done."""
    for done, (_, step) in enumerate(steps, 1):
        step()
        yield done


def _so_far(seconds: float) -> str:
    """`42 s`, `2 min 05 s`."""
    whole = int(seconds)
    return f"{whole} s" if whole < 60 else f"{whole // 60} min {whole % 60:02d} s"


class Prepare(Screen):
    """Does the steps, then opens the first screen of the bar. With `asks` it asks meanwhile who plays, and
    opens when that is answered: Enter or Esc take it as it stands."""

    title = "Getting ready"
    bar = False

    def __init__(
        self, app: Host, steps: tuple[tuple[str, Callable[[], None]], ...] = COMPILE_STEPS,
        asks: bool = False,
    ) -> None:  # fmt: skip
        super().__init__(app)
        self.steps, self.done, self.seconds, self.problem = steps, 0, 0.0, ""
        self.asked = self.ready = False
        self.asks, self.answered = asks, not asks
        self.first = startup.first_time("shot") or startup.first_time("cloud")
        self._title = self._rail = self._view = Rect(0, 0, 1, 1)
        self._lists = False  # whether there is room to name every step
        self._about = HeldLine(self._plain, PLAIN, "label")
        self._about.tone = "muted"
        self._who = Choice(
            "Who plays?", [d.title() for d in DETAILS], DETAILS.index(app.settings.detail), self._plays,
            tooltip="How much you see; Settings changes it at any time.",
        )  # fmt: skip
        self._left = Toggle(
            "Left-handed", app.settings.left_handed, lambda on: self.app.change(left_handed=on),
            tooltip="The golfer stands the other way round.",
        )  # fmt: skip
        self._begin = Button("Begin", self._answer, kind="main", hint="Enter")

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return () if self.answered else (self._who, self._left, self._begin)

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

    # ---- who plays

    @property
    def _plain(self) -> str:
        return PLAIN[DETAILS.index(self.app.settings.detail)]

    def _plays(self, index: int) -> None:
        self._about.label = PLAIN[index]
        self.app.change(detail=DETAILS[index])

    def _answer(self) -> None:
        """As it stands; kept, so that it is asked once only."""
        self.answered = True
        self.app.keep()
        self.app.arrange()

    def handle(self, event: pygame.event.Event) -> bool:
        leaves = event.type == pygame.KEYDOWN and event.key in (pygame.K_ESCAPE, *ENTER)
        if leaves and not self.answered:
            self._answer()
            return True
        return False

    # ---- the frame's calls

    def layout(self, box: Rect, theme: Theme) -> None:
        gap, line = theme.gap, theme.type.line("label")
        wide = min(box.w - 8 * gap, 70 * gap)
        asked = () if self.answered else (self._who, self._about, self._left, self._begin)
        said = len(self._said(theme, wide)) * line
        rest = said + 3.5 * gap + line  # what is being done, the rail, how far it is
        needed = sum(w.height(theme, wide) + gap for w in asked) + rest
        title = theme.type.line("title") + gap
        steps = len(self.steps) * line + gap
        self._lists = title + needed + steps <= box.h
        needed += steps if self._lists else 0.0
        if title + needed > box.h:  # the window's own title says it too
            title = 0.0
        whole = title + needed
        x, y = box.x + (box.w - wide) / 2, box.y + max(ABOVE * (box.h - whole), 0.0)
        self._title = Rect(x, y, wide, title)
        y += title
        for widget in asked:
            tall = widget.height(theme, wide)
            across = {self._left: 40 * gap, self._begin: 24 * gap}.get(widget, wide)
            widget.place(Rect(x, y, min(wide, across), tall), theme)
            y += tall + gap
        self._rail = Rect(x, y + said + gap, wide, gap)
        foot = self._rail.y + 4 * gap + line + (steps if self._lists else 0.0)
        self._view = Rect(box.x, foot, box.w, box.bottom - foot)

    def _said(self, theme: Theme, wide: float) -> tuple[str, ...]:
        words = FIRST if self.first else AGAIN
        return theme.type.wrap(f"{words} {OPENS}" if self.answered else words, "label", wide)

    @property
    def moving(self) -> bool:
        return not self.problem and not (self.ready and not self.answered)

    def update(self, dt: float) -> None:
        self.seconds += dt
        if self.ready and self.answered:  # here, not when it is heard: the help may lie over this screen
            loudspeaker(self.app.settings)  # opening the mixer takes longer than a frame
            gc.collect()
            gc.freeze()  # what lives as long as the program need not be looked through in a frame
            self.app.open(self.app.titles[0])
            if self.asks:
                self.app.screen.welcome()

    @property
    def words(self) -> str:
        """What is being done now."""
        if self.problem:
            return self.problem
        if self.done == len(self.steps):
            return "Ready."
        return f"{self.done} of {len(self.steps)} steps done, {_so_far(self.seconds)} so far."

    def draw(self, surface: pygame.Surface) -> None:
        theme, rail, title = self.app.theme, self._rail, self._title
        line, said = theme.type.line("label"), self._said(theme, rail.w)
        if self._view.h >= LEAST_VIEW * theme.gap:
            self._draw_view(surface, theme)
        if title.h:
            paint.text(surface, theme, "Fringework", "title", title.x, title.y)
        paint.lines(surface, theme, said, "label", rail.x, rail.y - theme.gap - len(said) * line, "muted")
        self._draw_steps(surface, theme, rail)
        now = theme.type.wrap(self.words, "label", rail.w)
        paint.lines(surface, theme, now, "label", rail.x, rail.y + 2 * theme.gap)
        if self._lists:
            self._draw_list(surface, theme, rail.x, rail.y + 3 * theme.gap + len(now) * line)
        if not self.answered:
            self._about.draw(surface, theme)
        super().draw(surface)

    @property
    def listed(self) -> tuple[str, ...]:
        """Every step, and where it is."""
        if self.problem:
            return ()
        where = ("done", "now", "to come")
        return tuple(
            f"{name}: {where[0 if k < self.done else 1 if k == self.done else 2]}"
            for k, (name, _) in enumerate(self.steps)
        )

    def _draw_list(self, surface: pygame.Surface, theme: Theme, x: float, y: float) -> None:
        line = theme.type.line("label")
        for k, words in enumerate(self.listed):
            tone = "ink" if k == self.done else "muted"
            paint.text(surface, theme, f"{words[:1].upper()}{words[1:]}", "label", x, y + k * line, tone)

    def _draw_view(self, surface: pygame.Surface, theme: Theme) -> None:
        """The green that the Bench will open on, where there is room for it."""
        at = paint.pixels(self._view)
        camera = Camera(at.w / ACROSS, 0.25 * at.w, 0.82 * at.h)
        surface.blit(still(GREEN, camera, theme.palette, at.w, at.h, course_unit(at.w)), at)

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
