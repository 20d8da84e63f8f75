"""`fringework check` as a coach meets it, and the drawn proof."""

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import numpy as np
import pygame
import pytest

from game import cli
from game.commands import check as command
from game.draw import chart, contour
from game.draw.camera import Rect
from game.draw.palette import DARK, LIGHT, Palette, contrast
from game.draw.proof import draw_proof, plan_proof, proof_page, proof_view
from game.text import proof as proof_words
from levels import effort, prove
from levels.files import load_library, parse_scenario, read_scenario, scenario_text
from levels.packs import Member, Pack, write_pack
from levels.parts import FILE_KEYS
from levels.proof import Proof
from levels.proof_shots import best_shots
from levels.scenario import Scenario

NAME = "harrow-fen-short-sided"
TINY = replace(
    effort.SMALL, draw=60, start=6, rounds=(8, 12), children=6, finalists=1, chosen=24, judged=50, near=6
)
Caught = pytest.CaptureFixture[str]


@pytest.fixture(scope="module")
def made() -> Scenario:
    return load_library(NAME)


@pytest.fixture(scope="module")
def proof(made: Scenario) -> Proof:
    return prove.proved(made, TINY)


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """The command searches less hard here."""
    monkeypatch.setitem(effort.EFFORTS, "small", TINY)


@pytest.fixture
def file(tmp_path: Path, made: Scenario) -> Path:
    path = tmp_path / "mine.toml"
    path.write_text(f"# my own words\n{scenario_text(made)}", encoding="utf-8")
    return path


def too_far(text: str) -> str:
    """The text with the first leave a goal allows out of all limits."""
    return re.sub(r"leave_m = [\d.]+", "leave_m = 99", text, count=1)


# ---- the command


def test_a_sound_file_is_named_in_one_sentence(file: Path, capsys: Caught) -> None:
    assert cli.main(["check", str(file), NAME]) == 0
    out, err = capsys.readouterr()
    assert out.count("a sound scenario") == 2
    assert "short of room" in out
    assert err == ""


def test_every_problem_is_told_with_line_and_key(file: Path, capsys: Caught) -> None:
    text = too_far(file.read_text())
    text = text.replace('player = "steady"', "player = 3")
    file.write_text(text)
    line = text.splitlines().index("leave_m = 99") + 1
    assert cli.main(["check", str(file), NAME]) == 1
    out = capsys.readouterr().out
    assert f"mine.toml, line {line}, goal.leave_m: 99 is too large; allowed:" in out
    assert "player: 3 is not text" in out
    assert "a sound scenario" in out, "the other one is still told"


@pytest.mark.parametrize("given", ["nowhere.toml", "no-such-scenario", "."])
def test_what_cannot_be_read_is_a_problem_not_a_traceback(given: str, capsys: Caught) -> None:
    assert cli.main(["check", given]) == 1
    out, err = capsys.readouterr()
    assert "Traceback" not in out + err
    assert len(out.strip().splitlines()) == 1


def test_a_proof_is_told_in_plain_words(capsys: Caught, proof: Proof) -> None:
    assert cli.main(["check", NAME, "--prove", "--effort", "small"]) == 0
    out = capsys.readouterr().out
    assert proof_words.lead(proof) in out
    for family in proof.families:
        assert proof_words.family_words(family) in out
        assert proof_words.setup_words(family) in out
    assert proof_words.default_words(proof) in out
    assert "Player presets are illustrative." in out
    assert "\x1b" not in out


def test_json_holds_problems_and_proof_and_nothing_else(file: Path, capsys: Caught, proof: Proof) -> None:
    bad = file.with_name("bad.toml")
    bad.write_text("format = 1")
    code = cli.main(["check", str(file), str(bad), "--prove", "--effort", "small", "--json"])
    assert code == 1
    one, two = json.loads(capsys.readouterr().out)
    assert Proof.model_validate_json(json.dumps(one["scenarios"][0]["proof"])) == proof
    assert (one["problems"], two["scenarios"]) == ([], [])
    assert len(two["problems"]) >= 3


