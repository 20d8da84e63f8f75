"""The corridor in one compiled walk: stroke with its stray -> strike -> launch -> the ball's run.

`play` draws it, the cloud repeats it, the command line prints it: all call `strike_stray` and
`run_ball`, so no two answers can disagree.
"""

from math import atan2, cos, hypot, sin
from typing import Any

import numpy as np
from numpy.typing import NDArray

from physics.address import Motion, Setup
from physics.compiled import law
from physics.face import opened_face
from physics.head import ELEMENTS, sole_elements
from physics.sole import CELLS, Soil
from physics.strike import Blow, strike_ball
from physics.swing import Links, Stroke, links

__all__ = [
    "FAT_SHARE",
    "ball_start",
    "bench",
    "launch_of",
    "playable",
    "strike_stray",
    "stroke_of",
    "turf_share",
]

Floats = NDArray[np.float64]

FAT_SHARE = 0.10  # of the head speed taken by turf before the ball: more is fat, less is playable


def stroke_of(setup: Setup, motion: Motion) -> Stroke:
    """Every control as a number, in the order of the laws."""
    return Stroke(
        setup.ball_position, setup.shaft_lean, setup.stance_width, setup.face_open, setup.lead_weight,
        motion.swing_length, motion.release, motion.follow_through, motion.lean_change, motion.drop,
        motion.depth,
    )  # fmt: skip


def bench() -> Soil:
    """Fresh work space for a strike."""
    return Soil(
        np.zeros((ELEMENTS, 5)), np.zeros(CELLS), np.zeros(CELLS), np.zeros(ELEMENTS), np.zeros(ELEMENTS)
    )  # fmt: skip


@law
def stray_stroke(base: Stroke, stray: Floats) -> Stroke:
    """The stroke as made: intention plus stray, in the order of `Stray` (aim is not a matter of x, y)."""
    return Stroke(
        base.ball_position, base.shaft_lean, base.stance_width, base.face_open + stray[4],
        base.lead_weight, base.swing_length, base.release, base.follow_through,
        base.lean_change + stray[3], base.drop + stray[5], base.depth,
        base.speed * stray[0], base.along + stray[1], base.up + stray[2],
    )  # fmt: skip


@law
def strike_stray(
    club: Any, surface: Any, lift: float, base: Stroke, stray: Floats, work: Soil, log: Floats,
    whole: bool, fineness: float = 1.0,
) -> tuple[Blow, Links, float, float, float]:  # fmt: skip
    """Strike with one stray, shape (7,): the blow, the links, and loft, bounce, azimuth of the open face."""
    stroke = stray_stroke(base, stray)
    loft, bounce, azimuth = opened_face(club.lie, club.loft, club.bounce, stroke.face_open)
    sole_elements(bounce, club.sole_width, club.camber, club.edge_radius, work.elements)
    link = links(club, stroke, loft, work.elements)
    blow = strike_ball(club, surface, lift, link, loft, work, log, whole, fineness)
    return blow, link, loft, bounce, azimuth


@law
def ball_start(blow: Blow, ground: float, tilt: float) -> tuple[float, float, float, float]:
    """Ball centre and velocity just after the blow, turned from the slope's frame into the course's."""
    c, s = cos(tilt), sin(tilt)
    return (
        blow.ball_x * c - blow.ball_y * s,
        ground + blow.ball_x * s + blow.ball_y * c,
        blow.ball_vx * c - blow.ball_vy * s,
        blow.ball_vx * s + blow.ball_vy * c,
    )


@law
def turf_share(blow: Blow) -> float:
    """Share of the head speed that turf took before the ball."""
    return 1.0 - blow.speed_at_ball / blow.speed_before if blow.met > 0 else 1.0


@law
def playable(blow: Blow) -> bool:
    """The face, not the edge, met the ball, once, and turf took under a tenth of the speed."""
    return blow.met == 1 and blow.double == 0 and turf_share(blow) < FAT_SHARE


@law
def launch_of(blow: Blow) -> tuple[float, float]:
    """Ball speed (m/s) and launch angle (rad) over the slope."""
    return hypot(blow.ball_vx, blow.ball_vy), atan2(blow.ball_vy, blow.ball_vx)
