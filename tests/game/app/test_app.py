from argparse import Namespace
from functools import partial
from itertools import combinations

import pygame
import pytest
from ui_events import key, motion, press, typed

from game.app import first_start, start
from game.app.first_start import Prepare
from game.app.frame import App
from game.app.help import Help
from game.app.screens import SCREENS
from game.app.start import run
from game.app.window import NO_DISPLAY
from game.draw.camera import Rect
from game.library.settings import Settings, kept_settings
from game.text.glossary import GLOSSARY
from game.ui import Button, Column, Widget
from game.ui.key_repeat import DELAY, EVERY, Repeat
from game.ui.screen import Screen
from game.ui.textfield import TextField
from game.ui.tooltip import WAIT, place_tip
from game.ui.widget import walk
from game.ui.work import Worker

CTRL = pygame.KMOD_LCTRL
SIZES = [(1024, 640), (1280, 800), (1920, 1080)]
SCALES = [1.0, 1.25, 1.5, 1.75, 2.0]


def leaves(widgets) -> list[Widget]:
    return [w for w in walk(widgets) if not w.parts]


def shown(app: App) -> list[Widget]:
    """What stands on the bar and the screen, even if scrolled out."""
    return leaves(app.focus.source())


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("helped", [False, True])
def test_nothing_overlaps_at_any_size_and_scale(size, scale, helped):
    app = App.headless(size, Settings(text_scale=scale), "Settings")
    if helped:
        app.help()
    app.frame([], 0.0)
    whole, tops = Rect(0, 0, *size), app.screen.widgets
    for a, b in combinations([*tops, app._bar], 2):
        assert not a.rect.inset(0.1).overlaps(b.rect.inset(0.1))
    for a, b in combinations(leaves(tops), 2):
        assert not a.rect.inset(0.1).overlaps(b.rect.inset(0.1)), (a.label, b.label)
    for w in tops:
        assert app.box.holds(w.rect), w.label
    for w in shown(app):
        assert w.rect.x >= whole.x
        assert w.rect.right <= whole.right
        assert w.rect.h + 0.01 >= w.height(app.theme, w.rect.w)
        assert not w.focusable or min(w.rect.w, w.rect.h) >= 24


@pytest.mark.parametrize("scale", SCALES)
def test_every_control_can_be_reached_and_seen(scale):
    app = App.headless((1024, 640), Settings(text_scale=scale), "Settings")
    for _ in app.focus.stops():
        app.frame([key(pygame.K_TAB)], 0.016)
        widget = app.focus.widget
        assert widget is not None
        assert (app.box if widget.within else Rect(0, 0, 1024, app.box.y)).holds(widget.rect)


def test_the_ring_shows_where_the_focus_is():
    app = App.headless(screen="Settings")
    app.frame([], 0.0)
    before = pygame.surfarray.array3d(app.surface)
    app.frame([key(pygame.K_TAB)], 0.0)
    after = pygame.surfarray.array3d(app.surface)
    changed = (before != after).any(axis=2)
    accent = (after == app.theme.accent).all(axis=2)
    r = app.focus.widget.rect
    beside = slice(int(r.x - app.theme.gap - 4), int(r.x - 1)), slice(int(r.y + 8), int(r.bottom - 2))
    assert (changed & accent)[beside].any()


def test_settings_change_at_once_and_are_kept(tmp_path):
    app = App.headless(home=tmp_path, screen="Settings")
    widgets = {w.label: w for w in shown(app)}
    app.focus.set(widgets["Light"])
    app.frame([key(pygame.K_RIGHT)], 0.016)
    assert app.settings.dark
    assert app.surface.get_at((640, 600))[:3] == app.theme.palette.paper
    app.focus.set(widgets["Volume"])
    app.frame([*typed("25"), key(pygame.K_RETURN)], 0.016)
    app.focus.set(widgets["Text size"])
    app.frame([key(pygame.K_END)], 0.016)
    assert app.focus.widget is widgets["Text size"]  # the same one, laid out again
    assert app.theme.scale == 2.0
    app.close()
    assert kept_settings(tmp_path) == (Settings(dark=True, volume=0.25, text_scale=2.0), "")


def test_back_to_standard_shows_in_the_widgets():
    app = App.headless(settings=Settings(dark=True, detail="coach", text_scale=1.5), screen="Settings")
    app.focus.set(next(w for w in shown(app) if w.label == "All back to standard"))
    app.frame([key(pygame.K_RETURN)], 0.016)
    assert app.settings == Settings()
    assert "Detail, Player" in [w.caption for w in shown(app)]


def test_an_error_sentence_stands_in_the_caption_line():
    app = App.headless(screen="Settings")
    app.focus.set(next(w for w in shown(app) if w.label == "Volume"))
    app.frame([*typed("400"), key(pygame.K_RETURN)], 0.016)
    assert app.toast.sentence == "Volume goes from 0 to 100 %, so 400 was not taken."
    app.frame([key(pygame.K_ESCAPE)], 0.016)
    assert app.toast.sentence == ""


