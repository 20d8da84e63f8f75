"""Where golfer and club are: at address, as intended at the ball, and at any time of a Shot. No drawing."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import atan2, cos, hypot, pi, sin
from typing import Any

import numpy as np
from numpy.typing import NDArray

from physics.address import Motion, Setup
from physics.compiled import as_record
from physics.corridor import bench, stroke_of
from physics.face import open_face
from physics.head import sole_elements
from physics.results import Shot
from physics.swing import REACH, edge, links, plane_angle, reach

__all__ = [
    "BACKSWING", "Intent", "Stance", "Trail", "between", "head_at", "intend", "read", "stance_at", "table",
]  # fmt: skip

Point = tuple[float, float]
Floats = NDArray[np.float64]
Trail = tuple[tuple[float, ...], tuple[float, ...]]
BACKSWING = 0.7  # s from address to the top, only drawn, assumed
WIDE = 0.30  # m either side of the ball for which the intended way of the edge is kept
SAMPLES = 301
_TABLES: dict[int, tuple[Any, Floats]] = {}
FLAT = 2.0e-3  # m over the lowest edge, the flat spot of the physics


@dataclass(frozen=True)
class Stance:
    """Hub, wrists, leading edge (m) and shaft lean (rad), face-on."""

    hub: Point
    hands: Point
    edge: Point
    lean: float

    @property
    def tilt(self) -> float:
        """Lean of the line from edge to wrists, all round the circle (rad)."""
        return atan2(self.hands[0] - self.edge[0], self.hands[1] - self.edge[1])


@dataclass(frozen=True)
class Intent:
    """What a setting means before it is played: address, and the intended club near the ball."""

    setup: Setup
    motion: Motion
    address: Stance
    ball: Stance  # as intended at the ball
    trail: Trail  # x, y of the intended leading edge
    low_point: float  # m from the ball
    flat_spot: float  # m
    loft: float  # at the ball, rad
    bounce: float
    promised: float  # shaft lean of the address, rad
    delivered: float  # shaft lean that motion and habit bring to the ball


@lru_cache(32)
def intend(setup: Setup, motion: Motion) -> Intent:
    """The intended pose at the ball and the way of the edge near it; well under a millisecond once the
    laws are compiled."""
    face = open_face(setup.club, setup.face_open)
    elements = bench().elements
    club = setup.club
    sole_elements(face.bounce, club.sole_width, club.camber, club.edge_radius, elements)
    link = links(as_record(club), stroke_of(setup, motion), face.loft, elements)
    lean = link.delivered
    hub = (link.hub_x, link.hub_y)
    r = reach(link, link.arm_ball)
    hands = (hub[0] + r * sin(link.arm_ball), hub[1] - link.sine * r * cos(link.arm_ball))
    x, y, _ = edge(link, link.arm_ball)
    arms = link.arm_ball + np.linspace(-0.5, 0.5, SAMPLES)
    points = np.array([edge(link, arm) for arm in arms])
    lowest = int(points[:, 1].argmin())
    flat = points[points[:, 1] < points[lowest, 1] + FLAT, 0]
    near = points[np.abs(points[:, 0]) < WIDE]
    return Intent(
        setup, motion,
        _address(link.hub_x, link.hub_y + link.hub_drop, link.sine, link.arm_address, link.length, setup),
        Stance(hub, hands, (x, y), lean),
        (tuple(near[:, 0].tolist()), tuple(near[:, 1].tolist())),
        float(points[lowest, 0]), float(flat.max() - flat.min()), face.loft - lean, face.bounce - lean,
        link.promised, lean,
    )  # fmt: skip


def _address(hub_x: float, hub_y: float, sine: float, arm: float, length: float, setup: Setup) -> Stance:
    club = plane_angle(setup.shaft_lean, sine)
    hands = (hub_x + REACH * sin(arm), hub_y - sine * REACH * cos(arm))
    foot = (hands[0] + length * sin(club), hands[1] - sine * length * cos(club))
    return Stance((hub_x, hub_y), hands, foot, setup.shaft_lean)


def stance_at(shot: Shot, address: Stance, time: float) -> Stance:
    """Golfer and club at a time (s) of the shot; before the top they swing back from the address."""
    swing = shot.swing
    if time < swing.t[0]:
        share = min(max((time - swing.t[0] + BACKSWING) / BACKSWING, 0.0), 1.0)
        return _between(address, _sampled(shot, swing.t[0]), share * share * (3.0 - 2.0 * share))
    return _sampled(shot, time)


def table(owner: Any, rows: Callable[[], tuple[Sequence[float], ...]]) -> Floats:
    """The traces of a frozen owner as one array, first row time; the last few are kept, since turning
    tuples into arrays every frame costs more than reading them."""
    found = _TABLES.get(id(owner))
    if found is None or found[0] is not owner:
        if len(_TABLES) >= 24:
            _TABLES.pop(next(iter(_TABLES)))
        found = _TABLES[id(owner)] = (owner, np.array(rows(), dtype=np.float64))
    return found[1]


def read(values: Floats, time: float) -> list[float]:
    """Every row but the first at a time, on straight lines between samples and held beyond the ends."""
    t = values[0]
    k = int(t.searchsorted(time, side="right"))
    if k <= 0 or k >= len(t):
        return _floats(values[1:, 0 if k <= 0 else -1])
    gap = t[k] - t[k - 1]
    share = (time - t[k - 1]) / gap if gap > 0.0 else 1.0
    before = values[1:, k - 1]
    return _floats(before + share * (values[1:, k] - before))


def _floats(row: Floats) -> list[float]:
    out: list[float] = row.tolist()
    return out


def _swing(shot: Shot) -> Floats:
    s = shot.swing
    return table(s, lambda: (s.t, *s.hub, *s.hands, *s.head, s.lean))


def _sampled(shot: Shot, time: float) -> Stance:
    at = read(_swing(shot), time)
    return Stance((at[0], at[1]), (at[2], at[3]), (at[4], at[5]), at[6])


def _turned(a: Point, b: Point, c: Point, d: Point, share: float) -> Point:
    """Limb from a to b on its way to the limb from c to d: angle and length in proportion."""
    first, last = (b[0] - a[0], a[1] - b[1]), (d[0] - c[0], c[1] - d[1])
    angle = atan2(*first) + share * (atan2(*last) - atan2(*first))
    long = hypot(*first) + share * (hypot(*last) - hypot(*first))
    return long * sin(angle), -long * cos(angle)


def _between(a: Stance, b: Stance, share: float) -> Stance:
    hub = (a.hub[0] + share * (b.hub[0] - a.hub[0]), a.hub[1] + share * (b.hub[1] - a.hub[1]))
    arm = _turned(a.hub, a.hands, b.hub, b.hands, share)
    club = _turned(a.hands, a.edge, b.hands, b.edge, share)
    hands = (hub[0] + arm[0], hub[1] + arm[1])
    return Stance(
        hub, hands, (hands[0] + club[0], hands[1] + club[1]), a.lean + share * (b.lean - a.lean)
    )  # fmt: skip


def between(finish: Stance, address: Stance, share: float, rise: float = 0.0) -> Stance:
    """The finish let down by a share of its way back to the address, the hub `rise` (m) higher.

    Arms and club go back the way they came: one that hangs over the head has come round by the target.
    """

    def limb(a: Point, b: Point, c: Point, d: Point) -> Point:
        first, last = (b[0] - a[0], a[1] - b[1]), (d[0] - c[0], c[1] - d[1])
        start = atan2(*first)
        start += 2.0 * pi if start < -0.5 * pi else 0.0
        angle = start + share * (atan2(*last) - start)
        long = hypot(*first) + share * (hypot(*last) - hypot(*first))
        return long * sin(angle), -long * cos(angle)

    arm = limb(finish.hub, finish.hands, address.hub, address.hands)
    club = limb(finish.hands, finish.edge, address.hands, address.edge)
    hub = (finish.hub[0], finish.hub[1] + rise)
    hands = (hub[0] + arm[0], hub[1] + arm[1])
    return Stance(hub, hands, (hands[0] + club[0], hands[1] + club[1]), finish.lean)


def head_at(shot: Shot, time: float) -> tuple[float, float, float]:
    """Leading edge x, y (m) and lean (rad) as they really were; outside the strike the intended way,
    shifted so that it joins."""
    sole = shot.strike.sole
    real = table(sole, lambda: (sole.t, *sole.edge, sole.lean)) if sole.t else None
    if real is not None and sole.t[0] <= time <= sole.t[-1]:
        x, y, lean = read(real, time)
        return x, y, lean
    intended = read(_swing(shot), time)[4:]
    if real is None:
        return intended[0], intended[1], intended[2]
    joint = sole.t[0] if time < sole.t[0] else sole.t[-1]
    fade = max(1.0 - abs(time - joint) / 0.1, 0.0)  # s over which the two ways meet, only drawn
    off = zip(read(real, joint), read(_swing(shot), joint)[4:], strict=True)
    x, y, lean = (at + fade * (a - b) for at, (a, b) in zip(intended, off, strict=True))
    return x, y, lean
