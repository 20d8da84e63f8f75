"""The frame of the game: window, loop, screens on a stack, keys that work everywhere."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from time import monotonic, sleep
from typing import Any

import pygame

from game.app.help import Help
from game.app.pace import FRAME, Pace
from game.app.screens import SCREENS
from game.app.window import Window
from game.draw.camera import Rect
from game.library.assignments import is_answer
from game.library.file_uri import path_of_name
from game.library.notebook.doors import notebook_of
from game.library.settings import Settings, keep_settings
from game.reviewing import review_page
from game.ui import Button, Focus, Row, Theme, Widget, layout, paint
from game.ui.button import BUTTON_AIR
from game.ui.clipboard import pasted_path
from game.ui.key_repeat import Repeat
from game.ui.screen import Keys, Screen
from game.ui.still import Still
from game.ui.toast import Toast
from game.ui.tooltip import Tooltip, kept_clear, shown_part
from game.ui.work import Worker

__all__ = ["App", "stay"]

FRAMES = 60  # a second
HIDES = {  # whether the window is out of sight after the event
    pygame.WINDOWHIDDEN: True, pygame.WINDOWMINIMIZED: True, pygame.WINDOWSHOWN: False,
    pygame.WINDOWRESTORED: False, pygame.WINDOWEXPOSED: False, pygame.WINDOWMAXIMIZED: False,
}  # fmt: skip
CLOSE = 2.0  # steps beside the words of a tab where all would not fit into one row
STEP = 0.25  # text scale of one Ctrl++
KEYS: Keys = (
    ("F2, F3, …", "go to a screen; Ctrl+1, Ctrl+2, … do the same"),
    ("F1", "what the control in focus is for; again: its terms in this help"),
    ("?", "this help"),
    ("Esc", "go back, or put a message away"),
    ("Ctrl++, Ctrl+-", "larger and smaller text; Ctrl+0 for the standard size"),
    ("F11", "fill the screen, or go back to the window"),
    ("Ctrl+Q", "leave; settings are kept"),
)
BIGGER = (pygame.K_PLUS, pygame.K_EQUALS, pygame.K_KP_PLUS)
FILES = "Builder"  # the screen that takes files
NO_ANSWER = "Ctrl+V takes the copied file name of a pupil's answer here, of a pack or scenario on Play."
LONGEST_PATH = 4096  # characters of a copied file name
SMALLER = (pygame.K_MINUS, pygame.K_KP_MINUS)


class App:
    """Everything a screen may ask for: settings, theme, worker, `say`, `open`, `push`, `pop`."""

    def __init__(
        self, surface: pygame.Surface, settings: Settings, home: Path | None, worker: Worker,
        window: Window | None = None,
    ) -> None:  # fmt: skip
        self.surface, self.window, self.home, self.worker = surface, window, home, worker
        self.settings, self.theme = settings, Theme.of(settings.dark, settings.text_scale)
        self.running, self.toast, self.tip = True, Toast(), Tooltip()
        self.book, problem = notebook_of(home)
        if problem:
            self.say(problem)
        self.titles = tuple(t for t, place in SCREENS.items() if find_spec(place.split(":")[0]))
        self._made: dict[str, Screen] = {}
        self.stack: list[Screen] = []
        self._bar = Row([
            Button(title, partial(self.open, title), kind="tab", hint=f"F{i}", group="screens")
            for i, title in enumerate(SCREENS, 2) if title in self.titles
        ])  # fmt: skip
        self._still = Still()
        self.focus = Focus(self._widgets, self.say)
        self._foot = self.box = Rect(0, 0, 1, 1)
        self._stray = ""  # the letter of a key that has moved the focus
        self._size = (0, 0)  # px as last laid out: the surface itself grows with the window

    @classmethod
    def headless(
        cls, size: tuple[int, int] = (1280, 800), settings: Settings | None = None,
        screen: "str | Callable[[App], Screen] | None" = None, home: Path | None = None,
    ) -> "App":  # fmt: skip
        """An app on a plain surface, with all computing inside `frame`; nothing is saved without a home."""
        pygame.font.init()
        app = cls(pygame.Surface(size, 0, 32), settings or Settings(), home, Worker(threaded=False))
        if screen is None or isinstance(screen, str):
            app.open(screen or app.titles[0])
        else:
            app.show(screen(app))
        return app

    # ---- screens

    @property
    def screen(self) -> Screen:
        """The one in front."""
        return self.stack[-1]

    @property
    def player(self) -> str:
        """Whose shots the notebook takes down now; whoever is no longer in it gives way to the first."""
        names = self.book.players
        return self.settings.player if self.settings.player in names else self.book.player

    def open(self, title: str) -> None:
        """Go to a screen of the bar; each is made once and keeps its state."""
        if title not in self._made:
            module, name = SCREENS[title].split(":")
            self._made[title] = getattr(import_module(module), name)(self)
        if self.stack != [self._made[title]]:
            self.show(self._made[title])

    def show(self, screen: Screen) -> None:
        """This screen in place of all that are open. What was said on another does not follow to it."""
        if self.stack and self.screen.bar:  # what is said while all is made ready stays to be read
            self.toast.hide()
        self._front([screen])

    def push(self, screen: Screen) -> None:
        """This screen over the one in front."""
        self._front([*self.stack, screen])

    def pop(self) -> None:
        """Back to the one below; the last one stays."""
        if len(self.stack) > 1:
            self._front(self.stack[:-1])

    def _front(self, stack: list[Screen]) -> None:
        self.focus.set(None)
        if self.stack:
            self.screen.leave()
        self.stack = stack
        self.tip.hide()
        self.screen.enter()
        self.arrange()
        self.focus.look_again()
        self.tip.hide(self.focus.hovered)
        self.focus.first(self.screen.widgets)

    def _widgets(self) -> Sequence[Widget]:
        bar = [self._bar] if self.screen.bar else []
        return [*bar, *self.screen.widgets]

    def arrange(self) -> None:
        """Place bar, screen and caption line; call it too when a screen's widgets change their heights."""
        w, h = self._size = self.surface.get_size()
        theme = self.theme = Theme.of(self.settings.dark, self.settings.text_scale).in_window(w, h)
        whole = Rect(0, 0, w, h)
        wide = w - 2 * theme.gap
        self._mark_tabs(theme, wide)
        top = self._bar.height(theme, wide) + theme.gap if self.screen.bar else 0.0
        head, self.box, self._foot = layout.take(whole, top=top, bottom=Toast.height(theme))
        self._bar.place(Rect(theme.gap, theme.gap / 2, wide, head.h - theme.gap), theme)
        self.screen.layout(self.box, theme)

    def _mark_tabs(self, theme: Theme, wide: float) -> None:
        """Which tab is in front; their keys stand beside them while all fit into one row."""
        for hints, air in ((True, BUTTON_AIR), (False, BUTTON_AIR), (False, CLOSE)):
            for i, (title, tab) in enumerate(zip(self.titles, self._bar.parts, strict=True), 2):
                assert isinstance(tab, Button)
                tab.current, tab.air = self.stack[0] is self._made.get(title), air
                tab.hint, tab.tooltip = (f"F{i}", "") if hints else ("", f"F{i} opens it too.")
            if self._bar.width(theme) <= wide:
                return

    # ---- words and settings

    def say(self, sentence: str) -> None:
        """One sentence in the caption line: an error, or what a sound says."""
        self.toast.say(sentence)

    def change(self, **fields: Any) -> None:
        """Change settings by name. ValueError when one is out of its limits."""
        self.settings_to(replace(self.settings, **fields))

    def settings_to(self, settings: Settings) -> None:
        """Take these settings and lay everything out again."""
        self.settings = settings
        self.theme = Theme.of(settings.dark, settings.text_scale)
        self.arrange()
        self._reveal_focus()

    def _reveal_focus(self) -> None:
        """In another size too what has the focus is in sight."""
        if self.focus.widget and self.focus.widget.within:
            self.focus.widget.within.reveal(self.focus.widget)

    def keep(self) -> None:
        """Save the settings, and say so when that fails."""
        if self.home is not None and (problem := keep_settings(self.home, self.settings)):
            self.say(problem)

    def help(self) -> None:
        """What F1 opens over the screen in front: its own guide, else the keys and the words."""
        if self.screen.guide is None:
            self.keys_help()
        else:
            self.push(self.screen.guide(self, self.keys_help))

    def keys_help(self) -> None:
        """The keys and the words, over the screen in front; first the terms of the control in focus."""
        if not isinstance(self.screen, Help):
            about = self.focus.widget.label if self.focus.widget else ""
            self.push(Help(self, (*self.screen.keys, *KEYS), self.screen.bar, about))

    def quit(self) -> None:
        """End, unless a screen has work that is not safe: it asks first and then ends."""
        if all(screen.may_leave(self._end) for screen in self._made.values()):
            self._end()

    def _end(self) -> None:
        self.running = False

    def _dropped(self, event: pygame.event.Event) -> None:
        """A pupil's answer opens its review; any other file goes to the screen in front if it takes files,
        else to the Builder."""
        path = path_of_name(event.file)
        if self.screen.bar and is_answer(path):
            review_page(self, path)
            return
        if self.screen.handle(event):
            return
        if self.screen.bar and FILES in self.titles:
            self.open(FILES)
            self.screen.handle(event)
        else:
            self.say("Files can be dropped once this is done.")

    def _answer_copied(self) -> bool:
        """Whether the name of a pupil's answer is copied: it is opened then, unless something is written."""
        writing = self.focus.widget is not None and self.focus.widget.typing
        name = "" if writing or not self.screen.bar else pasted_path()
        if not name or len(name) > LONGEST_PATH or not is_answer(name):
            return False
        review_page(self, name)
        return True

    def close(self) -> None:
        """Leave: keep what is to be kept and stop computing."""
        if self.window:
            self.settings = replace(self.settings, width=self.window.size[0], height=self.window.size[1])
        self.focus.set(None)
        self.screen.leave()
        self.keep()
        self.worker.close()
        self.book.close()

    # ---- one frame

    def frame(self, events: Sequence[pygame.event.Event], dt: float, seen: bool = True) -> bool:
        """Take the events, let dt seconds pass, draw if it is `seen`; whether anything happened."""
        if self.window:
            self.surface = self.window.surface
        if self.surface.get_size() != self._size:
            self.arrange()
            self._reveal_focus()
        for event in events:
            self.handle(event)
        answers = self.worker.poll()
        for answer in answers:
            if answer.problem:
                self.say(answer.problem)
        self.screen.update(dt)
        self.toast.update(dt)
        self.tip.update(dt, self.focus.hovered, self.focus.widget)
        if seen:
            self.draw()
        return bool(events or answers)

    def handle(self, event: pygame.event.Event) -> bool:
        """Give an event to whoever it is for; True when it was used up."""
        if event.type == pygame.TEXTINPUT and event.text == self._stray:
            self._stray = ""
            return True
        if event.type != pygame.KEYDOWN:
            return self._give(event)
        before = self.focus.widget
        used = self._give(event)
        moved = used and self.focus.widget is not before
        self._stray = event.unicode if moved else ""  # a key that leads to a field writes nothing into it
        return used

    def _give(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.QUIT:
            self.quit()
            return True
        if event.type == pygame.DROPFILE:
            self._dropped(event)
            return True
        if event.type in (pygame.KEYDOWN, pygame.MOUSEBUTTONDOWN) and self.tip.hide():
            if event.type == pygame.KEYDOWN and event.key == pygame.K_ESCAPE:
                return True
            if event.type == pygame.KEYDOWN and event.key == pygame.K_F1:
                self.help()
                return True
        if event.type == pygame.KEYDOWN and self._everywhere(event):
            return True
        return self.focus.handle(event) or self.screen.handle(event) or self._at_last(event)

    def _everywhere(self, event: pygame.event.Event) -> bool:
        """Keys that no widget ever gets."""
        key, ctrl = event.key, bool(event.mod & pygame.KMOD_CTRL)
        if key == pygame.K_F11 and self.window:
            self.window.toggle_full()
        elif ctrl and (key in (*BIGGER, *SMALLER) or key in (pygame.K_0, pygame.K_KP_0)):
            by = STEP if key in BIGGER else -STEP if key in SMALLER else -1.0
            self.change(text_scale=min(max(self.settings.text_scale + by, 1.0), 2.0))
            self.say(f"Text size {self.settings.text_scale:.0%}.".replace("%", " %"))
        elif ctrl and key == pygame.K_q:
            self.quit()
        elif ctrl and key == pygame.K_v and self._answer_copied():
            pass  # it is being read
        elif (title := self._asked(key, ctrl)) and self.screen.bar:
            self.open(title)
        else:
            return False
        return True

    def _asked(self, key: int, ctrl: bool) -> str:
        """The screen this key opens."""
        place = key - pygame.K_1 if ctrl else key - pygame.K_F2
        title = list(SCREENS)[place] if 0 <= place < len(SCREENS) else ""
        return title if title in self.titles else ""

    def _at_last(self, event: pygame.event.Event) -> bool:
        """Keys that nobody else wanted."""
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_F1:
            read = self.screen.guide and self.toast.holds(self.theme, self._foot.w, self._idle())
            if read or not self.tip.ask(self.focus.widget):
                self.help()
        elif event.unicode == "?":
            self.keys_help()
        elif event.key == pygame.K_ESCAPE:
            if not self.toast.hide():
                self.pop()
        elif event.key == pygame.K_v and event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META):
            self.say(NO_ANSWER)
        else:
            return False
        return True

    def draw(self) -> None:
        """Draw the whole window."""
        surface, theme = self.surface, self.theme
        surface.fill(theme.palette.paper)
        with paint.clipped(surface, self.box):
            self.screen.draw(surface)
        if self.screen.bar:
            paint.box(surface, Rect(0, self.box.y - theme.line, self.box.w, theme.line), theme.palette.rule)
            self._still.draw(surface, theme, (self._bar,))
        self.toast.draw(surface, theme, self._foot, self._idle())
        if self.tip.widget:
            order, bounds = self.focus.order(), Rect(0, 0, self._foot.w, self._foot.y)
            others = [shown_part(w) for w in order if w is not self.tip.widget]
            self.tip.draw(surface, theme, bounds, others, kept_clear(order, self.tip.widget))

    def _idle(self) -> str:
        """What the caption line says when there is nothing to say."""
        widget = self.focus.widget
        if widget and widget.tooltip:
            return widget.tooltip
        return "F1 help" if self.screen.bar else ""


