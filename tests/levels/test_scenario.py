"""The model: conversion to physics, defaults, limits, migrations, schema."""

from dataclasses import fields
from importlib.resources import files
from math import degrees, inf, nan, radians
from typing import Any

import pytest
from hypothesis import given, settings
from legal_scenarios import scenarios
from pydantic import ValidationError

from levels import parts
from levels.migrations import SCENARIO_FORMAT, SCENARIO_MIGRATIONS, migrated
from levels.scenario import Scenario, profile_height, scenario_schema_text
from physics import course
from physics.address import CONTROLS, Motion, Setup
from physics.equipment import BAG


def plain(**changes: Any) -> Scenario:
    """The least scenario, with changes."""
    ground = [
        {"x_m": -1, "y_m": 0.1, "surface": "fairway"},
        {"x_m": 1, "y_m": -0.1, "surface": "green"},
        {"x_m": 10, "y_m": 0},
    ]
    least = {"title": "Least", "ground": ground, "hole": {"x_m": 5}, "goal": {"leave_m": 1}}
    return Scenario.model_validate(least | changes)


def test_course_is_the_plain_value_of_physics() -> None:
    hazards = [
        {"kind": "water", "left_m": 11, "right_m": 12, "level_m": -0.5},
        {"kind": "wall", "x_m": 9, "height_m": 1},
        {"kind": "lip", "x_m": 1, "height_m": 0.2, "overhang_m": 0.1},
        {"kind": "tree", "x_m": 8, "trunk_m": 3, "radius_m": 1},
        {"kind": "out_of_bounds", "x_m": 14},
        {"kind": "out_of_bounds", "x_m": -0.9, "side": "behind"},
    ]
    made = plain(hazards=hazards, lie={"surface": "rough", "lift_mm": -5}, wind_m_per_s=3, firmness=0.8)
    assert made.course() == course.Course(
        ground=course.Ground((-1.0, 1.0, 10.0), (0.1, -0.1, 0.0), ("fairway", "green")),
        lie=course.Lie("rough", -0.005),
        hole=course.Hole(5.0, True),
        hazards=(
            course.Water(11.0, 12.0, -0.5),
            course.Wall(9.0, 1.0),
            course.Lip(1.0, 0.2, 0.1),
            course.Tree(8.0, 3.0, 1.0),
            course.OutOfBounds(14.0, 1),
            course.OutOfBounds(-0.9, -1),
        ),
        wind=3.0,
        firmness=0.8,
    )
    assert made.course().name == "Least"


def test_part_defaults_are_those_of_physics() -> None:
    assert plain().lie.physics() == course.Lie()
    assert plain().course().green_speed == course.Course.green_speed
    for owner, table, value in (("setup", plain().setup(), Setup()), ("motion", plain().motion(), Motion())):
        for c in (c for c in CONTROLS.values() if c.owner == owner):
            assert getattr(table, c.name) == pytest.approx(getattr(value, c.name), rel=1e-9, abs=1e-12)
    assert plain().setup().club == Setup().club


def test_setup_and_motion_convert_at_the_edge() -> None:
    made = plain(
        default_setup={
            "club": "9i", "ball_position_cm": -3, "shaft_lean_deg": 8, "stance_width_cm": 21,
            "face_open_deg": 12, "lead_weight_percent": 70,
        },
        default_motion={
            "swing_length_deg": 50, "release": 1.1, "follow_through": 0.3, "lean_change_deg": -2,
            "drop": 0.5, "depth_mm": 4,
        },
    )  # fmt: skip
    assert made.setup() == Setup(BAG["9i"], -0.03, radians(8), 0.21, radians(12), 0.7)
    assert made.motion() == Motion(radians(50), 1.1, 0.3, radians(-2), 0.5, 0.004)


@pytest.mark.parametrize(
    ("table", "kind", "extra"), [(parts.SetupTable, Setup, {"club"}), (parts.MotionTable, Motion, set())]
)
def test_every_control_has_its_key(table: Any, kind: Any, extra: set[str]) -> None:
    names = {f.name for f in fields(kind)} - extra
    assert names <= set(CONTROLS)
    assert set(table.model_fields) - extra == {parts.FILE_KEYS[name] for name in names}


