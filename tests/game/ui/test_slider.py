from math import degrees, radians

import pygame
import pytest
from ui_events import key, motion, press, release, typed

from game.draw.camera import Rect
from game.text.quantity import decimal
from game.ui import Focus, NumberEntry, Slider, Theme
from game.ui.slider import for_control
from physics.address import CONTROLS

SHIFT = pygame.KMOD_LSHIFT


class Desk:
    """One slider from -10 to 20 at 5, in focus, with a clock of its own."""

    def __init__(self, widget: type[NumberEntry] = Slider) -> None:
        self.heard: list[float] = []
        self.said: list[str] = []
        self.now = 0.0
        self.slider = widget(
            "Shaft lean", 5.0, -10.0, 20.0, self.heard.append, unit="°", places=1, step=1.0, default=4.0
        )
        self.slider.place(Rect(100.0, 50.0, 300.0, 60.0), Theme())
        self.focus = Focus(lambda: [self.slider], self.said.append, lambda: self.now)
        self.focus.set(self.slider)

    def do(self, *events: pygame.event.Event) -> float:
        for event in events:
            self.focus.handle(event)
        return self.slider.value


@pytest.mark.parametrize(
    ("code", "mod", "value"),
    [
        (pygame.K_RIGHT, 0, 6.0), (pygame.K_UP, 0, 6.0), (pygame.K_LEFT, 0, 4.0), (pygame.K_DOWN, 0, 4.0),
        (pygame.K_RIGHT, SHIFT, 5.1), (pygame.K_LEFT, SHIFT, 4.9), (pygame.K_PAGEUP, 0, 10.0),
        (pygame.K_PAGEDOWN, 0, 0.0), (pygame.K_HOME, 0, -10.0), (pygame.K_END, 0, 20.0),
        (pygame.K_DELETE, 0, 4.0),
    ],
)  # fmt: skip
def test_keys(code, mod, value):
    desk = Desk()
    assert desk.do(key(code, mod)) == pytest.approx(value)
    assert desk.heard == [pytest.approx(value)]


def test_steps_are_held_at_the_limits():
    desk = Desk()
    assert desk.do(key(pygame.K_END), key(pygame.K_RIGHT), key(pygame.K_PAGEUP)) == 20.0
    assert desk.heard == [20.0]


def test_typing_takes_a_number_on_enter():
    desk = Desk()
    desk.do(*typed("-7,25"))
    assert desk.slider.typing
    assert desk.slider.value == 5.0
    assert desk.do(key(pygame.K_RETURN)) == pytest.approx(-7.2)  # to its places
    assert not desk.slider.typing


def test_escape_keeps_the_old_value():
    desk = Desk()
    assert desk.do(*typed("12"), key(pygame.K_ESCAPE)) == 5.0
    assert not desk.slider.typing
    assert desk.heard == []


def test_backspace_and_letters_while_typing():
    desk = Desk()
    assert desk.do(*typed("12x3"), key(pygame.K_BACKSPACE), key(pygame.K_RETURN)) == 12.0


def test_a_unit_may_be_typed_and_one_that_does_not_fit_is_told():
    desk = Desk()
    assert desk.do(*typed("12 deg"), key(pygame.K_RETURN)) == 12.0
    assert desk.do(*typed("3 m"), key(pygame.K_RETURN)) == 12.0
    assert desk.said == ["“3 m” is a length, not an angle; allowed: deg."]


def test_out_of_range_says_one_sentence_and_keeps_the_value():
    desk = Desk()
    assert desk.do(*typed("45"), key(pygame.K_RETURN)) == 5.0
    assert desk.said == ["Shaft lean goes from \u221210.0 to 20.0°, so 45 was not taken."]


@pytest.mark.parametrize("text", ["-", "1.2.3", "--4", "+."])
def test_what_is_no_number_says_so(text):
    desk = Desk()
    assert desk.do(*typed(text), key(pygame.K_RETURN)) == 5.0
    assert len(desk.said) == 1
    assert "no number" in desk.said[0]


def test_leaving_takes_what_was_typed():
    desk = Desk()
    desk.do(*typed("8"))
    desk.focus.set(None)
    assert desk.slider.value == 8.0
    desk.focus.set(desk.slider)
    desk.do(*typed("99"))
    desk.focus.set(None)
    assert desk.slider.value == 8.0
    assert len(desk.said) == 1


def test_dragging_follows_the_pointer_even_outside():
    desk = Desk()
    x, y = desk.slider.x_of(0.0), 100.0
    assert desk.do(motion(x, y), press(x, y)) == pytest.approx(0.0)
    assert desk.do(motion(desk.slider.x_of(12.0), 300.0, held=True)) == pytest.approx(12.0)
    assert desk.do(motion(5000.0, 300.0, held=True), release(5000.0, 300.0)) == 20.0
    assert desk.do(motion(x, 100.0)) == 20.0  # let go


def test_a_double_click_resets_and_two_slow_ones_do_not():
    desk = Desk()
    at = desk.slider.x_of(15.0), 100.0
    desk.do(press(*at), release(*at))
    desk.now = 0.2
    assert desk.do(press(*at), release(*at)) == 4.0
    desk.now = 2.0
    assert desk.do(press(*at), release(*at)) == pytest.approx(15.0)
    desk.now = 3.0
    assert desk.do(press(*at), release(*at)) == pytest.approx(15.0)


def test_the_ghost_stays_until_it_settles():
    desk = Desk()
    desk.do(key(pygame.K_RIGHT), key(pygame.K_RIGHT))
    assert desk.slider.ghost == 5.0
    desk.slider.settle()
    assert desk.slider.ghost == 7.0


def test_keys_of_others_are_left_alone():
    desk = Desk()
    assert not desk.focus.handle(key(pygame.K_SPACE, 0, " "))
    assert not desk.focus.handle(key(pygame.K_p, 0, "p"))
    assert not desk.focus.handle(key(pygame.K_1, pygame.KMOD_LCTRL, "1"))


def test_number_entry_shares_the_typing():
    desk = Desk(NumberEntry)
    assert desk.do(key(pygame.K_RETURN), *typed("3.5"), key(pygame.K_RETURN)) == 3.5
    assert desk.do(key(pygame.K_UP)) == 4.5


@pytest.mark.parametrize("control", CONTROLS.values(), ids=lambda c: c.name)
def test_every_control_has_a_slider_over_its_whole_range(control):
    heard: list[float] = []
    slider = for_control(control, (control.low + control.high) / 2, heard.append)
    slider.place(Rect(0, 0, 300, 60), Theme())
    slider.handle(key(pygame.K_HOME))
    slider.handle(key(pygame.K_END))
    assert heard == [pytest.approx(control.low), pytest.approx(control.high)]
    assert all(control.low <= v <= control.high for v in heard)


def test_a_control_speaks_radians_and_shows_degrees():
    heard: list[float] = []
    slider = for_control(CONTROLS["shaft_lean"], radians(5.0), heard.append)
    assert slider.caption == "Shaft lean, 5.0°"
    slider.handle(key(pygame.K_RIGHT))
    assert degrees(heard[0]) == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("value", "places", "text"), [(-0.04, 1, "0.0"), (-3.25, 1, "\u22123.2"), (7.0, 0, "7")]
)
def test_shown(value, places, text):
    assert decimal(value, places) == text