def test_text_grows_and_shrinks_by_key():
    app = App.headless(screen="Settings")
    app.frame([key(pygame.K_PLUS, CTRL, "+"), key(pygame.K_EQUALS, CTRL, "=")], 0.016)
    assert app.settings.text_scale == 1.5
    app.frame([key(pygame.K_MINUS, CTRL, "-")] * 9, 0.016)
    assert app.settings.text_scale == 1.0
    app.frame([key(pygame.K_PLUS, CTRL, "+"), key(pygame.K_0, CTRL, "0")], 0.016)
    assert app.settings.text_scale == 1.0


def test_f1_tells_of_the_control_first_and_then_helps():
    app = App.headless(screen="Settings")
    app.focus.set(next(w for w in shown(app) if w.label == "Volume"))
    app.frame([key(pygame.K_F1)], 0.016)
    assert app.tip.widget is app.focus.widget
    app.frame([key(pygame.K_F1)], 0.016)
    assert isinstance(app.screen, Help)
    app.frame([key(pygame.K_ESCAPE)], 0.016)
    assert app.screen.title == "Settings"
    app.frame([key(pygame.K_SLASH, pygame.KMOD_LSHIFT, "?")], 0.016)
    assert isinstance(app.screen, Help)


def test_the_tooltip_waits_for_the_pointer_and_stays_inside():
    app = App.headless(screen="Settings")
    volume = next(w for w in shown(app) if w.label == "Volume")
    app.frame([motion(volume.rect.x + 5, volume.rect.y + 5)], 0.016)
    app.frame([], WAIT * 0.9)
    assert app.tip.widget is None
    app.frame([], WAIT * 0.2)
    assert app.tip.widget is volume
    app.frame([press(1, 700)], 0.016)
    assert app.tip.widget is None
    bounds = Rect(0, 0, 400, 300)
    for anchor in (Rect(390, 290, 10, 10), Rect(0, 0, 10, 10), Rect(0, 0, 400, 300)):
        assert bounds.holds(place_tip(app.theme, volume.tooltip, anchor, bounds))


class Card(Screen):
    """A screen that notes what happens to it."""

    title = "Card"

    def __init__(self, app):
        super().__init__(app)
        self.log: list[str] = []
        self.button = Button("Go", lambda: self.log.append("go"))

    @property
    def widgets(self):
        return (self.button,)

    def enter(self):
        self.log.append("enter")

    def leave(self):
        self.log.append("leave")

    def layout(self, box, theme):
        self.button.place(Rect(box.x, box.y, 100, 40), theme)

    def handle(self, event):
        if event.type == pygame.KEYDOWN:
            self.log.append(pygame.key.name(event.key))
        return False

    def update(self, dt):
        self.log.append(f"{dt}")


def test_screens_on_the_stack_enter_and_leave():
    app = App.headless(screen=Card)
    card, other = app.screen, Card(app)
    app.push(other)
    assert card.log == ["enter", "leave"]
    app.frame([key(pygame.K_ESCAPE)], 0.5)  # the screen may take it first; it did not
    assert app.screen is card
    assert other.log == ["enter", "escape", "leave"]
    assert card.log == ["enter", "leave", "enter", "0.5"]


def test_the_screen_gets_the_keys_its_widgets_leave():
    app = App.headless(screen=Card)
    card = app.screen
    card.log.clear()
    app.frame([key(pygame.K_w, 0, "w"), key(pygame.K_RETURN), key(pygame.K_F1)], 0.0)
    assert card.log[:3] == ["w", "go", "f1"]


def test_screens_open_by_key_in_their_fixed_order():
    app = App.headless(screen=Card)
    place = list(SCREENS).index("Settings")
    app.frame([key(pygame.K_F2 + place)], 0.016)
    assert app.screen.title == "Settings"
    app.show(Card(app))
    app.frame([key(pygame.K_1 + place, CTRL)], 0.016)
    assert app.screen.title == "Settings"


def test_a_failing_job_is_told_and_the_frame_goes_on():
    app = App.headless(screen="Settings")

    def fails():
        raise ZeroDivisionError

    app.worker.ask("shot", fails)
    app.frame([], 0.016)
    assert app.toast.sentence == "The shot could not be worked out: ZeroDivisionError."


def test_getting_ready_counts_its_steps_and_opens_the_first_screen():
    app = App.headless(screen="Settings")
    app.worker = Worker(threaded=False)
    ran: list[str] = []
    prepare = Prepare(app, (("first", lambda: ran.append("a")), ("second", lambda: ran.append("b"))))
    poll, app.worker.poll = app.worker.poll, list
    app.show(prepare)
    app.frame([key(pygame.K_F2)], 3.0)  # nothing opens before it is ready
    assert prepare.words == "0 of 2 steps done, 3 s so far."
    for _ in range(2):
        app.worker.step()
    app.worker.step, step = (lambda: False), app.worker.step
    poll()
    assert (ran, prepare.done) == (["a"], 1)
    app.worker.step, app.worker.poll = step, poll
    app.frame([], 0.016)
    assert ran == ["a", "b"]
    assert app.screen.title == app.titles[0]


