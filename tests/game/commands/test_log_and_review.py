"""`fringework log` and `fringework review`: what they print, refusals, closed pipes, plain terminals."""

import csv
import io
import json
import os
import re
import subprocess
import sys
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from practised import SCENARIO, START, made_up

from game import cli
from game.library.notebook.files import newest
from game.library.notebook.store import Notebook
from levels.answers import answer_of, write_answer
from levels.attempts import Attempt, NamedCause
from levels.packs import read_pack

ROOT = Path(__file__).parents[3]
UNITS = re.compile(r"_(m|rad)$")


def run(capsys: pytest.CaptureFixture[str], *argv: object) -> tuple[int, str, str]:
    code = cli.main([str(a) for a in argv])
    return (code, *capsys.readouterr())


def practised() -> list[Attempt]:
    made = [made_up(i, met=i % 2 == 0, when=START + timedelta(days=i)) for i in range(30)]
    return [replace(made[0], cause=NamedCause("a", "b")), *made[1:29], replace(made[29], player="Zoë")]


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FRINGEWORK_HOME", str(tmp_path / "own"))


@pytest.fixture
def home(tmp_path: Path) -> Path:
    with Notebook(tmp_path / "home") as book:
        for one in practised():
            book.log(one)
    return tmp_path / "home"


# ---- log


