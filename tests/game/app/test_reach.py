"""Every control of every screen is reached by keys, is in sight once it has the focus, and its tip lies on
nothing that is needed next: from 1024x640 to 3840x2160, with text of 100, 150 and 200 %."""

from collections.abc import Callable, Iterator
from functools import partial
from itertools import product
from math import radians
from pathlib import Path

import pygame
import pytest

from game.answering.screen import answer_page
from game.app.first_start import Prepare
from game.app.frame import App
from game.bench.parts import VIEWS
from game.bench.screen import Bench
from game.builder.ui.screen import PARTS, Builder
from game.builder.ui.share_page import SharePage
from game.chapters.screen import Chapters
from game.choosing import Choosing, ChoosingWay
from game.draw.camera import Rect
from game.library.settings import Settings
from game.own_player import own_player
from game.play.round import Step
from game.play.screen import Play
from game.ui import Widget
from game.ui.tooltip import PANE, kept_clear, place_tip, shown_part
from levels.files import load_library
from tests.game.choosing.test_choosing import asked
from tests.ui_events import key

SIZES = ((1024, 640), (1280, 800), (1920, 1080), (3840, 2160))
SCALES = (1.0, 1.5, 2.0)
SPACE, ENTER, DOWN = key(pygame.K_SPACE, 0, " "), key(pygame.K_RETURN), key(pygame.K_DOWN)
ON = key(pygame.K_RETURN, pygame.KMOD_LCTRL)


def settle(app: App, *events: pygame.event.Event) -> None:
    """Take the events and let all be worked out; nothing is drawn."""
    app.frame(list(events), 0.016, seen=False)
    for _ in range(3):
        app.frame([], 0.016, seen=False)


def opened(screen: str | Callable[[App], object], home: Path, **settings: object) -> App:
    own = Settings(reduced_motion=True, **{"safety_read": True, **settings})  # type: ignore[arg-type]
    app = App.headless(SIZES[0], own, screen, home)  # type: ignore[arg-type]
    settle(app)
    return app


# ---- the states, each as an app that has come there


def bench(home: Path, do: Callable[[Bench], None] = lambda b: None, **settings: object) -> App:
    app = opened("Bench", home, **settings)
    assert isinstance(app.screen, Bench)
    do(app.screen)
    settle(app)
    return app


def compared(b: Bench) -> None:
    b.play()
    settle(b.app)  # type: ignore[arg-type]
    b.compare()
    b.set_control("lean_change", radians(9))
    b.play()


def turn(b: Bench) -> None:
    """The pupil's turn in the first minute."""
    b.welcome()
    for _ in range(3):
        settle(b.app, SPACE)  # type: ignore[arg-type]
    assert b.guide_words


def play(home: Path, step: Step) -> App:
    app = opened(partial(Play, scenario=load_library("harrow-fen-after-rain")), home)
    page = app.screen
    assert isinstance(page, Play)
    for _ in range(60):
        if page.r.step is step:
            break
        if page.r.step is Step.CALL and page.r.unset:
            for what in page.r.unset:
                page.called(**{what: "solid" if what == "strike" else 5.0})
        settle(app, ON)
    assert page.r.step is step
    return app


def builder(home: Path, part: str) -> App:
    app = opened("Builder", home)
    page = app.screen
    assert isinstance(page, Builder)
    page.files.builtin("harrow-fen-short-sided")
    page.pick(("hole",))
    page.panel.turn(part)
    settle(app)
    return app


def hand_out(home: Path) -> App:
    app = builder(home, "file")
    assert isinstance(app.screen, Builder)
    app.screen.share_flow.open()
    page = app.screen
    assert isinstance(page, SharePage)
    for offer in page.builtin[:3]:
        page.turn(offer)
    page._turn_plan(True)
    page.write()  # every field says what is wrong with it
    settle(app)
    return app


def pressed(home: Path, screen: str | Callable[[App], object], *keys: pygame.event.Event) -> App:
    app = opened(screen, home)
    for event in keys:
        settle(app, event)
    return app


def helped(home: Path, screen: str) -> App:
    app = opened(screen, home)
    app.help()
    settle(app)
    return app


def choosing(home: Path, *keys: pygame.event.Event) -> App:
    app = opened("Bench", home)
    app.push(Choosing(app, asked(), [ChoosingWay("to the Bench", lambda option: None)]))
    for event in keys:
        settle(app, event)
    return app


def answering(home: Path) -> App:
    app = opened("Settings", home)
    answer_page(app, "winter-1", "Winter brush")
    settle(app)
    return app


