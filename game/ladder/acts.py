"""The ladder's doings: balls chosen, set and played, with their sounds, and the search beside the picture."""

from abc import ABC, abstractmethod
from collections.abc import Iterator
from dataclasses import replace
from math import inf

from game.ladder.model import Best, Ladder, Played, Seeking, ladder_of, play_rung, search
from game.ladder.parts import LadderRow
from game.shot_view.session import Sounds
from game.ui.screen import Host, Screen
from game.ui.work import Answer
from physics.address import Motion, Setup
from physics.course import level_course
from physics.spread import PLAYERS, Spread

__all__ = ["COUNTS", "WHO", "LadderActs"]

HOLE = 8.0  # m, a plain chip
COUNTS = (7, 9)
WHO = ("steady", "club", "beginner")
PLAY, ALL, SEEK = "ball", "row of balls", "search"  # channels of the worker


class LadderActs(Screen, ABC):
    """The row, what was played and found. `_refresh` is called when there is something else to show."""

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self.ladder = ladder_of(level_course("fairway", HOLE), Setup(), Motion())
        self.chosen, self.player = self.ladder.middle, "club"
        self.played: dict[int, Played] = {}
        self.best: dict[int, Best] = {}
        self.clock: dict[int, float] = {}
        self.seeking: tuple[int, Seeking] | None = None
        self.sounds = Sounds(app)
        self._heard = -1  # the ball whose sounds are played: one at a time can be told apart

    @abstractmethod
    def _refresh(self, sliders: bool = True) -> None:
        """There is something else to show."""

    @abstractmethod
    def _told(self) -> None:
        """Only the search has moved on."""

    def row(self) -> LadderRow:
        """What the pictures draw."""
        own = self.app.settings
        return LadderRow(
            self.ladder, self.chosen, self.played, self.clock, own.left_handed, own.reduced_motion
        )

    @property
    def spread(self) -> Spread:
        """Whose strokes are measured."""
        return PLAYERS[self.player]

    def leave(self) -> None:
        self._stop_looking()

    # ---- choosing and setting

    def choose(self, at: int) -> None:
        """This ball is the chosen one."""
        if 0 <= at < len(self.ladder.rungs) and at != self.chosen:
            self.chosen = at
            self._refresh()

    def set(self, name: str, value: float) -> None:
        """One control (SI) of the chosen ball."""
        self.ladder = self.ladder.changed(self.chosen, **{name: value})
        self._refresh(sliders=False)

    def keep_hands(self) -> None:
        """The whole row from the middle ball, hands staying where they are."""
        self._ladder_to(self.ladder.hands_kept(), "Every ball has the middle one's hands now.")

    def level(self) -> None:
        """The whole row as the middle ball."""
        self._ladder_to(self.ladder.levelled(), "Every ball is set as the middle one now.")

    def take(self) -> None:
        """The chosen ball as the search found it."""
        if found := self.best.get(self.chosen):
            rungs = tuple(found.rung if i == self.chosen else r for i, r in enumerate(self.ladder.rungs))
            said = f"Ball {self.chosen + 1} has the settings found now; Space plays it."
            self._ladder_to(replace(self.ladder, rungs=rungs), said)
        else:
            self.app.say("Nothing is found for this ball yet; S looks for it.")

    def _ladder_to(self, ladder: Ladder, said: str) -> None:
        self.ladder = ladder
        self.app.say(said)
        self._refresh()

    def _player(self, index: int) -> None:
        """Another player: what was measured counts no more."""
        self.player = WHO[index]
        self._forget()

    def _balls(self, index: int) -> None:
        """A row of another length, from the same middle ball."""
        standard = self.ladder.rungs[self.ladder.middle]
        setup = replace(self.ladder.setup, shaft_lean=standard.shaft_lean)
        motion = replace(
            self.ladder.motion, release=standard.release, follow_through=standard.follow_through,
            swing_length=standard.swing_length, lean_change=standard.lean_change,
        )  # fmt: skip
        self.ladder = ladder_of(self.ladder.course, setup, motion, COUNTS[index])
        self.chosen = self.ladder.middle
        self._forget()

    def _forget(self) -> None:
        self._stop_looking()
        for channel in (PLAY, ALL):
            self.app.worker.forget(channel)
        self.played, self.best, self.clock = {}, {}, {}
        self._refresh()

    # ---- playing

    def play(self) -> None:
        """Play the chosen ball."""
        ladder, at, spread = self.ladder, self.chosen, self.spread
        self._heard = at
        self.app.worker.ask(PLAY, lambda: (at, play_rung(ladder, at, spread)), self._hear_ball)

    def play_all(self) -> None:
        """Play every ball as it is set; they fly together, and the chosen one is heard."""
        ladder, spread = self.ladder, self.spread
        self._heard = self.chosen

        def balls() -> Iterator[tuple[int, Played]]:
            for at in range(len(ladder.rungs)):
                yield at, play_rung(ladder, at, spread)

        self.app.worker.ask(ALL, balls, self._hear_ball)

    def _hear_ball(self, answer: Answer) -> None:
        if not answer.fresh or answer.value is None:
            return
        at, one = answer.value
        if at >= len(self.ladder.rungs):
            return
        self.played[at] = one
        if not self.app.settings.reduced_motion:
            self.clock[at] = 0.0
        if at == self._heard:
            self.sounds.take(one.shot, f"Ball {at + 1}")
            if self.app.settings.reduced_motion:  # nothing flies: only how it was struck is heard
                self.sounds.strike()
        self._refresh()

    @property
    def moving(self) -> bool:
        return bool(self.clock)

    def update(self, dt: float) -> None:
        for at in list(self.clock):
            run = self.played[at].shot.run
            before = run.t[0] + self.clock[at] if self.clock[at] > 0.0 else -inf
            self.clock[at] += dt
            now = run.t[0] + self.clock[at]
            if at == self._heard:
                self.sounds.pass_time(before, now)
            if now >= run.t[-1]:
                del self.clock[at]

    # ---- searching

    def seek(self) -> None:
        """Look for the trio that suits the chosen ball, or stop looking."""
        if self.seeking:
            self._stop_looking()
            self._refresh()
        else:
            self._look((self.chosen,))

    def seek_all(self) -> None:
        """The same for every ball, one after the other."""
        if not self.seeking:
            self._look(tuple(range(len(self.ladder.rungs))))

    def _look(self, places: tuple[int, ...]) -> None:
        ladder, spread = self.ladder, self.spread

        def looking() -> Iterator[tuple[int, Seeking]]:
            for at in places:
                for step in search(ladder, at, spread):
                    yield at, step

        self.seeking = (places[0], Seeking(0, 1))
        self.app.worker.ask(SEEK, looking, self._hear_step)
        self._refresh()

    def _stop_looking(self) -> None:
        if self.seeking:
            self.app.worker.forget(SEEK)
            self.seeking = None

    def _hear_step(self, answer: Answer) -> None:
        if not answer.fresh:
            return
        if answer.last or answer.problem:
            self.seeking = None
        else:
            self.seeking = answer.value
            at, step = answer.value
            if step.best is None:
                self._told()
                return
            self.best[at] = step.best
        self._refresh()
