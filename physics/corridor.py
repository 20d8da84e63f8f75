"""One stroke struck and judged in one compiled walk: stroke with its stray -> strike -> launch.

`play` draws it, the cloud repeats it, the command line prints it: all call `strike_stray` and
`run_ball`, so no two answers can disagree.
"""

from math import atan2, cos, hypot, sin
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from physics.address import Motion, Setup
from physics.compiled import law
from physics.equipment import BALL_RADIUS
from physics.explosion import CARRIED
from physics.face import opened_head
from physics.head import ELEMENTS, sole_elements
from physics.quality import NO_STANDARD, Quality, Standard, clean_launch, quality_of
from physics.sole import CELLS, Soil
from physics.strike import Blow, strike_ball
from physics.surfaces import SAND
from physics.swing import Links, Stroke, links

__all__ = [
    "Struck",
    "ball_start",
    "bench",
    "intended_strike",
    "launch_of",
    "standard_of",
    "strike_stray",
    "stroke_of",
]

Floats = NDArray[np.float64]


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


class Struck(NamedTuple):
    """One strike: blow, links, loft, bounce and azimuth (rad) of the opened face, and the judgement."""

    blow: Blow
    link: Links
    loft: float
    bounce: float
    azimuth: float
    quality: Quality


@law
def _addressed(club: Any, stroke: Stroke, work: Soil) -> tuple[Links, float, float, float]:
    """Links of a stroke; loft, bounce, azimuth (rad) of the opened face, whose sole is laid out in `work`."""
    loft, bounce, azimuth = opened_head(club, stroke.face_open)
    sole_elements(bounce, club.sole_width, club.camber, club.edge_radius, work.elements)
    return links(club, stroke, loft, work.elements), loft, bounce, azimuth


@law
def _struck(
    club: Any, surface: Any, lift: float, stroke: Stroke, work: Soil, log: Floats, whole: bool,
    fineness: float, standard: Standard,
) -> Struck:  # fmt: skip
    """Strike once and judge it."""
    link, loft, bounce, azimuth = _addressed(club, stroke, work)
    blow = strike_ball(club, surface, lift, link, loft, work, log, whole, fineness)
    return Struck(
        blow, link, loft, bounce, azimuth, quality_of(club, surface, lift, link, loft, blow, standard)
    )


@law
def _per_speed(blow: Blow) -> tuple[float, float, float]:
    """Ball speed over head speed, launch angle (rad), surface speed of the spin over head speed."""
    v = blow.speed_before
    return (
        hypot(blow.ball_vx, blow.ball_vy) / v,
        atan2(blow.ball_vy, blow.ball_vx),
        blow.spin * BALL_RADIUS / v,
    )


@law
def standard_of(club: Any, surface: Any, lift: float, base: Stroke, work: Soil, log: Floats) -> Standard:
    """The measure of a stroke from sand: the intended stroke itself, and the same with the lean that was
    set. Zeros where sand does not carry the intended stroke's ball: there the clean blow is the measure.
    `log` may have no rows."""
    if surface.kind != SAND:
        return NO_STANDARD
    made = _struck(club, surface, lift, base, work, log, False, 1.0, NO_STANDARD)
    kept = Stroke(
        base.ball_position, base.shaft_lean, base.stance_width, base.face_open, base.lead_weight,
        base.swing_length, base.release, base.follow_through, base.shaft_lean - made.link.by_motion,
        base.drop, base.depth, base.speed, base.along, base.up,
    )  # fmt: skip
    ideal = _struck(club, surface, lift, kept, work, log, False, 1.0, NO_STANDARD)
    if made.blow.cushion <= CARRIED or ideal.blow.met == 0:
        return NO_STANDARD
    return Standard(*_per_speed(made.blow), *_per_speed(ideal.blow))


@law
def intended_strike(
    club: Any, surface: Any, lift: float, stroke: Stroke, work: Soil, log: Floats
) -> tuple[Links, float, float, float]:
    """Links, ball speed (m/s), launch angle (rad) and spin (rad/s) of a stroke as it is meant: the clean
    blow with the lean that is delivered; from sand the stroke itself. Speed 0 where it misses."""
    link, loft, _, _ = _addressed(club, stroke, work)
    if surface.kind == SAND:
        blow = strike_ball(club, surface, lift, link, loft, work, log, False, 1.0)
        return link, hypot(blow.ball_vx, blow.ball_vy), atan2(blow.ball_vy, blow.ball_vx), blow.spin
    speed, angle, turn = clean_launch(
        link, loft, link.delivered, club.edge_radius, club.head_mass, surface.face_friction,
        surface.ball_raise + lift,
    )  # fmt: skip
    return link, speed, angle, turn / BALL_RADIUS


@law
def strike_stray(
    club: Any, surface: Any, lift: float, base: Stroke, stray: Floats, work: Soil, log: Floats,
    whole: bool, standard: Standard, fineness: float = 1.0,
) -> Struck:  # fmt: skip
    """Strike with one stray, shape (7,), and judge it by `standard_of` the same stroke."""
    return _struck(club, surface, lift, stray_stroke(base, stray), work, log, whole, fineness, standard)


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
def launch_of(blow: Blow) -> tuple[float, float]:
    """Ball speed (m/s) and launch angle (rad) over the slope."""
    return hypot(blow.ball_vx, blow.ball_vy), atan2(blow.ball_vy, blow.ball_vx)
