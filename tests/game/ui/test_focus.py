import pygame
import pytest
from ui_events import key, motion, press, release, wheel

from game.draw.camera import Rect
from game.ui import Button, Choice, Column, Focus, Row, Slider, TextBlock, Theme, Toggle

TAB, BACK = key(pygame.K_TAB), key(pygame.K_TAB, pygame.KMOD_LSHIFT)


class Desk:
    """A bar of three buttons over a column of ten toggles that shows about three."""

    def __init__(self) -> None:
        self.pressed: list[str] = []
        self.tabs = [
            Button(n, lambda n=n: self.pressed.append(n), group="bar") for n in ("One", "Two", "Three")
        ]
        self.toggles = [Toggle(f"Toggle {i}", False, lambda v: None) for i in range(10)]
        self.column = Column([TextBlock("About these"), *self.toggles, TextBlock("The end")])
        self.focus = Focus(lambda: [Row(self.tabs), self.column])
        Row(self.tabs).place(Rect(0, 0, 600, 40), Theme())
        self.column.place(Rect(0, 50, 300, 130), Theme())


def test_tab_goes_round_with_one_stop_for_a_group():
    desk = Desk()
    seen = []
    for _ in range(12):
        desk.focus.handle(TAB)
        seen.append(desk.focus.widget)
    assert seen == [desk.tabs[0], *desk.toggles, desk.tabs[0]]
    desk.focus.handle(BACK)
    assert desk.focus.widget is desk.toggles[-1]


def test_arrows_move_inside_a_group_and_tab_comes_back_to_the_same():
    desk = Desk()
    desk.focus.set(desk.tabs[0])
    desk.focus.handle(key(pygame.K_RIGHT))
    assert desk.focus.widget is desk.tabs[1]
    desk.focus.handle(key(pygame.K_LEFT))
    desk.focus.handle(key(pygame.K_LEFT))
    assert desk.focus.widget is desk.tabs[2]
    desk.focus.handle(TAB)
    desk.focus.handle(BACK)
    assert desk.focus.widget is desk.tabs[2]


def test_disabled_widgets_are_passed_over():
    desk = Desk()
    desk.toggles[0].enabled = False
    desk.focus.set(desk.tabs[0])
    desk.focus.handle(TAB)
    assert desk.focus.widget is desk.toggles[1]
    assert desk.focus.handle(press(20, desk.toggles[0].rect.y + 5))
    assert desk.toggles[0].value is False


@pytest.mark.parametrize("code", [pygame.K_RETURN, pygame.K_SPACE])
def test_enter_and_space_press(code):
    desk = Desk()
    desk.focus.set(desk.tabs[1])
    assert desk.focus.handle(key(code))
    assert desk.pressed == ["Two"]


def test_a_click_presses_and_sliding_off_takes_it_back():
    desk = Desk()
    r = desk.tabs[0].rect
    x, y = r.x + 5, r.y + 5
    desk.focus.handle(press(x, y))
    desk.focus.handle(release(900, 900))
    assert desk.pressed == []
    desk.focus.handle(press(x, y))
    desk.focus.handle(release(x, y))
    assert desk.pressed == ["One"]


def test_the_focus_is_always_in_sight():
    desk = Desk()
    desk.focus.set(desk.tabs[0])
    for step in [TAB] * 10 + [BACK] * 10:
        desk.focus.handle(step)
        if desk.focus.widget in desk.toggles:
            assert desk.column.rect.holds(desk.focus.widget.rect)
    desk.focus.first([desk.column])
    assert desk.column.offset == 0.0  # the words over the first one too
    desk.focus.set(desk.toggles[-1])
    assert desk.column.offset == pytest.approx(desk.column.overflow)  # and those under the last


def test_the_wheel_scrolls_only_under_the_pointer():
    desk = Desk()
    desk.focus.handle(motion(20, 10))
    assert not desk.focus.handle(wheel(-1))
    desk.focus.handle(motion(20, 100))
    assert desk.focus.handle(wheel(-1))
    assert desk.column.offset > 0
    for _ in range(50):
        desk.focus.handle(wheel(-1))
    assert desk.column.offset == pytest.approx(desk.column.overflow)


def test_what_is_scrolled_out_cannot_be_pressed():
    desk = Desk()
    desk.focus.set(desk.toggles[-1])
    assert not desk.toggles[0].hit((20, desk.toggles[0].rect.y + 5))


def test_a_column_of_mere_words_takes_the_focus_to_be_scrolled():
    words = Column([TextBlock(f"Line {i}") for i in range(30)])
    words.place(Rect(0, 0, 200, 100), Theme())
    focus = Focus(lambda: [words])
    focus.handle(TAB)
    assert focus.widget is words
    focus.handle(key(pygame.K_END))
    assert words.offset == pytest.approx(words.overflow)
    words.place(Rect(0, 0, 200, 5000), Theme())
    assert not words.focusable


def test_hover_follows_the_pointer():
    desk = Desk()
    r = desk.tabs[1].rect
    desk.focus.handle(motion(r.x + 3, r.y + 3))
    assert [t.hovered for t in desk.tabs] == [False, True, False]
    desk.focus.handle(motion(2000, 2000))
    assert not desk.tabs[1].hovered


def test_a_click_on_nothing_is_left_to_the_screen():
    desk = Desk()
    assert not desk.focus.handle(press(900, 500))
    assert not desk.focus.handle(release(900, 500))


def test_a_vanished_widget_loses_the_focus():
    gone = Slider("Gone", 0, 0, 1, lambda v: None)
    here = [gone]
    focus = Focus(lambda: here)
    focus.set(gone)
    here.clear()
    assert not focus.handle(key(pygame.K_RIGHT))
    assert focus.widget is None


@pytest.mark.parametrize("width", [400, 120])
def test_choice_by_key_and_pointer_wide_and_narrow(width):
    heard: list[int] = []
    choice = Choice("Club", ("Sand", "Gap", "Pitching"), 0, heard.append)
    theme = Theme()
    choice.place(Rect(0, 0, width, choice.height(theme, width)), theme)
    focus = Focus(lambda: [choice])
    focus.handle(TAB)
    focus.handle(key(pygame.K_RIGHT))
    focus.handle(key(pygame.K_END))
    focus.handle(key(pygame.K_RIGHT))  # held at the end
    assert heard == [1, 2]
    assert choice.caption == "Club, Pitching"
    focus.handle(press(3, choice.rect.bottom - 3))
    assert choice.value == ("Sand" if width == 400 else "Gap")
