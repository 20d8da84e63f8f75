"""What a scenario asks and teaches: goals, predictions, text, hints, a question, limits, a reference.

The words are for people from about eight years on: short sentences, one thought each.
"""

from typing import Annotated, Any, Literal

from pydantic import (
    BeforeValidator,
    Field,
    Strict,
    StringConstraints,
    ValidationInfo,
    field_validator,
    model_validator,
)

from levels.families import FAMILIES
from levels.parts import FILE_KEYS, ClubName, Part, file_value
from levels.rules import Number, count_between, limited_number, refuse_if
from physics.address import CONTROLS
from physics.equipment import BAG

__all__ = [
    "PREDICTIONS", "STRIKES", "Clear", "Goal", "Lesson", "Limits", "OneLine", "Question", "Reference",
    "Span",
]  # fmt: skip

STRIKES = ("solid", "clean", "brush", "splash")
PREDICTIONS = ("landing", "stop", "strike")
MOST_SHOTS = 20

Span = Annotated[tuple[Number, Number], *count_between(2, 2)]
Whole = Annotated[int, Strict()]


def _plain_newlines(text: Any) -> Any:
    return text.replace("\r\n", "\n").replace("\r", "\n") if isinstance(text, str) else text


Words = Annotated[
    str,
    BeforeValidator(_plain_newlines),  # so that a file saved on any system reads the same
    StringConstraints(max_length=4000, pattern=r"^[^\x00-\x08\x0b-\x1f\x7f]*$"),
]
OneLine = Annotated[str, StringConstraints(pattern=r"^[^\x00-\x1f\x7f]+$", max_length=200)]


def _count(what: str) -> Any:
    return Field(default=1, ge=1, le=MOST_SHOTS, description=f"{what}, 1 to {MOST_SHOTS}")


def _rising(span: tuple[float, float], low: float, high: float, unit: str) -> None:
    """Refuse a pair that is not two rising values between low and high."""
    if not low <= span[0] < span[1] <= high:
        text = f"{span[0]:g} to {span[1]:g} is no range here; allowed: rising, {low:g} to {high:g} {unit}"
        refuse_if([((), text.rstrip())])


class Clear(Part):
    """A place the ball has to fly over."""

    x_m: Number = limited_number("distance from the ball", 0.2, 100, "m")
    height_m: Number = limited_number(
        "least height of the ball's bottom over the ground there", 0.02, 20, "m"
    )


class Goal(Part):
    """What counts as done. Each shot must meet every goal given; `shots` says how many must do so."""

    leave_m: Number | None = limited_number("farthest from the hole that still counts", 0.05, 20, "m", None)
    land_between_m: Span | None = Field(
        default=None, description="where the ball has to land first, two rising distances, 0 to 100 m"
    )
    must_clear: Clear | None = Field(default=None, description="table of a place to fly over")
    ceiling_m: Number | None = limited_number(
        "greatest height of the ball over where it lay, until it rests or meets a wall, lip or tree",
        0.05, 20, "m", None,
    )  # fmt: skip
    strike: Literal["solid", "clean", "brush", "splash"] | None = Field(
        default=None, description=f"how the ball has to be struck: {', '.join(STRIKES)}"
    )
    match_deg: Number | None = limited_number(
        "farthest the shaft lean at impact may be from that at address", 0.5, 15, "degrees", None
    )
    shots: Whole = _count("how many of the latest shots count")
    successes: Whole = _count("how many of those have to meet every goal")
    in_a_row: Annotated[bool, Strict()] = Field(
        default=False, description="true if the good ones have to follow one another, false if not"
    )

    @field_validator("strike", mode="before")
    @classmethod
    def _older_word(cls, strike: Any) -> Any:
        """Files written before strikes were judged by the ball say playable."""
        return "solid" if strike == "playable" else strike

    @field_validator("land_between_m")
    @classmethod
    def _land_rising(cls, span: tuple[float, float] | None) -> tuple[float, float] | None:
        if span is not None:
            _rising(span, 0.0, 100.0, "m")
        return span

    @field_validator("successes")
    @classmethod
    def _no_more_than_shots(cls, successes: int, info: ValidationInfo) -> int:
        shots = info.data.get("shots", MOST_SHOTS)
        if successes > shots:
            refuse_if([((), f"{successes} is more than the shots; allowed: 1 to {shots}")])
        return successes

    @model_validator(mode="after")
    def _something_to_do(self) -> "Goal":
        kinds = ("leave_m", "land_between_m", "must_clear", "ceiling_m", "strike", "match_deg")
        if all(getattr(self, kind) is None for kind in kinds):
            refuse_if([((), f"asks for nothing; allowed: at least one of {', '.join(kinds)}")])
        return self


