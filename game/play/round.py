"""The loop of one scenario as a plain state machine: no window, no clock, no computing.

Set, predict, play, and see prediction, result and cause at once. Calling the shot first makes what
follows be remembered
(Crouch, Fagen, Callan and Mazur 2004; Miller, Lasry, Chu and Mazur 2013), saying why helps learners
explain it to themselves (Bisra and others 2018). Below about eleven years an example comes first,
later the try comes first (Sinha and Kapur 2021).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import nan
from typing import Any
from zlib import crc32

from game.library.progress import Past, calls_true
from game.play.causes import ask_why
from levels.attempts import NamedCause
from levels.facts import passed
from levels.scenario import Scenario
from levels.scoring import Prediction, PredictionGap, Verdict, prediction_gap, strike_word
from levels.teaching import Goal, Question
from physics.address import Intention, Motion, Setup
from physics.equipment import BAG
from physics.results import Shot

__all__ = [
    "CALLS", "GoalCount", "Practice", "Round", "Step", "begin", "goal_count", "next_key", "seed_of",
]  # fmt: skip

CALLS = ("solid", "fat", "thin")  # of the words of levels.scoring.strike_word
PLACES = ("landing", "stop", "strike")  # what can be called, in the order it is asked
WORTH = 0.10  # share of the hole's distance within which a miss needs no words, common practice (bandwidth)
NOTHING = Prediction()
FADE = 2  # good shots in a row after which a junior is asked no more, assumed


class Step(StrEnum):
    """Where in the loop one is."""

    CARD = "lesson"
    EXAMPLE = "example"
    SET = "set"
    CALL = "predict"
    PLAY = "play"
    RESULT = "result"


@dataclass(frozen=True)
class Practice:
    """Whose practice a Round is: who plays ("" writes nothing down), in which part of a plan, for which
    assignment."""

    player: str = ""
    part: str = ""  # of levels.attempts.PRACTICE_PARTS
    assignment: str = ""


@dataclass(frozen=True)
class Round:
    """One scenario being played. Every move gives a new Round; a move that is not open gives the same."""

    key: str
    scenario: Scenario
    junior: bool
    past: Past
    step: Step
    setup: Setup
    motion: Motion
    call: Prediction = NOTHING  # unset at the start of every try
    hints: int = 0  # how many of the scenario's hints are shown
    shot: Shot | None = None  # this try's, once it is worked out
    before: Shot | None = None  # the try before
    example: Shot | None = None  # the reference played without spread
    verdict: Verdict | None = None
    asking: bool = False  # the question why is open
    chosen: int | None = None  # cause picked, from 0
    answered: bool = False  # the scenario's own question has been
    practice: Practice = Practice()

    # ---- what is asked

    @property
    def seed(self) -> int:
        """Seed of this try; every try has its own."""
        counted = self.past.tries - (1 if self.verdict else 0)
        return seed_of(self.key, counted)

    @property
    def gap(self) -> PredictionGap | None:
        """Called against what happened, once it has; None where nothing was called."""
        if self.shot is None or self.call.none:
            return None
        return prediction_gap(self.call, self.shot)

    @property
    def unset(self) -> tuple[str, ...]:
        """What is asked for and not yet called."""
        asked = self.scenario.predict
        return tuple(what for what in PLACES if what in asked and getattr(self.call, what) is None)

    @property
    def uncalled(self) -> bool:
        """Whether this scenario asks for a prediction and the shot was played without one."""
        return self.shot is not None and bool(self.scenario.predict) and self.call.none

    @property
    def asks_the_shot(self) -> bool:
        """Whether the shot itself is asked. The scenario's own question belongs to the set-up it starts
        from: it comes once, with a shot that misses the goal."""
        met = self.verdict is not None and self.verdict.met
        return self.scenario.question is None or self.answered or met

    @property
    def question(self) -> Question | None:
        """What is asked about the shot: the scenario's own question, else one the shot answers."""
        if self.shot is None:
            return None
        return ask_why(self.shot) if self.asks_the_shot else self.scenario.question

    @property
    def told_hints(self) -> tuple[str, ...]:
        """The hints shown so far."""
        return tuple(self.scenario.hints[: self.hints])

    @property
    def worth_asking(self) -> bool:
        """Whether the shot asks for a reason: a junior's always until it goes well, else a real miss."""
        if self.verdict is None:
            return False
        if self.junior:
            recent = self.past.results[-FADE:]
            return not (len(recent) == FADE and all(recent))
        near = self.verdict.leave <= WORTH * self.scenario.hole.x_m
        return not (self.verdict.met or near)

    @property
    def done(self) -> bool:
        """Whether the newest tries do what the goal asks."""
        return passed(self.scenario.goal, self.past.results)

    @property
    def named_cause(self) -> NamedCause | None:
        """The cause picked, beside the true one; None before."""
        asked = self.question
        if asked is None or self.chosen is None:
            return None
        return NamedCause(asked.choices[self.chosen], asked.choices[asked.right - 1])

    @property
    def has_example(self) -> bool:
        """Whether there is a worked example."""
        return self.scenario.reference is not None

    # ---- moves

    def go(self) -> "Round":
        """The next step; the same Round where something is still to be done."""
        match self.step:
            case Step.CARD:
                first = self.junior and self.has_example and self.past.tries == 0
                return replace(self, step=Step.EXAMPLE if first else Step.SET)
            case Step.EXAMPLE:
                return replace(self, step=Step.RESULT if self.verdict else Step.SET)
            case Step.SET:
                return replace(self, step=Step.CALL if self.scenario.predict else Step.PLAY)
            case Step.CALL if not self.unset:
                return replace(self, step=Step.PLAY)
            case Step.PLAY if self.verdict:
                return replace(self, step=Step.RESULT)
            case _:
                return self

    def skip(self) -> "Round":
        """Play without a prediction: what was called so far is taken back."""
        return replace(self, step=Step.PLAY, call=NOTHING) if self.step is Step.CALL else self

    def back(self) -> "Round | None":
        """One step back while the shot is not yet played; None where there is no way back."""
        earlier = {Step.SET: Step.CARD, Step.CALL: Step.SET}
        return replace(self, step=earlier[self.step]) if self.step in earlier else None

    def ask(self) -> "Round":
        """Open the question why."""
        return replace(self, asking=True) if self.step is Step.RESULT and not self.asking else self

    def show_example(self) -> "Round":
        """To the worked example: for older players once they have tried."""
        there = self.has_example and self.step is Step.RESULT
        return replace(self, step=Step.EXAMPLE) if there else self

    def hint(self) -> "Round":
        """One more hint, while there is one."""
        return replace(self, hints=min(self.hints + 1, len(self.scenario.hints)))

    def set(self, name: str, value: float) -> "Round":
        """One open control at another value (SI), held to the scenario's limits. KeyError if not open."""
        if name not in self.scenario.open_controls:
            raise KeyError(f"'{name}' is not open here")
        low, high = self.scenario.limits_of(name)
        meant = Intention(self.setup, self.motion).with_value(name, min(max(value, low), high))
        return replace(self, setup=meant.setup, motion=meant.motion)

    def take(self, club: str) -> "Round":
        """Another club of those offered. KeyError if it is not."""
        if club not in self.scenario.clubs:
            raise KeyError(f"'{club}' is not offered here")
        return replace(self, setup=replace(self.setup, club=BAG[club]))

    def called(self, **marks: Any) -> "Round":
        """The call changed: landing, stop (m) or strike."""
        return replace(self, call=replace(self.call, **marks))

    def shown(self, example: Shot) -> "Round":
        """The worked example has been worked out."""
        return replace(self, example=example)

    def played(self, shot: Shot, verdict: Verdict) -> "Round":
        """The shot of this try has been worked out and counts from now on; once only."""
        if self.step is not Step.PLAY or self.verdict:
            return self
        results = (*self.past.results, verdict.met)
        gap = nan if self.call.stop is None else shot.run.rest - self.call.stop
        past = self.past.after(
            verdict.met, passed(self.scenario.goal, results), gap, _came_true(self.call, shot)
        )
        done = replace(self, shot=shot, verdict=verdict, past=past)
        return replace(done, asking=done.worth_asking)

    def failed(self) -> "Round":
        """The shot or the example could not be worked out: back to the set-up."""
        lost = self.step is Step.EXAMPLE or (self.step is Step.PLAY and self.verdict is None)
        return replace(self, step=Step.RESULT if self.verdict else Step.SET) if lost else self

    def choose(self, cause: int) -> "Round":
        """Pick a cause, from 0; the first pick stands."""
        open_ = self.step is Step.RESULT and self.asking and self.chosen is None
        if not open_ or cause not in range(3):
            return self
        return replace(self, chosen=cause)

    def again(self) -> "Round":
        """Another try with the same controls, a new seed, and nothing called yet."""
        if self.verdict is None:
            return self
        own = self.chosen is not None and not self.asks_the_shot
        return replace(
            self, step=Step.SET, before=self.shot, shot=None, verdict=None, chosen=None, asking=False,
            call=NOTHING, answered=self.answered or own,
        )  # fmt: skip


