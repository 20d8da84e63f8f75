"""How the golfer takes the shot: eyes that follow the ball, a finish that settles, and a small reaction.

Read from the Shot alone, at a time of its film: the same time always shows the same golfer. The strike is
felt at once, so it is answered once the finish has settled; that the ball is holed is known when it falls.
Nothing here tells more than has been seen. Times and angles are drawn, not measured: assumed.
"""

from dataclasses import dataclass
from enum import Enum
from math import atan2, cos, exp, hypot, isfinite, pi, radians, tan

from game.draw.body import ADDRESS, Manner
from game.draw.course import ground_at
from game.shot_view.paths import ball_at
from game.shot_view.stance import Stance, between
from physics.equipment import HOLE_RADIUS
from physics.results import Contact, Outcome, Shot

__all__ = ["Reaction", "fall_time", "manner_at", "reaction_of", "settled"]

HEAD = 0.20  # m of the eyes over the hub
KEPT, LIFTED = 0.07, 0.45  # s after the strike the eyes stay down, and then take to find the ball
SWAY, PERIOD, STILL_AFTER = 0.20, 0.95, 1.3  # s: a finish dies away, swings back and forth, and stands
RECOIL = 0.16  # of the way back down that the club comes from where the swing ended
UPRIGHT = 0.02  # m the hub rises as the golfer stands up
FELT, TAKES = 0.20, 0.70  # s after the finish a reaction begins, and takes
GLAD = 0.35  # s in which an arm goes up
LEAVES = 0.55  # of the way down the club is let sink while an arm is up
STEP = radians(2.0)  # of a turned head: finer cannot be seen, and every step is another drawing


class Reaction(Enum):
    """What the golfer does about it."""

    NOD = "a quiet nod"
    DIVOT = "a look down at the ground"
    HEAD_UP = "the head goes up"
    ARM = "an arm goes up"
    NONE = "none"


def reaction_of(shot: Shot) -> Reaction:
    """Holed before all else; else by the strike."""
    strike = shot.strike
    if shot.run.outcome is Outcome.HOLED:
        return Reaction.ARM
    if strike.contact in (Contact.THIN, Contact.TOPPED):
        return Reaction.HEAD_UP
    if strike.contact in (Contact.FAT, Contact.TWICE, Contact.MISSED) or shot.run.outcome is Outcome.STUCK:
        return Reaction.DIVOT
    return Reaction.NOD if strike.solid else Reaction.NONE


def fall_time(shot: Shot) -> float:
    """When a holed ball's middle goes under the rim for good (s)."""
    run, hole = shot.run, shot.course.hole
    assert hole
    rim = ground_at(shot.course, hole.x)
    for k in range(len(run.t) - 1, -1, -1):
        if run.y[k] > rim or abs(run.x[k] - hole.x) > HOLE_RADIUS:
            return run.t[min(k + 1, len(run.t) - 1)]
    return run.t[-1]


def _smooth(share: float) -> float:
    s = min(max(share, 0.0), 1.0)
    return s * s * (3.0 - 2.0 * s)


@dataclass(frozen=True)
class _Taken:
    """A reaction and how far it has come, 0 to 1."""

    what: Reaction
    share: float


def _taken(shot: Shot, time: float) -> _Taken:
    what = reaction_of(shot)
    if what is Reaction.ARM:
        return _Taken(what, min(max((time - fall_time(shot)) / GLAD, 0.0), 1.0))
    start, ends = shot.swing.t[-1] + FELT, shot.run.t[-1]
    if shot.launch is not None:  # a short shot's film ends before: then it is felt sooner
        start = min(start, max(ends - TAKES, _struck(shot) + FELT))
    return _Taken(what, min(max((time - start) / TAKES, 0.0), 1.0))


def _struck(shot: Shot) -> float:
    return shot.strike.time if isfinite(shot.strike.time) else 0.0


# ---- head


def _gaze(shot: Shot, hub: tuple[float, float], time: float) -> tuple[float, float]:
    """Yaw and pitch (rad) of a face turned to the ball; down at its place until well after the strike."""
    away = hub[1] / tan(shot.setup.club.lie)  # m the ball lies before the golfer
    ball = ball_at(shot.run, max(time, shot.run.t[0])) if shot.launch else (0.0, 0.0)
    high = ball[1] - hub[1] - HEAD
    yaw, pitch = atan2(ball[0] - hub[0], away), atan2(high, hypot(ball[0] - hub[0], away))
    share = _smooth((time - _struck(shot) - KEPT) / LIFTED)
    return 0.85 * yaw * share, ADDRESS.pitch + (pitch - ADDRESS.pitch) * share


def manner_at(shot: Shot | None, hub: tuple[float, float], time: float, reacts: bool = True) -> Manner:
    """Head and free arm at a time of the shot; at address without one."""
    if shot is None or time <= _struck(shot):
        return ADDRESS
    yaw, pitch = _gaze(shot, hub, time)
    raised = 0.0
    if reacts:
        taken = _taken(shot, time)
        s = _smooth(taken.share)
        if taken.what is Reaction.NOD:
            pitch -= 0.38 * max(0.0, 0.5 - 0.5 * cos(2.0 * pi * taken.share))
        elif taken.what is Reaction.DIVOT:
            yaw, pitch = yaw * (1.0 - s) + 0.12 * s, pitch + (ADDRESS.pitch - 0.15 - pitch) * s
        elif taken.what is Reaction.HEAD_UP:
            pitch += (0.30 - pitch) * s
        elif taken.what is Reaction.ARM:
            raised = s
            pitch += (0.12 - pitch) * s
    return Manner(STEP * round(yaw / STEP), STEP * round(pitch / STEP), round(raised, 2))


# ---- club and hands after the swing


def settled(stance: Stance, address: Stance, shot: Shot, time: float, reacts: bool = True) -> Stance:
    """The stance a while after the swing has ended as `stance`: the finish swings out and stands; who looks
    for the divot lets the club down to it."""
    since = time - shot.swing.t[-1]
    if since <= 0.0:
        return stance
    t = min(since, STILL_AFTER)
    share = RECOIL * (1.0 - exp(-t / SWAY) * cos(2.0 * pi * t / PERIOD))
    down, up = share, UPRIGHT * _smooth(t / STILL_AFTER)
    if reacts:
        taken = _taken(shot, time)
        s = _smooth(taken.share)
        if taken.what is Reaction.DIVOT:
            down, up = down + (0.90 - down) * s, up * (1.0 - s) - 0.015 * s
        elif taken.what is Reaction.ARM:
            down += (LEAVES - down) * s
    return between(stance, address, down, up)
