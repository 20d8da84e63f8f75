"""The card beside the scene: what it says and which controls it holds at each step of the loop."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from typing import Any, Protocol

from game.play.layout import READ
from game.play.round import CALLS, Round, Step
from game.play.tally import TallyRow
from game.play.words import (
    SAND_WORDS,
    STRIKE_WORDS,
    gap_lines,
    goal_tally,
    hint_label,
    hint_line,
    result_lines,
    step_heading,
    task_lines,
    why_line,
)
from game.shot_view.controls import value_of
from game.shot_view.sentence import SentenceView
from game.text.cautions import LIMITS, cautions
from game.text.verdict import match_sentences, stroke_sentences
from game.ui import Button, Choice, Heading, Pair, Slider, TextBlock, Widget
from game.ui.number import Bounds
from game.ui.slider import for_control
from levels.scoring import Match
from physics.address import CONTROLS
from physics.cause import ground_of
from physics.equipment import BAG

__all__ = ["Acts", "Card", "Telling", "card", "slider"]

MOST = 2  # buttons beside the main one that fit in one row where there is little room
WAITING = "The set-up is being tried many times."


class Acts(Protocol):
    """What the card's controls do."""

    def go(self) -> None: ...
    def again(self) -> None: ...
    def back(self) -> None: ...
    def hint(self) -> None: ...
    def ask(self) -> None: ...
    def example(self) -> None: ...
    def replay(self) -> None: ...
    def numbers(self) -> None: ...
    def look(self) -> None: ...
    def choose(self, cause: int) -> None: ...
    def set(self, name: str, value: float) -> None: ...
    def take(self, club: str) -> None: ...
    def called(self, **marks: Any) -> None: ...


@dataclass(frozen=True)
class Telling:
    """How the card tells: with numbers or not, in yards or metres, and what is known by now."""

    numbers: bool = True
    yards: bool = False
    match: Match | None = None
    ended: bool = True  # the showing of the shot is over
    onward: str = "Next scenario"  # where the way on leads once the goal is met
    told: SentenceView | None = None  # the strike in sentences
    tight: bool = False  # there is no room for words and picture together
    looking: bool = False  # then the picture has it


class _Quiet(Bounds):
    """Limits of a number that is not shown."""

    def words(self, value: float) -> str:
        return ""


@dataclass(frozen=True)
class Card:
    """What is read and set, and the ways on: one row that never scrolls away."""

    items: tuple[Widget, ...]
    ways: tuple[Button, ...]


def card(r: Round, t: Telling, acts: Acts) -> Card:
    """The card of this step."""
    make: dict[Step, Callable[[Round, Telling, Acts], Made]] = {
        Step.CARD: _lesson, Step.EXAMPLE: _example, Step.SET: _set, Step.CALL: _call, Step.PLAY: _play,
        Step.GAP: _gap, Step.WHY: _why, Step.VERDICT: _verdict,
    }  # fmt: skip
    first = r.junior and not (r.step is Step.EXAMPLE and r.verdict)  # after a try nothing comes first
    head = Heading(r.scenario.title if r.step is Step.CARD else step_heading(r.step, first))
    items, ways = make[r.step](r, t, acts)
    if t.tight and r.step in READ and ways:
        ways.append(Button("Text" if t.looking else "Picture", acts.look, hint="V"))
    if r.junior and ways and not (t.tight and len(ways) > MOST):  # the key stays
        ways.append(Button("Hide numbers" if t.numbers else "Numbers", acts.numbers, hint="N"))
    told = t.tight and r.step in (Step.SET, Step.CALL, Step.GAP, Step.WHY)  # what is there speaks for itself
    return Card(tuple(items) if told else (head, *items), tuple(ways))


Made = tuple[list[Widget], list[Button]]


def _text(words: str) -> list[Widget]:
    return [TextBlock(words.strip())] if words.strip() else []


def _main(label: str, act: Callable[[], None]) -> Button:
    return Button(label, act, kind="main", hint="Enter")


