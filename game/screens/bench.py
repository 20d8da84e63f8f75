"""The Bench: set, play, see why. Free rehearsal on a simple green."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from math import isfinite
from typing import TYPE_CHECKING

import numpy as np
import pygame

from game.bench_model import GROUNDS, Setting, State, differences, is_poor, repair_words
from game.scene import (
    ControlPanel,
    GolferPanel,
    SentenceView,
    Stage,
    TimeRibbon,
    TurfWindow,
    intend,
    stance_at,
)
from game.scene.controls import LEVELS
from game.scene.numbers import NumberTable, rows_of
from game.scene.ribbon import HUNDREDTH, QUARTER
from game.scene.stage import Scene, marks_of
from game.scene.voice import voice
from game.screen import Keys, Screen
from game.sound import Cue, due, score
from game.ui import Button, Choice, Column, Row, TextBlock, Theme, Widget, layout, paint
from game.view.camera import Rect
from game.view.page import NOTE, PRESET_NOTE
from game.work import Answer, Worker
from physics.cause import TRIED, Phrase, Repair, repairs, tell
from physics.cloud import REST_X, play_many
from physics.course import Course
from physics.equipment import BAG
from physics.results import Shot
from physics.shot import play
from physics.spread import PLAYERS, Spread, draw
from physics.surfaces import SURFACES

if TYPE_CHECKING:
    from game.app import App

__all__ = ["Bench"]

STROKES, PARTS = 500, 5  # of the cloud behind the band of likely stops
TRIES = 60  # strokes for each value a repair tries
NARROW, LOW = 95.0, 58.0  # steps of the rhythm below which one part shows at a time
BARE = re.compile(r" \S?\d\S* \w+$")  # a distance at the end of a label
BOTH = 40.0  # steps of height that hold course and words together
VIEWS = ("Course", "Turf", "Golfer", "Controls", "Words")
HELLO = "Press Space to play. Move a slider or a knob on the golfer first, if you like."
HELLO_JUNIOR = "Press Space to play."
CLUBS, GROUND_NAMES, PLAYER_NAMES = tuple(BAG), GROUNDS, tuple(PLAYERS)


class Bench(Screen):
    """The start screen."""

    title = "Bench"
    keys: Keys = (
        ("Space, Enter", "play a shot; Space also pauses it and goes on"),
        ("A", "watch the last shot again"),
        ("Q, H, F", "quarter, hundredth and full speed"),
        ("[ and ]", "to the moment before or after: turf, ball, apex, landing, rest"),
        ("W", "why: what in the set-up cost most"),
        ("R", "play it again with that repaired"),
        ("C", "compare: keep this set-up as B and play both; again: stop comparing"),
        ("Shift+C", "copy A to B"),
        ("X", "swap A and B"),
        ("N", "numbers, or back to the golfer"),
        ("Ctrl+C", "copy the numbers"),
        ("S", "back to the standard set-up"),
    )

    def __init__(self) -> None:
        self.state = State()
        self.intent = self.old = intend(self.state.now.setup, self.state.now.motion)
        self.stage, self.turf, self.ribbon = Stage(), TurfWindow(), TimeRibbon()
        self.golfer, self.said, self.table = GolferPanel(self._set), SentenceView(), NumberTable()
        self.stops: tuple[float, ...] = ()
        self.at_address, self.numbers, self.shown, self.waiting = True, False, 0, False
        self.repair: Repair | None = None
        self._repairs: list[Repair] = []
        self._cues: tuple[Cue, ...] = ()
        self._box, self._tight, self._detail = Rect(0, 0, 1, 1), False, ""
        self._areas: dict[str, Rect] = {}
        self._shown_time, self._said_now = 0.0, 0  # playhead and sentences as last drawn
        self.seen_through = False  # the last shot was watched to its end
        self.panel = ControlPanel(LEVELS["player"], self._set)
        self.go = Button("Play", self.play_or_pause, kind="main", hint="Space")
        self._build_choices()

    # ---- widgets

    def _build_choices(self) -> None:
        s = self.state
        self._club = Choice(
            "Club", [BAG[n].label for n in CLUBS], CLUBS.index(s.now.setup.club.name),
            lambda i: self._change(self.state.take(self.state.now.with_club(CLUBS[i]))),
            tooltip="Which club you play with: loft, then bounce.",
        )  # fmt: skip
        self._ground = Choice(
            "Ball lies on", [SURFACES[n].label for n in GROUND_NAMES], GROUND_NAMES.index(s.ground),
            lambda i: self._change(self.state.on(GROUND_NAMES[i])), tooltip="What the ball sits on.",
        )  # fmt: skip
        self._player = Choice(
            "Player", [PLAYERS[n].label for n in PLAYER_NAMES], PLAYER_NAMES.index(s.player),
            lambda i: self._change(replace(self.state, player=PLAYER_NAMES[i])),
            tooltip="How much strokes differ. " + PRESET_NOTE,
        )  # fmt: skip
        self._why = Button("Why?", self.why, hint="W", tooltip="What in the set-up cost most.", group="acts")
        self._mend = Button("Try it repaired", self.try_repaired, hint="R", group="acts",
                            tooltip="Play again with the one thing that cost most put right.")  # fmt: skip
        self._compare = Button("Compare", self.compare, hint="C", group="acts",
                               tooltip="Keep this set-up as B and play both at once.")  # fmt: skip
        self._copy = Button("Copy A to B", self.copy, hint="Shift+C", group="acts",
                            tooltip="B becomes the same as A.")  # fmt: skip
        self._count = Button("Numbers", self.toggle_numbers, hint="N", group="acts",
                             tooltip="Every number of the last shot; Ctrl+C copies them.")  # fmt: skip
        self._standard = Button("Standard set-up", self.standard, hint="S", group="acts",
                                tooltip="Everything back to a plain chip.")  # fmt: skip
        self._tabs = tuple(
            Button(v, partial(self.show_view, i), kind="tab", group="views") for i, v in enumerate(VIEWS)
        )
        self._side = Column((self.go, *self._tabs), 0.0)
        self._cost = TextBlock("", "label", "ink")
        self._between = TextBlock("", "label", "muted")
        self._controls, self._words = Column(()), Column(())
        self._numbers = Column((self.table,))

    @property
    def widgets(self) -> tuple[Widget, ...]:
        if not self._tight:
            lower = self._numbers if self.numbers else self.golfer
            return (self.go, self._controls, lower, self._words, self.ribbon)
        view = VIEWS[self.shown]
        both = view == "Course" and self._both(self._areas["Turf"])
        part: tuple[Widget, ...] = (self._words,) if both else {
            "Golfer": (self.golfer,), "Controls": (self._controls,), "Words": (self._words,),
        }.get(view, ())  # fmt: skip
        return (self._side, *part, self.ribbon)

    @property
    def junior(self) -> bool:
        return self.app.settings.detail == "junior"

    def _fill(self) -> None:
        """Which widgets stand in the columns now."""
        detail = self.app.settings.detail
        if detail != self._detail:
            self._detail = detail
            self.panel = ControlPanel(LEVELS[detail], self._set)
        self.panel.sync(self.state.now.setup, self.state.now.motion)
        acts = [self._why, self._count]
        if detail != "junior":
            acts += [self._compare, *([self._copy] if self.state.comparing else [])]
        if self.repair:  # last, so that the sliders move down once at most
            acts.append(self._mend)
        choices: list[Widget] = [self._club, self._ground, self._player]
        self._compare.label = "Stop comparing" if self.state.comparing else "Compare"
        self._count.label = "Golfer" if self.numbers and not self._tight else "Numbers"
        items = [Row(acts), *self.panel.sliders.values(), *choices, Row([self._standard])]
        self._refill("_controls", items)
        words: list[Widget] = [self.said]
        words += [w for w in (self._between, self._cost) if w.label]
        if self._tight and self.numbers:
            words.append(self.table)
        self._refill("_words", words)

    def _refill(self, name: str, items: list[Widget]) -> None:
        """A column with these items; how far it was scrolled stays."""
        column: Column = getattr(self, name)
        old = [w for w in column.items if not isinstance(w, Row)]
        new = [w for w in items if not isinstance(w, Row)]
        fresh = Column(items, 1.0)
        fresh.offset = column.offset if old == new else 0.0
        setattr(self, name, fresh)

    # ---- coming, going, placing

    def enter(self, app: App) -> None:
        super().enter(app)
        if self.state.shot is None:
            self._ask_stops()

    def leave(self) -> None:
        self.ribbon.playing = False

    def layout(self, box: Rect, theme: Theme) -> None:
        self._box = box
        gap = theme.gap
        self._tight = box.w < NARROW * gap or box.h < LOW * gap
        self.said.role = "body" if box.h >= 84 * gap and not self._tight else "label"
        self._tell()
        self._fill()
        note = theme.type.wrap(self.note, "small", box.w - 2 * gap)
        inner, foot, _ = layout.take(box, top=box.h - len(note) * theme.type.line("small") - gap / 2)
        self._areas = {"note": Rect(box.x + 2 * gap, inner.bottom, box.w - 3 * gap, foot.h)}
        (self._place_tight if self._tight else self._place_wide)(inner, theme)

    @property
    def note(self) -> str:
        return f"{NOTE} {PRESET_NOTE}"

    def _place_wide(self, box: Rect, theme: Theme) -> None:
        """Course above, turf and golfer below it, words between; controls in a column on the right."""
        gap = theme.gap
        side = min(max(0.235 * box.w, 31 * gap), 46 * gap)
        left = Rect(box.x + gap, box.y, box.w - side - 3 * gap, box.h)
        right = Rect(left.right + gap, box.y + gap, side + gap, box.h - gap)
        tall = self.go.height(theme, right.w)
        self.go.place(Rect(right.x + gap, right.y, right.w - 2 * gap, tall), theme)
        self._controls.place(Rect(right.x, self.go.rect.bottom + gap, right.w, right.h - tall - gap), theme)
        ribbon = self.ribbon.height(theme, left.w)
        line = theme.type.line(self.said.role)
        said = min(max(0.20 * box.h, 3.0 * line), 6.5 * line)  # for any words: pictures must not jump
        room = left.h - ribbon - said - 2 * gap
        upper = round(0.50 * room)
        stage = Rect(left.x, left.y, left.w, upper)
        words = Rect(left.x, stage.bottom, left.w, said)
        lower = Rect(left.x, words.bottom, left.w, room - upper)
        turf = Rect(lower.x, lower.y, 0.60 * lower.w, lower.h)
        figure = Rect(turf.right + gap, lower.y, lower.right - turf.right - gap, lower.h)
        self._words.place(words, theme)
        self._areas |= {"Course": stage, "Turf": turf, "Golfer": figure}
        self.golfer.place(figure, theme)
        self._numbers.place(figure, theme)
        self.ribbon.place(Rect(left.x, lower.bottom + gap, left.w, ribbon), theme)

    def _place_tight(self, box: Rect, theme: Theme) -> None:
        """One part at a time, chosen at the left; play and time stay."""
        gap = theme.gap
        for i, tab in enumerate(self._tabs):
            tab.current = i == self.shown
        wide = max(w.width(theme) for w in (self.go, *self._tabs)) + 4 * gap
        side = Rect(box.x, box.y, wide, box.h)
        self._side.place(side, theme)
        ribbon = self.ribbon.height(theme, 0.0)
        body = Rect(side.right, box.y, box.w - wide, box.h - ribbon - gap)
        self.ribbon.place(Rect(body.x, body.bottom + gap / 2, body.w - gap, ribbon), theme)
        self._areas |= dict.fromkeys(("Course", "Turf", "Golfer"), body)
        words = body
        if self._both(body):  # course and words under it, where both have room
            upper, lower = layout.split(body, (0.62, 0.38), down=True)
            self._areas["Course"], words = upper, (lower if self.shown == 0 else body)
        self._words.place(words, theme)
        for part in (self._controls, self.golfer):
            part.place(body, theme)

    def _both(self, body: Rect) -> bool:
        return body.h > BOTH * self.app.theme.gap

    def show_view(self, index: int) -> None:
        """With large text: the part to look at."""
        self.shown = index
        self._again()

    def _again(self) -> None:
        """Place everything anew: words or columns have changed."""
        self.layout(self._box, self.app.theme)

    # ---- changing

    def _set(self, name: str, value: float) -> None:
        self._change(self.state.set(name, value))

    def _change(self, state: State) -> None:
        """Take a changed state; what it means shows at once."""
        old, self.state = self.state, state
        setup, motion = state.now.setup, state.now.motion
        self.intent = intend(setup, motion)
        self.old = intend(state.settled.setup, state.settled.motion)
        self.panel.sync(setup, motion)
        self.at_address, self.ribbon.playing, self._shown_time = True, False, self.ribbon.time
        self.worker.forget("shot")
        self.waiting = False
        if state.shot is None:
            self.ribbon.clear()
            self._shown_time = 0.0
        if (state.now, state.spread, state.ground) != (old.now, old.spread, old.ground):
            self._forget_repair()
            self._ask_stops()
        if state.comparing or old.comparing:
            self._tell_between()

    @property
    def worker(self) -> Worker:
        return self.app.worker

    def _forget_repair(self) -> None:
        self.worker.forget("repair")
        if self.repair or self._cost.label:
            self.repair, self._cost.label = None, ""
            self._again()

    def _tell_between(self) -> None:
        s = self.state
        words = f"{differences(s.now, s.second)} A is drawn full, B dashed." if s.second else ""
        if words != self._between.label:
            self._between.label = words
            self._again()

    def standard(self) -> None:
        """Everything back to a plain chip."""
        self._change(self.state.take(Setting()))
        self._club.index = CLUBS.index(self.state.now.setup.club.name)

    # ---- computing, beside the picture

    def _ask_stops(self) -> None:
        """The band of likely stops; the newest request wins."""
        s = self.state
        if s.player == "exact":
            self.worker.forget("likely stops")
            self.stops = ()
            return
        self.worker.ask("likely stops", lambda: _stops(s.course, s.now, s.spread), self._hear_stops)

    def _hear_stops(self, answer: Answer) -> None:
        if answer.fresh and not answer.last:
            self.stops = answer.value

    def play_or_pause(self) -> None:
        """Pause a shot that plays, go on with one that rests, else play a new one."""
        if self.ribbon.playing or (not self.at_address and not self.ribbon.at_end and self.ribbon.line):
            self.ribbon.toggle()
        else:
            self.play()

    def play(self) -> None:
        """Play a new shot with the setting now (and with B, the same stroke)."""
        if self.waiting:
            return
        s, self.waiting = self.state, True
        settings = [s.now] + ([s.second] if s.second else [])

        def job() -> list[Shot]:
            return [play(s.course, n.setup, n.motion, s.spread, s.seed) for n in settings]

        self.worker.ask("shot", job, self._hear_shot)

    def _hear_shot(self, answer: Answer) -> None:
        if not answer.fresh:
            return
        self.waiting = False
        if answer.problem:
            return
        shot, *others = answer.value
        first = self.state.shot is None
        self.state = self.state.played(shot, others[0] if others else None)
        self.panel.settle()
        self.old = self.intent
        self.at_address = False
        still = self.app.settings.reduced_motion
        self.ribbon.load(shot, slow=first, at_end=still)
        self._cues = score(shot)
        if still:
            self._sound(self._cues[:1])
        if self._tight and VIEWS[self.shown] == "Controls":
            self.shown = 0
        self.seen_through = still
        self._forget_repair()
        self._again()
        if still:
            self._seen()

    def _seen(self) -> None:
        """The shot was watched to its end: now is the time to say why."""
        self.seen_through = True
        shot = self.state.shot
        if shot and is_poor(shot) and not self.junior:
            self.why()

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
        if shot is None:
            self.said.tell(((Phrase(HELLO_JUNIOR if self.junior else HELLO),),))
            return
        sentences = tell(shot, self.app.settings.units == "yd", self.junior)
        self.said.tell(sentences[: self._said_now])
        self.table.rows = rows_of(shot, self.app.settings.units)

    def why(self) -> None:
        """Ask what in the set-up cost most; it is worked out beside the picture."""
        s = self.state
        setup, motion, course, spread = s.now.setup, s.now.motion, s.course, s.spread
        self._repairs, self.repair = [], None
        self._cost.label = "Looking for what cost most \N{HORIZONTAL ELLIPSIS}"

        def parts() -> Iterator[Repair]:
            for name in TRIED:
                yield repairs(course, setup, motion, spread, 0, TRIES, (name,))[0]

        self.worker.ask("repair", parts, self._hear_repair)
        self._again()

    def _hear_repair(self, answer: Answer) -> None:
        if not answer.fresh:
            return
        if not answer.last:
            self._repairs.append(answer.value)
            return
        best = max(self._repairs, key=lambda r: r.gain, default=None)
        self._cost.label = "" if answer.problem else repair_words(best, self.junior)
        self.repair = best if best and best.best != best.now and best.gain > 0.0 else None
        self._again()

    def try_repaired(self) -> None:
        """Set the one thing that cost most to its best value and play."""
        if self.repair is None:
            self.app.say("Press W first: it finds what cost most.")
            return
        label = self.repair.label
        self._set(self.repair.control, self.repair.best)
        self.app.say(f"Played again with {label} repaired.")
        self.play()

    # ---- compare, numbers

    def compare(self) -> None:
        """Keep this set-up as B, or stop comparing."""
        self._change(self.state.compare())
        self._again()

    def copy(self) -> None:
        """A over to B."""
        self._change(self.state.copy())
        self._again()

    def swap(self) -> None:
        """A and B change places."""
        if not self.state.comparing:
            self.app.say("Press C first: it keeps this set-up as B.")
            return
        self._change(self.state.swap())
        self._club.index = CLUBS.index(self.state.now.setup.club.name)
        self._again()

    def toggle_numbers(self) -> None:
        """The table of numbers, or the golfer again."""
        self.numbers = not self.numbers
        if self._tight and self.numbers:
            self.shown = VIEWS.index("Words")
        self._again()

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

    # ---- keys and time

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT | pygame.KMOD_META):
            if event.key == pygame.K_c:
                self.copy_numbers()
                return True
            return False
        if event.key == pygame.K_c:
            (self.copy if event.mod & pygame.KMOD_SHIFT and self.state.comparing else self.compare)()
            return True
        act = self._acts.get(event.key)
        if act is None:
            return False
        act()
        return True

    @property
    def _acts(self) -> dict[int, Callable[[], None]]:
        """What plain keys do."""
        return {
            pygame.K_SPACE: self.play_or_pause, pygame.K_RETURN: self.play, pygame.K_KP_ENTER: self.play,
            pygame.K_a: self.watch, pygame.K_w: self.why, pygame.K_r: self.try_repaired,
            pygame.K_x: self.swap, pygame.K_n: self.toggle_numbers, pygame.K_s: self.standard,
            pygame.K_q: partial(self._pace, QUARTER), pygame.K_h: partial(self._pace, HUNDREDTH),
            pygame.K_f: partial(self._pace, 1.0), pygame.K_LEFTBRACKET: partial(self._jump, -1),
            pygame.K_RIGHTBRACKET: partial(self._jump, 1),
        }  # fmt: skip

    def watch(self) -> None:
        """The last shot from its start."""
        if self.state.shot and self.ribbon.line:
            self.at_address = False
            self.ribbon.seek(self.ribbon.line.start)
            self.ribbon.toggle()

    @property
    def said_more(self) -> bool:
        """Whether other sentences are due than those that stand there."""
        return self.state.shot is not None and self._told != self._said_now

    def _pace(self, speed: float) -> None:
        self.ribbon.pace(speed)
        self.app.say(f"Speed: {self.ribbon.pace_words or 'as it was'}.")

    def _jump(self, by: int) -> None:
        self.at_address = self.at_address and self.ribbon.line is None
        if name := self.ribbon.jump(by):
            self.app.say(f"At {name}.")

    def update(self, dt: float) -> None:
        before, now = self.ribbon.update(dt)
        if now > before:
            self._sound(due(self._cues, before, now))
        if now != self._shown_time:
            self._shown_time, self.at_address = now, False
        if self.ribbon.at_end and not self.seen_through and not self.at_address:
            self._seen()
        if self.said_more:
            self._again()
        self.go.label = "Pause" if self.ribbon.playing else "Play"

    def _sound(self, cues: tuple[Cue, ...]) -> None:
        player = voice(self.app.settings)
        for cue in cues:
            player.play(cue)
            self.app.say(f"{cue.caption[:1].upper()}{cue.caption[1:]}.")

    # ---- drawing

    def _scene(self) -> Scene:
        s = self.state
        live = None if self.at_address else s.shot
        ghost = s.shot if self.at_address else s.ghost
        done = live is None or self.ribbon.at_end
        yards = self.app.settings.units == "yd"
        marks = marks_of(s.course, live if done else None, self.stops, yards)
        if self.junior and not self.numbers:  # no numbers until asked
            marks = tuple((BARE.sub("", text), x, y) for text, x, y in marks)
        second = s.second_shot if live and s.comparing else None
        return Scene(
            s.course, s.now.setup, self.intent.address, live, self.ribbon.time, ghost, self.stops, marks,
            self.said.lit, second, _apart(live, second),
        )  # fmt: skip

    @property
    def _views(self) -> tuple[str, ...]:
        """The pictures that show now."""
        if self._tight:
            return tuple(v for v in (VIEWS[self.shown],) if v in self._areas)
        return ("Course", "Turf") if self.numbers else ("Course", "Turf", "Golfer")

    def _shown_areas(self) -> list[Rect]:
        """Boxes of the pictures and of the note."""
        return [self._areas[v] for v in (*self._views, "note")]

    def draw(self, surface: pygame.Surface) -> None:
        theme = self.app.theme
        for view in self._views:
            getattr(self, f"_draw_{view.lower()}")(surface, theme, self._areas[view])
        for widget in self.widgets:
            if widget is not self.golfer:
                widget.draw(surface, theme)
        note = self._areas["note"]
        lines = theme.type.wrap(self.note, "small", note.w)
        paint.lines(surface, theme, lines, "small", note.x, note.y, "muted")

    def _draw_course(self, surface: pygame.Surface, theme: Theme, rect: Rect) -> None:
        self.stage.draw(surface, rect, theme, self._scene())

    def _draw_turf(self, surface: pygame.Surface, theme: Theme, rect: Rect) -> None:
        s = self.state
        live = None if self.at_address else s.shot
        second = s.second_shot if live and s.comparing else None
        old = self.old if s.changed else None
        if self.at_address and s.second:
            old = intend(s.second.setup, s.second.motion)
        self.turf.draw(
            surface, rect, theme, s.course, self.intent, shot=live, time=self.ribbon.time,
            old=old, ghost=second, apart=_apart(live, second), lit=self.said.lit,
            numbers=not self.junior or self.numbers,
        )  # fmt: skip

    def _draw_golfer(self, surface: pygame.Surface, theme: Theme, rect: Rect) -> None:
        s = self.state
        live = None if self.at_address else s.shot
        self.golfer.show(
            self.intent, self.app.settings.left_handed, self.panel.names, self.at_address, theme
        )  # fmt: skip
        if live is None:
            other = intend(s.second.setup, s.second.motion).address if s.second else None
            self.golfer.draw(surface, theme, None, self.old.address if s.changed else None, other)
            return
        stance = stance_at(live, self.intent.address, self.ribbon.time)
        second = s.second_shot if s.comparing else None
        other = None
        if second:
            address = intend(second.setup, second.motion).address
            other = stance_at(second, address, self.ribbon.time + _apart(live, second))
        self.golfer.draw(surface, theme, stance, None, other)


def _apart(first: Shot | None, second: Shot | None) -> float:
    """Seconds the second shot meets its ball later than the first, each on its own line."""
    if first is None or second is None:
        return 0.0
    a, b = (s.strike.time if isfinite(s.strike.time) else 0.0 for s in (first, second))
    return b - a


def _stops(course: Course, setting: Setting, spread: Spread) -> Iterator[tuple[float, ...]]:
    """Where such strokes end (m), more at each step; one thread, so that the picture keeps its own."""
    strays = draw(spread, 0, STROKES)
    ends: tuple[float, ...] = ()
    for part in np.array_split(strays, PARTS):
        out, _ = play_many(course, setting.setup, setting.motion, part, 0, workers=1)
        ends += tuple(out[:, REST_X].tolist())
        yield ends
