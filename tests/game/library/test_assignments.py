"""Assignments handed out are found again by their id; answers are known by what is in them."""

from dataclasses import replace
from pathlib import Path

import pytest

from game.handout import HandoutError, places, put_new
from game.library.assignments import ASSIGNMENTS, assignment_of, is_answer, keep_assignment
from game.library.shelf import Shelf
from levels.draft import library_text
from levels.files import load_library
from levels.packs import Member, Pack, write_pack

NAME = "harrow-fen-after-rain"
PACK = Pack("Winter", (Member(NAME, library_text(NAME), load_library(NAME)),), id="winter-1")


def test_what_was_handed_out_is_found_by_its_id(tmp_path: Path) -> None:
    assert assignment_of(tmp_path, "winter-1") is None
    assert not list(tmp_path.iterdir())  # looking makes nothing
    keep_assignment(tmp_path, PACK)
    assert assignment_of(tmp_path, "winter-1") == PACK
    assert assignment_of(tmp_path, "winter-2") is None


def test_a_pack_of_the_library_is_found_too(tmp_path: Path) -> None:
    write_pack(tmp_path / "a.pack.toml", PACK)
    assert Shelf(tmp_path / "home").take(tmp_path / "a.pack.toml").kept
    found = assignment_of(tmp_path / "home", "winter-1")
    assert found
    assert [m.name for m in found.members] == [NAME]


def test_a_torn_copy_gives_way_to_the_library(tmp_path: Path) -> None:
    keep_assignment(tmp_path, PACK)
    (copy,) = (tmp_path / ASSIGNMENTS).iterdir()
    copy.write_text(copy.read_text()[:200])
    assert assignment_of(tmp_path, "winter-1") is None
    write_pack(tmp_path / "a.pack.toml", replace(PACK, title="Library"))
    Shelf(tmp_path).take(tmp_path / "a.pack.toml")
    found = assignment_of(tmp_path, "winter-1")
    assert found
    assert found.title == "Library"


@pytest.mark.parametrize(
    ("name", "text", "known"),
    [
        ("a.txt", '\ufeff  {"format": 1}', True),
        ("a.toml", "pack = 1", False),
        ("a.json", "[]", False),
        ("a.toml", "", False),
    ],
)
def test_an_answer_is_known_by_its_content(tmp_path: Path, name: str, text: str, known: bool) -> None:
    (tmp_path / name).write_text(text, encoding="utf-8")
    assert is_answer(tmp_path / name) is known


def test_a_text_taken_home_takes_nothings_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(places, "user_pictures_path", lambda: tmp_path / "pictures")
    made = [put_new("answer", ".json", text) for text in ("a", "b", "c")]
    assert [one.name for one in made] == ["answer.json", "answer-2.json", "answer-3.json"]
    assert [one.read_text() for one in made] == ["a", "b", "c"]
    assert len(list((tmp_path / "pictures").iterdir())) == 3
    (tmp_path / "file").write_text("x")
    monkeypatch.setattr(places, "user_pictures_path", lambda: tmp_path / "file")
    with pytest.raises(HandoutError, match="cannot be made"):
        put_new("answer", ".json", "d")
