"""The explosion shot: sand carries the ball. Signs are what coaches see (common practice), sizes derived."""

from dataclasses import replace
from functools import cache
from math import atan2, degrees, hypot, pi, radians, sin, tan

import numpy as np
import pytest

from physics.address import Motion, Setup
from physics.cloud import Cloud, cloud
from physics.compiled import as_record
from physics.corridor import bench, strike_stray, stroke_of
from physics.course import Course, Ground, Lie
from physics.cutting import cutting_factors, easiest_plane
from physics.equipment import BAG, BALL
from physics.explosion import CARRIED, FILM_SHARE, packed_film, sand_blow, stream_force, wedge_speed
from physics.face import opened_head
from physics.impact import oblique_impact
from physics.quality import NO_STANDARD
from physics.results import Contact
from physics.shot import play
from physics.spread import EXACT, PLAYERS, draw_strays
from physics.strike import LOG_COLUMNS, Blow
from physics.surfaces import SURFACES

SAND = SURFACES["sand"]
BUNKER = Course(Ground((-9.0, 3.0, 80.0), (0.0, 0.0, 0.0), ("sand", "green")))
SPLASH = Setup(
    BAG["SW"], ball_position=0.06, shaft_lean=0.0, stance_width=0.32, face_open=radians(20), lead_weight=0.6
)
SWING = Motion(radians(85), release=1.2, follow_through=0.6, depth=0.020)


def strike(setup: Setup, motion: Motion, lie: str = "sand", up: float = 0.0) -> Blow:
    stray = draw_strays(EXACT, 0, 1)[0]
    stray[2] = up
    return strike_stray(
        as_record(setup.club), as_record(SURFACES[lie]), 0.0, stroke_of(setup, motion), stray, bench(),
        np.zeros((0, LOG_COLUMNS)), True, NO_STANDARD,
    ).blow  # fmt: skip


def launch(blow: Blow) -> tuple[float, float]:
    """Speed over the intended head speed, and angle in degrees."""
    return hypot(blow.ball_vx, blow.ball_vy) / blow.speed_before, degrees(atan2(blow.ball_vy, blow.ball_vx))


@cache
def many(setup: Setup, motion: Motion, lie: str = "sand", lift: float = 0.0) -> Cloud:
    return cloud(replace(BUNKER, lie=Lie(lie, lift)), setup, motion, PLAYERS["club"], 0, 300)


@pytest.mark.parametrize(
    ("loft", "plane", "share"),
    [(36, 8.8, 0.910), (46, 18.5, 0.783), (51, 23.5, 0.709), (56, 28.5, 0.630), (60, 32.5, 0.564),
     (66, 38.5, 0.459), (72, 44.5, 0.348)],
)  # fmt: skip
def test_plane_and_speed_of_the_wedge(loft: float, plane: float, share: float) -> None:
    """Plane of least inertial force, 18 mm at 15 m/s, phi 33, delta 22 (derived, in half degrees)."""
    rake = radians(90 - loft)
    beta, _ = easiest_plane(0.018, 15.0, rake, 1550.0, 0.0, radians(33), radians(22), -1.0)
    assert degrees(beta) == pytest.approx(plane, abs=0.6)
    assert wedge_speed(1.0, rake, beta) == pytest.approx(share, abs=0.01)


def test_head_loses_the_momentum_the_wedge_gains() -> None:
    """Momentum term of the earth-moving equation: rho v d w brought to the wedge's velocity, up its plane,
    pressed through face and plane friction (derived from the balance along the plane)."""
    for loft, b in ((46, 18.0), (56, 28.0), (66, 38.0)):
        a, phi, delta, beta = radians(90 - loft), radians(33), radians(22), radians(b)
        nv = cutting_factors(a, beta, phi, delta)[4]
        flow = wedge_speed(1.0, a, beta)  # per rho v^2 d w: mass flow 1, all of it brought to this velocity
        # force P on the wedge by the face at a + delta, reaction of the plane at beta + phi: take the
        # component square to that reaction, where only P and the momentum remain
        assert nv * sin(a + delta + beta + phi) == pytest.approx(flow * np.cos(phi), rel=1e-9)


def test_stream_gives_no_more_than_it_brings() -> None:
    """Force on a ball at rest: C rho A v^2 with C within 1-2, along the plane; none on one as fast as it."""
    rake, beta, v = radians(35), radians(28), 12.0
    wedge = wedge_speed(v, rake, beta)
    fx, fy = stream_force(0.018, 0.005, -0.003, v, rake, beta, 0.0, 0.0, 1550.0)
    assert atan2(fy, fx) == pytest.approx(beta)
    area = pi * BALL.radius**2
    assert hypot(fx, fy) < 2.0 * 1550.0 * area * wedge**2
    gone = stream_force(0.018, 0.005, -0.003, v, rake, beta, wedge * np.cos(beta), wedge * sin(beta), 1550.0)
    assert hypot(*gone) == pytest.approx(0.0, abs=1e-9)
    assert stream_force(0.018, 0.018 / tan(beta) + 1e-6, -0.003, v, rake, beta, 0.0, 0.0, 1550.0) == (
        0.0,
        0.0,
    )


