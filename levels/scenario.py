"""The model of a scenario file: one shot set by a coach, with its limits and the rules between its keys.

Format 1. The model holds what the file holds, in the file's units, so reading what was written gives
an equal model; `course()`, `setup()` and `motion()` give the plain values physics works with.
"""

import json
from collections.abc import Mapping
from itertools import pairwise
from math import atan2, degrees
from typing import Annotated, Any, Literal

from pydantic import Field, Strict, StringConstraints, ValidationInfo, field_validator

from levels import parts, teaching
from levels.migrations import SCENARIO_FORMAT
from levels.proof import Proof, digest_of
from levels.rules import Faults, Number, count_between, limited_number, named_once, one_of, refuse_if
from physics import course
from physics.address import CONTROLS, Motion, Setup
from physics.constants import FOOT
from physics.equipment import BAG, HOLE_RADIUS
from physics.spread import PLAYERS

__all__ = ["Scenario", "scenario_schema_text"]

MOST_POINTS, MOST_HAZARDS = 500, 50
STEEPEST = 85.0  # deg, assumed: steeper ground is a wall or a lip
STEP = 1e-3  # m, least distance between points, assumed
MARGIN = 0.5  # m of ground wanted behind the ball and beyond the hole, assumed: room for the club and rim
LEVEL = 1e-3  # m, how exactly the ground passes through the ball's place, assumed

Ground = tuple[parts.PointTable, ...]
PredictionName = Annotated[str, *one_of(teaching.PREDICTIONS, "prediction")]


