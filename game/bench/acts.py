"""What can be done at the Bench: set, play, compare, ask why. Nothing here places or draws."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from functools import partial

import pygame

from game.bench.model import NOBODY, State, entries_of, is_poor, shown_control, state_from
from game.bench.why import Why
from game.library.bench_setup import OWN_PLAYER, Entries, keep_bench, kept_bench
from game.library.own_players import kept_own_player
from game.own_player import own_player
from game.shot_view import ControlPanel
from game.shot_view.controls import OPEN_CONTROLS
from game.shot_view.intended_swing import idle_words
from game.shot_view.numbers import NumberTable
from game.shot_view.scars import NO_SCARS, Scars
from game.shot_view.session import Session, Shown, shown_with_spray
from game.shot_view.written import write_down
from game.ui.rest import proposes_rest
from game.ui.screen import Host, Screen
from game.ui.work import Answer, Worker
from levels.attempts import Attempt, attempt_of
from levels.strokes import MANY, ManyStrokes, strokes_in_parts
from physics.shot import play

__all__ = ["NO_SCAR_PAIR", "BenchActs"]

NO_SCAR_PAIR: tuple[Scars, ...] = (NO_SCARS, NO_SCARS)
NO_A = "Press C first: it keeps this set-up as A."
A_STAYS = "A stays as it is. Shift+C puts B in its place, X swaps them, Esc stops comparing."


class BenchActs(Screen):
    """The acts of the Bench on its state. `again` is called when what is told or offered has changed,
    `shown` and `tight` belong to the screen."""

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self.state = State()
        self._before: Entries = {}  # as last read or kept
        self._entered = False
        self.session, self.table = Session(app), NumberTable()
        self.ribbon = self.session.ribbon
        self.asked_why = Why(self.again)
        self.many: ManyStrokes | None = None  # of the set-up now, or while they are played of the one before
        self._counted: State | None = None  # whose strokes they are
        self.kept_many: ManyStrokes | None = None  # of A
        self.at_address, self.waiting = True, False
        self.numbers, self.beside, self.strobe = False, False, False
        self.seen_through = False  # the last shot was watched to its end
        self.shown_time = 0.0  # playhead as last drawn
        self.thrown: tuple[Shown, ...] = ()  # the last shot, and A's
        self.scars = NO_SCAR_PAIR  # what this set-up's and A's strokes took from this ground
        self.panel = ControlPanel(OPEN_CONTROLS["player"], self.set_control)

    def again(self) -> None:
        """Words or what is offered have changed."""

    def starts(self, first: bool) -> None:
        """A shot begins to play; the first of all, or a later one."""

    def ends(self) -> None:
        """A shot was watched to its end."""

    @property
    def junior(self) -> bool:
        return self.app.settings.detail == "junior"

    @property
    def worker(self) -> Worker:
        return self.app.worker

    @property
    def moving(self) -> bool:
        return self.session.moving

    def enter(self) -> None:
        if not self.state.scene and not self._entered and self.app.home is not None:
            kept, problem = kept_bench(self.app.home)
            if kept:
                self.state = state_from(kept)
                self.panel.sync(self.state.now.setup, self.state.now.motion)
            if problem:
                self.app.say(problem)
            self._before = entries_of(self.state)
        self._entered = True
        self._look_for_own()
        if self.state.shot is None:
            self.ask_stops()

    def _look_for_own(self) -> None:
        """The fitted player: another may have been measured, or another name may be playing by now."""
        file, problem = kept_own_player(self.app.home, self.app.player)
        if problem:
            self.app.say(problem)
        own = file.player() if file else None
        gone = self.state.player == OWN_PLAYER and own is None
        if own == self.state.own and not gone:
            return
        self.state = replace(self.state, own=own, player=NOBODY if gone else self.state.player)
        if self.state.player == OWN_PLAYER:
            self.ask_stops()

    def leave(self) -> None:
        self.session.pause()
        own = self.own_state
        if own.scene is None and self.app.home is not None:
            entries = entries_of(own)
            if problem := keep_bench(self.app.home, entries, self._before):
                self.app.say(problem)
            self._before = entries

    @property
    def own_state(self) -> State:
        """The player's own, whatever is on show."""
        return self.state

    # ---- changing

    def set_control(self, name: str, value: float) -> None:
        """A control at a value (SI); what it means shows at once."""
        self.change(self.state.set(name, value))
        now = self.state.now
        if words := idle_words(name, now.setup, now.motion):
            self.app.say(words)

    def change(self, state: State) -> None:
        """Take a changed state; what it means shows at once."""
        old, self.state = self.state, state
        self.panel.sync(state.now.setup, state.now.motion)
        self.at_address, self.ribbon.playing, self.shown_time = True, False, self.ribbon.time
        self.worker.forget("shot")
        self.waiting = False
        if state.shot is None:
            self.ribbon.clear()
            self.shown_time = 0.0
        if (state.now, state.spread, state.ground) != (old.now, old.spread, old.ground):
            self.asked_why.forget(self.worker)
            self.ask_stops()
        if (state.kept, state.spread, state.ground) != (old.kept, old.spread, old.ground):
            self.ask_kept(self.many if state.kept == old.now and self._is_counted(old) else None)
        self.again()

    def to_own_player(self) -> None:
        """To the page of one's own player."""
        self.app.push(own_player(self.app))

    def standard(self) -> None:
        """Everything back to a plain chip."""
        self.change(self.state.take(self.state.standard))

    def lie_on(self, ground: str) -> None:
        """The ball on other ground; says so where the aimed depth goes with it."""
        old = self.state.now.motion.depth
        self.change(self.state.on(ground))
        depth = self.state.now.motion.depth
        if depth != old and "depth" in self.panel.names:
            self.app.say(f"Intended depth goes with the lie: {shown_control('depth', depth)}.")

    # ---- computing, beside the picture

    def ask_stops(self) -> None:
        """Many strokes of the set-up now; the newest request wins."""
        s = self.state
        if s.player == "exact":
            self.worker.forget("likely stops")
            self.many = None
            return
        job = partial(strokes_in_parts, s.course, s.now.setup, s.now.motion, s.spread)
        self.worker.ask("likely stops", job, partial(self._hear_stops, s))

    def _hear_stops(self, of: State, answer: Answer) -> None:
        if answer.fresh and not answer.last:
            self.many, self._counted = answer.value, of

    def _is_counted(self, state: State) -> bool:
        """Whether the strokes at hand are of this set-up: a newer one may still be being played."""
        of = self._counted
        return of is not None and (of.now, of.spread, of.ground) == (state.now, state.spread, state.ground)

    def ask_kept(self, known: ManyStrokes | None = None) -> None:
        """Many strokes of A, if it is not known how they end."""
        s, self.kept_many = self.state, known
        if s.kept is None or s.player == "exact":
            self.worker.forget("kept stops")
            self.kept_many = None
            return
        if known is None or known.count < MANY:
            job = partial(strokes_in_parts, s.course, s.kept.setup, s.kept.motion, s.spread)
            self.worker.ask("kept stops", job, self._hear_kept)

    def _hear_kept(self, answer: Answer) -> None:
        if answer.fresh and not answer.last:
            self.kept_many = answer.value

    def play_or_pause(self) -> None:
        """Pause a shot that plays, go on with one that rests, else play a new one."""
        if self.ribbon.playing or (not self.at_address and not self.ribbon.at_end and self.ribbon.line):
            self.ribbon.toggle()
        else:
            self.play()

    def play(self) -> None:
        """Play a new shot with the setting now (and with A, the same stroke)."""
        if self.waiting:
            return
        s, self.waiting = self.state, True
        settings = [s.now] + ([s.kept] if s.kept else [])
        player, when = self.app.player, datetime.now().astimezone()

        def job() -> tuple[list[Shown], Attempt | None]:
            out = [shown_with_spray(play(s.course, n.setup, n.motion, s.spread, s.seed)) for n in settings]
            shown = s.player == "exact"  # without spread it shows how the set-up works: nobody practises
            return out, None if shown else attempt_of(out[0].shot, player, when)

        self.worker.ask("shot", job, self._hear_shot)

    def _hear_shot(self, answer: Answer) -> None:
        if not answer.fresh:
            return
        self.waiting = False
        if answer.problem:
            return
        thrown, attempt = answer.value
        self.thrown = tuple(thrown)
        if attempt:
            write_down(self.app, attempt)
        shot, *others = [shown.shot for shown in self.thrown]
        first, still = self.state.shot is None, self.session.still
        self.state = self.state.played(shot, others[0] if others else None)
        both = (shot, others[0] if others else None)
        self.scars = tuple(s.after(b) if b else s for s, b in zip(self.scars, both, strict=True))
        self.panel.settle()
        self.at_address, self.seen_through = False, still
        self.session.show(shot, slow=first)
        self.starts(first)
        self.asked_why.forget(self.worker)
        self.again()
        if still:
            self.seen()

    def show_kept(self, shown: Shown) -> None:
        """A shot that was played before, from its start; it is not written down again."""
        self.thrown, self.state = (shown,), self.state.played(shown.shot)
        self.panel.settle()
        self.at_address, self.seen_through = False, self.session.still
        self.session.show(shown.shot, slow=True)
        self.ask_stops()

    def seen(self) -> None:
        """The shot was watched to its end: now is the time to say why."""
        self.seen_through = True
        self.ends()
        self.again()
        proposes_rest(self.app)
        shot = self.state.shot
        if shot and is_poor(shot) and self.explains():
            self.why()

    def explains(self) -> bool:
        """Whether a poor shot is explained unasked."""
        return not self.junior

    def watch(self) -> None:
        """The last shot from its start."""
        if self.state.shot and self.session.watch():
            self.at_address = False
            self.starts(False)

    def jump(self, by: int) -> None:
        """To the next moment or the one before."""
        self.at_address = self.at_address and self.ribbon.line is None
        self.session.jump(by)

    # ---- why

    def why(self) -> None:
        """Ask what in the set-up costs most, among what can be moved here."""
        self.asked_why.ask(self.worker, self.state, self.panel.names, self.junior)

    def try_repaired(self) -> None:
        """Set the one thing that costs most to its best value and play."""
        repair = self.asked_why.repair
        if repair is None:
            self.app.say("Press W first: it finds what costs most.")
            return
        self.set_control(repair.control, repair.best)
        self.app.say(f"Played with {repair.label} repaired.")
        self.play()

    # ---- compare

    def compare(self) -> None:
        """Keep this set-up as A. An A that is there stays: only `keep_anew` puts another in its place."""
        if self.junior and not self.state.comparing:
            self.app.say("Compare opens at the levels player and coach: see Settings.")
        elif self.state.comparing:
            self.app.say(A_STAYS)
        else:
            self.beside = True
            self.change(self.state.keep())
            self.app.say("Kept as A. Change one thing: that is B. Space plays the same stroke with both.")

    def keep_anew(self) -> None:
        """The set-up now in the place of A."""
        if self._compares():
            self.change(self.state.keep())
            self.app.say("A is replaced: it is the set-up you had as B.")

    def stop_comparing(self) -> None:
        """A is put away, B stays on the Bench."""
        self.change(self.state.stop_comparing())

    def swap(self) -> None:
        """A and B change places."""
        if self._compares():
            self.change(self.state.swap())

    def _compares(self) -> bool:
        """Whether there is an A; says how to keep one where there is none."""
        if not self.state.comparing:
            self.app.say(NO_A)
        return self.state.comparing

    def toggle_beside(self) -> None:
        """A and B in pictures of their own, or over each other."""
        if self._compares():
            self.beside = not self.beside
            self.again()

    # ---- numbers and strobe

    def toggle_strobe(self) -> None:
        """The head at equal times through the strike, or only where it is."""
        self.strobe = not self.strobe
        self.app.say(f"Multiple exposure {'on: the head at equal times' if self.strobe else 'off'}.")
        self.again()

    def toggle_numbers(self) -> None:
        """The table of numbers, or the golfer again."""
        self.numbers = not self.numbers
        self.again()

    def copy_numbers(self) -> None:
        """The numbers to the clipboard."""
        if not self.table.rows:
            self.app.say("There are no numbers yet: play a shot first.")
            return
        try:
            pygame.scrap.put_text(self.table.text)
        except pygame.error as error:
            self.app.say(f"The numbers could not be copied: {error}.")
        else:
            self.app.say("The numbers are copied.")
