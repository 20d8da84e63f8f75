"""Sounds from formulas: every function is (tone 0..1, sample rate, seed) -> float32 mono in [-1, 1].

Pure and deterministic; each array starts and ends at exactly 0, so nothing clicks. A sound is damped
partials (what rings) plus shaped noise (what rubs). Pitches and decays are assumed, chosen by how
such things sound, unless a source stands beside them.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from physics.equipment import HOLE_DEPTH, HOLE_RADIUS

__all__ = [
    "RECIPES", "Recipe", "brush", "crisp", "cup", "dig", "double", "landing", "loudness", "met", "not_yet",
    "roll", "sand", "solved", "stick", "swish", "thin", "water", "wood",
]  # fmt: skip

Wave = NDArray[np.float32]
Floats = NDArray[np.float64]
Recipe = Callable[[float, int, int], Wave]

LOUDNESS, FAST = 0.08, 0.125  # RMS of the loudest so many s (-22 dB of full scale): no click is cut, assumed
ATTACK, RELEASE = 0.0005, 0.010  # s of fade at the ends, assumed
LEAST_RATE = 8000  # Hz
SOUND_SPEED = 343.0  # m/s in air at 20 C, textbook
# A tube shut at its foot rings at c / 4 L with an end correction of 0.6 r (textbook): 630 Hz, derived.
CUP_PITCH = SOUND_SPEED / (4.0 * (HOLE_DEPTH + 0.6 * HOLE_RADIUS))
FREE_BAR = (1.0, 2.76, 5.40)  # bending partials of a free bar over the first (textbook)
MIDDLE = 392.0  # Hz, the note the results start from, a g; assumed
MINNAERT = 3.26  # m/s, pitch of an air bubble in water times its radius (Minnaert 1933, from memory)


def _start(tone: float, rate: int, seed: int, seconds: float) -> tuple[Floats, np.random.Generator]:
    """Times (s) of the samples, and the dice."""
    if not 0.0 <= tone <= 1.0:
        raise ValueError(f"tone must lie between 0 and 1, not {tone}")
    if rate < LEAST_RATE:
        raise ValueError(f"sample rate must be at least {LEAST_RATE} Hz, not {rate}")
    return np.arange(round(seconds * rate)) / rate, np.random.default_rng(seed)


def _ring(t: Floats, rate: int, pitch: float, decay: float, since: float = 0.0) -> Floats:
    """One damped partial struck at `since`; silent where the rate cannot carry its pitch."""
    if pitch > 0.45 * rate:
        return np.zeros_like(t)
    after = np.maximum(t - since, 0.0)
    return np.sin(2.0 * np.pi * pitch * after) * np.exp(-after / decay)


def _noise(t: Floats, rate: int, low: float, high: float, dice: np.random.Generator) -> Floats:
    """Noise between two pitches (Hz), 24 dB an octave outside, of unit RMS."""
    f = np.fft.rfftfreq(len(t), 1.0 / rate)
    shape = 1.0 / (1.0 + (f / high) ** 4) * f**4 / (f**4 + low**4)
    wave = np.fft.irfft(np.fft.rfft(dice.standard_normal(len(t))) * shape, len(t))
    return np.asarray(wave / np.sqrt(np.mean(wave**2)))


def _swell(t: Floats, rise: float, fall: float) -> Floats:
    """Envelope that rises and falls with these times (s), greatest value 1."""
    wave = (1.0 - np.exp(-t / rise)) * np.exp(-t / fall)
    return np.asarray(wave / wave.max())


def loudness(wave: Wave | Floats, rate: int) -> float:
    """RMS of the loudest 125 ms, the time a sound level meter's "fast" takes (IEC 61672, from memory); as
    if silence came before and after."""
    n = round(FAST * rate)
    sums = np.concatenate(([0.0], np.cumsum(np.asarray(wave, dtype=np.float64) ** 2)))
    return float(np.sqrt((sums[n:] - sums[:-n]).max() / n if len(sums) > n else sums[-1] / n))


def _finish(wave: Floats, rate: int, level: float = 0.0) -> Wave:
    """Fade both ends to 0, then scale to the loudness all share, `level` dB above or below it."""
    n, rise, fall = len(wave), round(ATTACK * rate), round(RELEASE * rate)
    at = np.arange(n)
    ends = np.minimum(1.0, at / rise) * np.minimum(1.0, (n - 1 - at) / fall)
    wave = wave * np.sin(0.5 * np.pi * ends) ** 2
    return np.asarray(LOUDNESS * 10.0 ** (level / 20.0) / loudness(wave, rate) * wave, dtype=np.float32)


def crisp(tone: float, rate: int, seed: int) -> Wave:
    """Face on ball: a short bright click over a soft brush of grass; tone is how hard."""
    t, dice = _start(tone, rate, seed, 0.18)
    pitch = 2800.0 + 600.0 * tone
    click = _ring(t, rate, pitch, 0.007) + 0.5 * _ring(t, rate, 1.62 * pitch, 0.004)
    grass = _noise(t, rate, 700.0, 2500.0, dice) * _swell(t, 0.008, 0.035)
    return _finish(click + 0.06 * grass, rate)


def double(tone: float, rate: int, seed: int) -> Wave:
    """Face on ball, and once more: two clicks close together, the second softer; tone is how hard."""
    t, dice = _start(tone, rate, seed, 0.22)
    pitch, again = 2800.0 + 600.0 * tone, 0.050 + 0.010 * dice.random()  # s apart to be told apart, assumed
    clicks = sum(
        part * (_ring(t, rate, pitch, 0.007, since) + 0.5 * _ring(t, rate, 1.62 * pitch, 0.004, since))
        for part, since in ((1.0, 0.0), (0.7, again))
    )
    return _finish(np.asarray(clicks), rate)


def thin(tone: float, rate: int, seed: int) -> Wave:
    """Edge on ball: a sharp metallic tick, no grass; tone is how hard."""
    t, dice = _start(tone, rate, seed, 0.14)
    pitch = 4300.0 + 700.0 * tone
    tick = _noise(t, rate, 5000.0, 12000.0, dice) * np.exp(-t / 0.0015)
    bar = sum(_ring(t, rate, pitch * r, 0.022 / r) / r**0.5 for r in (1.0, 1.51, 2.13))
    return _finish(bar + 0.4 * tick, rate)


def dig(tone: float, rate: int, seed: int) -> Wave:
    """Club into the ground: a dull low thud, lower and longer the deeper."""
    t, dice = _start(tone, rate, seed, 0.30)
    thud = _ring(t, rate, 170.0 - 50.0 * tone, 0.040 + 0.025 * tone)  # high enough for small loudspeakers
    soil = _noise(t, rate, 90.0, 420.0, dice) * _swell(t, 0.004, 0.045)
    return _finish(thud + 0.25 * soil, rate)


def brush(tone: float, rate: int, seed: int) -> Wave:
    """Sole over grass: soft noise; tone is how deep."""
    t, dice = _start(tone, rate, seed, 0.22)
    return _finish(_noise(t, rate, 500.0, 2600.0 - 1200.0 * tone, dice) * _swell(t, 0.015, 0.045), rate, -3.0)


def sand(tone: float, rate: int, seed: int) -> Wave:
    """A burst of sand, then grains that fall ever more thinly; tone is how much sand."""
    t, dice = _start(tone, rate, seed, 0.70)
    burst = _noise(t, rate, 700.0, 4500.0, dice) * _swell(t, 0.006, 0.035 + 0.020 * tone)
    falls = dice.random(len(t)) < 900.0 / rate * np.exp(-t / (0.12 + 0.06 * tone))
    struck = np.where(falls, dice.standard_normal(len(t)), 0.0)
    grain = np.exp(-t[: rate // 100] / 0.0006) * dice.standard_normal(rate // 100)
    grains = np.convolve(struck, grain)[: len(t)]
    return _finish(burst + 0.18 * grains, rate)


def landing(tone: float, rate: int, seed: int) -> Wave:
    """Ball on the ground: a soft thump; tone is how firm the ground is."""
    t, dice = _start(tone, rate, seed, 0.16)
    thump = _ring(t, rate, 110.0 + 150.0 * tone, 0.035 - 0.015 * tone)
    grass = _noise(t, rate, 200.0, 600.0 + 900.0 * tone, dice) * np.exp(-t / 0.012)
    return _finish(thump + 0.12 * grass, rate, -2.0)


def roll(tone: float, rate: int, seed: int) -> Wave:
    """Ball rolling out: a very soft rumble that dies with its speed; tone is how long (0.4 to 3 s)."""
    t, dice = _start(tone, rate, seed, 0.4 + 2.6 * tone)
    slower = 1.0 - t / t[-1]
    return _finish(_noise(t, rate, 150.0, 450.0, dice) * slower * np.minimum(1.0, t / 0.05), rate, -4.0)


def cup(tone: float, rate: int, seed: int) -> Wave:
    """Ball in the hole: two hollow knocks at the pitch of the hole; tone is how hard."""
    t, dice = _start(tone, rate, seed, 0.34)
    second = 0.095 + 0.010 * dice.random()
    bright = 0.2 + 0.2 * tone
    wave = sum(
        part * share * _ring(t, rate, pitch, decay, since)
        for part, since in ((1.0, 0.0), (0.6, second))
        for share, pitch, decay in ((1.0, CUP_PITCH, 0.030), (bright, 3.0 * CUP_PITCH, 0.008))
    )
    return _finish(np.asarray(wave), rate)


def stick(tone: float, rate: int, seed: int) -> Wave:
    """Ball on the flagstick: a short clack of a thin rod, then a rattle; tone is how hard."""
    t, dice = _start(tone, rate, seed, 0.24)
    rattle = 0.045 + 0.010 * dice.random()
    wave = sum(
        part * _ring(t, rate, 820.0 * r, 0.030 / r, since) / r**0.3
        for part, since in ((1.0, 0.0), (0.15 + 0.15 * tone, rattle))
        for r in FREE_BAR
    )
    return _finish(np.asarray(wave), rate)


def wood(tone: float, rate: int, seed: int) -> Wave:
    """Ball on a trunk, wall or boards: a dry knock; tone is how hard."""
    t, dice = _start(tone, rate, seed, 0.14)
    knock = _ring(t, rate, 340.0 + 80.0 * tone, 0.016) + 0.5 * _ring(t, rate, 930.0, 0.007)
    return _finish(knock + 0.1 * _noise(t, rate, 300.0, 2000.0, dice) * np.exp(-t / 0.004), rate)


def water(tone: float, rate: int, seed: int) -> Wave:
    """Ball into water: a splash, then a few bubbles of 3 to 9 mm; tone is how hard."""
    t, dice = _start(tone, rate, seed, 0.80)
    splash = _noise(t, rate, 350.0, 2600.0, dice) * _swell(t, 0.012, 0.060 + 0.040 * tone)
    bubbles = sum(
        _ring(t, rate, MINNAERT / dice.uniform(0.003, 0.009), 0.030, dice.uniform(0.06, 0.50))
        for _ in range(6 + round(6 * tone))
    )
    return _finish(splash + 0.5 * bubbles, rate)


def swish(tone: float, rate: int, seed: int) -> Wave:
    """Club through air only; tone is how fast."""
    t, dice = _start(tone, rate, seed, 0.30)
    middle = np.exp(-(((t - 0.14) / 0.045) ** 2))
    return _finish(_noise(t, rate, 300.0 + 300.0 * tone, 900.0 + 900.0 * tone, dice) * middle, rate, -3.0)


def _note(t: Floats, rate: int, pitch: float, since: float, lasts: float) -> Floats:
    """One soft note: it swells in 15 ms and dies away, with a little of its octave."""
    after = np.maximum(t - since, 0.0)
    swell = 1.0 - np.exp(-after / 0.015)
    octave = 0.2 * _ring(t, rate, 2.0 * pitch, 0.5 * lasts, since)
    return np.asarray(swell * (_ring(t, rate, pitch, lasts, since) + octave))


def _breath(t: Floats, rate: int, dice: np.random.Generator) -> Floats:
    """The faint rush in a blown note."""
    return np.asarray(0.01 * _noise(t, rate, 200.0, 900.0, dice) * _swell(t, 0.015, 0.10))


def met(tone: float, rate: int, seed: int) -> Wave:
    """A goal met: two soft notes, a fourth up; tone is how bright."""
    t, dice = _start(tone, rate, seed, 0.55)
    low = MIDDLE * (1.0 + 0.06 * tone)
    both = _note(t, rate, low, 0.0, 0.10) + _note(t, rate, low * 4 / 3, 0.14, 0.12)
    return _finish(both + _breath(t, rate, dice), rate)


def solved(tone: float, rate: int, seed: int) -> Wave:
    """A task solved: three soft notes up to the octave, the last one held; tone is how bright."""
    t, dice = _start(tone, rate, seed, 0.95)
    low = MIDDLE * (1.0 + 0.06 * tone)
    steps = ((1.0, 0.0, 0.10), (1.5, 0.14, 0.10), (2.0, 0.28, 0.20))
    notes = sum(_note(t, rate, low * k, since, lasts) for k, since, lasts in steps)
    return _finish(notes + _breath(t, rate, dice), rate)


def not_yet(tone: float, rate: int, seed: int) -> Wave:
    """Not yet: one low, short, round note; tone is how bright."""
    t, dice = _start(tone, rate, seed, 0.35)
    note = _note(t, rate, 0.5 * MIDDLE * (1.0 + 0.06 * tone), 0.0, 0.09)
    return _finish(note + _breath(t, rate, dice), rate, -2.0)


RECIPES: dict[str, Recipe] = {
    f.__name__: f
    for f in (
        crisp,
        double,
        thin,
        dig,
        brush,
        sand,
        landing,
        roll,
        cup,
        stick,
        wood,
        water,
        swish,
        met,
        solved,
        not_yet,
    )
}
