"""A made-up Shot for drawing only: a parabola, a bounce, a roll, an arc. Nothing here is physics."""

from dataclasses import replace
from math import cos, nan, radians, sin

import numpy as np

from physics.address import Motion, Setup
from physics.course import Course, Ground, Hole, Lip, OutOfBounds, Tree, Wall, Water
from physics.equipment import BAG
from physics.results import (
    Contact,
    Launch,
    Meeting,
    Outcome,
    Run,
    Shot,
    SoleTrace,
    Strike,
    SwingTrace,
    TurfAction,
)
from physics.spread import EXACT, Spread, Stray

__all__ = ["bunker", "level", "made_up", "missed", "parkland"]

R = 0.021335


def level() -> Course:
    """Fairway, fringe and green, with a gentle rise."""
    ground = Ground(
        (-6.0, 2.6, 3.6, 9.0, 16.0, 22.0), (0.0, 0.0, 0.03, 0.16, 0.24, 0.24),
        ("fairway", "fringe", "green", "green", "fringe"),
    )  # fmt: skip
    return Course(ground, hole=Hole(13.0), name="Harrow Fen, level green")


def parkland() -> Course:
    """Rough, water, sand, a wall, a tree and stakes."""
    ground = Ground(
        (-6.0, 1.5, 2.0, 4.5, 5.0, 6.4, 7.2, 8.0, 14.0, 19.0, 26.0),
        (0.0, 0.0, -0.5, -0.5, 0.1, 0.1, -0.35, 0.2, 0.35, 0.1, 0.1),
        ("rough", "rough", "rough", "rough", "fairway", "sand", "sand", "green", "fringe", "rough"),
    )  # fmt: skip
    hazards = (Water(1.7, 4.8, -0.15), Tree(3.0, 3.2, 1.3), Wall(17.0, 0.8), OutOfBounds(18.5))
    return Course(ground, hole=Hole(11.5), hazards=hazards, wind=3.0, name="Harrow Fen, over the dyke")


def bunker() -> Course:
    """Sand under a turf lip, the green above it."""
    ground = Ground(
        (-5.0, -1.2, -0.8, 1.85, 1.86, 6.0, 14.0, 20.0), (0.5, 0.45, 0.0, 0.0, 0.6, 0.75, 0.7, 0.7),
        ("rough", "sand", "sand", "sand", "fringe", "green", "fringe"),
    )  # fmt: skip
    return Course(ground, hole=Hole(8.0), hazards=(Lip(1.85, 0.6),), name="Harrow Fen, greenside bunker")


def _swing(lean: float) -> SwingTrace:
    t = np.linspace(-0.42, 0.38, 161)
    arm = (
        np.where(t < 0, 0.78, 0.72) * np.sin(t / np.where(t < 0, 0.42, 0.38) * 1.35) * np.sign(t) * np.sign(t)
    )
    club = -lean + 1.15 * arm
    hub_x, hub_y, sine, reach, length = 0.05, 0.0, sin(radians(64)), 0.62, 0.825
    hub_y = sine * (reach * cos(0.0) + length * cos(lean)) - 0.002
    hub_x = length * sin(lean) - 0.012
    hands_x, hands_y = hub_x + reach * np.sin(arm), hub_y - sine * reach * np.cos(arm)
    head_x, head_y = hands_x + length * np.sin(club), hands_y - sine * length * np.cos(club)

    def trace(v: object) -> tuple[float, ...]:
        return tuple(np.broadcast_to(np.asarray(v, dtype=float), t.shape).tolist())

    return SwingTrace(
        trace(t), (trace(hub_x), trace(hub_y)), (trace(hands_x), trace(hands_y)),
        (trace(head_x), trace(head_y)),
        trace(-club), trace(6.5 * np.cos(t * 3)), low_point=0.035, flat_spot=0.115, attack=radians(-3),
        promised=radians(5), by_motion=lean, delivered=lean,
    )  # fmt: skip


