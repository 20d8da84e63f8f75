"""The command line as a user meets it: results on stdout, refusals in one sentence, codes as documented."""

import csv
import io
import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from math import degrees, exp, isclose, radians
from pathlib import Path

import pytest

from game import cli
from game.app.window import NO_DISPLAY
from game.commands import common, demo, progress, report
from game.text.quantity import MINUS, decimal, percent, revolutions
from game.text.units import UNIT_SYSTEMS
from levels.files import load_library
from levels.shotfile import shot_from_json
from physics.address import CONTROLS, Motion, Setup
from physics.cloud import cloud
from physics.course import level_course
from physics.quality import THIN
from physics.results import Contact, Shot, TurfAction
from physics.shot import play
from physics.spread import PLAYERS
from physics.surfaces import SURFACES

HOUSE = Path(cli.__file__).resolve().parent.parent
Run = Callable[..., str]


@pytest.fixture
def ok(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command line that must succeed; returns its stdout."""

    def run(*argv: str) -> str:
        code = cli.main(argv)
        out, err = capsys.readouterr()
        assert code == 0, err
        return out

    return run


@pytest.fixture
def refused(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command line that must be refused with `code`; returns the one sentence."""

    def run(*argv: str, code: int = 2) -> str:
        assert cli.main(argv) == code
        out, err = capsys.readouterr()
        assert out == ""
        assert err.endswith("\n")
        assert err.count("\n") == 1
        assert "Traceback" not in err
        return err.rstrip("\n")

    return run


# ---- shot


def test_shot_is_told_in_words_then_in_two_columns(ok: Run) -> None:
    out = ok("shot")
    first, rest = out.split("\n\n", 1)
    assert all(line.endswith((".", "!")) for line in first.splitlines())
    sections = ("Lean", "Strike", "Launch", "Run")
    assert all(f"\n{h}\n" in f"\n{rest}" for h in sections)
    assert report.SIDE_VIEW in out
    assert report.PRESETS not in out
    assert "\x1b" not in out


def test_shot_prints_what_physics_computes(ok: Run) -> None:
    shot = play(level_course("fairway", 8.0), Setup(), Motion())
    out = ok("shot")
    assert f"{shot.run.carry:.1f} m" in out
    assert f"{shot.launch.speed:.1f} m/s" in out  # type: ignore[union-attr]
    assert f"{decimal(degrees(shot.strike.attack), 1)} deg" in out


def test_shot_tells_both_leans_and_both_distances(ok: Run) -> None:
    argv = ("shot", "--release", "1.6", "--lean-change", "2")
    shot, out = shot_from_json(ok(*argv, "--json")), ok(*argv)
    swing, strike = shot.swing, shot.strike
    for label, lean in (
        ("set", swing.promised), ("the motion brings", swing.by_motion),
        ("with habit and stray", swing.delivered), ("at impact", strike.lean),
    ):  # fmt: skip
        assert re.search(rf"  {label} +{decimal(degrees(lean), 1)} deg\n", out)
    assert f"{100 * exp(strike.struck_gap):.0f} % of the same stroke unspoilt" in out
    assert f"{100 * exp(strike.set_gap):.0f} % of what was set" in out
    assert re.search(rf"  as set +{'yes' if strike.as_set else 'no'}\n", out)


def test_cloud_leads_with_both_shares(ok: Run) -> None:
    data, out = (ok("cloud", "--count", "50", "--seed", "2", *form) for form in (("--json",), ()))
    told = json.loads(data)
    assert out.startswith(
        f"{percent(told['solid'])} of 50 strokes are solid, {percent(told['as_set'])} do as"
    )
    assert all(kind in out for kind in Contact)


def test_json_is_the_whole_shot_and_nothing_else(ok: Run) -> None:
    shot = shot_from_json(ok("shot", "--json"))
    assert shot == play(level_course("fairway", 8.0), Setup(), Motion())


@pytest.mark.parametrize("control", CONTROLS.values(), ids=list(CONTROLS))
def test_every_control_is_an_option_in_its_shown_unit(ok: Run, control: object) -> None:
    c = CONTROLS[control.name]  # type: ignore[attr-defined]
    wanted = c.low + 0.4 * (c.high - c.low)
    shot = shot_from_json(ok("shot", f"--{c.name.replace('_', '-')}", repr(wanted * c.scale), "--json"))
    got = getattr(shot.setup if c.owner == "setup" else shot.motion, c.name)
    assert isclose(got, wanted, rel_tol=1e-12, abs_tol=1e-15)
    assert shot.setup.club == Setup().club


@pytest.mark.parametrize("control", CONTROLS.values(), ids=list(CONTROLS))
def test_limits_are_allowed_and_a_little_beyond_is_not(ok: Run, refused: Run, control: object) -> None:
    c = CONTROLS[control.name]  # type: ignore[attr-defined]
    option = f"--{c.name.replace('_', '-')}"
    for end, beyond in ((c.low, -0.01), (c.high, 0.01)):
        shot = shot_from_json(ok("shot", option, f"{end * c.scale:.6g}", "--json"))
        assert getattr(shot.setup if c.owner == "setup" else shot.motion, c.name) == end
        said = refused("shot", option, f"{end * c.scale + beyond:.6g}")
        assert said.startswith(f"{option} must be between {c.low * c.scale:.6g} and {c.high * c.scale:.6g}")
        assert c.unit in said


def test_course_options_reach_the_course(ok: Run) -> None:
    shot = shot_from_json(ok(
        "shot", "--surface", "rough", "--hole", "40ft", "--no-flagstick", "--green-speed", "9ft",
        "--firmness", "0.8", "--wind", "-1.5e0", "--club", "lw", "--seed", "7", "--player", "steady",
        "--json",
    ))  # fmt: skip
    course = shot.course
    assert course.ground.surfaces == ("rough", "fringe", "green")
    assert course.ground.x[1:3] == (2.0, 3.0)
    assert course.hole is not None
    assert isclose(course.hole.x, 12.192)
    assert not course.hole.flagstick
    assert isclose(course.green_speed, 2.7432)
    assert (course.firmness, course.wind) == (0.8, -1.5)
    assert (shot.setup.club.name, shot.seed, shot.spread) == ("LW", 7, PLAYERS["steady"])


def test_options_take_units(ok: Run) -> None:
    shot = shot_from_json(ok(
        "shot", "--hole", "12 yd", "--ball-position", "2 in", "--shaft-lean", "5deg", "--wind", "9 km/h",
        "--lead-weight", "60%", "--json",
    ))  # fmt: skip
    assert shot.course.hole is not None
    assert isclose(shot.course.hole.x, 10.9728)
    assert isclose(shot.setup.ball_position, 0.0508)
    assert isclose(shot.setup.shaft_lean, radians(5.0))
    assert isclose(shot.course.wind, 2.5)


def test_a_scenario_sets_everything_and_options_override_it(ok: Run) -> None:
    scenario = load_library("harrow-fen-over-the-bunker")
    shot = shot_from_json(ok("shot", "--scenario", "harrow-fen-over-the-bunker", "--json"))
    assert (shot.course, shot.setup, shot.motion) == (scenario.course(), scenario.setup(), scenario.motion())
    other = shot_from_json(ok(
        "shot", "--scenario", "harrow-fen-over-the-bunker", "--face-open", "20", "--hole", "12",
        "--surface", "tight",
        "--wind", "0", "--json",
    ))  # fmt: skip
    assert round(degrees(other.setup.face_open), 9) == 20
    assert other.setup.ball_position == shot.setup.ball_position
    assert other.motion == replace(shot.motion, depth=SURFACES["tight"].usual_depth)
    assert other.course.hole is not None
    assert (other.course.hole.x, other.course.lie.surface, other.course.wind) == (12.0, "tight", 0.0)
    assert other.course.ground == shot.course.ground


@pytest.mark.parametrize("lie", SURFACES)
def test_depth_follows_the_lie_until_it_is_given(ok: Run, lie: str) -> None:
    usual = shot_from_json(ok("shot", "--surface", lie, "--json")).motion
    assert usual == Motion(depth=SURFACES[lie].usual_depth)
    assert shot_from_json(ok("shot", "--surface", lie, "--depth", "3", "--json")).motion == Motion(depth=3e-3)


def test_a_scenario_file_is_read(ok: Run) -> None:
    file = HOUSE / "levels" / "library" / "harrow-fen-plain-chip.toml"
    shot = shot_from_json(ok("shot", "--scenario", str(file), "--json"))
    assert shot.course.name == "Harrow Fen: a plain chip"


def test_yards_change_the_words_and_not_the_shot(ok: Run) -> None:
    out = ok("shot", "--units", "yd")
    shot = play(level_course("fairway", 8.0), Setup(), Motion())
    assert f"{shot.run.carry / 0.9144:.1f} yd" in out
    assert " mph" in out
    assert " m/s" not in out
    assert " mm" not in out


def test_a_stray_player_is_called_illustrative(ok: Run) -> None:
    assert report.PRESETS in ok("shot", "--player", "club")


def test_words_for_juniors_are_short(ok: Run) -> None:
    story = ok("shot", "--junior").split("\n\n")[0]
    assert all(len(s.split()) <= 12 for s in story.splitlines())


def missed() -> Shot:
    """The first stroke of a wild player that missed the ball, or the topmost thin aim."""
    course = level_course("fairway", 8.0)
    for depth in (-0.010, -0.008):
        for lean in (0.2617993877991494, 0.2):
            shot = play(course, Setup(), Motion(depth=depth, lean_change=lean, drop=0.0))
            if shot.launch is None:
                return shot
    raise AssertionError("no set-up misses the ball")


def test_a_missed_ball_is_reported_without_a_launch() -> None:
    shot = missed()
    headings = [heading for heading, _ in report.report_sections(shot, UNIT_SYSTEMS["m"])]
    assert shot.strike.contact is Contact.MISSED
    assert headings == ["Lean", "Strike", "Run"]


def test_picture_is_a_png_of_the_asked_size(ok: Run, tmp_path: Path) -> None:
    file = tmp_path / "shot.png"
    ok("shot", "--picture", str(file), "--size", "800x600", "--dark")
    data = file.read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    assert (int.from_bytes(data[16:20], "big"), int.from_bytes(data[20:24], "big")) == (800, 600)
    assert [f.name for f in tmp_path.iterdir()] == ["shot.png"]


# ---- sweep


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def test_sweep_plays_every_setting_as_the_cloud_does(ok: Run) -> None:
    rows = rows_of(ok("sweep", "shaft-lean=0:10:3", "--csv", "--count", "40", "--seed", "3"))
    assert [float(r["shaft_lean_deg"]) for r in rows] == [0, 5, 10]
    whole = cloud(level_course("fairway", 8.0), Setup(), Motion(), PLAYERS["club"], 3, 40)
    assert isclose(float(rows[1]["solid"]), whole.solid_share)
    assert isclose(float(rows[1]["strokes"]), whole.mean_strokes, rel_tol=1e-9)
    assert (
        float(rows[1]["rest_10_percent_m"]) <= float(rows[1]["rest_m"]) <= float(rows[1]["rest_90_percent_m"])
    )


def test_two_controls_are_crossed_the_last_fastest(ok: Run) -> None:
    data = json.loads(ok("sweep", "swing_length=30:60:2", "lead-weight=50:70:3", "--json", "--count", "10"))
    assert [(r["swing_length_deg"], r["lead_weight_percent"]) for r in data] == [
        (a, b) for a in (30, 60) for b in (50, 60, 70)
    ]
    assert data[3]["carry_m"] > data[0]["carry_m"]


def test_exact_sweep_plays_single_shots(ok: Run) -> None:
    rows = rows_of(ok("sweep", "swing-length=30:60:2", "--exact", "--csv"))
    shot = shot_from_json(ok("shot", "--swing-length", "60", "--json"))
    assert isclose(float(rows[1]["carry_m"]), shot.run.carry)
    assert (rows[1]["contact"], rows[1]["outcome"]) == (shot.strike.contact.value, shot.run.outcome.value)


def test_sweep_table_has_a_line_a_setting(ok: Run) -> None:
    out = ok("sweep", "depth=-2:4:4", "--count", "10")
    table = out.split("\n\n")[1].splitlines()
    assert table[0].split()[:3] == ["intended", "depth", "mm"]
    assert [line.split()[0] for line in table[1:]] == [f"{MINUS}2", "0", "2", "4"]
    assert report.PRESETS in out


@pytest.mark.parametrize(
    "argv",
    [
        ("drop=0:1:3",),
        ("drop=0:1:3", "--exact", "--dark"),
        ("drop=0:1:2", "release=0.8:1.2:3"),
        ("drop=0:1:2", "release=0.8:1.2:3", "--exact", "--units", "yd"),
    ],
)
def test_plot_is_drawn(ok: Run, tmp_path: Path, argv: tuple[str, ...]) -> None:
    file = tmp_path / "sweep.png"
    ok("sweep", *argv, "--count", "10", "--plot", str(file))
    assert file.read_bytes()[:8] == b"\x89PNG\r\n\x1a\n"


@pytest.mark.parametrize(
    ("argv", "said"),
    [
        (["lean"], "There is no control 'lean'"),
        (["shaft-laen"], "did you mean shaft-lean?"),
        (["drop=1"], "drop must be written drop=LOW:HIGH"),
        (["drop="], "drop must be written"),
        (["drop=0:nan"], "between 0 and 1.5, not 'nan'"),
        (["shaft-lean=0:21"], "shaft-lean must be between -10 and 20 deg, not 21."),
        (["drop=1:0"], "from a lower to a higher value, not from 1 to 0"),
        (["drop=0:1:1"], "steps of drop must be a whole number between 2 and 201"),
        (["drop", "drop"], "Dip is named twice"),
        (["drop", "depth", "release"], "takes one or two controls, not 3"),
        ([], "is missing."),
        (["drop", "--csv", "--json"], "--json cannot stand beside --csv."),
    ],
)
def test_sweep_refuses(refused: Run, argv: list[str], said: str) -> None:
    assert said in refused("sweep", *argv)


# ---- cloud


def test_cloud_counts_what_physics_played(ok: Run) -> None:
    data = json.loads(ok("cloud", "--count", "60", "--seed", "5", "--json"))
    whole = cloud(level_course("fairway", 8.0), Setup(), Motion(), PLAYERS["club"], 5, 60)
    assert isclose(sum(data["strikes"].values()), 1.0)
    assert isclose(data["strikes"]["missed"], float((whole.met == 0).mean()))
    assert list(data["strikes"]) == list(Contact)
    assert isclose(data["strikes"]["thin"], float((whole.kind == THIN).mean()))
    assert data["solid"] == whole.solid_share
    assert isclose(data["solid"], data["strikes"]["solid"] + data["strikes"]["splashed"])
    assert data["as_set"] == whole.as_set_share <= data["solid"]
    assert data["mean_strokes"] == whole.mean_strokes
    assert (data["count"], data["player"]) == (60, "club")
    for values in data["percentiles"].values():
        assert list(values.values()) == sorted(values.values())


def test_cloud_kinds_agree_with_single_shots(ok: Run) -> None:
    """A cloud of one stroke is that one shot."""
    for seed in range(6):
        data = json.loads(ok("cloud", "--count", "1", "--seed", str(seed), "--player", "beginner", "--json"))
        shot = play(level_course("fairway", 8.0), Setup(), Motion(), PLAYERS["beginner"], seed)
        assert [k for k, share in data["strikes"].items() if share == 1.0] == [shot.strike.contact.value]


def test_cloud_says_what_it_is_not(ok: Run) -> None:
    out = ok("cloud", "--count", "20")
    assert report.PRESETS in out
    assert report.SIDE_VIEW in out
    assert "strokes to hole out" in out


# ---- demo


def test_demo_tells_and_draws_a_lesson_and_three_shots(ok: Run, tmp_path: Path) -> None:
    out = ok("demo", "--out", str(tmp_path / "new" / "demo"))
    files = sorted((tmp_path / "new" / "demo").iterdir())
    assert [f.name for f in files] == [
        "1-why-lean-digs.png", "2-matched-chip.png", "3-nine-degrees-more-lean.png", "4-high-soft-shot.png",
    ]  # fmt: skip
    assert str(files[0]) in out
    assert "the leading edge digs" in out
    for (name, title, _), file in zip(demo.showcase(), files[1:], strict=True):
        assert title in out
        assert file.stem == name
        assert str(file) in out


def test_demo_leans_nine_degrees_more_and_changes_nothing_else() -> None:
    (_, _, chip), (_, _, leaning), _ = demo.showcase()
    assert round(degrees(leaning.motion.lean_change - chip.motion.lean_change), 9) == 9
    assert replace(leaning, motion=replace(leaning.motion, lean_change=chip.motion.lean_change)) == chip


def test_demo_shots_are_what_their_titles_say() -> None:
    """The matched chip is clean and near; more lean digs and falls short; the high one clears the lip."""
    chip, leaning, high = (play(o.course, o.setup, o.motion) for _, _, o in demo.showcase())
    assert chip.strike.contact is Contact.SOLID
    assert report.leave_of(chip) < 1.0
    assert leaning.strike.turf is TurfAction.DIG
    assert report.leave_of(leaning) > 3.0 * report.leave_of(chip)
    assert high.run.carry > 6.5  # m, where the lip stands
    assert high.launch is not None
    assert chip.launch is not None
    assert high.launch.angle > chip.launch.angle
    assert degrees(high.run.landing_angle) >= 45.0
    assert high.run.rest - high.run.carry < high.run.carry


# ---- the window


def test_without_a_display_one_sentence() -> None:
    """No display: exit code 2 and a sentence that names what works instead."""
    hidden = ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER")
    env = {k: v for k, v in os.environ.items() if k not in hidden}
    done = subprocess.run(
        [sys.executable, "-m", "game"], env=env, cwd=HOUSE, capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 2
    assert done.stderr.strip() == NO_DISPLAY


# ---- refusals and exit codes


@pytest.mark.parametrize(
    ("argv", "said"),
    [
        (["shto"], "There is no command 'shto'; did you mean shot?"),
        (
            ["quux"],
            "There is no command 'quux'; allowed: shot, sweep, cloud, check, pack, take, lesson, recap, "
            "clip, log, review, demo.",
        ),
        (["--versoin"], "There is no option '--versoin'; did you mean --version?"),
        (["shot", "--shaft-laen", "3"], "There is no option '--shaft-laen'; did you mean --shaft-lean?"),
        (["shot", "--shaft", "3"], "There is no option '--shaft'"),
        (["shot", "extra"], "'extra' is one word too many."),
        (["shot", "--shaft-lean"], "--shaft-lean needs a value."),
        (["shot", "--shaft-lean", "--json"], "--shaft-lean needs a value."),
        (["shot", "--shaft-lean", "40"], "--shaft-lean must be between -10 and 20 deg, not 40."),
        (["shot", "--shaft-lean", "nan"], "--shaft-lean must be a number between -10 and 20 deg, not 'nan'."),
        (
            ["shot", "--shaft-lean", "-inf"],
            "--shaft-lean must be a number between -10 and 20 deg, not '-inf'.",
        ),
        (
            ["shot", "--shaft-lean", "five"],
            "--shaft-lean must be a number between -10 and 20 deg, not 'five'.",
        ),
        (["shot", "--lead-weight", "90"], "--lead-weight must be between 40 and 85 %, not 90."),
        (["shot", "--hole", "1e400"], "--hole must be a number between 0.5 and 100 m"),
        (["shot", "--hole", "2"], "--hole must be between 3.5 and 100 m on level ground, not 2."),
        (
            ["shot", "--green-speed", "20ft"],
            "--green-speed must be between 1.2 and 4.9 m (3.9 and 16.1 ft), not 20ft.",
        ),
        (["shot", "--hole", "12 deg"], "--hole must be in a unit that fits, between 0.5 and 100 m"),
        (["shot", "--firmness", "1 m"], "--firmness must be in a unit that fits, between 0.5 and 1.5, not"),
        (["shot", "--wind", "-21"], "--wind must be between -20 and 20 m/s, not -21."),
        (["shot", "--firmness", "2"], "--firmness must be between 0.5 and 1.5, not 2."),
        (["shot", "--seed", "1.5"], "--seed must be a whole number between 0 and 4294967295, not '1.5'."),
        (["shot", "--seed", "-1"], "--seed must be a whole number"),
        (["shot", "--club", "putter"], "--club must be one of 7i, 8i"),
        (["shot", "--surface", "ice"], "--surface must be one of green, fringe"),
        (["shot", "--player", "me"], "--player must be one of exact, steady"),
        (["shot", "--units", "ft"], "--units must be one of m, yd, not 'ft'."),
        (["shot", "--size", "10x10"], "--size must be between 640x400 and 3840x2400 px, not '10x10'."),
        (["shot", "--picture", "a.jpg"], "--picture must end in .png, not 'a.jpg'."),
        (["shot", "--json=1"], "--json takes no value."),
        (
            ["shot", "--scenario", "harrow-fen-plain-chip", "--hole", "50"],
            "--hole must lie on the scenario's green, 3 to",
        ),
        (["cloud", "--count", "0"], "--count must be a whole number between 1 and 100000, not '0'."),
    ],
)
def test_a_wrong_option_is_one_sentence_and_code_2(refused: Run, argv: list[str], said: str) -> None:
    assert refused(*argv).startswith(said)


@pytest.mark.parametrize("name", ["no-such-scenario", "no/such/file.toml"])
def test_a_scenario_that_is_not_there_is_code_3(refused: Run, name: str) -> None:
    assert refused("shot", "--scenario", name, code=3)


def test_a_bad_scenario_file_is_code_3_with_its_problems(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    file = tmp_path / "bad.toml"
    file.write_text('format = 1\ntitle = "x"\nfirmness = 9\n', encoding="utf-8")
    assert cli.main(["shot", "--scenario", str(file)]) == 3
    err = capsys.readouterr().err
    assert "bad.toml, line 3, firmness" in err
    assert "Traceback" not in err


@pytest.mark.parametrize("argv", [["shot", "--picture"], ["sweep", "drop", "--plot"]])
def test_a_picture_with_no_folder_is_code_4_before_any_work(
    refused: Run, tmp_path: Path, argv: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("physics.shot.play", None)
    monkeypatch.setattr("physics.cloud.cloud", None)
    said = refused(*argv, str(tmp_path / "no" / "a.png"), code=4)
    assert "there is no folder" in said


def test_a_picture_named_like_a_folder_is_code_4(refused: Run, tmp_path: Path) -> None:
    (tmp_path / "a.png").mkdir()
    assert "it is a folder" in refused("shot", "--picture", str(tmp_path / "a.png"), code=4)


def test_a_demo_folder_that_cannot_be_made_is_code_4(refused: Run, tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    assert "cannot be made" in refused("demo", "--out", str(tmp_path / "file" / "x"), code=4)


def test_a_failed_write_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "a.png"
    file.write_bytes(b"old")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.replace", full)
    with pytest.raises(common.WriteError, match="No space left on device"):
        common.write(file, b"new")
    assert file.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [file]


def test_ctrl_c_is_130(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("physics.shot.play", stopped)
    assert cli.main(["shot"]) == 130
    assert "Traceback" not in capsys.readouterr().err


@pytest.mark.parametrize("argv", [["--help"], *([name, "--help"] for name in cli.COMMANDS)])
def test_help_succeeds_and_documents_every_exit_code(ok: Run, argv: list[str]) -> None:
    out = " ".join(ok(*argv).split())
    for code, meaning in cli.EXIT_CODES.items():
        assert f"{code} {meaning}" in out


def test_help_shows_range_unit_and_default_of_each_control(ok: Run) -> None:
    out = " ".join(ok("shot", "--help").split())
    for c in CONTROLS.values():
        assert c.plain in out
        assert f"{c.low * c.scale:.6g} to {c.high * c.scale:.6g} {c.unit}".rstrip() + "; default" in out


def test_version(ok: Run) -> None:
    assert ok("--version").startswith("fringework ")


# ---- signs of life


def test_first_compilation_is_announced_once_on_stderr(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    done: set[str] = set()
    monkeypatch.setattr(progress, "first_time", lambda part: part not in done)
    monkeypatch.setattr(progress, "mark_done", done.add)
    for _ in range(2):
        with progress.preparing("shot"):
            pass
    out, err = capsys.readouterr()
    assert (out, err) == ("", progress.PREPARING + "\n")


def test_a_stopped_first_compilation_is_announced_again(monkeypatch: pytest.MonkeyPatch) -> None:
    done: set[str] = set()
    monkeypatch.setattr(progress, "first_time", lambda part: True)
    monkeypatch.setattr(progress, "mark_done", done.add)
    with pytest.raises(KeyboardInterrupt), progress.preparing("shot"):
        raise KeyboardInterrupt
    assert done == set()


def test_counting_passes_every_item_through() -> None:
    assert list(progress.counted(iter("abc"), 3, "Letters")) == ["a", "b", "c"]


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize("items", ["", "a", "abc"])
def test_counting_on_a_terminal_shows_a_bar_once_the_first_is_done(
    monkeypatch: pytest.MonkeyPatch, items: str
) -> None:
    screen = Terminal()
    monkeypatch.setattr(sys, "stderr", screen)
    got = []
    for item in progress.counted(iter(items), len(items), "Letters"):
        got.append(item)
        assert ("Letters" in screen.getvalue()) == (len(got) > 1)
    assert got == list(items)


def test_first_compilation_is_announced_on_a_terminal_and_wiped(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Terminal()
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setattr(progress, "first_time", lambda part: True)
    monkeypatch.setattr(progress, "mark_done", lambda part: None)
    with progress.preparing("shot"):
        pass
    assert progress.PREPARING in screen.getvalue()
    assert screen.getvalue().endswith("\x1b[2K")


# ---- units


def test_units_are_exact_by_definition() -> None:
    yards = UNIT_SYSTEMS["yd"]
    assert yards.far(9.144) == "10.0 yd"
    assert yards.near(3.048) == "10.0 ft"
    assert yards.small(0.0254) == "1.00 in"
    assert yards.speed(0.44704) == "1.0 mph"


def test_what_did_not_happen_is_a_dash_and_nothing_is_minus_zero() -> None:
    assert UNIT_SYSTEMS["m"].far(float("nan")) == "-"
    assert UNIT_SYSTEMS["m"].far(-0.001) == "0.0 m"
    assert percent(0.125) == "12 %"
    assert revolutions(-104.71975511965977) == "1000 rpm top"


def test_json_has_null_for_what_did_not_happen() -> None:
    assert json.loads(report.as_json({"a": [float("nan"), 1.0]})) == {"a": [None, 1.0]}


# ---- true processes


def process(*argv: str, **options: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "game", *argv], cwd=HOUSE, capture_output=True, text=True, check=False,
        **options,  # type: ignore[call-overload]
    )  # fmt: skip


def test_process_prints_json_and_nothing_else_on_stdout(tmp_path: Path) -> None:
    done = process("shot", "--json", "--picture", str(tmp_path / "a.png"))
    assert done.returncode == 0, done.stderr
    assert shot_from_json(done.stdout) == play(level_course("fairway", 8.0), Setup(), Motion())


def test_signs_a_stream_cannot_hold_are_written_in_its_own_letters() -> None:
    argv = ("shot", "--shaft-lean", "-4", "--release", "0.6")
    narrow = process(*argv, env=os.environ | {"PYTHONIOENCODING": "ascii"})
    wide = process(*argv, env=os.environ | {"PYTHONIOENCODING": "utf-8"}, encoding="utf-8")
    assert f"{MINUS}4.0 deg" in wide.stdout
    assert "-4.0 deg" in narrow.stdout
    assert "-4.0 deg" not in wide.stdout, "one minus throughout"
    assert "?" not in narrow.stdout
    assert narrow.stdout == wide.stdout.replace(MINUS, "-").replace("°", " deg")


def test_process_refuses_with_code_2() -> None:
    done = process("shot", "--wind", "99")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "--wind must be between -20 and 20 m/s, not 99.\n"


def test_help_costs_no_heavy_import() -> None:
    code = (
        "import sys; from game.cli import main; main(['--help']); "
        "heavy = {'numba', 'numpy', 'pygame', 'pydantic', 'rich'} & set(sys.modules); "
        "sys.exit(','.join(heavy) or 0)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=HOUSE, capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")


class Full(io.StringIO):
    """A stream on a full disk."""

    def write(self, text: str) -> int:
        raise OSError(28, "No space left on device")


def test_a_full_disk_is_code_4(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(sys, "stdout", Full())
    assert cli.main(["shot"]) == 4
    assert capsys.readouterr().err == "The output cannot be written: No space left on device.\n"


class Closed(io.StringIO):
    """A pipe whose reader has gone."""

    def write(self, text: str) -> int:
        raise BrokenPipeError


def test_a_reader_that_has_gone_is_no_noise(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdout", Closed())
    assert cli.main(["shot", "--json"]) == 4
    assert capsys.readouterr().err == ""
