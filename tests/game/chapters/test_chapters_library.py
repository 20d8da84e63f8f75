"""The chapter page and the library: own scenarios and packs beside the built-in chapters, files taken in."""

from datetime import date, timedelta
from functools import partial
from itertools import combinations
from pathlib import Path

import pygame
import pytest
from ui_events import key

from game.app.frame import App
from game.chapters.coach_note import NotePage, day_words, note_name
from game.chapters.contents import COACH, OWN, STRETCH, ShelfChapter, own_chapters, shelf
from game.chapters.screen import Chapters
from game.library.settings import Settings
from game.library.shelf import Shelf, hand_out
from game.play.screen import Play
from game.text.cautions import cautions
from game.ui import clipboard
from game.ui.safety import SafetyPage
from game.ui.widget import walk
from levels.files import library, load_library, scenario_text
from levels.plan import PracticePlan

TODAY = date(2025, 11, 25)
PLAN = PracticePlan(
    made=TODAY, focus=("Brush the grass", "Handle back where you set it"), drill="Ten from the mat",
    shots=30, successes=20, retest=TODAY + timedelta(9), caution="Mind your left wrist",
)  # fmt: skip
ENTER, ESC = key(pygame.K_RETURN), key(pygame.K_ESCAPE)


def files(folder: Path, count: int, start: int = 0) -> list[Path]:
    folder.mkdir(parents=True, exist_ok=True)
    out = []
    for name in library()[start : start + count]:
        out.append(folder / f"{name}.toml")
        out[-1].write_text(scenario_text(load_library(name)), encoding="utf-8")
    return out


def a_pack(
    tmp_path: Path, count: int = 3, title: str = "Winter brush", plan: PracticePlan | None = PLAN
) -> Path:
    out = tmp_path / f"{title.lower().replace(' ', '-')}.pack.toml"
    hand_out(files(tmp_path / "source", count), plan, out, title=title, words="The handle runs ahead.")
    return out


def opened(home: Path | None, size: tuple[int, int] = (1280, 800), **more: object) -> App:
    app = App.headless(
        size, Settings(reduced_motion=True, **more), partial(Chapters, today=lambda: TODAY), home
    )
    app.frame([], 0.016)
    app.frame([], 0.016)
    return app


def said(app: App) -> str:
    """Every word on the page."""
    return "\n".join(w.label for w in walk(app.screen.widgets))


def drop(app: App, *paths: Path) -> None:
    """Let files fall on the page, and all come of it."""
    for path in paths:
        assert app.screen.handle(pygame.event.Event(pygame.DROPFILE, file=str(path)))
    app.frame([], 0.016)
    app.frame([], 0.016)


def go_to(app: App, tab: str) -> ShelfChapter:
    app.screen.turn(next(i for i, c in enumerate(app.screen.chapters) if c.tab == tab))
    app.frame([], 0.016)
    return app.screen.chapters[app.screen.at]


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


def test_without_a_library_the_page_is_the_built_in_chapters(home: Path) -> None:
    for place in (None, home):
        app = opened(place)
        assert app.screen.chapters == shelf()
        assert not home.exists() or not [p for p in home.iterdir() if p.is_dir()]  # only the notebook


def test_own_scenarios_have_a_chapter_and_can_be_played(home: Path) -> None:
    files(home / "scenarios", 2)
    app = opened(home)
    chapter = go_to(app, OWN)
    assert [k for k, _ in chapter.scenarios] == [f"scenarios/{n}" for n in library()[:2]]
    app.frame([ENTER], 0.016)
    assert isinstance(app.screen, Play)
    assert app.screen.r.key == f"scenarios/{library()[0]}"


def test_a_pack_shows_what_the_coach_plans(home: Path, tmp_path: Path) -> None:
    Shelf(home).take(a_pack(tmp_path))
    app = opened(home)
    go_to(app, COACH)
    words = said(app)
    for part in (
        COACH, "Winter brush", "The handle runs ahead.",
        "Brush the grass. Handle back where you set it.", "Ten from the mat", "20 of 30 shots",
        "Thursday 4 December 2025, in 9 days", f"Mind your left wrist. {cautions()}",
    ):  # fmt: skip
        assert part in words, part
    app.frame([key(pygame.K_RIGHT), ENTER], 0.016)
    app.frame([], 0.016)
    assert isinstance(app.screen, Play)
    assert app.screen.r.key == f"packs/winter-brush/02-{library()[1]}"


