"""Sounds are told apart by their spectrum, and every cue by its words."""

import wave
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pygame
import pytest
from numpy.typing import NDArray

from game.sound.cues import Cue, Player, caption_at, due, score
from game.sound.result import result_cue
from game.sound.synth import CUP_PITCH, RECIPES
from physics.address import Motion, Setup
from physics.course import Course, Hole, Lie, Lip, Wall
from physics.results import Contact, Knock, Outcome, Run, Shot, TurfAction
from physics.shot import play
from tests.game.synthetic import level, made_up, missed, parkland

RATE = 44_100
LONGEST = {
    "roll": 3.0,
    "water": 0.9,
    "sand": 0.8,
    "met": 0.6,
    "solved": 1.0,
}  # s; every other sound at most 0.4 s
TONES = (0.0, 0.5, 1.0)


def centroid(samples: NDArray[np.floating[Any]], rate: int = RATE) -> float:
    """Middle of the power spectrum (Hz)."""
    power = np.abs(np.fft.rfft(samples.astype(np.float64))) ** 2
    return float((power * np.fft.rfftfreq(len(samples), 1.0 / rate)).sum() / power.sum())


def energy(wave: NDArray[np.float32], start: float, end: float) -> float:
    """Energy between two times (s)."""
    part = wave[round(start * RATE) : round(end * RATE)].astype(np.float64)
    return float((part**2).sum())


