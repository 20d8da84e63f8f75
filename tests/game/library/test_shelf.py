"""The library: what is taken in whole, never over another file, never outside; what is handed out."""

import os
from datetime import date, timedelta
from pathlib import Path

import pytest

from game.library import shelf as module
from game.library.shelf import HEAD, Entry, HeldPack, Shelf, Taken, hand_out, plain_name
from levels import files
from levels.files import library, load_library, scenario_text
from levels.packs import Member, Pack, PackError, pack_text, read_pack
from levels.plan import PracticePlan

PLAIN = scenario_text(load_library("harrow-fen-plain-chip"))
OTHER = scenario_text(load_library("harrow-fen-first-brush"))
TODAY = date(2025, 11, 25)
PLAN = PracticePlan(
    made=TODAY, focus=("Brush",), drill="Ten", shots=10, successes=6, retest=TODAY + timedelta(7)
)  # fmt: skip


def put(folder: Path, name: str, text: str) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8", newline="")
    return folder / name


def a_pack(title: str = "Winter", *texts: str, names: tuple[str, ...] = ()) -> str:
    made = texts or (PLAIN, OTHER)
    scenario = load_library("harrow-fen-plain-chip")
    named = names or tuple(f"m{i}" for i in range(len(made)))
    members = tuple(Member(n, t, scenario) for n, t in zip(named, made, strict=True))
    return pack_text(Pack(title, members, "Be brave.", PLAN))


