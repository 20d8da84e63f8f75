"""Lessons computed, not staged: one small mistake made in two or three strokes that differ in one thing.

Each case is the same stroke but for what the lesson is about, the sole arriving equally low in all of them;
beside it stands a cloud of the player's own strokes, the same strays in every case.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from math import degrees, exp, radians, sqrt

import numpy as np
from numpy.typing import NDArray

from physics.address import CONTROLS, Motion, Setup
from physics.cloud import cloud
from physics.compiled import as_record
from physics.corridor import bench, intended_strike, stroke_of
from physics.course import Course, Lie
from physics.equipment import Club
from physics.results import Contact, Shot, TurfAction
from physics.shot import lie_of, replay
from physics.spread import PLAYERS, Spread
from physics.surfaces import SURFACES
from physics.swing import Links

__all__ = [
    "COUNTED",
    "EARLY_RELEASE",
    "FORWARD",
    "LESSONS",
    "LIES",
    "LessonCase",
    "OnLie",
    "PlayedLesson",
    "Share",
    "lesson",
    "lesson_in_parts",
    "lesson_strokes",
    "mistake_forgiven",
    "same_mistake",
]  # fmt: skip

LESSONS = ("lean", "release", "bounce")
LIES = ("fairway", "tight", "soft", "rough", "fringe", "mat", "sand", "wet_sand")
COUNTED = 400  # of each cloud: standard error at most 2.5 of 100
# By how much the sole may arrive low (m): one to one and a half times a club player's spread of height, one
# small mistake for everybody. By their own spread, a steady player's lesson would hardly cost a stroke.
MISTAKES = tuple(share * PLAYERS["club"].up for share in (1.5, 1.4, 1.3, 1.2, 1.1, 1.0))
FORWARD = radians(9.0)  # more lean than was set
BALL_BACK, BACK_LEAN = -0.05, radians(8.0)  # a low runner's address (common practice)
BALL_FORWARD = 0.04  # m, a high shot's ball position (common practice)
EARLY_RELEASE = 1.6  # of a high shot's motion: the head passes the hands (common practice)
MUCH_BOUNCE, LITTLE_BOUNCE = radians(14.0), radians(4.0)
SURE = 2.0  # standard errors beyond which a difference is told


@dataclass(frozen=True)
class Share:
    """A share of so many strokes."""

    value: float
    strokes: int

    @property
    def of_100(self) -> int:
        return round(100.0 * self.value)

    @property
    def error(self) -> float:
        """Standard error of the share."""
        return sqrt(self.value * (1.0 - self.value) / self.strokes)


@dataclass(frozen=True)
class LessonCase:
    """One of the strokes: how it is set, what the mistake made of it, and the player's own strokes of it."""

    name: str  # matched, forward; held, early, moved; much, little
    setup: Setup
    motion: Motion
    shot: Shot  # with the mistake
    solid: Share | None = None  # None: not yet counted
    as_set: Share | None = None

    @property
    def kept(self) -> float:
        """About how far the ball goes, over how far the same stroke sends it unspoilt; 0 when missed."""
        strike = self.shot.strike
        return 0.0 if strike.contact is Contact.MISSED else exp(strike.struck_gap)

    @property
    def digs(self) -> bool:
        """Whether the leading edge, not the sole, carried the head."""
        return self.shot.strike.turf is TurfAction.DIG


@dataclass(frozen=True)
class OnLie:
    """The shares of every case on one lie, and what separates the second from the first."""

    lie: str
    solid: tuple[Share, ...]  # one a case
    as_set: tuple[Share, ...]
    fall: float  # share of strokes, by the lesson's measure, the second case has fewer than the first
    error: float  # standard error of `fall`, the strays being the same

    def measured(self, by_promise: bool) -> tuple[Share, ...]:
        """The strokes as set, or the solid ones."""
        return self.as_set if by_promise else self.solid

    @property
    def sure(self) -> bool:
        """Whether the difference stands out of the chance of so many strokes."""
        return abs(self.fall) > SURE * self.error


