"""Rigid contact with scenery: what any collision must keep, and what each kind of scenery does."""

from dataclasses import astuple, replace
from itertools import pairwise
from math import cos, exp, hypot, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physics.ballstate import BallState
from physics.bounce import land
from physics.compiled import as_record
from physics.constants import GRAVITY
from physics.course import Course, Ground, Hole, Lip, Tree, Wall
from physics.equipment import BALL, FLAGSTICK, HOLE_RADIUS
from physics.scenery import ContactResult, contact, scenery_boxes
from physics.scenery.barrier import WALL_RESTITUTION
from physics.scenery.contact import SPACES, _kept
from physics.scenery.solid import ground_height, turf
from physics.scenery.tree import twigs

R = BALL.radius
LEVEL = Ground((-5.0, 60.0), (0.0, 0.0), ("green",))
WALLED = Course(LEVEL, hazards=(Wall(4.0, 1.0),))
WOODED = Course(LEVEL, hazards=(Tree(10.0, 4.0, 2.0),))
BUNKER = Course(
    Ground((-5.0, 4.95, 5.0, 20.0), (-0.4, -0.4, 0.0, 0.0), ("sand", "fairway", "green")),
    hazards=(Lip(5.0, 0.4, 0.08),),
)
HOLED = Course(LEVEL, hole=Hole(5.0, flagstick=False))
FLAGGED = Course(LEVEL, hole=Hole(5.0))
PLACES = {
    "wall": (WALLED, 0), "trunk": (WOODED, 0), "canopy": (WOODED, 1),
    "lip": (BUNKER, 0), "hole": (FLAGGED, 0),
}  # fmt: skip


def energy(sample: tuple[float, ...]) -> float:
    """Mechanical energy over mass (J/kg)."""
    _, _, y, vx, vy, spin = sample
    return 0.5 * (vx * vx + vy * vy + BALL.inertia / BALL.mass * spin * spin) + GRAVITY * y


def enter(
    kind: str, share: float, speed: float, angle: float, spin: float, offset: float = 0.0
) -> ContactResult:
    """Send the ball into the near side of a kind's box, `share` of the way up from the ground."""
    course, box = PLACES[kind]
    x, low, _, high, _ = scenery_boxes(course, offset)[box]
    low = max(low, ground_height(course, x) + R + 2e-3)
    state = BallState(1.0, x, low + share * (high - low), speed * cos(angle), speed * sin(angle), spin)
    return contact(course, box, state, offset, 3)


def putt(speed: float, offset: float = 0.0, course: Course = HOLED) -> ContactResult:
    """Roll the ball at the hole."""
    x = scenery_boxes(course, offset)[-1][0]
    return contact(course, 0, BallState(0.0, x, R, speed, 0.0, -speed / R), offset, 0)


def test_boxes_follow_hazards_then_hole() -> None:
    course = replace(FLAGGED, hazards=(Tree(8.0, 3.0, 1.0), Wall(2.0, 0.5), Lip(4.0, 0.3)))
    assert [b[4] for b in scenery_boxes(course, 0.0)] == ["trunk", "canopy", "wall", "lip", "hole"]
    assert [b[4] for b in scenery_boxes(course, HOLE_RADIUS)] == ["trunk", "canopy", "wall", "lip"]
    with pytest.raises(IndexError):
        contact(course, 9, BallState(0, 0, 0, 0, 0, 0), 0.0, 0)


@settings(max_examples=60, deadline=None)
@given(
    kind=st.sampled_from(sorted(PLACES)),
    share=st.floats(0.0, 1.0),
    speed=st.floats(0.3, 25.0),
    angle=st.floats(-1.4, 1.4),
    spin=st.floats(-600.0, 900.0),
    offset=st.floats(0.0, 0.05),
)
def test_contact_is_passive_ends_and_stays_over_ground(
    kind: str, share: float, speed: float, angle: float, spin: float, offset: float
) -> None:
    """Energy never rises (5e-5 J/kg, 5 um of height, for numerics) and the ball never sinks."""
    out = enter(kind, share, speed, angle, spin, offset)
    levels = [energy(s) for s in out.samples]
    assert all(b <= a + 5e-5 for a, b in pairwise(levels))
    assert out.state == BallState(*out.samples[-1])
    assert [s[0] for s in out.samples] == sorted(s[0] for s in out.samples)
    course = PLACES[kind][0]
    for _, x, y, *_ in out.samples:
        floor = ground_height(course, x) + R
        in_cup = course.hole is not None and abs(x - course.hole.x) < HOLE_RADIUS
        assert y > (floor - 0.11 - R if in_cup else floor - 5e-4)


@pytest.mark.parametrize("kind", sorted(PLACES))
def test_same_call_same_result(kind: str) -> None:
    assert enter(kind, 0.4, 7.0, -0.3, 300.0) == enter(kind, 0.4, 7.0, -0.3, 300.0)


@pytest.mark.parametrize("speed", [1.0, 5.0, 25.0, 60.0])
def test_wall_gives_back_its_share_and_lets_nothing_through(speed: float) -> None:
    out = enter("wall", 0.5, speed, 0.0, 0.0)
    assert out.outcome == "free"
    assert out.airborne
    assert out.met == ("wall",)
    assert out.state.x < 4.0
    assert -out.state.vx / speed == pytest.approx(WALL_RESTITUTION, rel=1e-3)


