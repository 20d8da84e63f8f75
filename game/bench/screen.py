"""The Bench: set, play, see why. Free rehearsal on a simple green."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

import pygame

from game.bench import layout as bench_layout
from game.bench.acts import NO_SCAR_PAIR
from game.bench.compare import between_words, draw_letter, letter_words, marks_of_both
from game.bench.lesson import LEAVE_FIRST, draw_stopped
from game.bench.model import Setting, State
from game.bench.opening import OpeningActs
from game.bench.parts import (
    CLUBS,
    GO_ON,
    GROUND_NAMES,
    KEYS,
    PAUSE,
    PLAY,
    PLAYING,
    SNUG,
    VIEWS,
    YOUR_TURN,
    Parts,
)  # fmt: skip
from game.bench.pictures import Look, Pictures
from game.bench.take_home import TakeHome
from game.bench.which_shot import player_labels, player_names, which_shot
from game.draw.camera import Rect
from game.draw.course_marks import course_marks
from game.shot_view import ControlPanel, GolferPanel, SentenceView
from game.shot_view.controls import OPEN_CONTROLS
from game.shot_view.dot_rows import DotRow
from game.shot_view.numbers import rows_of
from game.shot_view.ribbon import HUNDREDTH, QUARTER
from game.shot_view.session import Shown
from game.shot_view.turf_pane import FillTurf
from game.text.cautions import LEFT_NOTE, NOTE, PRESET_NOTE
from game.text.spread import spread_sentence
from game.text.story import Phrase, tell
from game.text.units import UNIT_SYSTEMS
from game.ui import Theme, Widget, layout, paint
from game.ui.button import BUTTON_AIR
from game.ui.screen import Host
from game.ui.still import Still
from game.ui.widget import NOWHERE, walk
from levels.opening import LEAN, NextThing
from levels.strokes import ManyStrokes
from physics.address import Motion, Setup
from physics.course import Course
from physics.equipment import FLAGSTICK
from physics.shot import lie_of
from physics.spread import PLAYERS

__all__ = ["HELLO", "HELLO_JUNIOR", "Bench", "scenario_on_bench", "shot_on_bench"]

HELLO = "Press Space to play. Move a slider or a knob on the golfer first, if you like."
HELLO_JUNIOR = "Press Space to play."
LESSON_KEYS = (
    pygame.K_SPACE, pygame.K_l, pygame.K_a, pygame.K_q, pygame.K_h, pygame.K_f, pygame.K_LEFTBRACKET,
    pygame.K_RIGHTBRACKET, pygame.K_p, pygame.K_k,
)  # fmt: skip
SNUG_SIDE = 36.0  # steps of width of the controls below which their buttons stand close
CASE_LINES = 4.8  # lines that a case of a lesson takes in half the width, how often it comes off included
ROOMY = 84.0  # steps of height from which the story is told in larger type
PATIENCE = 0.3  # s after which a stroke still being worked out is told, assumed
SHORT_NOTE = "Height and distance, not left and right."  # the other one stands by the players then


class Bench(OpeningActs):
    """The start screen."""

    title = "Bench"
    keys = KEYS

    def __init__(self, app: Host, state: State | None = None) -> None:
        """On the simple green, or with `state` on a scenario's course; that one is not kept."""
        super().__init__(app)
        self.state = state or self.state
        self.said, self.said_a = SentenceView(), SentenceView()
        self.golfer = GolferPanel(self.set_control)
        self.pictures = Pictures(self.golfer, lambda *asked: app.worker.ask(*asked))
        self._home = False  # whether to come back to the words
        self.tight, self._detail = False, ""
        self._laid: tuple[object, ...] = ()  # what was last placed
        self._box = self._note = Rect(0, 0, 1, 1)
        self._said_now = 0  # sentences as last told
        self._waited = 0.0  # s for the stroke that is asked for
        self._sentences: tuple[object, Sequence[Sequence[Phrase]], Sequence[Sequence[Phrase]]] = (
            None,
            (),
            (),
        )  # of the last shot and of A's, and for whom
        self.take_home = TakeHome(self)
        self.parts = Parts(self, self.take_home, self.said, self.said_a, self.show_view)
        self.fill = FillTurf(self.pictures.turfs, self._filled, self.parts.go)
        self.parts.larger = self.fill.opener
        self._still = Still()

    @property
    def _on_paper(self) -> tuple[Widget, ...]:
        """With room for all: what stands still while a shot plays, beside the pictures."""
        p = self.parts
        words = (p.words_a, p.words) if self._two_columns else (p.words,)
        return (p.go, p.controls, *words)

    @property
    def widgets(self) -> tuple[Widget, ...]:
        p, places = self.parts, self.places
        if self.fill.on:
            return (*self.fill.widgets, self.ribbon)
        if not self.tight:
            lower = (p.numbers,) if self.numbers else () if places.second else (self.golfer,)
            go, controls, *words = self._on_paper
            return (go, controls, *lower, *words, self.ribbon)
        part: dict[str, tuple[Widget, ...]] = {
            "Course": (p.words,) if places.both else (), "Golfer": () if self.in_lesson else (self.golfer,),
            "Controls": (p.controls,), "Text": (p.words,),
        }  # fmt: skip
        return (p.side, *part.get(VIEWS[self.shown], ()), self.ribbon)

    def layout(self, box: Rect, theme: Theme) -> None:
        self._box, gap = box, theme.gap
        self.tight = bench_layout.bench_is_tight(box, gap)
        self._set_detail()
        self._tell()
        self.parts.fill(self.tight)
        left = self._side(theme) if self.tight else 0.0  # tabs need the whole height
        lines = theme.type.wrap(self.note, "small", box.w - left - 3 * gap)
        tall = len(lines) * theme.type.line("small") + gap / 2
        inset = gap if self.tight else 2 * gap
        self._note = Rect(box.x + left + inset, box.bottom - tall, box.w - left - 3 * gap, tall)
        self.places = self._planned(Rect(box.x, box.y, box.w, box.h - tall), tall, theme)
        if self.fill.on:
            self.places = self._large(Rect(box.x, box.y, box.w, box.h - tall - gap / 2), theme)
        p = self.parts
        p.set_air(SNUG if not self.tight and self.places.controls.w < SNUG_SIDE * gap else BUTTON_AIR)
        self._place(theme)
        self._laid = self._shape()

    def _large(self, box: Rect, theme: Theme) -> bench_layout.BenchPlaces:
        """The turf alone over time and buttons."""
        pair = self.beside and self.state.comparing
        turf, other, ribbon = self.fill.places(box, theme, self.ribbon.height(theme, 0.0), pair)
        second = (NOWHERE, other) if other else None
        return replace(self.places, turf=turf, ribbon=ribbon, second=second)

    def _filled(self) -> None:
        """The turf fills the stage, or no longer."""
        self.app.arrange()
        self.app.focus.set(self.fill.pane if self.fill.on else self.parts.go)

    def _side(self, theme: Theme) -> float:
        """Width of the tabs."""
        return max(w.width(theme) for w in (self.parts.go, *self.parts.tabs)) + 4 * theme.gap

    def _planned(self, box: Rect, under: float, theme: Theme) -> bench_layout.BenchPlaces:
        p, gap = self.parts, theme.gap
        beside = self.beside and self.state.comparing
        side = self._side(theme)
        sizes = bench_layout.Sizes(
            gap, p.go.height(theme, 40 * gap), self.ribbon.height(theme, 0.0),
            theme.type.line(self._roles(theme)[0]), side, under, self._two_columns and not self.in_lesson,
            CASE_LINES if self.in_lesson else bench_layout.WORD_LINES[0],
        )  # fmt: skip
        if self.tight:
            return bench_layout.tight(box, sizes, VIEWS[self.shown] == "Course", beside)
        return bench_layout.wide(box, sizes, beside and not self.numbers)

    def _place(self, theme: Theme) -> None:
        at, p = self.places, self.parts
        for i, tab in enumerate(p.tabs):
            tab.current = i == self.shown
        if self.fill.on:
            self.ribbon.place(at.ribbon, theme)
            return
        p.go.clip = p.go.within = None  # of the column it stands in with large text
        (p.side if self.tight else p.go).place(at.play, theme)
        if not self.tight or VIEWS[self.shown] == "Controls":  # one part shows: what stands in both, in it
            p.controls.place(at.controls, theme)
        if not self.tight or VIEWS[self.shown] != "Controls":
            self._place_words(theme)
        self.ribbon.place(at.ribbon, theme)
        if self.numbers and not self.tight:  # else the table stands among the words
            p.numbers.place(at.golfer, theme)
        else:
            self.golfer.place(at.golfer, theme)

    @property
    def _two_columns(self) -> bool:
        """Whether A and B have a column of words each."""
        return self.state.comparing and not self.tight

    def _roles(self, theme: Theme) -> tuple[str, ...]:
        """The sizes of type the words may have, largest first; who asked for large text keeps it."""
        if self.tight:
            return ("label",)
        return ("body", "label", "small") if self._box.h >= ROOMY * theme.gap else ("label", "small")

    def _place_words(self, theme: Theme) -> None:
        """Smaller where they would have to scroll; then what is new stands first."""
        p, box, two = self.parts, self.places.words, self._two_columns
        columns = (p.words_a, p.words) if two else (p.words,)
        halves = layout.split(box, [1.0] * len(columns), theme.gap)
        p.guide.role = "lead"
        for role in self._roles(theme):
            p.told_in(role)
            for column, half in zip(columns, halves, strict=True):
                column.place(half, theme)
            if not any(column.overflow for column in columns):
                return
        if two:
            return
        p.newest_first()
        p.words.place(box, theme)
        if not self.tight and p.led in p.words.items and p.led.rect.bottom > box.bottom:
            p.guide.role = "strong"  # all that it asks for is in sight
            p.words.place(box, theme)

    def again(self) -> None:
        """Something has changed: show it, and place anew what that moves."""
        self._set_detail()
        self._tell()
        if self._shape() != self._laid:
            self.layout(self._box, self.app.theme)

    def _shape(self) -> tuple[object, ...]:
        """All that a place on this page depends on."""
        p = self.parts
        words = (
            p.between.label,
            p.cost.label,
            p.guide.label,
            self.said.text,
            self.said_a.text,
            p.spread.label,
            p.spread_a.label,
        )
        now = (
            self.shown,
            self.numbers,
            self.beside,
            self.strobe,
            self.state.comparing,
            self.tight,
            self.fill.on,
        )
        lesson = self.lesson, self.lesson_asked
        told = self.asked_why.repair is None, self.panel, self.table.rows, self._said_now
        return (*words, *now, *told, *lesson)

    def _set_detail(self) -> None:
        """The controls of this level of detail, with or without numbers."""
        detail = self.app.settings.detail
        if detail != self._detail:
            self._detail, self.strobe = detail, detail == "coach"
            self.panel = ControlPanel(OPEN_CONTROLS[detail], self.set_control)
        self.panel.numbers = self.with_numbers
        self.panel.sync(self.state.now.setup, self.state.now.motion)

    @property
    def note(self) -> str:
        """What the view cannot show, in one line where it must be short."""
        if self.tight:
            return SHORT_NOTE
        turned = f" {LEFT_NOTE}" if self.app.settings.left_handed else ""
        return f"{NOTE} {PRESET_NOTE}{turned}"

    def show_view(self, index: int) -> None:
        """With large text: the part to look at."""
        self.shown, self._home = index, False
        self.again()

    def starts(self, first: bool) -> None:
        """With large text a shot is seen on the course; the words come back once it ends."""
        view, still = VIEWS[self.shown], self.app.settings.reduced_motion
        if not self.tight:
            return
        if view in ("Course", "Turf") or (still and view == "Text"):
            self._home = first and not still
        else:
            self.shown, self._home = 0, not still

    def look_at(self, view: str) -> None:
        if view == "Controls" and self.fill.on:  # the turf alone leaves no room for them
            self.fill.toggle()
        if self.tight:
            self.shown, self._home = VIEWS.index(view), False

    def ends(self) -> None:
        if self._home and self.tight:
            self.shown = VIEWS.index("Text")
        self._home = False

    def toggle_numbers(self) -> None:
        if self.tight and not self.numbers:
            self.shown = VIEWS.index("Text")
        super().toggle_numbers()

    # ---- telling

    @property
    def _told(self) -> int:
        """How many sentences may be said: the strike once it was seen, the rest at the end."""
        shot, line = self.state.shot, self.ribbon.line
        if shot is None or line is None:
            return 0
        if self.at_address or self.ribbon.at_end or self.seen_through:
            return 9
        return 1 if self.ribbon.time > line.times[2] else 0

    def _tell(self) -> None:
        shot, self._said_now = self.state.shot, self._told
        p = self.parts
        p.between.label, p.cost.label = between_words(self.state), self.asked_why.words
        if self.tight and self.guide_words not in ("", p.guide.label):
            self.app.say(self.guide_words)  # the column may be scrolled away from it
        p.guide.label = self.guide_words
        p.of_a.label, p.of_b.label = letter_words("A", self.kept_many), letter_words("B", self.many)
        says = self.tight or self.state.comparing
        p.spread.label = self._spread_words(self.many) if says else ""
        p.spread_a.label = self._spread_words(self.kept_many) if says else ""
        if self.state.ground in GROUND_NAMES:
            p.ground.index = GROUND_NAMES.index(self.state.ground)
        p.player.options = player_labels(self.state)
        p.player.index = player_names(self.state).index(self.state.player)
        p.club.index = CLUBS.index(self.state.now.setup.club.name)
        if shot is None:
            self._sentences, self.table.rows = (None, (), ()), ()
            self.said.tell(((Phrase(HELLO_JUNIOR if self.junior else HELLO),),))
            self.said_a.tell(())
            return
        kept = self.state.kept_shot
        asked = (shot, kept, self.app.settings.units, self.junior)
        if asked != self._sentences[0]:
            yards = self.app.settings.units == "yd"
            self._sentences = (
                asked,
                tell(shot, yards, self.junior),
                tell(kept, yards, self.junior) if kept else (),
            )
            self.table.rows = rows_of(shot, self.app.settings.units)
        self.said.tell(self._sentences[1][: self._said_now])
        self.said_a.tell(self._sentences[2][: self._said_now])

    def _spread_words(self, many: ManyStrokes | None) -> str:
        """Where the balls of a set-up stop, where the dots have no room to say it."""
        if many is None or self.in_lesson:
            return ""
        units = UNIT_SYSTEMS[self.app.settings.units]
        return spread_sentence(many, FLAGSTICK.height, units, self.with_numbers)

    # ---- the guide

    @property
    def _named(self) -> Widget | None:
        """The control of the next thing, or what plays it once it is set."""
        if self.thing is None:
            return None
        if self.ready:
            return self.parts.go
        return self.parts.ground if self.names_lie else self.panel.sliders.get(LEAN)

    def point_at(self, thing: NextThing) -> None:
        if self._named is not self.parts.go:  # with large text the story shows after a shot
            self.look_at("Controls")
        self.again()
        if self.app.screen is self and self._named:
            self.app.focus.set(self._named)
            if self._named.within:  # it may have had the focus, and other words stand by it now
                if self.parts.guide in self._named.within.parts:  # its words stand under it, over the way out
                    self._named.within.reveal(self.parts.skip)
                self._named.within.reveal(self._named)  # last: all of it is in sight, whatever else is

    def _draw_named(self, surface: pygame.Surface, theme: Theme) -> None:
        """A frame round the control that is next, thick enough to be seen from afar."""
        named = self._named
        if named is None or named not in walk(self.widgets):
            return
        box, wide = named.rect.inset(-0.5 * theme.gap), 3.0 * theme.line
        with paint.clipped(surface, named.clip or self._box):
            paint.box(surface, box, None, theme.palette.landing, theme.radius, wide)

    # ---- keys and time

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if self.fill.handle(event):
            return True
        if event.key == pygame.K_ESCAPE and self.take_home.making:
            self.take_home.stop()
            return True
        if event.key == pygame.K_ESCAPE and (self.in_lesson or self.lesson_asked):
            self.leave_lesson()
            return True
        if event.key == pygame.K_ESCAPE and self.guided:
            self.skip_guide()
            return True
        if event.key == pygame.K_ESCAPE and self.state.comparing:
            self.stop_comparing()
            return True
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT | pygame.KMOD_META):
            if event.key == pygame.K_c:
                self.copy_numbers()
                return True
            return False
        if event.key == pygame.K_c and event.mod & pygame.KMOD_SHIFT and not self.in_lesson:
            self.keep_anew()
            return True
        act = self._acts.get(event.key)
        if act is None:
            return False
        if self.in_lesson and event.key not in LESSON_KEYS:
            self.app.say(LEAVE_FIRST)
            return True
        act()
        return True

    @property
    def _acts(self) -> dict[int, Callable[[], None]]:
        """What plain keys do."""
        pace = self.session.pace
        return {
            pygame.K_SPACE: self.play_or_pause, pygame.K_l: self.learn,
            pygame.K_RETURN: self.play, pygame.K_KP_ENTER: self.play,
            pygame.K_a: self.watch, pygame.K_w: self.why, pygame.K_r: self.try_repaired,
            pygame.K_j: partial(which_shot, self), pygame.K_o: self.to_own_player,
            pygame.K_c: self.compare, pygame.K_v: self.toggle_beside, pygame.K_x: self.swap,
            pygame.K_n: self.toggle_numbers, pygame.K_t: self.toggle_strobe, pygame.K_s: self.standard,
            pygame.K_q: partial(pace, QUARTER), pygame.K_h: partial(pace, HUNDREDTH),
            pygame.K_f: partial(pace, 1.0), pygame.K_LEFTBRACKET: partial(self.jump, -1),
            pygame.K_RIGHTBRACKET: partial(self.jump, 1),
            pygame.K_p: self.take_home.page, pygame.K_k: self.take_home.clip,
        }  # fmt: skip

    @property
    def moving(self) -> bool:
        return super().moving or self.waiting  # the wait is told

    def update(self, dt: float) -> None:
        self.pass_time(dt)
        if self.ribbon.time != self.shown_time:
            self.shown_time, self.at_address = self.ribbon.time, False
        if self.ribbon.at_end and not self.seen_through and not self.at_address:
            self.seen()
        if self.state.shot is not None and self._told != self._said_now:
            self.again()
        self._waited = self._waited + dt if self.waiting else 0.0
        go_on = GO_ON if self.stopped else YOUR_TURN if self._turn_next else PLAY
        if self._waited >= PATIENCE:
            go_on = PLAYING
        self.parts.go.label = PAUSE if self.ribbon.playing else go_on

    # ---- drawing

    def look(self) -> Look:
        """What the pictures show now."""
        s = self.state
        live = not self.at_address and s.shot is not None
        done = live and self.ribbon.at_end
        shots = (s.kept_shot if done and s.comparing else None, s.shot if done else None)
        tracks = tuple(next((one.spray for one in self.thrown if one.shot is own), None)
                       for own in (s.shot, s.kept_shot))  # fmt: skip
        beside = self.places.second is not None
        rows_a, rows_b = self._rows("A"), self._rows("B" if s.comparing else "")
        if s.comparing and not beside:
            marks, rows_b = marks_of_both(s.course, *shots), (*rows_a, *rows_b)
        else:
            marks = course_marks(s.course, shots[1])
        return Look(
            s, live, self.ribbon.time, rows_b, rows_a, marks, course_marks(s.course, shots[0]),
            UNIT_SYSTEMS[self.app.settings.units], self.said.lit or self.said_a.lit, self.with_numbers,
            beside, self.strobe, self.panel.names, self.app.settings.left_handed,
            self.app.settings.reduced_motion, (tracks[0], tracks[1]),
            NO_SCAR_PAIR if self.in_lesson else self.scars,
        )  # fmt: skip

    def _rows(self, letter: str) -> tuple[DotRow, ...]:
        """The strokes of a set-up as dots; a machine has none, and a lesson counts its own."""
        s = self.state
        if s.player == "exact" or self.in_lesson:
            return ()
        many, hole = self.kept_many if letter == "A" else self.many, s.course.hole
        units = UNIT_SYSTEMS[self.app.settings.units]
        at = hole.x if hole else None
        return (DotRow(many, at, FLAGSTICK.height, letter, units, self.with_numbers),)

    @property
    def views(self) -> tuple[str, ...]:
        """The pictures that show now."""
        if self.fill.on:
            return ("Turf",)
        if self.tight:
            return tuple(v for v in (VIEWS[self.shown],) if v in VIEWS[:3])
        return ("Course", "Turf") if self.numbers or self.places.second else ("Course", "Turf", "Golfer")

    def areas(self) -> list[Rect]:
        """Boxes of the pictures and of the note."""
        at = self.places
        boxes = {"Course": at.course, "Turf": at.turf, "Golfer": at.golfer}
        out = [boxes[v] for v in self.views]
        if at.second:
            out += [b for v, b in zip(("Course", "Turf"), at.second, strict=True) if v in self.views]
        return [*out, self._note]

    def _draw_stopped(
        self, surface: pygame.Surface, theme: Theme, rect: Rect, second: Rect | None
    ) -> None:  # fmt: skip
        """In a lesson, while the heads stand at impact: both close up, in the place of the turf."""
        s = self.state
        if not (self.stopped and second and s.shot and s.kept_shot):
            return
        draw_stopped(surface, theme, (rect, second), (s.kept_shot, s.shot), self.with_numbers)
        for letter, box in zip("AB", (rect, second), strict=True):
            draw_letter(surface, theme, box, letter)

    def draw(self, surface: pygame.Surface) -> None:
        theme, at, look = self.app.theme, self.places, self.look()
        second = at.second or (None, None)
        for view in self.views:
            if view == "Course":
                self.pictures.draw_course(surface, theme, at.course, look, second[0])
            elif view == "Turf":
                self.pictures.draw_turf(surface, theme, at.turf, look, second[1])
                self._draw_stopped(surface, theme, at.turf, second[1])
            else:
                self.pictures.draw_golfer(surface, theme, at.golfer, look)
        on_paper = () if self.fill.on or self.tight else self._on_paper
        self._still.draw(surface, theme, on_paper)
        for widget in self.widgets:
            if widget is not self.golfer and widget not in on_paper:
                widget.draw(surface, theme)
        self._draw_named(surface, theme)
        if self.take_home.making:
            done = Rect(
                self._box.x,
                self._box.bottom - theme.gap / 2,
                self.take_home.share * self._box.w,
                theme.gap / 2,
            )
            paint.box(surface, done, theme.palette.path)
        lines = theme.type.wrap(self.note, "small", self._note.w)
        paint.lines(surface, theme, lines, "small", self._note.x, self._note.y, "muted")


def scenario_on_bench(app: Host, course: Course, setup: Setup, motion: Motion, player: str) -> Bench:
    """A Bench with a scenario's ground, lie, hole, player and set-up; Esc goes back from it."""
    own = Setting(setup, motion, own_depth=True)
    start = State(own, own, lie_of(course)[0].name, player=player, scene=course, usual=own)
    bench = Bench(app, start)
    bench.title = course.name
    return bench


def shot_on_bench(
    app: Host, shown: Shown, wanted: tuple[str, float] | None = None, pupil: str = ""
) -> Bench:  # fmt: skip
    """A Bench with a shot that was played before, from its start; Esc goes back from it. `wanted`: a control
    that it is an example of, and the value (SI) where that belongs. `pupil`: who else played it."""
    shot = shown.shot
    player = next((name for name, spread in PLAYERS.items() if spread == shot.spread), "club")
    bench = scenario_on_bench(app, shot.course, shot.setup, shot.motion, player)
    bench.show_kept(shown)
    bench.take_home.wanted, bench.take_home.pupil = wanted, pupil
    return bench
