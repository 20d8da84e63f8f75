"""The lean lesson of the demo club's plain chip, played and counted once for all tests of page and clip."""

from dataclasses import replace
from datetime import date

import pytest

from game.handout import recap_of
from game.text.recap import Recap
from levels.lessons import lesson_strokes, same_mistake
from physics.address import Motion, Setup
from physics.cloud import cloud
from physics.course import level_course
from physics.spread import PLAYERS

STROKES = 150
DAY = date(2026, 11, 26)


@pytest.fixture(scope="session")
def lean() -> Recap:
    course = level_course("fairway", 8.0)
    first, second = (made[1:] for made in lesson_strokes("lean", Setup(), Motion()))
    a, b = same_mistake(course, first, second, PLAYERS["club"])
    clouds = [cloud(course, *stroke, PLAYERS["club"], 0, STROKES) for stroke in (first, second)]
    return recap_of(a, b, (clouds[0], clouds[1]), DAY, pupil="Ola")


@pytest.fixture(scope="session")
def junior(lean: Recap) -> Recap:
    return replace(lean, junior=True)
