"""Match: what ball position, lean, release and follow-through bring to the ball against what was set.

The three set-ups are those coaches call matched (common practice); three numbers of `physics.swing` are
fitted to them, nothing else here is.
"""

from dataclasses import replace
from functools import cache
from math import atan, degrees, hypot, radians, sin, tan

import numpy as np
import pytest

from physics.address import Motion, Setup
from physics.cloud import Cloud, cloud
from physics.compiled import as_record
from physics.corridor import bench, stroke_of
from physics.course import Course, Ground
from physics.equipment import BAG
from physics.face import opened_head
from physics.head import sole_elements
from physics.quality import FAT
from physics.spread import PLAYERS
from physics.swing import Links, club_angle, edge, edge_velocity, links

FAIRWAY = Course(Ground((-9.0, 1.0, 80.0), (0.0, 0.0, 0.0), ("fairway", "green")))
Stroke = tuple[Setup, Motion]
TRIPLES: dict[str, Stroke] = {
    "low": (
        Setup(BAG["9i"], -0.07, radians(11), 0.10, 0.0, 0.62),
        Motion(radians(40), release=0.7, follow_through=1.0, depth=-1e-3),
    ),
    "standard": (
        Setup(BAG["SW"], -0.02, radians(5), 0.17, 0.0, 0.62),
        Motion(radians(45), release=1.0, follow_through=0.6),
    ),
    "high": (
        Setup(BAG["SW-low"], 0.04, radians(-2), 0.28, radians(8), 0.60),
        Motion(radians(65), release=1.4, follow_through=0.2, depth=3.5e-3),
    ),
}
PARTS = ("ball_position", "shaft_lean", "release", "follow_through")
COUNT = 600


def link_of(setup: Setup, motion: Motion) -> Links:
    club = as_record(setup.club)
    loft, bounce, _ = opened_head(club, setup.face_open)
    work = bench()
    sole_elements(bounce, setup.club.sole_width, setup.club.camber, setup.club.edge_radius, work.elements)
    return links(club, stroke_of(setup, motion), loft, work.elements)


def added(setup: Setup, motion: Motion) -> float:
    """Lean added by impact, degrees."""
    link = link_of(setup, motion)
    return degrees(link.delivered - link.promised)


def exchanged(name: str, part: str, other: str) -> Stroke:
    """One triple with one part of another."""
    setup, motion = TRIPLES[name]
    source = TRIPLES[other][0 if hasattr(setup, part) else 1]
    change = {part: getattr(source, part)}
    return (replace(setup, **change), motion) if hasattr(setup, part) else (setup, replace(motion, **change))


@cache
def played(setup: Setup, motion: Motion) -> Cloud:
    return cloud(FAIRWAY, setup, motion, PLAYERS["club"], 0, COUNT)


@pytest.mark.parametrize("name", TRIPLES)
def test_matched_set_ups_bring_back_the_lean_they_promise(name: str) -> None:
    assert abs(added(*TRIPLES[name])) < 1.0


@pytest.mark.parametrize("name", TRIPLES)
def test_matched_set_ups_are_solid_three_times_in_four(name: str) -> None:
    """Measured 82, 88 and 78 in 100."""
    assert played(*TRIPLES[name]).solid_share >= 0.75


def test_exchanging_one_part_spoils_the_shot() -> None:
    """Of 24 exchanges 16 take 15 points or more from the strokes that do as the address promised, 12 take 5
    or more from the solid ones. Coaches would say all, and two thirds; the law, fitted once, says this."""
    promised, struck = 0, 0
    for name in TRIPLES:
        whole = played(*TRIPLES[name])
        for other in TRIPLES:
            for part in PARTS if other != name else ():
                spoilt = played(*exchanged(name, part, other))
                promised += whole.as_set_share - spoilt.as_set_share >= 0.15
                struck += whole.solid_share - spoilt.solid_share >= 0.05
    assert promised >= 15
    assert struck >= 11


def test_delivered_lean_follows_ball_follow_through_and_release() -> None:
    setup, motion = TRIPLES["standard"]

    def brought(**change: float) -> float:
        s = replace(setup, **{k: v for k, v in change.items() if hasattr(setup, k)})
        m = replace(motion, **{k: v for k, v in change.items() if hasattr(motion, k)})
        return link_of(s, m).by_motion

    assert (np.diff([brought(ball_position=p) for p in np.linspace(0.08, -0.08, 9)]) > 0.0).all()
    assert (np.diff([brought(follow_through=f) for f in np.linspace(0.0, 1.0, 6)]) > 0.0).all()
    assert (np.diff([brought(release=r) for r in np.linspace(0.5, 1.6, 6)]) < 0.0).all()


def test_ball_further_back_is_met_earlier_with_more_lean() -> None:
    """Derived: 10 cm over a reach of R_a + r R_c of the arms' turn, r times as much of the club's."""
    setup, motion = TRIPLES["standard"]
    link = link_of(setup, motion)
    for release in (0.7, 1.0, 1.4):
        m = replace(motion, release=release)
        near, far = (link_of(replace(setup, ball_position=p), m).by_motion for p in (0.0, -0.10))
        assert far - near == pytest.approx(release * 0.10 / (link.reach + release * link.length), rel=0.15)


