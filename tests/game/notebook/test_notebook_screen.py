"""The Notebook on the screen: history, lines, the map, the plan, players, a damaged file, two windows."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pygame
import pytest
from practised import SCENARIO, START, made_up, real_attempt
from ui_events import key, typed

from game.app.frame import App
from game.bench import Bench
from game.library.notebook.copies import copy_folder, keep_copy
from game.library.notebook.files import newest
from game.library.notebook.pages import day_lines_of, history
from game.library.notebook.rest import rest_due
from game.library.notebook.store import Notebook
from game.library.settings import Settings
from game.notebook import NotebookScreen
from game.notebook.rows import KeptShotRow
from game.notebook.screen import LOOK, MEND_NOW
from game.notebook.strength_ground import StrengthGround
from game.notebook.strength_page import StrengthPage
from game.play import Play
from game.text.notebook import EMPTY_HISTORY, LAW_CHANGED, UNREADABLE, why_words
from game.ui import Button
from game.ui.textfield import TextField
from game.ui.widget import walk
from levels.attempts import Attempt, attempt_of
from levels.scoring import Prediction
from physics.address import Motion, Setup
from physics.course import level_course
from physics.shot import play
from physics.spread import PLAYERS

TODAY = START.date()
SIZES = [((1024, 640), 1.0), ((1024, 640), 2.0), ((1280, 800), 1.0), ((1920, 1080), 2.0)]
ENTER, ESC = key(pygame.K_RETURN), key(pygame.K_ESCAPE)


class Clock:
    """A clock that stands until it is set."""

    def __init__(self) -> None:
        self.time = 100.0

    def __call__(self) -> float:
        return self.time


def opened(
    home: Path | None, settings: Settings | None = None, size: tuple[int, int] = (1280, 800),
    clock: Callable[[], float] = lambda: 100.0, now: datetime = START + timedelta(days=1),
) -> App:  # fmt: skip
    """The Notebook as on START's day."""

    def screen(app: App) -> NotebookScreen:
        return NotebookScreen(app, lambda: TODAY, clock, lambda: now)

    app = App.headless(size, settings or Settings(), screen, home)
    app.frame([], 0.02)
    return app


def of(app: App) -> NotebookScreen:
    assert isinstance(app.screen, NotebookScreen)
    return app.screen


def rows(app: App) -> list[Attempt]:
    return [w.one for w in walk(app.screen.widgets) if isinstance(w, KeptShotRow)]


def fields(app: App) -> list[TextField]:
    return [w for w in walk(app.screen.widgets) if isinstance(w, TextField)]


def words(app: App) -> str:
    return "\n".join(w.label for w in walk(app.screen.widgets))


def lie_shot(lie: str, seed: int, when: datetime = START, distance: float = 8.0) -> Attempt:
    """A real stroke of the steady player."""
    course = level_course(lie, distance)
    return attempt_of(play(course, Setup(), Motion(), PLAYERS["steady"], seed), "Robin", when)


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """Robin's notebook: two days of real strokes, a called scenario the newest."""
    place = tmp_path / "home"
    with Notebook(place) as book:
        for i, lie in enumerate(("rough", "sand", "fairway")):
            book.log(lie_shot(lie, i, START - timedelta(days=1, minutes=-i)))
        book.log(replace(real_attempt(), uid="a" * 16))
    return place


# ---- history


def test_the_history_is_newest_first_under_its_days(home: Path) -> None:
    app = opened(home)
    assert [one.lie for one in rows(app)][1:] == ["fairway", "sand", "rough"]
    assert rows(app)[0].task.name == SCENARIO
    told = words(app)
    assert told.index("Today, ") < told.index("Yesterday, ")
    captions = [w.caption for w in walk(app.screen.widgets) if isinstance(w, KeptShotRow)]
    assert "Predicted: landing 4.0 m" in captions[0]
    assert isinstance(app.focus.widget, KeptShotRow)  # and not a line to be written