@dataclass(frozen=True)
class PlayedLesson:
    """A lesson for one player on one lie. `table` fills lie by lie."""

    name: str
    course: Course
    spread: Spread
    seed: int
    strokes: int  # of each cloud
    low: float  # m the sole arrives too low in every case
    forgiven: bool  # the first case stands it: solid, and the edge does not dig
    cases: tuple[LessonCase, ...]
    table: tuple[OnLie, ...] = field(default=(), repr=False)
    lies: tuple[str, ...] = LIES  # that the table is to hold

    @property
    def lie(self) -> str:
        return lie_of(self.course)[0].name

    @property
    def by_promise(self) -> bool:
        """Whether the cases are measured by the strokes that do as set, not by the solid ones: a release too
        early breaks the promise of the address more than the strike."""
        return self.name == "release"

    @property
    def whole(self) -> bool:
        """Whether every lie is in the table."""
        return len(self.table) == len(self.lies)

    @property
    def counted(self) -> bool:
        """Whether the player's own strokes are counted."""
        return all(case.solid is not None for case in self.cases)

    @property
    def worst(self) -> OnLie | None:
        """The lie that loses most strokes; None where none loses any for sure."""
        found = max(self.table, key=lambda row: row.fall, default=None)
        return found if found and found.fall > 0.0 and found.sure else None

    @property
    def hidden(self) -> OnLie | None:
        """The lie where the mistake shows least: the smallest fall, none counting as one; None without two
        lies that lose no more than the worst."""
        rest = [row for row in self.table if row is not self.worst and row not in self.turned]
        return min(rest, key=lambda row: row.fall, default=None)

    @property
    def turned(self) -> tuple[OnLie, ...]:
        """Lies where the second case is the better one for sure."""
        return tuple(row for row in self.table if row.fall < 0.0 and row.sure)


def lesson(
    name: str, course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int = 0,
    strokes: int = COUNTED, lies: tuple[str, ...] = LIES,
) -> PlayedLesson:  # fmt: skip
    """The whole lesson. Same arguments, same PlayedLesson. ValueError for an unknown name or an exact player.

    >>> from physics.course import level_course
    >>> from physics.spread import PLAYERS
    >>> course = level_course("fairway", 8.0)
    >>> lean = lesson("lean", course, Setup(), Motion(), PLAYERS["club"], strokes=100, lies=("mat",))
    >>> [str(case.shot.strike.turf) for case in lean.cases]
    ['skid', 'dig']
    """
    *_, whole = lesson_in_parts(name, course, setup, motion, spread, seed, strokes, lies)
    return whole


def lesson_in_parts(
    name: str, course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int = 0,
    strokes: int = COUNTED, lies: tuple[str, ...] = LIES,
) -> Iterator[PlayedLesson]:  # fmt: skip
    """The lesson as it grows: its shots, then its shares, then one lie more at a time."""
    if spread.up <= 0.0:
        raise ValueError("a lesson needs a player whose strokes differ")
    made = lesson_strokes(name, setup, motion)
    low, forgiven = mistake_forgiven(course, *made[0][1:], spread, seed)
    cases = tuple(
        LessonCase(key, s, m, _low_shot(course, s, m, spread, seed, low)) for key, s, m in made
    )  # fmt: skip
    here = lie_of(course)[0].name
    every = lies if here in lies else (here, *lies)
    out = PlayedLesson(name, course, spread, seed, strokes, low, forgiven, cases, lies=every)
    yield out
    own = _on_lie(out, out.lie)
    out = replace(out, cases=tuple(
        replace(case, solid=solid, as_set=as_set)
        for case, solid, as_set in zip(cases, own.solid, own.as_set, strict=True)
    ))  # fmt: skip
    yield out
    for lie in every:
        row = own if lie == out.lie else _on_lie(out, lie)
        out = replace(out, table=(*out.table, row))
        yield out


def lesson_strokes(name: str, setup: Setup, motion: Motion) -> tuple[tuple[str, Setup, Motion], ...]:
    """Name, set-up and motion of every case; the first is matched: it brings back the lean that was set."""
    if name == "lean":
        matched = _matched(setup, motion)
        most = CONTROLS["lean_change"].high
        leaning = replace(matched, lean_change=min(matched.lean_change + FORWARD, most))
        return ("matched", setup, matched), ("forward", setup, leaning)
    if name == "release":
        back = replace(setup, ball_position=BALL_BACK, shaft_lean=BACK_LEAN)
        held = replace(motion, release=_release_for(back, motion), lean_change=0.0)
        early = replace(held, release=EARLY_RELEASE)
        moved = _promised(replace(setup, ball_position=BALL_FORWARD), early)
        return ("held", back, held), ("early", back, early), ("moved", moved, early)
    if name == "bounce":
        much, little = (
            replace(setup, club=_with_bounce(setup.club, b)) for b in (MUCH_BOUNCE, LITTLE_BOUNCE)
        )
        return ("much", much, _matched(much, motion)), ("little", little, _matched(little, motion))
    raise ValueError(f"no lesson '{name}'; allowed: {', '.join(LESSONS)}")


