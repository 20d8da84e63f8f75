"""The README is true: its commands run and do what stands beside them, CI runs its test command, its
pictures exist."""

import json
import re
import shlex
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import numpy as np
import pytest

import levels.season
from game import cli
from game.library.home import VARIABLE
from levels.ball_log import balls_text
from levels.choice_effort import ChoiceEffort
from levels.files import load_library, read_scenario, scenario_text
from levels.player_file import fitted_file, read_player, write_player
from physics.address import CONTROLS
from physics.bank import player_row
from physics.fit import Posterior, prior_players
from physics.measured_balls import PLAIN_GROUND, MeantShot, measured
from physics.spread import PLAYERS
from tests.game.pdf_text import pdf_lines

ROOT = Path(__file__).parent.parent
FEW = ChoiceEffort(  # a season's map takes minutes: here it is the same map from fewer strokes
    lengths=5, look=4, start=2, rounds=(8,), children=2, finalists=2, final=24, judged=60
)  # fmt: skip
README = (ROOT / "README.md").read_text(encoding="utf-8")
ON_PATH = ".venv/bin/"
WINDOW = "fringework"  # opens the window: tests/game opens it without a screen
EVERY_HELP = "fringework COMMAND --help"


def _commands() -> list[str]:
    """Every complete command of the README, in order: fenced lines and code in the text."""
    fenced = re.findall(r"```sh\n(.*?)```", README, re.DOTALL)
    lines = [line.removeprefix(ON_PATH) for block in fenced for line in block.splitlines()]
    text = re.sub(r"```.*?```", "", README, flags=re.DOTALL)
    spans = [" ".join(span.split()) for span in re.findall(r"`([^`]+)`", text)]
    return [c for c in [*lines, *spans] if re.match(r"fringework( |$)", c)]


Claim = Callable[[str, Path], bool]


def _rest(out: str) -> tuple[float, float]:
    """Carry and roll (m) as a shot is told."""
    found = re.search(r"landed ([\d.]+) m out and rolled ([\d.]+) m", out)
    assert found is not None, out
    return float(found[1]), float(found[2])


def _solid(out: str) -> int:
    found = re.search(r"(\d+) % of \d+ strokes are solid", out)
    assert found is not None, out
    return int(found[1])


def _columns_differ(out: str) -> bool:
    """A sweep's table has a row a value, and what it tells changes from the first to the last."""
    rows = [line.split() for line in out.splitlines() if re.match(r" +[\d.]+  ", line)]
    return (
        len(rows) >= 5
        and [float(rows[0][0]), float(rows[-1][0])] == [0.0, 14.0]
        and rows[0][1:] != rows[-1][1:]
    )


def _matched(out: str, folder: Path) -> bool:
    stopped = re.search(r"([\d.]+) m (?:short of|past) the hole", out)
    beside = "into the hole" in out or (stopped is not None and float(stopped[1]) < 0.5)
    return beside and "dug" not in out and (folder / "matched.png").stat().st_size > 10_000


def _leaning(out: str, folder: Path) -> bool:
    return "leading edge dug" in out and sum(_rest(out)) < 1.0 and (folder / "leaning.png").exists()


def _falls(out: str, lie: str, times: float) -> bool:
    """Whether the solid strokes of a hundred from that lie fall from A to B, by so many times."""
    row = next(line.split() for line in out.splitlines() if line.split()[:1] == [lie])
    return float(row[1]) > times * float(row[3])


def _handed(out: str) -> bool:
    """Whether the five lines are told, and the tried stroke is the worse one."""
    solid = next(line.split() for line in out.splitlines() if "Solid, of 100" in line)
    return int(solid[-2]) > 2 * int(solid[-1]) and "Loft at impact" in out


