"""One scenario on the screen: the scene above, the turf and the golfer below, the card beside them."""

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pygame

from game.play_loop import Round, Step
from game.play_words import hint_line
from game.scene.controls import value_of
from game.scene.golfer_panel import GolferPanel, Handle
from game.scene.patch import Kept
from game.scene.ribbon import TimeRibbon
from game.scene.sentence import SentenceView
from game.scene.stage import Scene, Stage, marks_of
from game.scene.stance import Intent, intend, stance_at
from game.scene.turf_window import TurfWindow
from game.scene.voice import voice
from game.screen import Screen
from game.screens.callmarks import Mark, brackets, draw_bracket, draw_goal
from game.screens.play_card import Card, Telling, card
from game.sound import Cue, due, score
from game.ui import Column, Row, Slider, Theme, Widget, layout, paint
from game.ui.widget import walk
from game.view.camera import Rect
from game.work import Answer
from levels.facts import COUNT, SEED
from levels.scoring import Match, Verdict, judge, match
from physics.address import CONTROLS
from physics.cause import tell
from physics.cloud import cloud
from physics.results import Shot
from physics.run import HOLED, REST
from physics.shot import play
from physics.spread import EXACT, PLAYERS

if TYPE_CHECKING:
    from game.app import App

__all__ = ["Play"]

STRIP = 0.40  # share of the height for the course
LEAST_CARD, MOST_CARD = 0.37, 0.58  # share of the width for the card
CARD = 46.0  # steps of the rhythm a card is wide
ROOM = 22.0  # steps of the rhythm under the course that leave room for pictures beside the card
PAIR = 62.0  # steps of the rhythm that turf and golfer need side by side
AFTER = (Step.GAP, Step.WHY, Step.VERDICT)
ENTER = (pygame.K_RETURN, pygame.K_KP_ENTER)


class _QuietHandle(Handle):
    """A knob whose plate says what it moves, without the number."""

    @property
    def caption(self) -> str:
        return super().caption.split()[0]


class _QuietTurf(TurfWindow):
    """The turf without angles and depths."""

    def _words(self, *_: Any) -> None:
        return


def _without_numbers(label: str) -> str:
    """The label up to its first number."""
    words = label.split()
    return " ".join(words[: next((i for i, w in enumerate(words) if w[0].isdigit()), len(words))])