def tree(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


# ---- taking a scenario


def test_a_scenario_is_taken_letter_for_letter(home: Path, tmp_path: Path) -> None:
    text = "\ufeff# mine\r\n" + PLAIN.replace("\n", "\r\n")
    taken = Shelf(home).take(put(tmp_path, "Mein Hügel.toml", text))
    assert taken == Taken(
        "'Harrow Fen: a plain chip' is in your library.",
        (home / "scenarios" / "Mein-Hugel.toml",), (), home / "scenarios" / "Mein-Hugel.toml",
    )  # fmt: skip
    assert taken.added[0].read_bytes() == text.encode()
    (entry,) = Shelf(home).scenarios()
    assert isinstance(entry, Entry)
    assert (entry.key, entry.scenario.title) == ("scenarios/Mein-Hugel", "Harrow Fen: a plain chip")


def test_another_file_of_the_same_name_gets_a_number_the_same_one_none(home: Path, tmp_path: Path) -> None:
    shelf = Shelf(home)
    first = shelf.take(put(tmp_path / "a", "x.toml", PLAIN))
    second = shelf.take(put(tmp_path / "b", "X.toml", OTHER))
    again = shelf.take(put(tmp_path / "c", "x.toml", OTHER))
    assert [p.name for p in (*first.added, *second.added)] == ["x.toml", "X-2.toml"]
    assert again.added == ()
    assert again.problems == ()
    assert again.sentence.endswith("was in your library already.")
    assert again.kept == second.added[0]
    assert first.added[0].read_text(encoding="utf-8") == PLAIN


def test_a_file_that_comes_in_between_is_not_written_over(
    home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.link

    def late(part: Path, target: Path) -> None:
        if target.name == "x.toml":
            target.write_text("somebody else's", encoding="utf-8")
        real(part, target)

    monkeypatch.setattr(module.os, "link", late)
    taken = Shelf(home).take(put(tmp_path, "x.toml", PLAIN))
    assert taken.added[0].name == "x-2.toml"
    assert (home / "scenarios" / "x.toml").read_text(encoding="utf-8") == "somebody else's"


def test_a_disk_without_links(home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def none(*_: object) -> None:
        raise OSError("not here")

    monkeypatch.setattr(module.os, "link", none)
    assert Shelf(home).take(put(tmp_path, "x.toml", PLAIN)).added[0].name == "x.toml"
    assert sorted(os.listdir(home / "scenarios")) == ["x.toml"]


@pytest.mark.parametrize("name", ["con.toml", "NUL.pack.toml", "Com1.toml"])
def test_names_of_windows_are_refused(name: str, home: Path, tmp_path: Path) -> None:
    taken = Shelf(home).take(put(tmp_path, name, PLAIN))
    assert taken.kept is None
    assert "is kept by Windows for a device; allowed: another name." in taken.sentence
    assert not home.exists()


def test_a_bad_file_touches_nothing(home: Path, tmp_path: Path) -> None:
    taken = Shelf(home).take(put(tmp_path, "x.toml", PLAIN.replace("firmness = ", "firmnes = ")))
    assert taken.kept is None
    assert taken.problems[0].startswith("x.toml, line ")
    assert not home.exists()


@pytest.mark.parametrize(
    ("name", "plain"),
    [("a.toml", "a"), ("a.pack.TOML", "a"), ("../../x", "x"), ("über Ö.toml", "uber-O"), ("汉", ""),
     ("x" * 99, "x" * 60), ("a--b__c.toml", "a-b-c"), ("C:\\x.toml", "C-x")],
)  # fmt: skip
def test_plain_names(name: str, plain: str) -> None:
    assert plain_name(name) == plain


# ---- taking a pack


def test_a_pack_is_taken_whole_and_seen(home: Path, tmp_path: Path) -> None:
    shelf = Shelf(home)
    taken = shelf.take(put(tmp_path, "winter.pack.toml", a_pack()))
    assert taken.sentence == "'Winter' is in your library with 2 scenarios."
    assert list(tree(home)) == [
        f"packs/winter/{n}" for n in ("01-m0.toml", "02-m1.toml", HEAD)
    ]  # fmt: skip
    (held,) = shelf.packs()
    assert isinstance(held, HeldPack)
    assert (held.title, held.words, held.plan) == ("Winter", "Be brave.", PLAN)
    assert [e.key for e in held.entries] == ["packs/winter/01-m0", "packs/winter/02-m1"]
    assert held.entries[1].path.read_text(encoding="utf-8") == OTHER
    assert shelf.scenarios() == []


def test_a_pack_again_and_another_of_its_name(home: Path, tmp_path: Path) -> None:
    shelf = Shelf(home)
    shelf.take(put(tmp_path / "a", "w.pack.toml", a_pack()))
    before = tree(home)
    again = shelf.take(put(tmp_path / "b", "w.pack.toml", a_pack()))
    assert (again.added, again.kept) == ((), home / "packs" / "w")
    assert tree(home) == before
    other = shelf.take(put(tmp_path / "c", "W.pack.toml", a_pack("Summer")))
    assert other.kept == home / "packs" / "W-2"
    assert {k: v for k, v in tree(home).items() if k in before} == before


def test_the_sound_rest_of_a_pack_is_taken_and_the_bad_named(home: Path, tmp_path: Path) -> None:
    taken = Shelf(home).take(put(tmp_path, "w.pack.toml", a_pack("W", PLAIN, "format = 1")))
    assert [p.name for p in taken.added] == [HEAD, "01-m0.toml"]
    told = "'W' is in your library with 1 scenario; left out: w.pack.toml, member m1"
    assert taken.sentence.startswith(told)
    assert len(taken.problems) >= 1


@pytest.mark.parametrize("step", ["replace", "fsync", "rename"])
def test_when_the_disk_refuses_nothing_half_is_left(
    step: str, home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shelf = Shelf(home)
    shelf.take(put(tmp_path, "old.pack.toml", a_pack("Old")))
    before, count = tree(home), [0]

    def refuse(*args: object) -> None:
        count[0] += 1
        if step == "rename" or count[0] == 3:
            raise OSError(28, "No space left on device")

    real = getattr(os, step)
    monkeypatch.setattr(
        files.os if step != "rename" else module.os, step, lambda *a: (refuse(*a), real(*a))[1]
    )
    taken = shelf.take(put(tmp_path, "new.pack.toml", a_pack("New")))
    assert taken.sentence == "Your library cannot be written: No space left on device."
    assert (taken.added, taken.kept) == ((), None)
    assert tree(home) == before
    assert sorted(os.listdir(home / "packs")) == ["old"]


@pytest.mark.parametrize("kind", ["scenarios", "packs"])
def test_a_library_that_is_a_link_is_not_followed(kind: str, home: Path, tmp_path: Path) -> None:
    away = tmp_path / "away"
    away.mkdir()
    home.mkdir()
    (home / kind).symlink_to(away)
    text = PLAIN if kind == "scenarios" else a_pack()
    taken = Shelf(home).take(put(tmp_path, "x.toml", text))
    assert taken.sentence == f"Your library cannot be written: '{kind}' is a link, which is not followed."
    assert os.listdir(away) == []


def test_a_link_in_the_place_of_a_file_is_neither_followed_nor_replaced(home: Path, tmp_path: Path) -> None:
    outside = put(tmp_path / "outside", "x.toml", "keep")
    (home / "scenarios").mkdir(parents=True)
    (home / "scenarios" / "x.toml").symlink_to(outside)
    (home / "scenarios" / "y.toml").symlink_to(tmp_path / "nowhere")
    shelf = Shelf(home)
    for name in ("x.toml", "y.toml"):
        taken = shelf.take(put(tmp_path, name, PLAIN))
        assert taken.added[0].name == name.replace(".", "-2.")
    assert outside.read_text(encoding="utf-8") == "keep"
    assert not (tmp_path / "nowhere").exists()
    links = [one for one in shelf.scenarios() if isinstance(one, str)]
    assert len(links) == 2
    assert all(t.endswith("is a link out of your library, which is not followed.") for t in links)


def test_a_home_reached_by_a_link_is_the_readers_own_choice(home: Path, tmp_path: Path) -> None:
    home.mkdir()
    (tmp_path / "way").symlink_to(home)
    assert Shelf(tmp_path / "way").take(put(tmp_path, "x.toml", PLAIN)).added[0].parent == home / "scenarios"


# ---- looking


def test_a_bad_file_is_one_sentence_and_the_rest_is_there(home: Path) -> None:
    put(home / "scenarios", "a.toml", PLAIN)
    put(home / "scenarios", "b.toml", "format = 1\n")
    put(home / "scenarios", "notes.txt", "not looked at")
    put(home / "scenarios", ".hidden.toml", "nor this")
    one, bad = Shelf(home).scenarios()
    assert isinstance(one, Entry)
    assert isinstance(bad, str)
    assert bad.startswith("b.toml, ")
    assert bad.endswith("more problems).")
    assert "\n" not in bad


def test_a_pack_with_a_broken_head_or_member_still_shows_the_rest(home: Path, tmp_path: Path) -> None:
    shelf = Shelf(home)
    folder = shelf.take(put(tmp_path, "w.pack.toml", a_pack())).kept
    assert folder
    put(folder, HEAD, "pack = 9")
    put(folder, "02-m1.toml", "nonsense")
    (held,) = shelf.packs()
    assert isinstance(held, HeldPack)
    assert (held.title, held.plan, len(held.entries)) == ("w", None, 1)
    assert [p.split(",")[0] for p in held.problems] == ["Pack w"] * 2
    put(folder, "01-m0.toml", "nonsense")
    (told,) = shelf.packs()
    assert isinstance(told, str)
    assert told.startswith("Pack w, 01-m0.toml, line 1: ")


def test_only_what_changed_is_read_again(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    put(home / "scenarios", "a.toml", PLAIN)
    path = put(home / "scenarios", "b.toml", PLAIN)
    shelf, read = Shelf(home), []
    real = module.read_scenario
    monkeypatch.setattr(module, "read_scenario", lambda p: (read.append(p.name), real(p))[1])
    shelf.scenarios()
    shelf.scenarios()
    put(path.parent, "b.toml", OTHER)
    titles = [e.scenario.title for e in shelf.scenarios() if isinstance(e, Entry)]
    assert read == ["a.toml", "b.toml", "b.toml"]
    assert titles == ["Harrow Fen: a plain chip", load_library("harrow-fen-first-brush").title]


def test_an_empty_home_shows_nothing_and_is_not_made(home: Path) -> None:
    assert Shelf(home).scenarios() == []
    assert Shelf(home).packs() == []
    assert not home.exists()


# ---- handing out


def test_handed_out_and_taken_again(home: Path, tmp_path: Path) -> None:
    paths = [put(tmp_path / n, f"{n[11:]}.toml", scenario_text(load_library(n))) for n in library()[:3]]
    out = tmp_path / "o.pack.toml"
    made = hand_out(paths, PLAN, out, title="T", words="W")
    assert read_pack(out) == made
    assert [m.name for m in made.members] == [p.stem for p in paths]
    taken = Shelf(home).take(out)
    assert [p.read_bytes() for p in taken.added[1:]] == [p.read_bytes() for p in paths]


def test_equal_names_get_numbers_and_the_title_is_the_file(tmp_path: Path) -> None:
    paths = [put(tmp_path / "a", "x.toml", PLAIN), put(tmp_path / "b", "X.toml", OTHER)]
    made = hand_out(paths, None, tmp_path / "my pack.pack.toml")
    assert [m.name for m in made.members] == ["x", "X-2"]
    assert made.title == "my-pack"


def test_nothing_is_handed_out_unless_all_is_sound(tmp_path: Path) -> None:
    good, bad = put(tmp_path, "a.toml", PLAIN), put(tmp_path, "b.toml", "format = 1")
    out = tmp_path / "o.pack.toml"
    with pytest.raises(PackError) as caught:
        hand_out([good, bad, tmp_path / "none.toml", out], None, out)
    told = "\n".join(caught.value.problems)
    assert "b.toml, goal: is missing" in told
    assert "none.toml: cannot be read" in told
    assert "o.pack.toml: would be written over" in told
    assert not out.exists()


def test_a_pack_among_the_scenarios_is_told_apart_from_a_broken_file(home: Path) -> None:
    put(home / "scenarios", "w.pack.toml", a_pack())
    (told,) = Shelf(home).scenarios()
    assert told == "w.pack.toml: is a pack, not one scenario; import it to play what is in it."


def test_the_library_knows_its_own_places(home: Path, tmp_path: Path) -> None:
    shelf = Shelf(home)
    assert shelf.contains(home / "scenarios" / "x.toml")
    assert shelf.contains(home / "unfinished" / ".." / "packs" / "x.toml")
    assert not shelf.contains(tmp_path / "x.toml")
    assert not shelf.contains(home / "x.toml")