def test_csv_and_json_say_the_same(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    code, text, _ = run(capsys, "log", "--csv", "--data-dir", home)
    rows = list(csv.DictReader(io.StringIO(text)))
    assert (code, len(rows)) == (0, 30)
    code, text, _ = run(capsys, "--data-dir", home, "log", "--json")
    data = json.loads(text)
    assert (code, data["format"], len(data["attempts"])) == (0, 1, 30)
    for row, one in zip(rows, data["attempts"], strict=True):
        assert row.keys() == one.keys()
        told = {key: "" if v is None else str(v).lower() if isinstance(v, bool) else str(v)
                for key, v in one.items()}  # fmt: skip
        assert row == told
    first = data["attempts"][0]
    assert (first["time"], first["day"]) == ("2025-11-03T18:30:00.123456+01:00", "2025-11-03")
    assert (first["cause_chosen"], first["cause_true"], first["met"]) == ("a", "b", True)
    plain = {
        "seed",
        "hints",
        "strokes",
        "reference_strokes",
        "lead_weight",
        "release",
        "follow_through",
        "drop",
    }
    numbers = {k for k, v in first.items() if type(v) in (int, float)}
    assert all(UNITS.search(key) for key in numbers - plain)


def test_the_log_can_be_narrowed(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    def count(*argv: object) -> int:
        return len(json.loads(run(capsys, "log", "--json", "--data-dir", home, *argv)[1])["attempts"])

    assert count("--player", "Zoë") == 1
    assert count("--scenario", SCENARIO) == 30
    assert count("--scenario", "none") == 0
    assert count("--since", "2025-11-30") == 3
    assert count("--last", "7") == 7


def test_the_table_is_short(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    code, text, _ = run(capsys, "log", "--data-dir", home)
    assert code == 0
    assert len(text.splitlines()) == 22  # head, twenty attempts, a note
    assert text.splitlines()[0].split() == [
        "day", "player", "scenario", "club", "strike", "leave", "m", "strokes", "goal",
    ]  # fmt: skip


def test_looking_makes_nothing(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    code, text, _ = run(capsys, "log", "--data-dir", tmp_path / "none")
    assert (code, text) == (0, "The notebook holds no such attempt.\n")
    assert not (tmp_path / "none").exists()


@pytest.mark.parametrize(
    ("argv", "told"),
    [
        (["--since", "soon"], "--since must be a date like 2025-11-30, not 'soon'."),
        (["--last", "0"], "--last must be a whole number between 1 and 1000000, not '0'."),
        (["--csv", "--json"], "--json cannot stand beside --csv."),
    ],
)
def test_a_wrong_option_is_one_sentence(
    capsys: pytest.CaptureFixture[str], argv: list[str], told: str
) -> None:  # fmt: skip
    assert run(capsys, "log", *argv) == (2, "", told + "\n")


def test_a_damaged_notebook_is_told_and_ends_with_3(
    capsys: pytest.CaptureFixture[str], home: Path
) -> None:  # fmt: skip
    newest(home).write_bytes(b"no notebook at all" * 500)
    code, _, told = run(capsys, "log", "--json", "--data-dir", home)
    assert (code, told.count("\n")) == (3, 1)
    assert told.startswith("The notebook notebook.db is damaged")


def test_a_name_is_no_formula_in_a_spreadsheet(capsys: pytest.CaptureFixture[str], home: Path) -> None:
    with Notebook(home) as book:
        one = made_up(99)
        book.log(replace(one, task=replace(one.task, title="=1+1")))
    rows = list(csv.DictReader(io.StringIO(run(capsys, "log", "--csv", "--data-dir", home)[1])))
    assert rows[-1]["title"] == "'=1+1"


def piped(home: Path, command: str, **env: str) -> "subprocess.CompletedProcess[bytes]":
    line = command.format(me=f"{sys.executable} -m game", home=home)
    return subprocess.run(
        ["bash", "-c", f"set -o pipefail; {line}"], capture_output=True, cwd=ROOT,
        env={**os.environ, **env}, check=False,
    )  # fmt: skip


@pytest.mark.skipif(sys.platform == "win32", reason="no bash there")
def test_a_closed_pipe_and_the_c_locale_are_no_trouble(home: Path) -> None:
    with Notebook(home) as book:
        for i in range(100, 500):
            book.log(made_up(i))
    cut = piped(home, "{me} log --csv --data-dir {home} | head -1")
    assert (cut.stdout.count(b"\n"), cut.stderr) == (1, b"")
    plain = piped(
        home, "{me} log --player Zoë --data-dir {home}", LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0"
    )  # fmt: skip
    assert plain.stderr == b""
    assert b"harrow-fen" in plain.stdout


# ---- review


@pytest.fixture
def sent(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> tuple[Path, Path]:
    """An assignment as the coach made it, and the pupil's answer to it."""
    pack = tmp_path / "winter.pack.toml"
    assert run(capsys, "pack", pack, SCENARIO, "--title", "Winter", "--assign")[0] == 0
    own = read_pack(pack).id
    assert re.fullmatch("[0-9a-f]{12}", own)
    made = [replace(one, assignment=own) for one in practised()]
    write_answer(tmp_path / "a.json", answer_of(made, own, "R. B."))
    return pack, tmp_path / "a.json"


def test_a_review_is_read_with_the_pack_or_from_the_library(
    capsys: pytest.CaptureFixture[str], sent: tuple[Path, Path], tmp_path: Path
) -> None:  # fmt: skip
    pack, answer = sent
    home = tmp_path / "coach"
    code, said, told = run(capsys, "review", answer, "--data-dir", home)
    assert (code, said) == (3, "")
    assert told.endswith("is not in your library; give its file with --pack.\n")
    code, said, _ = run(capsys, "review", answer, "--pack", pack)
    assert code == 0
    assert said.startswith("R. B.: 30 shots on 30 days.\n")
    assert "15 of 30 (truly " in said
    assert run(capsys, "take", pack, "--data-dir", home)[0] == 0
    assert run(capsys, "review", answer, "--data-dir", home)[1] == said


def test_an_assignment_from_the_command_line_is_found_again_by_its_answers(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:  # fmt: skip
    """The copy the window keeps too; where there is no place for it, one sentence says so."""
    pack, home, answer = tmp_path / "w.pack.toml", tmp_path / "coach", tmp_path / "a.json"
    asked = ("pack", pack, SCENARIO, "--title", "Winter", "--assign", "--data-dir")
    assert run(capsys, *asked, home)[::2] == (0, "")
    write_answer(answer, answer_of([], read_pack(pack).id, "R."))
    pack.unlink()
    code, said, _ = run(capsys, "review", answer, "--data-dir", home)
    assert code == 0
    assert said.startswith("R.: 0 shots on 0 days")
    (tmp_path / "full").write_text("no folder")
    code, _, told = run(capsys, *asked, tmp_path / "full")
    assert (code, pack.exists()) == (0, True)
    assert told.startswith("No copy could be kept for the answers (")


def test_the_review_as_json(capsys: pytest.CaptureFixture[str], sent: tuple[Path, Path]) -> None:
    code, text, _ = run(capsys, "review", sent[1], "--pack", sent[0], "--json")
    data = json.loads(text)
    assert (code, data["format"], data["pupil"], data["shots_done"]) == (0, 1, "R. B.", 30)
    (task,) = data["tasks"]
    assert task["met"]["share"] == 0.5
    assert task["met"]["low"] < 0.5 < task["met"]["high"]
    assert (task["causes_right"], task["causes_asked"]) == (0, 1)
    assert task["first_gap_m"] == pytest.approx(0.5)


def test_what_is_no_answer_is_one_sentence(
    capsys: pytest.CaptureFixture[str], sent: tuple[Path, Path], tmp_path: Path
) -> None:  # fmt: skip
    (tmp_path / "b.json").write_text('{"format": 1}')
    code, said, told = run(capsys, "review", tmp_path / "b.json", "--pack", sent[0])
    assert (code, said, told.count("\n")) == (3, "", 1)
    assert told.startswith("b.json, assignment: is missing")
    other = tmp_path / "other.pack.toml"
    run(capsys, "pack", other, SCENARIO, "--title", "Other", "--assign")
    code, said, told = run(capsys, "review", sent[1], "--pack", other)
    assert (code, said, told.count("\n")) == (3, "", 1)
    assert "answers the assignment" in told


@pytest.mark.parametrize("command", ["log", "review"])
def test_help_says_what_a_stranger_needs(capsys: pytest.CaptureFixture[str], command: str) -> None:
    code, said, _ = run(capsys, command, "--help")
    assert code == 0
    for word in ("--json", "--data-dir FOLDER", "Exit codes"):
        assert word in said
