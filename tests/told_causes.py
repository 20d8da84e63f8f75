"""Told causes against exhaustive replay, over strokes whose fault is known because it was put there.

A set-up is made that agrees with itself and reaches its hole; one or two controls are then moved well away.
The truth is found without `physics.agreement` and `physics.removal`: the values before they were moved are
known, and each is put back alone over many strokes of another seed. Only what matched means is taken from
there: the line from low runner to high soft shot, and a lean that comes back. Of a stroke that strayed the
truth is the recorded shot played again, whole, with each part of its stray left out.
"""

from dataclasses import astuple, dataclass, fields, replace
from math import hypot, radians, sqrt

import numpy as np

from physics.address import CONTROLS, Intention
from physics.agreement import lean_mismatch
from physics.cloud import cloud
from physics.course import Course, Ground, Hole
from physics.putting import PUTTERS, lost_ball_strokes, putting_lie, putts_table
from physics.putting import expected_strokes as expected
from physics.removal import Removal, set_removals, stray_removals, told_cause
from physics.repair import Kind, Repair, search_repairs
from physics.results import Outcome, Shot
from physics.shot import lie_of, replay
from physics.spread import PLAYERS, Spread, Stray, draw_strays

__all__ = ["Misset", "Strayed", "missets", "strayed"]

EXHAUSTIVE, OTHER_SEED = 600, 90_001  # strokes of the long replay, and their seed
MARGIN, ERRORS = 0.05, 3.0  # expected strokes and standard errors by which a clear cause leads the next
WORTH_MENDING = 0.10  # expected strokes a mis-set must cost for a repair to be owed
KINDS = (  # low runner, standard chip, high soft: ball (m), lean (rad), release, follow-through, stance, club
    (-0.07, radians(11), 0.7, 1.0, 0.10, ("8i", "9i", "PW")),
    (-0.02, radians(5), 1.0, 0.6, 0.17, ("PW", "GW", "SW")),
    (0.04, radians(-2), 1.4, 0.2, 0.28, ("SW", "SW-low", "LW")),
)
# how far a control is moved when it is set wrong: least and most, SI; of the swing length a factor
AWAY: dict[str, tuple[float, float]] = {
    "ball_position": (0.06, 0.10), "shaft_lean": (radians(9), radians(15)), "release": (0.5, 0.9),
    "follow_through": (0.5, 0.9), "face_open": (radians(22), radians(35)), "lead_weight": (0.12, 0.20),
    "swing_length": (1.6, 2.3), "lean_change": (radians(6), radians(12)), "depth": (6e-3, 11e-3),
}  # fmt: skip


@dataclass(frozen=True)
class Misset:
    """One mis-set stroke: what was moved, what was told, what the long replay says. `gains` and `errors`
    are of putting each moved control back, in the order of `moved`; `lead` of the best over the next."""

    moved: tuple[str, ...]
    told: Removal | None
    repair: Repair | None
    gains: tuple[float, ...]
    errors: tuple[float, ...]
    lead: float
    lead_error: float

    @property
    def truth(self) -> str:
        return self.moved[int(np.argmax(self.gains))]

    @property
    def clear(self) -> bool:
        """Whether one cause stands out."""
        best = max(self.gains)
        error = self.errors[int(np.argmax(self.gains))]
        return best >= max(MARGIN, ERRORS * error) and self.lead >= max(MARGIN, ERRORS * self.lead_error)

    @property
    def agrees(self) -> bool:
        return self.told is not None and self.told.component == self.truth

    @property
    def owed(self) -> bool:
        """Whether a repair is owed: one control was moved and it costs."""
        return len(self.moved) == 1 and self.gains[0] >= max(WORTH_MENDING, ERRORS * self.errors[0])

    @property
    def mends(self) -> bool:
        """Whether the repair is of the control that was moved."""
        r = self.repair
        return r is not None and r.control == self.moved[0] and r.kind is Kind.MENDS


def _green(hole: float, ground: str) -> Course:
    return Course(Ground((-9.0, 1.0, 60.0), (0.0, 0.0, 0.0), (ground, "green")), hole=Hole(hole))


def _matched(rng: np.random.Generator) -> Intention:
    """A set-up that agrees with itself, somewhere between the kinds of shot, each part a little its own."""
    place = rng.uniform(0.0, 2.0)
    i = min(int(place), 1)
    ball, lean, release, follow, stance = (
        a + (b - a) * min(max(place - i + rng.uniform(-0.12, 0.12), 0.0), 1.0)
        for a, b in zip(KINDS[i][:5], KINDS[i + 1][:5], strict=True)
    )
    made = Intention().with_club(str(rng.choice(KINDS[round(place)][5]))).with_values({
        "ball_position": ball, "shaft_lean": lean, "release": release, "follow_through": follow,
        "stance_width": stance, "lead_weight": rng.uniform(0.59, 0.65),
    })  # fmt: skip
    for _ in range(20):
        made = made.with_value("shaft_lean", made.setup.shaft_lean + lean_mismatch(made))
    return made.with_value("shaft_lean", made.setup.shaft_lean + radians(rng.uniform(-0.7, 0.7)))


def _costs(course: Course, stroke: Intention, spread: Spread, seed: int, count: int) -> np.ndarray:
    return cloud(course, stroke.setup, stroke.motion, spread, seed, count).strokes