def test_wall_friction_turns_backspin_upward() -> None:
    """The front of a ball with backspin rises; the wall holds it back, so the ball is driven down."""
    plain, spun = enter("wall", 0.5, 8.0, 0.0, 0.0), enter("wall", 0.5, 8.0, 0.0, 400.0)
    assert spun.state.vy < plain.state.vy - 0.5
    assert abs(spun.state.spin) < 400.0


def test_ball_rolling_to_the_wall_rolls_back() -> None:
    x = scenery_boxes(WALLED, 0.0)[0][0]
    out = contact(WALLED, 0, BallState(0.0, x, R, 2.0, 0.0, -2.0 / R), 0.0, 0)
    assert out.outcome == "free"
    assert -1.0 < out.state.vx < -0.2
    slow = contact(WALLED, 0, BallState(0.0, x, R, 0.03, 0.0, -0.03 / R), 0.0, 0)
    assert slow.outcome == "rest"
    assert not slow.airborne


def test_ball_over_the_wall_is_not_touched() -> None:
    out = enter("wall", 0.995, 20.0, 0.3, 0.0)
    assert out.met == ()
    start, end = out.samples[0], out.samples[-1]
    assert energy(end) == pytest.approx(energy(start), abs=1e-9)
    t = end[0] - start[0]
    assert end[2] == pytest.approx(start[2] + start[4] * t - 0.5 * GRAVITY * t * t, abs=1e-9)


def test_landing_beside_the_wall_obeys_the_law_of_landing() -> None:
    """A ball dropped just before the wall bounces as physics.bounce says, not as a rigid one."""
    x = scenery_boxes(WALLED, 0.0)[0][0] + 0.002
    out = contact(WALLED, 0, BallState(0.0, x, 0.4, 0.0, 0.0, 0.0), 0.0, 0)
    fall = (2 * GRAVITY * (0.4 - R)) ** 0.5
    skin = turf(WALLED, 3.0, 3.5)[0].surface
    expected = land(0.0, -fall, 0.0, 0.0, as_record(skin))
    bounce = max(s[4] for s in out.samples)
    assert bounce == pytest.approx(expected[1], rel=5e-3)
    assert out.outcome == "rest"
    assert (out.state.vx, out.state.vy, out.state.spin) == (0.0, 0.0, 0.0)


def test_ball_dropping_steeply_into_sand_under_the_lip_plugs() -> None:
    out = contact(BUNKER, 0, BallState(0.0, 4.9, -0.1, 0.1, -6.0, 0.0), 0.0, 0)
    assert out.outcome == "rest"
    assert out.state.y == pytest.approx(-0.4 + R, abs=1e-3)


def test_lip_stops_a_low_ball_and_lets_a_high_one_pass() -> None:
    low = contact(BUNKER, 0, BallState(0.0, 4.85, -0.12, 6.0, 0.0, 200.0), 0.0, 0)
    assert "lip" in low.met
    assert low.state.vx < 0.0
    high = contact(BUNKER, 0, BallState(0.0, 4.85, 0.1, 6.0, 2.0, 200.0), 0.0, 0)
    assert high.met == ()
    assert high.state.vx == pytest.approx(6.0)


def test_trunk_turns_the_ball_and_leaves_alone_slow_it() -> None:
    hit = enter("trunk", 0.3, 10.0, 0.0, 0.0)
    assert hit.met == ("trunk",)
    assert hit.state.vx < 0.0
    airy = Course(LEVEL, hazards=(Tree(10.0, 4.0, 2.0, 0.02),))
    x = scenery_boxes(airy, 0.0)[1][0]
    through = contact(airy, 1, BallState(0.0, x, 4.0, 10.0, 0.0, 0.0), 0.0, 1)
    assert through.met == ("leaves",)
    assert through.state.vx == pytest.approx(10.0 * exp(-0.5 * 0.02 * 4.0), rel=0.01)


@pytest.mark.parametrize("density", [0.2, 0.5, 0.9])
def test_share_of_central_lines_that_meets_wood_is_the_density(density: float) -> None:
    """2000 paths of a ball through the middle, 40 trees; 4 standard deviations of a share is 0.045."""
    met = 0
    for seed in range(40):
        wood = [(s.points[0], s.radius) for s in twigs(0.0, 0.0, 2.0, density, seed)]
        for k in range(50):
            a = pi * (k + 0.5) / 50
            met += any(abs(x * sin(a) - y * cos(a)) < r + R for (x, y), r in wood)
    assert met / 2000 == pytest.approx(density, abs=0.06)


def test_wood_never_holds_a_ball() -> None:
    wood = [(s.points[0], s.radius) for s in twigs(0.0, 0.0, 1.5, 0.95, 5)]
    assert len(wood) > 50
    for i, ((xa, ya), ra) in enumerate(wood):
        for (xb, yb), rb in wood[:i]:
            assert hypot(xa - xb, ya - yb) > ra + rb + 2 * R