# Each command and what the README says it does
CLAIMS: dict[str, Claim] = {
    "fringework shot --drop 1.3 --picture matched.png": _matched,
    "fringework shot --drop 1.3 --lean-change 9 --picture leaning.png": _leaning,
    "fringework shot": lambda out, _: sum(_rest(out)) > 1.0,
    "fringework sweep shaft-lean=0:14": lambda out, _: _columns_differ(out),
    "fringework cloud --player club": lambda out, _: _solid(out) >= 85,
    "fringework cloud --player club --lean-change 9": lambda out, _: _solid(out) < 50,
    "fringework fit balls.csv --out player.toml": lambda out, folder: (
        "tell of head speed" in out
        and "would tell most next" in out
        and read_player(folder / "player.toml").balls == 10
    ),
    "fringework choose harrow-fen-plain-chip --player player.toml": lambda out, _: (
        out.count("strokes to hole out (") >= 3 and "Robust:" in out
    ),
    "fringework season --player player.toml --out map.png": lambda out, folder: (
        out.count(" close, ") == 40 and (folder / "map.png").stat().st_size > 10_000
    ),
    "fringework new mine.toml": lambda out, folder: (
        "to begin from" in out and read_scenario(folder / "mine.toml").goal.leave_m is not None
    ),
    "fringework check short-sided.toml --prove": lambda out, _: (
        "It can be done with" in out and "The chance halves at" in out and "set-up" in out
    ),
    'fringework pack winter.pack.toml short-sided.toml --title "Winter"': lambda _, folder: (
        load_library("harrow-fen-short-sided").title in (folder / "winter.pack.toml").read_text("utf-8")
    ),
    "fringework take winter.pack.toml": lambda out, folder: (
        "'Winter' is in your library" in out and any((folder / "home").rglob("pack.toml"))
    ),
    "fringework lesson lean": lambda out, _: (
        _falls(out, "fairway", 2.0) and "the leading edge digs, fat" in out
    ),
    "fringework lesson release": lambda out, _: _falls(out, "fairway", 1.0) and "as set become" in out,
    "fringework lesson bounce": lambda out, _: (
        _falls(out, "fairway", 1.0) and "the leading edge digs, fat" in out
    ),
    "fringework recap --pupil Ola --paper Letter": lambda out, folder: (
        _handed(out) and "For Ola" in pdf_lines((folder / "fringework-recap.pdf").read_bytes())
        and (folder / "fringework-recap.png").exists()
    ),
    "fringework clip --out lean.gif": lambda out, folder: (
        "the leading edge digs" in out and 100_000 < (folder / "lean.gif").stat().st_size < 5_000_000
    ),
    "fringework demo --out pictures": lambda _, folder: (
        {p.name for p in (folder / "pictures").iterdir()}
        == {p.name for p in (ROOT / "assets" / "pictures").iterdir() if p.name < "5"}
    ),
}  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A folder of one's own with the scenario that the README works on; what is made stays for the next."""
    folder = tmp_path_factory.mktemp("readme")
    text = scenario_text(load_library("harrow-fen-short-sided"))
    (folder / "short-sided.toml").write_text(text, encoding="utf-8")
    balls = measured(MeantShot("fairway", "SW", 8.0), PLAIN_GROUND, player_row(PLAYERS["club"]), 10, 4)
    (folder / "balls.csv").write_text(balls_text(balls), encoding="utf-8")
    anybody = Posterior(prior_players(60, 1), np.full(60, 1.0 / 60.0))  # until the README's fit has run
    write_player(folder / "player.toml", fitted_file(anybody, "anybody", 0))
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        patch.setenv(VARIABLE, str(folder / "home"))
        yield folder


def test_every_command_has_its_claim_here() -> None:
    assert set(_commands()) == CLAIMS.keys() | {WINDOW, EVERY_HELP}


@pytest.mark.parametrize("command", CLAIMS)
def test_command_does_what_is_said(
    command: str, folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:  # fmt: skip
    monkeypatch.setattr(levels.season, "season", partial(levels.season.season, effort=FEW))
    if "take" in command and not (folder / "winter.pack.toml").exists():
        pack = next(c for c in CLAIMS if " pack " in c)
        assert cli.main(shlex.split(pack)[1:]) == 0
    code = cli.main(shlex.split(command)[1:])
    out, err = capsys.readouterr()
    assert code == 0, err
    assert CLAIMS[command](out, folder), out


def test_help_lists_every_control_with_range_and_unit(capsys: pytest.CaptureFixture[str]) -> None:
    for name in cli.COMMANDS:
        assert cli.main([name, "--help"]) == 0
        assert f"fringework {name}" in capsys.readouterr().out
    assert cli.main(["shot", "--help"]) == 0
    told = " ".join(capsys.readouterr().out.split())
    for c in CONTROLS.values():
        span = f"{c.low * c.scale:.6g} to {c.high * c.scale:.6g} {c.unit}".rstrip()
        assert f"--{c.name.replace('_', '-')}" in told
        assert span in told


def test_options_named_beside_a_command_are_its_own(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["shot", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)
    for name, option in (
        ("shot", "--picture"),
        ("recap", "--junior"),
        ("recap", "--tried"),
        ("demo", "--builder"),
        ("sweep", "--plot"),
    ):
        assert cli.main([name, "--help"]) == 0
        assert option in capsys.readouterr().out


def test_ci_runs_the_readme_test_command() -> None:
    command = next(line for line in README.splitlines() if "-m pytest" in line)
    assert command in (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()


def test_pictures_exist() -> None:
    pictures = re.findall(r"!\[[^]]*]\(([^)]+)\)", README)
    assert pictures
    assert [p for p in pictures if not (ROOT / p).is_file()] == []
