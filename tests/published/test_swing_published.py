"""The two-link swing against pendulums, energy and common practice."""

from math import cos, pi, radians, sin, sqrt

import numpy as np
import pytest

from physics.address import Motion, Setup
from physics.compiled import as_record
from physics.corridor import stroke_of
from physics.equipment import BAG, Club
from physics.head import ELEMENTS, sole_elements
from physics.swing import Links, arm_rate, edge_velocity, links


def link_of(club: Club, motion: Motion, **more: float) -> Links:
    setup = Setup(club=club, shaft_lean=0.0)
    strips = np.zeros((ELEMENTS, 5))
    sole_elements(club.bounce, club.sole_width, club.camber, club.edge_radius, strips)
    return links(as_record(club), stroke_of(setup, motion)._replace(**more), club.loft, strips)


def test_undriven_swing_has_the_period_of_a_physical_pendulum() -> None:
    """Derived: T = 2 pi sqrt(I / M g_eff) for small swings about the lowest point, 1 % at 10 degrees.

    Release 1 and no fold make arms and club one body; gravity counts with the sine of the plane.
    """
    link = link_of(BAG["SW"], Motion(radians(20)), follow_through=20.0)
    lag = link.arm_ball - link.club_ball
    r, m, s = link.reach, link.club_mass, link.club_moment
    inertia = link.arm_inertia + m * r * r + 2.0 * r * s * cos(lag) + link.club_inertia
    moment = complex(link.arm_moment + m * r + s * cos(lag), -s * sin(lag))
    lowest = -float(np.angle(moment))
    free = link._replace(torque=0.0, arm_top=lowest - radians(10), arm_ball=lowest)
    free = free._replace(club_ball=link.club_ball + lowest - link.arm_ball)
    arms = lowest - radians(10) * np.cos(np.linspace(0.0, pi / 2.0, 4001))
    middles = 0.5 * (arms[1:] + arms[:-1])
    quarter = sum(d / arm_rate(free, a) for d, a in zip(np.diff(arms), middles, strict=True))
    assert quarter * 4.0 == pytest.approx(
        2.0 * pi * sqrt(inertia / (abs(moment) * 9.81 * link.sine)), rel=0.01
    )


def test_longer_swing_gives_speed_with_about_the_root_of_its_turn() -> None:
    """Derived: work of a steady torque goes with the turn, so speed with its root (25 %).

    Up to 45 degrees, where the torque is steady; longer swings are driven harder.
    """
    speeds = [np.hypot(*edge_velocity(link, link.arm_ball))
              for deg in (11, 22, 44) if (link := link_of(BAG["SW"], Motion(radians(deg))))]  # fmt: skip
    assert speeds[1] / speeds[0] == pytest.approx(sqrt(2.0), rel=0.25)
    assert speeds[2] / speeds[1] == pytest.approx(sqrt(2.0), rel=0.25)


def test_chip_speeds_are_those_of_chips() -> None:
    """Common practice: a wedge head at some 4 to 8 m/s chips, a long bunker swing reaches 14 to 18; a full
    swing (35 m/s) is out of reach."""
    speed = {deg: float(np.hypot(*edge_velocity(link, link.arm_ball)))
             for deg in (25, 45, 130) if (link := link_of(BAG["SW"], Motion(radians(deg))))}  # fmt: skip
    assert 4.0 < speed[25] < speed[45] < 8.0
    assert 16.0 < speed[130] < 20.0


@pytest.mark.parametrize("release", [0.6, 1.0, 1.8])
def test_kinetic_energy_of_two_bodies_equals_the_work_done(release: float) -> None:
    """Jorgensen's two-link model (1994): T = 1/2 (I_a + m r^2) a'^2 + r S a'c' cos(lag) + 1/2 I_c c'^2.

    No fold; work is the hub torque times the turn plus what gravity gives. Within 1e-9 of the energy.
    """
    link = link_of(BAG["PW"], Motion(radians(60), release), follow_through=40.0)
    rate = arm_rate(link, link.arm_ball)
    club = release * rate
    r, m, s = link.reach, link.club_mass, link.club_moment
    lag = link.arm_ball - link.club_ball
    kinetic = 0.5 * (link.arm_inertia + m * r * r) * rate**2 + r * s * rate * club * cos(lag)
    kinetic += 0.5 * link.club_inertia * club**2

    def height(arm: float) -> float:
        c = link.club_ball + release * (arm - link.arm_ball)
        return -(link.arm_moment + m * r) * cos(arm) - s * cos(c)

    fall = 9.81 * sin(BAG["PW"].lie) * (height(link.arm_top) - height(link.arm_ball))
    assert kinetic == pytest.approx(link.torque * radians(60) + fall, rel=1e-9)