def test_a_step_that_fails_is_told_on_the_spot():
    def fails():
        raise RuntimeError("no memory")

    app = App.headless(screen=partial(Prepare, steps=(("first", fails),)))
    app.frame([], 0.016)
    assert app.screen.words == "The first shot could not be worked out: no memory."
    app.frame([], 0.016)
    assert app.screen.title == "Getting ready"


def test_a_new_size_lays_everything_out_again():
    app = App.headless((1280, 800), screen="Settings")

    class Resized:
        surface = pygame.Surface((1024, 640), 0, 32)

    app.window = Resized()
    app.frame([], 0.016)
    assert (app.box.w, app._foot.bottom) == (1024, 640)


def test_no_display_is_one_sentence_and_code_2(monkeypatch, tmp_path, capsys):
    monkeypatch.setattr(start, "open_window", lambda size: None)
    assert run(Namespace(data_dir=str(tmp_path))) == 2
    assert capsys.readouterr().err == NO_DISPLAY + "\n"
    assert "fringework shot" in NO_DISPLAY


def test_the_window_runs_and_keeps_settings_at_the_end(monkeypatch, tmp_path):
    (tmp_path / "settings.json").write_text("broken")
    monkeypatch.setattr(first_start, "Prepare", lambda app, asks: Card(app))
    pygame.display.init()
    pygame.event.clear()
    pygame.event.post(pygame.event.Event(pygame.QUIT))
    assert run(Namespace(data_dir=str(tmp_path))) == 0
    assert kept_settings(tmp_path) == (Settings(), "")
    assert (tmp_path / "settings.bad.json").read_text() == "broken"


def test_held_arrows_repeat_and_enter_does_not():
    for code, times in ((pygame.K_RIGHT, 1 + int((0.64 - DELAY) / EVERY)), (pygame.K_RETURN, 1)):
        repeat, seen = Repeat(), []
        seen += repeat.events([key(code)], 0.016)
        for _ in range(40):
            seen += repeat.events([], 0.016)
        assert times <= len(seen) <= times + 1
        up = pygame.event.Event(pygame.KEYUP, key=code)
        assert repeat.events([up], 1.0) == [up]
        assert repeat.events([], 1.0) == []


@pytest.mark.parametrize(("word", "sentence"), GLOSSARY.items())
def test_the_glossary_is_short_and_plain(word, sentence):
    words = sentence.split()
    assert len(words) <= 12
    assert all(len(w.strip(",.?")) <= 10 for w in words)
    assert sentence[-1] in ".?"
    assert word not in sentence.lower().split()


def test_columns_of_the_help_hold_every_word():
    app = App.headless(screen=Card)
    app.help()
    labels = [w.label for w in shown(app)]
    assert all(f"{term[0].upper()}{term[1:]}: {plain}" in labels for term, plain in GLOSSARY.items())
    assert any(isinstance(w, Column) for w in app.screen.widgets)


def test_the_tooltip_of_one_screen_does_not_stay_on_the_next():
    app = App.headless(screen="Settings")
    app.frame([], 0.0)
    old = next(w for w in shown(app) if w.tooltip and not w.rect.overlaps(app._bar.rect))
    at = (old.rect.x + old.rect.w / 2, old.rect.y + old.rect.h / 2)
    app.frame([motion(*at)], 0.0)
    app.frame([], WAIT)
    assert app.tip.widget is old
    app.push(Help(app, (), True))
    app.frame([], 2 * WAIT)
    app.frame([], 2 * WAIT)
    assert app.tip.widget is not old
    assert not old.hovered


def test_the_letter_of_a_key_that_leads_to_a_field_is_not_written_into_it():
    class Page(Screen):
        def __init__(self, app):
            super().__init__(app)
            self.field = TextField("Landed", "", lambda _: None)
            self.button = Button("Balls", lambda: None, hint="B")

        @property
        def widgets(self):
            return (self.button, self.field)

        def layout(self, box, theme):
            for widget in self.widgets:
                widget.place(box, theme)

        def handle(self, event):
            if event.type == pygame.KEYDOWN and event.key == pygame.K_b:
                self.app.focus.set(self.field)
                return True
            return False

    app = App.headless((800, 600), Settings(), Page)
    letter = pygame.event.Event(pygame.TEXTINPUT, text="b")
    app.frame([key(pygame.K_b, 0, "b"), letter], 0.016)
    assert app.screen.field.text == ""
    app.frame([key(pygame.K_b, 0, "b"), letter], 0.016)  # the same letter, meant
    assert app.screen.field.text == "b"
