"""The widgets of the Bench: what can be pressed and chosen, and the columns they stand in."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from game.bench.led import Led
from game.bench.model import GROUNDS
from game.bench.opening import OpeningActs
from game.bench.take_home import TakeHome
from game.bench.which_shot import player_labels, player_names, which_shot
from game.own_player import own_player
from game.shot_view import SentenceView
from game.shot_view.turf_pane import FILL_KEYS
from game.text.cautions import PRESET_NOTE
from game.text.lesson import BUTTONS, TITLES
from game.ui import Button, Choice, Column, Heading, HeldLine, Row, TextBlock, Widget
from game.ui.screen import Keys
from game.ui.widget import walk
from physics.equipment import BAG
from physics.surfaces import SURFACES

__all__ = [
    "CLUBS", "GO_ON", "GROUND_NAMES", "KEYS", "PAUSE", "PLAY", "PLAYING", "SNUG", "VIEWS", "YOUR_TURN",
    "Parts",
]  # fmt: skip

VIEWS = ("Course", "Turf", "Golfer", "Controls", "Text")
PLAY, PAUSE, GO_ON, YOUR_TURN = "Play", "Pause", "Go on", "Your turn"  # what the main button says
PLAYING = "Playing \N{HORIZONTAL ELLIPSIS}"
SNUG = 2.5  # steps beside the words of a button where two with more would not stand in one row
CLUBS, GROUND_NAMES = tuple(BAG), GROUNDS

KEYS: Keys = (
    ("Space, Enter", "play a shot; Space also pauses it and goes on"),
    ("A", "watch the last shot again"),
    ("Q, H, F", "quarter, hundredth and full speed"),
    ("[ and ]", "to the moment before or after: turf, ball, apex, landing, rest"),
    ("T", "multiple exposure: the head at equal times through the strike, on and off"),
    ("W", "why: what in the set-up costs most"),
    ("R", "play it again with that repaired"),
    ("J", "judge which shot to play from here: pick one, then see what each is worth"),
    ("C", "compare: keep this set-up as A; what you change then is B, and both are played"),
    ("V", "compare side by side, or over each other"),
    ("Shift+C", "put B in the place of A; C alone never does"),
    ("Esc", "stop comparing: A is put away, B stays"),
    ("X", "swap A and B"),
    ("N", "numbers, or back to the golfer"),
    ("Ctrl+C", "copy the numbers"),
    ("S", "back to the standard set-up"),
    ("L", "why excess lean digs: one mistake, matched and leaning; again, or Esc: your own set-up"),
    ("P", "recap page of the two strokes, PDF and picture, into your pictures folder"),
    ("K", "clip of the two strokes, into your pictures folder; again, or Esc: stop it"),
    *FILL_KEYS,
)


class Parts:
    """Every widget but the pictures and the sliders. Columns are filled anew when what stands in them is
    another; how far they were scrolled stays."""

    def __init__(
        self, bench: OpeningActs, take_home: TakeHome, said: SentenceView, said_a: SentenceView,
        show_view: Callable[[int], None],
    ) -> None:  # fmt: skip
        self.bench, self._said, self._said_a = bench, said, said_a
        self.larger: Button | None = None  # fills the screen with the turf
        self.go = Button(PLAY, bench.play_or_pause, kind="main", hint="Space")
        self.go.in_turn = tuple(
            Button(words, bench.play_or_pause, hint="Space") for words in (PAUSE, GO_ON, YOUR_TURN, PLAYING)
        )  # as wide as the widest: nothing moves when it is called otherwise
        self._choices(bench)
        self._acts(bench)
        self._take_home(take_home)
        self.tabs = tuple(
            Button(v, partial(show_view, i), kind="tab", group="views") for i, v in enumerate(VIEWS)
        )
        self.side = Column((self.go, *self.tabs), 0.0)
        self.cost, self.between = TextBlock("", "label", "ink"), TextBlock("", "label", "muted")
        self.guide, self.note = TextBlock("", "lead"), TextBlock(PRESET_NOTE, "small", "muted")
        self.skip = Button("Skip the guide", bench.skip_guide, hint="Esc")
        self.led = Led(self.guide, self.skip)
        self.controls, self.words, self.words_a = Column(()), Column(()), Column(())
        self.of_a, self.of_b = TextBlock("", "strong"), TextBlock("", "strong")
        self.spread, self.spread_a = TextBlock("", "label", "muted"), TextBlock("", "label", "muted")
        self.numbers = Column((bench.table,))

    def _choices(self, bench: OpeningActs) -> None:
        s = bench.state
        self.club = Choice(
            "Club", [BAG[n].label for n in CLUBS], CLUBS.index(s.now.setup.club.name),
            lambda i: bench.change(bench.state.take(bench.state.now.with_club(CLUBS[i]))),
            tooltip="Which club you play with: loft, then bounce.",
        )  # fmt: skip
        self.ground = Choice(
            "Ball lies on", [SURFACES[n].label for n in GROUND_NAMES],
            0 if s.scene else GROUND_NAMES.index(s.ground),
            lambda i: bench.lie_on(GROUND_NAMES[i]), tooltip="What the ball sits on.",
        )  # fmt: skip
        self.player = Choice(
            "Player", player_labels(s), player_names(s).index(s.player),
            lambda i: bench.change(replace(bench.state, player=player_names(bench.state)[i])),
            tooltip="How much strokes differ. " + PRESET_NOTE,
        )  # fmt: skip

    def _acts(self, bench: OpeningActs) -> None:
        act = partial(Button, group="acts")
        self.why = act("Why?", bench.why, hint="W", tooltip="What in the set-up costs most.")
        self.which = act("Which shot?", partial(which_shot, bench), hint="J",
                         tooltip="What to play from where the ball lies, for this player.")  # fmt: skip
        self.mend = act("Try it repaired", bench.try_repaired, hint="R",
                        tooltip="Play with the one thing that costs most put right.")  # fmt: skip
        self.compare = act("Compare", bench.compare, hint="C",
                           tooltip="Keep this set-up as A, change one thing, play both at once.")  # fmt: skip
        self.stop = act("Stop", bench.stop_comparing, hint="Esc", tooltip="Put A away; B stays.")
        self.compare.in_turn, self.stop.in_turn = (self.stop,), (self.compare,)
        self.anew = act("Keep B", bench.keep_anew, hint="Shift+C", tooltip="Put B in the place of A.")
        self.beside = act("Side by side", bench.toggle_beside, hint="V",
                          tooltip="A and B in pictures of their own, or over each other.")  # fmt: skip
        self.strobe = act("Exposures", bench.toggle_strobe, hint="T",
                          tooltip="Multiple exposure: the head at equal times.")  # fmt: skip
        self.count = act("Numbers", bench.toggle_numbers, hint="N",
                         tooltip="Every number of the last shot; Ctrl+C copies them.")  # fmt: skip
        self.standard = act("Standard set-up", bench.standard, hint="S",
                            tooltip="Everything back to a plain chip.")  # fmt: skip
        self.own = act("Your own player", lambda: bench.app.push(own_player(bench.app)),
                       tooltip="Ten measured balls, your spread, and which shots to seek.")  # fmt: skip
        self.learn = act(BUTTONS["lean"], partial(bench.learn, "lean"), hint="L",
                         tooltip="One small mistake, with the lean as set and with too much.")  # fmt: skip
        self.lessons = tuple(
            act(words, partial(bench.learn, name)) for name, words in bench.lesson_buttons()
        )  # fmt: skip
        self.back = act("Back", lambda: bench.app.pop(), hint="Esc",
                        tooltip="Back to the scenario, as you left it.")  # fmt: skip
        self.leave = act("My own set-up", bench.leave_lesson, hint="Esc",
                         tooltip="Leave the lesson; everything is as it was.")  # fmt: skip

    def _take_home(self, take_home: TakeHome) -> None:
        act = partial(Button, group="take home")
        self.page = act("Recap page", take_home.page, hint="P",
                        tooltip="A page of these two strokes, in your pictures folder.")  # fmt: skip
        self.clip = act("Clip", take_home.clip, hint="K",
                        tooltip="A short film of both strokes, in your pictures folder.")  # fmt: skip

    def fill(self, tight: bool) -> None:
        """Which widgets stand in the columns now, and what they are called."""
        b = self.bench
        if b.in_lesson:
            self._fill_lesson(tight)
            return
        comparing = b.state.comparing
        self.beside.label = "Overlay" if b.beside else "Side by side"
        self.strobe.label = "One exposure" if b.strobe else "Exposures"
        self.count.label = ("No numbers" if b.junior else "Golfer" if not tight else "Numbers") \
            if b.numbers else "Numbers"  # fmt: skip
        back = (self.back,) if b.state.scene else ()
        acts = [*back, self.why, self.which, *self._larger]
        if not b.junior:
            acts.append(self.stop if comparing else self.compare)
        acts.append(self.learn)
        self.mend.enabled = b.asked_why.repair is not None
        acts.append(self.mend)  # always there: nothing may move once "Why?" has found it
        lie = () if b.state.scene else (self.ground,)
        choices = (self.club, *lie, self.player, *((self.note,) if tight else ()))
        items: list[Widget] = [Row(acts), *b.panel.sliders.values(), *choices]
        looks = (self.count,) if b.junior else (self.count, self.strobe)
        items += [Row(looks), Row([self.standard, self.own]), Row([self.page, self.clip])]
        items += [Row([self.beside, self.anew])] if comparing else []  # last, so that no control makes room
        first: list[Widget] = []
        if self.guide.label:
            first = [self.guide, Row([self.skip])] if tight else [self.led]
        if tight and first:  # under the control it speaks of, so that both are in sight
            named = self.ground if b.names_lie else b.panel.sliders["lean_change"]
            at = items.index(named) + 1 if named in items else 0
            items[at:at] = first
        self.controls = _filled(self.controls, items)
        self._fill_words(tight, first)

    def _fill_words(self, tight: bool, first: list[Widget]) -> None:
        """What is told, `first` before all else; A and B each in a column of their own where two fit."""
        b = self.bench
        table = [b.table] if tight and b.numbers else []
        why = [self.cost] if self.cost.label else []
        if b.state.comparing:
            kept: list[Widget] = [self.of_a, self.spread_a, self._said_a]
            new = [*first, self.of_b, self.spread, self.between, self._said, *why]
            self.words_a = _filled(self.words_a, kept)
            self.words = _filled(self.words, [*(kept if tight else ()), *new, *table])
            return
        words = [w for w in (self.spread, self.between) if w.label]
        said = [] if first and b.state.shot is None else [self._said]
        lead, way = first[:1], first[1:]  # the guide speaks first; its way out stands last
        self.words = _filled(self.words, [*lead, *said, *words, *why, *table, *way])

    @property
    def _larger(self) -> tuple[Button, ...]:
        return (self.larger,) if self.larger else ()

    def _fill_lesson(self, tight: bool) -> None:
        """The lesson in the place of the sliders, its cases in the place of the story."""
        b = self.bench
        assert b.lesson
        for button, (name, _) in zip(self.lessons, b.lesson_buttons(), strict=True):
            button.current = name == b.lesson.name
        told = [TextBlock(words, "label") for words in b.lesson_words()]
        note = [TextBlock(PRESET_NOTE, "small", "muted")] if tight else []
        guide = [self.guide] if self.guide.label else []
        first = [] if tight else guide  # under the button that goes on; with large text before the words
        buttons = [Row([self.leave, *self._larger])]
        if not guide:  # in the first minute there is one way on
            buttons += [Row(self.lessons), Row([self.page, self.clip])]
        heading = Heading(TITLES[b.lesson.name])
        self.controls = _filled(self.controls, [*first, *buttons, heading, *told, *note])
        self.controls.steady = True  # the lies are still being counted
        cases = [self._case(*words) for words in b.case_words()]
        kept, new = cases[0], [w for case in cases[1:] for w in case]
        self.words_a = _filled(self.words_a, kept)
        self.words = _filled(self.words, [*guide, *kept, *new] if tight else new)

    @staticmethod
    def _case(did: str, shares: str, longest: tuple[str, ...]) -> list[Widget]:
        """What became of a case, and in a line of its own how often it comes off."""
        return [TextBlock(did, "label"), HeldLine(shares, longest)]

    def told_in(self, role: str) -> None:
        """All that is told in this size (body, label, small); letters and the guide stay."""
        for column in (self.words, self.words_a):
            column.spacing = 0.5 if role == "small" else 1.0
            for told in column.items:
                if isinstance(told, SentenceView):
                    told.role = role
                elif isinstance(told, TextBlock) and told.role in ("label", "small"):
                    told.role = "small" if role == "small" else "label"

    def set_air(self, air: float) -> None:
        """The room beside the words of the buttons among the controls, in steps of the rhythm."""
        for button in walk([self.controls]):
            if isinstance(button, Button):
                for one in (button, *button.in_turn):
                    one.air = air

    def newest_first(self) -> None:
        """What to do next, what costs most and what B does otherwise over all other words."""
        news = (self.led, self.guide, self.cost, self.between)
        new = [w for w in news if w in self.words.items]
        self.words = _filled(self.words, [*new, *(w for w in self.words.items if w not in new)])


def _filled(column: Column, items: Sequence[Widget]) -> Column:
    """A column with these items; how far it was scrolled stays."""
    old, new = ([w for w in ws if not isinstance(w, Row)] for ws in (column.items, items))
    fresh = Column(items, 1.0)
    fresh.offset = column.offset if old == new else 0.0
    return fresh
