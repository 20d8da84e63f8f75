"""Which controls stand out of place: each set against the value that agrees with the rest of the set-up.

Coaches know one line of matched set-ups, from the low runner over the standard chip to the high soft shot
(common practice; the three that `physics.swing` is fitted to). The middle vote of ball position, lean,
release, follow-through and stance says where on that line a set-up belongs. A control is out of place
where it departs from that by more than players differ (assumed), and, for the four that together make the
lean at the ball, only where the lean that comes back is not the lean that was set: then the value named
is the one that brings the promise back. The swing length is out of place where the stroke with all else
put right does not reach the hole.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import radians
from statistics import median

import numpy as np

from physics.address import CONTROLS, Intention
from physics.compiled import as_record
from physics.corridor import bench, stroke_of
from physics.course import Course
from physics.face import opened_head
from physics.head import sole_elements
from physics.shot import lie_of
from physics.surfaces import SAND
from physics.swing import links

__all__ = ["AGREEING", "HABITS", "LEANERS", "Misplaced", "lean_mismatch", "misplaced", "place_on_line"]

# The line of matched set-ups: low runner, standard chip, high soft shot at -1, 0 and 1 (common practice).
AGREEING: dict[str, tuple[float, float, float]] = {
    "ball_position": (-0.07, -0.02, 0.04),
    "shaft_lean": (radians(11), radians(5), radians(-2)),
    "release": (0.7, 1.0, 1.4),
    "follow_through": (1.0, 0.6, 0.2),
    "stance_width": (0.10, 0.17, 0.28),
    "face_open": (0.0, 0.0, radians(8)),
    "lead_weight": (0.62, 0.62, 0.60),
}
LEANERS = ("ball_position", "shaft_lean", "release", "follow_through")  # they make the lean at the ball
HABITS = ("lean_change", "drop")  # what a player adds to every stroke, none by rights
VOTERS = (*LEANERS, "stance_width")
ENDS = (-1.4, 1.4)  # how far beyond low runner and high soft shot the line is still followed, assumed
FREE = 0.3  # of the way from one kind of shot to the next that a part may be off, assumed
PROMISE = radians(1.0)  # lean at the ball off the promise that players call kept (common practice)
# How far these may stand from what agrees before they are out of place (SI), assumed
LEEWAY = {"stance_width": 0.08, "face_open": radians(10), "lead_weight": 0.07, "drop": 0.25, "depth": 3e-3}
LEEWAY_SAND = 6e-3  # m of depth
STEPS = 24  # halvings: a control to 1e-7 of its range


@dataclass(frozen=True)
class Misplaced:
    """A control out of place: its value and the one that agrees with the rest (SI). `lean_off` is the lean
    at the ball beyond the promise (rad) that comes of it, 0 where it is no matter of the lean."""

    control: str
    now: float
    agrees: float
    lean_off: float = 0.0


def _at(name: str, place: float) -> float:
    """The value of a control at a place on the line, straight on beyond its ends."""
    low, middle, high = AGREEING[name]
    return middle + place * (middle - low if place < 0.0 else high - middle)


def _place(name: str, value: float) -> float:
    """Where on the line a control of VOTERS has that value."""
    low, middle, high = AGREEING[name]
    before = (value - middle) / (middle - low)
    return before if before < 0.0 else (value - middle) / (high - middle)


def place_on_line(intention: Intention) -> float:
    """What kind of shot most of the set-up belongs to: -1 low runner, 0 standard chip, 1 high soft shot.

    >>> place_on_line(Intention())
    0.0
    """
    votes = [_place(name, intention.value(name)) for name in VOTERS]
    return min(max(median(votes), ENDS[0]), ENDS[1])


def lean_mismatch(intention: Intention) -> float:
    """Lean (rad) that ball position, release and follow-through bring to the ball beyond what was set;
    what the player adds by habit is not in it.

    >>> from math import degrees
    >>> abs(degrees(lean_mismatch(Intention()))) < 1.0
    True
    >>> degrees(lean_mismatch(Intention().with_value("release", 1.8))) < -4.0
    True
    """
    setup = intention.setup
    loft, bounce, _ = opened_head(as_record(setup.club), setup.face_open)
    work, club = bench(), setup.club
    sole_elements(bounce, club.sole_width, club.camber, club.edge_radius, work.elements)
    link = links(as_record(club), stroke_of(setup, intention.motion), loft, work.elements)
    return float(link.by_motion - link.promised)


def misplaced(
    course: Course, intention: Intention, reach: Callable[[Intention], float] | None = None
) -> tuple[Misplaced, ...]:
    """The controls out of place, in the order of CONTROLS. `reach` gives the swing length that brings a
    stroke to the hole (rad); None leaves the swing length alone.

    >>> from physics.course import level_course
    >>> course = level_course("fairway", 8.0)
    >>> misplaced(course, Intention())
    ()
    >>> [m.control for m in misplaced(course, Intention().with_value("release", 1.8))]
    ['release']
    """
    place = place_on_line(intention)
    out = _apart(course, intention, place)
    rest = intention.with_values({m.control: m.agrees for m in out})
    out += _leaning(rest, place)
    if reach is not None:
        right = intention.with_values({m.control: m.agrees for m in out})
        now, best = intention.motion.swing_length, reach(right)
        if best != now:
            out.append(Misplaced("swing_length", now, best))
    order = list(CONTROLS)
    return tuple(sorted(out, key=lambda m: order.index(m.control)))


def _apart(course: Course, intention: Intention, place: float) -> list[Misplaced]:
    """The controls out of place that are no matter of the lean."""
    surface = lie_of(course)[0]
    sand = surface.kind == SAND
    usual = {n: _at(n, place) for n in ("stance_width", "face_open", "lead_weight")}
    usual |= {"drop": 1.0, "depth": surface.usual_depth}
    if sand:
        usual.pop("face_open")  # an open face belongs to sand (common practice)
    out = []
    for name, agrees in usual.items():
        now, control = intention.value(name), CONTROLS[name]
        leeway = LEEWAY_SAND if sand and name == "depth" else LEEWAY[name]
        if abs(now - agrees) > leeway:
            out.append(Misplaced(name, now, min(max(agrees, control.low), control.high)))
    return out


def _leaning(rest: Intention, place: float) -> list[Misplaced]:
    """What keeps the lean from coming back as it was set; nothing where it does."""
    brought, habit = lean_mismatch(rest), rest.motion.lean_change
    total = brought + habit
    if abs(total) <= PROMISE:
        return []
    out = []
    if abs(habit) > PROMISE and abs(brought) < abs(total):
        out.append(Misplaced("lean_change", habit, 0.0, habit))
    if abs(brought) > PROMISE and brought * total > 0.0:
        out += _mismatched(rest, place, brought)
    return out


def _mismatched(rest: Intention, place: float, brought: float) -> list[Misplaced]:
    """The parts of the set-up that disagree with the others about the lean at the ball."""
    found = []
    for name in LEANERS:
        now, usual = rest.value(name), _at(name, place)
        agrees = _kept(rest, name, usual)
        if abs(agrees - usual) < abs(now - usual):
            found.append((abs(_place(name, now) - place), Misplaced(name, now, agrees, brought)))
    far = [m for off, m in found if off > FREE]
    if far or not found:
        return far
    return [max(found, key=lambda f: f[0])[1]]


def _kept(rest: Intention, name: str, usual: float) -> float:
    """The value of one control with which the promise is kept, near what is usual; found by halving."""
    half = 0.5 * (max(AGREEING[name]) - min(AGREEING[name])) * 0.5
    control = CONTROLS[name]
    low, high = max(usual - half, control.low), min(usual + half, control.high)
    off = [lean_mismatch(rest.with_value(name, v)) for v in (low, high)]
    if off[0] * off[1] > 0.0:
        return (low, high)[int(np.argmin(np.abs(off)))]
    for _ in range(STEPS):
        middle = 0.5 * (low + high)
        if lean_mismatch(rest.with_value(name, middle)) * off[0] > 0.0:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
