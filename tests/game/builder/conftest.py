"""A document and a file written by hand. Sudden ends are tried where a process can be split in two."""

import os
from pathlib import Path

import pytest
from documents import WRITTEN

from game.builder.model.document import Document

collect_ignore = [] if hasattr(os, "fork") else ["test_builder_sudden_end.py"]


@pytest.fixture
def document(tmp_path: Path) -> Document:
    return Document(tmp_path / "home")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "hand.toml"
    path.write_text(WRITTEN, encoding="utf-8")
    return path
