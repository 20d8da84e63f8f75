"""Contrast of the two themes, and the contrast formula itself."""

import pytest

from game.draw.palette import DARK, LIGHT, contrast, contrast_pairs, mix


def test_contrast_ends_of_the_scale():
    # WCAG 2.2: black on white is 21:1, a colour on itself 1:1
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21.0)
    assert contrast((90, 120, 30), (90, 120, 30)) == pytest.approx(1.0)


def test_contrast_of_the_well_known_grey():
    # #767676 on white is the lightest grey that passes 4.5:1 (from memory: 4.54)
    assert contrast((0x76, 0x76, 0x76), (255, 255, 255)) == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda p: p.name)
def test_every_pair_keeps_its_contrast(palette):
    short = [
        (what, round(contrast(a, b), 2))
        for what, a, b, least in contrast_pairs(palette)
        if contrast(a, b) < least
    ]
    assert short == []


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda p: p.name)
def test_text_along_the_foot_of_the_course_stays_legible(palette):
    """The earth dissolves into the page there: every blend of the two must carry ink."""
    blends = [mix(palette.deep, palette.paper, k / 10) for k in range(11)]
    assert min(contrast(palette.ink, b) for b in blends) >= 4.5


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda p: p.name)
def test_sky_carries_text_at_every_height(palette):
    skies = [mix(palette.sky_high, palette.sky_low, k / 10) for k in range(11)]
    skies += [mix(s, palette.cloud, 120 / 255) for s in skies]
    assert min(contrast(t, s) for t in (palette.ink, palette.muted) for s in skies) >= 4.5
