"""The desk: files that are always valid, work that is never lost, one sentence for what cannot be done."""

import subprocess
import sys
from pathlib import Path

import pytest
from desks import WRITTEN, did, kept, retitle

from game.builder.model import recent
from game.builder.model.desk import Desk
from game.builder.model.edits import STARTS, add_hazard, move_hole
from levels.draft import Draft
from levels.files import ScenarioError, library, parse_scenario, read_scenario


def test_a_new_desk_has_a_legal_draft_and_nothing_unsaved(desk: Desk) -> None:
    assert desk.draft.problems() == ()
    assert (desk.path, desk.dirty, desk.name, kept(desk)) == (None, False, "New: plain green", [])


@pytest.mark.parametrize("kind", STARTS)
def test_each_start_can_be_saved_at_once(desk: Desk, kind: str, tmp_path: Path) -> None:
    desk.new(kind)
    path = desk.save_as(tmp_path / "mine")
    assert path.name == "mine.toml"
    assert read_scenario(path) == desk.draft.scenario()


@pytest.mark.parametrize("name", library())
def test_a_built_in_scenario_opens_as_a_copy(desk: Desk, name: str, tmp_path: Path) -> None:
    desk.load_builtin(name)
    assert (desk.path, desk.dirty) == (None, False)
    with pytest.raises(ScenarioError, match="has no file yet"):
        desk.save()
    desk.save_as(tmp_path / "copy.toml")
    assert Draft.parse((tmp_path / "copy.toml").read_text(encoding="utf-8")) == desk.draft


def test_saving_keeps_comments_and_spelling(desk: Desk, file: Path) -> None:
    desk.open(file)
    desk.save()
    assert file.read_text(encoding="utf-8") == WRITTEN
    did(desk, move_hole(desk.draft, 12.5))
    assert desk.dirty
    desk.save()
    assert not desk.dirty
    assert file.read_text(encoding="utf-8") == WRITTEN.replace("10.0", "12.5")


def test_undo_to_what_is_saved_is_nothing_unsaved(desk: Desk, file: Path) -> None:
    desk.open(file)
    retitle(desk, "Other")
    assert (desk.dirty, len(kept(desk))) == (True, 1)
    desk.history.undo()
    desk.autosave()
    assert (desk.dirty, kept(desk)) == (False, [])
    desk.history.redo()
    desk.autosave()
    assert (desk.dirty, len(kept(desk))) == (True, 1)


def test_a_file_that_cannot_be_opened_leaves_the_document(desk: Desk, file: Path, tmp_path: Path) -> None:
    desk.open(file)
    retitle(desk, "Work")
    before, steps = desk.draft, desk.history
    bad = tmp_path / "bad.toml"
    bad.write_text("title = ", encoding="utf-8")
    for path in (bad, tmp_path / "none.toml", tmp_path):
        with pytest.raises(ScenarioError) as told:
            desk.open(path)
        assert len(told.value.problems) == 1
        assert told.value.problems[0].endswith(".")
    with pytest.raises(ScenarioError):
        desk.load_builtin("nowhere")
    assert (desk.path, desk.draft, desk.history) == (file, before, steps)


def test_a_draft_with_problems_opens_and_is_not_saved(desk: Desk, file: Path) -> None:
    broken = WRITTEN.replace("x_m = 10.0", "x_m = 1.0")
    file.write_text(broken, encoding="utf-8")
    desk.open(file)
    assert [p.key_text for p in desk.draft.problems()] == ["hole.x_m"]
    with pytest.raises(ScenarioError, match=r"hole\.x_m: 1 puts the hole on fairway; allowed: on green only"):
        desk.save()
    assert file.read_text(encoding="utf-8") == broken


def test_unfinished_work_is_kept_apart_under_a_name_of_its_own(desk: Desk, file: Path) -> None:
    desk.open(file)
    retitle(desk, "")
    one, two = desk.keep_unfinished("half done/../x"), desk.keep_unfinished("half done/../x")
    assert one.parent == two.parent == desk.home / "unfinished"
    assert one != two
    assert "# mine" in one.read_text(encoding="utf-8")
    assert Draft.parse(one.read_text(encoding="utf-8")) == desk.draft
    assert desk.keep_unfinished("...").name == "scenario.toml"


def test_a_duplicate_has_no_file_and_leaves_the_old_one(desk: Desk, file: Path) -> None:
    desk.open(file)
    retitle(desk, "T" * 80)
    desk.duplicate()
    assert (desk.path, desk.dirty) == (None, True)
    assert desk.draft.problems() == ()
    assert desk.draft.at(("title",)).endswith("(copy)")
    assert file.read_text(encoding="utf-8") == WRITTEN


def test_a_disk_that_refuses_is_one_sentence(desk: Desk, file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.open(file)
    with pytest.raises(ScenarioError, match=r"x\.toml: cannot be written"):
        desk.save_as(file.parent / "no such folder" / "x.toml")
    with pytest.raises(ScenarioError, match=r"cannot be written"):
        desk.save_as(file.parent / "a\0b.toml")
    assert desk.path == file

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("game.builder.model.recovery.replace_file", full)
    retitle(desk, "More")
    assert desk.keeping == "Unsaved work cannot be kept: No space left on device."
    assert desk.draft.at(("title",)) == "More"


def test_a_file_changed_by_somebody_else_is_noticed(desk: Desk, file: Path) -> None:
    assert not desk.changed_outside()
    desk.open(file)
    assert not desk.changed_outside()
    file.write_text(WRITTEN + "# theirs\n", encoding="utf-8")
    assert desk.changed_outside()
    desk.save()
    assert not desk.changed_outside()
    file.unlink()
    assert desk.changed_outside()


def test_recent_files_come_newest_first_and_only_while_they_are_there(desk: Desk, tmp_path: Path) -> None:
    paths = [desk.save_as(tmp_path / f"{n}.toml") for n in range(12)]
    assert desk.recent() == paths[::-1][: recent.MOST]
    desk.open(paths[5])
    assert desk.recent()[0] == paths[5]
    assert len(desk.recent()) == recent.MOST
    paths[11].unlink()
    assert paths[11] not in desk.recent()


@pytest.mark.parametrize("text", ["{", "[1]", "{}", "[" * 100_000, "\udcff"])
def test_a_bad_list_of_recent_files_is_set_aside(desk: Desk, file: Path, text: str) -> None:
    desk.home.mkdir()
    (desk.home / recent.FILE).write_bytes(text.encode("utf-8", "surrogateescape"))
    assert desk.recent() == []
    assert (desk.home / "recent.bad.json").exists()
    desk.open(file)
    assert desk.recent() == [file]


# another desk


def test_two_desks_at_once_leave_each_other_alone(desk: Desk) -> None:
    other = Desk(desk.home)
    retitle(desk, "Mine")
    retitle(other, "Theirs")
    assert len(kept(desk)) == 2
    assert Desk(desk.home).recover() is None
    other.close()
    assert len(kept(desk)) == 1
    assert "Mine" in kept(desk)[0].read_text(encoding="utf-8")
    desk.close()


def test_the_builder_needs_no_screen() -> None:
    code = "import sys, game.builder.model.desk, game.builder.model.pick\nassert 'pygame' not in sys.modules"
    subprocess.run([sys.executable, "-c", code], cwd=Path(__file__).parents[3], check=True, timeout=120)


def test_what_was_saved_plays(desk: Desk, tmp_path: Path) -> None:
    did(desk, add_hazard(desk.draft, "water", 6.0))
    path = desk.save_as(tmp_path / "w.toml")
    assert parse_scenario(path.read_text(encoding="utf-8")).course().hazards
