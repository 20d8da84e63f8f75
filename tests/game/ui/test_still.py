"""Widgets that stand still are drawn once, and anew as soon as one of them looks different."""

import pygame
import pytest

from game.draw.camera import Rect
from game.ui import Button, Column, NumberEntry, Slider, TextBlock, Theme
from game.ui.still import Still
from game.ui.widget import walk

THEME = Theme()


class Counted(TextBlock):
    """Words that count how often they are drawn."""

    drawn = 0

    def draw(self, surface, theme):
        type(self).drawn += 1
        super().draw(surface, theme)


@pytest.fixture
def page():
    """A column with one widget of each kind, and a button beside it; nothing drawn yet."""
    Counted.drawn = 0
    items = [
        Counted("Words"), Slider("Lean", 3.0, 0.0, 9.0, lambda _: None), Button("Go", lambda: None),
        NumberEntry("Carry", 5.0, 0.0, 9.0, lambda _: None),
    ]  # fmt: skip
    column, button = Column(items), Button("Play", lambda: None, kind="main")
    column.place(Rect(20, 60, 260, 320), THEME)
    button.place(Rect(20, 12, 260, 32), THEME)
    return column, button


def paper():
    surface = pygame.Surface((300, 400), 0, 32)
    surface.fill(THEME.palette.paper)
    return surface


def shown(still, widgets):
    """What is seen, and what would be seen with nothing kept."""
    kept, plain = paper(), paper()
    still.draw(kept, THEME, widgets)
    drawn = Counted.drawn
    for widget in widgets:
        widget.draw(plain, THEME)
    Counted.drawn = drawn
    return kept, plain


def same(a, b):
    return (pygame.surfarray.array3d(a) == pygame.surfarray.array3d(b)).all()


def test_what_has_not_changed_is_drawn_once(page):
    still = Still()
    for _ in range(5):
        assert same(*shown(still, page))
    assert Counted.drawn == 1


@pytest.mark.parametrize("change", [
    lambda column, button: setattr(button, "label", "Pause"),
    lambda column, button: setattr(button, "focused", True),
    lambda column, button: setattr(column.items[1], "value", 7.0),
    lambda column, button: setattr(column.items[1], "ghost", 1.0),
    lambda column, button: setattr(column.items[2], "hovered", True),
    lambda column, button: setattr(column.items[2], "enabled", False),
    lambda column, button: column.place(Rect(20, 60, 260, 90), THEME),
    lambda column, button: (column.place(Rect(20, 60, 260, 90), THEME), column.scroll(20.0)),
])  # fmt: skip
def test_whatever_changes_is_seen_at_once(page, change):
    still = Still()
    shown(still, page)
    change(*page)
    assert same(*shown(still, page))
    assert Counted.drawn == 2
    assert same(*shown(still, page))
    assert Counted.drawn == 2


def test_what_is_typed_is_seen_letter_by_letter(page):
    still, number = Still(), page[0].items[3]
    shown(still, page)
    number.entry.open("1")
    assert any(w.typing for w in walk(page))
    before, plain = shown(still, page)
    assert same(before, plain)
    number.entry.text = "12"
    after, plain = shown(still, page)
    assert same(after, plain)
    assert not same(before, after)


def test_another_theme_or_limit_is_drawn_anew(page):
    still = Still()
    shown(still, page)
    dark = paper()
    still.draw(dark, Theme.of(True, 1.0), page)
    assert Counted.drawn == 2
    limited = paper()
    limited.set_clip(pygame.Rect(0, 0, 300, 100))
    still.draw(limited, THEME, page)
    assert Counted.drawn == 3
    assert (pygame.surfarray.array3d(limited)[:, 100:] == THEME.palette.paper).all()
