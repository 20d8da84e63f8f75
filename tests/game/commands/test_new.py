"""`fringework new`: sound files, nothing overwritten unasked, nothing half written."""

import os
from pathlib import Path

import pytest

from game import cli
from levels.effort import SMALL
from levels.files import read_scenario
from levels.prove import proved


@pytest.mark.parametrize(("name", "options"), [("a.toml", []), ("a.pack.toml", ["--pack"])])
def test_what_is_written_passes_the_check(
    name: str, options: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / name
    assert cli.main(["new", str(path), *options]) == 0
    assert cli.main(["check", str(path)]) == 0
    assert "sound scenario" in " ".join(capsys.readouterr().out.split())


def test_a_file_that_is_there_stays_until_one_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("mine", encoding="utf-8")
    assert cli.main(["new", str(path)]) == 2
    assert "--replace" in capsys.readouterr().err
    assert path.read_text(encoding="utf-8") == "mine"
    assert cli.main(["new", str(path), "--replace"]) == 0
    assert read_scenario(path).title == "My first scenario"


def test_a_write_that_fails_leaves_the_old_file_and_no_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("mine", encoding="utf-8")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    assert cli.main(["new", str(path), "--replace"]) == 4
    assert "No space left" in capsys.readouterr().err
    assert [p.name for p in tmp_path.iterdir()] == ["mine.toml"]
    assert path.read_text(encoding="utf-8") == "mine"


def test_other_names_are_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["new", str(tmp_path / "mine.txt")]) == 2
    assert "must end in .toml" in capsys.readouterr().err
    assert cli.main(["new", str(tmp_path / "nowhere" / "mine.toml")]) == 4
    assert "there is no folder" in capsys.readouterr().err


def test_the_scenario_asks_for_something_that_can_be_found(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    assert cli.main(["new", str(path)]) == 0
    proof = proved(read_scenario(path), SMALL)
    assert any(family.solvable for family in proof.families)
    assert proof.default_chance < 0.1
    assert not proof.warnings
