"""What a strike loosens: pieces of turf or sand, cut out of the divot, with the speed the club gives them.

For the picture only; the result of a shot never depends on it. Turf leaves along the plane on which it
fails before the face. A face of rake r that moves at v drives the earth up a plane at b with

    v sin r / sin(r + b)

(velocity triangle of a single cutting edge, Merchant 1945); b is the plane of the earth-moving equation
that the strike itself is computed with. Everything is in the frame of the slope, as the strike is.
"""

from dataclasses import dataclass
from math import cos, pi, radians, sin, sqrt

import numpy as np
from numpy.typing import NDArray

from physics.cutting import easiest_plane
from physics.face import open_face
from physics.results import Shot
from physics.shot import lie_of
from physics.surfaces import MAT, SAND, Surface

__all__ = ["MOST_CLODS", "Clod", "clods_of", "loosened"]

Floats = NDArray[np.float64]
Point = tuple[float, float]

MOST_CLODS = 80  # pieces
COLUMN = 1.0e-3  # m, the columns of ground the strike counts in
FEWEST = 2.0e-6  # m2 of earth too little to see thrown, assumed
STRIP = 6.0e-3  # m, cut deeper than this the turf comes out in clumps, assumed: the root mat holds it
CLUMP = 0.045  # m of turf that hold together at the cohesion of a fairway, assumed
FAIRWAY = 20e3  # Pa, that cohesion
CRUMBLED = 0.30  # share of a clump that falls off it as crumbs, assumed
RUBBED = 0.10  # share of ground only pressed that the sole rubs off as clippings, assumed
CRUMB, GRAIN = 7e-6, 9e-6  # m2, usual crumb and handful of sand, assumed
SHARE = 0.80  # of the speed on the failure plane that is left once the roots have torn, assumed
DELAY = 0.004  # s the earth rides on the face before it is seen to leave it, assumed
# one deviation of direction (rad), least and greatest share of the speed, turning (rad/s); all assumed:
# crumbs break off early and late, sand near the sole is only pushed aside
SCATTER = {
    "clump": (radians(5), 0.80, 1.05, 14.0),
    "crumb": (radians(13), 0.10, 1.10, 0.0),
    "grain": (radians(16), 0.10, 1.25, 0.0),
}
FLATTEST, STEEPEST = radians(7), radians(80)  # nothing is thrown into the ground


@dataclass(frozen=True)
class Clod:
    """One loosened piece. Frame of the slope; `outline` (m, about the middle) is that of a clump."""

    kind: str  # clump, crumb or grain
    area: float  # m2
    born: float  # s on the shot's line
    at: Point  # m
    velocity: Point  # m/s
    turning: float  # rad/s, + counter-clockwise
    depth: float  # m under the old surface it came from
    outline: tuple[Point, ...] = ()

    @property
    def radius(self) -> float:
        """Of a disc of its area (m)."""
        return sqrt(self.area / pi)


@dataclass(frozen=True)
class _Pass:
    """The head over the columns it cut: height of the cut, time, speed, direction, lean at each."""

    x: Floats
    cut: Floats  # m, >= 0
    time: Floats
    speed: Floats
    heading: Floats  # rad, + upward
    lean: Floats


def loosened(shot: Shot) -> tuple[Floats, Floats]:
    """Columns (m) and how much of each comes out (m): what the edge cut of turf and a little of what the
    sole pressed, all that sand gave way, nothing of a mat."""
    passed = _passed(shot, lie_of(shot.course)[0])
    return passed.x, passed.cut


def _passed(shot: Shot, surface: Surface) -> _Pass:
    none = np.zeros(0)
    sole, (xs, ys) = shot.strike.sole, (np.asarray(v, dtype=np.float64) for v in shot.strike.divot)
    if surface.kind == MAT or len(xs) < 2 or len(sole.t) < 3:
        return _Pass(none, none, none, none, none, none)
    t, ex, ey = (np.asarray(v) for v in (sole.t, *sole.edge))
    on = np.concatenate([[True], np.diff(np.maximum.accumulate(ex)) > 1e-7])  # forward only
    t, ex, ey, lean, speed = t[on], ex[on], ey[on], np.asarray(sole.lean)[on], np.asarray(sole.speed)[on]
    depth = -np.interp(xs, ex, ey, left=0.0, right=0.0)
    if surface.kind == SAND:
        cut = -ys
    else:  # an edge slides before it cuts, as in the law of the strike
        cut = np.minimum(depth * np.clip(depth / shot.setup.club.edge_radius, 0.0, 1.0), -ys)
        cut = np.clip(cut, 0.0, None) + RUBBED * (-ys - np.clip(cut, 0.0, None))
    heading = np.arctan2(np.gradient(ey), np.gradient(ex)) if len(ex) > 1 else np.zeros(len(ex))
    return _Pass(
        xs, np.clip(cut, 0.0, None), np.interp(xs, ex, t), np.interp(xs, ex, speed),
        np.interp(xs, ex, heading), np.interp(xs, ex, lean),
    )  # fmt: skip


def clods_of(shot: Shot) -> tuple[Clod, ...]:
    """The pieces of a shot, at most MOST; their areas add up to what was loosened. The same shot
    always gives the same pieces."""
    surface = lie_of(shot.course)[0]
    passed = _passed(shot, surface)
    if passed.cut.sum() * COLUMN < FEWEST:
        return ()
    chance = np.random.default_rng([shot.seed & 0xFFFFFFFF, round(passed.cut.sum() * 1e6)])
    loft = open_face(shot.setup.club, shot.setup.face_open).loft
    throw = _Throw(surface, loft, passed, chance)
    if surface.kind == SAND:
        return throw.bits("grain", passed.cut, GRAIN, MOST_CLODS)
    clumps = throw.clumps()
    rest = passed.cut.copy()
    for a, b, part in clumps:
        rest[a:b] -= part
    whole = tuple(throw.clump(a, b, part) for a, b, part in clumps)
    return whole + throw.bits("crumb", rest, CRUMB, MOST_CLODS - len(whole))