@pytest.mark.parametrize("name", CONTROLS)
def test_control_limits_hold_to_the_last_digit(name: str) -> None:
    control, key = CONTROLS[name], parts.FILE_KEYS[name]
    owner = f"default_{control.owner}"
    for si in (control.low, control.high):
        value = parts.file_value(control, si)
        made = plain(**{owner: {key: value}})
        assert getattr(getattr(made, control.owner)(), name) == pytest.approx(si, rel=1e-9)
        outward = value + (0.01 if si == control.high else -0.01)
        with pytest.raises(ValidationError, match=key):
            plain(**{owner: {key: outward}})


def test_green_speed_in_feet_or_metres() -> None:
    assert plain(green_speed_ft=10).course().green_speed == 10 * 0.3048
    assert plain(green_speed_m=2.9).course().green_speed == 2.9


def test_height_between_points_and_beyond() -> None:
    ground = plain().ground
    assert [profile_height(ground, x) for x in (-9, -1, 0, 1, 5.5, 10, 99)] == pytest.approx(
        [0.1, 0.1, 0.0, -0.1, -0.05, 0.0, 0.0]
    )


def test_slope_limit_is_85_degrees() -> None:
    def step(rise: float) -> list[dict[str, Any]]:
        return [
            {"x_m": -1, "y_m": 0, "surface": "fairway"}, {"x_m": 1, "y_m": 0, "surface": "rough"},
            {"x_m": 1.1, "y_m": rise, "surface": "green"}, {"x_m": 10, "y_m": rise},
        ]  # fmt: skip

    assert plain(ground=step(1.14)).ground[2].y_m == 1.14  # 84.99 degrees
    with pytest.raises(ValidationError, match="makes a slope of"):
        plain(ground=step(1.15))  # 85.03 degrees


@pytest.mark.parametrize("bad", [nan, inf, -inf, True, "1", None, [1.0], 10**400])
def test_numbers_are_finite_numbers(bad: Any) -> None:
    with pytest.raises(ValidationError):
        plain(goal={"leave_m": bad})


def test_the_model_is_frozen() -> None:
    with pytest.raises(ValidationError, match="frozen"):
        plain().title = "Other"  # type: ignore[misc]


@settings(max_examples=60, deadline=None)
@given(scenarios())
def test_any_legal_scenario_gives_sound_physics_values(made: Scenario) -> None:
    ground = made.course().ground
    assert len(ground.x) == len(ground.y) == len(ground.surfaces) + 1
    assert len(made.course().hazards) == len(made.hazards)
    for value in (made.setup(), made.motion()):
        for c in (c for c in CONTROLS.values() if hasattr(value, c.name)):
            assert c.low - 1e-12 <= getattr(value, c.name) <= c.high + 1e-12
    assert degrees(made.setup().shaft_lean) == pytest.approx(made.default_setup.shaft_lean_deg, abs=1e-9)


def test_migrations_run_step_by_step_on_plain_dicts() -> None:
    old = {"format": 1, "name": "x"}
    steps = {
        1: lambda d: {**{k: v for k, v in d.items() if k != "name"}, "title": d["name"]},
        2: lambda d: d | {"title": d["title"].upper()},
    }
    assert migrated(old, steps, newest=3) == {"format": 3, "title": "X"}
    assert old == {"format": 1, "name": "x"}
    assert migrated({"format": 3, "title": "Y"}, steps, newest=3) == {"format": 3, "title": "Y"}


def test_every_older_format_has_a_step() -> None:
    assert set(SCENARIO_MIGRATIONS) == set(range(1, SCENARIO_FORMAT))


@pytest.mark.parametrize("number", [None, 0, -1, 1.0, True, "1", SCENARIO_FORMAT + 1])
def test_other_formats_are_refused(number: Any) -> None:
    with pytest.raises(ValueError, match="allowed"):
        migrated({"format": number})


def test_schema_file_is_current() -> None:
    kept = (files("levels") / "schema.json").read_text(encoding="utf-8")
    assert kept == scenario_schema_text(), "write it anew: python -m levels.schema"


def test_every_number_states_its_limits() -> None:
    tables = [t for t in vars(parts).values() if isinstance(t, type) and issubclass(t, parts.Part)]
    for table in [Scenario, *tables]:
        for name, field in table.model_fields.items():
            if name not in ("kind", "format"):
                assert field.description, f"{table.__name__}.{name}"
            if field.annotation is float:
                low = next(m.ge for m in field.metadata if hasattr(m, "ge"))
                high = next(m.le for m in field.metadata if hasattr(m, "le"))
                assert f"{low:g} to {high:g}" in str(field.description)
