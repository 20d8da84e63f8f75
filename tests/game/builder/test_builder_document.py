"""The open document: files always valid, work never lost, one sentence for what cannot be done."""

import subprocess
import sys
from pathlib import Path

import pytest
from documents import WRITTEN, did, kept, retitle

from game.builder.model import recent
from game.builder.model.document import Document
from game.builder.model.edits import STARTS, add_hazard, move_hole
from levels.draft import Draft
from levels.files import ScenarioError, library, parse_scenario, read_scenario


def test_a_new_desk_has_a_legal_draft_and_nothing_unsaved(document: Document) -> None:
    assert document.draft.problems() == ()
    assert (document.path, document.dirty, document.name, kept(document)) == (
        None,
        False,
        "New: plain green",
        [],
    )


@pytest.mark.parametrize("kind", STARTS)
def test_each_start_can_be_saved_at_once(document: Document, kind: str, tmp_path: Path) -> None:
    document.new(kind)
    path = document.save_as(tmp_path / "mine")
    assert path.name == "mine.toml"
    assert read_scenario(path) == document.draft.scenario()


@pytest.mark.parametrize("name", library())
def test_a_built_in_scenario_opens_as_a_copy(document: Document, name: str, tmp_path: Path) -> None:
    document.load_builtin(name)
    assert (document.path, document.dirty) == (None, False)
    with pytest.raises(ScenarioError, match="has no file yet"):
        document.save()
    document.save_as(tmp_path / "copy.toml")
    assert Draft.parse((tmp_path / "copy.toml").read_text(encoding="utf-8")) == document.draft


def test_saving_keeps_comments_and_spelling(document: Document, file: Path) -> None:
    document.open(file)
    document.save()
    assert file.read_text(encoding="utf-8") == WRITTEN
    did(document, move_hole(document.draft, 12.5))
    assert document.dirty
    document.save()
    assert not document.dirty
    assert file.read_text(encoding="utf-8") == WRITTEN.replace("10.0", "12.5")


def test_undo_to_what_is_saved_is_nothing_unsaved(document: Document, file: Path) -> None:
    document.open(file)
    retitle(document, "Other")
    assert (document.dirty, len(kept(document))) == (True, 1)
    document.history.undo()
    document.autosave()
    assert (document.dirty, kept(document)) == (False, [])
    document.history.redo()
    document.autosave()
    assert (document.dirty, len(kept(document))) == (True, 1)


def test_a_file_that_cannot_be_opened_leaves_the_document(
    document: Document, file: Path, tmp_path: Path
) -> None:
    document.open(file)
    retitle(document, "Work")
    before, steps = document.draft, document.history
    bad = tmp_path / "bad.toml"
    bad.write_text("title = ", encoding="utf-8")
    for path in (bad, tmp_path / "none.toml", tmp_path):
        with pytest.raises(ScenarioError) as told:
            document.open(path)
        assert len(told.value.problems) == 1
        assert told.value.problems[0].endswith(".")
    with pytest.raises(ScenarioError):
        document.load_builtin("nowhere")
    assert (document.path, document.draft, document.history) == (file, before, steps)


def test_a_draft_with_problems_opens_and_is_not_saved(document: Document, file: Path) -> None:
    broken = WRITTEN.replace("x_m = 10.0", "x_m = 1.0")
    file.write_text(broken, encoding="utf-8")
    document.open(file)
    assert [p.key_text for p in document.draft.problems()] == ["hole.x_m"]
    with pytest.raises(ScenarioError, match=r"hole\.x_m: 1 puts the hole on fairway; allowed: on green only"):
        document.save()
    assert file.read_text(encoding="utf-8") == broken


def test_unfinished_work_is_kept_apart_under_a_name_of_its_own(document: Document, file: Path) -> None:
    document.open(file)
    retitle(document, "")
    one, two = document.keep_unfinished("half done/../x"), document.keep_unfinished("half done/../x")
    assert one.parent == two.parent == document.home / "unfinished"
    assert one != two
    assert "# mine" in one.read_text(encoding="utf-8")
    assert Draft.parse(one.read_text(encoding="utf-8")) == document.draft
    assert document.keep_unfinished("...").name == "scenario.toml"


def test_a_duplicate_has_no_file_and_leaves_the_old_one(document: Document, file: Path) -> None:
    document.open(file)
    retitle(document, "T" * 80)
    document.duplicate()
    assert (document.path, document.dirty) == (None, True)
    assert document.draft.problems() == ()
    assert document.draft.at(("title",)).endswith("(copy)")
    assert file.read_text(encoding="utf-8") == WRITTEN


def test_a_disk_that_refuses_is_one_sentence(
    document: Document, file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    document.open(file)
    with pytest.raises(ScenarioError, match=r"x\.toml: cannot be written"):
        document.save_as(file.parent / "no such folder" / "x.toml")
    with pytest.raises(ScenarioError, match=r"cannot be written"):
        document.save_as(file.parent / "a\0b.toml")
    assert document.path == file

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("game.builder.model.recovery.replace_file", full)
    retitle(document, "More")
    assert document.keeping == "Unsaved work cannot be kept: No space left on device."
    assert document.draft.at(("title",)) == "More"


def test_a_file_changed_by_somebody_else_is_noticed(document: Document, file: Path) -> None:
    assert not document.changed_outside()
    document.open(file)
    assert not document.changed_outside()
    file.write_text(WRITTEN + "# theirs\n", encoding="utf-8")
    assert document.changed_outside()
    document.save()
    assert not document.changed_outside()
    file.unlink()
    assert document.changed_outside()


def test_recent_files_come_newest_first_and_only_while_they_are_there(
    document: Document, tmp_path: Path
) -> None:
    paths = [document.save_as(tmp_path / f"{n}.toml") for n in range(12)]
    assert document.recent() == paths[::-1][: recent._MOST]
    document.open(paths[5])
    assert document.recent()[0] == paths[5]
    assert len(document.recent()) == recent._MOST
    paths[11].unlink()
    assert paths[11] not in document.recent()


@pytest.mark.parametrize("text", ["{", "[1]", "{}", "[" * 100_000, "\udcff"])
def test_a_bad_list_of_recent_files_is_set_aside(document: Document, file: Path, text: str) -> None:
    document.home.mkdir()
    (document.home / recent.FILE).write_bytes(text.encode("utf-8", "surrogateescape"))
    assert document.recent() == []
    assert (document.home / "recent.bad.json").exists()
    document.open(file)
    assert document.recent() == [file]


# another desk


def test_two_desks_at_once_leave_each_other_alone(document: Document) -> None:
    other = Document(document.home)
    retitle(document, "Mine")
    retitle(other, "Theirs")
    assert len(kept(document)) == 2
    assert Document(document.home).recover() is None
    other.close()
    assert len(kept(document)) == 1
    assert "Mine" in kept(document)[0].read_text(encoding="utf-8")
    document.close()


def test_the_builder_needs_no_screen() -> None:
    code = (
        "import sys, game.builder.model.document, game.builder.model.pick\nassert 'pygame' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], cwd=Path(__file__).parents[3], check=True, timeout=120)


def test_what_was_saved_plays(document: Document, tmp_path: Path) -> None:
    did(document, add_hazard(document.draft, "water", 6.0))
    path = document.save_as(tmp_path / "w.toml")
    assert parse_scenario(path.read_text(encoding="utf-8")).course().hazards
