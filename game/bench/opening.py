"""The first minute on the Bench: the lesson on lean, then the pupil's turn with the next thing named."""

from __future__ import annotations

from functools import partial

from game.bench.lesson import LessonActs
from game.bench.model import State
from game.text.opening import (
    GUIDE_END,
    GUIDE_LESSON,
    GUIDE_WAITS,
    came_words,
    ready_words,
    thing_words,
)
from game.ui.screen import Host
from game.ui.work import Answer
from levels.opening import (
    HIDES,
    LEAN,
    NextMove,
    NextThing,
    dug_in,
    lean_that_digs,
    lean_that_mends,
    solid_with,
)

__all__ = ["OpeningActs", "next_dig", "next_mend"]

CHANNEL = "next thing"
SHOWS_WELL = ("tight", "soft", "fairway")  # lies tried where lean hides
NEAR = 1e-3  # rad


def next_dig(s: State) -> NextThing | None:
    """What to try so that the next stroke digs; None where nothing that can be named does it."""
    here = lean_that_digs(s.course, s.now, s.spread, s.seed)
    if here is not None:
        return NextThing(NextMove.ADD, here)
    for lie in SHOWS_WELL:
        there = s.on(lie)
        if lie != s.ground and lean_that_digs(there.course, there.now, s.spread, s.seed) is not None:
            shares = (solid_with(s.course, s.now, s.spread, lean) for lean in (0.0, HIDES))
            return NextThing(NextMove.LIE, 0.0, lie, *shares)
    return None


def next_mend(s: State) -> NextThing | None:
    """What to try so that the next stroke comes off, or at least more of them."""
    value = lean_that_mends(s.course, s.now, s.spread, s.seed)
    if value is not None:
        return NextThing(NextMove.MEND, value)
    now, then = (solid_with(s.course, s.now, s.spread, lean) for lean in (s.now.value(LEAN), 0.0))
    return NextThing(NextMove.FEWER, 0.0, "", now, then) if then.value > now.value else None


class OpeningActs(LessonActs):
    """The guide: `welcome` begins it, Esc ends it at any time, and it goes on from whatever is played."""

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self.stage = ""  # "", lesson, try, end
        self.thing: NextThing | None = None
        self._came, self._dug, self._thinks = "", False, False
        self._asked_on = ""  # the lie the next thing was worked out on

    def point_at(self, thing: NextThing) -> None:
        """Bring the control of the next thing to hand."""

    @property
    def guided(self) -> bool:
        """Whether the guide speaks."""
        return bool(self.stage)

    # ---- coming and going

    def welcome(self) -> None:
        """The program starts for the first time."""
        self.stage = "lesson"
        self.learn("lean")
        if not self.lesson_asked and not self.in_lesson:
            self.skip_guide()

    def skip_guide(self) -> None:
        """No more of it; the Bench stays as it is."""
        self.worker.forget(CHANNEL)
        self.stage, self.thing, self._came, self._dug, self._thinks = "", None, "", False, False
        self.again()

    def leave_lesson(self) -> None:
        super().leave_lesson()
        if self.stage == "lesson":
            self.skip_guide()

    def play_or_pause(self) -> None:
        if self._turn_next:
            self.stage = "try"
            self.leave_lesson()
            self.look_at("Controls")
            self._plan()
            return
        super().play_or_pause()

    def learn(self, name: str = "") -> None:
        if self.stage in ("try", "end"):  # another lesson: the guide has done its work
            self.skip_guide()
        super().learn(name)

    @property
    def _turn_next(self) -> bool:
        """Whether the lesson of the guide is over and waits for the pupil."""
        return self.stage == "lesson" and self.in_lesson and self.ribbon.at_end

    # ---- the pupil's turn

    def change(self, state: State) -> None:
        old = self.state
        super().change(state)
        if self.stage == "end":
            self.skip_guide()
        elif self._on_the_way(state):
            self.again()  # stepping through the lies: nothing is asked anew until the named one is there
        elif self.stage == "try" and _but_lean(old) != _but_lean(state):
            self._came = self._came if old.ground == state.ground else ""
            self._plan()

    def _on_the_way(self, state: State) -> bool:
        """Whether the pupil is choosing the lie that was named, and is not there yet."""
        if self.stage != "try" or self.thing is None or not self.names_lie:
            return False
        return state.ground not in (self.thing.lie, self._asked_on)

    def seen(self) -> None:
        super().seen()
        shot = self.state.shot
        if self.stage != "try" or self.in_lesson or shot is None:
            return
        self._came = came_words(shot, self.with_numbers)
        if shot.strike.solid and self._dug:
            self.stage, self.thing = "end", None
            self.again()
            return
        self._dug = dug_in(shot) or (self._dug and not shot.strike.solid)
        self._plan()

    @property
    def with_numbers(self) -> bool:
        """A junior sees no numbers until asked."""
        return self.numbers or not self.junior

    def explains(self) -> bool:
        return super().explains() and self.stage != "try"

    def _plan(self) -> None:
        """Work out what to try next, on the stroke that will be played next."""
        self.thing, self._thinks = None, True
        if self.state.player == "exact":
            self.skip_guide()
            return
        made = next_mend if self._dug else next_dig
        self._asked_on = self.state.ground
        self.worker.ask(CHANNEL, partial(made, self.state), self._hear_thing)
        self.again()

    def _hear_thing(self, answer: Answer) -> None:
        if not answer.fresh or self.stage != "try":
            return
        self._thinks = False
        if answer.problem or answer.value is None:
            self.stage = "end"
        else:
            self.thing = answer.value
            self.point_at(answer.value)
        self.again()

    @property
    def names_lie(self) -> bool:
        """Whether what is named next is another lie."""
        return self.thing is not None and self.thing.asked is NextMove.LIE

    @property
    def ready(self) -> bool:
        """Whether the next thing is set: what is left is to play."""
        thing, lean = self.thing, self.state.now.value(LEAN)
        if thing is None or thing.asked is NextMove.LIE:
            return False
        if thing.asked is NextMove.ADD:
            return lean >= thing.value - NEAR
        return abs(lean - thing.value) < NEAR

    # ---- words

    @property
    def guide_words(self) -> str:
        """What the guide says now."""
        if self.stage == "lesson":
            return GUIDE_LESSON
        if self.stage == "end":
            return f"{self._came} {GUIDE_END}".strip()
        if self.stage != "try" or self.in_lesson:
            return ""
        if self.thing is None:
            return f"{self._came} {GUIDE_WAITS}".strip() if self._thinks else ""
        if self.ready:
            return ready_words(self.thing, self.with_numbers)
        return f"{self._came} {thing_words(self.thing, self._asked_on, self.with_numbers)}".strip()


def _but_lean(s: State) -> object:
    """All that the next stroke depends on but the lean that is to be moved."""
    return s.now.with_value(LEAN, 0.0), s.ground, s.player, s.kept is None