def test_stream_alone_brings_a_small_share_of_the_head_speed() -> None:
    """0.05 to 0.3 before the face is there (derived in the reference)."""
    blow = strike(SPLASH, SWING)
    assert 0.05 < blow.stream / BALL.mass / blow.speed_at_ball < 0.3


@pytest.mark.parametrize("depth_mm", [26.0, 30.0])
def test_a_ball_that_only_sand_reaches_has_the_momentum_the_stream_gave(depth_mm: float) -> None:
    blow = strike(SPLASH, replace(SWING, depth=depth_mm / 1e3))
    assert blow.spin == 0.0  # no blow
    assert blow.stream > 0.05
    assert BALL.mass * hypot(blow.ball_vx, blow.ball_vy) == pytest.approx(blow.stream, rel=0.01)


@pytest.mark.parametrize("depth_mm", [14.0, 16.0, 18.0, 20.0])
def test_ball_has_the_momentum_of_stream_and_dead_blow(depth_mm: float) -> None:
    """Put together here from the two stages: the stream's impulse up the plane of least force at the depth of
    contact, then one oblique blow along the face's normal. 3 %: the plane turns a little on the way, and
    the head turns, which is left out here."""
    blow = strike(SPLASH, replace(SWING, depth=depth_mm / 1e3))
    loft = opened_head(as_record(SPLASH.club), SPLASH.face_open)[0] - blow.lean
    beta, _ = easiest_plane(
        blow.cushion / FILM_SHARE, blow.speed_at_ball, radians(90) - loft, SAND.density, SAND.cohesion,
        SAND.friction_angle, SAND.steel_angle, -1.0,
    )  # fmt: skip
    ux, uy = blow.stream / BALL.mass * np.cos(beta), blow.stream / BALL.mass * sin(beta)
    head = blow.speed_at_ball * np.cos(blow.attack), blow.speed_at_ball * sin(blow.attack)
    face = np.cos(loft), sin(loft)
    nx, ny, mu, lively = sand_blow(blow.cushion, *face, *face, as_record(SAND))
    bx, by, *_ = oblique_impact(head[0] - ux, head[1] - uy, nx, ny, SPLASH.club.head_mass, mu, lively)
    off = hypot(ux + bx - blow.ball_vx, uy + by - blow.ball_vy)
    assert off < 0.03 * hypot(blow.ball_vx, blow.ball_vy)


def test_blow_through_no_sand_is_the_clean_one() -> None:
    record = as_record(SAND)
    assert sand_blow(0.0, 0.8, 0.6, 0.6, 0.8, record) == pytest.approx((0.8, 0.6, SAND.face_friction, 1.0))
    nx, ny, mu, lively = sand_blow(0.020, 0.8, 0.6, 0.6, 0.8, record)
    assert (nx, ny) == pytest.approx((0.6, 0.8), abs=1e-3)
    assert mu == pytest.approx(tan(SAND.steel_angle), rel=1e-3)
    assert lively < 1e-4
    assert packed_film(-0.01) == 0.0


def at_edge_depth(setup: Setup, want: float, motion: Motion = SWING) -> Blow:
    """The stroke whose edge is `want` under the sand at the ball."""
    low, high = 0.0, 0.018  # deeper, the head has risen again, or stopped, by the ball
    for _ in range(25):
        depth = 0.5 * (low + high)
        blow = strike(setup, replace(motion, depth=depth))
        face = blow.met > 0 and blow.spin != 0.0  # else only thrown sand reached the ball: too deep
        low, high = (depth, high) if face and blow.cushion < packed_film(want) else (low, depth)
    return strike(setup, replace(motion, depth=low))


def test_opening_the_face_sends_it_higher_and_slower() -> None:
    """The same sand between (edge 8 mm deep at the ball), bounce kept by grind 0."""
    club = replace(BAG["SW"], grind=0.0)
    opened = [replace(SPLASH, club=club, face_open=radians(o)) for o in (0, 10, 20, 30)]
    found = [launch(at_edge_depth(setup, 0.008)) for setup in opened]
    assert (np.diff([angle for _, angle in found]) > 0.0).all()
    assert (np.diff([speed for speed, _ in found]) < 0.0).all()


