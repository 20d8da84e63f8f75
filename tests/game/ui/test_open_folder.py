"""A folder is shown by the system, in a process of its own, or nothing happens."""

import subprocess
import sys
from pathlib import Path

import pytest

from game.ui import file_buttons
from game.ui.file_buttons import open_folder

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="Windows has a call of its own")


def test_a_folder_is_opened_by_what_the_system_has(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[list[str]] = []
    monkeypatch.setattr(file_buttons, "which", lambda name: f"/bin/{name}")
    monkeypatch.setattr(subprocess, "Popen", lambda words, **_: asked.append(words))
    assert open_folder(tmp_path)
    ((opener, folder),) = asked
    assert opener in ("/bin/open", "/bin/xdg-open")
    assert folder == str(tmp_path)


def test_where_nothing_opens_folders_it_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(file_buttons, "which", lambda name: None)
    assert not open_folder(tmp_path)
    monkeypatch.setattr(file_buttons, "which", lambda name: str(tmp_path / "nothing"))
    assert not open_folder(tmp_path)
