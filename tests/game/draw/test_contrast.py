"""Contrast of words (4.5:1) and marks (3:1) on the ground they really lie on, in both themes.

Criteria 1.4.3 and 1.4.11 of WCAG 2; the ratio is computed here by its formula, apart from the palette's.
"""

from functools import cache

import numpy as np
import pygame
import pytest

from game.bench.model import GROUNDS
from game.draw.camera import Rect
from game.draw.course import top_colour
from game.draw.palette import DARK, LIGHT, Colour, Palette, contrast_pairs, mix
from game.shot_view import TurfWindow, intend
from game.shot_view.spray import throw
from game.shot_view.spray_look import Spray
from game.shot_view.strobe import FAINT, OLDEST
from game.ui import Theme
from game.ui.theme import widget_pairs as theme_pairs
from physics.address import Motion, Setup
from physics.course import level_course
from physics.results import Shot
from physics.shot import play

PALETTES = pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda p: p.name)
TEXT, MARK = 4.5, 3.0
TURF = ("green", "fringe", "fairway", "tight", "soft", "rough", "mat")


@cache
def struck(ground: str) -> Shot:
    return play(level_course(ground, 8.0), Setup(), Motion(depth=0.006))


def luminance(colour) -> float:
    """Relative luminance of an sRGB colour."""
    c = np.asarray(colour, dtype=float) / 255.0
    linear = np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4)
    return float(linear @ [0.2126, 0.7152, 0.0722])


def ratio(a, b) -> float:
    light, dark = sorted((luminance(a), luminance(b)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def failing(named) -> list[tuple[str, float]]:
    """What falls short, of (name, front, back, least)."""
    return [(what, round(ratio(a, b), 2)) for what, a, b, least in named if ratio(a, b) < least]


def skies(p: Palette) -> dict[str, Colour]:
    """The sky of the turf window from top to ground."""
    return {f"sky {k}0 %": mix(p.sky_high, p.sky_low, k / 10) for k in range(0, 11, 2)}


def test_the_formula_at_its_ends():
    assert ratio((0, 0, 0), (255, 255, 255)) == pytest.approx(21.0)
    assert ratio((118, 118, 118), (255, 255, 255)) == pytest.approx(4.54, abs=0.01)


@PALETTES
def test_every_pair_the_palette_promises(palette):
    assert failing(contrast_pairs(palette)) == []


@pytest.mark.parametrize("dark", [False, True])
def test_every_pair_the_widgets_promise(dark):
    assert failing(theme_pairs(Theme.of(dark, 1.0))) == []


@PALETTES
def test_words_on_plates_and_on_the_page(palette):
    """Every word over a picture stands on a plate of paper."""
    named = [(f"{tone} on paper", getattr(palette, tone), palette.paper, TEXT) for tone in ("ink", "muted")]
    assert failing(named) == []


@PALETTES
def test_marks_that_may_cross_any_ground_carry_a_rim_they_stand_out_from(palette):
    """Path, intended way, ring, arrows, low point, flat spot and hairs cross sky, grass, sand and soil,
    light and dark: each lies on a rim of `halo`."""
    names = ("path", "intended", "landing", "pressure", "ghost", "ink")
    assert failing([(f"{n} on its rim", getattr(palette, n), palette.halo, MARK) for n in names]) == []


@PALETTES
def test_marks_without_a_rim_on_the_ground_they_keep_to(palette):
    p = palette
    named = [(f"head on {n}", p.steel_edge, c, MARK) for n, c in skies(p).items()]
    named += [(f"flash on {n}", mix(c, p.steel_edge, FAINT / 255), c, MARK) for n, c in skies(p).items()]
    named += [
        ("old surface over the cut", mix(p.sky_low, p.ink, 150 / 255), p.sky_low, MARK),
        ("oldest flash on the golfer", mix(p.paper, p.ghost, OLDEST), p.paper, MARK),
        ("ball on its outline", p.ball, p.outline, MARK),
        ("floor under the golfer", p.fairway, p.paper, MARK),
        ("tick under the golfer", p.muted, p.paper, MARK),
    ]
    assert failing(named) == []


@PALETTES
def test_ball_and_head_stand_out_from_every_ground(palette):
    """Light or dark, one of rim and body differs from any grass, sand or soil behind it."""
    p = palette
    grounds = [top_colour(p, n) for n in TURF] + [p.sand, p.sand_deep, p.soil, *skies(p).values()]
    for ground in grounds:
        assert max(ratio(p.ball, ground), ratio(p.outline, ground)) >= MARK
        assert max(ratio(p.steel, ground), ratio(p.steel_edge, ground)) >= 2.0


@PALETTES
def test_thrown_earth_and_sand_are_seen_against_the_sky(palette):
    tones = Spray(throw(struck("soft")), palette, "soft")._tones
    for kind, least in (("earth", 2.0), ("sand", 1.5)):
        seen = [max(ratio(tone, sky) for tone in tones[kind]) for sky in skies(palette).values()]
        assert min(seen) >= least, kind


@pytest.mark.parametrize("scale", [1.0, 2.0])
@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("ground", GROUNDS)
def test_words_as_drawn_on_every_ground(ground, dark, scale):
    """Measured in the picture: on each plate the letters against the plate."""
    shot = struck(ground)
    theme, window, surface = Theme.of(dark, scale), TurfWindow(), pygame.Surface((620, 330), 0, 32)
    window.strobe = True
    intent = intend(shot.setup, shot.motion)
    window.draw(surface, Rect(0, 0, 620, 330), theme, shot.course, intent, shot=shot, time=2.0)
    picture = pygame.surfarray.array3d(surface)
    assert window.said.words
    for word, plate in zip(window.said.words, window.said.plates, strict=True):
        part = picture[int(plate.x) + 3 : int(plate.right) - 3, int(plate.y) + 3 : int(plate.bottom) - 3]
        back = np.median(part.reshape(-1, 3), axis=0)
        front = max(part.reshape(-1, 3), key=lambda c: ratio(c, back))
        assert ratio(front, back) >= TEXT, word.text
        assert np.abs(back - np.array(theme.palette.paper)).max() <= 2, word.text