@pytest.mark.parametrize(("release", "lean_deg"), [(0.7, 12.0), (0.7, 4.0), (1.0, 8.0), (1.5, -8.0)])
def test_low_point_lies_behind_the_hub_for_held_and_thrown_heads(release: float, lean_deg: float) -> None:
    """Two links (derived): lowest where R_a sin(arm) = r R_c sin(s), (r - 1) R_c sin(s) from the hub."""
    setup = Setup(shaft_lean=radians(5))
    link = link_of(setup, Motion(release=release, follow_through=1.0))
    link = link._replace(club_ball=-atan(tan(radians(lean_deg)) * link.sine))  # that lean at the ball's place
    arms = np.linspace(link.arm_ball - 0.5, link.arm_ball + 0.5, 20001)
    lowest = float(min(arms, key=lambda a: edge(link, a)[1]))
    s = -club_angle(link, lowest)
    assert edge(link, lowest)[0] - link.hub_x == pytest.approx(
        (release - 1.0) * link.length * sin(s), abs=1e-3
    )
    assert release == 1.0 or edge(link, lowest)[0] < link.hub_x


def test_high_soft_set_up_with_a_runners_motion_brings_the_handle_forward() -> None:
    setup, runner = TRIPLES["high"][0], TRIPLES["low"][1]
    motion = replace(TRIPLES["high"][1], release=runner.release, follow_through=runner.follow_through)
    assert 5.0 < added(setup, motion) < 10.0
    spoilt = played(setup, motion)
    assert np.nanmedian(spoilt.landing_angle) < np.nanmedian(played(*TRIPLES["high"]).landing_angle)


def test_low_runners_set_up_with_much_release_throws_the_head_into_the_turf() -> None:
    whole, thrown = played(*TRIPLES["low"]), played(*exchanged("low", "release", "high"))
    assert (thrown.kind == FAT).mean() > (whole.kind == FAT).mean() + 0.10


def test_low_runner_with_a_vertical_shaft_does_not_do_as_set() -> None:
    """Its motion brings the handle forward unasked: the ball is struck, but not sent as the shaft promised.

    Coaches would have it scatter more, too. It does not here: what hurts the leaning runner is the turf, at
    four degrees down, and an upright promise leaves the head a little higher over it.
    """
    setup, motion = TRIPLES["low"]
    leaning, upright = played(setup, motion), played(replace(setup, shaft_lean=0.0), motion)
    assert upright.as_set_share < leaning.as_set_share - 0.5


def matched_lean(ball: float, motion: Motion) -> float:
    """The lean (rad) that a motion brings back to a ball there, so that it is promised too."""
    setup = Setup(ball_position=ball)
    for _ in range(40):
        setup = replace(setup, shaft_lean=link_of(setup, motion).by_motion)
    return setup.shaft_lean


def matched_release(ball: float) -> float:
    """The release that brings 5 degrees back to a ball there, found by halving."""
    low, high = 0.4, 2.0
    for _ in range(40):
        middle = 0.5 * (low + high)
        brought = link_of(Setup(ball_position=ball), Motion(release=middle)).by_motion
        low, high = (middle, high) if brought > radians(5) else (low, middle)
    return low


def test_seven_balls_want_their_own_lean_and_release() -> None:
    """From back to front each ball wants less lean of one motion; with one lean, less release."""
    balls = np.linspace(-0.06, 0.06, 7)
    assert (np.diff([matched_lean(b, Motion()) for b in balls]) < 0.0).all()
    assert (np.diff([matched_release(b) for b in balls]) < 0.0).all()


def test_lob_and_bunker_speeds_are_within_reach() -> None:
    """Common practice: 14 to 18 m/s."""
    link = link_of(Setup(), Motion(radians(130)))
    assert hypot(*edge_velocity(link, link.arm_ball)) == pytest.approx(18.0, rel=0.1)


def test_habit_adds_its_own_degrees() -> None:
    plain, leaning = (link_of(Setup(), Motion(lean_change=radians(d))) for d in (0.0, 9.0))
    assert degrees(leaning.delivered - plain.delivered) == pytest.approx(9.0)
    assert leaning.by_motion == plain.by_motion


@pytest.mark.parametrize("name", TRIPLES)
def test_fold_is_after_the_ball_and_hardly_turns_the_attack(name: str) -> None:
    """Less than a degree from the shortest follow-through to the longest with the delivered lean held;
    together with the lean it takes along, less than a degree and a half."""
    setup, motion = TRIPLES[name]
    held, loose = [], []
    for follow in np.linspace(0.0, 1.0, 6):
        free = link_of(setup, replace(motion, follow_through=follow))
        habit = setup.shaft_lean - free.by_motion
        keep = link_of(setup, replace(motion, follow_through=follow, lean_change=habit))
        for link, attacks in ((keep, held), (free, loose)):
            vx, vy = edge_velocity(link, link.arm_ball)
            attacks.append(degrees(atan(vy / vx)))
    assert np.ptp(held) < 1.0
    assert np.ptp(loose) < 1.5
