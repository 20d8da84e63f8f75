"""The pupil's answer on screen: what is shown, struck and added is what the file holds, and nothing else."""

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pygame
import pytest
from practised import SCENARIO, START, made_up
from ui_events import key, press, release

from game.answering import draft, screen
from game.answering.line_list import PAGE, LineList
from game.answering.screen import AnswerPage, answer_page
from game.app.frame import App
from game.handout import places
from game.library.notebook.pages import outside_of
from game.library.settings import Settings
from game.text.answer import ASKS_PARENT, NOTHING_YET
from game.ui import file_buttons
from game.ui.clipboard import paste
from game.ui.safety import SafetyPage
from game.ui.textfield import TextField
from game.ui.widget import walk
from levels import answers
from levels.answers import AnswerFile, read_answer
from levels.attempts import NamedCause

ENTER, SPACE, DOWN = key(pygame.K_RETURN), key(pygame.K_SPACE, 0, " "), key(pygame.K_DOWN)
WRITE, ESC = key(pygame.K_s, pygame.KMOD_CTRL), key(pygame.K_ESCAPE)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(places, "user_pictures_path", lambda: tmp_path / "pictures")
    return tmp_path / "pictures"


def opened(tmp_path: Path, count: int = 5, size: tuple[int, int] = (1280, 800), **more: object) -> App:
    settings = Settings(reduced_motion=True, **more)  # type: ignore[arg-type]
    app = App.headless(size, settings, "Settings", tmp_path / "pupil")
    for i in range(count):
        one = made_up(i, player=app.player, met=i % 2 == 0, when=START + timedelta(days=i))
        app.book.log(replace(one, assignment="winter-1", cause=NamedCause("a", "a")))
    app.book.log(made_up(98, player=app.player))  # belongs to no assignment
    app.book.log(replace(made_up(99, player="Zoë"), assignment="winter-1"))
    answer_page(app, "winter-1", "Winter brush")
    app.frame([], 0.016)
    return app


@pytest.fixture
def app(tmp_path: Path, folder: Path) -> Iterator[App]:
    made = opened(tmp_path)
    yield made
    made.close()


def lines(app: App) -> LineList:
    return next(w for w in walk(app.screen.widgets) if isinstance(w, LineList))


def struck(app: App) -> list[bool]:
    return [lines(app).struck(i) for i in range(len(lines(app).lines))]


def said(app: App) -> str:
    return "\n".join(w.caption for w in walk(app.screen.widgets))


def written(folder: Path) -> AnswerFile:
    (file,) = folder.iterdir()
    return read_answer(file)


def press_on(app: App, label: str) -> None:
    """A click on the widget of that name."""
    widget = next(w for w in walk(app.screen.widgets) if w.label == label)
    at = (widget.rect.x + widget.rect.w / 2, widget.rect.y + widget.rect.h / 2)
    app.frame([press(*at), release(*at)], 0.016)


def field(app: App, label: str) -> TextField:
    return next(w for w in walk(app.screen.widgets) if isinstance(w, TextField) and w.label == label)


def test_every_line_is_shown_and_a_struck_one_stays_out(app: App, folder: Path) -> None:
    assert struck(app) == [False] * 5
    assert "5 lines go into the file." in said(app)
    assert not folder.exists()
    app.frame([SPACE, DOWN, DOWN, SPACE, DOWN, SPACE, SPACE], 0.016)
    assert struck(app) == [True, False, True, False, False]
    assert "3 lines go into the file, 2 struck out." in said(app)
    app.frame([WRITE], 0.016)
    answer = written(folder)
    assert [line.day for line in answer.attempts] == [date(2025, 11, 4), date(2025, 11, 6), date(2025, 11, 7)]
    assert [line.met for line in answer.attempts] == [False, False, True]
    (file,) = folder.iterdir()
    assert app.toast.sentence == f"Your answer is in {file}; send that file to your coach."


