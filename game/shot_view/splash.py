"""What the ball stirs up where it ends or lands: a flagstick that rattles, rings on water, sand that sprays.

Each is a function of the Shot and the time alone. How far and how long things move is drawn, not measured:
assumed.
"""

from bisect import bisect_right
from dataclasses import dataclass
from math import cos, exp, hypot, pi, sin, sqrt

import numpy as np

from game.draw.camera import Camera
from game.draw.course import ground_at, surface_at
from game.draw.kept import kept_of_last
from game.draw.palette import Palette, mix
from game.draw.pen import Pen
from game.sound.cues import score
from physics.constants import GRAVITY
from physics.course import Water
from physics.results import Outcome, Phase, Shot
from physics.surfaces import SAND, SURFACES

__all__ = ["SandSpray", "draw_sand", "draw_splash", "sand_sprays", "stick_lean", "stirred", "water_level"]

BEAT, DIES, MOST = 6.5, 0.30, 0.055  # Hz, s and share of the height: a struck flagstick
QUIET = 1.5  # s after which it stands
RINGS, APART, SPREADS = 3, 0.22, 0.80  # rings of a splash, s between them, m/s at which they widen
FADES = 1.3  # s a ring can be seen
DROPS, CROWN = 26, 0.55  # drops of the crown; share of the ball's speed that throws the highest
SLOWEST = 4.0  # m/s: a ball that only rolls in is shown to splash as one of that speed
SHEET = 0.28  # s in which the sheet of the crown stands and falls
GRAINS, THROWN = 84, 0.42  # grains of a spray of sand; share of the ball's speed that throws the fastest
HANGS = 0.7  # s the finest of it hangs in the air
FELT = 1.0  # m/s of landing that throws sand at all
FULL = 9.0  # m/s of landing that throws all of it


@kept_of_last(16)
def _knocks(shot: Shot) -> tuple[tuple[float, float], ...]:
    """When the ball hit the flagstick (s), and how hard, 0 to 1."""
    return tuple((c.time, c.tone) for c in score(shot) if c.name == "stick")


def stick_lean(shot: Shot | None, time: float) -> float:
    """How far the top of the flagstick is swayed at a time, as a share of its height."""
    if shot is None or shot.course.hole is None or not shot.course.hole.flagstick:
        return 0.0
    lean = 0.0
    for at, hard in _knocks(shot):
        age = time - at
        if 0.0 <= age < QUIET:
            lean += MOST * (0.25 + 0.75 * hard) * exp(-age / DIES) * sin(2.0 * pi * BEAT * age)
    return round(lean, 4)


# ---- water


def water_level(shot: Shot) -> float:
    """Height (m) of the water in which the ball ended."""
    x = shot.run.x[-1]
    waters = [h for h in shot.course.hazards if isinstance(h, Water)]
    return min(waters, key=lambda w: max(w.left - x, x - w.right, 0.0)).level


def draw_splash(pen: Pen, camera: Camera, palette: Palette, shot: Shot, age: float, unit: float) -> None:
    """Crown of drops and widening rings, `age` s after the ball went in (inf: what is left)."""
    x, level, speed = shot.run.x[-1], water_level(shot), hypot(shot.run.vx[-1], shot.run.vy[-1])
    line = mix(palette.water_line, palette.ball, 0.35)
    rim = mix(palette.water, palette.shoe, 0.35)
    _sheet(pen, camera, palette, (x, level), age, unit)
    for k in range(RINGS):
        since = age - APART * k
        if not 0.0 <= since < FADES:
            continue
        wide = 0.05 + SPREADS * since
        ring = [(x + wide * cos(a), level) for a in np.linspace(0.0, 2.0 * pi, 25).tolist()]
        flat = [(px, py + 0.14 * wide * camera.scale * sin(a)) for (px, py), a in zip(
            (camera.at(*p) for p in ring), np.linspace(0.0, 2.0 * pi, 25).tolist(), strict=True)]  # fmt: skip
        shown = round(235 * (1.0 - since / FADES))
        pen.line(flat, (4.4 - 1.8 * since / FADES) * unit, rim, shown)
        pen.line(flat, (2.4 - 1.2 * since / FADES) * unit, line, shown)
    chance = np.random.default_rng(3)
    up = CROWN * sqrt(min(max(speed, SLOWEST), 12.0)) * chance.uniform(0.55, 1.25, DROPS) * 1.6
    out = chance.uniform(-0.75, 0.75, DROPS)
    for fast, side in zip(up.tolist(), out.tolist(), strict=True):
        high = fast * age - 0.5 * GRAVITY * age * age
        if age > 0.0 and high > 0.0:
            size = (1.8 + 1.4 * abs(side)) * unit
            pen.disc(camera.at(x + side * age, level + high), size + 1.0 * unit, rim)
            pen.disc(camera.at(x + side * age, level + high), size, line)


