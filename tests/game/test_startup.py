"""Compiled laws belong to one state of the sources, and the packages to one place."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from game import startup

HOUSE = Path(startup.__file__).resolve().parent.parent


@pytest.fixture
def sources(tmp_path: Path) -> Path:
    (tmp_path / "physics" / "scenery").mkdir(parents=True)
    (tmp_path / "physics" / "flight.py").write_text("a = 1\n", encoding="utf-8")
    (tmp_path / "physics" / "scenery" / "cup.py").write_text("b = 1\n", encoding="utf-8")
    return tmp_path / "physics"


def test_fingerprint_is_the_same_for_the_same_sources(sources: Path) -> None:
    assert startup.fingerprint(sources) == startup.fingerprint(sources)
    assert len(startup.fingerprint(sources)) == 16


@pytest.mark.parametrize("file", ["flight.py", "scenery/cup.py"])
def test_an_edit_in_any_source_changes_the_fingerprint(sources: Path, file: str) -> None:
    before = startup.fingerprint(sources)
    (sources / file).write_text("a = 2\n", encoding="utf-8")
    assert startup.fingerprint(sources) != before


def test_a_moved_line_between_two_files_changes_the_fingerprint(sources: Path) -> None:
    before = startup.fingerprint(sources)
    (sources / "flight.py").rename(sources / "fall.py")
    assert startup.fingerprint(sources) != before


def test_another_numba_changes_the_fingerprint(sources: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = startup.fingerprint(sources)
    monkeypatch.setattr(startup, "version", lambda name: "0.0")
    assert startup.fingerprint(sources) != before


def test_files_that_are_no_source_do_not_matter(sources: Path) -> None:
    before = startup.fingerprint(sources)
    (sources / "flight.nbi").write_bytes(b"x")
    assert startup.fingerprint(sources) == before


def test_numba_gets_the_folder_of_the_fingerprint(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("NUMBA_CACHE_DIR")
    monkeypatch.setattr("platformdirs.user_cache_path", lambda name: tmp_path / name)
    folder = startup.prepare()
    assert folder == tmp_path / "fringework" / f"laws-{startup.fingerprint(HOUSE / 'physics')}"
    assert folder.is_dir()
    assert os.environ["NUMBA_CACHE_DIR"] == str(folder)


def test_a_folder_the_user_chose_is_kept(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("NUMBA_CACHE_DIR", str(tmp_path))
    assert startup.prepare() == tmp_path
    assert os.environ["NUMBA_CACHE_DIR"] == str(tmp_path)


def test_without_a_place_for_a_cache_a_passing_folder_serves(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    monkeypatch.delenv("NUMBA_CACHE_DIR")
    monkeypatch.setattr("platformdirs.user_cache_path", lambda name: tmp_path / "file" / name)
    folder = startup.prepare()
    assert folder.is_dir()
    assert folder.name.startswith("fringework-laws-")


def test_laws_nobody_ran_for_a_month_are_forgotten(tmp_path: Path) -> None:
    now = 1.0e9
    for name, age in (("laws-old", 31), ("laws-new", 29), ("inter-400.ttf", 90)):
        (tmp_path / name).mkdir()
        os.utime(tmp_path / name, (now, now - age * 24 * 3600))
    startup.forget_old(tmp_path, now)
    assert {f.name for f in tmp_path.iterdir()} == {"laws-new", "inter-400.ttf"}


def test_our_packages_stand_side_by_side() -> None:
    startup.check_siblings(HOUSE)


def test_a_package_from_elsewhere_is_told_in_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(startup.StartupError, match=r"'physics' comes from .*another distribution") as told:
        startup.check_siblings(tmp_path, ("physics",))
    assert str(told.value).count(". ") == 0
    assert str(HOUSE) in str(told.value)


def test_a_missing_package_is_told(tmp_path: Path) -> None:
    with pytest.raises(startup.StartupError, match="'no_such_package_of_ours' is missing"):
        startup.check_siblings(tmp_path, ("no_such_package_of_ours",))


def test_another_distribution_in_the_way_ends_the_program(tmp_path: Path) -> None:
    (tmp_path / "levels").mkdir()
    (tmp_path / "levels" / "__init__.py").touch()
    paths = [str(tmp_path), str(HOUSE)]
    code = f"import sys; sys.path[:0] = {paths}; from game.cli import main; sys.exit(main(['--help']))"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert done.returncode == 1
    assert done.stdout == ""
    assert done.stderr.startswith("The package 'levels' comes from ")
    assert done.stderr.count("\n") == 1


def test_first_time_is_over_once_marked(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("NUMBA_CACHE_DIR", str(tmp_path))
    startup._mark.cache_clear()
    try:
        assert startup.first_time("shot")
        startup.mark_done("shot")
        assert not startup.first_time("shot")
        assert startup.first_time("cloud")
    finally:
        startup._mark.cache_clear()