def test_the_cautions_are_read_before_the_drill_once_and_again_when_asked(
    home: Path, tmp_path: Path
) -> None:  # fmt: skip
    Shelf(home).take(a_pack(tmp_path))
    app = opened(home)
    go_to(app, COACH)
    read = key(pygame.K_p, 0, "p")
    app.frame([read], 0.016)
    assert isinstance(app.screen, SafetyPage)
    app.frame([ENTER], 0.016)
    assert isinstance(app.screen, NotePage)
    app.frame([key(pygame.K_c, 0, "c")], 0.016)
    assert isinstance(app.screen, SafetyPage)
    app.frame([ESC], 0.016)
    app.frame([ESC], 0.016)
    app.frame([read], 0.016)
    assert isinstance(app.screen, NotePage)


def test_a_pack_without_plan_or_words_needs_no_note(home: Path, tmp_path: Path) -> None:
    out = tmp_path / "p.pack.toml"
    hand_out(files(tmp_path / "source", 2), None, out)
    Shelf(home).take(out)
    app = opened(home)
    assert note_name(go_to(app, COACH)) == ""
    assert app.screen._land.w > 1000


def test_bad_files_are_named_once_and_the_rest_loads(home: Path) -> None:
    files(home / "scenarios", 1)
    (home / "scenarios" / "bad.toml").write_text("format = 1", encoding="utf-8")
    app = opened(home)
    assert app.toast.sentence.startswith("bad.toml, ")
    chapter = go_to(app, OWN)
    assert len(chapter.scenarios) == 1
    assert "bad.toml, " in said(app)
    app.toast.hide()
    app.frame([ENTER], 0.016)
    app.frame([ESC], 0.016)
    app.frame([], 0.016)
    assert not app.toast.sentence.startswith("bad.toml")


def test_a_library_of_bad_files_alone_still_has_a_page(home: Path) -> None:
    (home / "scenarios").mkdir(parents=True)
    (home / "packs" / "p").mkdir(parents=True)
    (home / "scenarios" / "bad.toml").write_text("x", encoding="utf-8")
    (home / "packs" / "p" / "01-a.toml").write_text("x", encoding="utf-8")
    for scale in (1.0, 2.0):
        app = opened(home, (1024, 640), text_scale=scale)
        for tab, name in ((OWN, "bad.toml, line 1"), (COACH, "Pack p, 01-a.toml, line 1")):
            assert go_to(app, tab).scenarios == ()
            assert name in said(app)
            app.frame([ENTER, key(pygame.K_RIGHT), key(pygame.K_TAB)], 0.016)
            assert isinstance(app.screen, Chapters)


def test_a_dropped_file_is_taken_in_and_shown(home: Path, tmp_path: Path) -> None:
    app = opened(home)
    path = a_pack(tmp_path)
    drop(app, path)
    assert app.toast.sentence == "'Winter brush' is in your library with 3 scenarios."
    assert app.screen.chapters[app.screen.at].title == "Winter brush"
    assert app.focus.widget is app.screen._stations[0]
    one = files(tmp_path / "more", 1, 7)[0]
    drop(app, one)
    assert app.screen.chapters[app.screen.at].title == OWN
    assert app.screen._chosen.key == f"scenarios/{one.stem}"


def test_two_files_dropped_at_once_are_both_taken(home: Path, tmp_path: Path) -> None:
    app = opened(home)
    paths = files(tmp_path / "more", 2, 7)
    drop(app, *paths)
    assert sorted(p.name for p in (home / "scenarios").iterdir()) == sorted(p.name for p in paths)
    assert len(go_to(app, OWN).scenarios) == 2


def test_a_refused_file_is_told_and_nothing_moves(home: Path, tmp_path: Path) -> None:
    app = opened(home)
    (tmp_path / "x.toml").write_text("nonsense", encoding="utf-8")
    before = app.screen.at
    drop(app, tmp_path / "x.toml")
    assert app.toast.sentence.startswith("x.toml, line 1: is not TOML: ")
    assert app.screen.at == before
    assert not (home / "scenarios").exists()