def mistake_forgiven(
    course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int = 0
) -> tuple[float, bool]:
    """The most of MISTAKES (m) that the stroke stands, solid and without digging, and whether it stands it;
    the least of them when it stands none."""
    for low in MISTAKES:
        strike = _low_shot(course, setup, motion, spread, seed, low).strike
        if strike.solid and strike.turf is not TurfAction.DIG:
            return low, True
    return MISTAKES[-1], False


def same_mistake(
    course: Course, first: tuple[Setup, Motion], second: tuple[Setup, Motion], spread: Spread, seed: int = 0
) -> tuple[Shot, Shot]:
    """Two strokes with the sole arriving equally low: as low as the first one stands. ValueError for an exact
    player, who makes no mistakes."""
    if spread.up <= 0.0:
        raise ValueError("a lesson needs a player whose strokes differ")
    low, _ = mistake_forgiven(course, *first, spread, seed)
    a, b = (_low_shot(course, *stroke, spread, seed, low) for stroke in (first, second))
    return a, b


def _low_shot(course: Course, setup: Setup, motion: Motion, spread: Spread, seed: int, low: float) -> Shot:
    """The stroke with nothing astray but the height."""
    stray = np.array([1.0, 0.0, -low, 0.0, 0.0, 0.0, 0.0])
    return replay(course, setup, motion, spread, seed, stray)


# ---- counting


def _on_lie(made: PlayedLesson, lie: str) -> OnLie:
    """Every case from that lie, each brushed as much deeper as is usual there."""
    here, course = made.lie, made.course
    deeper = SURFACES[lie].usual_depth - SURFACES[here].usual_depth
    if lie != here:
        course = replace(course, lie=Lie(lie))
    least, most = CONTROLS["depth"].low, CONTROLS["depth"].high
    solid: list[NDArray[np.bool_]] = []
    as_set: list[NDArray[np.bool_]] = []
    for case in made.cases:
        depth = min(max(case.motion.depth + deeper, least), most) if lie != here else case.motion.depth
        motion = replace(case.motion, depth=depth)
        many = cloud(course, case.setup, motion, made.spread, made.seed, made.strokes)
        solid.append(many.solid)
        as_set.append(many.as_set)
    first, second = (as_set if made.by_promise else solid)[:2]
    apart = first.astype(float) - second.astype(float)
    counted = tuple(_shares(which, made.strokes) for which in (solid, as_set))
    return OnLie(lie, counted[0], counted[1], float(apart.mean()), float(apart.std() / sqrt(made.strokes)))


def _shares(which: list[NDArray[np.bool_]], strokes: int) -> tuple[Share, ...]:
    return tuple(Share(float(s.mean()), strokes) for s in which)


# ---- matching


def _link(setup: Setup, motion: Motion) -> Links:
    """The intended stroke; no ground enters into it."""
    club, ground = as_record(setup.club), as_record(SURFACES["fairway"])
    return intended_strike(club, ground, 0.0, stroke_of(setup, motion), bench(), np.zeros((0, 7)))[0]


def _matched(setup: Setup, motion: Motion) -> Motion:
    """The motion with the habit that brings back the lean that was set, within the control's limits."""
    lean = CONTROLS["lean_change"]
    off = setup.shaft_lean - _link(setup, replace(motion, lean_change=0.0)).by_motion
    return replace(motion, lean_change=min(max(off, lean.low), lean.high))


def _release_for(setup: Setup, motion: Motion) -> float:
    """The release that brings back the lean that was set, found by halving; more release, less lean."""
    low, high = CONTROLS["release"].low, CONTROLS["release"].high
    for _ in range(30):
        middle = 0.5 * (low + high)
        brought = _link(setup, replace(motion, release=middle, lean_change=0.0)).by_motion
        low, high = (middle, high) if brought > setup.shaft_lean else (low, middle)
    return low


def _promised(setup: Setup, motion: Motion) -> Setup:
    """The address that promises the lean its motion brings, within the control's limits."""
    lean = CONTROLS["shaft_lean"]
    for _ in range(30):
        brought = _link(setup, motion).by_motion
        setup = replace(setup, shaft_lean=min(max(brought, lean.low), lean.high))
    return setup


def _with_bounce(club: Club, bounce: float) -> Club:
    """The same club on another sole angle and nothing else."""
    kind = club.label.rsplit(" ", 1)[0] if "/" in club.label else club.label
    label = f"{kind} with {round(degrees(bounce))} degrees of bounce"
    return replace(club, bounce=bounce, label=label)