def test_a_saved_proof_leaves_everything_else_as_it_was(file: Path, capsys: Caught, proof: Proof) -> None:
    before = file.read_text()
    assert cli.main(["check", str(file), "--effort", "small", "--save"]) == 0
    capsys.readouterr()
    after = file.read_text()
    assert after.startswith("# my own words\n")
    assert read_scenario(file).proof == proof
    assert read_scenario(file).model_copy(update={"proof": None}) == parse_scenario(before)
    lines = set(after.splitlines())
    assert all(line in lines for line in before.splitlines())
    assert [p.name for p in file.parent.iterdir()] == ["mine.toml"]
    assert cli.main(["check", str(file)]) == 0
    assert proof_words.lead(proof) in capsys.readouterr().out, "a kept proof is told without a new search"


def test_a_stale_proof_is_told(file: Path, capsys: Caught, proof: Proof, made: Scenario) -> None:
    old = made.model_copy(update={"proof": proof, "wind_m_per_s": 2.0})
    file.write_text(scenario_text(old))
    assert cli.main(["check", str(file)]) == 0
    assert proof_words.stale_words() in capsys.readouterr().out


def test_a_pack_is_checked_member_by_member(tmp_path: Path, made: Scenario, capsys: Caught) -> None:
    path = tmp_path / "winter.toml"
    members = tuple(Member(name, scenario_text(made), made) for name in ("one", "two"))
    write_pack(path, Pack("Winter", members))
    assert cli.main(["check", str(path)]) == 0
    out = capsys.readouterr().out
    assert "one: a sound scenario" in out
    assert "two: a sound scenario" in out
    path.write_text(too_far(path.read_text()))
    assert cli.main(["check", str(path)]) == 1
    out = capsys.readouterr().out
    assert "member one" in out
    assert "goal.leave_m" in out
    assert "two: a sound scenario" in out
    assert cli.main(["check", str(path), "--save"]) == 2
    assert "a scenario's own file" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (["--save"], 2, "a scenario's own file"),
        (["--effort", "huge"], 2, "--effort must be one of small, full"),
        (["--seed", "-1"], 2, "--seed must be a whole number"),
        (["--picture", "out.jpg"], 2, "--picture must end in .png"),
        (["--picture", "/nowhere/out.png"], 4, "there is no folder"),
        (["harrow-fen-two-tees", "--picture", "out.png"], 2, "draws one scenario"),
    ],
)
def test_what_cannot_end_well_is_refused_before_the_work(
    words: list[str], code: int, told: str, capsys: Caught, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(prove, "prove", lambda *_: pytest.fail("it began to search"))
    assert cli.main(["check", NAME, *words]) == code
    out, err = capsys.readouterr()
    assert out == ""
    assert told in err
    assert err.count("\n") == 1


def test_ctrl_c_stops_in_one_sentence_and_keeps_nothing(
    file: Path, capsys: Caught, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, real = file.read_text(), prove.prove

    def stopped(*args: object) -> Iterator[object]:
        steps = iter(real(*args))  # type: ignore[arg-type]
        yield next(steps)
        yield next(steps)
        raise KeyboardInterrupt

    monkeypatch.setattr(prove, "prove", stopped)
    assert cli.main(["check", str(file), "--effort", "small", "--save"]) == command.STOPPED
    out, err = capsys.readouterr()
    assert out == ""
    assert err.splitlines()[-1] == "Stopped: what was not finished is not kept."
    assert file.read_text() == before


def test_the_picture_is_a_png(tmp_path: Path, capsys: Caught) -> None:
    path = tmp_path / "proof.png"
    assert cli.main(["check", NAME, "--effort", "small", "--picture", str(path)]) == 0
    drawn = pygame.image.load(str(path))
    assert drawn.get_width() == 1280
    assert len(np.unique(pygame.surfarray.array3d(drawn).reshape(-1, 3), axis=0)) > 500


# ---- words


@pytest.mark.parametrize(
    ("share", "told"),
    [(0.0, "none of 100"), (0.004, "none of 100"), (0.01, "1 of 100"), (0.5, "5 of 10"), (0.97, "97 of 100"),
     (0.1, "1 of 10"), (1.0, "100 of 100")],
)  # fmt: skip
def test_chances_are_counted_not_computed(share: float, told: str) -> None:
    assert proof_words.chance_words(share) == told


def test_every_sentence_ends_and_names_its_units(proof: Proof) -> None:
    sentences = [
        proof_words.lead(proof), proof_words.default_words(proof), proof_words.match_words(proof),
        *proof_words.forgiveness_words(proof), *(proof_words.family_words(f) for f in proof.families),
    ]  # fmt: skip
    assert all(s.endswith(".") and s[0].isupper() for s in sentences)


# ---- the picture


@pytest.mark.parametrize("scale", [1.0, 1.4, 2.0])
@pytest.mark.parametrize("width", [460, 980, 1208, 2400])
def test_nothing_lies_on_anything_else(scale: float, width: int, made: Scenario, proof: Proof) -> None:
    told = proof.model_copy(update={"warnings": ("The default set-up meets the goals 3 times in 10.",)})
    box = Rect(20, 30, width, 700)
    plan = plan_proof(proof_view(made, told, best_shots(made, told)), box, scale)
    assert plan.chart is not None
    boxes = [*(w.box for w in plan.words), *plan.rows, plan.chart.field, plan.chart.scale_bar, *plan.signs]
    for a, b in combinations(boxes, 2):
        assert not a.inset(0.5).overlaps(b.inset(0.5))
    for one in boxes:
        assert one.x >= box.x - 0.5
        assert one.right <= box.right + 1.0
        assert one.bottom <= box.y + plan.height + 0.5
    names = [spot.name.box for spot in plan.chart.spots]
    assert all(not a.overlaps(b) for a, b in combinations(names, 2))
    assert all(plan.type.size(w.role) >= 14 * scale - 0.5 for w in plan.words)


def test_the_marks_stand_where_their_set_ups_are(made: Scenario, proof: Proof) -> None:
    view = proof_view(made, proof, best_shots(made, proof))
    assert proof.chart is not None
    assert view.marks[0].shape == "star"
    assert len({m.shape for m in view.marks}) == len(view.marks), "told apart without colour"
    best = proof.best
    assert best is not None
    assert best.best is not None
    field = chart.plan_chart(proof.chart, view.marks, (0.0, 0.0), 500.0, plan_type())
    star, f = field.spots[0], field.field
    limits = proof.chart.across_limits
    share = (view.marks[0].across - limits[0]) / (limits[1] - limits[0])
    assert star.x == pytest.approx(f.x + share * f.w, abs=0.01)
    # A reference that is not itself the best found has a mark of its own.
    assert made.reference is not None
    key = FILE_KEYS[proof.chart.across]
    aside = getattr(best.best, key) + 0.1 * (limits[1] - limits[0])
    apart = made.model_copy(update={"reference": made.reference.model_copy(update={key: aside})})
    diamond = next(
        m for m in proof_view(apart, proof, best_shots(apart, proof)).marks if m.shape == "diamond"
    )
    assert diamond.across == pytest.approx(aside)


def test_a_mark_beyond_the_chart_stands_at_its_edge_with_an_arrow() -> None:
    found = chart.Chart(
        club="SW", across="swing_length", across_limits=(20.0, 40.0), up="shaft_lean", up_limits=(0.0, 8.0),
        percent=("0 50", "50 100"),
    )  # fmt: skip
    marks = (
        chart.ChartMark("best found", "star", 30.0, 4.0),
        chart.ChartMark("default", "square", 90.0, -9.0),
    )
    type_ = plan_type()
    plan = chart.plan_chart(found, marks, (0.0, 0.0), 400.0, type_)
    star, square = plan.spots
    assert (star.way, square.way) == ("", "rightdown")
    assert square.x < plan.field.right
    assert square.y < plan.field.bottom
    assert "further off" in square.name.text


def plan_type() -> chart.Type:
    return chart.Type(1.0, 1.0)


@pytest.mark.parametrize(
    ("low", "high"), [(0.0, 1.0), (-12.0, 12.0), (15.0, 110.0), (33.3, 33.9), (-0.4, 2.0), (61.0, 62.0)]
)
def test_ticks_are_round_and_inside(low: float, high: float) -> None:
    found = chart.ticks(low, high)
    assert 2 <= len(found) <= 6
    assert all(low - 1e-9 <= v <= high + 1e-9 for v in found)
    steps = np.diff(found)
    assert np.allclose(steps, steps[0])
    assert "-0" not in [f"{v:g}" for v in found]


def test_the_field_keeps_the_chances_and_is_darker_where_more_comes_off() -> None:
    cells = [[0.0, 0.2, 0.9], [0.1, 0.5, 1.0], [0.0, 0.4, 0.8]]
    soft = contour.smoothed(cells)
    assert soft.shape == (3, 3)
    assert soft.min() >= 0.0
    assert soft.max() <= 1.0
    assert contour.smoothed([[0.4] * 4] * 4) == pytest.approx(np.full((4, 4), 0.4))
    surface = pygame.Surface((90, 60))
    contour.paint_field(surface, Rect(0, 0, 90, 60), cells, LIGHT, 1.0)
    light = pygame.surfarray.array3d(surface).mean(axis=2)
    assert light[:10].mean() > light[-10:].mean() + 20
    assert light[45, 30] == pytest.approx(np.mean(contour.field_colour(LIGHT, soft[1, 1])), abs=60)


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_marks_and_ends_of_the_field_can_be_told_apart(palette: Palette) -> None:
    """3:1 for marks on their rim (WCAG 2.2, 1.4.11); the field's ends differ clearly in lightness."""
    assert contrast(palette.landing, palette.halo) >= 3.0
    assert contrast(palette.ink, palette.halo) >= 3.0
    never, always = (contour.field_colour(palette, s) for s in (0.0, 1.0))
    assert contrast(never, always) >= 2.0
    assert contrast(palette.ink, palette.paper) >= 4.5


def test_drawing_computes_no_shot(made: Scenario, proof: Proof, monkeypatch: pytest.MonkeyPatch) -> None:
    view = proof_view(made, proof, best_shots(made, proof))
    surface = pygame.Surface((1280, 900))
    surface.fill(LIGHT.paper)
    high = draw_proof(surface, Rect(20, 20, 1240, 860), view, LIGHT)
    assert 300 < high < 900
    left = pygame.Surface((1280, 900))
    left.fill(LIGHT.paper)
    draw_proof(left, Rect(20, 20, 1240, 860), view, LIGHT, left_handed=True)
    row = plan_proof(view, Rect(20, 20, 1240, 860)).rows[2]
    box = pygame.Rect(int(row.x) + 4, int(row.y) + 4, int(row.w) - 8, int(row.h) - 8)
    one, two = (pygame.surfarray.array3d(s.subsurface(box)).astype(float) for s in (surface, left))
    assert np.abs(one[::-1] - two).mean() < np.abs(one - two).mean(), "mirrored for a left-hander"


def test_a_page_grows_with_its_text(made: Scenario, proof: Proof) -> None:
    view = proof_view(made, proof, best_shots(made, proof))
    small, large = (proof_page(view, scale=s) for s in (1.0, 2.0))
    assert large.get_height() > 1.5 * small.get_height()
    assert (
        proof_page(proof_view(made, proof, best_shots(made, proof)), dark=True).get_at((2, 2))[:3]
        == DARK.paper
    )
