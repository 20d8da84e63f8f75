"""When a shot sounds, how, and in which words: a score read from the Shot, and its player.

A sound never carries anything alone: every cue has its caption, and a machine without a loudspeaker
shows the same captions.
"""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from math import hypot, isfinite

import numpy as np
import pygame

from game.sound.synth import RECIPES
from game.text.strike_facts import after_ball, sole_bore
from physics.constants import GRAVITY
from physics.course import Course, Lip, Tree, Wall
from physics.equipment import BALL, FLAGSTICK, HOLE_RADIUS
from physics.results import Contact, Meeting, Outcome, Phase, Run, Shot, Strike, TurfAction
from physics.surfaces import MAT, SAND, SURFACES, Surface

__all__ = ["Cue", "Player", "caption_at", "due", "score"]

FAINT = 0.3  # m/s of sudden change of speed too weak to hear, assumed
LOUD = 8.0  # m/s of it at full loudness, assumed
FAST = 12.0  # m/s of head speed at full loudness, assumed: a full short pitch
DEEP = 0.020  # m of ground at full loudness, assumed
STICK_REACH = BALL.radius + FLAGSTICK.radius + 0.002  # m, and 2 mm for the way within one sample, assumed
ROLL_LEAST, ROLL_MOST = 0.4, 3.0  # s, shortest roll worth a sound and longest sound made
RUSTLE, ROLLS = 0.4, 0.3  # loudness of leaves and of a rolling ball, assumed
HOLD = 1.6  # s a caption stays, assumed

ON_GROUND = Phase.SLIDE + Phase.ROLL


@dataclass(frozen=True)
class Cue:
    """One sound: time (s) on the shot's time line, name of its recipe, gain and tone 0..1, plain words."""

    time: float
    name: str
    gain: float
    caption: str
    tone: float = 0.5


def _share(value: float, most: float) -> float:
    """The value over the most, kept in 0..1."""
    return min(max(value / most, 0.0), 1.0)


def _ground(course: Course, x: float) -> tuple[Surface, float]:
    """Surface and height (m) of the ground at x; beyond the ends, those of the end."""
    g = course.ground
    i = min(max(bisect_right(g.x, x) - 1, 0), len(g.surfaces) - 1)
    return SURFACES[g.surfaces[i]], float(np.interp(x, g.x, g.y))


# ---- the strike


def _ball_words(strike: Strike, surface: Surface) -> tuple[str, str]:
    """Recipe and words for club on ball; empty where the turf is all one hears."""
    if strike.contact is Contact.MISSED:
        return "swish", "swish: the club missed the ball"
    if strike.contact is Contact.THIN:
        if strike.met is not Meeting.FACE:
            return "thin", "sharp tick: the leading edge met the ball"
        if strike.struck_gap < 0.0:
            return "crisp", "dull click: the ball came off weak"
        return "thin", "sharp tick: the ball came off hot"
    if strike.contact is Contact.TOPPED:
        return "thin", "sharp tick: the club met the top of the ball"
    sandy, silent = surface.kind == SAND, strike.turf is TurfAction.NONE
    if strike.contact is Contact.FAT:  # else the ground is heard
        words = "dull brush: sand slowed the club" if sandy else "dull brush: grass slowed the club"
        return ("brush", words) if silent else ("", "")
    if strike.contact is Contact.SPLASHED:
        heard = silent or not sandy
        return ("sand", "burst of sand: the sand carried the ball") if heard else ("", "")
    if strike.contact is Contact.TWICE:
        return "double", "two quick clicks"
    if strike.turf in (TurfAction.NONE, TurfAction.DIG) or surface.kind == SAND:
        return "crisp", "crisp click"
    first = "ball first, then " if after_ball(strike) else ""
    return "crisp", f"crisp click: {first}{_brushed(strike, surface)}"


def _brushed(strike: Strike, surface: Surface) -> str:
    """What the club did on grass or mat without digging."""
    ground = "mat" if surface.kind == MAT else "grass"
    if not sole_bore(strike):
        return f"the club scraped the {ground}"
    verb = "slapped" if surface.kind == MAT else "brushed" if strike.turf is TurfAction.BRUSH else "slid over"
    return f"the sole {verb} the {ground}"


def _turf_words(strike: Strike, surface: Surface, stuck: bool) -> tuple[str, str]:
    """Recipe and words for club on ground; empty where it is not heard apart from the ball."""
    if strike.turf is TurfAction.NONE:
        return "", ""
    if surface.kind == SAND:
        told = {
            Contact.FAT: ": too much sand before the ball", Contact.SPLASHED: ": the sand carried the ball",
        }.get(strike.contact, "")  # fmt: skip
        return "sand", f"burst of sand{told}"
    ground = "mat" if surface.kind == MAT else "turf"
    if stuck:
        return "dig", f"dull thud: the club stuck in the {ground}"
    if strike.turf is TurfAction.DIG:
        when = " before the ball" if strike.lead > 0.0 else " after the ball" if after_ball(strike) else ""
        return "dig", f"dull thud: the club dug in{when if strike.contact is not Contact.MISSED else ''}"
    if strike.contact is Contact.FAT:
        return "dig", f"dull thud: {ground} before the ball"
    if strike.contact is Contact.MISSED:
        return "brush", f"soft brush: the club slid over the {ground}"
    return "", ""


