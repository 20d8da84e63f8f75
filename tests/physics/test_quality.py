"""What a strike was: judged by what it did to the ball."""

from dataclasses import replace
from math import atan2, cos, degrees, hypot, log, radians, sin

import numpy as np
import pytest

from physics.address import Motion, Setup
from physics.cloud import Cloud, cloud
from physics.course import Course, Ground, Lie
from physics.impact import oblique_impact
from physics.quality import (
    AS_FAR,
    FURTHER_BY_SPEED,
    SHORTER_BY_ANGLE,
    SHORTER_BY_SPIN,
    distance_gap,
)
from physics.results import Contact, Meeting, Shot
from physics.run import NO_LOG, run_ball
from physics.shot import KINDS, play, replay
from physics.spread import EXACT, PLAYERS, draw_strays
from physics.surfaces import SURFACES
from physics.terrain import build_field

R = 0.021335
GREEN = build_field(Course(Ground((-5.0, 400.0), (0.0, 0.0), ("green",))))
LEVEL = Course(Ground((-9.0, 1.0, 80.0), (0.0, 0.0, 0.0), ("fairway", "green")))


def on(lie: str) -> Course:
    return replace(LEVEL, lie=Lie(lie))


def strayed(course: Course, motion: Motion, up: float = 0.0) -> Shot:
    stray = draw_strays(EXACT, 0, 1)[0]
    stray[2] = up
    return replay(course, Setup(), motion, EXACT, 0, stray)


def distance(speed: float, angle: float, spin: float) -> float:
    return float(run_ball(GREEN, 0.0, R, speed * cos(angle), speed * sin(angle), spin, 0.0, True, NO_LOG).x)


def test_weights_of_a_launch_are_those_of_the_laws_of_flight_and_roll() -> None:
    """Differences of the walk itself, launches of 35 to 61 degrees of loft at 4 to 12 m/s, dry and wet."""
    found = []
    for mu in (0.18, 0.40):
        for v in (4.0, 6.0, 9.0, 12.0):
            for loft in map(radians, (35, 42, 47, 51, 56, 61)):
                down = radians(-3)
                bx, by, spin, _, _ = oblique_impact(
                    v * cos(down), v * sin(down), cos(loft), sin(loft), 0.3, mu, 1.0
                )
                speed, angle = hypot(bx, by), atan2(by, bx)
                far = distance(speed, angle, spin)
                found.append((
                    log(distance(1.05 * speed, angle, spin) / far) / log(1.05),
                    log(distance(speed, angle - 0.07, spin) / far) / 0.07,
                    log(distance(speed, angle, 0.8 * spin) / far) / (0.2 * spin * R / speed),
                ))  # fmt: skip
    want = (FURTHER_BY_SPEED, SHORTER_BY_ANGLE, SHORTER_BY_SPIN)
    assert np.mean(found, axis=0) == pytest.approx(want, rel=0.1)


def test_gap_is_nought_for_the_same_launch_and_a_quarter_counts() -> None:
    assert distance_gap(6.0, 0.7, 2.0, 6.0, 0.7, 2.0) == 0.0
    assert log(1.25) == pytest.approx(AS_FAR)
    quicker = 6.0 * 1.25 ** (1.0 / FURTHER_BY_SPEED)
    assert distance_gap(quicker, 0.7, 2.0, 6.0, 0.7, 2.0) == pytest.approx(AS_FAR)


@pytest.mark.parametrize("lie", ["fairway", "fringe", "green", "tight", "soft", "rough", "mat"])
def test_an_unspoilt_stroke_is_solid_and_as_set(lie: str) -> None:
    """Within 5 % of the distance of the clean blow; rough drags at the head before the ball, about 10 %."""
    shot = play(on(lie), Setup(), Motion(depth=SURFACES[lie].usual_depth))
    assert shot.strike.contact is Contact.SOLID
    assert shot.strike.as_set
    assert abs(shot.strike.struck_gap) < (0.12 if lie == "rough" else 0.05)


