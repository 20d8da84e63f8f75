"""The guide in the Builder: F1 opens it, it scrolls, finds, and fits every size."""

from pathlib import Path

import pygame
import pytest
from ui_events import key, motion, press, release, wheel

from game.app.frame import App
from game.app.help import Help
from game.builder.ui.guide_page import GuidePage
from game.library.settings import Settings
from game.ui.widget import walk
from levels.guide import guide

F1, ESC = key(pygame.K_F1), key(pygame.K_ESCAPE)
SIZES = [(1024, 640, 1.0), (1024, 640, 2.0), (1280, 800, 1.0), (1920, 1080, 1.5), (3840, 2160, 2.0)]


def opened(home: Path, size=(1280, 800), **settings) -> tuple[App, GuidePage]:
    app = App.headless(size, Settings(**settings), "Builder", home)
    app.frame([], 0.0)
    app.frame([F1], 0.0)
    assert isinstance(app.screen, GuidePage)
    return app, app.screen


def shown(page: GuidePage) -> str:
    return "\n".join(w.label for w in page.body.items)


def write(app: App, words: str) -> None:
    app.frame([key(pygame.K_f, pygame.KMOD_LCTRL)], 0.0)
    app.frame([pygame.event.Event(pygame.TEXTINPUT, text=c) for c in words], 0.0)


def test_f1_opens_it_with_every_key_and_f1_or_esc_closes_it(tmp_path: Path) -> None:
    app, page = opened(tmp_path)
    words = shown(page)
    for chapter in guide():
        for part in chapter.parts:
            assert all(line.code in words and line.told in words for line in part.lines)
    app.frame([F1], 0.0)
    assert not isinstance(app.screen, GuidePage)
    app.frame([F1], 0.0)
    app.frame([ESC], 0.0)
    assert not isinstance(app.screen, GuidePage)


def test_the_keys_and_words_are_still_there(tmp_path: Path) -> None:
    app, _ = opened(tmp_path)
    app.frame([key(pygame.K_QUESTION, 0, "?")], 0.0)
    assert isinstance(app.screen, Help)


def test_it_scrolls_by_keys_and_by_wheel(tmp_path: Path) -> None:
    app, page = opened(tmp_path)
    app.frame([key(pygame.K_PAGEDOWN)], 0.0)
    once = page.body.offset
    assert once > 0
    r = page.body.rect
    app.frame([motion(r.x + 9, r.y + 9), wheel(-1)], 0.0)
    assert page.body.offset > once
    app.frame([key(pygame.K_END)], 0.0)
    assert page.body.offset == page.body.overflow


def test_the_contents_lead_to_a_part(tmp_path: Path) -> None:
    app, page = opened(tmp_path)
    line = next(w for w in page.contents.items if w.label == "Hazard: a tree")
    app.focus.set(line)
    app.frame([], 0.0)
    page.contents.reveal(line)
    at = (line.rect.x + 20, line.rect.y + 8)
    app.frame([motion(*at), press(*at), release(*at)], 0.0)
    head = next(w for w in page.body.items if w.label == "Hazard: a tree")
    assert page.body.rect.y <= head.rect.y < page.body.rect.y + 3 * app.theme.target


def test_the_search_leaves_what_holds_its_words_and_esc_brings_all_back(tmp_path: Path) -> None:
    app, page = opened(tmp_path)
    all_of_it = shown(page)
    write(app, "overhang")
    assert "overhang_m" in shown(page)
    assert "green_speed_m" not in shown(page)
    assert len(page.contents.items) == 2
    write(app, "zzz")
    assert "Nothing in the guide" in shown(page)
    app.frame([ESC], 0.0)
    if page.search.text:
        app.frame([ESC], 0.0)
    assert isinstance(app.screen, GuidePage)
    assert shown(page) == all_of_it


@pytest.mark.parametrize(("w", "h", "scale"), SIZES)
@pytest.mark.parametrize("dark", [False, True])
def test_it_fits(w: int, h: int, scale: float, dark: bool, tmp_path: Path) -> None:
    app, page = opened(tmp_path, (w, h), text_scale=scale, dark=dark)
    room = app.box
    for widget in page.widgets:
        r = widget.rect
        assert room.x <= r.x
        assert r.right <= room.right + 0.5
        assert r.bottom <= room.bottom + 0.5
    for row in page.body.items:
        assert row.rect.right <= page.body.rect.right + 0.5
        assert row.rect.h >= row.height(app.theme, row.rect.w) - 0.5
    buttons = [b for b in walk(page.widgets) if b.focusable and b.rect.overlaps(room)]
    assert all(b.rect.h >= 24 for b in buttons)
