"""The whole loop between two data folders: handed out, practised, answered, reviewed, assigned anew."""

import random
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pygame
import pytest
from practised import SCENARIO, made_up
from ui_events import key

from game.answering.screen import AnswerPage
from game.app.frame import App
from game.builder.model.sharing import PlanForm, Sharing, builtin_offers
from game.builder.ui.share_page import SharePage
from game.chapters.screen import Chapters
from game.handout import places
from game.library.assignments import assignment_of, keep_assignment
from game.library.notebook.pages import attempts_of
from game.library.settings import Settings
from game.play.round import Step
from game.play.screen import Play
from game.reviewing.screen import ReviewPage
from game.ui.widget import walk
from levels.answers import answer_of, answer_text, read_answer
from levels.draft import library_text
from levels.files import load_library
from levels.packs import Member, Pack, read_pack

CTRL = pygame.KMOD_LCTRL
ENTER, ESC, SPACE = key(pygame.K_RETURN), key(pygame.K_ESCAPE), key(pygame.K_SPACE, 0, " ")
ON, SKIP, AGAIN = key(pygame.K_RETURN, CTRL), key(pygame.K_s, 0, "s"), key(pygame.K_r, 0, "r")
ANSWER, WRITE = key(pygame.K_a, 0, "a"), key(pygame.K_s, CTRL)


@pytest.fixture(autouse=True)
def pictures(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(places, "user_pictures_path", lambda: tmp_path / "pictures")
    return tmp_path / "pictures"


def opened(home: Path, screen: str) -> App:
    app = App.headless((1280, 800), Settings(reduced_motion=True, safety_read=True), screen, home)
    app.frame([], 0.016)
    app.frame([], 0.016)
    return app


def drop(app: App, path: Path, seen: bool = True) -> None:
    app.frame([pygame.event.Event(pygame.DROPFILE, file=str(path))], 0.016, seen)
    app.frame([], 0.016, seen)
    app.frame([], 0.016, seen)


def said(app: App) -> str:
    return "\n".join(w.caption for w in walk(app.screen.widgets))


def handed_out(coach: App, path: Path) -> Pack:
    """The pack as the Builder's page writes it, with a plan that asks for an answer."""
    flow = coach.screen.share_flow
    flow.open()
    offer = next(o for o in builtin_offers() if o.source == SCENARIO)
    retest = (date.today() + timedelta(7)).isoformat()
    plan = PlanForm(("Brush the grass", ""), "Ten from the mat", 2, 1, retest)
    flow.sharing = Sharing((offer,), "Winter brush", "Slowly.", True, plan)
    flow._write(path)
    return read_pack(path)


def played(app: App) -> None:
    """One try to its result, by keys, nothing predicted."""
    for _ in range(600):
        r = app.screen.r
        if r.step is Step.RESULT:
            return
        waits = r.step is Step.PLAY and r.shot is None
        app.frame([] if waits else [SKIP] if r.step is Step.CALL else [ON], 0.016, seen=False)
    raise AssertionError("the try never came to its result")


def test_the_whole_loop(tmp_path: Path, pictures: Path) -> None:
    coach = opened(tmp_path / "coach", "Builder")
    pack = handed_out(coach, tmp_path / "winter.pack.toml")
    assert pack.id
    assert "Drop their answer here to read it." in coach.toast.sentence

    pupil = opened(tmp_path / "pupil", "Play")
    drop(pupil, tmp_path / "winter.pack.toml")
    assert isinstance(pupil.screen, Chapters)
    assert pupil.screen.chapters[pupil.screen.at].assignment == pack.id
    pupil.frame([ENTER], 0.016)
    assert isinstance(pupil.screen, Play)
    played(pupil)
    pupil.frame([AGAIN], 0.016)
    played(pupil)
    name = pupil.player
    kept = list(attempts_of(pupil.book, pupil.player, assignment=pack.id))
    assert len(kept) == 2
    pupil.toast.hide()
    while not isinstance(pupil.screen, Chapters):
        pupil.frame([ESC], 0.016)
    pupil.frame([ANSWER], 0.016)
    assert isinstance(pupil.screen, AnswerPage)
    pupil.frame([SPACE, WRITE], 0.016)
    (file,) = pictures.iterdir()
    answer = read_answer(file)
    assert [line.seed for line in answer.attempts] == [kept[1].seed]
    pupil.close()

    drop(coach, file)
    assert isinstance(coach.screen, ReviewPage)
    found = coach.screen.read.found
    assert found
    assert (found.shots_done, found.shots_planned, found.tasks[0].tries) == (1, 2, 1)
    assert not found.tasks[0].changed
    assert f"{name}: 1 shot on 1 day" in said(coach)
    coach.frame([key(pygame.K_s, 0, "s")], 0.016)
    assert isinstance(coach.screen, SharePage)
    coach.screen.host._write(tmp_path / "next.pack.toml")
    again = read_pack(tmp_path / "next.pack.toml")
    assert [m.name for m in again.members][:1] == [m.name for m in pack.members]
    assert again.id not in ("", pack.id)
    assert assignment_of(tmp_path / "coach", again.id) == again
    coach.close()


# ---- files that are damaged on the way


@pytest.fixture
def coach(tmp_path: Path) -> Iterator[App]:
    home = tmp_path / "coach"
    pack = Pack("Winter", (Member(SCENARIO, library_text(SCENARIO), load_library(SCENARIO)),), id="winter-1")
    keep_assignment(home, pack)
    app = opened(home, "Builder")
    yield app
    app.close()


def everything(folder: Path) -> dict[str, bytes]:
    """All files below a folder but the notebook's, which every window opens."""
    return {
        str(p): p.read_bytes() for p in folder.rglob("*") if p.is_file() and "notebook" not in p.name
    }  # fmt: skip


def mutated(sound: str, seed: int) -> bytes:
    chance = random.Random(seed)
    text = list(sound)
    for _ in range(chance.choice((1, 1, 4))):
        at = chance.choice((0, chance.randrange(len(text))))
        piece = chance.choice(["", '"', "{", "]", "9", "-", "e", "null", "\\", "\x00", "true", ",", "ä"])
        text[at : at + chance.choice((0, 1, 1, 20))] = piece
    raw = "".join(text).encode()
    return raw[: chance.randrange(len(raw))] if seed % 10 == 0 else raw


def test_mutated_answers_are_one_sentence_each_and_write_nothing(
    coach: App, tmp_path: Path, pictures: Path
) -> None:
    made = [replace(made_up(i, met=i % 2 == 0, part="test"), assignment="winter-1") for i in range(4)]
    sound = answer_text(answer_of(made, "winter-1", "R. B."))
    before, told, read = everything(tmp_path / "coach"), 0, 0
    path = tmp_path / "answer.json"
    for seed in range(200):
        path.write_bytes(mutated(sound, seed))
        coach.toast.hide()
        front = coach.screen
        drop(coach, path, seen=False)
        if isinstance(coach.screen, ReviewPage):
            read += 1
            coach.draw()
            coach.pop()
        else:
            told += 1
            sentence = coach.toast.sentence
            assert coach.screen is front, (seed, sentence)
            assert sentence.endswith("."), (seed, sentence)
            assert "\n" not in sentence, (seed, sentence)
            assert "Traceback" not in sentence, (seed, sentence)
    assert told > 100
    assert read > 0
    assert everything(tmp_path / "coach") == before
    assert not pictures.exists()