def _told(t: Telling) -> list[Widget]:
    return [t.told] if t.told and t.told.sentences else []


def _hints(r: Round, t: Telling, acts: Acts) -> Made:
    """The hints shown, and the button for the next one."""
    lines = [hint_line(i, words, t.numbers) for i, words in enumerate(r.told_hints, 1)]
    told: list[Widget] = [TextBlock(line) for line in lines]
    left = r.hints < len(r.scenario.hints)
    label = hint_label(r.hints, len(r.scenario.hints), t.numbers)
    return told, [Button(label, acts.hint, hint="H")] if left else []


def _lesson(r: Round, t: Telling, acts: Acts) -> Made:
    told, more = _hints(r, t, acts)
    tasks = "\n".join(task_lines(r.scenario.goal, r.junior, t.numbers, t.yards))
    example = r.go().step is Step.EXAMPLE
    items = [
        *told, TextBlock(tasks, "strong"), TallyRow(goal_tally(r.scenario.goal, r.past.results, t.numbers)),
        *_text(r.scenario.lesson.before), TextBlock(LIMITS, "small", "muted"),
        TextBlock(cautions(), "small", "muted"),
    ]  # fmt: skip
    return items, [_main("Watch one first" if example else "Set it up", acts.go), *more]


def _example(r: Round, t: Telling, acts: Acts) -> Made:
    if r.example is None:
        return _text("The shot is being worked out."), []
    words = "This is how the coach would play it." if r.verdict is None else (
        "The coach's set-up, struck as it was meant.")  # fmt: skip
    after = "Now you" if r.verdict is None else "Back to your shot"
    if t.tight and not t.ended:
        words = ""  # the heading and the picture say it
    return [*_text(words), *(_told(t) if t.ended else [])], [_main(after, acts.go), _again(t, acts)]


def _again(t: Telling, acts: Acts) -> Button:
    return Button("Again" if t.tight else "Show it again", acts.replay, hint="P")


def _set(r: Round, t: Telling, acts: Acts) -> Made:
    s = r.scenario
    told, more = _hints(r, t, acts)
    tasks = " ".join(task_lines(s.goal, r.junior, t.numbers, t.yards))
    clubs: list[Widget] = []
    if len(s.clubs) > 1:
        labels = [BAG[c].short for c in s.clubs]
        clubs = [Choice("Club", labels, s.clubs.index(r.setup.club.name), lambda i: acts.take(s.clubs[i]),
                        tooltip="The club in your hands.")]  # fmt: skip
    closed = [] if s.open_controls or clubs else _text("Nothing is to be set here. Predict what will happen.")
    sliders = [slider(r, name, t, acts) for name in s.open_controls]
    asked = [] if t.tight else [TextBlock(tasks, "label", "muted")]
    items = [*told, *asked, *clubs, *sliders, *closed]
    return items, [_main("Predict the shot" if s.predict else "Play", acts.go), *more]


def slider(r: Round, name: str, t: Telling, acts: Acts) -> Slider:
    """One open control, between the scenario's limits; quiet where numbers are not shown."""
    low, high = r.scenario.limits_of(name)
    start = value_of(r.scenario.setup(), r.scenario.motion(), name)
    made = for_control(
        replace(CONTROLS[name], low=low, high=high), value_of(r.setup, r.motion, name),
        partial(acts.set, name), default=start,
    )  # fmt: skip
    if r.before:
        made.ghost = value_of(r.before.setup, r.before.motion, name) * CONTROLS[name].scale
    if not t.numbers:
        b = made.bounds
        made.bounds = _Quiet(b.label, b.low, b.high, b.unit, b.places)
    return made