class Play(Screen):
    """Plays a Round. `keep` hears it once a shot counts; `on_next` opens the scenario after this one."""

    title = "Play"
    keys = (
        ("Enter", "go on; on a slider it types a number, then Ctrl+Enter goes on"),
        ("arrows", "move the control or the mark in focus; Tab goes to the next"),
        ("1, 2, 3", "pick a cause"),
        ("R", "once more with the same controls"),
        ("H", "a hint; three in all, each says more"),
        ("W, E", "why; the coach's way"),
        ("P, Space", "show the shot again; stop and go on"),
        ("B", "back to the set-up"),
        ("N", "numbers on and off, for juniors"),
        ("Esc", "back to the chapters"),
    )

    def __init__(
        self, r: Round, keep: Callable[[Round], None] = lambda _: None,
        on_next: Callable[[], None] | None = None,
    ) -> None:  # fmt: skip
        self.r, self.keep, self.on_next = r, keep, on_next
        self.title = r.scenario.title
        self.course = r.scenario.course()
        self.with_numbers = not r.junior
        self.stage, self.ribbon, self.golfer = Stage(), TimeRibbon(), GolferPanel(self.set)
        self._turf: TurfWindow = TurfWindow()
        self.intent: Intent | None = None
        self._old: Intent | None = None  # that of the try before
        self.match: Match | None = None
        self.stops: tuple[float, ...] = ()
        self.told = SentenceView()
        self._cues: tuple[Cue, ...] = ()
        self.marks: tuple[Mark, ...] = ()
        self._card = Card((), ())
        self._column, self._ways = Column([]), Row([])
        self._strip = self._window = self._figure = Rect(0, 0, 1, 1)
        self._paired = self._open = True
        self._still = Kept[pygame.Surface]()
        self._asked = self._was_moving = False

    # ---- the frame's calls

    @property
    def widgets(self) -> tuple[Widget, ...]:
        golfer = (self.golfer,) if self._paired and self.intent else ()
        ribbon = (self.ribbon,) if self._film and self._open else ()
        cards = (self._column, self._ways) if self._setting else (self._ways, self._column)
        return (*self.marks, *cards, *golfer, *ribbon)

    @property
    def _setting(self) -> bool:
        """Whether the card is to be worked before one goes on."""
        return self.r.step in (Step.SET, Step.CALL) or (self.r.step is Step.WHY and self.r.chosen is None)

    def enter(self, app: "App") -> None:
        super().enter(app)
        junior = app.settings.detail == "junior"
        if junior != self.r.junior:
            self.r, self.with_numbers = replace(self.r, junior=junior), not junior
        if not self._asked:
            self._asked = True
            app.worker.ask("course", self._look_job(), self._hear_look)
        if self.r.step in (Step.PLAY, Step.EXAMPLE) and self._film and not self.ribbon.at_end:
            self.ribbon.playing = True
        self._quieten()
        self._build()

    def leave(self) -> None:
        self.ribbon.playing = False

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        wide = box.w - 2 * gap
        foot = self._ways.height(theme, wide) if self._card.ways else 0.0
        strip, rest, bar = layout.take(box, top=round(STRIP * box.h), bottom=foot + gap if foot else 0.0)
        self._strip = strip
        self._ways.place(Rect(box.x + gap, bar.y + gap / 2, wide, foot), theme)
        self._open = rest.h >= ROOM * gap or self._moving
        share = min(max(CARD * gap / box.w, LEAST_CARD), MOST_CARD) if self._open else 1.0
        left, right = layout.split(rest, (1.0 - share, share))
        right = Rect(right.x + gap / 2, right.y, right.w - gap, right.h)
        left = left.inset(gap)
        if self._film and self._open:
            side = right if rest.h < ROOM * gap else left  # where there is little room, under the words
            tall = self.ribbon.height(theme, side.w)
            _, above, under = layout.take(side, bottom=tall, gap=gap)
            self.ribbon.place(under, theme)
            left, right = (left, above) if side is right else (above, right)
        self._column.place(right, theme)
        self._place_left(left, theme)

    @property
    def _moving(self) -> bool:
        """Whether the picture below is needed even where there is little room: a shot runs, or one sets."""
        running = self._film is not None and (self.ribbon.playing or not self.ribbon.at_end)
        return running or self.r.step in (Step.SET, Step.PLAY)

    def _place_left(self, left: Rect, theme: Theme) -> None:
        """Turf, with the golfer beside it where there is room."""
        self._paired = self._open and left.w >= PAIR * theme.gap
        parts = layout.split(left, (0.62, 0.38), theme.gap) if self._paired else (left, Rect(0, 0, 0, 0))
        self._window, self._figure = parts
        self.golfer.place(self._figure, theme)

    def update(self, dt: float) -> None:
        if self._film is None:
            return
        was_end = self.ribbon.at_end
        before, now = self.ribbon.update(dt)
        if now > before:
            self._sound(due(self._cues, before, now))
        if self.ribbon.at_end and not was_end:
            self._ended()
        if self._open != (self._open or self._moving) or (self._was_moving and not self._moving):
            self.app.arrange()
        self._was_moving = self._moving

    def _sound(self, cues: tuple[Cue, ...]) -> None:
        for cue in cues:
            voice(self.app.settings).play(cue)
            self.app.say(f"{cue.caption[:1].upper()}{cue.caption[1:]}.")

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        ctrl = event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT)
        if event.key in ENTER:
            self._press_main()
            return True
        if ctrl:
            return False
        if event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            return self._column.handle(event)
        if pygame.K_1 <= event.key <= pygame.K_3 and self.r.step is Step.WHY:
            self.choose(event.key - pygame.K_1)
            return True
        acts: dict[int, Callable[[], None]] = {
            pygame.K_r: self.again, pygame.K_h: self.hint, pygame.K_w: self.ask, pygame.K_e: self.example,
            pygame.K_p: self.replay, pygame.K_b: self.back, pygame.K_n: self.numbers,
            pygame.K_SPACE: self._pause,
        }  # fmt: skip
        if event.key not in acts:
            return False
        acts[event.key]()
        return True

    def _press_main(self) -> None:
        for button in self._card.ways:
            if button.kind == "main":
                button.on_press()
                return

    # ---- what the card's controls do

    def go(self) -> None:
        """The next step."""
        if self.r.step is Step.PLAY and self.r.verdict and not self.ribbon.at_end:
            assert self.ribbon.line
            self.ribbon.seek(self.ribbon.line.end)
            self._ended()
        elif self.r.step is Step.VERDICT and self.r.done:
            (self.on_next or self.app.pop)()
        else:
            self._to(self.r.go())

    def again(self) -> None:
        """Once more with the same controls."""
        if self.r.verdict:
            self.match, self.stops, self._old = None, (), self.intent
            self.told.tell(())
            self._to(self.r.again())
            self._stand()

    def back(self) -> None:
        """One step back, before the shot is played."""
        if earlier := self.r.back():
            self._to(earlier)

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
        """To the question why."""
        self._to(self.r.ask())

    def example(self) -> None:
        """To the coach's way."""
        self._to(self.r.show_example())

    def choose(self, cause: int) -> None:
        """Pick a cause."""
        self.r = self.r.choose(cause)
        self._build()

    def numbers(self) -> None:
        """Numbers on and off for a junior."""
        if self.r.junior:
            self.with_numbers = not self.with_numbers
            self._quieten()
            self._build(keep_focus=True)

    def replay(self) -> None:
        """Show the shot from its start."""
        if self._film and self.r.step is not Step.PLAY:
            self.ribbon.load(self._film, slow=True, at_end=self.app.settings.reduced_motion)

    def _pause(self) -> None:
        if self._film:
            self.ribbon.toggle()

    def set(self, name: str, value: float) -> None:
        """A control has moved, here or on the golfer."""
        if self.r.step is not Step.SET or name not in self.r.scenario.open_controls:
            return
        self.r = self.r.set(name, value)
        self._stand()
        control, value = CONTROLS[name], value_of(self.r.setup, self.r.motion, name)
        for slider in self._card.items:
            if isinstance(slider, Slider) and slider.label.lower() == control.label:
                slider.value = slider.bounds.held(value * control.scale)

    def take(self, club: str) -> None:
        """Another club."""
        self.r = self.r.take(club)
        self._stand()

    def called(self, **marks: Any) -> None:
        """The call has changed."""
        self.r = self.r.called(**marks)

    # ---- steps

    def _to(self, r: Round) -> None:
        """Go there: what has to be worked out or shown first is asked for."""
        if r is self.r:
            return
        before, self.r = self.r, r
        if r.step is Step.PLAY:
            self.app.worker.ask("shot", self._shot_job(), self._hear_shot)
        elif r.step is Step.EXAMPLE:
            self._open_example()
        elif before.step is Step.EXAMPLE:
            self._close_example()
        self._build()

    def _open_example(self) -> None:
        if self.r.example is None:
            self.app.worker.ask("example", self._example_job(), self._hear_example)
        else:
            self._show(self.r.example)

    def _close_example(self) -> None:
        self.told.tell(())
        self._stand()
        if self.r.shot:
            self._show(self.r.shot, at_end=True)

    def _show(self, shot: Shot, at_end: bool = False) -> None:
        """This shot on the ribbon, and in sentences."""
        still = at_end or self.app.settings.reduced_motion
        self.ribbon.load(shot, slow=True, at_end=still)
        self._cues = score(shot)
        self.told.tell(tell(shot, self._yards, self.r.junior))
        self.intent = intend(shot.setup, shot.motion)
        if still and not at_end:
            self._ended()

    def _ended(self) -> None:
        """The showing is over: after the first, the gap."""
        if self.r.step is Step.PLAY:
            self._to(self.r.go())
        elif self.r.step is Step.EXAMPLE:
            self._build(keep_focus=True)

    # ---- computing, beside the picture

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

    def _shot_job(self) -> Callable[[], tuple[Shot, Verdict]]:
        r, yards = self.r, self._yards

        def job() -> tuple[Shot, Verdict]:
            shot = play(self.course, r.setup, r.motion, PLAYERS[r.scenario.player], r.seed)
            return shot, judge(r.scenario, shot, yards)

        return job

    def _hear_shot(self, answer: Answer) -> None:
        if not answer.fresh or self.r.step is not Step.PLAY:
            return
        if not answer.value:
            self._to(self.r.failed())
            return
        shot, verdict = answer.value
        self.r = self.r.played(shot, verdict)
        self.keep(self.r)
        self.app.worker.ask("match", self._match_job(shot), self._hear_match)
        self._show(shot)
        if self.r.step is Step.PLAY:
            self._build()

    def _example_job(self) -> Callable[[], Shot]:
        reference = self.r.scenario.reference_shot()
        assert reference is not None
        return lambda: play(self.course, *reference, EXACT)

    def _hear_example(self, answer: Answer) -> None:
        if not answer.value:
            self._to(self.r.failed())
        else:
            self.r = self.r.shown(answer.value)
            if self.r.step is Step.EXAMPLE:
                self._show(answer.value)
                self._build()

    def _match_job(self, shot: Shot) -> Callable[[], tuple[Shot, Match, tuple[float, ...]]]:
        scenario = self.r.scenario

        def job() -> tuple[Shot, Match, tuple[float, ...]]:
            c = cloud(self.course, shot.setup, shot.motion, PLAYERS[scenario.player], SEED, COUNT)
            ended = (c.code == REST) | (c.code == HOLED)
            return shot, match(scenario, shot), tuple(c.rest[ended].tolist())

        return job

    def _hear_match(self, answer: Answer) -> None:
        if answer.value and answer.value[0] is self.r.shot:
            _, self.match, self.stops = answer.value
            if self.r.step is Step.VERDICT:
                self._build(keep_focus=True)

    # ---- building

    @property
    def _film(self) -> Shot | None:
        """The shot being shown now."""
        if self.r.step is Step.EXAMPLE:
            return self.r.example
        return self.r.shot if self.r.step is Step.PLAY or self.r.step in AFTER else None

    def _stand(self) -> None:
        """The golfer as set now."""
        self.intent = intend(self.r.setup, self.r.motion)

    def _quieten(self) -> None:
        """Knobs and turf with or without numbers."""
        self._turf = TurfWindow() if self.with_numbers else _QuietTurf()
        kind = Handle if self.with_numbers else _QuietHandle
        old = self.golfer._handles
        self.golfer._handles = {n: kind(n, h.on_change, h.value, h.pull) for n, h in old.items()}

    def _build(self, keep_focus: bool = False) -> None:
        """The card and the marks of this step; the focus goes to the next thing to do.

        Answers may come while another screen is in front: then nothing of that one is touched.
        """
        focused = self.app.focus.widget
        telling = Telling(
            self.with_numbers, self._yards, self.match, self.ribbon.at_end, self.on_next is None, self.told
        )
        label = focused.label if focused else ""
        self._card = card(self.r, telling, self)
        self._column, self._ways = Column(self._card.items, 1.25), Row(self._card.ways)
        self.marks = tuple(self._mark(what) for what in ("landing", "stop") if self._calls(what))
        if self.app.screen is not self:
            return
        self.app.arrange()
        same = next((w for w in walk(self.widgets) if w.focusable and w.label == label), None)
        self.app.focus.set(same if keep_focus and same else self._first())

    def _calls(self, what: str) -> bool:
        return self.r.step is Step.CALL and what in self.r.scenario.predict

    def _mark(self, what: str) -> Mark:
        return Mark(
            what, getattr(self.r.call, what), self.stage, self.course,
            lambda x: self.called(**{what: x}), numbers=self.with_numbers, yards=self._yards,
        )  # fmt: skip

    def _first(self) -> Widget | None:
        """Where the focus begins at this step."""
        return next((w for w in walk(self.widgets) if w.focusable and w.enabled), None)

    # ---- drawing

    def _scene(self) -> Scene | None:
        if self.intent is None:
            return None
        film, r = self._film, self.r
        over = r.step in AFTER and film is not None
        hole = self.course.hole
        stops = self.stops if r.step is Step.VERDICT else ()
        marks = marks_of(self.course, film if over else None, stops, self._yards)
        if not self.with_numbers and hole:
            marks = tuple((_without_numbers(text), x, y) for text, x, y in marks)
        return Scene(
            self.course, self.intent.setup, self.intent.address, film, self.ribbon.time if film else 0.0,
            r.before if r.step in (Step.SET, Step.CALL) else None,
            stops, marks, self.told.lit if over else "",
        )  # fmt: skip

    def draw(self, surface: pygame.Surface) -> None:
        theme, scene = self.app.theme, self._scene()
        if scene is None:
            paint.text(surface, theme, "The course is being drawn.", "label", self._strip.x + 2 * theme.gap,
                       self._strip.y + 2 * theme.gap, "muted")  # fmt: skip
        elif self.ribbon.playing:
            self._draw_picture(surface, theme, scene)
        else:  # what stands still is drawn once
            knobs = tuple((w.hovered, w.focused) for w in self.golfer.parts)
            key = (
                scene, theme, self._strip, self._window, self._figure, self._open, self.with_numbers,
                self.r.step, self.app.settings.left_handed, knobs,
            )  # fmt: skip
            area = paint.pixels(self.app.box)

            def make() -> pygame.Surface:
                self._draw_picture(surface, theme, scene)
                return surface.subsurface(area).copy()

            surface.blit(self._still.get(key, make), area)
        for mark in self.marks:
            mark.settle(self._strip, theme)
            mark.draw(surface, theme)
        for widget in (self._column, self._ways, *((self.ribbon,) if self._film and self._open else ())):
            widget.draw(surface, theme)

    def _draw_picture(self, surface: pygame.Surface, theme: Theme, scene: Scene) -> None:
        """Course with goal and gaps, turf and golfer."""
        self.stage.draw(surface, self._strip, theme, scene)
        draw_goal(surface, theme, self._strip, self.stage, self.r.scenario, self.course)
        if self.r.step in (Step.GAP, Step.WHY):
            self._draw_gaps(surface, theme)
        if self._open:
            self._draw_lower(surface, theme, scene)
        line = Rect(self._strip.x, self._strip.bottom, self._strip.w, theme.line)
        paint.box(surface, line, theme.palette.rule)

    def _draw_gaps(self, surface: pygame.Surface, theme: Theme) -> None:
        assert self.r.shot is not None
        call, run = self.r.call, self.r.shot.run
        named = (("landing", call.landing, run.carry), ("stop", call.stop, run.rest))
        called = {what: x for what, x, _ in named if x is not None}
        actual = {what: x for what, _, x in named}
        for gap in brackets(called, actual, self.with_numbers, self._yards):
            draw_bracket(surface, theme, self._strip, self.stage, self.course, gap)

    def _draw_lower(self, surface: pygame.Surface, theme: Theme, scene: Scene) -> None:
        assert self.intent is not None
        film, time = self._film, self.ribbon.time
        old = self._old if self.r.step is Step.SET else None
        self._turf.draw(
            surface, self._window, theme, self.course, self.intent, shot=film, time=time,
            old=old, lit=scene.lit,
        )  # fmt: skip
        paint.box(surface, self._window, None, theme.palette.rule, 0.0, theme.line)
        if not self._paired:
            return
        live = self.r.step is Step.SET
        self.golfer.show(
            self.intent, self.app.settings.left_handed, self.r.scenario.open_controls, live, theme
        )
        stance = stance_at(film, self.intent.address, time) if film else None
        self.golfer.draw(surface, theme, stance, old.address if old else None)
