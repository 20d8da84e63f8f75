"""A built-in scenario to play for a test: its starting stroke, its reference, and both with a change."""

from dataclasses import replace
from functools import cache
from math import cos, degrees, sin

import numpy as np

from levels.facts import cloud_facts, meets, success_share
from levels.families import Intended, Kinds
from levels.files import load_library
from levels.parts import FILE_KEYS, si_value
from physics.address import CONTROLS, Intention
from physics.cloud import Cloud, cloud
from physics.course import Course, Ground
from physics.equipment import BALL_RADIUS
from physics.quality import FAT, THIN
from physics.results import Shot
from physics.run import NO_LOG, run_ball
from physics.shot import lie_of, play
from physics.spread import PLAYERS
from physics.terrain import build_field

__all__ = ["COUNT", "Stand", "changed", "on_fairway", "on_level_ground", "stand", "still_air"]

COUNT = 120  # strokes of a share: known to about 0.045


def changed(stroke: Intention, club: str = "", **values: float) -> Intention:
    """The stroke with another club and other values, by the keys and in the units of a file."""
    names = {key: name for name, key in FILE_KEYS.items()}
    si = {names[key]: si_value(CONTROLS[names[key]], value) for key, value in values.items()}
    return (stroke.with_club(club) if club else stroke).with_values(si)


def on_level_ground(course: Course) -> Course:
    """The same surfaces and distances on level ground, without scenery."""
    ground = course.ground
    return replace(course, ground=Ground(ground.x, (0.0,) * len(ground.x), ground.surfaces), hazards=())


def on_fairway(course: Course) -> Course:
    """The same place with the ball on mown grass."""
    return replace(course, lie=replace(course.lie, surface="fairway"))


def still_air(course: Course) -> Course:
    """The same place without wind."""
    return replace(course, wind=0.0)