def _call(r: Round, t: Telling, acts: Acts) -> Made:
    asked = r.scenario.predict
    told, more = _hints(r, t, acts)
    both = "Move the two marks: where the ball lands, and where it stops."
    one = f"Move the mark to where the ball {'lands' if 'landing' in asked else 'stops'}."
    places = sum(name in asked for name in ("landing", "stop"))
    strike: list[Widget] = []
    if "strike" in asked:
        called, ground = r.call.strike or "brush", ground_of(r.scenario.course())
        told_of = SAND_WORDS if ground == "sand" else STRIKE_WORDS
        strike = [
            Choice(f"How does the club meet the {ground}?", [c.title() for c in CALLS], CALLS.index(called),
                   lambda i: acts.called(strike=CALLS[i]), tooltip="Dig, brush or thin."),
            *(Pair(c.title(), told_of[c]) for c in CALLS),
        ]  # fmt: skip
    back = Button("Back" if t.tight else "Back to the set-up", acts.back, hint="B")
    words = both if places == 2 else one if places else ""
    items = [*told, *_text("" if t.tight and strike else words), *strike]  # the caption line says it too
    return items, [_main("Play", acts.go), back, *more]


def _play(r: Round, t: Telling, acts: Acts) -> Made:
    if r.shot is None:
        return _text("The shot is being worked out."), []
    words = "" if t.tight else "The strike comes in slow time.\nThen the ball flies."
    return _text(words), [_main("See the end", acts.go)]


def _gap(r: Round, t: Telling, acts: Acts) -> Made:
    told: list[Widget] = _text("\n".join(gap_lines(r, t.numbers, t.yards)))
    asked = r.go().step is Step.WHY
    after = "Say why" if asked else "Go on"
    why = [] if asked else [Button("Why?", acts.ask, hint="W")]
    return told, [_main(after, acts.go), *why, _again(t, acts)]


def _why(r: Round, t: Telling, acts: Acts) -> Made:
    q = r.question
    assert q is not None
    if r.chosen is None:
        picks: list[Widget] = [
            Button(words, partial(acts.choose, i), hint=str(i + 1), group="causes")
            for i, words in enumerate(q.choices)
        ]
        return [TextBlock(q.ask, "strong"), *picks], [_again(t, acts)]
    right = r.chosen == q.right - 1
    items = [
        TextBlock(q.ask, "strong"), TextBlock(f"You said: {q.choices[r.chosen]}", "label", "muted"),
        TextBlock(why_line(right, q.choices[q.right - 1], r.asks_the_shot)), *_text(q.because), *_told(t),
    ]  # fmt: skip
    return items, [_main("Go on", acts.go), _again(t, acts)]


class _Part(Pair):
    """One mark of the verdict; its name takes no more room than it must."""

    TERM = 0.26


def _verdict(r: Round, t: Telling, acts: Acts) -> Made:
    assert r.verdict is not None
    match = match_sentences(t.match) if t.match else (WAITING,)
    parts = (
        ("Result", result_lines(r, r.verdict, t.numbers, t.yards)), ("Handle return", match),
        ("Prediction", gap_lines(r, t.numbers, t.yards)),
    )  # fmt: skip
    told: list[Widget] = [TallyRow(goal_tally(r.scenario.goal, r.past.results, t.numbers))]
    for name, lines in parts:
        if lines:
            told.append(_Part(name, " ".join(lines)))
    if t.numbers and (counted := stroke_sentences(r.verdict, t.match)):
        told.append(_Part("Strokes", " ".join(counted)))
    if r.junior or r.worth_asking or r.chosen is not None:
        told += _told(t)
    return [*told, *_text(r.scenario.lesson.after)], _ways_on(r, t, acts)


def _ways_on(r: Round, t: Telling, acts: Acts) -> list[Button]:
    once = Button("Once more", acts.again, hint="R")
    out = [_main(t.onward, acts.go), once] if r.done else [
        Button("Once more", acts.again, kind="main", hint="Enter")]  # fmt: skip
    if r.chosen is None:
        out.append(Button("Why?", acts.ask, hint="W"))
    if r.has_example:
        out.append(Button("Coach's set-up" if t.tight else "The coach's set-up", acts.example, hint="E"))
    return out