def test_among_thousands_the_keys_and_the_pointer_find_their_line(tmp_path: Path, folder: Path) -> None:
    """All are there, only those in sight are drawn, and what has the focus is in sight."""
    app = opened(tmp_path, 400)
    drawn: list[int] = []
    each = lines(app)
    draw_line = each._draw_line
    each._draw_line = lambda surface, theme, number: (  # type: ignore[method-assign]
        drawn.append(number), draw_line(surface, theme, number))[1]  # fmt: skip
    app.frame([key(pygame.K_END)], 0.016)
    assert each.at == 399
    assert 0 < len(drawn) < 60
    assert 399 in drawn
    app.frame([SPACE, key(pygame.K_PAGEUP), key(pygame.K_UP)], 0.016)
    assert app.box.y < each.in_focus.y < each.in_focus.bottom < app.box.bottom
    row = each.box(each.at + 3)
    offset = app.screen._left.offset
    app.focus.set(field(app, "Name or code"))
    app.frame([press(row.x + 40, row.y + 8), release(row.x + 40, row.y + 8)], 0.016)
    assert app.screen._left.offset == offset  # the click went where it was seen
    assert [i for i, out in enumerate(struck(app)) if out] == [399 - PAGE - 1 + 3, 399]
    app.frame([key(pygame.K_HOME)], 0.016)
    assert app.screen._left.offset == 0.0
    app.close()