class Stand:
    """One scenario. Angles in degrees, lengths in m."""

    def __init__(self, name: str) -> None:
        self.made = load_library(name)
        self.course = self.made.course()
        self.start = Intention(self.made.setup(), self.made.motion())
        reference = self.made.reference_shot()
        assert reference is not None
        self.matched = Intention(*reference)

    def shot(self, stroke: Intention, course: Course | None = None) -> Shot:
        """The stroke with nothing astray."""
        return _shot(course or self.course, stroke)

    def many(self, stroke: Intention, course: Course | None = None) -> Cloud:
        """The stroke as the scenario's player plays it; always the same strays."""
        return _many(course or self.course, stroke, self.made.player)

    def solid(self, stroke: Intention) -> float:
        """Share struck solid, or splashed from sand."""
        return self.many(stroke).solid_share

    def fat(self, stroke: Intention) -> float:
        """Share struck fat."""
        return float(np.mean(self.many(stroke).kind == FAT))

    def thin(self, stroke: Intention) -> float:
        """Share struck thin."""
        return float(np.mean(self.many(stroke).kind == THIN))

    def spread(self, stroke: Intention) -> float:
        """How far apart the balls rest: from the tenth to the ninetieth of a hundred."""
        low, high = np.quantile(self.many(stroke).rest, (0.1, 0.9))
        return float(high - low)

    def meant(self, stroke: Intention) -> Intended:
        """What the stroke does on a level green, unspoilt."""
        return Kinds(self.course).intended(stroke.setup, stroke.motion)

    def low_point(self, stroke: Intention) -> float:
        """Where the swing is lowest, from the ball."""
        return self.shot(stroke).swing.low_point

    def launch(self, stroke: Intention, course: Course | None = None) -> float:
        """Launch angle."""
        launch = self.shot(stroke, course).launch
        assert launch is not None
        return degrees(launch.angle)

    def ball_speed(self, stroke: Intention, course: Course | None = None) -> float:
        """Ball speed (m/s)."""
        launch = self.shot(stroke, course).launch
        assert launch is not None
        return launch.speed

    def spin(self, stroke: Intention, course: Course | None = None) -> float:
        """Backspin (rad/s)."""
        launch = self.shot(stroke, course).launch
        assert launch is not None
        return launch.spin

    def landing(self, stroke: Intention) -> float:
        """How steeply the ball lands first."""
        return degrees(self.shot(stroke).run.landing_angle)

    def carry(self, stroke: Intention, course: Course | None = None) -> float:
        """Where the ball lands first."""
        return self.shot(stroke, course).run.carry

    def rest(self, stroke: Intention, course: Course | None = None) -> float:
        """Where the ball stops with the hole filled in."""
        return self.shot(stroke, replace(course or self.course, hole=None)).run.rest

    def roll(self, stroke: Intention, course: Course | None = None) -> float:
        """From the first landing to rest."""
        return self.rest(stroke, course) - self.carry(stroke, course)

    def loft(self, stroke: Intention) -> float:
        """Loft at impact."""
        return degrees(self.shot(stroke).strike.loft)

    def bounce(self, stroke: Intention) -> float:
        """Bounce at impact."""
        return degrees(self.shot(stroke).strike.bounce)

    def lean(self, stroke: Intention) -> float:
        """Shaft lean at impact."""
        return degrees(self.shot(stroke).strike.lean)

    def lean_added(self, stroke: Intention) -> float:
        """Lean brought to impact beyond what was set, before any ground."""
        return degrees(self.shot(stroke).swing.lean_added)

    def cleared(self, stroke: Intention) -> float:
        """Share that fly over the place to clear."""
        made = self.made
        facts = cloud_facts(
            made.goal, self.course, stroke.setup, stroke.motion, PLAYERS[made.player], 0, COUNT
        )
        return float(meets("must_clear", made.goal, facts).mean())

    def rolled(self, stroke: Intention, spin_share: float) -> float:
        """Distance (m) from landing to rest of the same launch with that share of its spin."""
        launch = self.shot(stroke).launch
        assert launch is not None
        vx, vy = launch.speed * cos(launch.angle), launch.speed * sin(launch.angle)
        field = build_field(replace(self.course, hole=None))
        run = run_ball(field, 0.0, BALL_RADIUS, vx, vy, launch.spin * spin_share, 0.0, True, NO_LOG)
        return float(run.x - run.carry)

    def done(self, stroke: Intention) -> float:
        """Share that meets every goal."""
        return success_share(self.made, stroke.setup, stroke.motion)

    def deep(self, stroke: Intention) -> float:
        """How deep (m) under the turf at the ball the sole is headed, before any ground."""
        return self.shot(stroke).strike.low

    def lost_to_wind(self, club: str) -> tuple[float, float]:
        """How much (m) of carry and of rest the wind takes from that club's ball to the hole in still air."""
        still, hole = still_air(self.course), self.made.hole.x_m
        tries = [changed(self.matched, club, swing_length_deg=float(deg)) for deg in range(30, 105, 2)]
        stroke = min(tries, key=lambda one: abs(self.rest(one, still) - hole))
        return self.carry(stroke, still) - self.carry(stroke), self.rest(stroke, still) - self.rest(stroke)

    def slope(self) -> float:
        """Slope of the ground under the ball."""
        return degrees(lie_of(self.course)[2])

    def swing_for(self, stroke: Intention, carry: float, course: Course | None = None) -> Intention:
        """The same stroke with the swing length that carries so far, by halving."""
        low, high = 15.0, 125.0
        for _ in range(20):
            middle = 0.5 * (low + high)
            flown = self.carry(changed(stroke, swing_length_deg=middle), course)
            low, high = (middle, high) if flown < carry else (low, middle)
        return changed(stroke, swing_length_deg=0.5 * (low + high))


@cache
def stand(name: str) -> Stand:
    """The scenario of that short name, as harrow-fen-NAME is kept."""
    return Stand(f"harrow-fen-{name}")


@cache
def _shot(course: Course, stroke: Intention) -> Shot:
    return play(course, stroke.setup, stroke.motion)


@cache
def _many(course: Course, stroke: Intention, player: str) -> Cloud:
    return cloud(course, stroke.setup, stroke.motion, PLAYERS[player], 0, COUNT)
