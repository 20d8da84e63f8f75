"""Numbers and their units in words: one minus, no negative nought, singular and plural, a narrow terminal."""

from math import nan, radians

import pytest

from game.text.narrow import STAND_IN_ERRORS
from game.text.quantity import (
    MINUS,
    angle_plain,
    angle_words,
    decimal,
    figure_of_control,
    percent,
    plural,
    revolutions,
    shown_control,
    significant,
    times,
)
from game.text.typed import UnitError, read_quantity, read_typed
from game.text.units import METRIC, YARDS


def test_there_is_one_minus_and_never_a_negative_nought():
    assert decimal(-4.04, 1) == f"{MINUS}4.0"
    assert [decimal(v, 1) for v in (-0.04, 0.0, -0.0)] == ["0.0"] * 3
    assert significant(-0.0) == "0"
    assert significant(-12.346, 4) == f"{MINUS}12.35"
    assert METRIC.far(-0.04) == "0.0 m"
    assert METRIC.far(-1.0) == f"{MINUS}1.0 m"
    assert YARDS.near(-0.3048) == f"{MINUS}1.0 ft"
    assert percent(-0.001) == "0 %"
    for told in (angle_words(radians(-2.0)), angle_plain(radians(-2.0)), METRIC.speed(-2.0)):
        assert "-" not in told
        assert MINUS in told


def test_what_did_not_happen_is_no_number():
    assert [METRIC.far(nan), angle_plain(nan), percent(nan), revolutions(nan)] == ["-"] * 4


def test_angles_take_a_sign_where_it_is_asked_for():
    assert angle_words(radians(-0.3), signed=True) == "0°"
    assert angle_words(radians(0.3), signed=True) == "0°"
    assert angle_words(radians(-0.6)) == f"{MINUS}1°"
    assert angle_words(radians(2.4), signed=True) == "+2°"
    assert angle_words(radians(2.44), 1) == "2.4°"


def test_counts_have_their_plural():
    assert [times(n) for n in (1, 2, 3, 11, 21)] == ["once", "twice", "3 times", "11 times", "21 times"]
    assert [plural(n, "degree") for n in ("1", "1.5", "0", "3")] == [
        "1 degree", "1.5 degrees", "0 degrees", "3 degrees",
    ]  # fmt: skip


def test_controls_have_their_unit():
    assert figure_of_control("swing_length", -2.5) == f"{MINUS}2.5°"
    assert figure_of_control("ball_position", 4.0) == "4 cm"
    assert figure_of_control("release", 1.25) == "1.25"
    assert shown_control("ball_position", -0.02) == f"{MINUS}2.0 cm"
    assert shown_control("depth", -0.0001) == "0 mm"


@pytest.mark.parametrize("value", [-12.5, -0.04, 0.0, 3.25])
def test_what_is_shown_can_be_typed_again(value):
    assert float(read_typed(decimal(value, 2))) == value
    assert float(read_typed(decimal(value, 2).replace(".", ","))) == value


@pytest.mark.parametrize(
    ("typed", "unit", "read"),
    [
        ("2.5 m", "m", 2.5), ("8ft", "m", 2.4384), ("8'", "m", 2.4384), ("30 in", "m", 0.762),
        ("12 yd", "m", 10.9728), ("12 Yards", "m", 10.9728), ("3 ft.", "yd", 1.0), ("25 mm", "cm", 2.5),
        ("1,5 cm", "mm", 15.0), (f"{MINUS}2 in", "cm", -5.08), ("5 deg", "deg", 5.0), ("5°", "°", 5.0),
        (f"{MINUS}5 degrees", "°", -5.0), ("40 %", "%", 40.0), ("40percent", "%", 40.0),
        ("36 km/h", "m/s", 10.0), ("10 mph", "m/s", 4.4704), ("7", "m", 7.0), (" 7 ", "", 7.0),
        ("1e-3 m", "m", 0.001), ("1.e2", "", 100.0), ("2.", "m", 2.0),
    ],
)  # fmt: skip
def test_a_quantity_is_read_in_the_unit_asked_for(typed, unit, read):
    assert read_quantity(typed, unit) == read


@pytest.mark.parametrize(
    ("typed", "unit", "told"),
    [
        ("3 kg", "m", "“kg” is no unit that fits here; allowed: m, cm, mm, yd, ft, in."),
        ("3 deg", "m", "“3 deg” is an angle, not a length; allowed: m, cm, mm, yd, ft, in."),
        ("3 m", "°", "“3 m” is a length, not an angle; allowed: deg."),
        ("3 m", "m/s", "“3 m” is a length, not a speed; allowed: m/s, km/h, mph."),
        ("3 m", "", "“3 m” has a unit, but here stands a plain number; leave “m” away."),
    ],
)
def test_a_unit_that_does_not_fit_is_one_sentence(typed, unit, told):
    with pytest.raises(UnitError) as caught:
        read_quantity(typed, unit)
    assert str(caught.value) == told


@pytest.mark.parametrize("typed", ["", "m", "far", "2 m 3", "--2", "2.5.1 m", "m 2", "inf", "nan"])
def test_what_is_no_number_is_none(typed):
    with pytest.raises(ValueError, match="could not convert"):
        read_quantity(typed, "m")


def test_a_narrow_terminal_gets_signs_it_can_hold():
    told = f"set {MINUS}4°, “solid”"
    assert told.encode("ascii", STAND_IN_ERRORS) == b'set -4 deg, "solid"'
    assert told.encode("latin-1", STAND_IN_ERRORS) == b'set -4\xb0, "solid"'
    assert "\u3042".encode("ascii", STAND_IN_ERRORS) == b"?"
