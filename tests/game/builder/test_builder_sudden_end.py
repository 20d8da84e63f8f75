"""Sudden ends: whenever the process dies, the file is valid and at most the last action is lost."""

import json
import os
import signal
import time
import traceback
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from random import Random

import pytest
from any_edit import any_edit
from documents import WRITTEN, did, kept, retitle

from game.builder.model.document import Document
from game.builder.model.edits import new_draft, set_value
from game.builder.model.history import History
from game.builder.model.recovery import FOLDER
from levels.draft import Draft
from levels.files import ScenarioError, read_scenario

KILLS, LONGEST = 200, 0.06  # s of work before the end, at most


def child(work: Callable[[], object]) -> int:
    """Begin the work in a process of its own, which ends without a word when it is done."""
    if pid := os.fork():
        return pid
    try:
        work()
        os._exit(9)
    except BaseException:
        traceback.print_exc()
    finally:
        os._exit(1)


def dead(home: Path, work: Callable[[Document], object]) -> None:
    """Another process works at a desk and dies."""
    _, status = os.waitpid(child(lambda: work(Document(home))), 0)
    assert os.waitstatus_to_exitcode(status) == 9


def test_work_a_dead_session_left_is_recovered(document: Document, file: Path) -> None:
    dead(document.home, lambda d: (d.open(file), retitle(d, "Unsaved")))
    draft = document.recover()
    assert draft is not None
    assert draft.at(("title",)) == "Unsaved"
    assert (document.path, document.dirty, document.history.undo_name) == (file, True, "recover")
    document.save()
    assert file.read_text(encoding="utf-8") == WRITTEN.replace('"Hand"', '"Unsaved"')
    assert document.recover() is None
    assert kept(document) == []


def test_new_work_without_a_file_is_recovered_and_stays_unsaved(document: Document) -> None:
    dead(document.home, lambda d: retitle(d, "Never saved"))
    assert document.recover() is not None
    assert (document.path, document.dirty, len(kept(document))) == (None, True, 1)
    document.autosave()
    assert len(kept(document)) == 1
    document.close()
    assert list((document.home / FOLDER).iterdir()) == []


def test_every_dead_session_is_recovered_the_newest_first(document: Document) -> None:
    dead(document.home, lambda d: retitle(d, "older"))
    os.utime(kept(document)[0], (time.time() - 5.0,) * 2)
    dead(document.home, lambda d: retitle(d, "newer"))
    titles = []
    while (draft := document.recover()) is not None:
        titles.append(draft.at(("title",)))
        document.new("slope up")
    assert titles == ["newer", "older"]


def test_a_clean_desk_leaves_nothing_to_recover(document: Document, file: Path) -> None:
    dead(document.home, lambda d: (d.open(file), retitle(d, "Saved"), d.save()))
    dead(document.home, lambda d: (retitle(d, "Given up"), d.close()))
    assert document.recover() is None
    assert "Saved" in file.read_text(encoding="utf-8")


def test_an_end_just_behind_a_save_is_no_unsaved_work(
    document: Document, file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def saves(d: Document) -> None:
        d.open(file)
        retitle(d, "Saved")
        monkeypatch.setattr(d, "autosave", lambda: None)
        d.save()

    dead(document.home, saves)
    draft = document.recover()
    assert draft is not None
    assert (document.dirty, document.changed_outside(), kept(document)) == (False, False, [])


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", json.dumps({"format": 1}), "[" * 100_000,
     json.dumps({"format": 2, "path": None, "text": "", "draft": ""}),
     json.dumps({"format": 1, "path": 3, "text": "", "draft": "format = 1"}),
     json.dumps({"format": 1, "path": None, "text": "= =", "draft": "format = 1"}),
     json.dumps({"format": 1, "path": None, "text": "", "draft": "no toml"})],
)  # fmt: skip
def test_unreadable_work_is_set_aside_and_the_rest_recovered(document: Document, text: str) -> None:
    dead(document.home, lambda d: retitle(d, "good"))
    bad = document.home / FOLDER / "0123456789abcdef.json"
    bad.write_text(text, encoding="utf-8")
    os.utime(bad, (time.time() + 5.0,) * 2)  # the newest
    draft = document.recover()
    assert draft is not None
    assert draft.at(("title",)) == "good"
    assert "0123456789abcdef.bad.json" in document.keeping
    assert bad.with_name("0123456789abcdef.bad.json").read_text(encoding="utf-8") == text
    assert document.recover() is None


def test_the_recovered_draft_is_the_draft_to_the_last_bit(document: Document) -> None:
    odd = [-0.0, 1e300, 10**30, "a\r\n\xe9", {"k": [True]}]
    dead(document.home, lambda d: did(d, set_value(d.draft, ("odd",), odd)))
    document.recover()
    assert document.draft == new_draft("plain green").put(("odd",), odd)


# at any moment


def chosen(history: History, rng: Random, n: int) -> str:
    """Do the n-th action to a history; "save" is left to who has a disk."""
    if n % 4 == 3:
        return "save"
    if (history.draft.problems() and rng.random() < 0.8) or rng.random() < 0.1:
        history.undo()
    elif rng.random() < 0.1:
        history.redo()
    else:
        history.do(*any_edit(history.draft, rng))
    return ""


def work_for_ever(home: Path, file: Path, seed: int, report: int) -> None:
    """Edit and save without end; a byte for every finished action."""
    document, rng, n = Document(home), Random(seed), 0
    document.open(file)
    os.write(report, b".")
    while True:
        if chosen(document.history, rng, n) == "save":
            with suppress(ScenarioError):
                document.save()
        document.autosave()
        os.write(report, b".")
        n += 1


def drafts_of(seed: int, text: str, count: int) -> list[Draft]:
    """The drafts such work has after each of its first actions."""
    history, rng = History(Draft.parse(text)), Random(seed)
    drafts = [history.draft]
    for n in range(count):
        if chosen(history, rng, n) == "save" and not history.draft.problems():
            history.settle()
        drafts.append(history.draft)
    return drafts


def killed(home: Path, file: Path, seed: int) -> int:
    """Let the work be killed at a random moment; how many actions were finished."""
    read, write = os.pipe()
    pid = child(lambda: work_for_ever(home, file, seed, write))
    os.close(write)
    done = os.read(read, 1)
    time.sleep(LONGEST * Random(-seed - 1).random())
    os.kill(pid, signal.SIGKILL)
    _, status = os.waitpid(pid, 0)
    assert os.waitstatus_to_exitcode(status) == -signal.SIGKILL
    while more := os.read(read, 65536):
        done += more
    os.close(read)
    return len(done) - 1


def test_killed_at_any_moment_the_file_is_valid_and_at_most_one_action_is_lost(tmp_path: Path) -> None:
    finished, recovered = [], 0
    for seed in range(KILLS):
        home, file = tmp_path / f"home{seed}", tmp_path / f"{seed}.toml"
        file.write_text(WRITTEN, encoding="utf-8")
        count = killed(home, file, seed)
        read_scenario(file)
        text = file.read_text(encoding="utf-8")
        assert "# by hand" in text
        *_, last, next_one = drafts_of(seed, WRITTEN, count + 1)
        document = Document(home)
        draft = document.recover()
        assert document.keeping == ""
        assert (draft or Draft.parse(text)) in (last, next_one), seed
        assert draft is None or document.path == file
        document.close()
        finished.append(count)
        recovered += draft is not None
    assert max(finished) > 10
    assert KILLS / 4 < recovered < KILLS