def rendered(name: str, folder: Path, tone: float) -> NDArray[np.float64]:
    """The sound as a loudspeaker gets it: written to a WAV file of 16 bits and read back, -1..1."""
    file = folder / f"{name}-{tone}.wav"
    samples = np.rint(32767.0 * RECIPES[name](tone, RATE, 0)).astype("<i2")
    with wave.open(str(file), "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(RATE)
        out.writeframes(samples.tobytes())
    with wave.open(str(file), "rb") as back:
        return np.frombuffer(back.readframes(back.getnframes()), "<i2") / 32768.0


def loud(samples: NDArray[np.float64]) -> float:
    """RMS (dB of full scale) of the loudest 125 ms, by moving through all of it; apart from synth's own."""
    padded = np.pad(samples, round(0.125 * RATE))
    frames = np.lib.stride_tricks.sliding_window_view(padded, round(0.125 * RATE))[:: round(0.002 * RATE)]
    return float(10.0 * np.log10((frames**2).mean(axis=1).max()))


# ---- the sounds


def test_every_cue_as_a_file_is_unclipped_and_about_as_loud_as_the_others(tmp_path: Path) -> None:
    level = {}
    for name in RECIPES:
        for tone in TONES:
            samples = rendered(name, tmp_path, tone)
            assert np.abs(samples).max() < 0.97, name  # a clipped sound stands at full scale
            level[name, tone] = loud(samples)
    assert max(level.values()) - min(level.values()) <= 6.0, level


@pytest.mark.parametrize("pair", [*combinations(("crisp", "dig", "thin", "water", "cup", "solved"), 2),
                                  ("met", "not_yet"), ("solved", "not_yet")])  # fmt: skip
def test_what_must_not_be_mistaken_differs_in_pitch_or_in_how_long_it_lasts(
    pair: tuple[str, str], tmp_path: Path
) -> None:
    """At least half an octave between the middles of the spectra; solved and holed, which lie nearer, by the
    time in which most of it is heard."""
    one, other = (rendered(name, tmp_path, 0.5) for name in pair)
    octaves = abs(np.log2(centroid(one) / centroid(other)))
    if set(pair) == {"cup", "solved"}:
        lasts = [float(np.searchsorted(np.cumsum(w**2), 0.9 * (w**2).sum())) / RATE for w in (one, other)]
        assert max(lasts) > 2.0 * min(lasts)
        return
    assert octaves > 0.5, (pair, octaves)


def test_a_result_sounds_as_it_is_and_says_so() -> None:
    told = {result_cue(met, solved).name: result_cue(met, solved).caption
            for met, solved in ((True, True), (True, False), (False, False), (False, True))}  # fmt: skip
    assert set(told) == {"solved", "met", "not_yet"}
    assert all(name in RECIPES for name in told)
    assert len(set(told.values())) == 3


@pytest.mark.parametrize("rate", [22_050, 44_100, 48_000])
@pytest.mark.parametrize("name", RECIPES)
def test_a_sound_is_a_clean_array(name: str, rate: int) -> None:
    for tone in TONES:
        wave = RECIPES[name](tone, rate, 7)
        assert wave.dtype == np.float32
        assert wave.ndim == 1
        assert np.isfinite(wave).all()
        assert 0.05 < np.abs(wave).max() <= 0.95  # heard, and not clipped
        assert 0.05 <= len(wave) / rate <= LONGEST.get(name, 0.4)
        assert wave[0] == wave[-1] == 0.0
        last = np.abs(wave[-round(0.001 * rate) :]).max()
        assert last < 0.02 * np.abs(wave).max()  # the last millisecond is as good as silent
        assert abs(float(wave.mean())) < 0.01  # no step in the loudspeaker


@pytest.mark.parametrize("name", RECIPES)
def test_a_sound_depends_on_its_arguments_only(name: str) -> None:
    np.random.seed(1)
    one = RECIPES[name](0.4, RATE, 3)
    np.random.seed(2)
    assert np.array_equal(one, RECIPES[name](0.4, RATE, 3))
    assert not np.array_equal(one, RECIPES[name](0.4, RATE, 4))
    other = RECIPES[name](0.9, RATE, 3)
    assert one.shape != other.shape or not np.array_equal(one, other)


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_thin_is_brighter_than_crisp_and_crisp_than_dig(seed: int) -> None:
    """Whatever the tones: at least half an octave from thin to crisp, two from crisp to dig."""
    middle = {
        name: [centroid(RECIPES[name](tone, RATE, seed)) for tone in TONES]
        for name in ("thin", "crisp", "sand", "dig")
    }
    assert min(middle["thin"]) > 2.0**0.5 * max(middle["crisp"])
    assert min(middle["crisp"]) > 4.0 * max(middle["dig"])
    assert min(middle["sand"]) > 4.0 * max(middle["dig"])


def test_a_click_is_short_and_sand_has_a_tail_of_single_grains() -> None:
    crisp, sand = RECIPES["crisp"](0.5, RATE, 0), RECIPES["sand"](0.5, RATE, 0)
    assert energy(crisp, 0.0, 0.02) > 0.8 * energy(crisp, 0.0, 1.0)
    assert energy(sand, 0.0, 0.02) < 0.5 * energy(sand, 0.0, 1.0)
    tail = sand[round(0.3 * RATE) : round(0.6 * RATE)].astype(np.float64)
    assert np.mean(tail**4) / np.mean(tail**2) ** 2 > 6.0  # kurtosis: 3 for even noise, more for grains


def test_the_hole_knocks_twice_at_its_own_pitch() -> None:
    cup = RECIPES["cup"](0.0, RATE, 0)
    power = np.abs(np.fft.rfft(cup.astype(np.float64)))
    assert np.fft.rfftfreq(len(cup), 1.0 / RATE)[power.argmax()] == pytest.approx(CUP_PITCH, rel=0.03)
    first, gap, second = energy(cup, 0, 0.04), energy(cup, 0.075, 0.095), energy(cup, 0.105, 0.145)
    assert first > second > 10.0 * gap


def test_firm_ground_sounds_higher_and_a_long_roll_lasts() -> None:
    assert centroid(RECIPES["landing"](1.0, RATE, 0)) > 1.5 * centroid(RECIPES["landing"](0.0, RATE, 0))
    assert len(RECIPES["roll"](1.0, RATE, 0)) > 5 * len(RECIPES["roll"](0.0, RATE, 0))


def test_a_roll_is_the_softest_of_all() -> None:
    """On its own and as played."""
    level = {name: float(np.sqrt(np.mean(make(0.5, RATE, 0) ** 2))) for name, make in RECIPES.items()}
    assert min(level, key=lambda name: level[name]) == "roll"


@pytest.mark.parametrize(("tone", "rate"), [(-0.1, RATE), (1.1, RATE), (float("nan"), RATE), (0.5, 4000)])
def test_a_sound_outside_its_limits_is_refused(tone: float, rate: int) -> None:
    with pytest.raises(ValueError, match="must"):
        RECIPES["crisp"](tone, rate, 0)


# ---- the score


@cache
def played(course: Course, setup: Setup, motion: Motion) -> Shot:
    return play(course, setup, motion)


def names(cues: tuple[Cue, ...]) -> list[str]:
    return [cue.name for cue in cues]


def struck(contact: Contact, turf: TurfAction, lie: str | None = None, lead: float = 0.0) -> tuple[Cue, ...]:
    """Cues of the strike of a made-up shot."""
    shot = made_up(replace(level(), lie=Lie(lie)))
    strike = replace(shot.strike, contact=contact, turf=turf, lead=lead)
    return tuple(cue for cue in score(replace(shot, strike=strike)) if cue.time < 0.2)


def test_each_strike_has_its_sound() -> None:
    assert names(struck(Contact.SOLID, TurfAction.BRUSH)) == ["crisp"]
    assert names(struck(Contact.SOLID, TurfAction.DIG)) == ["crisp", "dig"]
    assert names(struck(Contact.FAT, TurfAction.DIG, lead=0.03)) == ["dig"]
    assert names(struck(Contact.FAT, TurfAction.SKID, lead=0.03)) == ["dig"]
    assert names(struck(Contact.FAT, TurfAction.NONE)) == ["brush"]
    assert names(struck(Contact.THIN, TurfAction.NONE)) == ["thin"]
    assert names(struck(Contact.TOPPED, TurfAction.NONE)) == ["thin"]
    assert names(struck(Contact.FAT, TurfAction.DIG, "sand", 0.03)) == ["sand"]
    assert names(struck(Contact.SOLID, TurfAction.SKID, "wet_sand")) == ["crisp", "sand"]
    assert names(struck(Contact.SPLASHED, TurfAction.DIG, "sand", 0.03)) == ["sand"]
    assert names(struck(Contact.TWICE, TurfAction.DIG, lead=0.03)) == ["dig", "double"]


def test_words_of_splash_second_touch_and_mat() -> None:
    (splash,) = struck(Contact.SPLASHED, TurfAction.DIG, "sand", 0.03)
    assert "the sand carried the ball" in splash.caption
    captions = [cue.caption for cue in struck(Contact.TWICE, TurfAction.NONE)]
    assert sum("twice" in text for text in captions) == 1
    assert "mat" in struck(Contact.FAT, TurfAction.SKID, "mat", 0.03)[0].caption


def test_a_second_click_is_heard_apart_and_softer() -> None:
    double = RECIPES["double"](0.5, RATE, 0)
    first, gap, second = energy(double, 0, 0.03), energy(double, 0.035, 0.048), energy(double, 0.05, 0.09)
    assert first > second > 10.0 * gap


@pytest.mark.parametrize("contact", Contact)
@pytest.mark.parametrize("turf", TurfAction)
@pytest.mark.parametrize("lie", [None, "sand", "mat", "rough"])
def test_every_strike_is_heard_and_worded(contact: Contact, turf: TurfAction, lie: str | None) -> None:
    cues = struck(contact, turf, lie)
    assert cues
    assert all(cue.caption and cue.name in RECIPES for cue in cues)
    assert all(0.0 < cue.gain <= 1.0 and 0.0 <= cue.tone <= 1.0 for cue in cues)


def test_words_tell_what_came_first() -> None:
    assert "after the ball" in struck(Contact.SOLID, TurfAction.DIG)[1].caption
    before = struck(Contact.SOLID, TurfAction.DIG, lead=0.03)
    assert [cue.name for cue in before] == ["dig", "crisp"]
    assert "before the ball" in before[0].caption
    assert "ball first" in struck(Contact.SOLID, TurfAction.BRUSH)[0].caption
    assert "ball first" not in struck(Contact.SOLID, TurfAction.BRUSH, lead=0.03)[0].caption
    assert "mat" in struck(Contact.SOLID, TurfAction.BRUSH, "mat")[0].caption


def test_a_dig_after_the_ball_is_heard_when_the_edge_is_lowest() -> None:
    sole = made_up().strike.sole
    crisp, dig = struck(Contact.SOLID, TurfAction.DIG)
    assert crisp.time < dig.time == sole.t[sole.edge[1].index(min(sole.edge[1]))]


def test_a_second_touch_is_told_once() -> None:
    shot = made_up()
    cues = score(replace(shot, strike=replace(shot.strike, double_hit=True, turf=TurfAction.DIG)))
    assert sum("twice" in cue.caption for cue in cues) == 1


def test_a_missed_ball_swishes_and_a_stuck_club_thuds() -> None:
    shot = missed()
    strike = replace(shot.strike, speed_at_ball=float("nan"))  # what the solver says of a ball never met
    (cue,) = score(replace(shot, strike=strike))
    assert cue.name == "swish"
    assert 0.0 < cue.gain <= 1.0
    stuck = replace(
        shot, strike=replace(strike, turf=TurfAction.DIG), run=replace(shot.run, outcome=Outcome.STUCK)
    )
    (cue,) = score(stuck)
    assert cue.name == "dig"
    assert "stuck" in cue.caption


def test_a_played_chip_lands_softer_each_time_and_rolls_out() -> None:
    shot = played(level(), Setup(), Motion())
    cues = score(shot)
    assert names(cues)[0] == "crisp"
    assert cues[0].time == shot.strike.time
    landings = [cue for cue in cues if cue.name == "landing"]
    assert len(landings) >= 2
    assert [cue.gain for cue in landings] == sorted((cue.gain for cue in landings), reverse=True)
    assert landings[0].time == shot.run.t[shot.run.phase.index("b")]
    assert "fringe" in landings[0].caption
    assert names(cues)[-1] == "roll"
    assert [cue.time for cue in cues] == sorted(cue.time for cue in cues)


def test_firm_ground_gives_a_firmer_landing_and_sand_a_puff() -> None:
    def first(**change: object) -> Cue:
        shot = played(replace(level(), **change), Setup(), Motion())  # type: ignore[arg-type]
        return next(cue for cue in score(shot) if cue.time > 0.3)

    assert first(firmness=1.4).tone > first(firmness=0.6).tone
    sandy = replace(level().ground, surfaces=("fairway", "sand", "green", "green", "fringe"))
    assert first(ground=sandy).name == "sand"
    assert "sand" in first(ground=sandy).caption


def test_a_holed_ball_knocks_at_the_bottom_of_the_hole() -> None:
    long = Setup(shaft_lean=0.2094)
    rolls = played(replace(level(), hole=None), long, Motion()).run
    near = Hole(rolls.rest - 0.25, flagstick=False)  # slow there, and so holed
    shot = played(replace(level(), hole=near), long, Motion())
    assert shot.run.outcome is Outcome.HOLED
    cue = score(shot)[-1]
    assert cue.name == "cup"
    at = shot.run.t.index(cue.time)
    assert shot.run.y[at] == pytest.approx(shot.run.y[-1], abs=0.006)
    assert shot.run.y[at - 1] > shot.run.y[-1] + 0.005  # still falling just before
    assert names(score(shot)).count("cup") == 1


def test_things_that_stand_in_the_way_have_their_own_sound() -> None:
    landed = played(replace(level(), hole=None), Setup(), Motion()).run
    stick = played(replace(level(), hole=Hole(landed.carry + 0.3)), Setup(), Motion())
    wall = played(replace(level(), hole=None, hazards=(Wall(landed.rest - 1.0, 0.8),)), Setup(), Motion())
    lip = played(replace(level(), hole=None, hazards=(Lip(2.0, 1.5),)), Setup(), Motion())
    wet = played(parkland(), Setup(), Motion())
    assert "stick" in names(score(stick))
    assert "the ball hit the wall" in " ".join(cue.caption for cue in score(wall))
    assert "the ball hit the lip" in " ".join(cue.caption for cue in score(lip))
    assert wet.run.outcome is Outcome.WATER
    assert names(score(wet))[-1] == "water"
    assert score(wet)[-1].time == wet.run.t[-1]


def touched(x: float, change: float, fall: float = 9.80665, met: str = "rim") -> tuple[Cue, ...]:
    """Cues of a ball near a hole at 13 m, falling by `fall` m/s2; its speed along x changes by `change`."""
    t, vx = (0.30, 0.35, 0.40), (1.0, 1.0 + change, 1.0 + change)
    vy = (0.0, -0.05 * fall, -0.10 * fall)
    still = (0.0, 0.0, 0.0)
    run = Run(t, (x, x, x), (0.24, 0.24, 0.24), vx, vy, still, "ccc", 5.0, 0.0, 0.0, 1.0, x, Outcome.LOST,
              (Knock(0.35, met),))  # fmt: skip
    return tuple(cue for cue in score(replace(made_up(), run=run)) if cue.time > 0.2)


def test_a_ball_in_free_fall_makes_no_sound() -> None:
    assert touched(13.0, 0.0) == ()
    assert touched(13.0, 0.0, fall=0.0)  # held up: something touched it


@pytest.mark.parametrize(("beside", "heard"), [(0.025, "flagstick"), (0.040, "rim")])
def test_flagstick_and_rim_are_told_apart_by_place(beside: float, heard: str) -> None:
    (cue,) = touched(13.0 - beside, -1.5, met="stick")
    assert heard in cue.caption
    assert cue.time == 0.35


# ---- time line and captions


CUES = (Cue(0.0, "crisp", 1.0, "click"), Cue(0.7, "landing", 0.5, "thump"), Cue(0.9, "roll", 1.0, "rumble"))


def test_cues_fall_due_once_and_never_backwards() -> None:
    ticks = np.linspace(-0.5, 2.0, 77)
    heard = [cue for a, b in pairwise(ticks.tolist()) for cue in due(CUES, a, b)]
    assert heard == list(CUES)
    assert due(CUES, -1.0, 0.0) == CUES[:1]
    assert due(CUES, 0.0, 0.5) == ()
    assert due(CUES, 2.0, -1.0) == ()


def test_the_caption_is_the_latest_and_fades() -> None:
    assert caption_at(CUES, -0.1) == ""
    assert caption_at(CUES, 0.3) == "click"
    assert caption_at(CUES, 0.7) == "thump"
    assert caption_at(CUES, 2.4) == "rumble"
    assert caption_at(CUES, 2.6) == ""
    assert caption_at(CUES, 0.6, hold=0.5) == ""


# ---- the player


@pytest.fixture
def player() -> Iterator[Player]:
    """On the dummy device of the tests."""
    made = Player(rate=22_050)
    assert not made.silent, made.reason
    yield made
    made.close()


def test_a_cue_sounds_and_is_made_once(player: Player, monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[float] = []
    recipe = RECIPES["crisp"]

    def watched(tone: float, rate: int, seed: int) -> NDArray[np.float32]:
        made.append(tone)
        return recipe(tone, rate, seed)

    monkeypatch.setitem(RECIPES, "crisp", watched)
    assert player.play(Cue(0.0, "crisp", 1.0, "click", 0.52))
    assert pygame.mixer.get_busy()
    assert player.play(Cue(1.0, "crisp", 0.4, "click", 0.48))
    assert made == [0.5]
    player.stop()
    assert not pygame.mixer.get_busy()


def test_what_the_mixer_holds_is_what_was_made(player: Player, monkeypatch: pytest.MonkeyPatch) -> None:
    kept: list[bytes] = []
    real = pygame.mixer.Sound

    def watched(buffer: bytes) -> pygame.mixer.Sound:
        kept.append(buffer)
        return real(buffer=buffer)

    monkeypatch.setattr(pygame.mixer, "Sound", watched)
    player.play(Cue(0.0, "thin", 1.0, "tick", 1.0))
    wave = np.frombuffer(kept[0], dtype="<i2") / 32767.0
    assert wave == pytest.approx(RECIPES["thin"](1.0, 22_050, 0), abs=1e-4)


def test_volume_and_gain_set_the_loudness_and_mute_silences(player: Player) -> None:
    player.volume = 0.5
    assert player.play(Cue(0.0, "roll", 0.5, "rumble", 1.0))
    busy = [c for c in map(pygame.mixer.Channel, range(pygame.mixer.get_num_channels())) if c.get_busy()]
    assert [c.get_volume() for c in busy] == pytest.approx([0.25], abs=0.01)  # 128 steps in the mixer
    player.stop()
    player.muted = True
    assert not player.play(Cue(0.0, "crisp", 1.0, "click"))
    player.muted, player.volume = False, 0.0
    assert not player.play(Cue(0.0, "crisp", 1.0, "click"))
    assert not pygame.mixer.get_busy()


@pytest.mark.parametrize(("asked", "kept"), [(-1.0, 0.0), (0.3, 0.3), (7.0, 1.0)])
def test_volume_stays_in_its_limits(player: Player, asked: float, kept: float) -> None:
    player.volume = asked
    assert player.volume == kept


def test_without_a_device_the_player_is_silent_and_captions_remain(monkeypatch: pytest.MonkeyPatch) -> None:
    pygame.mixer.quit()
    monkeypatch.setenv("SDL_AUDIODRIVER", "no-such-driver")
    mute = Player()
    assert mute.silent
    assert mute.reason
    assert not mute.play(CUES[0])
    mute.stop()
    mute.close()
    assert caption_at(CUES, 0.1) == "click"


def test_a_device_that_goes_away_silences_the_player(player: Player) -> None:
    pygame.mixer.quit()
    assert not player.play(CUES[0])
    assert player.silent
    player.stop()


def test_an_unknown_sound_is_an_error_not_silence(player: Player) -> None:
    with pytest.raises(KeyError):
        player.play(Cue(0.0, "trumpet", 1.0, "fanfare"))
