"""Lines of text: wrapping, columns of digits, labels beside each other."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.draw.camera import Rect
from game.draw.type import ROLES, SLACK, Type, rail


@pytest.mark.parametrize("scale", [0.8, 1.0, 1.6, 2.0])
def test_wrapped_lines_fit_and_keep_every_word(scale):
    text = "The ball came first; the divot began after it and stayed shallow."
    type_ = Type(scale, max(scale, 1.0))
    lines = type_.wrap(text, "body", 300)
    assert " ".join(lines) == text
    assert all(type_.width(line, "body") <= 300 for line in lines)


@pytest.mark.parametrize("text", ["x" * 4000, "Ab " + "M" * 40 + " cd", "i" * 200, "one " + "wW" * 70])
def test_a_word_wider_than_the_line_breaks_between_letters(text):
    type_ = Type()
    for width in (60.0, 333.0, 700.0):
        lines = type_.wrap(text, "lead", width)
        assert max(type_.width(line, "lead") for line in lines) <= width + SLACK
        assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert type_.wrap("Bench", "strong", type_.width("Bench", "strong") - 1e-9) == ("Bench",)
    assert type_.wrap("word", "lead", 1.0) == ("word",)  # a box that is not laid out yet


def test_digits_of_figures_keep_their_columns():
    type_ = Type(1.0)
    assert len({type_.width(f"{d}{d}.{d}", "strong") for d in range(10)}) == 1


@pytest.mark.parametrize("role", list(ROLES))
def test_text_doubles_or_is_a_heading(role):
    small, large = Type(1.0).size(role), Type(2.0, 2.0).size(role)
    assert large == 2 * small or (role in ("title", "lead") and large >= Type(2.0, 2.0).size("body"))


@given(st.lists(st.floats(-50, 900), min_size=1, max_size=5), st.sampled_from([0.8, 1.0, 2.0]))
def test_labels_of_a_rail_stand_clear_inside_it(places, scale):
    type_ = Type(scale, max(scale, 1.0))
    box = Rect(20, 0, 800, 100)
    items = tuple((f"label {i} m", x, "ink") for i, x in enumerate(places))
    words = rail(type_, items, box, "label")
    assert words
    for i, word in enumerate(words):
        assert box.holds(word.box)
        assert not any(word.box.overlaps(other.box) for other in words[i + 1 :])


def test_a_narrow_rail_keeps_the_first_items():
    words = rail(Type(1.0), (("important", 50.0, "ink"), ("minor", 60.0, "ink")), Rect(0, 0, 90, 20), "label")
    assert [w.text for w in words] == ["important"]
