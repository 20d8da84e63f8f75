"""A file is written whole or not at all. Loads nothing else of ours: the window reads its settings first."""

import os
import shutil
from pathlib import Path

__all__ = ["replace_bytes", "replace_file"]


def replace_file(path: str | os.PathLike[str], text: str) -> None:
    """Put `text` (UTF-8) in the place of the file in one step, keeping the rights of the old one."""
    replace_bytes(path, text.encode("utf-8"))


def replace_bytes(path: str | os.PathLike[str], data: bytes) -> None:
    """Put `data` in the place of the file in one step, keeping the rights of the old one."""
    target = Path(os.path.realpath(path))
    part = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        with open(part, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            shutil.copymode(target, part)
        os.replace(part, target)
    finally:
        part.unlink(missing_ok=True)
