import pygame
import pytest
from ui_events import key, press, release

from game.draw.camera import Rect
from game.ui import Focus, Theme
from game.ui.text_edit import Written
from game.ui.textarea import TextArea, wrapped
from game.ui.textfield import TextField

SHIFT, CTRL = pygame.KMOD_LSHIFT, pygame.KMOD_LCTRL


def written(text):
    return pygame.event.Event(pygame.TEXTINPUT, text=text)


@pytest.fixture
def line():
    pygame.font.init()
    heard = []
    field = TextField("Title", "the fen", heard.append)
    field.place(Rect(10, 10, 300, 60), Theme())
    focus = Focus(lambda: [field])
    focus.set(field)
    return field, focus, heard


def test_what_the_input_method_sends_is_written_at_the_caret(line):
    field, focus, heard = line
    focus.handle(key(pygame.K_HOME))
    focus.handle(key(pygame.K_o, 0, "o"))  # the key itself writes nothing, its text does
    assert field.text == "the fen"
    for text in ("On ", "\u00fc"):
        focus.handle(written(text))
    assert field.text == "On \u00fcthe fen"
    assert heard == ["On the fen", "On \u00fcthe fen"]


def test_nothing_is_written_without_the_focus(line):
    field, focus, _ = line
    focus.set(None)
    assert not focus.handle(written("x"))
    assert field.text == "the fen"


def test_what_is_being_composed_is_shown_but_not_written(line):
    field, focus, heard = line
    focus.handle(pygame.event.Event(pygame.TEXTEDITING, text="\u304b", start=0, length=1))
    assert (field.text, heard) == ("the fen", [])
    field.draw(pygame.Surface((400, 200), 0, 32), Theme())
    focus.handle(written("\u304b"))
    assert field.text == "the fen\u304b"


def test_selection_copy_cut_and_paste(line):
    field, focus, _ = line
    focus.handle(key(pygame.K_LEFT, SHIFT | CTRL))
    assert field.written.selected == "fen"
    focus.handle(key(pygame.K_x, CTRL))
    assert field.text == "the "
    focus.handle(key(pygame.K_HOME))
    focus.handle(key(pygame.K_v, CTRL))
    assert field.text == "fenthe "
    focus.handle(key(pygame.K_a, CTRL))
    focus.handle(written("new"))
    assert field.text == "new"


def test_a_press_puts_the_caret_there_and_a_double_click_selects_the_word(line):
    field, focus, _ = line
    wide = Theme().type.width("the f", "label")
    at = (field._room.x + wide, field.field.y + 8)
    focus.handle(press(*at))
    focus.handle(release(*at))
    assert field.written.caret == 5
    focus.handle(press(*at))
    assert field.written.selected == "fen"


def test_commands_are_left_to_the_screen(line):
    field, focus, _ = line
    assert not focus.handle(key(pygame.K_z, CTRL, "\x1a"))
    assert not focus.handle(key(pygame.K_F8))
    assert field.text == "the fen"


def test_a_line_takes_no_newlines_and_no_more_than_it_may(line):
    text = Written("", most=8)
    text.put("one\ntwo three")
    assert text.text == "one two "
    text.put("x")
    assert text.text == "one two "


def test_a_number_is_selected_whole_when_the_focus_comes():
    heard = []
    field = TextField("Height", "12.5", heard.append, aside=True, unit="m")
    field.place(Rect(0, 0, 300, 32), Theme())
    focus = Focus(lambda: [field])
    focus.set(field)
    focus.handle(written("3"))
    assert heard == ["3"]


def test_wrapping_loses_no_letter():
    type_ = Theme().type
    text = "a bee sees  the sea\n\nand seven trees" + " x" * 30
    spans = wrapped(type_, text, "label", 80)
    assert len(spans) > 6
    at = 0
    for low, high in spans:
        assert text[at:low] in ("", " ", "\n")
        assert type_.width(text[low:high], "label") <= 80
        at = high
    assert at == len(text)


def test_an_area_goes_through_its_lines_and_keeps_the_caret_in_sight():
    heard = []
    area = TextArea("Before", "", heard.append, rows=3)
    area.place(Rect(0, 0, 200, 120), Theme())
    focus = Focus(lambda: [area])
    focus.set(area)
    sheet = pygame.Surface((240, 160), 0, 32)
    for word in ("one", "two", "three", "four", "five"):
        focus.handle(written(word))
        focus.handle(key(pygame.K_RETURN))
        area.draw(sheet, Theme())
    assert area.text == "one\ntwo\nthree\nfour\nfive\n"
    assert area._first == 3  # the last three of six lines
    for _ in range(5):
        focus.handle(key(pygame.K_UP))
    area.draw(sheet, Theme())
    assert (area.written.caret, area._first) == (0, 0)
    focus.handle(key(pygame.K_END))
    focus.handle(key(pygame.K_DOWN))
    assert area.written.caret == len("one\ntwo")


def test_a_problem_makes_room_for_its_sentence_and_is_drawn():
    field = TextField("Shots", "99", lambda _: None, aside=True)
    field.place(Rect(0, 0, 260, 32), Theme())
    plain = field.height(Theme(), 260)
    field.problem = "99 is too large; allowed: how many of the latest shots count, 1 to 20."
    assert field.height(Theme(), 260) > plain + 15
    sheet = pygame.Surface((300, 120), 0, 32)
    field.draw(sheet, Theme())
    found = {tuple(sheet.get_at((x, y)))[:3] for x in range(20) for y in range(32, 60)}
    assert Theme().palette.landing in found