def test_words_are_searched_as_they_are_typed(home: Path) -> None:
    app = opened(home)
    app.focus.set(next(field for field in fields(app) if "Search" in field.empty))
    for event in typed("rough"):
        app.frame([event, pygame.event.Event(pygame.TEXTINPUT, text=event.unicode)], 0.02)
    assert [one.lie for one in rows(app)] == ["rough"]
    app.frame([pygame.event.Event(pygame.TEXTINPUT, text="y nowhere")], 0.02)
    assert rows(app) == []
    assert "Nothing has 'roughy nowhere' in it." in words(app)


def test_a_page_of_fifty_and_the_older_ones_behind_it(tmp_path: Path) -> None:
    with Notebook(tmp_path) as book:
        for i in range(60):
            book.log(made_up(i))
    app = opened(tmp_path)
    assert len(rows(app)) == 50
    app.frame([key(pygame.K_END)], 0.02)
    assert [one.uid for one in rows(app)] == [f"{i:016x}" for i in range(9, -1, -1)]
    app.frame([key(pygame.K_HOME)], 0.02)
    assert rows(app)[0].uid == f"{59:016x}"


def test_a_days_line_survives_a_new_start(home: Path) -> None:
    app = opened(home)
    line = next(field for field in fields(app) if "a line" in field.empty)
    app.focus.set(line)
    app.frame([pygame.event.Event(pygame.TEXTINPUT, text="The thin ones are gone.")], 0.02)
    app.close()
    with Notebook(home) as book:
        assert day_lines_of(book, "Robin") == {TODAY: "The thin ones are gone."}
    again = opened(home)
    assert "The thin ones are gone." in [field.text for field in fields(again)]


def test_a_day_without_a_shot_has_a_line_too(tmp_path: Path) -> None:
    with Notebook(tmp_path) as book:
        book.log(made_up(0, when=START - timedelta(days=3)))
    app = opened(tmp_path)
    assert "Today, " in words(app)
    assert sum("a line" in field.empty for field in fields(app)) == 2


# ---- that very shot


def test_a_kept_shot_opens_on_the_bench_and_is_not_written_again(home: Path) -> None:
    app = opened(home)
    one = next(one for one in rows(app) if one.lie == "sand")
    row = next(w for w in walk(app.screen.widgets) if isinstance(w, KeptShotRow) and w.one == one)
    app.focus.set(row)
    app.frame([ENTER], 0.02)
    app.frame([], 0.02)
    bench = app.screen
    assert isinstance(bench, Bench)
    expected = play(level_course("sand", 8.0), Setup(), Motion(), PLAYERS["steady"], 1)
    assert bench.state.shot == expected
    assert bench.state.player == "steady"
    assert len(history(app.book, "Robin")) == 4
    app.frame([ESC], 0.02)
    app.frame([ESC], 0.02)
    assert isinstance(app.screen, NotebookScreen)


@pytest.mark.parametrize("changed", [False, True])
def test_it_is_said_when_a_law_has_changed_since(tmp_path: Path, changed: bool) -> None:
    one = lie_shot("fairway", 3)
    if changed:
        one = replace(one, result=replace(one.result, rest=one.result.rest + 0.5))
    with Notebook(tmp_path) as book:
        book.log(one)
    app, said = opened(tmp_path), list[str]()
    app.say = said.append  # type: ignore[method-assign]
    app.frame([ENTER], 0.02)
    assert isinstance(app.screen, Bench)
    assert (LAW_CHANGED in said) is changed


# ---- the map


def page_of_strengths(app: App) -> StrengthPage:
    app.frame([key(pygame.K_2)], 0.02)
    page = of(app).page
    assert isinstance(page, StrengthPage)
    return page


