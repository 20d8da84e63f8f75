"""The card beside the scene: what it says and which controls it holds at each step of the loop."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from game.play.card_parts import Acts, Card, Made, Telling, block_of, main_button, read_button
from game.play.layout import READ
from game.play.result_card import result_card
from game.play.round import CALLS, Round, Step
from game.play.tally import TallyRow
from game.play.words import (
    SAND_WORDS,
    STRIKE_WORDS,
    goal_tally,
    hint_label,
    hint_line,
    step_heading,
    task_lines,
)
from game.shot_view.controls import value_of
from game.text.cautions import LIMITS, cautions
from game.text.junior import plain_value
from game.ui import Button, Choice, Heading, Pair, Slider, TextBlock, Widget
from game.ui.choice import NOT_CHOSEN
from game.ui.slider import for_control
from physics.address import CONTROLS
from physics.cause import ground_of
from physics.equipment import BAG

__all__ = ["card", "slider"]

MOST = 3  # buttons beside the main one that fit in one row where there is little room
STRIKE_NAMES = {"solid": "Solid", "fat": "Fat", "thin": "Thin"}
WHERE = {"landing": "Where will the ball land?", "stop": "Where will it stop?"}
HOW_TO_MARK = "Click on the course, or use the arrows: Page keys for long steps, End for the hole."


def card(r: Round, t: Telling, acts: Acts) -> Card:
    """The card of this step."""
    make: dict[Step, Callable[[Round, Telling, Acts], Made]] = {
        Step.CARD: _lesson, Step.EXAMPLE: _example, Step.SET: _set, Step.CALL: _call, Step.PLAY: _play,
        Step.RESULT: result_card,
    }  # fmt: skip
    first = r.junior and not (r.step is Step.EXAMPLE and r.verdict)  # after a try nothing comes first
    head = Heading(r.scenario.title if r.step is Step.CARD else step_heading(r.step, first))
    items, ways = make[r.step](r, t, acts)
    if t.tight and r.step in READ and ways:
        ways.append(Button("Text" if t.looking else "Picture", acts.look, hint="V"))
    if r.junior and ways and not (t.tight and len(ways) > MOST):  # the key stays
        ways.append(Button("Hide numbers" if t.numbers else "Numbers", acts.numbers, hint="N"))
    told = r.step is Step.RESULT or (
        t.tight and r.step in (Step.SET, Step.CALL)
    )  # what is there speaks for itself
    return Card(tuple(items) if told else (head, *items), tuple(ways))


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
        *block_of(r.scenario.lesson.before), TextBlock(LIMITS, "small", "muted"),
        TextBlock(cautions(), "small", "muted"),
    ]  # fmt: skip
    return items, [main_button("Watch one first" if example else "Set it up", acts.go), *more]


def _example(r: Round, t: Telling, acts: Acts) -> Made:
    if r.example is None:
        return block_of("The shot is being worked out."), []
    words = "This is how the coach would play it." if r.verdict is None else (
        "The coach's set-up, struck as it was meant.")  # fmt: skip
    after = "Now you" if r.verdict is None else "Back to your shot"
    if t.tight and not t.ended:
        words = ""  # the heading and the picture say it
    return [*block_of(words), *(_told(t) if t.ended else [])], [
        main_button(after, acts.go),
        read_button(t, acts),
    ]


def _set(r: Round, t: Telling, acts: Acts) -> Made:
    s = r.scenario
    told, more = _hints(r, t, acts)
    tasks = " ".join(task_lines(s.goal, r.junior, t.numbers, t.yards))
    clubs: list[Widget] = []
    if len(s.clubs) > 1:
        labels = [BAG[c].short for c in s.clubs]
        clubs = [Choice("Club", labels, s.clubs.index(r.setup.club.name), lambda i: acts.take(s.clubs[i]),
                        tooltip="The club in your hands.")]  # fmt: skip
    closed = (
        [] if s.open_controls or clubs else block_of("Nothing is to be set here. Predict what will happen.")
    )
    sliders = [slider(r, name, t, acts) for name in s.open_controls]
    asked = [] if t.tight else [TextBlock(tasks, "label", "muted")]
    items = [*told, *asked, *clubs, *sliders, *closed]
    return items, [main_button("Predict the shot" if s.predict else "Play", acts.go), *more]


def slider(r: Round, name: str, t: Telling, acts: Acts) -> Slider:
    """One open control, between the scenario's limits; quiet where numbers are not shown."""
    low, high = r.scenario.limits_of(name)
    start = value_of(r.scenario.setup(), r.scenario.motion(), name)
    made = for_control(
        replace(CONTROLS[name], low=low, high=high), value_of(r.setup, r.motion, name),
        partial(acts.set, name), default=start,
        said=partial(plain_value, name),
    )  # fmt: skip
    if r.before:
        made.ghost = value_of(r.before.setup, r.before.motion, name) * CONTROLS[name].scale
    made.numbers = t.numbers
    return made


def _call(r: Round, t: Telling, acts: Acts) -> Made:
    asked = r.scenario.predict
    told, more = _hints(r, t, acts)
    places = [WHERE[name] for name in ("landing", "stop") if name in asked]
    strike: list[Widget] = []
    if "strike" in asked:
        ground = ground_of(r.scenario.course())
        told_of = SAND_WORDS if ground == "sand" else STRIKE_WORDS
        names = [STRIKE_NAMES[c] for c in CALLS]
        ask = "How will it be struck? Keys 1, 2, 3." if t.numbers else "How will it be struck?"
        now = CALLS.index(r.call.strike) if r.call.strike else NOT_CHOSEN
        strike = [
            Choice(ask, names, now,
                   lambda i: acts.called(strike=CALLS[i]), tooltip="Solid, fat or thin."),
            *(Pair(name, told_of[c]) for name, c in zip(names, CALLS, strict=True)),
        ]  # fmt: skip
    back = Button("Back" if t.tight else "Back to the set-up", acts.back, hint="B")
    skip = Button("Skip" if t.tight else "Skip the prediction", acts.skip, hint="S")
    words = f"{' '.join(places)} {HOW_TO_MARK}" if places else ""
    items = [*told, *block_of("" if t.tight and strike else words), *strike]  # the caption line says it too
    return items, [main_button("Play", acts.go), back, skip, *more]


def _play(r: Round, t: Telling, acts: Acts) -> Made:
    if r.shot is None:
        return block_of("The shot is being worked out."), []
    words = "" if t.tight else "The strike comes in slow time.\nThen the ball flies."
    return block_of(words), [main_button("See the end", acts.go)]
