"""`fringework pack` and `fringework take`: a pack goes out and comes in; every refusal is one sentence."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from game import cli
from game.commands import pack as command
from levels import plan
from levels.files import library, load_library, scenario_text
from levels.packs import read_pack

SOON = (date.today() + timedelta(9)).isoformat()
PLANNED = ["--focus", "Brush", "--drill", "Ten", "--shots", "30", "--pass", "20", "--retest", SOON]


@pytest.fixture
def paths(tmp_path: Path) -> list[str]:
    out = []
    for name in library()[:2]:
        (tmp_path / f"{name}.toml").write_text(scenario_text(load_library(name)), encoding="utf-8")
        out.append(str(tmp_path / f"{name}.toml"))
    return out


def run(capsys: pytest.CaptureFixture[str], *argv: object) -> tuple[int, str, str]:
    code = cli.main([str(a) for a in argv])
    return (code, *capsys.readouterr())


def test_out_and_in_again(capsys: pytest.CaptureFixture[str], paths: list[str], tmp_path: Path) -> None:
    out, home = tmp_path / "w.pack.toml", tmp_path / "home"
    code, said, _ = run(capsys, "pack", out, *paths, "--title", "Winter", "--from", "Hello", *PLANNED)
    assert (code, said) == (0, f"{out}: 2 scenarios, with a plan.\n")
    made = read_pack(out)
    assert (made.title, made.words, [m.name for m in made.members]) == ("Winter", "Hello", [*library()[:2]])
    assert made.plan is not None
    assert (made.plan.made, made.plan.retest.isoformat(), made.plan.successes) == (date.today(), SOON, 20)
    code, said, _ = run(capsys, "take", out, "--data-dir", home)
    assert code == 0
    assert said.startswith("'Winter' is in your library with 2 scenarios.\n")
    assert all(Path(line).is_file() for line in said.splitlines()[1:])
    code, said, _ = run(capsys, "--data-dir", home, "take", out)
    assert (code, said) == (0, "'Winter' was in your library already.\n")


def test_a_pack_needs_no_plan(capsys: pytest.CaptureFixture[str], paths: list[str], tmp_path: Path) -> None:
    out = tmp_path / "w.pack.toml"
    assert run(capsys, "pack", out, paths[0], "--title", "One")[:2] == (0, f"{out}: 1 scenario.\n")
    assert read_pack(out).plan is None


@pytest.mark.parametrize(
    ("extra", "code", "told"),
    [
        (["--title", "x\ny"], 1, "w.pack.toml, line 2, title: "),
        (["--title", "x", "--focus", "a"], 2, "--drill is missing; a plan needs all of --focus, --drill"),
        (["--title", "x", "--caution", "a"], 2, "--caution belongs to a plan"),
        (["--title", "x", *PLANNED, "--pass", "31"], 2, "--pass: 31 is more than the shots"),
        (["--title", "x", *PLANNED, "--shots", "0"], 2, "--shots must be a whole number between 1 and 200"),
        (["--title", "x", *PLANNED, "--focus", "b", "--focus", "c"], 2, "--focus: has 3 entries"),
        (["--title", "x", *PLANNED, "--retest", "soon"], 2, "--retest must be a date like 2025-11-30"),
        (["--title", "x", *PLANNED, "--retest", "2020-01-01"], 2, "--retest must be after today"),
        ([], 2, "--title is missing."),
    ],
)
def test_refusals(
    extra: list[str], code: int, told: str, capsys: pytest.CaptureFixture[str], paths: list[str],
    tmp_path: Path,
) -> None:  # fmt: skip
    got, out, err = run(capsys, "pack", tmp_path / "w.pack.toml", *paths, *extra)
    assert (got, out) == (code, "")
    assert err.startswith(told)
    assert err.count("\n") == 1
    assert not (tmp_path / "w.pack.toml").exists()


def test_files_that_cannot_be_used(
    capsys: pytest.CaptureFixture[str], paths: list[str], tmp_path: Path
) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text("format = 1", encoding="utf-8")
    for argv, told in (
        (["pack", tmp_path / "w.pack.toml", bad, "--title", "x"], "bad.toml, ground: is missing"),
        (["pack", tmp_path / "w.pack.toml", tmp_path, "--title", "x"], f"{tmp_path.name}: cannot be read"),
        (["take", bad, "--data-dir", tmp_path / "home"], "bad.toml, "),
        (["take", tmp_path / "none", "--data-dir", tmp_path / "home"], "none: cannot be read"),
    ):
        code, out, err = run(capsys, *argv)
        assert (code, out, err.count("\n")) == (1, "", 1), err
        assert err.startswith(told) or "bad.toml, " in err
    assert not (tmp_path / "home").exists()
    code, _, err = run(capsys, "pack", tmp_path / "none" / "w.pack.toml", *paths, "--title", "x")
    assert (code, err.count("\n")) == (4, 1)


def test_the_limits_of_the_options_are_those_of_the_plan() -> None:
    assert (command.MOST_PLANNED, command.LATEST) == (plan.MOST_PLANNED, plan.LATEST)


def test_built_in_scenarios_go_by_name_and_need_no_proof_of_their_own(
    capsys: pytest.CaptureFixture[str], paths: list[str], tmp_path: Path
) -> None:
    out = tmp_path / "w.pack.toml"
    code, _, err = run(capsys, "pack", out, library()[0], paths[0], "--title", "T")
    assert code == 0
    assert [m.name for m in read_pack(out).members] == [library()[0], f"{library()[0]}-2"]
    assert "It is not proved" not in err, "the tests prove them, and a copy plays the same"
    own = tmp_path / "own.toml"
    made = load_library(library()[0]).model_copy(update={"firmness": 1.2})
    own.write_text(scenario_text(made), encoding="utf-8")
    code, _, err = run(capsys, "pack", out, own, "--title", "T")
    assert (code, err.count("It is not proved")) == (0, 1)


def test_the_library_is_no_place_for_a_pack(
    capsys: pytest.CaptureFixture[str], paths: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("FRINGEWORK_HOME", str(tmp_path / "home"))
    (tmp_path / "home" / "scenarios").mkdir(parents=True)
    out = tmp_path / "home" / "scenarios" / "w.pack.toml"
    code, _, err = run(capsys, "pack", out, paths[0], "--title", "T")
    assert (code, out.exists()) == (4, False)
    assert "is in your own library" in err
