"""`fringework recap` and `fringework clip`: what they write and say, and every refusal in one sentence."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from game import cli
from game.handout.clip_frames import ClipFrames
from tests.game.pdf_text import pdf_lines


def run(words: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[int, str, str]:
    code = cli.main(words)
    out, err = capsys.readouterr()
    return code, out, err


def test_recap_writes_both_files_and_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = [
        "recap",
        "--out",
        str(tmp_path / "x"),
        "--pupil",
        "Ola",
        "--date",
        "2026-11-26",
        "--paper",
        "letter",
    ]
    code, out, _ = run(words, capsys)
    assert code == 0
    assert sorted(f.name for f in tmp_path.iterdir()) == ["x.pdf", "x.png"]
    lines = pdf_lines((tmp_path / "x.pdf").read_bytes())
    assert "For Ola" in lines
    assert "26 November 2026" in lines
    row = next(line.split() for line in out.splitlines() if "Solid, of 100" in line)
    assert row[-2:] == lines[lines.index("Solid, of 100") + 1 :][:2]
    assert int(row[-2]) > 2 * int(row[-1])  # nine degrees further forward cost more than half of them
    assert "digs" in out


def test_recap_of_two_set_ups_of_ones_own(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["recap", "--out", str(tmp_path / "x.pdf"), "--tried", "release=1.6", "--tried", "club=LW"]
    code, out, _ = run([*words, "--scenario", "harrow-fen-short-sided", "--junior"], capsys)
    assert code == 0
    lines = pdf_lines((tmp_path / "x.pdf").read_bytes())
    today = date.today()
    assert f"{today.day} " in next(line for line in lines if line.endswith(str(today.year)))
    assert any(line.startswith("By ") for line in lines)
    assert "The club passed your hands too soon." in out
    assert (today + timedelta(days=14)).strftime("%Y") in " ".join(lines)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--paper", "A5"], "--paper must be one of A4, Letter"),
        (["--date", "26.11.2026"], "--date must be a date"),
        (["--date", "2026-02-30"], "--date must be a date"),
        (["--retest-days", "15"], "--retest-days must be a whole number between 1 and 14"),
        (["--pupil", "x" * 41], "--pupil must be one line of up to 40 letters"),
        (["--pupil", "a\x07b"], "--pupil must be one line"),
        (["--pupil", "\N{SNOWMAN}"], "has no letter"),
        (["--tried", "lean=3"], "There is no control 'lean'"),
        (["--tried", "lean-change"], "--tried must be written lean-change=VALUE"),
        (["--tried", "lean-change=40"], "--tried lean-change must be between -10 and 15 deg"),
        (["--tried", "club=XX"], "--tried club must be one of"),
        (["--player", "exact"], "needs a player whose strokes differ"),
    ],
)
def test_a_wrong_option_is_one_sentence(
    words: list[str], said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, err = run(["recap", "--out", str(tmp_path / "x"), *words], capsys)
    assert (code, out) == (2, "")
    assert said in err
    assert err.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("command", ["recap", "clip"])
def test_a_folder_that_is_not_there_is_said_at_once(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(f"game.commands.{command}.pair_shots", None)  # nothing may be played before
    code, _, err = run([command, "--out", str(tmp_path / "none" / "x.gif")], capsys)
    assert code == 4
    assert "there is no folder" in err
    assert err.count("\n") == 1


def test_a_clip_needs_an_ending_it_can_write(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(["clip", "--out", str(tmp_path / "x.avi")], capsys)
    assert code == 2
    assert "--out must end in .gif or .mp4" in err


def test_ctrl_c_leaves_no_clip(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    draw = ClipFrames.draw

    def stopped(self: ClipFrames, k: int) -> None:
        if k == 7:
            raise KeyboardInterrupt
        draw(self, k)

    monkeypatch.setattr(ClipFrames, "draw", stopped)
    code, _, err = run(["clip", "--out", str(tmp_path / "x.gif")], capsys)
    assert (code, err) == (130, "")
    assert list(tmp_path.iterdir()) == []
