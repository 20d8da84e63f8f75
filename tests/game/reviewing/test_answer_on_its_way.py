"""An answer on its way: handed out on the Builder's page, days, another name; and files that came to harm."""

import json
import random
from collections.abc import Callable, Iterator
from datetime import date, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pygame
import pytest
from ui_events import key

from game.answering.line_list import LineList
from game.answering.screen import AnswerPage
from game.app.frame import App
from game.builder.model.sharing import PlanForm, Sharing, builtin_offers
from game.builder.ui.chooser import Chooser
from game.builder.ui.screen import Builder
from game.builder.ui.share_page import SharePage
from game.builder.ui.share_warnings import ShareWarnings
from game.chapters.screen import Chapters
from game.handout import places
from game.library.assignments import assignment_of
from game.library.notebook.pages import attempts_of
from game.library.settings import Settings
from game.library.shelf import HeldPack, Shelf
from game.reviewing.screen import ReviewPage
from game.ui.widget import walk
from levels.answers import AnswerError, answer_of, answer_text, parse_answer, read_answer
from levels.attempts import attempt_of, task_of
from levels.packs import Pack, read_pack
from levels.scoring import Prediction, judge
from physics.shot import play
from physics.spread import PLAYERS

NAMES = ("harrow-fen-after-rain", "harrow-fen-front-pin")
PUPIL, CODE = "Robin", "R7"
CTRL = pygame.KMOD_LCTRL
ENTER, ESC, SPACE, RIGHT = (
    key(k) for k in (pygame.K_RETURN, pygame.K_ESCAPE, pygame.K_SPACE, pygame.K_RIGHT)
)
WRITE = key(pygame.K_s, CTRL)
FIRST = datetime(2025, 11, 3, 18, 41, 7, tzinfo=timezone(timedelta(hours=1)))
MUTATIONS = 300


