"""One recorded shot: its stages, its time line and how it ends."""

from dataclasses import replace
from math import atan, degrees, hypot, isnan, radians

import numpy as np
import pytest

from physics.address import Motion, Setup
from physics.compiled import as_record
from physics.corridor import bench, strike_stray, stroke_of
from physics.course import Course, Ground, Hole, Lie, OutOfBounds, Wall, Water
from physics.equipment import BAG, BALL
from physics.quality import NO_STANDARD
from physics.results import Contact, Outcome, Phase, Shot, TurfAction
from physics.shot import flat_spot, lie_of, play, replay
from physics.spread import EXACT, PLAYERS, draw_strays
from physics.strike import LOG_COLUMNS
from physics.surfaces import SURFACES
from physics.swing import edge

GROUND = Ground((-9.0, 1.0, 60.0), (0.0, 0.0, 0.0), ("fairway", "green"))
COURSE = Course(GROUND)
SHOT = play(COURSE, Setup(), Motion())


def course(*hazards: object, hole: float | None = None) -> Course:
    return Course(GROUND, hole=Hole(hole, False) if hole else None, hazards=hazards)  # type: ignore[arg-type]


# ---- the lie


def test_lie_is_the_ground_under_the_ball() -> None:
    ground = Ground((-4.0, -1.0, 3.0, 9.0), (0.0, -0.1, 0.3, 0.3), ("rough", "soft", "green"))
    surface, height, tilt = lie_of(Course(ground))
    assert (surface.name, height, tilt) == ("soft", pytest.approx(0.0), pytest.approx(atan(0.1)))
    assert lie_of(Course(ground, lie=Lie("sand")))[0] is SURFACES["sand"]


@pytest.mark.parametrize("x", [(0.0, 5.0), (-5.0, -1.0), (2.0, 5.0)])
def test_lie_at_or_beyond_the_ends_of_the_ground_goes_on_straight(x: tuple[float, float]) -> None:
    surface, height, tilt = lie_of(Course(Ground(x, (x[0] * 0.2, x[1] * 0.2), ("fringe",))))
    assert (surface.name, height, tilt) == ("fringe", pytest.approx(0.0), pytest.approx(atan(0.2)))


# ---- the swing on the time line


def test_swing_starts_at_rest_passes_the_ball_at_zero_and_speeds_up_to_it() -> None:
    swing = SHOT.swing
    t, speed = np.array(swing.t), np.array(swing.speed)
    assert t[0] < -0.3
    assert speed[0] == pytest.approx(0.0, abs=0.2)
    i = int(np.searchsorted(t, 0.0))
    assert speed[i] == pytest.approx(SHOT.strike.speed_before, rel=0.01)
    assert (np.diff(speed[:i]) > 0.0).all()
    x = np.interp(0.0, t, swing.head[0])
    assert x == pytest.approx(edge_at_ball(), abs=1e-4)


def link_of(shot: Shot) -> object:
    return strike_stray(
        as_record(shot.setup.club), as_record(SURFACES["fairway"]), 0.0, stroke_of(shot.setup, shot.motion),
        draw_strays(EXACT, 0, 1)[0], bench(), np.zeros((0, LOG_COLUMNS)), True, NO_STANDARD,
    ).link  # fmt: skip


def edge_at_ball() -> float:
    link = link_of(SHOT)
    return float(edge(link, link.arm_ball)[0])  # type: ignore[arg-type, attr-defined]


def test_speed_of_the_trace_is_the_way_over_the_time() -> None:
    swing = SHOT.swing
    t, x, y = (np.array(v) for v in (swing.t, *swing.head))
    way = np.hypot(np.diff(x), np.diff(y)) / np.diff(t)
    middle = 0.5 * (np.array(swing.speed)[1:] + np.array(swing.speed)[:-1])
    assert way[5:] == pytest.approx(middle[5:], abs=0.03)