def stay(app: App, window: Window) -> None:
    """Frame after frame until the end; between two that would be the same, wait for an event."""
    clock, repeat, pace = pygame.time.Clock(), Repeat(), Pace()
    while app.running:
        wait = pace.wait(app.screen.moving or repeat.held, min(app.toast.due, app.screen.due))
        events = _after(wait, pace.step, app)
        dt = clock.tick(0 if wait else FRAMES) / 1000.0
        if wait and not pace.hidden:  # the sleep was no time of the film: only words grow old in it
            app.toast.update(max(dt - FRAME, 0.0))
            dt = min(dt, FRAME)
        for event in events:
            if event.type in HIDES:
                pace.hidden = HIDES[event.type]
        pace.pass_time(dt)
        if app.frame(repeat.events(events, dt), dt, seen=not pace.hidden):
            pace.stir()
        if not pace.hidden:
            window.show()


def _after(wait: float, step: float, app: App) -> list[pygame.event.Event]:
    """The events that are there, or that come within `wait` seconds, looked for every `step` seconds.

    The library's own wait looks a thousand times a second, which costs 2 % of a core for nothing.
    """
    end = monotonic() + wait
    while not (events := pygame.event.get()) and not app.worker.answered and monotonic() < end:
        sleep(step)
    return events