def _reaching(course: Course, stroke: Intention, spread: Spread) -> Intention:
    """With the swing length that does best, of many."""
    swings = np.radians(np.linspace(20, 110, 25))
    tried = [stroke.with_value("swing_length", float(s)) for s in swings]
    return min(tried, key=lambda t: float(_costs(course, t, spread, 17, 30).mean()))


def _away(rng: np.random.Generator, stroke: Intention, name: str) -> float:
    """A value well away, within the limits of the control."""
    control, now = CONTROLS[name], stroke.value(name)
    far = rng.uniform(*AWAY[name])
    ways = (now * far, now / far) if name == "swing_length" else (now + far, now - far)
    ways = tuple(v for v in ways if control.low <= v <= control.high)
    if not ways:  # no room for as much: the further end
        return max((control.low, control.high), key=lambda v: abs(v - now))
    return float(rng.choice(ways))


def misset(seed: int) -> Misset:
    """One mis-set stroke of that seed."""
    rng = np.random.default_rng([seed, 20261127])
    course = _green(rng.uniform(5.0, 14.0), str(rng.choice(["fairway", "tight", "soft", "fringe"])))
    spread = PLAYERS[str(rng.choice(["steady", "club"]))]
    right = _reaching(course, _matched(rng).with_value("depth", lie_of(course)[0].usual_depth), spread)
    moved = tuple(str(n) for n in rng.choice(list(AWAY), int(rng.integers(1, 3)), replace=False))
    wrong = right.with_values({n: _away(rng, right, n) for n in moved})
    base = _costs(course, wrong, spread, OTHER_SEED, EXHAUSTIVE)
    back = [wrong.with_value(n, right.value(n)) for n in moved]
    more = [base - _costs(course, b, spread, OTHER_SEED, EXHAUSTIVE) for b in back]
    root = sqrt(EXHAUSTIVE)
    gains, errors = [float(m.mean()) for m in more], [float(m.std()) / root for m in more]
    lead, lead_error = gains[0], errors[0]
    if len(moved) == 2:
        lead, lead_error = abs(gains[0] - gains[1]), float((more[0] - more[1]).std()) / root
    told = told_cause(set_removals(course, wrong, spread, seed))
    *_, last = search_repairs(course, wrong.setup, wrong.motion, spread, seed) if len(moved) == 1 else [None]
    repair = last.found[0] if last and last.found else None
    return Misset(moved, told, repair, tuple(gains), tuple(errors), lead, lead_error)


def missets(count: int, first: int = 0) -> list[Misset]:
    """So many mis-set strokes."""
    return [misset(first + i) for i in range(count)]


@dataclass(frozen=True)
class Strayed:
    """One stroke that strayed: what was told, and what each part left out recovers in the recorded shot."""

    told: Removal | None
    gains: dict[str, float]

    @property
    def truth(self) -> str:
        return max(self.gains, key=lambda n: self.gains[n])

    @property
    def clear(self) -> bool:
        order = sorted(self.gains.values())
        return order[-1] >= MARGIN and order[-1] - order[-2] >= MARGIN

    @property
    def agrees(self) -> bool:
        return self.told is not None and self.told.component == self.truth


def _cost(shot: Shot, hole: Hole, putter: str) -> float:
    """Expected strokes of a recorded shot, counted by hand on a course of fairway and green."""
    tables = (putts_table(PUTTERS[putter]), putts_table(PUTTERS["tour"]))
    surfaces = shot.course.ground.surfaces
    if shot.run.outcome is Outcome.HOLED:
        return 1.0
    if shot.run.outcome not in (Outcome.REST, Outcome.MISSED, Outcome.STUCK):
        return 1.0 + float(lost_ball_strokes(hole.x, putting_lie(surfaces[0]), *tables))
    lie = putting_lie(surfaces[0 if shot.run.rest < 1.0 else 1])
    return 1.0 + float(expected(hypot(hole.x - shot.run.rest, shot.lateral), lie, *tables))


def strayed(count: int, first: int = 0) -> list[Strayed]:
    """So many strokes that strayed, of matched set-ups that reach their hole."""
    out = []
    for i in range(count):
        rng = np.random.default_rng([first + i, 20261128])
        course = _green(rng.uniform(5.0, 14.0), str(rng.choice(["fairway", "tight", "soft", "fringe"])))
        spread = PLAYERS[str(rng.choice(["club", "beginner"]))]
        stroke = _reaching(course, _matched(rng).with_value("depth", lie_of(course)[0].usual_depth), spread)
        row = draw_strays(spread, first + i, 1)[0]
        stray = Stray(*(float(v) for v in row))
        told = told_cause(stray_removals(course, stroke, stray, spread, first + i))
        costs = {}
        for k, f in enumerate((None, *fields(Stray))):
            rows = row.copy()
            if f is not None:
                rows[k - 1] = astuple(Stray())[k - 1]
            # what was not played runs past the hole: a straight rush into the flagstick is no merit
            assert course.hole is not None
            ground = replace(course, hole=None) if f else course
            shot = replay(ground, stroke.setup, stroke.motion, spread, first + i, rows)
            costs[f.name if f else ""] = _cost(shot, course.hole, spread.putter)
        base = costs.pop("")
        out.append(Strayed(told, {n: base - c for n, c in costs.items()}))
    return out
