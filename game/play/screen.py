"""One scenario on the screen: the scene above, the turf and the golfer below, the card beside them."""

from collections.abc import Callable
from functools import partial

import pygame

from game.bench import scenario_on_bench
from game.draw.camera import Rect
from game.draw.course_marks import course_marks
from game.play.acts import AFTER, EXACT_PLAYER, PlayActs
from game.play.card import card
from game.play.card_parts import Card, CardPage, Room, Telling
from game.play.layout import READ, Asked, PlayPlaces, play_is_tight, play_places
from game.play.picture import Seen
from game.play.round import CALLS, Round, Step, begin
from game.play.which_shot import scenario_choice, with_option
from game.play.words import target_of, to_call
from game.shot_view.called_place import CalledPlace
from game.shot_view.controls import value_of
from game.shot_view.dot_rows import DotRow
from game.shot_view.sheet import Sheet
from game.shot_view.stage import Scene
from game.shot_view.strip_marks import Bracket, brackets
from game.shot_view.turf_pane import FILL_KEYS, FillTurf
from game.text.units import system_of
from game.ui import Button, Choice, Row, Slider, Theme, Widget, paint
from game.ui.screen import Host
from game.ui.still import Still
from game.ui.widget import walk
from levels.choose import ShotOption
from levels.scenario import Scenario
from physics.address import CONTROLS

__all__ = ["Play"]

LARGE_KEYS = (pygame.K_SPACE, pygame.K_p, pygame.K_t, pygame.K_n)  # work while the turf fills the page
ENTER = (pygame.K_RETURN, pygame.K_KP_ENTER)
WHICH = "What to play from here, for this player."
SPACED = 1.0  # steps of the rhythm between the parts of a card


