"""The loop of one scenario as a plain state machine: no window, no clock, no computing.

Set, predict, play, see the gap, say why. Calling the shot first makes what follows be remembered
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

from game.library.progress import Past
from game.play.causes import ask_why
from levels.facts import passed
from levels.scenario import Scenario
from levels.scoring import Prediction, PredictionGap, Verdict, prediction_gap
from levels.teaching import Goal, Question
from physics.address import Intention, Motion, Setup
from physics.equipment import BAG
from physics.results import Shot

__all__ = [
    "CALLS", "GoalCount", "Round", "Step", "begin", "first_call", "goal_count", "next_key", "seed_of",
]  # fmt: skip

CALLS = ("dig", "brush", "thin")
WORTH = 0.10  # share of the hole's distance within which a miss needs no words, common practice (bandwidth)
FADE = 2  # good shots in a row after which a junior is asked no more, assumed


class Step(StrEnum):
    """Where in the loop one is."""

    CARD = "lesson"
    EXAMPLE = "example"
    SET = "set"
    CALL = "predict"
    PLAY = "play"
    GAP = "gap"
    WHY = "why"
    VERDICT = "verdict"


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
    call: Prediction
    hints: int = 0  # how many of the scenario's hints are shown
    shot: Shot | None = None  # this try's, once it is worked out
    before: Shot | None = None  # the try before
    example: Shot | None = None  # the reference played without spread
    verdict: Verdict | None = None
    chosen: int | None = None  # cause picked, from 0
    answered: bool = False  # the scenario's own question has been

    # ---- what is asked

    @property
    def seed(self) -> int:
        """Seed of this try; every try has its own."""
        counted = self.past.tries - (1 if self.verdict else 0)
        return seed_of(self.key, counted)

    @property
    def gap(self) -> PredictionGap | None:
        """Called against what happened, once it has."""
        if self.shot is None or not self.scenario.predict:
            return None
        return prediction_gap(self.call, self.shot)

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
                return replace(self, step=Step.VERDICT if self.verdict else Step.SET)
            case Step.SET:
                return replace(self, step=Step.CALL if self.scenario.predict else Step.PLAY)
            case Step.CALL:
                return replace(self, step=Step.PLAY)
            case Step.PLAY if self.verdict:
                return replace(self, step=Step.GAP) if self.gap else self._after_gap()
            case Step.GAP:
                return self._after_gap()
            case Step.WHY if self.chosen is not None:
                return replace(self, step=Step.VERDICT)
            case _:
                return self

    def _after_gap(self) -> "Round":
        return replace(self, step=Step.WHY if self.worth_asking and self.chosen is None else Step.VERDICT)

    def back(self) -> "Round | None":
        """One step back while the shot is not yet played; None where there is no way back."""
        earlier = {Step.SET: Step.CARD, Step.CALL: Step.SET}
        return replace(self, step=earlier[self.step]) if self.step in earlier else None

    def ask(self) -> "Round":
        """To the question why, from the gap or the verdict."""
        asked = self.step in (Step.GAP, Step.VERDICT) and self.verdict
        return replace(self, step=Step.WHY) if asked else self

    def show_example(self) -> "Round":
        """To the worked example: for older players once they have tried."""
        there = self.has_example and self.step is Step.VERDICT
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
        gap = shot.run.rest - self.call.stop if self._calls("stop") and self.call.stop is not None else nan
        past = self.past.after(verdict.met, passed(self.scenario.goal, results), gap)
        return replace(self, shot=shot, verdict=verdict, past=past)

    def failed(self) -> "Round":
        """The shot or the example could not be worked out: back to the set-up."""
        lost = self.step is Step.EXAMPLE or (self.step is Step.PLAY and self.verdict is None)
        return replace(self, step=Step.VERDICT if self.verdict else Step.SET) if lost else self

    def choose(self, cause: int) -> "Round":
        """Pick a cause, from 0; the first pick stands."""
        if self.step is not Step.WHY or self.chosen is not None or cause not in range(3):
            return self
        return replace(self, chosen=cause)

    def again(self) -> "Round":
        """Another try with the same controls and call, and a new seed."""
        if self.verdict is None:
            return self
        own = self.chosen is not None and not self.asks_the_shot
        return replace(
            self, step=Step.SET, before=self.shot, shot=None, verdict=None, chosen=None,
            answered=self.answered or own,
        )  # fmt: skip

    def _calls(self, what: str) -> bool:
        return what in self.scenario.predict


def seed_of(key: str, tries: int) -> int:
    """Seed of a try: the same for the same scenario and count, different for neighbours."""
    return (crc32(key.encode()) + 1_000_003 * tries) & 0x7FFFFFFF


def first_call(scenario: Scenario) -> Prediction:
    """Where the marks stand before they are moved: halfway and at the hole, and a brush."""
    asked, hole = scenario.predict, scenario.hole.x_m
    return Prediction(
        round(hole / 2.0, 1) if "landing" in asked else None, hole if "stop" in asked else None,
        "brush" if "strike" in asked else None,
    )  # fmt: skip


def begin(key: str, scenario: Scenario, junior: bool = False, past: Past | None = None) -> Round:
    """The scenario from its card on."""
    return Round(
        key, scenario, junior, past or Past(), Step.CARD, scenario.setup(), scenario.motion(),
        first_call(scenario),
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