@dataclass(frozen=True)
class _Throw:
    """Cuts the loosened earth into pieces and sends each off."""

    surface: Surface
    loft: float
    passed: _Pass
    chance: np.random.Generator

    def clumps(self) -> list[tuple[int, int, Floats]]:
        """Stretches of columns that stay together, and how much of each column does."""
        p, s = self.passed, self.surface
        long = CLUMP * min(max(s.cohesion / FAIRWAY, 0.4), 1.6) / COLUMN
        deep = np.concatenate([[0], (p.cut > STRIP).astype(int), [0]])
        edges = np.flatnonzero(np.diff(deep))
        out = []
        for a, b in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
            parts = max(round((b - a) / long), 1)
            cuts = np.linspace(a, b, parts + 1)
            cuts[1:-1] += self.chance.uniform(-0.2, 0.2, parts - 1) * (b - a) / parts
            for first, last in zip(cuts[:-1].round().astype(int), cuts[1:].round().astype(int), strict=True):
                if last - first > 4:
                    out.append((int(first), int(last), self._sound(int(first), int(last))))
        return out

    def _sound(self, a: int, b: int) -> Floats:
        """What stays on a clump: torn thinner toward its ends."""
        ends = np.sqrt(np.clip(1.0 - np.linspace(-1.0, 1.0, b - a) ** 4, 0.0, 1.0))
        kept = ends / max(float((ends * self.passed.cut[a:b]).sum() / self.passed.cut[a:b].sum()), 1e-9)
        return self.passed.cut[a:b] * np.minimum(kept * (1.0 - CRUMBLED), 1.0)

    def clump(self, a: int, b: int, part: Floats) -> Clod:
        """The turf of columns a to b, grass on top."""
        xs = self.passed.x[a:b]
        area = float(part.sum()) * COLUMN
        middle = (float((xs * part).sum() / part.sum()), -0.5 * float((part * part).sum() / part.sum()))
        at = np.unique(np.linspace(0, b - a - 1, 9).round().astype(int))
        under = [(float(xs[k]), -float(part[k])) for k in at[::-1]]
        line = [(float(xs[0]), 0.0), (float(xs[-1]), 0.0), *under]
        scale = sqrt(area / _area(line))  # few corners stand for many columns
        outline = tuple((scale * (x - middle[0]), scale * (y - middle[1])) for x, y in line)
        return self._sent("clump", area, (a + b) // 2, middle, 0.5 * float(part.mean()), outline)

    def bits(self, kind: str, earth: Floats, usual: float, most: int) -> tuple[Clod, ...]:
        """The earth of the columns in pieces about as large as usual, larger where it is too much."""
        total = float(earth.sum()) * COLUMN
        count = min(max(round(total / usual), 3 if total > FEWEST else 0), most)
        if count < 1:
            return ()
        sizes = self.chance.gamma(2.2, 1.0, count) + 0.15
        sizes *= total / sizes.sum()
        places = np.interp(
            (np.arange(count) + self.chance.uniform(0.2, 0.8, count)) / count,
            np.concatenate([[0.0], np.cumsum(earth)]) / earth.sum(), np.arange(len(earth) + 1),
        )  # fmt: skip
        out = []
        for k, area in zip(np.minimum(places.astype(int), len(earth) - 1), sizes, strict=True):
            deep = float(self.chance.uniform(0.0, self.passed.cut[k]))
            at = (float(self.passed.x[k]), -deep)
            out.append(self._sent(kind, float(area), int(k), at, deep))
        return tuple(out)

    def _sent(
        self, kind: str, area: float, k: int, at: Point, deep: float, outline: tuple[Point, ...] = ()
    ) -> Clod:  # fmt: skip
        """The piece cut in column k, off along its plane."""
        p, (turn, least, most, spin) = self.passed, SCATTER[kind]
        speed, angle = self._plane(k)
        speed *= SHARE * float(self.chance.uniform(least, most))
        angle = min(max(angle + turn * float(self.chance.standard_normal()), FLATTEST), STEEPEST)
        late = DELAY * float(self.chance.uniform(0.0, 1.0)) if kind != "clump" else 0.0
        turning = spin * float(self.chance.uniform(0.5, 1.5))
        velocity = (speed * cos(angle), speed * sin(angle))
        return Clod(kind, area, float(p.time[k]) + late, at, velocity, turning, deep, outline)

    def _plane(self, k: int) -> Point:
        """Speed (m/s) and direction (rad) of the earth before the face over column k."""
        p, s = self.passed, self.surface
        speed = float(p.speed[k])
        most = pi - s.friction_angle - s.steel_angle - 0.03
        rake = min(max(0.5 * pi - (self.loft - float(p.lean[k])), 0.1), most)
        beta, _ = easiest_plane(
            max(float(p.cut[k]), 1e-3), speed, rake, s.density, max(s.cohesion, 1.0), s.friction_angle,
            s.steel_angle, -1.0,
        )  # fmt: skip
        return speed * sin(rake) / sin(rake + beta), beta + float(p.heading[k])


def _area(line: list[Point]) -> float:
    """Area inside a closed line (m2)."""
    x, y = np.array(line).T
    return abs(0.5 * float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))))