class Play(PlayActs):
    """Plays a Round. `keep` hears it once a shot counts; `on_next` opens the scenario after this one."""

    title = "Play"
    keys = (
        ("Enter", "the next thing to do; on a slider it types a number, then Ctrl+Enter goes on"),
        ("arrows", "move the control or the mark in focus; Tab goes to the next"),
        ("1, 2, 3", "predict the strike; after the shot, pick a cause"),
        ("S", "play without a prediction"),
        ("Enter, R", "after the shot: once more with the same controls"),
        ("G", "after the shot: go on to the next scenario"),
        ("M", "where there is little room: more about the shot, and back"),
        ("H", "a hint; three in all, each says more"),
        ("W, E", "why; the coach's set-up"),
        ("P, Space", "show the shot again; stop and go on"),
        ("T", "multiple exposure: the head at equal times through the strike, on and off"),
        ("V", "where there is little room: the picture, or the words"),
        ("PageUp, PageDown", "turn the card where it goes on"),
        ("B", "back to the set-up"),
        ("O", "open this scenario on the Bench; Esc comes back here"),
        ("J", "before the shot: judge which shot to play, then see what each is worth"),
        ("N", "numbers on and off, for juniors"),
        *FILL_KEYS,
        ("Esc", "back to where you came from; a scenario left in the middle goes on there"),
    )

    def __init__(
        self, app: Host, r: Round | None = None, keep: Callable[[Round], None] = lambda _: None,
        on_next: Callable[[], None] | None = None, *, scenario: Scenario | None = None, trial: bool = False,
    ) -> None:  # fmt: skip
        """A Round that is kept, or `scenario` from its card on. A `trial` leaves no marks behind and leads
        back to the screen it was pushed over. ValueError with neither."""
        if r is None:
            if scenario is None:
                raise ValueError("Play takes a round or a scenario")
            r = begin("trial", scenario)
        super().__init__(app, r, (lambda _: None) if trial else keep, None if trial else on_next)
        self.trial, self.title = trial, r.scenario.title
        self.marks: tuple[CalledPlace, ...] = ()
        self.picture.turf.ask = self.picture.stage.ask = lambda *asked: app.worker.ask(*asked)
        self.fill = FillTurf((self.picture.turf,), self._filled)
        self._card = Card((), ())
        self._column, self._ways = Sheet([]), Row([])
        self.places = PlayPlaces()
        self.theme, self._still = app.theme, Still()
        self._room, self._page = Room.ALL, CardPage.RESULT
        self._tight = self._looking = self._was_moving = False

    # ---- the frame's calls

    @property
    def widgets(self) -> tuple[Widget, ...]:
        if self.fill.on:
            return (*self.fill.widgets, *((self.ribbon,) if self.places.ribbon.h else ()))
        golfer = (self.picture.golfer,) if self.places.paired and self.intent else ()
        ribbon = (self.ribbon,) if self.places.ribbon.h else ()
        cards = (self._column, self._ways) if self._setting else (self._ways, self._column)
        return (*self.marks, *cards, *golfer, *ribbon)

    @property
    def _setting(self) -> bool:
        """Whether the card is to be worked before one goes on."""
        return self.r.step in (Step.SET, Step.CALL)

    def layout(self, box: Rect, theme: Theme) -> None:
        self.theme = theme
        tight, room = play_is_tight(box, theme), self._room
        if tight is not self._tight:
            self._tight = tight
            self._fill()
        if (room := self._roomy(box)) is not self._room:
            self._room = room
            self._refill()
        at = self.places = self._places(box, self._column, self._ways)
        if self.fill.on:
            tall = self.ribbon.height(theme, box.w) if self._film else 0.0
            window, _, line = self.fill.places(box, theme, tall, False)
            at = self.places = PlayPlaces(window=window, ribbon=line if self._film else at.ribbon)
            self.ribbon.place(at.ribbon, theme)
            return
        self._ways.place(at.ways, theme)
        self._column.place(at.card, theme)
        self.ribbon.place(at.ribbon, theme)
        self.picture.golfer.place(at.figure, theme)

    def _places(self, box: Rect, column: Sheet, ways: Row) -> PlayPlaces:
        theme = self.theme
        foot = ways.height(theme, box.w - 2 * theme.gap) if ways.items else 0.0
        return play_places(box, theme, Asked(
            self.r.step, foot, self._film is not None, self._moving or self._looking,
            partial(self.ribbon.height, theme), partial(column.height, theme),
        ))  # fmt: skip

    def _roomy(self, box: Rect) -> Room:
        """How much of the result can be read without scrolling."""
        if self.r.step is not Step.RESULT:
            return Room.ALL
        for room in Room:
            made = card(self.r, self._telling(room, CardPage.RESULT), self)
            column = Sheet(made.items, SPACED)
            at = self._places(box, column, self._row(made)).card
            if column.height(self.theme, at.w) <= at.h + 0.5:
                return room
        return Room.RESULT

    @property
    def _moving(self) -> bool:
        """Whether the picture is what matters now: a shot runs, or one sets."""
        running = self._film is not None and (self.ribbon.playing or not self.ribbon.at_end)
        return running or self.r.step in (Step.SET, Step.PLAY)

    def update(self, dt: float) -> None:
        if self._film is not None:
            self._advance(dt)
        if self._moving is not self._was_moving:
            self._was_moving = self._moving
            self.app.arrange()
        self._name_key()

    def _name_key(self) -> None:
        """The main button names the key that presses it now: on a slider Enter begins a number."""
        focused = self.app.focus.widget
        hint = "Ctrl+Enter" if isinstance(focused, Slider) and focused.numbers else "Enter"
        for button in self._card.ways:
            if button.kind == "main" and button.hint != hint:
                button.hint = hint
                self.app.arrange()

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if self.intent and self.fill.handle(event):
            return True
        if self.fill.on and event.key not in LARGE_KEYS:
            return False
        if event.key in ENTER:
            self._press_main()
            return True
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            return self._column.handle(event)
        if pygame.K_1 <= event.key <= pygame.K_3 and self._pick(event.key - pygame.K_1):
            return True
        acts: dict[int, Callable[[], None]] = {
            pygame.K_r: self.again, pygame.K_h: self.hint, pygame.K_w: self.ask, pygame.K_e: self.example,
            pygame.K_p: self.replay, pygame.K_b: self.back, pygame.K_n: self.numbers, pygame.K_v: self.look,
            pygame.K_SPACE: self._pause, pygame.K_o: self.on_bench, pygame.K_t: self.strobe,
            pygame.K_s: self.skip, pygame.K_g: self.onward, pygame.K_m: self.more,
            pygame.K_j: self.which_shot,
        }  # fmt: skip
        if event.key not in acts:
            return False
        acts[event.key]()
        return True

    def _pick(self, which: int) -> bool:
        """A strike to predict, or a cause; whether one could be picked."""
        if self.r.step is Step.CALL and "strike" in self.r.scenario.predict:
            self.called(strike=CALLS[which])
            self._build(keep_focus=True)
        elif self.r.step is Step.RESULT and self.r.asking and self.r.chosen is None:
            if self._room is Room.RESULT:
                self._page = CardPage.WHY
            self.choose(which)
        else:
            return False
        return True

    def _press_main(self) -> None:
        for button in self._card.ways:
            if button.kind == "main":
                button.on_press()
                return

    # ---- what only the page does

    def go(self) -> None:
        """The next step; while something is still to be predicted, to that."""
        if self.r.step is Step.CALL and (unset := self.r.unset):
            self.app.say(to_call(unset))
            self.app.focus.set(self._first())
        else:
            super().go()

    def ask(self) -> None:
        """Open the question why; where it has a page of its own, to that page and back."""
        if self.r.step is not Step.RESULT:
            return
        if self._room is Room.RESULT:
            self._page = CardPage.RESULT if self._page is CardPage.WHY else CardPage.WHY
        if self.r.asking:
            self._build()
        super().ask()

    def more(self) -> None:
        """All there is about the shot, and back."""
        if self.r.step is Step.RESULT and self._room is not Room.ALL:
            self._page = CardPage.RESULT if self._page is CardPage.MORE else CardPage.MORE
            self._build(keep_focus=True)

    def look(self) -> None:
        """Words and picture change places where there is not room for both."""
        if self._tight and self.r.step in READ:
            self._looking = not self._looking
            self._build(keep_focus=True)

    def _filled(self) -> None:
        """The turf fills the page, or no longer."""
        self.app.arrange()
        self.app.focus.set(self.fill.pane if self.fill.on else self._first())

    def replay(self) -> None:
        super().replay()
        if self.app.settings.reduced_motion and not self._looking:
            self.look()

    def on_bench(self) -> None:
        """The scenario's ground, lie, hole and set-up on the Bench; all stays here as it is."""
        player = self.r.scenario.player
        self.app.push(scenario_on_bench(self.app, self.course, self.r.setup, self.r.motion, player))

    def which_shot(self) -> None:
        """Before the shot: what to play here; what is picked can be set or taken to the Bench."""
        if self.r.step is Step.SET:
            self.app.push(scenario_choice(self.app, self.r, self._take, self._take_to_bench))

    def _take(self, option: ShotOption) -> None:
        self.r = with_option(self.r, option)
        self._stand()
        self._build()

    def _take_to_bench(self, option: ShotOption) -> None:
        self.app.push(
            scenario_on_bench(self.app, self.course, option.setup, option.motion, self.r.scenario.player)
        )

    def strobe(self) -> None:
        """The head at equal times through the strike, on and off."""
        turf = self.picture.turf
        turf.strobe = self.picture.golfer.strobe = not turf.strobe
        self.app.say(f"Multiple exposure {'on' if turf.strobe else 'off'}.")

    def _pause(self) -> None:
        if self._film:
            self.ribbon.toggle()

    def set(self, name: str, value: float) -> None:
        super().set(name, value)
        control, value = CONTROLS[name], value_of(self.r.setup, self.r.motion, name)
        for slider in self._card.items:
            if isinstance(slider, Slider) and slider.label.lower() == control.label:
                slider.value = slider.bounds.held(value * control.scale)

    # ---- building

    def _to(self, r: Round) -> None:
        if r is not self.r:
            self._looking, self._page = False, CardPage.RESULT
        super()._to(r)

    def _telling(self, room: Room, page: CardPage) -> Telling:
        return Telling(
            self.with_numbers, self._yards, self.match, self.ribbon.at_end, self._onward, self.told,
            self._tight, self._looking, room, page, self.many,
        )  # fmt: skip

    def _fill(self) -> None:
        """The card and the marks of this step."""
        self._card = card(self.r, self._telling(self._room, self._page), self)
        self._column, self._ways = Sheet(self._card.items, SPACED), self._row(self._card)
        self.marks = tuple(self._mark(what) for what in ("landing", "stop") if self._calls(what))
        for mark in self.marks:
            mark.others = tuple(m for m in self.marks if m is not mark)

    def _row(self, made: Card) -> Row:
        """The card's buttons, and the way to the Bench where one may leave."""
        ways = list(made.ways)
        if self.r.step is Step.SET or self.r.step in AFTER:
            ways.append(
                Button("On the Bench", self.on_bench, hint="O", tooltip="Try it freely; Esc comes back.")
            )
        if self.r.step is Step.SET:
            ways.append(Button("Which shot?", self.which_shot, hint="J", tooltip=WHICH))
        return Row(ways)

    def _refill(self) -> None:
        """The same step with other widgets; the focus stays on the one of the same name."""
        focused = self.app.focus.widget
        self._fill()
        if focused and self.app.screen is self:
            same = (w for w in walk(self.widgets) if w.focusable and w.label == focused.label)
            self.app.focus.set(next(same, self._first()))

    def _build(self, keep_focus: bool = False) -> None:
        """Answers may come while another screen is in front: then nothing of that one is touched."""
        focused = self.app.focus.widget
        self._fill()
        if self.app.screen is not self:
            return
        self.app.arrange()
        label = focused.label if focused else ""
        same = next((w for w in walk(self.widgets) if w.focusable and w.label == label), None)
        self.app.focus.set(same if keep_focus and same else self._first())

    @property
    def _onward(self) -> str:
        """Where the way on leads."""
        return "Go back" if self.trial else "Next scenario" if self.on_next else "To the chapters"

    def _calls(self, what: str) -> bool:
        return self.r.step is Step.CALL and what in self.r.scenario.predict

    def _mark(self, what: str) -> CalledPlace:
        return CalledPlace(
            what, getattr(self.r.call, what), self.picture.stage, self.course,
            lambda x: self.called(**{what: x}), far=self.r.scenario.hole.x_m,
            numbers=self.with_numbers, yards=self._yards,
        )  # fmt: skip

    def _first(self) -> Widget | None:
        """Where the focus begins: on what is still to be predicted, on another try after the shot."""
        if self.r.step is Step.CALL:
            for mark in self.marks:
                if mark.x is None:
                    return mark
            if not self.r.unset:
                return self._ways.items[0]
            return next((w for w in self._column.items if isinstance(w, Choice)), None)
        return next((w for w in walk(self.widgets) if w.focusable and w.enabled), None)

    # ---- drawing

    def _scene(self) -> Scene | None:
        if self.intent is None:
            return None
        film, r = self._film, self.r
        over = r.step in AFTER and film is not None
        marks = course_marks(self.course, film if over else None)
        return Scene(
            self.course, self.intent.setup, self.intent.address, film, self.ribbon.time if film else 0.0,
            r.before if r.step in (Step.SET, Step.CALL) else None,
            (), marks, self.told.lit if over else "", units=system_of(self._yards),
            numbers=self.with_numbers, rows=self._rows(Step.RESULT), later=self._rows(Step.PLAY),
        )  # fmt: skip

    def _rows(self, step: Step) -> tuple[DotRow, ...]:
        """At that step the player's strokes with this set-up as dots; a machine has none."""
        scenario = self.r.scenario
        if self.r.step is not step or scenario.player == EXACT_PLAYER:
            return ()
        hole, units = self.course.hole, system_of(self._yards)
        return (
            DotRow(self.many, hole.x if hole else None, target_of(scenario), "", units, self.with_numbers),
        )

    def _gaps(self) -> tuple[Bracket, ...]:
        """What was called against what was."""
        shot, call = self.r.shot, self.r.call
        if shot is None or self.r.step is not Step.RESULT:
            return ()
        named = (("landing", call.landing, shot.run.carry), ("stop", call.stop, shot.run.rest))
        called = {what: x for what, x, _ in named if x is not None}
        return brackets(called, {what: x for what, _, x in named}, self.with_numbers, self._yards)

    def draw(self, surface: pygame.Surface) -> None:
        theme, scene = self.theme, self._scene()
        if scene is None or self.intent is None:
            paint.text(surface, theme, "The course is being drawn.", "label",
                       self.places.strip.x + 2 * theme.gap, self.places.strip.y + 2 * theme.gap,
                       "muted")  # fmt: skip
        else:
            live, own = self.r.step is Step.SET, self.app.settings
            seen = Seen(scene, self.intent, self._old if live else None, self._gaps(), live,
                        self.with_numbers, own.left_handed, own.reduced_motion)  # fmt: skip
            self.picture.draw(surface, theme, self.places, seen, self.ribbon.playing)
        if self.fill.on:
            for widget in self.widgets:
                widget.draw(surface, theme)
            return
        for mark in self.marks:
            mark.settle(self.places.strip, theme)
            mark.draw(surface, theme)
        self._still.draw(surface, theme, (self._column, self._ways))
        if self.places.ribbon.h:
            self.ribbon.draw(surface, theme)
