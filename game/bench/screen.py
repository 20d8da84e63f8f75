"""The Bench: set, play, see why. Free rehearsal on a simple green."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

import pygame

from game.bench import layout as bench_layout
from game.bench.acts import NO_SCAR_PAIR
from game.bench.compare import between_words, draw_letter, marks_of_both
from game.bench.lesson import LEAVE_FIRST, LessonActs, draw_stopped
from game.bench.parts import CLUBS, KEYS, VIEWS, Parts
from game.bench.pictures import Look, Pictures
from game.draw.camera import Rect
from game.draw.course_marks import course_marks
from game.shot_view import ControlPanel, GolferPanel, SentenceView
from game.shot_view.controls import OPEN_CONTROLS
from game.shot_view.numbers import rows_of
from game.shot_view.ribbon import HUNDREDTH, QUARTER
from game.shot_view.turf_pane import FillTurf
from game.text.cautions import NOTE, PRESET_NOTE
from game.text.story import Phrase, tell
from game.text.units import UNIT_SYSTEMS
from game.ui import Theme, Widget, paint
from game.ui.screen import Host
from game.ui.widget import NOWHERE

__all__ = ["HELLO", "HELLO_JUNIOR", "Bench"]

HELLO = "Press Space to play. Move a slider or a knob on the golfer first, if you like."
HELLO_JUNIOR = "Press Space to play."
NEXT = "Next: move Shaft lean and Lean added by impact right (Tab, right arrow, or drag), then play."
NEXT_JUNIOR = "Next: move Shaft lean and Lean added right. Press Space."
LESSON_KEYS = (
    pygame.K_SPACE, pygame.K_l, pygame.K_a, pygame.K_q, pygame.K_h, pygame.K_f, pygame.K_LEFTBRACKET,
    pygame.K_RIGHTBRACKET,
)  # fmt: skip
SHORT_NOTE = "Height and distance, not left and right."  # the other one stands by the players then


class Bench(LessonActs):
    """The start screen."""

    title = "Bench"
    keys = KEYS

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self.said, self.golfer = SentenceView(), GolferPanel(self.set_control)
        self.pictures = Pictures(self.golfer)
        self._home = False  # whether to come back to the words
        self.tight, self._detail = False, ""
        self._laid: tuple[object, ...] = ()  # what was last placed
        self._box = self._note = Rect(0, 0, 1, 1)
        self._said_now = 0  # sentences as last told
        self._sentences: tuple[object, Sequence[Sequence[Phrase]]] = (
            None,
            (),
        )  # of the last shot, and for whom
        self.parts = Parts(self, self.said, self.show_view)
        self.fill = FillTurf(self.pictures.turfs, self._filled, self.parts.go)
        self.parts.larger = self.fill.opener

    @property
    def widgets(self) -> tuple[Widget, ...]:
        p, places = self.parts, self.places
        if self.fill.on:
            return (*self.fill.widgets, self.ribbon)
        if not self.tight:
            lower = (p.numbers,) if self.numbers else () if places.second else (self.golfer,)
            return (p.go, p.controls, *lower, p.words, self.ribbon)
        part: dict[str, tuple[Widget, ...]] = {
            "Course": (p.words,) if places.both else (), "Golfer": () if self.in_lesson else (self.golfer,),
            "Controls": (p.controls,), "Text": (p.words,),
        }  # fmt: skip
        return (p.side, *part.get(VIEWS[self.shown], ()), self.ribbon)

    def layout(self, box: Rect, theme: Theme) -> None:
        self._box, gap = box, theme.gap
        self.tight = bench_layout.bench_is_tight(box, gap)
        self.said.role = "body" if box.h >= 84 * gap and not self.tight else "label"
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
        hello = 0.0
        if self.tight and self.state.shot is None:
            hello = p.words.height(theme, box.w - side)
        sizes = bench_layout.Sizes(
            gap, p.go.height(theme, 40 * gap), self.ribbon.height(theme, 0.0),
            theme.type.line(self.said.role), side, hello, under,
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
        (p.side if self.tight else p.go).place(at.play, theme)
        p.controls.place(at.controls, theme)
        self._place_words(theme)
        self.ribbon.place(at.ribbon, theme)
        self.golfer.place(at.golfer, theme)
        p.numbers.place(at.golfer, theme)

    def _place_words(self, theme: Theme) -> None:
        """Smaller where they would have to scroll; then what is new stands first."""
        words, box = self.parts.words, self.places.words
        words.place(box, theme)
        if words.overflow and self.said.role == "body":
            self.said.role = "label"
            words.place(box, theme)
        if words.overflow:
            self.parts.newest_first()
            self.parts.words.place(box, theme)

    def again(self) -> None:
        """Something has changed: show it, and place anew what that moves."""
        self._set_detail()
        self._tell()
        if self._shape() != self._laid:
            self.layout(self._box, self.app.theme)

    def _shape(self) -> tuple[object, ...]:
        """All that a place on this page depends on."""
        p = self.parts
        words = (p.between.label, p.cost.label, p.hint.label, self.said.text)
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
        return SHORT_NOTE if self.tight else f"{NOTE} {PRESET_NOTE}"

    @property
    def with_numbers(self) -> bool:
        """A junior sees no numbers until asked."""
        return self.numbers or not self.junior

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
    def _hint(self) -> str:
        """What a newcomer may do next."""
        s = self.state
        if s.shot is None or s.seed != 1 or self._told < 2 or s.settled != s.standard or self.asked_why.words:
            return ""
        return NEXT_JUNIOR if self.junior else NEXT

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
        p.hint.label = self._hint
        p.club.index = CLUBS.index(self.state.now.setup.club.name)
        if shot is None:
            self.said.tell(((Phrase(HELLO_JUNIOR if self.junior else HELLO),),))
            return
        asked = (shot, self.app.settings.units, self.junior)
        if asked != self._sentences[0]:
            self._sentences = asked, tell(shot, self.app.settings.units == "yd", self.junior)
            self.table.rows = rows_of(shot, self.app.settings.units)
        self.said.tell(self._sentences[1][: self._said_now])

    # ---- keys and time

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if self.fill.handle(event):
            return True
        if event.key == pygame.K_ESCAPE and (self.in_lesson or self.lesson_asked):
            self.leave_lesson()
            return True
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT | pygame.KMOD_META):
            if event.key == pygame.K_c:
                self.copy_numbers()
                return True
            return False
        if event.key == pygame.K_c and event.mod & pygame.KMOD_SHIFT and not self.in_lesson:
            self.copy()
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
            pygame.K_c: self.compare, pygame.K_v: self.toggle_beside, pygame.K_x: self.swap,
            pygame.K_n: self.toggle_numbers, pygame.K_t: self.toggle_strobe, pygame.K_s: self.standard,
            pygame.K_q: partial(pace, QUARTER), pygame.K_h: partial(pace, HUNDREDTH),
            pygame.K_f: partial(pace, 1.0), pygame.K_LEFTBRACKET: partial(self.jump, -1),
            pygame.K_RIGHTBRACKET: partial(self.jump, 1),
        }  # fmt: skip

    def update(self, dt: float) -> None:
        self.pass_time(dt)
        if self.ribbon.time != self.shown_time:
            self.shown_time, self.at_address = self.ribbon.time, False
        if self.ribbon.at_end and not self.seen_through and not self.at_address:
            self.seen()
        if self.state.shot is not None and self._told != self._said_now:
            self.again()
        self.parts.go.label = "Pause" if self.ribbon.playing else "Go on" if self.stopped else "Play"

    # ---- drawing

    def look(self) -> Look:
        """What the pictures show now."""
        s = self.state
        live = not self.at_address and s.shot is not None
        done = live and self.ribbon.at_end
        shots = (s.shot if done else None, s.second_shot if done and s.comparing else None)
        tracks = tuple(next((one.spray for one in self.thrown if one.shot is own), None)
                       for own in (s.shot, s.second_shot))  # fmt: skip
        beside = self.places.second is not None
        stops, units = () if self.in_lesson else self.stops, UNIT_SYSTEMS[self.app.settings.units]
        if s.comparing and not beside:
            marks = marks_of_both(s.course, *shots, stops)
        else:
            marks = course_marks(s.course, shots[0], stops)
        return Look(
            s, live, self.ribbon.time, stops, marks, course_marks(s.course, shots[1]), units, self.said.lit,
            self.with_numbers, beside,
            self.strobe, self.panel.names, self.app.settings.left_handed,
            self.app.settings.reduced_motion, (tracks[0], tracks[1]),
            NO_SCAR_PAIR if self.in_lesson else self.scars,
        )  # fmt: skip

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
        if not (self.stopped and second and s.shot and s.second_shot):
            return
        draw_stopped(surface, theme, (rect, second), (s.shot, s.second_shot), self.with_numbers)
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
        for widget in self.widgets:
            if widget is not self.golfer:
                widget.draw(surface, theme)
        lines = theme.type.wrap(self.note, "small", self._note.w)
        paint.lines(surface, theme, lines, "small", self._note.x, self._note.y, "muted")