def filled_map(home: Path) -> None:
    """Sixteen cheap strokes off the fairway and as many dear ones from sand, each a copy of a real one."""
    lies = {"fairway": 2.1, "sand": 3.4}
    with Notebook(home) as book:
        for lie, strokes in lies.items():
            real = lie_shot(lie, 1)
            for i in range(16):
                result = replace(real.result, strokes=strokes + 0.01 * (i % 3), solid=i % 4 > 0)
                call = Prediction(stop=real.result.rest + 0.4)
                book.log(replace(real, uid=f"{lie[:4]}{i:012x}", result=result, call=call))


def test_the_map_says_what_to_seek_and_what_to_be_careful_with(tmp_path: Path) -> None:
    filled_map(tmp_path)
    app = opened(tmp_path)
    page = page_of_strengths(app)
    told = words(app)
    assert "To seek: from fairway" in told
    assert "Careful with: from dry sand" in told
    assert "not of your skill" in told
    assert isinstance(app.focus.widget, StrengthGround)
    first = page.ground.field
    app.frame([key(pygame.K_DOWN if page.ground.chosen == 0 else pygame.K_UP)], 0.02)
    assert page.ground.field != first
    assert "16 tries" in words(app)
    assert "Solid: 75 % (51 to 90)" in words(app)
    assert "Predictions were 0.4 m off" in words(app)


def test_too_few_tries_are_said_to_be_too_few(home: Path) -> None:
    app = opened(home)
    page_of_strengths(app)
    assert "1 try of 15: too little to say yet." in words(app)


def test_a_junior_reads_no_numbers(tmp_path: Path) -> None:
    filled_map(tmp_path)
    app = opened(tmp_path, Settings(detail="junior"))
    rows_told = [line for w in walk(app.screen.widgets) if isinstance(w, KeptShotRow) for line in w.words]
    assert rows_told
    assert not any(c.isdigit() for line in rows_told for c in line)
    page_of_strengths(app)
    assert "Strokes to hole out:" not in words(app)
    assert "More than half come off solid." in words(app)


# ---- the plan


def test_the_plan_opens_what_is_next_in_its_part_and_goes_on(home: Path) -> None:
    app = opened(home)
    app.frame([key(pygame.K_3)], 0.02)
    app.frame([], 0.02)
    plan = of(app).today
    assert len(plan.shots) == 24
    assert plan.left[0].part == "blocked"
    assert "0 of 24 shots are played" in words(app)
    assert "It is new. 8 shots in a row" in words(app)
    app.frame([ENTER], 0.02)
    play_screen = app.screen
    assert isinstance(play_screen, Play)
    assert (play_screen.r.key, play_screen.r.practice.part) == (plan.left[0].task, "blocked")
    app.book.log(made_up(50, name=plan.left[0].task, part="blocked"))
    assert play_screen.on_next is not None
    play_screen.on_next()
    assert isinstance(app.screen, Play)
    assert len(plan.left) == 23
    assert plan.why(plan.left[0]).startswith("You have tried it once and not passed it yet.")
    app.book.log(made_up(51, name=plan.left[0].task, part="blocked", passed=True))
    assert plan.why(plan.left[0]).startswith("It is passed by now.")


def test_what_is_passed_today_only_ticks_the_plan_off(home: Path) -> None:
    app = opened(home)
    app.frame([key(pygame.K_3)], 0.02)
    app.frame([], 0.02)
    before = of(app).today.shots
    first = before[0].task
    for i in range(3):
        app.book.log(made_up(50 + i, name=first, part="blocked", passed=True, when=START))
    app.frame([key(pygame.K_1)], 0.02)
    app.frame([key(pygame.K_3)], 0.02)
    app.frame([], 0.02)
    assert of(app).today.shots == before
    assert of(app).today.done == (True,) * 3 + (False,) * 21