def _sheet(
    pen: Pen, camera: Camera, palette: Palette, at: tuple[float, float], age: float, unit: float
) -> None:  # fmt: skip
    """The sheet of water a ball throws up round itself, jagged, gone in a moment."""
    if not 0.0 < age < SHEET:
        return
    share = age / SHEET
    (px, py), high = camera.at(*at), max(0.34 * camera.scale, 15.0 * unit) * sin(pi * share) ** 0.7
    wide = (0.55 + 0.45 * share) * max(0.30 * camera.scale, 11.0 * unit)
    across = np.linspace(-1.0, 1.0, 13).tolist()
    teeth = [
        (px + wide * (0.72 + 0.28 * abs(u)) * u, py - high * (1.0 if k % 2 else 0.55) * (0.7 + 0.3 * abs(u)))
        for k, u in enumerate(across)
    ]
    shape = [(px - 0.6 * wide, py), *teeth, (px + 0.6 * wide, py)]
    pen.fill(shape, mix(palette.water_line, palette.ball, 0.35), 225)
    pen.line(teeth, 1.4 * unit, mix(palette.water, palette.shoe, 0.35), 200)


# ---- sand


@dataclass(frozen=True)
class SandSpray:
    """One landing in sand: when (s), where (m), how fast the ball came (m/s) and how level."""

    time: float
    x: float
    y: float
    speed: float
    along: float


@kept_of_last(16)
def sand_sprays(shot: Shot) -> tuple[SandSpray, ...]:
    """Every landing in sand that throws some of it."""
    run, out = shot.run, []
    for k in range(1, len(run.t)):
        if run.phase[k] != Phase.BOUNCE.value:
            continue
        if SURFACES[surface_at(shot.course, run.x[k])].kind != SAND:
            continue
        fast = hypot(run.vx[k - 1], run.vy[k - 1])
        if fast >= FELT:
            ground = ground_at(shot.course, run.x[k])
            out.append(SandSpray(run.t[k], run.x[k], ground, fast, run.vx[k - 1] / fast))
    return tuple(out)


def draw_sand(
    pen: Pen, camera: Camera, palette: Palette, shot: Shot, spray: SandSpray, age: float, unit: float
) -> None:
    """Grains `age` s after a landing, each lying where it came down (inf: all of them lying)."""
    chance = np.random.default_rng(7)
    n = max(round(GRAINS * min(spray.speed / FULL, 1.0)), 6)
    angle = chance.normal(0.5 * pi - 0.5 * spray.along, 0.45, n)
    fast = spray.speed * THROWN * chance.uniform(0.2, 1.0, n) ** 1.3
    _veil(pen, camera, palette, spray, age, unit)
    tones = (mix(palette.sand_deep, palette.ink, 0.12), mix(palette.sand_deep, palette.ink, 0.30))
    for k, (a, v) in enumerate(zip(angle.tolist(), fast.tolist(), strict=True)):
        up, along = v * max(sin(a), 0.05), v * cos(a)
        t = min(age, 2.0 * up / GRAVITY)
        x, y = spray.x + along * t, spray.y + up * t - 0.5 * GRAVITY * t * t
        y = max(y, ground_at(shot.course, x))
        pen.disc(camera.at(x, y), (1.0 + 0.45 * (k % 3)) * unit, tones[k % 2])


def _veil(pen: Pen, camera: Camera, palette: Palette, spray: SandSpray, age: float, unit: float) -> None:
    """The finest sand, a cloud that opens along the ball's way and is gone within a second."""
    if not 0.0 < age < HANGS:
        return
    share = age / HANGS
    for k, (along, up) in enumerate(((0.10, 0.08), (0.26, 0.20), (0.42, 0.30), (0.20, 0.34))):
        much = min(spray.speed / FULL, 1.0) * (1.0 - (1.0 - share) ** 2)
        at = camera.at(spray.x + spray.along * 1.5 * along * much, spray.y + 1.7 * up * much)
        wide = (0.05 + 0.16 * much) * (1.0 + 0.15 * k) * camera.scale + 2.0 * unit
        pen.disc(at, wide, palette.sand_deep, round(150 * (1.0 - share)))


def stirred(shot: Shot, time: float) -> tuple[tuple[SandSpray, ...], bool]:
    """Which sand has been thrown by a time, and whether the ball is in the water."""
    sprays = sand_sprays(shot)
    upto = bisect_right([s.time for s in sprays], time)
    return sprays[:upto], shot.run.outcome is Outcome.WATER and time >= shot.run.t[-1]