def _turf_time(strike: Strike, ball: float) -> float:
    """When the ground is heard: first touch if before the ball, else the lowest edge."""
    if strike.lead > 0.0 and strike.speed_before > 0.0:
        return ball - strike.lead / strike.speed_before
    if not strike.sole.t:
        return ball
    lowest = strike.sole.t[int(np.argmin(strike.sole.edge[1]))]
    return lowest if strike.contact is Contact.MISSED else max(ball, lowest)


def _strike_cues(shot: Shot) -> Iterator[Cue]:
    strike, lie = shot.strike, shot.course.lie.surface
    surface = SURFACES[lie] if lie else _ground(shot.course, 0.0)[0]
    ball = strike.time if isfinite(strike.time) else 0.0
    name, words = _ball_words(strike, surface)
    double = strike.double_hit or strike.contact is Contact.TWICE
    twice = "; the club touched the ball twice" if double else ""
    met = strike.contact is not Contact.MISSED
    stuck = shot.run.outcome is Outcome.STUCK
    hard = _share(strike.speed_at_ball if met else strike.speed_before, FAST)
    deep = _share(strike.depth, DEEP)
    if name and not (stuck and not met):
        yield Cue(ball, name, 0.35 + 0.65 * hard, words + twice, hard)
        twice = ""
    name, words = _turf_words(strike, surface, stuck)
    if name:
        yield Cue(_turf_time(strike, ball), name, 0.4 + 0.6 * deep, words + twice, deep)


# ---- the run


def _jolt(run: Run, i: int) -> tuple[float, float]:
    """Sudden change of velocity (m/s; along x, up) between samples i - 1 and i: gravity taken off."""
    fallen = GRAVITY * (run.t[i] - run.t[i - 1])
    return run.vx[i] - run.vx[i - 1], run.vy[i] - run.vy[i - 1] + fallen


def _thump(course: Course, run: Run, i: int, jolt: float) -> Cue:
    """The ball comes down on ground."""
    surface, _ = _ground(course, run.x[i])
    loud = _share(jolt, LOUD)
    if surface.kind == SAND:
        return Cue(run.t[i], "sand", 0.5 * loud, f"soft puff: the ball landed in {surface.label}", 0.0)
    firm = _share(surface.bounce * course.firmness, 1.5)
    return Cue(run.t[i], "landing", loud, f"soft thump: the ball landed on {surface.label}", firm)


def _knock(course: Course, run: Run, i: int, along: float, up: float) -> Cue | None:
    """What a rigid contact met, by place: hole and flagstick, else the nearest thing standing there."""
    jolt, x, y = hypot(along, up), run.x[i], run.y[i]
    loud = _share(jolt, LOUD)
    hole, met = course.hole, {knock.what for knock in run.knocks}
    if hole and abs(x - hole.x) < HOLE_RADIUS + BALL.radius and abs(along) > abs(up):
        if "stick" in met and abs(x - hole.x) < STICK_REACH:
            return Cue(run.t[i], "stick", 0.3 + 0.7 * loud, "clack: the ball hit the flagstick", loud)
        return Cue(run.t[i], "landing", loud, "dull tap: the ball met the rim of the hole", 0.5)
    if abs(up) > abs(along) and y < _ground(course, x)[1] + 2.0 * BALL.radius:
        return _thump(course, run, i, jolt)
    wood = bool(met & {"trunk", "branch"})
    for item in course.hazards:
        if wood and isinstance(item, Tree) and abs(x - item.x) < item.radius + BALL.radius:
            return Cue(run.t[i], "wood", 0.3 + 0.7 * loud, "dry knock: the ball hit the tree", loud)
        if "wall" in met and isinstance(item, Wall) and abs(x - item.x) < item.thickness + 2.0 * BALL.radius:
            return Cue(run.t[i], "wood", 0.3 + 0.7 * loud, "dry knock: the ball hit the wall", loud)
        if "lip" in met and isinstance(item, Lip) and abs(x - item.x) < item.overhang + 3.0 * BALL.radius:
            return Cue(run.t[i], "dig", loud, "dull thump: the ball hit the lip", 0.0)
    return _thump(course, run, i, jolt) if y < _ground(course, x)[1] + 2.0 * BALL.radius else None


def _touch_cues(course: Course, run: Run, end: int) -> Iterator[Cue]:
    """Landings and knocks before sample `end`, the faint ones left out."""
    for i in range(1, end):
        if run.phase[i] not in Phase.BOUNCE + Phase.CONTACT:
            continue
        along, up = _jolt(run, i)
        if hypot(along, up) < FAINT:
            continue
        landed = run.phase[i] == Phase.BOUNCE
        cue = _thump(course, run, i, hypot(along, up)) if landed else _knock(course, run, i, along, up)
        if cue:
            yield cue