class Scenario(parts.Part):
    """One shot to play. Keys are checked in order, so that a rule may look at the keys above it."""

    format: Literal[1] = Field(default=SCENARIO_FORMAT, description="version of this file format: 1")
    title: Annotated[str, StringConstraints(pattern=r"^[^\x00-\x1f\x7f]+$", max_length=80)] = Field(
        description="name shown to the player, one line of 1 to 80 characters"
    )
    chapter: Annotated[str, StringConstraints(pattern=r"^[^\x00-\x1f\x7f]*$", max_length=40)] = Field(
        default="", description="chapter it belongs to, one line of up to 40 characters"
    )
    order: Annotated[int, Strict()] = Field(
        default=1, ge=1, le=999, description="place in its chapter, 1 to 999"
    )
    player: parts.PlayerName = Field(
        default="club", description=f"whose spread the shot is played with: {', '.join(PLAYERS)}"
    )
    clubs: Annotated[tuple[parts.ClubName, ...], *count_between(0, len(BAG))] = Field(
        default=(), description=f"clubs to choose from, none for the default set-up's alone: {', '.join(BAG)}"
    )
    open_controls: Annotated[tuple[parts.ControlName, ...], *count_between(0, len(CONTROLS))] = Field(
        default=(), description=f"controls the player may change: {', '.join(CONTROLS)}"
    )
    limits: teaching.Limits = Field(
        default=teaching.Limits(), description="table of how far each open control may be moved"
    )
    wind_m_per_s: Number = limited_number("wind 10 m above ground, + toward the target", -20, 20, "m/s", 0.0)
    green_speed_m: Number | None = limited_number("green speed on the Stimpmeter", 1.2, 4.9, "m", None)
    green_speed_ft: Number | None = limited_number("green speed on the Stimpmeter", 4, 16, "ft", None)
    firmness: Number = limited_number("firmness of the green, 1 the reference", 0.5, 1.5, "", 1.0)
    ground: Annotated[Ground, *count_between(2, MOST_POINTS)] = Field(
        description=f"profile from left to right, 2 to {MOST_POINTS} points"
    )
    hole: parts.HoleTable = Field(description="table of the hole")
    lie: parts.LieTable = Field(default=parts.LieTable(), description="table of the lie")
    hazards: Annotated[tuple[parts.HazardTable, ...], *count_between(0, MOST_HAZARDS)] = Field(
        default=(),
        description=f"at most {MOST_HAZARDS} hazards of kind water, wall, lip, tree or out_of_bounds",
    )
    default_setup: parts.SetupTable = Field(
        default=parts.SetupTable(), validate_default=True, description="table of the address to begin with"
    )
    default_motion: parts.MotionTable = Field(
        default=parts.MotionTable(), description="table of the stroke to begin with"
    )
    goal: teaching.Goal = Field(description="table of the goal")
    predict: Annotated[tuple[PredictionName, ...], *count_between(0, 3)] = Field(
        default=(), description=f"what the player calls before the shot: {', '.join(teaching.PREDICTIONS)}"
    )
    lesson: teaching.Lesson = Field(default=teaching.Lesson(), description="table of the lesson's text")
    hints: Annotated[tuple[teaching.OneLine, ...], *count_between(0, 3)] = Field(
        default=(), description="up to three hints of rising help, each one line of 1 to 200 characters"
    )
    question: teaching.Question | None = Field(
        default=None, description="table of the question asked after the shot"
    )
    reference: teaching.Reference | None = Field(
        default=None, description="table of a matched set-up that does the task"
    )
    proof: Proof | None = Field(
        default=None, description="table of what a search found out, written by fringework check"
    )

    @field_validator("clubs", "open_controls", "predict")
    @classmethod
    def _named_once(cls, names: tuple[str, ...]) -> tuple[str, ...]:
        return named_once(names)

    @field_validator("limits")
    @classmethod
    def _limits_of_open_controls(cls, limits: teaching.Limits, info: ValidationInfo) -> teaching.Limits:
        if "open_controls" in info.data:
            refuse_if(_closed_problems(limits, info.data["open_controls"]))
        return limits

    @field_validator("green_speed_ft")
    @classmethod
    def _one_green_speed(cls, speed: float | None, info: ValidationInfo) -> float | None:
        if speed is not None and info.data.get("green_speed_m") is not None:
            refuse_if([((), "stands beside green_speed_m; allowed: one of the two")])
        return speed

    @field_validator("ground")
    @classmethod
    def _sound_ground(cls, ground: Ground) -> Ground:
        refuse_if([*_order_problems(ground), *_surface_problems(ground), *_origin_problems(ground)])
        return ground

    @field_validator("hole")
    @classmethod
    def _hole_on_green(cls, hole: parts.HoleTable, info: ValidationInfo) -> parts.HoleTable:
        if "ground" in info.data:
            refuse_if(_hole_problems(hole, info.data["ground"]))
        return hole

    @field_validator("hazards")
    @classmethod
    def _fair_hazards(cls, hazards: tuple[parts.HazardTable, ...], info: ValidationInfo) -> Any:
        found = [*_overlap_problems(hazards)]
        for i, hazard in enumerate(hazards):
            found += [((i, key), text) for key, text in _hazard_problems(hazard, info.data)]
        refuse_if(found)
        return hazards

    @field_validator("default_setup")
    @classmethod
    def _club_among_clubs(cls, setup: parts.SetupTable, info: ValidationInfo) -> parts.SetupTable:
        clubs = info.data.get("clubs", ())
        if clubs and setup.club not in clubs:
            text = f"'{setup.club}' is not among this scenario's clubs; allowed: {', '.join(clubs)}"
            refuse_if([(("club",), text)])
        return setup

    @field_validator("default_setup", "default_motion")
    @classmethod
    def _default_within_limits(cls, table: parts.Part, info: ValidationInfo) -> parts.Part:
        if "limits" in info.data:
            refuse_if(_limit_problems(table, info.data["limits"]))
        return table

    @field_validator("reference")
    @classmethod
    def _reference_within_reach(
        cls, reference: teaching.Reference | None, info: ValidationInfo
    ) -> teaching.Reference | None:
        above = info.data
        if reference is not None and {"clubs", "open_controls", "limits"} <= above.keys():
            found = _closed_problems(reference, above["open_controls"])
            found += _limit_problems(reference, above["limits"])
            if reference.club is not None and reference.club not in above["clubs"]:
                allowed = ", ".join(above["clubs"]) or "no key, for there is no club to choose"
                found.append((("club",), f"'{reference.club}' is not offered; allowed: {allowed}"))
            refuse_if(found)
        return reference

    def course(self) -> course.Course:
        """Ground, lie, hole, hazards and weather in SI, named by the title."""
        ground = course.Ground(
            x=tuple(p.x_m for p in self.ground),
            y=tuple(p.y_m for p in self.ground),
            surfaces=tuple(p.surface for p in self.ground[:-1] if p.surface),
        )
        return course.Course(
            ground, self.lie.physics(), self.hole.physics(), tuple(h.physics() for h in self.hazards),
            self.wind_m_per_s, self.green_speed, self.firmness, self.title,
        )  # fmt: skip

    @property
    def green_speed(self) -> float:
        """Stimpmeter reading in m, whichever unit the file has; without either, that of a Course."""
        if self.green_speed_ft is not None:
            return self.green_speed_ft * FOOT
        return course.Course.green_speed if self.green_speed_m is None else self.green_speed_m

    def setup(self) -> Setup:
        """The default address in SI."""
        return self.default_setup.physics()

    def motion(self) -> Motion:
        """The default stroke in SI."""
        return self.default_motion.physics()

    def limits_of(self, name: str) -> tuple[float, float]:
        """Least and greatest value (SI) of a control in this scenario. KeyError for no control."""
        control = CONTROLS[name]
        span = getattr(self.limits, parts.FILE_KEYS[name])
        if span is None:
            return control.low, control.high
        return parts.si_value(control, span[0]), parts.si_value(control, span[1])

    @property
    def digest(self) -> str:
        """What a proof of this scenario carries; another one after any change to what is played."""
        return digest_of(self.model_dump(mode="json", exclude_none=True, exclude={"proof"}))

    def reference_shot(self) -> tuple[Setup, Motion] | None:
        """Address and stroke (SI) of the reference: the default with its own values; None without one."""
        if self.reference is None:
            return None
        own = self.reference.model_dump(exclude_none=True, exclude={"family"})
        setup, motion = (
            {k: v for k, v in own.items() if k in table.model_fields}
            for table in (parts.SetupTable, parts.MotionTable)
        )
        return (
            self.default_setup.model_copy(update=setup).physics(),
            self.default_motion.model_copy(update=motion).physics(),
        )