def _came_true(call: Prediction, shot: Shot) -> tuple[bool, ...]:
    """Whether the calls of landing and strike came true, those that were made."""
    return calls_true(call, shot.run.carry if shot.launch else None, strike_word(shot))


def seed_of(key: str, tries: int) -> int:
    """Seed of a try: the same for the same scenario and count, different for neighbours."""
    return (crc32(key.encode()) + 1_000_003 * tries) & 0x7FFFFFFF


def begin(
    key: str, scenario: Scenario, junior: bool = False, past: Past | None = None,
    practice: Practice = Practice(),
) -> Round:  # fmt: skip
    """The scenario from its card on."""
    return Round(
        key, scenario, junior, past or Past(), Step.CARD, scenario.setup(), scenario.motion(),
        practice=practice,
    )  # fmt: skip


def next_key(keys: Sequence[str], key: str) -> str | None:
    """The scenario after this one; None after the last."""
    at = keys.index(key) + 1
    return keys[at] if at < len(keys) else None


# ---- how far the goal is


@dataclass(frozen=True)
class GoalCount:
    """How far the goal is: `good` of `wanted` within the last `shots`; in `marks` one entry a shot that
    counts, None for one still to come."""

    marks: tuple[bool | None, ...]
    good: int
    wanted: int
    shots: int
    in_a_row: bool = False


def _row(results: Sequence[bool]) -> int:
    """How many of the newest were good without a break."""
    return next((i for i, good in enumerate(reversed(results)) if not good), len(results))


def goal_count(goal: Goal, results: Sequence[bool]) -> GoalCount:
    """The goal's progress after these results, oldest first."""
    recent = list(results[-goal.shots :])
    if goal.in_a_row and goal.successes > 1:
        run = goal.successes if passed(goal, results) else _row(recent)
        marks = tuple([True] * run + [None] * (goal.successes - run))
        return GoalCount(marks, run, goal.successes, goal.shots, True)
    marks = tuple([*recent, *([None] * (goal.shots - len(recent)))])
    return GoalCount(marks, min(sum(recent), goal.successes), goal.successes, goal.shots)
