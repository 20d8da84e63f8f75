"""The corridor's joints: stroke and stray in, launch out."""

from dataclasses import fields
from math import atan2, cos, hypot, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.address import CONTROLS, Motion, Setup
from physics.compiled import as_record
from physics.corridor import (
    ball_start,
    bench,
    launch_of,
    stray_stroke,
    strike_stray,
    stroke_of,
)
from physics.quality import NO_STANDARD
from physics.spread import Stray
from physics.strike import LOG_COLUMNS, Blow
from physics.surfaces import SURFACES

NO_LOG = np.zeros((0, LOG_COLUMNS))
BLOW = strike_stray(
    as_record(Setup().club), as_record(SURFACES["fairway"]), 0.0, stroke_of(Setup(), Motion()),
    np.array([1.0, 0, 0, 0, 0, 0, 0]), bench(), NO_LOG, False, NO_STANDARD,
)[0]  # fmt: skip


def test_stroke_takes_every_control_by_its_name() -> None:
    values = {name: 0.01 * (i + 1) for i, name in enumerate(CONTROLS)}
    setup = Setup(**{n: v for n, v in values.items() if CONTROLS[n].owner == "setup"})
    motion = Motion(**{n: v for n, v in values.items() if CONTROLS[n].owner == "motion"})
    stroke = stroke_of(setup, motion)
    assert {name: getattr(stroke, name) for name in CONTROLS} == values
    assert (stroke.speed, stroke.along, stroke.up) == (1.0, 0.0, 0.0)


@pytest.mark.parametrize(("name", "to"), [
    ("speed", "speed"), ("along", "along"), ("up", "up"), ("lean", "lean_change"), ("face", "face_open"),
    ("drop", "drop"), ("aim", None),
])  # fmt: skip
def test_each_stray_moves_its_own_part_of_the_stroke(name: str, to: str | None) -> None:
    base = stroke_of(Setup(), Motion())
    row = np.array([getattr(Stray(), f.name) for f in fields(Stray)])
    index = [f.name for f in fields(Stray)].index(name)
    row[index] = 1.25 if name == "speed" else 0.25
    made = stray_stroke(base, row)
    moved = {
        n: getattr(made, n) - getattr(base, n) for n in made._fields if getattr(made, n) != getattr(base, n)
    }
    assert moved == ({to: pytest.approx(0.25)} if to else {})


@settings(deadline=None)
@given(st.floats(-0.4, 0.4), st.floats(-1.0, 1.0))
def test_ball_starts_turned_with_the_slope(tilt: float, ground: float) -> None:
    x, y, vx, vy = ball_start(BLOW, ground, tilt)
    assert hypot(vx, vy) == pytest.approx(hypot(BLOW.ball_vx, BLOW.ball_vy))
    assert atan2(vy, vx) - atan2(BLOW.ball_vy, BLOW.ball_vx) == pytest.approx(tilt)
    along, off = x * cos(tilt) + (y - ground) * sin(tilt), (y - ground) * cos(tilt) - x * sin(tilt)
    assert (along, off) == pytest.approx((BLOW.ball_x, BLOW.ball_y), abs=1e-12)
    assert launch_of(BLOW) == pytest.approx((hypot(vx, vy), atan2(vy, vx) - tilt))


def test_work_space_may_be_used_again() -> None:
    """A strike leaves nothing behind for the next one."""
    work, base = bench(), stroke_of(Setup(), Motion(depth=0.008))
    args = as_record(Setup().club), as_record(SURFACES["soft"]), 0.0, base

    def hit(stray: list[float]) -> Blow:
        return strike_stray(*args, np.array(stray), work, NO_LOG, True, NO_STANDARD).blow

    first = hit([1.0, 0, 0, 0, 0, 0, 0])
    hit([1.1, 0.01, -0.01, 0.1, 0.05, 0, 0])
    assert repr(hit([1.0, 0, 0, 0, 0, 0, 0])) == repr(first)