def _closed_problems(table: parts.Part, open_controls: tuple[str, ...]) -> Faults:
    names = [name for name, key in parts.FILE_KEYS.items() if getattr(table, key) is not None]
    allowed = ", ".join(parts.FILE_KEYS[name] for name in open_controls) or "none, no control is open"
    return [
        ((parts.FILE_KEYS[name],), f"belongs to a control that is not open; allowed: {allowed}")
        for name in names
        if name not in open_controls
    ]


def _limit_problems(table: parts.Part, limits: teaching.Limits) -> Faults:
    found: Faults = []
    for key in parts.FILE_KEYS.values():
        span, value = getattr(limits, key), getattr(table, key, None)
        if span is not None and value is not None and not span[0] <= value <= span[1]:
            text = f"{value:g} is beyond this scenario's limits; allowed: {span[0]:g} to {span[1]:g}"
            found.append(((key,), text))
    return found


def profile_height(ground: Ground, x: float) -> float:
    """Height (m) of the profile at x, straight between points, level beyond its ends."""
    if x <= ground[0].x_m:
        return ground[0].y_m
    for a, b in pairwise(ground):
        if x <= b.x_m:
            return a.y_m + (b.y_m - a.y_m) * (x - a.x_m) / (b.x_m - a.x_m)
    return ground[-1].y_m


def _order_problems(ground: Ground) -> Faults:
    found: Faults = []
    for i, (a, b) in enumerate(pairwise(ground), start=1):
        run, rise = b.x_m - a.x_m, b.y_m - a.y_m
        if run < STEP * (1 - 1e-9):
            text = f"{b.x_m:g} does not follow {a.x_m:g}; allowed: at least 0.001 m beyond the point before"
            found.append(((i, "x_m"), text))
        elif (slope := degrees(atan2(abs(rise), run))) > STEEPEST:
            text = f"{b.y_m:g} makes a slope of {slope:.1f} degrees; allowed: at most {STEEPEST:g}"
            found.append(((i, "y_m"), text))
    return found


def _surface_problems(ground: Ground) -> Faults:
    found: Faults = [
        ((i, "surface"), "is missing; allowed: the surface from this point to the next")
        for i, point in enumerate(ground[:-1])
        if point.surface is None
    ]
    if ground[-1].surface is not None:
        text = "stands at the last point; allowed: every point but the last, where the ground ends"
        found.append(((len(ground) - 1, "surface"), text))
    return found


