"""`fit`, `choose` and a player's file: what they refuse, what they keep, what they say."""

import json
from pathlib import Path

import pytest

from game import cli
from game.text.fit import ASKED_PUTT, assumed_words, putt_words
from levels.player_file import ASSUMED_PUTTER, read_player, write_player
from physics.course import Course
from physics.putting import PUTTERS, make
from tests.levels.test_own_player import GOOD, fitted

SCENARIO = "harrow-fen-short-sided"


def test_bad_balls_are_refused_in_sentences(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "balls.csv"
    file.write_text(GOOD.replace("solid", "sold"))
    assert cli.main(["fit", str(file)]) == 3
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("balls.csv, line 2, felt: 'sold' is no strike")


def test_a_mark_out_of_reach_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "balls.csv"
    file.write_text(GOOD.replace(",8,", ",39,"))
    assert cli.main(["fit", str(file)]) == 3
    assert "allowed: between" in capsys.readouterr().err


def test_nothing_is_computed_when_the_file_has_no_folder(tmp_path: Path) -> None:
    assert cli.main(["fit", str(tmp_path / "balls.csv"), "--out", str(tmp_path / "no" / "p.toml")]) == 4


def test_fit_keeps_a_player_and_tells_all_of_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file, player = tmp_path / "balls.csv", tmp_path / "own.toml"
    file.write_text(GOOD)
    assert cli.main(["fit", str(file), "--out", str(player), "--name", "me", "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    kept = read_player(player)
    assert said["player"]["spread"] == kept.spread.model_dump()
    assert kept.label == "me"
    assert kept.balls == 3
    assert set(said["told"]) | set(said["little"]) == set(said["narrowed"]) - {"habit_speed", "habit_up"}
    assert {test["lie"] for test in said["five_more"]} <= {"mat", "tight", "soft", "fairway"}
    assert said["assumed"] == ["green_speed_m", "putter"]
    assert kept.putter == ASSUMED_PUTTER


def test_what_nobody_said_is_told_as_assumed() -> None:
    both = assumed_words(None, None)
    assert f"{Course.green_speed:g} m on the Stimpmeter" in both
    assert "putts" in both
    assert "putts" not in assumed_words(None, "tour")
    assert "Stimpmeter" not in assumed_words(2.4, None)
    assert assumed_words(2.4, "tour") == ""
    holed = [int(putt_words(name).split()[0]) for name in ("ninety", "scratch", "tour")]
    assert holed == sorted(set(holed))  # three answers that can be told apart
    assert holed == [round(10 * make(ASKED_PUTT, PUTTERS[name])) for name in ("ninety", "scratch", "tour")]


@pytest.mark.parametrize("command", [["cloud", "--count", "50"], ["shot"], ["choose", SCENARIO]])
def test_a_fitted_player_plays(
    command: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "own.toml"
    write_player(file, fitted())
    assert cli.main([*command, "--player", str(file), "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    if command[0] == "choose":
        assert said["player"] == "someone"
        assert any("hopeful" in note for note in said["notes"])
        assert len(said["options"][0]["ends_m"]) >= 120
    if command[0] == "cloud":
        assert said["player"] == "own"


def test_a_proof_of_another_player_is_not_kept(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["check", SCENARIO, "--save", "--player", "steady"]) == 2
    assert "--player is another" in capsys.readouterr().err


def test_no_such_player(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["cloud", "--player", "clubb"]) == 2
    assert "must be one of exact, steady, club, beginner" in capsys.readouterr().err
    assert cli.main(["cloud", "--player", str(tmp_path / "nobody.toml")]) == 3
    assert "cannot be read" in capsys.readouterr().err
