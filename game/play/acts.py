"""How one scenario goes on: the Round and its shots, what is worked out beside it, the film, the sounds."""

from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Any

from game.play.jobs import Matched, Tried, example_of, match_of, shot_of, strokes_of
from game.play.picture import Picture
from game.play.round import Round, Step
from game.play.words import hint_line
from game.shot_view.sentence import SentenceView
from game.shot_view.session import Session, Shown
from game.shot_view.stance import Intent, intend
from game.shot_view.written import write_down
from game.sound.loudspeaker import loudspeaker
from game.sound.result import result_cue
from game.text.story import tell
from game.ui.rest import proposes_rest
from game.ui.screen import Host, Screen
from game.ui.work import Answer
from levels.scoring import Match
from levels.strokes import MANY, ManyStrokes
from physics.results import Shot

__all__ = ["AFTER", "EXACT_PLAYER", "PlayActs"]

AFTER = (Step.RESULT,)
REFLEX = 0.5  # s after a film in which a press was still meant for it: about twice a reaction, assumed
EXACT_PLAYER = "exact"  # has no strays, so that all strokes would be one


class PlayActs(Screen, ABC):
    """Plays a Round without a card: `_build` is called when there is another thing to show or to do."""

    def __init__(
        self, app: Host, r: Round, keep: Callable[[Round], None], on_next: Callable[[], None] | None
    ) -> None:  # fmt: skip
        super().__init__(app)
        self.r, self.keep, self.on_next = r, keep, on_next
        self.course = r.scenario.course()
        self.picture, self.session, self.told = Picture(r.scenario, self.set), Session(app), SentenceView()
        self.ribbon = self.session.ribbon
        self.with_numbers = not r.junior
        self.intent: Intent | None = None
        self._old: Intent | None = None  # that of the try before
        self.match: Match | None = None
        self.many: ManyStrokes | None = None  # of the set-up just played, as many as have come
        self._example: Shown | None = None
        self._try: Shown | None = None
        self._asked = False
        self._still_meant = 0.0  # s that a press is still taken to be meant for the film that has ended
        self._written = ""  # uid in the notebook of the try on the screen

    @abstractmethod
    def _build(self, keep_focus: bool = False) -> None:
        """There is something else to show; the focus goes to the next thing to do."""

    def enter(self) -> None:
        app = self.app
        junior = app.settings.detail == "junior"
        if junior != self.r.junior:
            self.r, self.with_numbers = replace(self.r, junior=junior), not junior
        if not self._asked:
            self._asked = True
            self.picture.turf.strobe = self.picture.golfer.strobe = app.settings.detail == "coach"
            app.worker.ask("course", self._look_job(), self._hear_look)
        self._work()  # another scenario may have taken the channel meanwhile
        if self.r.step in (Step.PLAY, Step.EXAMPLE) and self._film and not self.ribbon.at_end:
            self.ribbon.playing = True
        self.picture.numbered(self.with_numbers)
        self._build()

    def leave(self) -> None:
        self.session.pause()

    @property
    def moving(self) -> bool:
        return self.session.moving or self._still_meant > 0.0

    def _advance(self, dt: float) -> None:
        """Let the film run, with its sounds."""
        self._still_meant = max(self._still_meant - dt, 0.0)
        if self.session.advance(dt):
            self._ended()

    # ---- what can be done

    def go(self) -> None:
        """The next step."""
        if self.r.step is Step.PLAY and self.r.verdict and not self.ribbon.at_end:
            assert self.ribbon.line
            self.ribbon.seek(self.ribbon.line.end)
            self._ended(by_itself=False)
        else:
            self._to(self.r.go())

    def again(self) -> None:
        """Once more with the same controls, and nothing predicted."""
        if self.r.verdict:
            self.match, self.many, self._old = None, None, self.intent
            self.told.tell(())
            self._to(self.r.again())
            self._stand()

    def once_more(self) -> None:
        """The button: again, unless it has just come under a finger that wanted to see the end."""
        if not self._still_meant:
            self.again()

    def back(self) -> None:
        """One step back, before the shot is played."""
        if earlier := self.r.back():
            self._to(earlier)

    def onward(self) -> None:
        """To the next scenario, or back where there is none; once there is a result."""
        if self.r.step is Step.RESULT:
            (self.on_next or self.app.pop)()

    def skip(self) -> None:
        """Play without a prediction."""
        self._to(self.r.skip())

    def hint(self) -> None:
        """The next hint."""
        if self.r.step not in (Step.CARD, Step.SET, Step.CALL):
            return
        if not self.r.scenario.hints:
            self.app.say("There are no hints here.")
            return
        self.r = self.r.hint()
        self.app.say(hint_line(self.r.hints, self.r.told_hints[-1], self.with_numbers))
        self._build(keep_focus=True)

    def ask(self) -> None:
        """Open the question why."""
        self._to(self.r.ask())

    def example(self) -> None:
        """To the coach's way."""
        self._to(self.r.show_example())

    def choose(self, cause: int) -> None:
        """Pick a cause."""
        before, self.r = self.r, self.r.choose(cause)
        if self.r is not before and self._written and (named := self.r.named_cause):
            self.app.book.log_cause(self._written, named)
        self._build()

    def numbers(self) -> None:
        """Numbers on and off for a junior."""
        if self.r.junior:
            self.with_numbers = not self.with_numbers
            self.picture.numbered(self.with_numbers)
            self._build(keep_focus=True)

    def replay(self) -> None:
        """Show the shot from its start."""
        if self._film and self.r.step is not Step.PLAY:
            self.session.show(self._film, slow=True)

    def set(self, name: str, value: float) -> None:
        """A control has moved, here or on the golfer."""
        if self.r.step is Step.SET and name in self.r.scenario.open_controls:
            self.r = self.r.set(name, value)
            self._stand()

    def take(self, club: str) -> None:
        """Another club."""
        self.r = self.r.take(club)
        self._stand()

    def called(self, **marks: Any) -> None:
        """The call has changed."""
        if self.r.step is Step.CALL:
            self.r = self.r.called(**marks)

    # ---- steps

    def _to(self, r: Round) -> None:
        """Go there: what has to be worked out or shown first is asked for."""
        if r is self.r:
            return
        before, self.r = self.r, r
        self._work()
        if r.step is Step.EXAMPLE and self._example:
            self._show(self._example)
        elif before.step is Step.EXAMPLE:
            self._close_example()
        self._build()

    def _work(self) -> None:
        """Ask for what this step waits for. The same try has the same seed, however often it is asked."""
        if self.r.step is Step.PLAY and self.r.verdict is None:
            self.app.worker.ask("shot", shot_of(self.r, self.course), self._hear_shot)
        elif self.r.step is Step.EXAMPLE and self._example is None:
            self.app.worker.ask("example", example_of(self.r.scenario, self.course), self._hear_example)
        elif self.r.shot and self.r.step in AFTER and self.match is None:
            self.app.worker.ask("match", match_of(self.r.scenario, self.r.shot), self._hear_match)
            if self.r.scenario.player != EXACT_PLAYER:
                job = strokes_of(self.r.scenario, self.course, self.r.shot)
                self.app.worker.ask("strokes", job, partial(self._hear_strokes, self.r.shot))

    def _close_example(self) -> None:
        self.told.tell(())
        self._stand()
        if self._try and self.r.shot:
            self._show(self._try, at_end=True)

    def _show(self, shown: Shown, at_end: bool = False) -> None:
        """This shot on the ribbon, and in sentences."""
        self.picture.spray(shown.spray)
        self.session.show(shown.shot, slow=True, at_end=at_end)
        self.told.tell(tell(shown.shot, self._yards, self.r.junior))
        self.intent = intend(shown.shot.setup, shown.shot.motion)
        if self.session.still and not at_end:
            self._ended()

    def _ended(self, by_itself: bool = True) -> None:
        """The showing is over: after the first, the result, which sounds."""
        if self.r.step is Step.PLAY and self.r.verdict:
            self._still_meant = REFLEX if by_itself else 0.0
            cue = result_cue(self.r.verdict.met, self.r.done)
            loudspeaker(self.app.settings).play(cue)
            if not proposes_rest(self.app):
                self.app.say(cue.caption)
            self._to(self.r.go())
        elif self.r.step is Step.EXAMPLE:
            self._build(keep_focus=True)

    # ---- what comes back from beside the picture

    @property
    def _yards(self) -> bool:
        return self.app.settings.units == "yd"

    def _look_job(self) -> Callable[[], Intent]:
        """The first stance beside the picture: its laws may have to be compiled."""
        setup, motion = self.r.setup, self.r.motion
        return lambda: intend(setup, motion)

    def _hear_look(self, answer: Answer) -> None:
        if answer.value:
            self._stand()
            self._build(keep_focus=True)

    def _hear_shot(self, answer: Answer) -> None:
        if not answer.fresh or self.r.step is not Step.PLAY or self.r.verdict:
            return
        if not isinstance(answer.value, Tried):
            self._to(self.r.failed())
            return
        self._try = answer.value
        self.picture.scars = self.picture.scars.after(answer.value.shot)
        self.r = self.r.played(answer.value.shot, answer.value.verdict)
        self.keep(self.r)
        attempt = answer.value.attempt
        self._written = write_down(self.app, replace(attempt, passed=self.r.done)) if attempt else ""
        self._show(answer.value)
        if self.r.step is Step.PLAY:
            self._build()

    def _hear_example(self, answer: Answer) -> None:
        if not answer.fresh:
            return
        if not isinstance(answer.value, Shown):
            self._to(self.r.failed())
            return
        self._example, self.r = answer.value, self.r.shown(answer.value.shot)
        if self.r.step is Step.EXAMPLE:
            self._show(answer.value)
            self._build()

    def _hear_match(self, answer: Answer) -> None:
        if isinstance(answer.value, Matched) and answer.value.shot is self.r.shot:
            self.match = answer.value.match
            if self.r.step is Step.RESULT:
                self._build(keep_focus=True)

    def _hear_strokes(self, of: Shot, answer: Answer) -> None:
        if answer.fresh and of is self.r.shot and isinstance(answer.value, ManyStrokes):
            self.many = answer.value
            if self.many.count == MANY and self.r.step is Step.RESULT:
                self._build(keep_focus=True)  # they are told in words once all have come

    @property
    def _film(self) -> Shot | None:
        """The shot being shown now."""
        if self.r.step is Step.EXAMPLE:
            return self._example.shot if self._example else None
        return self.r.shot if self.r.step is Step.PLAY or self.r.step in AFTER else None

    def _stand(self) -> None:
        """The golfer as set now."""
        self.intent = intend(self.r.setup, self.r.motion)