def test_a_copied_file_name_is_taken_by_a_key(home: Path, tmp_path: Path) -> None:
    app = opened(home)
    paste = key(pygame.K_v, pygame.KMOD_LCTRL)
    clipboard.copy("")
    app.frame([paste], 0.016)
    assert app.toast.sentence.startswith("Drop a scenario or pack")
    clipboard.copy(f'"{a_pack(tmp_path)}"\n')
    app.frame([paste], 0.016)
    app.frame([], 0.016)
    assert app.screen.chapters[app.screen.at].title == "Winter brush"


def test_without_a_home_nothing_is_taken(tmp_path: Path) -> None:
    app = opened(None)
    drop(app, a_pack(tmp_path))
    assert app.toast.sentence == "There is no library to import a file into."


def test_long_packs_are_walked_in_stretches(home: Path, tmp_path: Path) -> None:
    Shelf(home).take(a_pack(tmp_path, 20))
    chapters = own_chapters(Shelf(home))
    assert [c.title for c in chapters] == [f"Winter brush, part {i} of 3" for i in (1, 2, 3)]
    assert max(len(c.scenarios) for c in chapters) <= STRETCH
    assert sum(len(c.scenarios) for c in chapters) == 20
    assert all(c.plan == PLAN for c in chapters)
    app = opened(home)
    go_to(app, COACH)
    app.frame([key(pygame.K_PAGEDOWN)], 0.016)
    assert app.screen.chapters[app.screen.at].title == "Winter brush, part 2 of 3"


def test_a_changed_file_is_seen_on_coming_back_and_begins_anew(home: Path) -> None:
    path = files(home / "scenarios", 1)[0]
    app = opened(home)
    go_to(app, OWN)
    app.frame([ENTER], 0.016)
    first = app.screen
    path.write_text(scenario_text(load_library(library()[3])), encoding="utf-8")
    app.frame([ESC], 0.016)
    app.frame([], 0.016)
    assert app.screen.chapters[app.screen.at].tab == OWN
    app.frame([ENTER], 0.016)
    assert app.screen is not first
    assert app.screen.r.scenario.title == load_library(library()[3]).title


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800)])
@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
def test_nothing_overlaps_and_the_care_is_in_sight(
    size: tuple[int, int], scale: float, home: Path, tmp_path: Path
) -> None:
    Shelf(home).take(a_pack(tmp_path, 5))
    Shelf(home).take(a_pack(tmp_path, 12, "Twelve lies"))
    app = opened(home, size, text_scale=scale, safety_read=True)
    for i, chapter in enumerate(app.screen.chapters):
        if not chapter.tab:
            continue
        app.screen.turn(i)
        app.frame([], 0.016)
        whole = [w for w in app.screen.widgets if w.rect.w > 0]
        for a, b in combinations(whole, 2):
            assert not a.rect.inset(0.6).overlaps(b.rect.inset(0.6)), (a.label, b.label)
        for w in whole:
            assert app.box.holds(w.rect, 1.0), (w.label, w.rect)
            assert not w.focusable or min(w.rect.w, w.rect.h) >= 24
        if app.screen._side:
            assert any(cautions() in w.label for w in whole)
        else:
            app.frame([key(pygame.K_p, 0, "p")], 0.016)
            assert isinstance(app.screen, NotePage)
            assert cautions() in said(app)
            app.frame([key(pygame.K_END)], 0.016)
            care = next(w for w in walk(app.screen.widgets) if cautions() in w.label)
            assert care.rect.bottom <= app.box.bottom
            app.frame([ENTER], 0.016)
            assert isinstance(app.screen, Chapters)


def test_days_are_said_as_people_say_them() -> None:
    assert day_words(TODAY, TODAY) == "Tuesday 25 November 2025, today"
    assert day_words(TODAY + timedelta(1), TODAY).endswith("26 November 2025, tomorrow")
    assert day_words(TODAY, TODAY + timedelta(1)).endswith(", yesterday")
    assert day_words(TODAY, TODAY + timedelta(3)).endswith(", 3 days ago")