def test_a_task_passed_two_days_ago_comes_back_and_it_is_said_why(tmp_path: Path) -> None:
    with Notebook(tmp_path) as book:
        book.log(made_up(0, passed=True, when=START - timedelta(days=2)))
    app = opened(tmp_path)
    app.frame([key(pygame.K_3)], 0.02)
    app.frame([], 0.02)
    plan = of(app).today
    assert {(shot.task, shot.part) for shot in plan.shots if shot.part == "review"} == {(SCENARIO, "review")}
    assert "You passed it 2 days ago" in words(app)
    app.book.log(made_up(9, part="review", when=START))  # one of them played: the others stay planned
    plan.fill()
    app.frame([], 0.02)
    assert plan.done[:2] == (True, False)


def shots_at(home: Path, *minutes: int, player: str = "Robin") -> None:
    """Shots at these minutes after START, as another window writes them."""
    with Notebook(home) as other:
        for minute in minutes:
            other.log(made_up(minute, player=player, when=START + timedelta(minutes=minute)))


def test_a_rest_is_proposed_once_a_sitting_by_what_every_window_plays(tmp_path: Path) -> None:
    def due(minute: float, junior: bool = False, player: str = "Robin") -> bool:
        return rest_due(book, player, junior, START + timedelta(minutes=minute))

    with Notebook(tmp_path) as book:
        shots_at(tmp_path, *range(0, 12, 2))
        for minute in range(12, 20, 2):
            book.log(made_up(minute, when=START + timedelta(minutes=minute)))
        assert not due(19)
        assert due(19, junior=True)
        assert not due(19, junior=True)
        shots_at(tmp_path, *range(60, 82, 2))
        assert due(81)
        assert not due(81)
        assert not due(81, player="Ida")
        shots_at(tmp_path, *range(120, 142, 2))
        assert not due(170)  # rested


def test_a_sitting_goes_on_over_midnight(tmp_path: Path) -> None:
    with Notebook(tmp_path) as book:
        shots_at(tmp_path, *range(5 * 60 + 15, 5 * 60 + 40, 2))  # from a quarter past eleven in the evening
        assert len({one.day for one in history(book, "Robin")}) == 2
        assert rest_due(book, "Robin", False, START + timedelta(minutes=5 * 60 + 40))


@pytest.mark.parametrize(("later", "told"), [(1, True), (60, False)])
def test_the_notebook_proposes_a_rest_to_one_who_still_plays(tmp_path: Path, later: int, told: bool) -> None:
    with Notebook(tmp_path) as book:
        for minute in range(0, 24, 2):
            book.log(made_up(minute, when=START + timedelta(minutes=minute)))
    app = opened(tmp_path, now=START + timedelta(minutes=22 + later))
    assert app.toast.sentence.startswith("You have practised") is told


# ---- players


def test_another_player_has_a_history_of_their_own(home: Path) -> None:
    with Notebook(home) as book:
        book.add_player("Ida")
    app = opened(home)
    app.frame([key(pygame.K_4)], 0.02)
    app.focus.set(next(w for w in walk(app.screen.widgets) if isinstance(w, Button) and w.label == "Ida"))
    app.frame([ENTER], 0.02)
    assert app.settings.player == app.player == "Ida"
    app.frame([key(pygame.K_1)], 0.02)
    assert rows(app) == []
    assert of(app).empty


@pytest.mark.parametrize(("name", "taken"), [("Grandfather", True), ("=1+1", False), ("x" * 41, False)])
def test_a_player_is_added_or_told_what_a_name_is(home: Path, name: str, taken: bool) -> None:
    app = opened(home)
    app.frame([key(pygame.K_4)], 0.02)
    (field,) = fields(app)
    app.focus.set(field)
    app.frame([pygame.event.Event(pygame.TEXTINPUT, text=name)], 0.02)
    app.frame([ENTER], 0.02)
    assert (name in app.book.players) is taken
    assert app.player == (name if taken else "Robin")
    assert bool(field.problem) is not taken
    assert "Robin" in app.book.players


# ---- the file


def test_a_copy_is_kept_once_a_day(home: Path) -> None:
    app = opened(home)
    assert rows(app)
    assert not copy_folder(home).exists()  # the page is read first: the copy reads the whole file
    app.frame([], 0.02)
    app.frame([], 0.02)
    assert [one.name for one in copy_folder(home).iterdir()] == [f"notebook-{TODAY}.db"]