def _origin_problems(ground: Ground) -> Faults:
    first, last = ground[0].x_m, ground[-1].x_m
    if first > -MARGIN or last < MARGIN:
        text = f"runs from {first:g} to {last:g} m; allowed: from {-MARGIN:g} or less to {MARGIN:g} or more"
        return [((), text + ", the ball lies at 0")]
    if any(b.x_m <= a.x_m for a, b in pairwise(ground)):
        return []  # already told; heights mean nothing on such a profile
    if abs(y := profile_height(ground, 0.0)) > LEVEL:
        return [((), f"is {y:g} m high at the ball; allowed: 0, for heights count from the ball's place")]
    return []


def _hole_problems(hole: parts.HoleTable, ground: Ground) -> Faults:
    if hole.x_m > ground[-1].x_m - MARGIN:
        text = f"{hole.x_m:g} is too near the end of the ground; allowed: up to {ground[-1].x_m - MARGIN:g} m"
        return [(("x_m",), text)]
    left, right = hole.x_m - HOLE_RADIUS, hole.x_m + HOLE_RADIUS
    under = {a.surface for a, b in pairwise(ground) if a.x_m < right and b.x_m > left}
    if under != {"green"}:
        names = " and ".join(sorted(str(name) for name in under))
        return [(("x_m",), f"{hole.x_m:g} puts the hole on {names}; allowed: on green only")]
    return []


def _overlap_problems(hazards: tuple[parts.HazardTable, ...]) -> Faults:
    waters = [(h.left_m, h.right_m, i) for i, h in enumerate(hazards) if isinstance(h, parts.WaterTable)]
    found: Faults = []
    reach, owner = float("-inf"), -1
    for left, right, i in sorted(waters):
        if left < min(reach, right):  # a water of no width is told elsewhere
            text = f"this water begins at {left:g} m, inside hazards[{owner}]; allowed: {reach:g} m or beyond"
            found.append(((i, "left_m"), text))
        if right > reach:
            reach, owner = right, i
    return found


def _hazard_problems(hazard: parts.HazardTable, above: Mapping[str, Any]) -> list[tuple[str, str]]:
    """What is wrong with one hazard, as (key, text); `above` holds ground and hole where those are sound."""
    ground: Ground | None = above.get("ground")
    hole: float | None = above["hole"].x_m if "hole" in above else None
    if isinstance(hazard, parts.WaterTable):
        return _water_problems(hazard, ground, hole)
    if isinstance(hazard, parts.OutOfBoundsTable):
        return _boundary_problems(hazard, hole)
    found = []
    if ground and not ground[0].x_m <= hazard.x_m <= ground[-1].x_m:
        ends = f"{ground[0].x_m:g} to {ground[-1].x_m:g} m"
        found.append(("x_m", f"{hazard.x_m:g} is off the ground; allowed: {ends}"))
    half = 0.5 * hazard.thickness_m if isinstance(hazard, parts.WallTable) else 0.0
    for what, x in (("ball", 0.0), ("hole", hole)):
        if x is not None and abs(hazard.x_m - x) < 0.1 + half:
            found.append(("x_m", f"{hazard.x_m:g} stands on the {what}; allowed: 0.1 m clear of it"))
    return found


def _water_problems(
    water: parts.WaterTable, ground: Ground | None, hole: float | None
) -> list[tuple[str, str]]:
    if water.left_m >= water.right_m:
        text = f"{water.right_m:g} is not right of {water.left_m:g}; allowed: more than left_m"
        return [("right_m", text)]
    found = []
    for what, x in (("ball", 0.0), ("hole", hole)):
        if ground and x is not None and water.left_m <= x <= water.right_m:
            low = profile_height(ground, x)
            if water.level_m > low:
                text = f"{water.level_m:g} puts the {what} under water; allowed: at most {low:g} m there"
                found.append(("level_m", text))
    return found


def _boundary_problems(stake: parts.OutOfBoundsTable, hole: float | None) -> list[tuple[str, str]]:
    beyond = stake.side == "target"
    found = []
    for what, x in (("ball", 0.0), ("hole", hole)):
        if x is not None and (x >= stake.x_m if beyond else x <= stake.x_m):
            limit = f"more than {x:g} m" if beyond else f"less than {x:g} m"
            text = f"{stake.x_m:g} puts the {what} out of bounds; allowed: {limit} on this side"
            found.append(("x_m", text))
    return found


def scenario_schema_text() -> str:
    """JSON Schema of a scenario, as kept in schema.json. Rules between keys are not in it."""
    return json.dumps(Scenario.model_json_schema(), indent=2, ensure_ascii=False) + "\n"