@pytest.fixture
def user(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The home folder of both, with the folders of documents and pictures in it."""
    home = tmp_path / "user"
    (home / "Documents").mkdir(parents=True)
    for name in ("HOME", "USERPROFILE"):
        monkeypatch.setenv(name, str(home))
    monkeypatch.setattr(places, "user_pictures_path", lambda: home / "Pictures")
    return home


def keys(app: App, *events: pygame.event.Event) -> None:
    for event in (*events, None):
        app.frame([event] if event else [], 0.1)


def drop(app: App, path: Path) -> None:
    keys(app, pygame.event.Event(pygame.DROPFILE, file=str(path)))


@pytest.fixture
def coach(tmp_path: Path, user: Path) -> Iterator[App]:
    app = App.headless((1280, 800), Settings(reduced_motion=True), "Builder", tmp_path / "coach")
    yield app
    app.close()


@pytest.fixture
def pupil(tmp_path: Path, user: Path) -> Iterator[App]:
    told = Settings(reduced_motion=True, safety_read=True, player=PUPIL)
    app = App.headless((1280, 800), told, "Play", tmp_path / "pupil")
    app.book.add_player(PUPIL)
    yield app
    app.close()


def handed_out(coach: App, user: Path) -> Path:
    """The coach chooses two scenarios with a plan on the hand-out page and writes the pack."""
    builder = coach.stack[0]
    assert isinstance(builder, Builder)
    builder.show_tab("file")
    coach.focus.set(next(w for w in walk(builder.widgets) if w.label == "Share"))
    keys(coach, ENTER)
    page = coach.screen
    assert isinstance(page, SharePage)
    offers = {o.source: o for o in builtin_offers()}
    retest = (date.today() + timedelta(days=7)).isoformat()
    plan = PlanForm(("Brush the turf", ""), "Ten from here", 10, 6, retest)
    page.host.sharing = Sharing(tuple(offers[name] for name in NAMES), "Winter brush", "Slowly.", True, plan)
    keys(coach, WRITE)
    if isinstance(coach.screen, ShareWarnings):
        keys(coach, RIGHT, ENTER)
    assert isinstance(coach.screen, Chooser)
    keys(coach, ENTER)
    return user / "Documents" / "winter-brush.pack.toml"


def taken_in(pupil: App, pack: Path) -> HeldPack:
    """The pupil drops the pack on the window; it is in the library then."""
    drop(pupil, pack)
    assert pupil.home is not None
    held = [one for one in Shelf(pupil.home).packs() if isinstance(one, HeldPack)]
    return next(one for one in held if one.id == read_pack(pack).id)


def practised(pupil: App, held: HeldPack, shots: int) -> None:
    """So many shots of the first scenario, three a day, written into the notebook."""
    one = held.entries[0]
    for i in range(shots):
        scenario = one.scenario
        shot = play(scenario.course(), scenario.setup(), scenario.motion(), PLAYERS[scenario.player], i)
        when = FIRST + timedelta(days=i // 3, minutes=i)
        pupil.book.log(attempt_of(
            shot, pupil.player, when, task_of(one.key, scenario), judge(scenario, shot),
            call=Prediction(4.0, 8.5, "brush"), assignment=held.id,
        ))  # fmt: skip


def told(app: App) -> str:
    return "\n".join(w.caption for w in walk(app.screen.widgets))


def test_the_answer_holds_what_the_pupil_let_through_and_comes_round(
    coach: App, pupil: App, user: Path, tmp_path: Path
) -> None:  # fmt: skip
    pack = handed_out(coach, user)
    held = taken_in(pupil, pack)
    assert held.id == read_pack(pack).id != ""
    practised(pupil, held, 7)

    chapters = pupil.screen
    assert isinstance(chapters, Chapters)
    chapters.turn(next(i for i, c in enumerate(chapters.chapters) if c.assignment == held.id))
    keys(pupil, key(pygame.K_a, 0, "a"))
    page = pupil.screen
    assert isinstance(page, AnswerPage)
    (lines,) = (w for w in walk(page.widgets) if isinstance(w, LineList))
    assert len(lines.lines) == 7
    pupil.focus.set(lines)
    keys(pupil, key(pygame.K_DOWN), SPACE)
    assert "6 lines go into the file, 1 struck out." in told(pupil)
    assert not (user / "Pictures").exists()
    pupil.focus.set(next(w for w in walk(page.widgets) if w.label == "Name or code"))
    keys(pupil, key(pygame.K_a, CTRL), *(pygame.event.Event(pygame.TEXTINPUT, text=c) for c in CODE))
    keys(pupil, WRITE)
    (sent,) = (user / "Pictures").iterdir()
    assert str(sent) in pupil.toast.sentence

    answer, kept = read_answer(sent), list(attempts_of(pupil.book, PUPIL, assignment=held.id))
    assert (answer.pupil, answer.words, answer.assignment) == (CODE, "", held.id)
    assert [line.seed for line in answer.attempts] == [0, 2, 3, 4, 5, 6]
    assert len(kept) == 7  # what is struck stays in the pupil's own notebook
    text = sent.read_text(encoding="utf-8")
    assert [bad for bad in (PUPIL, "18:4", str(tmp_path), kept[0].uid, "player") if bad in text] == []

    drop(coach, sent)
    review = coach.screen
    assert isinstance(review, ReviewPage)
    words = told(coach)
    assert f"{CODE}: 6 shots on 3 days" in words
    assert "Not tried." in words
    keys(coach, key(pygame.K_s, 0, "s"), WRITE)
    if isinstance(coach.screen, ShareWarnings):
        keys(coach, RIGHT, ENTER)
    keys(coach, ENTER)
    assert coach.screen is review
    made = user / "Documents" / "winter-brush-2.pack.toml"
    following = read_pack(made)
    assert [m.name for m in following.members] == list(NAMES)
    assert following.plan is not None
    assert following.id not in ("", held.id)
    assert coach.home is not None
    assert assignment_of(coach.home, following.id) == following

    pupil.open("Play")  # and round again
    assert taken_in(pupil, made).id == following.id
    assert list(attempts_of(pupil.book, PUPIL, assignment=following.id)) == []


# ---- answers that came to harm

Change = Callable[[random.Random, str], str]
ODD: tuple[Any, ...] = (
    None, True, -1, 0.5, 1e308, 10**40, "", "x" * 5000, "\u202e\x00", [], {}, [[[]]], "../../etc", "NaN",
)  # fmt: skip


def a_letter(chance: random.Random, text: str) -> str:
    at = chance.randrange(len(text))
    return text[:at] + chance.choice('{}[]",:0-e\\\x00é') + text[at + 1 :]


def a_cut(chance: random.Random, text: str) -> str:
    return text[: chance.randrange(len(text))]


def a_hole(chance: random.Random, text: str) -> str:
    a, b = sorted(chance.randrange(len(text)) for _ in range(2))
    return text[:a] + text[b:]


def a_twin(chance: random.Random, text: str) -> str:
    a, b = sorted(chance.randrange(len(text)) for _ in range(2))
    return text[:b] + text[a:]


def a_value(chance: random.Random, text: str) -> str:
    """Another value, key or kind at some place of the sound structure."""
    data = json.loads(text)
    at: Any = data
    while True:
        spot = chance.choice(list(at) if isinstance(at, dict) else range(len(at)))
        if not isinstance(at[spot], dict | list) or not at[spot] or chance.random() < 0.3:
            break
        at = at[spot]
    what = chance.randrange(3)
    if what == 0 and isinstance(at, dict):
        at[chance.choice(("other", "", spot.upper()))] = at.pop(spot)
    elif what == 1:
        del at[spot]
    else:
        at[spot] = chance.choice(ODD)
    return json.dumps(data)


def deep(chance: random.Random, text: str) -> str:
    return text.replace("[", "[" * chance.randrange(2, 20_000), 1)


CHANGES: tuple[Change, ...] = (a_letter, a_cut, a_hole, a_twin, a_value, a_value, a_value, deep)


def files_below(*folders: Path) -> dict[Path, bytes]:
    return {p: p.read_bytes() for folder in folders for p in folder.rglob("*") if p.is_file()}


def a_sound_answer(coach: App, user: Path) -> tuple[Pack, str]:
    pack = read_pack(handed_out(coach, user))
    scenario = pack.members[0].scenario
    made = []
    for i in range(4):
        shot = play(scenario.course(), scenario.setup(), scenario.motion(), PLAYERS[scenario.player], i)
        task = task_of(pack.members[0].name, scenario)
        made.append(attempt_of(shot, PUPIL, FIRST, task, judge(scenario, shot), assignment=pack.id))
    return pack, answer_text(answer_of(made, pack.id, PUPIL, outside=[(date(2025, 11, 4), 10, 4)]))


def test_mutated_answers_get_a_sentence_and_write_nothing(coach: App, user: Path, tmp_path: Path) -> None:
    _, text = a_sound_answer(coach, user)
    assert coach.home is not None
    before = files_below(coach.home, user)
    chance, refused, read = random.Random(20251127), 0, 0
    path = tmp_path / "answer.json"
    for number in range(MUTATIONS):
        coach.open("Builder")
        coach.toast.hide()
        front = coach.screen
        path.write_text(chance.choice(CHANGES)(chance, text), encoding="utf-8", newline="")
        drop(coach, path)
        if isinstance(coach.screen, ReviewPage):
            read += 1  # it is sound all the same: another digit, a line left out, another pack's id
            continue
        refused += 1
        sentence = coach.toast.sentence
        assert coach.screen is front, number
        assert sentence.endswith((".", "!")), (number, sentence)
        assert "\n" not in sentence, (number, sentence)
        assert 10 < len(sentence) < 400, (number, sentence)
        assert "Traceback" not in sentence, (number, sentence)
        assert "rror" not in sentence, (number, sentence)
    assert files_below(coach.home, user) == before
    assert refused > MUTATIONS // 2
    assert read > 5


@pytest.mark.parametrize("name", ["\u3000", " ", "\u200b", "R\u202eB", "R\u2028B"])
def test_a_name_that_cannot_be_seen_is_refused(name: str) -> None:
    data = {"format": 1, "assignment": "winter-1", "pupil": name}
    with pytest.raises(AnswerError, match="sign that can be seen"):
        parse_answer(json.dumps(data))