def test_hub_hands_and_head_stay_linked() -> None:
    """Plane lengths from the side view: the reach shortens by the fold alone, the club not at all."""
    swing, sine = SHOT.swing, np.sin(SHOT.setup.club.lie)
    hub, hands, head = (np.array(p) for p in (swing.hub, swing.hands, swing.head))
    club = np.hypot(head[0] - hands[0], (head[1] - hands[1]) / sine)
    arms = np.hypot(hands[0] - hub[0], (hands[1] - hub[1]) / sine)
    assert np.ptp(club) < 1e-12
    assert 0.56 - 1e-6 < arms.min() < arms.max() < 0.622


def test_low_point_and_flat_spot_are_those_of_the_head_trace() -> None:
    low, flat = flat_spot(link_of(SHOT))  # type: ignore[arg-type]
    assert (SHOT.swing.low_point, SHOT.swing.flat_spot) == (low, flat)
    x, y = (np.array(v) for v in SHOT.swing.head)
    assert x[y.argmin()] == pytest.approx(low, abs=0.01)
    assert SHOT.swing.attack < 0.0 < low  # down while the low point lies ahead


# ---- the strike


def test_strike_and_run_share_a_time_line() -> None:
    k, run = SHOT.strike, SHOT.run
    assert abs(k.time) < 0.01
    assert run.t[0] == k.time
    assert k.sole.t[0] < k.time < k.sole.t[-1]
    assert (np.diff(k.sole.t) > 0.0).all()
    assert (np.diff(run.t) >= 0.0).all()
    assert len(k.sole.pressure) == len(k.sole.t) == len(k.sole.arm) == len(k.sole.club)


def test_reported_angles_hang_together() -> None:
    k = SHOT.strike
    assert k.loft == pytest.approx(SHOT.setup.club.loft - k.lean)
    assert k.bounce == pytest.approx(SHOT.setup.club.bounce - k.lean)
    assert k.spin_loft == pytest.approx(k.loft - k.attack)
    assert degrees(k.lean) == pytest.approx(5.0, abs=0.5)


@pytest.mark.parametrize(
    ("up_mm", "kind"), [(0, "solid"), (18, "thin"), (38, "topped"), (70, "missed"), (-9, "fat")]
)
def test_contact_by_height(up_mm: float, kind: str) -> None:
    stray = draw_strays(EXACT, 0, 1)[0]
    stray[2] = up_mm / 1e3
    shot = replay(COURSE, Setup(), Motion(), EXACT, 0, stray)
    assert shot.strike.contact is Contact(kind)
    assert shot.strike.low == pytest.approx(SHOT.strike.low - up_mm / 1e3, abs=1e-9)
    assert shot.strike.solid is (kind == "solid")
    if kind == "missed":
        assert shot.launch is None
        assert shot.run.outcome is Outcome.MISSED
        assert shot.strike.turf is TurfAction.NONE
        assert isnan(shot.strike.time)


def test_divot_is_the_ground_that_was_touched() -> None:
    for depth in (0.002, 0.006, 0.012):
        k = play(COURSE, Setup(), Motion(depth=depth)).strike
        x, y = (np.array(v) for v in k.divot)
        assert len(x) == pytest.approx(k.length / 1e-3)
        assert (y <= 0.0).all()
        assert -y.min() <= k.depth + 1e-12
        assert x[0] < 0.02
    assert play(COURSE, Setup(), Motion(depth=0.012)).strike.length > k.lead


def test_dig_brush_and_none() -> None:
    assert play(COURSE, Setup(), Motion(depth=0.0)).strike.turf is TurfAction.BRUSH
    assert SHOT.strike.turf is TurfAction.SKID  # aimed 1.5 mm under the grass
    bare = Setup(club=BAG["SW-low"], shaft_lean=radians(10))
    dig = play(COURSE, bare, Motion(lean_change=radians(10), depth=0.010)).strike
    assert dig.turf is TurfAction.DIG
    assert dig.depth > 0.005