class Lesson(Part):
    """What the coach says before and after the shot."""

    before: Words = Field(default="", description="text shown before the shot, up to 4000 characters")
    after: Words = Field(default="", description="text shown after the shot, up to 4000 characters")


class Question(Part):
    """What the player is asked after a shot: which cause was it?"""

    ask: OneLine = Field(description="the question, one line of 1 to 200 characters")
    choices: Annotated[tuple[OneLine, ...], *count_between(3, 3)] = Field(
        description="three causes to choose from, each one line of 1 to 200 characters"
    )
    right: Whole = Field(ge=1, le=3, description="number of the right cause, 1 to 3")
    because: Words = Field(default="", description="text shown once a cause is chosen, up to 4000 characters")

    @field_validator("choices")
    @classmethod
    def _three_different(cls, choices: tuple[str, ...]) -> tuple[str, ...]:
        refuse_if(
            [((i,), "says the same as another; allowed: three different causes")
             for i, text in enumerate(choices) if text in choices[:i]]
        )  # fmt: skip
        return choices


def _span(name: str) -> Any:
    c = CONTROLS[name]
    limits = f"{file_value(c, c.low):g} to {file_value(c, c.high):g} {c.unit}".rstrip()
    return Field(default=None, description=f"least and greatest {c.label} in this scenario, within {limits}")


class Limits(Part):
    """How far the player may move an open control here; without an entry, as far as it goes."""

    ball_position_cm: Span | None = _span("ball_position")
    shaft_lean_deg: Span | None = _span("shaft_lean")
    stance_width_cm: Span | None = _span("stance_width")
    face_open_deg: Span | None = _span("face_open")
    lead_weight_percent: Span | None = _span("lead_weight")
    swing_length_deg: Span | None = _span("swing_length")
    release: Span | None = _span("release")
    follow_through: Span | None = _span("follow_through")
    lean_change_deg: Span | None = _span("lean_change")
    drop: Span | None = _span("drop")
    depth_mm: Span | None = _span("depth")

    @field_validator("*")
    @classmethod
    def _within_control(
        cls, span: tuple[float, float] | None, info: ValidationInfo
    ) -> tuple[float, float] | None:
        c = next(c for c in CONTROLS.values() if FILE_KEYS[c.name] == info.field_name)
        if span is not None:
            _rising(span, file_value(c, c.low), file_value(c, c.high), c.unit)
        return span


def _value(name: str) -> Any:
    c = CONTROLS[name]
    return limited_number(c.label, file_value(c, c.low), file_value(c, c.high), c.unit, None)


class Reference(Part):
    """A matched set-up that does the task: the open controls, where it differs from the default."""

    family: Literal["low", "standard", "high"] = Field(
        default="standard", description=f"kind of shot: {', '.join(FAMILIES)}"
    )
    club: ClubName | None = Field(default=None, description=f"club in hand: {', '.join(BAG)}")
    ball_position_cm: Number | None = _value("ball_position")
    shaft_lean_deg: Number | None = _value("shaft_lean")
    stance_width_cm: Number | None = _value("stance_width")
    face_open_deg: Number | None = _value("face_open")
    lead_weight_percent: Number | None = _value("lead_weight")
    swing_length_deg: Number | None = _value("swing_length")
    release: Number | None = _value("release")
    follow_through: Number | None = _value("follow_through")
    lean_change_deg: Number | None = _value("lean_change")
    drop: Number | None = _value("drop")
    depth_mm: Number | None = _value("depth")
