"""`fringework lesson`: text, JSON and picture from one lesson, and its refusals."""

import json
from pathlib import Path

import pytest

from game.cli import main


def test_json_has_units_in_its_keys_and_the_dig_in_its_values(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    file = tmp_path / "lean.png"
    assert main(["lesson", "lean", "--json", "--picture", str(file), "--size", "640x400"]) == 0
    found = json.loads(capsys.readouterr().out)
    matched, forward = found["cases"]
    assert (matched["turf"], forward["turf"]) == ("skid", "dig")
    assert forward["solid_of_100"] < matched["solid_of_100"]
    assert forward["lean_change_deg"] - matched["lean_change_deg"] == pytest.approx(9.0)
    assert {"rest_m", "bounce_at_impact_deg", "distance_kept_percent"} <= set(matched)
    assert len(found["lies"]) == 8
    assert found["strokes"] == 400
    assert file.read_bytes()[:4] == b"\x89PNG"


def test_text_has_one_row_a_lie(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lesson", "bounce", "--surface", "soft"]) == 0
    out = capsys.readouterr().out
    assert "Bounce saves you." in out
    assert "A: 14° of bounce" in out
    assert all(f"\n{lie:>8} " in out for lie in ("soft", "mat", "sand", "wet_sand"))
    assert "standard error up to 2.5" in out


@pytest.mark.parametrize(
    ("words", "told", "code"),
    [
        (["lesson", "lena"], "There is no lesson 'lena'; did you mean lean?", 2),
        (["lesson"], "LESSON is missing.", 2),
        (
            ["lesson", "lean", "--player", "exact"],
            "A lesson needs a player whose strokes differ: --player steady, club or beginner.",
            2,
        ),
        (["lesson", "lean", "--picture", "no/such/a.png"], "there is no folder", 4),
    ],
)
def test_refusals_are_one_sentence(
    words: list[str], told: str, code: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(words) == code
    err = capsys.readouterr().err
    assert told in err
    assert err.count("\n") == 1