def _roll_cues(run: Run) -> Iterator[Cue]:
    """One cue for each stretch on the ground that lasts."""
    for grounded, stretch in groupby(zip(run.t, run.phase, strict=True), lambda row: row[1] in ON_GROUND):
        times = [t for t, _ in stretch]
        spent = times[-1] - times[0]
        if grounded and spent >= ROLL_LEAST:
            long = _share(spent - ROLL_LEAST, ROLL_MOST - ROLL_LEAST)
            yield Cue(times[0], "roll", ROLLS, "soft rumble: the ball rolls", long)


def _fall(run: Run) -> int:
    """First sample at the bottom of the hole: within 5 mm of the lowest of the last contact."""
    first = min(len(run.phase.rstrip(Phase.REST).rstrip(Phase.CONTACT)), len(run.phase) - 1)
    floor = min(run.y[first:])
    return next(i for i in range(first, len(run.y)) if run.y[i] <= floor + 0.005)


def _run_cues(shot: Shot) -> Iterator[Cue]:
    run, end = shot.run, len(shot.run.phase)
    if run.outcome is Outcome.HOLED:
        end = _fall(run)
        hard = _share(-run.vy[end - 1] if end else 0.0, 3.0)
        yield Cue(run.t[end], "cup", 1.0, "two hollow knocks: the ball is in the hole", hard)
    elif run.outcome is Outcome.WATER:
        hard = _share(hypot(run.vx[-1], run.vy[-1]), LOUD)
        yield Cue(run.t[-1], "water", 0.4 + 0.6 * hard, "splash: the ball is in the water", hard)
    leaves = next((knock for knock in run.knocks if knock.what == "leaves"), None)
    if leaves:
        yield Cue(leaves.time, "brush", RUSTLE, "rustle: the ball went through the leaves", 0.2)
    yield from _touch_cues(shot.course, run, end)
    yield from _roll_cues(run)


# ---- the score


def score(shot: Shot) -> tuple[Cue, ...]:
    """Every sound of a shot in order of time, read from its strike, run and outcome."""
    return tuple(sorted((*_strike_cues(shot), *_run_cues(shot)), key=lambda cue: cue.time))


def due(cues: tuple[Cue, ...], before: float, now: float) -> tuple[Cue, ...]:
    """Cues passed as the time line went from `before` to `now` (s); none when it went back."""
    return tuple(cue for cue in cues if before < cue.time <= now)


def caption_at(cues: tuple[Cue, ...], now: float, hold: float = HOLD) -> str:
    """Words of the latest cue at most `hold` s ago on the time line; empty without one."""
    heard = [cue.caption for cue in due(cues, now - hold, now)]
    return heard[-1] if heard else ""


# ---- the player


class Player:
    """Plays cues on the machine's loudspeaker; without one it stays silent and says why in `reason`.

    Takes the mixer over: mono, 16 bit, `rate` Hz.
    """

    RATE = 44_100  # Hz

    def __init__(self, rate: int = RATE, volume: float = 0.8, muted: bool = False) -> None:
        self.rate, self.muted, self.reason = rate, muted, ""
        self.volume = volume
        self._made: dict[tuple[str, float], pygame.mixer.Sound] = {}
        try:
            pygame.mixer.quit()
            pygame.mixer.init(rate, -16, 1, 512, allowedchanges=0)
        except (pygame.error, NotImplementedError) as error:  # no device, or a pygame without a mixer
            self.reason = f"No sound on this machine: {error}"

    @property
    def silent(self) -> bool:
        """Whether there is no loudspeaker to play on."""
        return bool(self.reason)

    @property
    def volume(self) -> float:
        """Loudness of everything, 0..1; a value outside is moved to the nearer end."""
        return self._volume

    @volume.setter
    def volume(self, value: float) -> None:
        self._volume = _share(value, 1.0)

    def play(self, cue: Cue) -> bool:
        """Start a cue; whether anything sounds. KeyError for a name without a recipe."""
        recipe = RECIPES[cue.name]
        loud = self.volume * _share(cue.gain, 1.0)
        if self.silent or self.muted or loud == 0.0:
            return False
        key = (cue.name, round(cue.tone, 1))  # tenths of a tone: few sounds to keep, no step to be heard
        try:
            if key not in self._made:
                wave = recipe(key[1], self.rate, 0)
                self._made[key] = pygame.mixer.Sound(buffer=np.rint(32767.0 * wave).astype("<i2").tobytes())
            channel = pygame.mixer.find_channel()
            if channel is None:
                return False
            channel.set_volume(loud)
            channel.play(self._made[key])
        except pygame.error as error:  # the device went away
            self.reason = f"The sound stopped: {error}"
            return False
        return True

    def stop(self) -> None:
        """Cut off whatever sounds."""
        if not self.silent:
            pygame.mixer.stop()

    def close(self) -> None:
        """Stop and give the loudspeaker back; the player is silent from then on."""
        self._made.clear()
        pygame.mixer.quit()
        self.reason = self.reason or "The sound is closed."