def test_lean_added_is_struck_and_not_as_set() -> None:
    """With the head at its height nine degrees more lean meets the ball as well; the ball goes elsewhere."""
    plain, leaning = (play(LEVEL, Setup(), Motion(lean_change=radians(d), depth=0.0)) for d in (0.0, 9.0))
    assert plain.strike.as_set
    assert leaning.strike.solid
    assert not leaning.strike.as_set
    assert abs(leaning.strike.struck_gap) < 0.1
    assert leaning.strike.set_gap > AS_FAR
    assert degrees(leaning.swing.lean_added - plain.swing.lean_added) == pytest.approx(9.0)


def test_what_the_head_lost_judges_nothing() -> None:
    """From tight turf the sole rebounds: the head pays, the ball hardly notices (sole 6 mm low)."""
    shot = strayed(on("tight"), Motion(depth=4e-3), -4e-3)
    assert shot.strike.head_loss > 0.10
    assert shot.strike.contact is Contact.SOLID


@pytest.mark.parametrize(
    ("lie", "up", "kind", "met"),
    [
        ("fairway", 0.018, Contact.THIN, Meeting.EDGE),
        ("fairway", 0.038, Contact.TOPPED, Meeting.EDGE_ABOVE),
        ("fairway", 0.070, Contact.MISSED, Meeting.NONE),
        ("soft", -0.010, Contact.FAT, Meeting.FACE),
    ],
)
def test_strikes_are_called_by_what_the_ball_did(lie: str, up: float, kind: Contact, met: Meeting) -> None:
    k = strayed(on(lie), Motion(), up).strike
    assert (k.contact, k.met, k.solid) == (kind, met, False)
    if kind is Contact.FAT:
        assert k.struck_gap < -AS_FAR
    if kind is Contact.THIN:
        assert k.struck_gap > AS_FAR


def test_edge_that_sends_the_ball_like_the_face_is_solid() -> None:
    """The rounded edge may meet the ball first; what counts is what the ball does."""
    kinds = {}
    for up in np.linspace(0.0, 0.012, 49):
        k = strayed(on("fairway"), Motion(), float(up)).strike
        kinds.setdefault((k.met, k.contact), k.struck_gap)
    assert (Meeting.EDGE, Contact.SOLID) in kinds
    assert (Meeting.EDGE, Contact.THIN) in kinds


@pytest.mark.parametrize("lie", sorted(SURFACES))
def test_cloud_and_single_stroke_say_the_same(lie: str) -> None:
    spread, motion = PLAYERS["club"], Motion(depth=SURFACES[lie].usual_depth)
    many = cloud(on(lie), Setup(), motion, spread, 5, 40)
    for i, stray in enumerate(draw_strays(spread, 5, 40)):
        k = replay(on(lie), Setup(), motion, spread, 5, stray).strike
        assert (k.contact, k.solid, k.as_set) == (KINDS[int(many.kind[i])], many.solid[i], many.as_set[i])
        assert (k.struck_gap, k.head_loss) == (many.struck_gap[i], many.head_loss[i])


def many(lie: str, extra_deg: float) -> Cloud:
    motion = Motion(depth=SURFACES[lie].usual_depth, lean_change=radians(extra_deg))
    return cloud(on(lie), Setup(), motion, PLAYERS["club"], 0, 600)


def test_added_lean_costs_twice_and_a_mat_hides_the_half_of_it() -> None:
    """Club player, 0, 3, 6, 9 degrees of lean added: fewer do as set, fewer are struck; a mat keeps most."""
    shares = {
        lie: [many(lie, d) for d in (0.0, 3.0, 6.0, 9.0)] for lie in ("fairway", "soft", "tight", "mat")
    }
    kept = {}
    for lie, clouds in shares.items():
        as_set = [c.as_set_share for c in clouds]
        assert (np.diff(as_set) < 0.0).all(), lie
        assert as_set[3] < 0.15
        kept[lie] = clouds[3].solid_share / clouds[0].solid_share
        assert kept[lie] < 0.85
    assert min(kept["mat"] - kept[lie] for lie in ("fairway", "soft", "tight")) > 0.15
    for lie in ("tight", "mat"):  # common practice: about as often as from fairway
        assert shares[lie][0].solid_share == pytest.approx(shares["fairway"][0].solid_share, abs=0.2)