STATES: dict[str, Callable[[Path], App]] = {
    "Bench": bench,
    "Bench, coach": partial(bench, detail="coach"),
    "Bench, junior": partial(bench, detail="junior"),
    "Bench, left-handed": partial(bench, do=lambda b: b.play(), left_handed=True),
    "Bench, numbers": partial(bench, do=lambda b: (b.play(), b.toggle_numbers())),
    "Bench, A and B": partial(bench, do=compared),
    "Bench, large turf": partial(bench, do=lambda b: b.fill.toggle()),
    "Bench, lesson": partial(bench, do=lambda b: b.learn("lean")),
    "Bench, your turn": partial(bench, do=turn),
    "chapters": partial(opened, Chapters),
    **{f"Play, {step}": partial(play, step=step) for step in Step if step not in (Step.EXAMPLE, Step.PLAY)},
    "Ladder": partial(opened, "Ladder"),
    **{f"Builder, {part}": partial(builder, part=part) for part in PARTS[1:]},
    "hand-out": hand_out,
    "guide": partial(helped, screen="Builder"),
    "help": partial(helped, screen="Settings"),
    "Notebook": partial(opened, "Notebook"),
    "Notebook, players": lambda home: pressed(home, "Notebook", key(pygame.K_4, 0, "4")),
    "Settings": partial(opened, "Settings"),
    "first start": partial(opened, partial(Prepare, steps=(), asks=True)),
    "choosing": choosing,
    "choosing, told": lambda home: choosing(home, key(pygame.K_2, 0, "2")),
    "own player": partial(opened, own_player),
    "ten balls": lambda home: pressed(home, own_player, key(pygame.K_b, 0, "b")),
    "answer": answering,
}  # fmt: skip


# ---- what is asked of each


def parts_of(app: App) -> Iterator[str]:
    """Let each part show in turn, where only one does."""
    page = app.screen
    if isinstance(page, Bench) and page.tight and not page.fill.on:
        for i, view in enumerate(VIEWS):
            page.show_view(i)
            yield view
    elif isinstance(page, SharePage) and page.tight:
        for i in range(3):
            page._show_part(i)
            yield f"part {i}"
    elif isinstance(page, Builder) and page.tight:
        for part in ("course", page.panel.tab):
            page.show_part(PARTS.index(part))
            yield part
    else:
        yield ""


def seen(app: App, widget: Widget) -> bool:
    """Whether all of it is in sight, or as much as its column can show."""
    part, r = shown_part(widget), widget.rect
    if not Rect(0, 0, *app.surface.get_size()).holds(part, 1.0):
        return False
    room = widget.clip.h - 3 * app.theme.gap if widget.clip else r.h
    return part.w > r.w - 1.0 and part.h > min(r.h, room) - 1.0


def hidden_by_tip(app: App, widget: Widget) -> bool:
    """Whether its tip, as F1 shows it now, lies on it, on what is next, on a tab, or leaves the window."""
    if not widget.tooltip:
        return False
    bounds, own = Rect(0, 0, app._foot.w, app._foot.y), shown_part(widget)
    clear = [
        r for r in (own, *kept_clear(app.focus.order(), widget)) if r.w * r.h < PANE * bounds.w * bounds.h
    ]
    tip = place_tip(app.theme, widget.tooltip, own, bounds, (), kept_clear(app.focus.order(), widget))
    return not bounds.holds(tip) or any(tip.overlaps(r) for r in clear)


@pytest.mark.parametrize("state", STATES)
def test_every_control_is_reached_seen_and_clear_of_tips(state: str, tmp_path: Path) -> None:
    app = STATES[state](tmp_path)
    met = 0
    for size, scale in product(SIZES, SCALES):
        app.surface = pygame.Surface(size, 0, 32)
        app.change(text_scale=scale)
        settle(app)
        for part in parts_of(app):
            settle(app)
            where = f"{state}, {part} at {size} with {scale:.0%}"
            reached = set[int]()
            for stop in app.focus.stops():
                app.focus.set(stop)
                group = [w for w in app.focus.order() if w.group and w.group == stop.group] or [stop]
                for _ in group:
                    widget = app.focus.widget
                    assert widget is not None
                    reached.add(id(widget))
                    assert seen(app, widget), f"{where}: {widget.caption} is out of sight"
                    assert not hidden_by_tip(app, widget), f"{where}: the tip of {widget.caption}"
                    met += 1
                    if len(group) > 1:
                        app.focus.handle(DOWN)
            left = [w.caption for w in app.focus.order() if id(w) not in reached]
            assert not left, f"{where}: no key leads to {left}"
    assert met > 12
