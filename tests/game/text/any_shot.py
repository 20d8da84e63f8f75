"""Random legal shots on every surface, with every hazard and every ending, the same for the same number."""

from math import nan

import numpy as np

from physics.address import CONTROLS, Motion, Setup
from physics.course import Course, Ground, Hazard, Hole, Lie, Lip, OutOfBounds, Tree, Wall, Water
from physics.equipment import BAG
from physics.results import Shot
from physics.shot import play
from physics.spread import PLAYERS
from physics.surfaces import SURFACES

__all__ = ["any_course", "any_shot"]

PLAIN_SHARE = 0.6  # of shots near a plain stroke; the others take every control anywhere
NEAR = 0.12  # of a control's range that a plain stroke may be off


def _hazard(rng: np.random.Generator) -> Hazard:
    x = float(rng.uniform(0.8, 12.0))
    match rng.integers(5):
        case 0:
            return Water(x, x + float(rng.uniform(0.5, 5.0)), float(rng.choice([0.0, 0.02])))
        case 1:
            return Wall(x, float(rng.uniform(0.1, 2.0)))
        case 2:
            return Lip(x, float(rng.uniform(0.05, 0.6)), float(rng.uniform(0.0, 0.2)))
        case 3:
            trunk = float(rng.uniform(0.8, 4.0))
            return Tree(x, trunk, float(rng.uniform(0.4, trunk)), float(rng.choice([0.0, 0.5, 0.9])))
        case _:
            return OutOfBounds(x) if rng.random() < 0.8 else OutOfBounds(-float(rng.uniform(0.2, 2.0)), -1)


def any_course(rng: np.random.Generator, surface: str) -> Course:
    """A ball on that surface; slopes, bunkers, hazards, hole and flagstick as it comes."""
    far = float(rng.uniform(1.5, 15.0))
    edge = float(rng.uniform(1.0, 6.0))
    beyond = str(rng.choice(["fringe", "fairway", "rough", "sand", "green"]))
    rise = float(rng.choice([0.0, 0.0, rng.uniform(-0.5, 0.5)]))
    ground = Ground((-9.0, 1.0, 1.0 + edge, 60.0), (0.0, 0.0, rise, rise), (surface, beyond, "green"))
    hole = None if rng.random() < 0.2 else Hole(far, bool(rng.random() < 0.7))
    hazards = tuple(_hazard(rng) for _ in range(int(rng.choice([0, 0, 1, 2]))))
    lift = float(rng.choice([0.0, 0.0, rng.uniform(-0.02, 0.04)]))
    return Course(ground, Lie(None, lift), hole, hazards)


def any_shot(number: int, surface: str = "") -> Shot:
    """A shot of any club, control and player; half of them near a plain stroke. The surface, if none is
    given, goes round with the number."""
    rng = np.random.default_rng([20261126, number])
    name = surface or sorted(SURFACES)[number % len(SURFACES)]
    course = any_course(rng, name)
    plain = rng.random() < PLAIN_SHARE
    value = {}
    for c in CONTROLS.values():
        usual = getattr(Setup() if c.owner == "setup" else Motion(), c.name, nan)
        usual = SURFACES[name].usual_depth if c.name == "depth" else usual
        away = rng.uniform(-NEAR, NEAR) * (c.high - c.low)
        value[c.name] = float(np.clip(usual + away, c.low, c.high) if plain else rng.uniform(c.low, c.high))
    setup, motion = (
        {n: v for n, v in value.items() if CONTROLS[n].owner == owner} for owner in ("setup", "motion")
    )
    player = PLAYERS[str(rng.choice(sorted(PLAYERS)))]
    club = BAG[str(rng.choice(sorted(BAG)))]
    return play(course, Setup(club, **setup), Motion(**motion), player, number)
