"""The ball's way in phrases: how it left, what it met, where it came down and where it ended."""

from bisect import bisect_right
from math import degrees, isnan

from game.text.phrase import Phrase
from game.text.quantity import decimal, plural
from physics.constants import YARD
from physics.course import Course
from physics.results import Outcome, Phase, Shot
from physics.shot import lie_of
from physics.surfaces import SAND, SURFACES
from physics.terrain import build_field, height_at

__all__ = ["BESIDE", "driven_along", "in_sand", "knocks_told", "landed_in_sand", "run_phrases", "spun_back"]

LOW_LAUNCH = 2.0  # degrees over the ground below which a ball is driven along it, assumed
BESIDE = 0.05  # m too little to tell
GROUNDED = Phase.BOUNCE + Phase.SLIDE + Phase.ROLL
LEVEL = 0.05  # slope below which it is the spin that brings a ball back, assumed

KNOCKS = {  # what a knock is called on the way; the rim and the wall of the hole are told by the ending
    "wall": "hit the wall", "lip": "caught the lip", "trunk": "hit the trunk", "branch": "hit a branch",
    "leaves": "went through the leaves", "stick": "hit the flagstick",
}  # fmt: skip


def in_sand(course: Course, x: float) -> bool:
    """Whether there is sand at x (m)."""
    g = course.ground
    i = min(max(bisect_right(g.x, x) - 1, 0), len(g.surfaces) - 1)
    return SURFACES[g.surfaces[i]].kind == SAND


def driven_along(shot: Shot) -> bool:
    """Whether the ball left along the ground: with no launch to speak of, or no flight."""
    if shot.launch is None:
        return False
    flat = degrees(shot.launch.angle - lie_of(shot.course)[2]) < LOW_LAUNCH
    return flat or abs(shot.run.carry) < BESIDE


def landed_in_sand(shot: Shot) -> bool:
    """Whether the first landing was in sand."""
    carry = shot.run.carry
    return not isnan(carry) and not driven_along(shot) and in_sand(shot.course, carry)


def knocks_told(shot: Shot) -> tuple[tuple[str, str], ...]:
    """What the ball met before and after it first came to ground, each kind once: (kind, "before" or
    "after")."""
    run = shot.run
    first = next((t for t, p in zip(run.t, run.phase, strict=True) if p in GROUNDED), run.t[-1])
    told: dict[str, str] = {}
    for knock in run.knocks:
        if knock.what in KNOCKS:
            told.setdefault(knock.what, "before" if knock.time < first else "after")
    return tuple(told.items())


def spun_back(shot: Shot) -> bool:
    """Whether the ball came back from its landing by its spin: over level ground, and nothing turned it."""
    run = shot.run
    if isnan(run.carry) or run.rest >= run.carry - BESIDE or knocks_told(shot):
        return False
    landing = next((i for i, p in enumerate(run.phase) if p == Phase.BOUNCE), -1)
    field = build_field(shot.course)
    fall = height_at(field, run.carry) - height_at(field, run.rest)
    return landing > 0 and run.spin[landing - 1] > 0.0 and abs(fall) < LEVEL * (run.carry - run.rest)


def run_phrases(shot: Shot, yards: bool) -> tuple[Phrase, ...]:
    """The run as one sentence; empty where the ball was not met."""
    if shot.launch is None:
        return ()
    told = _Told(shot, yards)
    parts = [told.start, *told.before, *told.landing, *told.after, *told.stop]
    last = len(parts) - 1
    out = []
    for i, part in enumerate(parts):
        link = "" if i == 0 else " and " if i == last and not part.linked else ", "
        out.append(Phrase(link + part.text, part.place))
    if told.ended_at_once:  # no length before it: the ending is the last of the parts
        out[1:] = [Phrase(f", {part.text}", part.place) for part in parts[1:]]
        return (*out, Phrase(told.ending.replace(", ", " and went ", 1), "hole"))
    return (*out, Phrase(told.ending, "hole"))


class _Told:
    """The pieces of the sentence."""

    def __init__(self, shot: Shot, yards: bool) -> None:
        self.shot, self.run = shot, shot.run
        self.scale, self.unit = (1.0 / YARD, "yd") if yards else (1.0, "m")
        self.driven = driven_along(shot)
        met = knocks_told(shot)
        self.before = [Phrase(KNOCKS[what], "flight") for what, when in met if when == "before"]
        self.after = [Phrase(KNOCKS[what], "roll") for what, when in met if when == "after"]

    def far(self, metres: float) -> str:
        return f"{decimal(metres * self.scale, 1)} {self.unit}"

    def out(self, x: float) -> str:
        """A place on the course seen from the ball's first one."""
        if abs(x) < BESIDE:
            return "where it lay"
        return f"{self.far(x)} out" if x > 0.0 else f"{self.far(-x)} behind its place"

    @property
    def start(self) -> Phrase:
        assert self.shot.launch is not None
        if self.driven:
            return Phrase("It was driven along the ground", "flight")
        angle = plural(decimal(degrees(self.shot.launch.angle)), "degree")
        return Phrase(f"It left at {angle}", "flight")

    @property
    def landing(self) -> list[Phrase]:
        carry = self.run.carry
        if self.driven or isnan(carry):
            return []
        sand = " in the sand" if landed_in_sand(self.shot) else ""
        return [Phrase(f"landed {self.out(carry)}{sand}", "landing")]

    @property
    def stop(self) -> list[Phrase]:
        """How far it went on from there, where that can be said in one length."""
        run = self.run
        if run.outcome is Outcome.LOST:
            return [Phrase("was still moving after two minutes", "roll")]
        if self.driven or isnan(run.carry) or run.carry < -BESIDE or self.after:
            return [Phrase(f"stopped {self.out(run.rest)}", "roll")] if self._stopped else []
        roll = run.rest - run.carry
        if abs(roll) < BESIDE:
            return [Phrase("stopped where it fell", "roll")] if self._stopped else []
        if roll > 0.0:
            return [Phrase(f"rolled {self.far(roll)}", "roll")]
        way = "spun" if spun_back(self.shot) else "came"
        return [Phrase(f"{way} back {self.far(-roll)}", "roll")]

    @property
    def _stopped(self) -> bool:
        return self.run.outcome in (Outcome.REST, Outcome.STUCK)

    @property
    def ended_at_once(self) -> bool:
        """Whether the ball went into hole or water, or out, with no roll told before."""
        return not self._stopped and self.run.outcome is not Outcome.LOST and not self.stop

    @property
    def ending(self) -> str:
        """Where it ended, with the full stop."""
        shot, run, hole = self.shot, self.run, self.shot.course.hole
        match run.outcome:
            case Outcome.HOLED:
                return ", into the hole."
            case Outcome.WATER:
                return ", into the water."
            case Outcome.OUT:
                return ", out of bounds."
            case Outcome.LOST:
                return "."
        sand = ", in the sand" if in_sand(shot.course, run.rest) and not landed_in_sand(shot) else ""
        if hole is None:
            return f"{sand}."
        past = run.rest - hole.x
        if abs(past) >= BESIDE:
            return f"{sand}, {self.far(abs(past))} {'past' if past > 0 else 'short of'} the hole."
        beside = self.far(abs(shot.lateral)) + " " if abs(shot.lateral) >= BESIDE else ""
        return f"{sand}, {beside}beside the hole."