def test_handle_forward_sends_it_lower_and_faster() -> None:
    """The same sand between."""
    motions = [replace(SWING, lean_change=radians(d)) for d in (0, 3, 6)]
    found = [launch(at_edge_depth(SPLASH, 0.008, motion)) for motion in motions]
    assert (np.diff([angle for _, angle in found]) < 0.0).all()
    assert (np.diff([speed for speed, _ in found]) > 0.0).all()


def test_splash_is_of_the_size_that_mechanics_gives() -> None:
    """0.3 to 0.55 of the head speed at 33 to 50 degrees: order of magnitude, nobody has measured it."""
    speed, angle = launch(strike(SPLASH, SWING))
    assert 0.3 < speed < 0.55
    assert 33.0 < angle < 50.0


def test_splash_forgives_where_a_dig_does_not() -> None:
    """Two centimetres of entry either way change a skid's ball speed by less than a tenth; and of a club
    player's strokes far fewer come out as meant when a square edge without bounce digs (counted)."""
    speeds = []
    for along in (-0.02, 0.0, 0.02):
        stray = draw_strays(EXACT, 0, 1)[0]
        stray[1] = along
        blow = strike_stray(
            as_record(SPLASH.club), as_record(SAND), 0.0, stroke_of(SPLASH, SWING), stray, bench(),
            np.zeros((0, LOG_COLUMNS)), True, NO_STANDARD,
        ).blow  # fmt: skip
        speeds.append(hypot(blow.ball_vx, blow.ball_vy))
    assert max(speeds) - min(speeds) < 0.1 * speeds[1]
    digging = replace(SPLASH, club=BAG["LW-low"], face_open=0.0), replace(SWING, lean_change=radians(5))
    assert many(SPLASH, SWING).solid_share > many(*digging).solid_share + 0.15


def test_no_jump_as_the_sand_between_goes_to_nothing() -> None:
    """Depth in steps of a quarter millimetre: the ball's speed never jumps by more than 5 % of the head's,
    launch never by more than 3 degrees."""
    found = np.array([launch(strike(SPLASH, replace(SWING, depth=d))) for d in np.arange(0.0, 0.022, 2.5e-4)])
    assert np.abs(np.diff(found[:, 0])).max() < 0.05
    assert np.abs(np.diff(found[:, 1])).max() < 3.0


def test_sand_takes_more_of_the_head_the_deeper_it_goes() -> None:
    kept = [strike(SPLASH, replace(SWING, depth=d)).speed_at_ball for d in (0.008, 0.012, 0.016, 0.020)]
    assert (np.diff(kept) < 0.0).all()


def test_backspin_is_less_than_from_a_clean_face() -> None:
    blow = strike(SPLASH, SWING)
    clean = strike(SPLASH, replace(SWING, depth=0.002), "tight")
    assert 0.0 < blow.spin < clean.spin


def test_a_greenside_set_up_splashes_most_of_the_time() -> None:
    shot = play(BUNKER, SPLASH, SWING)
    assert shot.strike.contact is Contact.SPLASHED
    assert shot.strike.cushion > CARRIED
    assert many(SPLASH, SWING).solid_share > 0.55


def test_half_buried_ball_wants_a_squarer_face() -> None:
    """Common practice; ball 12 mm lower, same swing."""
    square, opened = (
        many(
            replace(SPLASH, face_open=radians(o), ball_position=0.02),
            replace(SWING, depth=0.014),
            "sand",
            -0.012,
        )
        for o in (0, 30)
    )
    assert square.solid_share > opened.solid_share + 0.1


def test_wet_sand_bears_but_a_sliding_sole_goes_in() -> None:
    """Aiming deeper no longer lifts the edge; less bounce gets the edge under the ball (common practice)."""
    heights = [strike(replace(SPLASH, face_open=0.0), replace(SWING, depth=d), "wet_sand").edge_height
               for d in (0.008, 0.014, 0.020)]  # fmt: skip
    assert max(heights) - heights[0] < 1.5e-3
    low, high = (strike(replace(SPLASH, club=BAG[c], face_open=0.0, ball_position=0.02),
                        replace(SWING, depth=0.014), "wet_sand") for c in ("LW-low", "SW-high"))  # fmt: skip
    assert low.cushion > high.cushion


def test_firm_wet_sand_wants_little_bounce() -> None:
    """Common practice: bounce rebounds from it. Measured 81 against 10 in 100, square face."""
    low, high = (
        many(replace(SPLASH, club=BAG[c], face_open=0.0), SWING, "wet_sand").solid_share
        for c in ("LW-low", "SW-high")
    )
    assert low > high + 0.3
