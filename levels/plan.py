"""The practice plan a coach hands out: little to think of, one thing to do, a mark to reach, a day to test.

Limits are common practice and assumed: one or two points at a time, a retest within two weeks.
"""

import re
import reprlib
from datetime import date
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, ValidationError, ValidationInfo, field_validator

from levels.parts import Part
from levels.problems import problems_of
from levels.rules import count_between, refuse_if
from levels.teaching import OneLine, Whole

__all__ = ["LATEST", "MOST_FOCUS", "MOST_PLANNED", "Day", "PracticePlan", "checked_plan"]

MOST_FOCUS = 2  # points to think of
MOST_PLANNED = 200  # shots of a drill
LATEST = 14  # days from the plan to its retest
_ISO = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)


def _day(value: Any) -> date:
    """A date, or the same written as text."""
    if type(value) is date:  # a date with a time is one too, but not a day
        return value
    try:
        if isinstance(value, str) and _ISO.fullmatch(value):
            return date.fromisoformat(value)
    except ValueError:
        pass
    shown = value if isinstance(value, str) else str(value)
    refuse_if([((), f"{reprlib.repr(shown)} is no day; allowed: a date like 2025-11-30")])
    raise AssertionError("refused above")


Day = Annotated[date, BeforeValidator(_day)]


class PracticePlan(Part):
    """What to practise until the next lesson. Nothing here is computed: it is the coach's word."""

    made: Day = Field(description="day the plan was made, a date like 2025-11-30")
    focus: Annotated[tuple[OneLine, ...], *count_between(1, MOST_FOCUS)] = Field(
        description="one or two points to think of, each one line of 1 to 200 characters"
    )
    drill: OneLine = Field(description="the one drill, one line of 1 to 200 characters")
    shots: Whole = Field(
        ge=1, le=MOST_PLANNED, description=f"how many shots the drill has, 1 to {MOST_PLANNED}"
    )
    successes: Whole = Field(
        ge=1, le=MOST_PLANNED, description="how many of the shots have to come off, 1 to as many as shots"
    )
    retest: Day = Field(description=f"day of the test, 1 to {LATEST} days after made")
    caution: OneLine | None = Field(
        default=None, description="what to take care of besides the usual, one line of 1 to 200 characters"
    )

    @field_validator("successes")
    @classmethod
    def _no_more_than_shots(cls, successes: int, info: ValidationInfo) -> int:
        shots = info.data.get("shots", MOST_PLANNED)
        if successes > shots:
            refuse_if([((), f"{successes} is more than the shots; allowed: 1 to {shots}")])
        return successes

    @field_validator("retest")
    @classmethod
    def _soon(cls, retest: date, info: ValidationInfo) -> date:
        if "made" in info.data and not 1 <= (retest - info.data["made"]).days <= LATEST:
            made = info.data["made"]
            refuse_if([((), f"{retest} is not soon after {made}; allowed: 1 to {LATEST} days after made")])
        return retest


def checked_plan(data: dict[str, Any]) -> tuple[PracticePlan | None, dict[str, str]]:
    """The plan in these values by key, or None and what is wrong with each key, in a few words.

    >>> checked_plan({"made": "2025-11-30", "focus": ["Brush"], "drill": "Ten", "shots": 10,
    ...               "successes": 12, "retest": "2025-12-07"})
    (None, {'successes': '12 is more than the shots; allowed: 1 to 10'})
    """
    try:
        return PracticePlan.model_validate(data), {}
    except ValidationError as error:
        found: dict[str, str] = {}
        for loc, what in problems_of(error, PracticePlan):
            found.setdefault(str(loc[0]), what)
        return None, found
