"""Attempts for tests: one real shot a scenario, and as many made up ones as wanted around it."""

from dataclasses import replace
from datetime import datetime, timedelta, timezone
from functools import cache

from levels.attempts import Attempt, attempt_of, task_of
from levels.facts import passed
from levels.files import load_library
from levels.scoring import Prediction, judge
from physics.shot import play
from physics.spread import PLAYERS

__all__ = ["SCENARIO", "START", "made_up", "real_attempt"]

SCENARIO = "harrow-fen-after-rain"
START = datetime(2025, 11, 3, 18, 30, 0, 123456, tzinfo=timezone(timedelta(hours=1)))


@cache
def real_attempt(name: str = SCENARIO, seed: int = 7) -> Attempt:
    """A shot of the scenario's own player with the default set-up."""
    scenario = load_library(name)
    shot = play(scenario.course(), scenario.setup(), scenario.motion(), PLAYERS[scenario.player], seed)
    verdict = judge(scenario, shot)
    return attempt_of(
        shot, "Robin", START, task_of(name, scenario), verdict, call=Prediction(4.0, 8.5, "brush"),
        passed=passed(scenario.goal, [verdict.met]), hints=1,
    )  # fmt: skip


def made_up(
    number: int, *, met: bool = True, player: str = "Robin", when: datetime | None = None,
    name: str = SCENARIO, strokes: float = 2.5, solid: bool = True, gap: float = 0.5, part: str = "",
    passed: bool = False,
) -> Attempt:  # fmt: skip
    """An attempt of its own uid with a result as told."""
    one = real_attempt()
    result = replace(one.result, met=met, strokes=strokes, solid=solid, rest=8.5 + gap)
    return replace(
        one, player=player, when=when or START + timedelta(minutes=number), uid=f"{number:016x}",
        task=replace(one.task, name=name), result=result, part=part, passed=passed,
    )  # fmt: skip
