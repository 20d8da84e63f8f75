"""The moments of a Shot in order, and how a short strike and a long roll share one line."""

from bisect import bisect_right
from dataclasses import dataclass
from math import isfinite

import numpy as np

from game.shot_view.stance import BACKSWING
from physics.results import Outcome, Phase, Shot

__all__ = ["Moment", "Timeline", "timeline"]

BEFORE, AFTER = 0.012, 0.025  # s about the strike that get a stretch of their own
AFTERMATH = {Outcome.HOLED: 0.7, Outcome.WATER: 1.2}  # s the film goes on after the ball is gone, assumed
SHARES = (0.20, 0.25, 0.30, 0.25)  # of the line: swing, strike, flight, bounce and roll


@dataclass(frozen=True)
class Moment:
    """A named time (s)."""

    name: str
    time: float


@dataclass(frozen=True)
class Timeline:
    """Times that bound the stretches, the share of the line at each, and the moments to jump to."""

    times: tuple[float, ...]
    shares: tuple[float, ...]
    moments: tuple[Moment, ...]

    @property
    def start(self) -> float:
        return self.times[0]

    @property
    def end(self) -> float:
        return self.times[-1]

    def share(self, time: float) -> float:
        """Place on the line, 0 to 1, of a time."""
        return float(np.interp(time, self.times, self.shares))

    def time(self, share: float) -> float:
        """Time at a place on the line."""
        return float(np.interp(share, self.shares, self.times))

    def pace(self, time: float) -> float:
        """Speed of a first showing: the swing a quarter, the strike a hundredth, the ball as it was."""
        k = bisect_right(self.times, time) - 1
        return (0.25, 0.01, 1.0, 1.0)[min(max(k, 0), 3)]

    def advance(self, time: float, dt: float) -> float:
        """The time after `dt` seconds of a first showing, stretch by stretch."""
        while dt > 0.0 and time < self.end:
            k = min(max(bisect_right(self.times, time) - 1, 0), len(self.times) - 2)
            pace, left = self.pace(time), self.times[k + 1] - time
            if pace * dt < left:
                return time + pace * dt
            time, dt = self.times[k + 1], dt - left / pace
        return min(time, self.end)

    def next(self, time: float, by: int) -> Moment:
        """The next (+1) or previous (-1) moment; at the ends the last or first."""
        near = 1e-6
        if by > 0:
            return next((m for m in self.moments if m.time > time + near), self.moments[-1])
        return next((m for m in reversed(self.moments) if m.time < time - near), self.moments[0])


def timeline(shot: Shot) -> Timeline:
    """The line of one Shot. A missed ball has no flight: its line ends with the swing."""
    run, strike = shot.run, shot.strike
    ball = strike.time if isfinite(strike.time) else 0.0
    start = shot.swing.t[0] - BACKSWING
    moments = [Moment("address", start)]
    turf = _turf(shot)
    if turf is not None:
        moments.append(Moment("turf", turf))
    if isfinite(strike.time):
        moments.append(Moment("ball", ball))
    first = min(ball, turf if turf is not None else ball) - BEFORE
    last = max(ball, turf if turf is not None else ball) + AFTER
    end = max(run.t[-1] + AFTERMATH.get(run.outcome, 0.0), last + 0.1)
    if shot.launch is None:
        end = max(shot.swing.t[-1], last + 0.1)
        moments.append(Moment("finish", end))
        return Timeline((start, first, last, end), (0.0, 0.3, 0.7, 1.0), tuple(_sorted(moments)))
    at = run.phase.find(Phase.BOUNCE.value)
    land = run.t[at] if at > 0 else 0.5 * (last + end)
    land = min(max(land, last + 0.02), end - 0.02)
    if at > 0:
        top = int(np.argmax(run.y[: at + 1]))
        moments += [Moment("apex", run.t[top]), Moment("landing", run.t[at])]
    moments.append(Moment("rest", end))
    shares = tuple(np.cumsum((0.0, *SHARES)).tolist())
    return Timeline((start, first, last, land, end), shares, tuple(_sorted(moments)))


def _sorted(moments: list[Moment]) -> list[Moment]:
    return sorted(moments, key=lambda m: m.time)


def _turf(shot: Shot) -> float | None:
    """When the ground was first pressed; None when it never was."""
    sole = shot.strike.sole
    rows = zip(sole.t, sole.pressure, strict=True)
    return next((t for t, row in rows if max(row, default=0.0) > 0.0), None)