def test_more_than_a_file_holds_is_shown_and_said(
    tmp_path: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for module in (draft, screen, answers):
        monkeypatch.setattr(module, "MOST_LINES", 3)
    app = opened(tmp_path, 5)
    assert struck(app) == [True, True, False, False, False]
    assert "3 lines go into the file, 2 struck out." in said(app)
    assert "The file holds 3 lines at most: the oldest 2 are struck out." in said(app)
    app.frame([WRITE], 0.016)
    assert [line.day for line in written(folder).attempts] == [date(2025, 11, d) for d in (5, 6, 7)]
    app.close()


def test_a_click_strikes_a_line_too(app: App) -> None:
    row = lines(app).box(1)
    at = (row.x + 30, row.y + 8)
    app.frame([press(*at), release(*at)], 0.016)
    assert struck(app) == [False, True, False, False, False]


def test_the_file_has_days_and_no_times_paths_or_machine(app: App, folder: Path, tmp_path: Path) -> None:
    app.frame([WRITE], 0.016)
    (file,) = folder.iterdir()
    text = file.read_text(encoding="utf-8")
    assert str(tmp_path) not in text
    assert "18:3" not in text
    data = json.loads(text)
    assert set(data) == {"format", "assignment", "pupil", "outside", "attempts"}
    assert {line["task"] for line in data["attempts"]} == {SCENARIO}
    assert data["pupil"] == app.player


def test_the_name_of_the_file_is_copied_and_its_folder_opened(
    app: App, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[Path] = []
    monkeypatch.setattr(file_buttons, "open_folder", lambda place: not shown.append(place))
    assert "Copy its name" not in said(app)
    app.frame([WRITE], 0.016)
    app.frame([], 0.016)
    press_on(app, "Copy its name")
    (file,) = folder.iterdir()
    assert paste() == str(file)
    press_on(app, "Open its folder")
    assert shown == [folder]
    monkeypatch.setattr(file_buttons, "open_folder", lambda place: False)
    press_on(app, "Open its folder")
    assert app.toast.sentence == f"Nothing here opens folders; the file is in {folder}"


def test_nothing_is_ever_written_over(app: App, folder: Path) -> None:
    app.frame([WRITE, WRITE, WRITE], 0.016)
    assert len({file.read_text() for file in folder.iterdir()}) == 1
    assert len(list(folder.iterdir())) == 3


def test_a_name_is_chosen_and_an_empty_one_is_told(app: App, folder: Path) -> None:
    name = field(app, "Name or code")
    app.focus.set(name)
    app.frame([key(pygame.K_a, pygame.KMOD_CTRL), key(pygame.K_BACKSPACE), WRITE], 0.016)
    assert app.toast.sentence.startswith("answer, pupil: ")
    assert not folder.exists()
    app.frame([pygame.event.Event(pygame.TEXTINPUT, text=c) for c in "R 7"], 0.016)
    app.frame([WRITE], 0.016)
    assert written(folder).pupil == "R 7"


def test_words_of_ones_own_are_off_until_asked(app: App, folder: Path) -> None:
    assert "Your words" not in said(app)
    app.screen._say("kept to myself")
    app.frame([WRITE], 0.016)
    assert written(folder).words == ""
    press_on(app, "Add words of my own")
    assert app.focus.widget is field(app, "Your words")
    app.frame([WRITE], 0.016)
    assert sorted(read_answer(file).words for file in folder.iterdir()) == ["", "kept to myself"]


def test_a_drill_outside_is_told_after_the_cautions(app: App, folder: Path) -> None:
    press_on(app, "Tell of a drill outside")
    assert isinstance(app.screen, SafetyPage)
    app.frame([ENTER], 0.016)
    assert isinstance(app.screen, AnswerPage)
    assert app.focus.widget is field(app, "Shots")
    for label, text in (("Shots", "20"), ("Came off", "25")):
        app.focus.set(field(app, label))
        app.frame([pygame.event.Event(pygame.TEXTINPUT, text=text)], 0.016)
    press_on(app, "Add this drill")
    assert field(app, "Came off").problem == "25 is more than the shots; allowed: 0 to 20."
    assert outside_of(app.book, app.player, "winter-1") == ()
    app.focus.set(field(app, "Came off"))
    app.frame([key(pygame.K_BACKSPACE), key(pygame.K_BACKSPACE)], 0.016)
    app.frame([pygame.event.Event(pygame.TEXTINPUT, text="12"), ENTER], 0.016)
    assert outside_of(app.book, app.player, "winter-1") == ((date.today(), 20, 12),)
    assert len(struck(app)) == 6
    app.frame([WRITE], 0.016)
    told = written(folder).outside
    assert [(one.shots, one.came_off) for one in told] == [(20, 12)]
    press_on(app, "Cautions again")
    assert isinstance(app.screen, SafetyPage)


@pytest.mark.parametrize(
    ("day", "told"), [("soon", "is no day"), ("2999-01-01", "is not over yet"), ("", "is no day")]
)
def test_a_day_that_is_none_is_told_under_its_field(app: App, day: str, told: str) -> None:
    app.change(safety_read=True)
    press_on(app, "Tell of a drill outside")
    app.screen.form.values.update(day=day, shots="3", came_off="3")
    app.screen.form.tell()
    assert told in field(app, "Day").problem
    assert outside_of(app.book, app.player, "winter-1") == ()


def test_for_a_junior_a_parent_writes_it(tmp_path: Path, folder: Path) -> None:
    for detail in ("junior", "player"):
        app = opened(tmp_path / detail, detail=detail)
        assert (ASKS_PARENT in said(app)) is (detail == "junior")
        app.close()


def test_nothing_played_is_said(tmp_path: Path, folder: Path) -> None:
    app = opened(tmp_path, 0)
    assert NOTHING_YET in said(app)
    app.close()


@pytest.mark.parametrize(("size", "scale"), [((1024, 640), 1.0), ((1024, 640), 2.0), ((1920, 1080), 1.0)])
def test_all_is_reached_by_tab_at_every_size(
    tmp_path: Path, folder: Path, size: tuple[int, int], scale: float
) -> None:
    app = opened(tmp_path, 5, size, text_scale=scale, dark=True)
    seen = set()
    for _ in range(20):
        if app.focus.widget:
            seen.add(app.focus.widget.label)
            assert app.focus.widget.in_focus.bottom <= app.box.bottom + 1.0
        app.frame([key(pygame.K_TAB)], 0.016)
    assert {"Name or code", "Add words of my own", "Tell of a drill outside", "Write the file"} <= seen
    app.frame([ESC], 0.016)
    assert not isinstance(app.screen, AnswerPage)
    app.close()