def test_a_club_that_buries_itself_never_reaches_the_ball() -> None:
    """Headed far into soft turf from far behind, handle far forward: stuck, and the ball stays."""
    soft = replace(COURSE, lie=Lie("soft"))
    setup = Setup(club=BAG["LW-low"], ball_position=0.10, shaft_lean=radians(15))
    shot = play(soft, setup, Motion(radians(15), lean_change=radians(12), depth=0.02))
    assert shot.run.outcome is Outcome.STUCK
    assert shot.strike.turf is TurfAction.DIG
    assert shot.strike.contact is Contact.MISSED
    assert (shot.run.rest, shot.run.x) == (0.0, (0.0,))


# ---- the run


def test_run_starts_with_the_launch_and_ends_at_rest() -> None:
    run, launch = SHOT.run, SHOT.launch
    assert launch is not None
    assert hypot(run.vx[0], run.vy[0]) == pytest.approx(launch.speed)
    assert run.spin[0] == launch.spin
    assert run.y[0] == pytest.approx(BALL.radius + SURFACES["fairway"].ball_raise)
    assert (run.phase[0], run.phase[-1]) == ("f", ".")
    assert (run.x[-1], run.vx[-1]) == (run.rest, 0.0)
    assert run.outcome is Outcome.REST
    assert set(run.phase) <= {str(p) for p in Phase}
    landed = run.phase.index("b")
    assert run.x[landed] == pytest.approx(run.carry)
    assert run.apex == pytest.approx(max(run.y) - BALL.radius, abs=2e-3)


@pytest.mark.parametrize(
    ("made", "outcome"),
    [
        (course(Water(2.0, 5.0, 0.3)), Outcome.WATER),
        (course(OutOfBounds(2.0)), Outcome.OUT),
        (course(Wall(3.0, 2.0)), Outcome.REST),
        (course(), Outcome.REST),
    ],
)
def test_each_ending(made: Course, outcome: Outcome) -> None:
    assert play(made, Setup(), Motion()).run.outcome is outcome


def test_wall_throws_the_ball_back_with_a_contact_on_record() -> None:
    shot = play(course(Wall(3.0, 2.0)), Setup(), Motion())
    assert "c" in shot.run.phase
    assert shot.run.rest < 3.0
    assert max(shot.run.x) <= 3.0 - BALL.radius + 1e-3


def test_some_speed_holes_the_ball() -> None:
    """A hole where the ball runs out of speed takes it; the Shot ends at the hole."""
    rest = SHOT.run.rest
    shot = play(course(hole=rest - 0.1), Setup(), Motion())
    assert shot.run.outcome is Outcome.HOLED
    assert shot.run.rest == rest - 0.1
    wide = replay(course(hole=rest - 0.1), Setup(), Motion(), EXACT, 0, np.array([1.0, 0, 0, 0, 0, 0, 0.1]))
    assert wide.run.outcome is Outcome.REST
    assert wide.lateral == pytest.approx(0.1 * wide.run.rest)


def test_seed_and_spread_make_the_stray() -> None:
    a, b = (play(COURSE, Setup(), Motion(), PLAYERS["club"], s) for s in (1, 2))
    assert a.stray != b.stray
    assert a == play(COURSE, Setup(), Motion(), PLAYERS["club"], 1)
    assert a.stray.speed == draw_strays(PLAYERS["club"], 1, 1)[0, 0]
    assert (a.seed, a.spread.name, a.setup, a.motion) == (1, "club", Setup(), Motion())


def test_missed_ball_stays_where_it_lies() -> None:
    shot = play(COURSE, Setup(), Motion(depth=-0.010, lean_change=radians(15), drop=0.0))
    assert shot.strike.contact in (Contact.TOPPED, Contact.MISSED, Contact.THIN)
    stray = np.array([1.0, 0.0, 0.2, 0.0, 0.0, 0.0, 0.0])
    missed = replay(COURSE, Setup(), Motion(), EXACT, 0, stray)
    assert (missed.run.rest, missed.run.carry, missed.run.t) == (0.0, 0.0, (0.0,))
    assert isnan(missed.strike.speed_at_ball)
    assert missed.strike.speed_after == missed.strike.speed_before
