"""How the ranking of a choice changes: with another spread, another green, another lie.

The options stay what they are; each is aimed anew (its swing length), or every faster green would only say
"too far". A new leader is named only where the strokes played tell it from the old one.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from levels.choice_effort import thrift
from levels.choose import SURE, ShotChoice, ShotOption
from levels.effort import cost_of
from levels.player_file import KnownPlayer
from levels.situation import Situation
from levels.worthwhile import Strokes, difference, played_strokes
from physics.address import Motion
from physics.course import Course
from physics.shot import lie_of
from physics.spread import Spread
from physics.surfaces import SAND, SURFACES

__all__ = ["Changed", "WhatIf", "changes", "what_ifs"]

Kind = Literal["spread", "green_speed", "lie"]
AIMS = (0.8, 0.88, 0.94, 1.0, 1.06, 1.13, 1.22)  # swing lengths tried, over the option's own
AIMED, JUDGED = 48, 240  # strokes of an aim; fresh strokes of an option, in the open
FEWEST_AIMED, FEWEST_JUDGED = 12, 80  # where a stroke costs much
AIM_SEED, JUDGE_SEED = 500_000, 600_000
GREENS = (-0.6, 0.6)  # m on the Stimpmeter: two feet
LIES = ("tight", "fairway", "rough")


@dataclass(frozen=True)
class WhatIf:
    """One thing otherwise: every spread times `value`, the green at `value` m, or the ball on `lie`."""

    kind: Kind
    value: float = 1.0
    lie: str = ""


@dataclass(frozen=True)
class Changed:
    """What comes of it: options of the choice, best first, strokes of each in the choice's own order.
    `other_leads`: another is surely before the choice's own first; `sure`: the first surely before all."""

    what: WhatIf
    order: tuple[int, ...]
    strokes: tuple[float, ...]
    other_leads: bool
    sure: bool


def what_ifs(course: Course) -> list[WhatIf]:
    """What is asked on a course: steadier and wilder, a slower and a faster green, the other lies of turf."""
    asked = [WhatIf("spread", 0.7), WhatIf("spread", 1.4)]
    asked += [WhatIf("green_speed", round(min(max(course.green_speed + d, 1.2), 4.9), 2)) for d in GREENS]
    surface = lie_of(course)[0]
    if surface.kind != SAND:
        asked += [WhatIf("lie", lie=lie) for lie in LIES if lie != surface.name]
    return asked


def changes(
    situation: Situation, choice: ShotChoice, player: KnownPlayer, seed: int = 0
) -> Iterator[Changed]:
    """What each of `what_ifs` does to the choice, one after the other; stop asking to cancel."""
    for what in what_ifs(situation.course):
        yield _changed(what, situation, choice, player, seed)


def _changed(
    what: WhatIf, situation: Situation, choice: ShotChoice, player: KnownPlayer, seed: int
) -> Changed:
    course, who = _otherwise(situation.course, what), _other_player(player, what)
    judged = max(round(JUDGED * thrift(cost_of(course))), FEWEST_JUDGED)
    made = []
    for option in choice.options:
        motion = _aimed(course, situation, option, who, seed + AIM_SEED)
        made.append(played_strokes(course, option.setup, motion, who, seed + JUDGE_SEED, judged, 2))
    strokes = tuple(float(m.strokes.mean()) for m in made)
    order = tuple(int(i) for i in np.argsort(strokes, kind="stable"))
    first = made[order[0]]
    sure = all(_behind(other, first) for other in made if other is not first)
    return Changed(what, order, strokes, _behind(made[0], first), sure)


def _behind(one: Strokes, other: Strokes) -> bool:
    """Whether one takes more strokes than the other by more than chance."""
    behind, error = difference(one, other)
    return behind > SURE * error


def _otherwise(course: Course, what: WhatIf) -> Course:
    if what.kind == "green_speed":
        return replace(course, green_speed=what.value)
    if what.kind == "lie":
        return replace(course, lie=replace(course.lie, surface=what.lie))
    return course


def _other_player(player: KnownPlayer, what: WhatIf) -> KnownPlayer:
    if what.kind != "spread":
        return player
    return KnownPlayer(_times(player.spread, what.value), tuple(_times(s, what.value) for s in player.likely))


def _times(s: Spread, factor: float) -> Spread:
    names = ("speed", "along", "up", "lean", "face", "drop", "aim")
    return replace(s, **{name: getattr(s, name) * factor for name in names})


def _aimed(
    course: Course, situation: Situation, option: ShotOption, player: KnownPlayer, seed: int
) -> Motion:
    """The option's stroke with the swing length that is best here, and the depth usual from the lie."""
    space, now = situation.space, option.motion
    if "depth" in space.controls:
        usual = SURFACES[lie_of(course)[0].name].usual_depth - lie_of(situation.course)[0].usual_depth
        now = replace(now, depth=now.depth + usual)
    tried, count = [], max(round(AIMED * thrift(cost_of(course))), FEWEST_AIMED)
    for aim in AIMS:
        point = space.point_of(option.setup, replace(now, swing_length=now.swing_length * aim))
        motion = space.shot(point)[1]
        made = played_strokes(course, option.setup, motion, player, seed, count, 2)
        tried.append((float(made.strokes.mean()), motion.swing_length, motion))
    return min(tried, key=lambda t: t[:2])[2]