def test_what_no_version_of_ours_wrote_is_drawn_or_left_out(home: Path) -> None:
    with Notebook(home) as book:
        book.log(replace(made_up(5, when=START), lie="heather"))
        book.connection.execute("UPDATE tallies SET family = 'odd' WHERE lie = 'sand'")
    app = opened(home)
    assert rows(app)[0].lie == "heather"
    app.frame([key(pygame.K_2)], 0.02)
    app.frame([], 0.02)
    ground = next(w for w in walk(app.screen.widgets) if isinstance(w, StrengthGround))
    assert {one.place.lie for one in ground.fields} == {"heather", "rough", "fairway", real_attempt().lie}


def test_a_damaged_file_says_so_and_is_mended_by_one_button(home: Path) -> None:
    assert keep_copy(home, TODAY - timedelta(days=1))
    with Notebook(home) as book:
        book.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    damaged = newest(home)
    damaged.write_bytes(b"no notebook at all" * 400)
    app = opened(home)
    assert EMPTY_HISTORY not in words(app)  # nobody can say that nothing was written
    assert UNREADABLE in words(app)
    assert isinstance(app.focus.widget, Button)
    assert app.focus.widget.label == MEND_NOW
    app.book.log(made_up(77, when=START))
    app.frame([key(pygame.K_2)], 0.02)
    assert "is damaged" in words(app)
    assert "1 shot waits." in words(app)
    button = next(w for w in walk(app.screen.widgets) if isinstance(w, Button) and w.label == MEND_NOW)
    button.on_press()
    app.frame([], 0.02)
    assert app.toast.sentence.startswith("The notebook is mended: 4 from the copy")
    assert app.book.state == "open"
    assert not any(isinstance(w, Button) and w.label == MEND_NOW for w in walk(app.screen.widgets))
    assert len(history(app.book, "Robin")) == 5  # with the one that waited
    assert damaged.read_bytes().startswith(b"no notebook")


def test_what_another_window_writes_shows_up_by_itself(home: Path) -> None:
    clock = Clock()
    app = opened(home, clock=clock)
    app.frame([], 0.02)
    with Notebook(home) as other:
        other.log(made_up(99, when=START + timedelta(hours=1)))
    clock.time += LOOK / 2
    app.frame([], 0.02)
    assert len(rows(app)) == 4
    clock.time += LOOK
    app.frame([], 0.02)
    assert len(rows(app)) == 5
    assert app.screen.due == LOOK  # an idle window wakes for it


def test_an_empty_notebook_says_what_will_be_here() -> None:
    app = opened(None)
    assert EMPTY_HISTORY in words(app)
    assert EMPTY_HISTORY.count(". ") == 1  # two sentences
    app.frame([ENTER], 0.02)
    assert app.screen.title == "Play"


@pytest.mark.parametrize(("size", "scale"), SIZES)
@pytest.mark.parametrize("full", [False, True])
def test_every_page_stays_in_its_window(home: Path, size: tuple[int, int], scale: float, full: bool) -> None:
    app = opened(home if full else None, Settings(text_scale=scale), size)
    for code in (pygame.K_1, pygame.K_2, pygame.K_3, pygame.K_4):
        app.frame([key(code)], 0.02)
        app.frame([], 0.02)
        for w in app.screen.widgets:
            assert w.rect.x >= 0, type(w).__name__
            assert w.rect.right <= size[0] + 0.5, type(w).__name__
            assert w.rect.bottom <= app.box.bottom + 0.5, type(w).__name__


def test_a_review_says_how_long_ago_the_task_was_passed() -> None:
    assert "1 day ago" in why_words("review", 0, 1)
    assert "7 days" in why_words("review", 1, 9)
    assert "28 days" in why_words("review", 3, 40)