def _sole(lean: float, depth: float) -> SoleTrace:
    t = np.linspace(-0.03, 0.035, 131)
    x = -0.012 + 6.5 * t
    y = -depth * np.exp(-(((x - 0.03) / 0.055) ** 2)) + 0.55 * (x - 0.03) ** 2 + 0.001
    row = np.clip(np.sin(np.linspace(0.2, 3.0, 14)), 0, 1)
    push = np.clip(-y / max(depth, 1e-4), 0, 1)
    grid = tuple(tuple((2e5 * p * row).tolist()) for p in push)
    leans = tuple((lean - 1.2 * (x - 0.0)).tolist())
    flat = tuple(np.full_like(t, 6.3).tolist())
    return SoleTrace(tuple(t.tolist()), (tuple(x.tolist()), tuple(y.tolist())), leans, flat, grid, flat, flat)


def _run(course: Course, carry: float, rest: float, apex: float) -> Run:
    def low(x: float) -> float:
        return float(np.interp(x, course.ground.x, course.ground.y)) + R

    drop = low(carry) - low(0)
    xs = np.linspace(0, carry, 60)
    ys = low(0) + drop * xs / carry + 4 * apex * xs / carry * (1 - xs / carry)
    hop = carry + 0.14 * (rest - carry)
    hx = np.linspace(carry, hop, 20)
    hy = [low(x) + 0.12 * apex * 4 * u * (1 - u) for x, u in zip(hx, np.linspace(0, 1, 20), strict=True)]
    rx = hop + (rest - hop) * (1 - (1 - np.linspace(0, 1, 50)) ** 2)
    x = np.concatenate([xs, hx, rx])
    y = np.concatenate([ys, hy, [low(v) for v in rx]])
    t = np.concatenate([np.linspace(0, 0.86, 60), np.linspace(0.86, 1.15, 20), np.linspace(1.16, 4.0, 50)])
    phase = "f" * 59 + "b" + "f" * 18 + "bs" + "r" * 49 + "."
    zero = tuple(np.zeros(len(x)).tolist())
    return Run(
        tuple(t.tolist()), tuple(x.tolist()), tuple(y.tolist()), zero, zero, zero, phase, carry=carry,
        landing_angle=radians(34), landing_speed=6.0, apex=apex, rest=rest, outcome=Outcome.REST,
    )  # fmt: skip


def made_up(
    course: Course | None = None, carry: float = 5.4, rest: float = 12.1, apex: float = 0.95,
    lean: float = radians(9), depth: float = 0.007, club: str = "SW", spread: Spread = EXACT,
) -> Shot:  # fmt: skip
    """A shot that could look like this."""
    course = course or level()
    sole = _sole(lean, depth)
    x, y = np.array(sole.edge[0]), np.array(sole.edge[1])
    divot = (tuple(x.tolist()), tuple(np.minimum(y, 0.0).tolist()))
    strike = Strike(
        Contact.SOLID, TurfAction.SKID, False, Meeting.FACE, True, True, 0.0, 0.0, 0.015, 0.004, depth,
        0.09, 6.5, 6.4, 5.1, lean, BAG[club].loft - lean, BAG[club].bounce - lean, radians(-4), 0.002,
        radians(50), 0.0, 0.0, 0.0, divot, sole,
    )  # fmt: skip
    return Shot(
        course, Setup(club=BAG[club], ball_position=-0.03, shaft_lean=radians(5)), Motion(), spread, 1,
        Stray(), _swing(lean), strike,
        Launch(7.6, radians(33), 420.0, 0.0), _run(course, carry, rest, apex),
    )  # fmt: skip


def missed() -> Shot:
    """The club passed over the ball."""
    shot = made_up()
    strike = replace(
        shot.strike, contact=Contact.MISSED, turf=TurfAction.NONE, time=nan, depth=0.0, divot=((), ())
    )
    run = Run((0.0,), (0.0,), (R,), (0.0,), (0.0,), (0.0,), ".", 0.0, 0.0, 0.0, 0.0, 0.0, Outcome.MISSED)
    return replace(shot, strike=strike, launch=None, run=run)
