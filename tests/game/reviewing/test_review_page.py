"""The review on screen: what it says, the error shot, the next assignment, and files that are none."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pygame
import pytest
from practised import SCENARIO, START, made_up, real_attempt
from ui_events import key, press, release

from game.app.frame import NO_ANSWER, App
from game.bench import Bench
from game.builder.ui.chooser import Chooser
from game.builder.ui.share_page import SharePage
from game.builder.ui.share_warnings import ShareWarnings
from game.handout import places
from game.library.assignments import ASSIGNMENTS, assignment_of, keep_assignment
from game.library.settings import Settings
from game.reviewing.screen import ReviewPage
from game.reviewing.task_row import TaskRow
from game.reviewing.try_marks import mark_pitch
from game.text.answered import error_name
from game.ui import TextBlock
from game.ui.clipboard import copy
from game.ui.widget import walk
from levels.answers import answer_of, write_answer
from levels.attempts import NamedCause
from levels.draft import library_text
from levels.files import load_library
from levels.packs import Member, Pack, read_pack, write_pack
from levels.plan import PracticePlan
from physics.address import CONTROLS, Intention

OTHER = "harrow-fen-front-pin"
PLAN = PracticePlan(
    made=date(2025, 11, 1), focus=("Brush",), drill="Ten", shots=10, successes=6, retest=date(2025, 11, 10)
)  # fmt: skip
PACK = Pack(
    "Winter", tuple(Member(n, library_text(n), load_library(n)) for n in (SCENARIO, OTHER)), "", PLAN,
    id="winter-1",
)  # fmt: skip
ENTER, S, ESC = key(pygame.K_RETURN), key(pygame.K_s, 0, "s"), key(pygame.K_ESCAPE)
WRITE = key(pygame.K_s, pygame.KMOD_CTRL)


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(places, "user_pictures_path", lambda: tmp_path / "pictures")
    return tmp_path / "coach"


@pytest.fixture
def sent(tmp_path: Path) -> Path:
    """Twelve tries of one task on two days; the misses had another set-up than the coach's."""
    made = [
        replace(
            made_up(i, met=i % 3 == 0, gap=2.0 - 0.1 * i, when=START + timedelta(days=i // 6)),
            assignment="winter-1", cause=NamedCause("a", "a" if i < 3 else "b") if i < 4 else None,
        )
        for i in range(12)
    ]  # fmt: skip
    path = tmp_path / "answer.txt"
    outside = [(date(2025, 11, 4), 20, 12)]
    write_answer(path, answer_of(made, "winter-1", "R. B.", outside=outside))
    return path


def opened(home: Path, size: tuple[int, int] = (1280, 800), **more: object) -> App:
    app = App.headless(size, Settings(reduced_motion=True, **more), "Builder", home)  # type: ignore[arg-type]
    app.frame([], 0.016)
    return app


@pytest.fixture
def app(home: Path) -> Iterator[App]:
    keep_assignment(home, PACK)
    made = opened(home)
    yield made
    made.close()


def drop(app: App, path: Path) -> None:
    app.frame([pygame.event.Event(pygame.DROPFILE, file=str(path))], 0.016)
    app.frame([], 0.016)


def said(app: App) -> str:
    words = [w.caption for w in walk(app.screen.widgets)]
    return "\n".join(words)


def test_an_answer_dropped_anywhere_opens_its_review(app: App, sent: Path) -> None:
    drop(app, sent)
    assert isinstance(app.screen, ReviewPage)
    words = said(app)
    for told in (
        "R. B.: 12 shots on 2 days", "12 tries on 2 days, goal met in 4 of 12; not passed yet.",
        "Predictions 1.8 m off at first, 1.1 m at last.", "Cause named right 3 of 4 times.",
        "Practised: 3 Nov, 4 Nov", "Drill: 10 shots planned; that many on no day",
        "Outside: 4 Nov, 12 of 20 came off, as the player tells it", "no measure of skill", "Not tried.",
    ):  # fmt: skip
        assert told in words, told
    assert "star" not in words.lower()
    app.frame([ESC], 0.016)
    assert not isinstance(app.screen, ReviewPage)


def test_all_fits_one_page_at_the_usual_size(app: App, sent: Path) -> None:
    drop(app, sent)
    assert isinstance(app.screen, ReviewPage)
    assert not any(getattr(w, "overflow", 0.0) for w in walk(app.screen.widgets))


@pytest.mark.parametrize(
    ("size", "more"),
    [((1024, 640), {"text_scale": 2.0}), ((1920, 1080), {"dark": True}), ((1024, 640), {"units": "yd"})],
)
def test_every_size_draws_and_is_reached_by_keys(
    home: Path, sent: Path, size: tuple[int, int], more: dict[str, object]
) -> None:
    keep_assignment(home, PACK)
    app = opened(home, size, **more)
    drop(app, sent)
    stops = [w for w in walk(app.screen.widgets) if w.focusable]
    assert any(isinstance(w, TaskRow) for w in stops)
    assert any(w.label == "Next assignment" for w in stops)
    app.close()


def test_the_error_shot_comes_back_on_the_bench(app: App, sent: Path) -> None:
    drop(app, sent)
    row = next(w for w in walk(app.screen.widgets) if isinstance(w, TaskRow) and w.task.error)
    assert "than in the coach's set-up" in row.caption
    page = app.screen
    at = (row.rect.x + 20, row.rect.y + 10)
    app.frame([press(*at), release(*at)], 0.016)
    app.frame([], 0.016)
    assert isinstance(app.screen, Bench)
    assert app.toast.sentence == f"R. B., After the rain. In 8 of 8 misses: {error_name(row.task)}."
    assert app.toast.sentence.endswith(row.error)
    make = app.screen.take_home._maker(date(2026, 11, 27))  # the page is of that error
    assert make is not None
    page_of = make(False)
    control = row.task.error.control
    reference = load_library(SCENARIO).reference_shot()
    assert reference is not None
    assert Intention(page_of.first.shot.setup, page_of.first.shot.motion).value(control) == pytest.approx(
        Intention(*reference).value(control)
    )
    assert page_of.second.shot.setup == made_up(0).intention.setup
    assert page_of.pupil == "R. B."
    assert page_of.title.lower().startswith(CONTROLS[control].label)
    shot, kept = app.screen.state.shot, made_up(0)
    assert shot is not None
    assert (shot.setup, shot.seed) == (kept.intention.setup, kept.seed)
    assert shot.run.rest == real_attempt().result.rest  # the pupil's own shot, to the last digit
    app.toast.hide()
    app.frame([ESC], 0.016)
    assert app.screen is page


@pytest.fixture
def user(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    place = tmp_path / "user"
    (place / "Documents").mkdir(parents=True)
    for name in ("HOME", "USERPROFILE"):
        monkeypatch.setenv(name, str(place))
    return place


def keys(app: App, *events: pygame.event.Event) -> None:
    for event in events:
        app.frame([event], 0.016)
    app.frame([], 0.016)


def test_the_next_assignment_is_changed_and_then_written_once(
    app: App, home: Path, user: Path, sent: Path
) -> None:
    drop(app, sent)
    review, kept = app.screen, set((home / ASSIGNMENTS).iterdir())
    keys(app, S)
    page = app.screen
    assert isinstance(page, SharePage)
    now = page.sharing
    assert [o.key for o in now.chosen] == [SCENARIO, OTHER]
    assert (now.title, now.plan.shots, now.plan.successes) == ("Winter (2)", 10, 6)
    assert "Filled in from the answer of R. B." in said(app)
    for label, text in (("Title", "Spring"), ("Shots", "12"), ("Pass mark", "9")):
        app.focus.set(next(w for w in walk(page.widgets) if w.label == label))
        keys(app, key(pygame.K_a, pygame.KMOD_CTRL), pygame.event.Event(pygame.TEXTINPUT, text=text))
    retest = next(w for w in walk(page.widgets) if w.label == "Retest")
    app.focus.set(retest)
    keys(app, key(pygame.K_DOWN))
    page.turn(next(o for o in page.own if o.key == OTHER))
    page.turn(page.builtin[-1])
    keys(app, WRITE)
    if isinstance(app.screen, ShareWarnings):
        keys(app, key(pygame.K_RIGHT), ENTER)
    assert isinstance(app.screen, Chooser)
    assert set((home / ASSIGNMENTS).iterdir()) == kept  # nothing is kept before it is written
    keys(app, ENTER)
    assert app.screen is review
    made = read_pack(user / "Documents" / "spring.pack.toml")
    assert [m.name for m in made.members] == [SCENARIO, page.builtin[-1].key]
    assert made.members[0].text == PACK.members[0].text
    assert made.plan
    assert (made.plan.shots, made.plan.successes) == (12, 9)
    assert (made.plan.retest - made.plan.made).days == 8
    assert made.id not in ("", "winter-1")
    assert assignment_of(home, made.id) == made
    keys(app, S)
    assert "already" in app.toast.sentence
    assert "Open its folder" in said(app)


def test_going_back_writes_and_keeps_nothing(app: App, home: Path, user: Path, sent: Path) -> None:
    drop(app, sent)
    review, kept = app.screen, set((home / ASSIGNMENTS).iterdir())
    keys(app, S, ESC)
    assert app.screen is review
    assert set((home / ASSIGNMENTS).iterdir()) == kept
    assert list(user.rglob("*.toml")) == []


def test_an_assignment_without_a_plan_asks_for_the_next_answer_too(
    app: App, home: Path, user: Path, tmp_path: Path
) -> None:
    keep_assignment(home, replace(PACK, id="plain-1", plan=None))
    path = tmp_path / "plain.json"
    write_answer(path, answer_of([], "plain-1", "R. B."))
    drop(app, path)
    keys(app, S)
    assert "Ask for an answer" in said(app)
    keys(app, WRITE)
    if isinstance(app.screen, ShareWarnings):
        keys(app, key(pygame.K_RIGHT), ENTER)
    keys(app, ENTER)
    (file,) = user.rglob("*.pack.toml")
    assert read_pack(file).id
    assert read_pack(file).plan is None


def test_without_its_pack_the_answer_waits_and_a_dropped_pack_is_taken(
    home: Path, sent: Path, tmp_path: Path
) -> None:  # fmt: skip
    app = opened(home)
    drop(app, sent)
    assert isinstance(app.screen, ReviewPage)
    assert "Drop the pack on this window too" in said(app)
    write_pack(tmp_path / "other.pack.toml", replace(PACK, id="winter-2"))
    drop(app, tmp_path / "other.pack.toml")
    assert "needs the one with the id winter-1" in app.toast.sentence
    assert app.screen.read.found is None
    write_pack(tmp_path / "own.pack.toml", PACK)
    drop(app, tmp_path / "own.pack.toml")
    assert "12 shots on 2 days" in said(app)
    assert len(list((home / ASSIGNMENTS).iterdir())) == 1
    app.close()


def test_several_answers_dropped_together_wait_for_each_other_and_for_one_pack(
    home: Path, sent: Path, tmp_path: Path
) -> None:  # fmt: skip
    other = tmp_path / "second.json"
    write_answer(other, answer_of([], "winter-1", "Second"))
    write_pack(tmp_path / "own.pack.toml", PACK)
    app = opened(home)
    app.frame([pygame.event.Event(pygame.DROPFILE, file=str(p)) for p in (sent, other)], 0.016)
    app.frame([], 0.016)
    app.frame([], 0.016)
    assert "Second answers an assignment" in said(app)
    drop(app, tmp_path / "own.pack.toml")
    assert "Second: 0 shots on 0 days" in said(app)
    app.frame([ESC], 0.016)
    app.frame([], 0.016)
    assert "R. B.: 12 shots on 2 days" in said(app)
    app.close()


@pytest.mark.parametrize("how", ["plain", "quoted", "uri", "file manager"])
@pytest.mark.parametrize("drops", [True, False])
def test_a_named_file_opens_from_every_screen(app: App, sent: Path, how: str, drops: bool) -> None:
    own = sent.rename(sent.with_name("An answer, 100 %.json"))
    name = {
        "plain": str(own), "quoted": f'"{own}"', "uri": own.as_uri(), "file manager": f"copy\n{own.as_uri()}",
    }[how]  # fmt: skip
    app.open("Settings")
    if drops and how in ("plain", "uri"):
        drop(app, Path(name)) if how == "plain" else app.frame(
            [pygame.event.Event(pygame.DROPFILE, file=name)], 0.016
        )
    else:
        copy(name)
        app.frame([key(pygame.K_v, pygame.KMOD_CTRL)], 0.016)
        copy("")
    app.frame([], 0.016)
    assert isinstance(app.screen, ReviewPage)


def test_ctrl_v_on_the_bench_says_what_it_takes(app: App) -> None:
    app.open("Bench")
    for text in ("", "no file at all", "\n\n"):
        copy(text)
        app.toast.hide()
        app.frame([key(pygame.K_v, pygame.KMOD_CTRL)], 0.016)
        assert app.toast.sentence == NO_ANSWER
    copy("")


@pytest.mark.parametrize("size", [(1, 1), (8, 1), (300, 10), (3000, 1)])
def test_marks_of_a_day_fit_their_box(size: tuple[int, int]) -> None:
    count, _ = size
    pitch, rows = mark_pitch(count, 200.0, 40.0, 8.0)
    assert rows * pitch <= 40.0 or rows == 1
    assert -(-count // rows) * pitch <= 200.0 or pitch <= 3.2  # so many that the last ones are shown


@pytest.mark.parametrize(("size", "scale"), [((1024, 640), 2.0), ((1280, 800), 1.0)])
def test_words_without_a_blank_stay_in_their_column(
    home: Path, tmp_path: Path, size: tuple[int, int], scale: float
) -> None:
    keep_assignment(home, PACK)
    own = replace(made_up(1), assignment="winter-1")
    path = tmp_path / "long.json"
    write_answer(path, answer_of([own], "winter-1", "W" * 40, words="m" * 4000))
    app = opened(home, size, text_scale=scale)
    drop(app, path)
    told = [w for w in walk(app.screen.widgets) if isinstance(w, TextBlock)]
    assert any("W" * 8 in w.label for w in told)
    for one in told:
        lines = one.lines(app.theme, one.rect.w)
        assert max(app.theme.type.width(line, one.role) for line in lines) <= one.rect.w
    app.close()