def test_seed_grows_the_tree() -> None:
    course = Course(LEVEL, hazards=(Tree(10.0, 4.0, 2.0, 0.9),))
    x = scenery_boxes(course, 0.0)[1][0]
    start = BallState(0.0, x, 4.2, 12.0, 0.0, 100.0)
    assert contact(course, 1, start, 0.0, 1) == contact(course, 1, start, 0.0, 1)
    assert contact(course, 1, start, 0.0, 1) != contact(course, 1, start, 0.0, 2)


def test_holed_ball_lies_in_the_cup() -> None:
    out = putt(1.0)
    assert out.outcome == "holed"
    assert not out.airborne
    assert abs(out.state.x - 5.0) < HOLE_RADIUS
    assert out.state.y == pytest.approx(R - 0.1016, abs=2e-3)


def test_fast_ball_hops_over_the_rim() -> None:
    out = putt(2.3)
    assert out.outcome == "free"
    assert out.met == ("rim",)
    assert out.airborne
    assert out.state.x > 5.0
    assert max(s[2] for s in out.samples) > R + 2e-3


def test_very_slow_ball_drops_in() -> None:
    assert putt(0.1).outcome == "holed"


def test_path_at_the_edge_of_the_hole_rolls_past() -> None:
    out = putt(1.0, 0.95 * HOLE_RADIUS)
    assert out.outcome == "free"
    assert not out.airborne
    assert 0.9 < out.state.vx <= 1.0


def test_ball_dropping_into_the_cup_from_the_air_is_holed() -> None:
    out = contact(HOLED, 0, BallState(0.0, 5.0, 0.035, 0.2, -3.0, 50.0), 0.0, 0)
    assert out.outcome == "holed"


def test_ball_in_the_air_meets_the_stick() -> None:
    state = BallState(0.0, 4.9, 1.0, 6.0, -1.0, 200.0)
    out = contact(FLAGGED, 0, state, 0.0, 0)
    assert out.met == ("stick",)
    assert out.state.vx == pytest.approx(-0.3 * 6.0, rel=1e-3)
    beside = contact(FLAGGED, 0, state, R + FLAGSTICK.radius + 1e-3, 0)
    assert beside.met == ()
    assert beside.state.vx == pytest.approx(6.0)


def test_stick_met_off_its_middle_lets_the_ball_pass_slower() -> None:
    out = contact(FLAGGED, 0, BallState(0.0, 4.9, 1.0, 6.0, -1.0, 200.0), 0.024, 0)
    assert out.met == ("stick",)
    assert 3.0 < out.state.vx < 6.0


def test_entry_a_little_outside_the_box_still_meets_the_wall() -> None:
    x = scenery_boxes(WALLED, 0.0)[0][0] - 0.03
    out = contact(WALLED, 0, BallState(0.0, x, 0.5, 4.0, 0.0, 0.0), 0.0, 0)
    assert out.met == ("wall",)


def test_wall_under_a_tree_is_met_from_the_canopy() -> None:
    """Regions that overlap share their solids."""
    course = Course(LEVEL, hazards=(Tree(10.0, 2.0, 1.5, 0.0), Wall(10.5, 1.8)))
    out = contact(course, 1, BallState(0.0, 9.0, 1.2, 8.0, 0.0, 0.0), 0.0, 0)
    assert "wall" in out.met


def test_state_is_a_value() -> None:
    state = BallState(0.0, 1.0, 2.0, 3.0, 4.0, 5.0)
    assert BallState(*astuple(state)) == state


@pytest.mark.parametrize("kind", ["wall", "trunk", "canopy", "lip"])
def test_a_space_that_served_other_balls_is_as_good_as_a_new_one(kind: str) -> None:
    """Bit for bit: a cloud must not depend on which balls went before on the same thread."""
    balls = [(0.1 + 0.08 * i, 1.0 + 0.9 * i, 0.15 * i - 0.6, 40.0 * i - 150.0) for i in range(9)]

    def fly(ball: tuple[float, float, float, float], fresh: bool) -> ContactResult:
        if fresh:
            _kept.spaces.clear()
        return enter(kind, *ball)

    assert [fly(b, True) for b in balls] == [fly(b, False) for b in balls]
    assert len(_kept.spaces) <= SPACES


def test_the_hole_is_met_though_the_space_beside_it_is_kept() -> None:
    """Where a canopy reaches over the hole, its space is another for a ball that passes the hole."""
    course = Course(LEVEL, hole=Hole(10.0), hazards=(Tree(10.0, 1.0, 1.5),))
    number = [box[4] for box in scenery_boxes(course, 0.0)].index("canopy")
    x, low, _, _, _ = scenery_boxes(course, 0.0)[number]
    state = BallState(0.0, x, low + 0.05, 2.0, 0.0, 0.0)
    beside = contact(course, number, state, 0.5, 3)
    assert (course, number, 3) not in _kept.spaces
    over = contact(course, number, state, 0.0, 3)
    _kept.spaces.clear()
    assert contact(course, number, state, 0.0, 3) == over
    assert contact(course, number, state, 0.5, 3) == beside
