"""The caption line: words of the control in focus that do not fit name the key that shows them."""

import pygame
import pytest

from game.app.frame import App
from game.draw.camera import Rect
from game.library.settings import Settings
from game.ui.screen import Screen
from game.ui.theme import Theme
from game.ui.toast import MORE, Toast
from game.ui.widget import walk
from tests.ui_events import key

LONG = "How far the handle leans toward the target when the ball is met. " * 3


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_words_cut_short_fit_and_name_the_key(scale, monkeypatch):
    pygame.font.init()
    theme, drawn = Theme.of(False, scale), []
    monkeypatch.setattr("game.ui.paint.lines", lambda s, t, lines, *_: drawn.extend(lines))
    foot = Rect(0, 100, 700, Toast.height(theme))
    Toast().draw(pygame.Surface((700, 200)), theme, foot, LONG)
    assert len(drawn) == 1
    assert drawn[0].endswith(MORE)
    assert LONG.startswith(drawn[0].removesuffix(MORE))
    assert theme.type.width(drawn[0], "label") <= foot.w - 4 * theme.gap


def test_what_settings_say_of_themselves_stands_whole_at_every_size():
    app = App.headless((1024, 640), Settings(text_scale=2.0), "Settings")
    room = app._foot.w - 4 * app.theme.gap
    told = [w.tooltip for w in walk(app.screen.widgets) if w.tooltip]
    assert len(told) > 5
    for words in told:
        assert app.theme.type.width(words, "label") <= room, words


def test_page_keys_turn_the_settings():
    app = App.headless((1024, 640), Settings(text_scale=2.0), "Settings")
    column = app.screen.widgets[0]
    app.frame([key(pygame.K_PAGEDOWN)], 0.016)
    assert column.offset > 0.5 * app.box.h
    app.frame([key(pygame.K_PAGEUP)], 0.016)
    assert column.offset == 0.0


def test_words_stay_with_their_screen_and_those_of_the_start_do_not_vanish():
    app = App.headless(screen="Settings")
    app.say("Hint 1.")
    app.help()
    assert app.toast.sentence == "Hint 1."  # only laid over
    app.show(Screen(app))
    assert app.toast.sentence == ""
    app.screen.bar = False
    app.say("The settings cannot be read.")
    app.open("Settings")
    assert app.toast.sentence == "The settings cannot be read."


def test_a_long_sentence_is_said_line_by_line_and_covers_nothing_above(monkeypatch):
    pygame.font.init()
    theme, drawn, boxes = Theme.of(False, 2.0), [], []
    monkeypatch.setattr("game.ui.paint.lines", lambda s, t, lines, *_: drawn.append(lines))
    monkeypatch.setattr("game.ui.paint.box", lambda s, rect, *_: boxes.append(rect))
    foot, toast = Rect(0, 100, 900, Toast.height(theme)), Toast()
    toast.say(LONG.strip())
    for _ in range(60):
        toast.draw(pygame.Surface((900, 200)), theme, foot)
        if toast.due == float("inf"):
            break
        toast.update(toast.due + 1e-6)
    assert all(box.y >= foot.y for box in boxes)
    assert all(len(lines) <= 1 for lines in drawn)
    told = " ".join(line.removesuffix(" \N{HORIZONTAL ELLIPSIS}") for lines in drawn for line in lines)
    assert told.strip() == LONG.strip()
