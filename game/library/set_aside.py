"""A file of ours that cannot be read is kept beside, never written over."""

import json
import os
from pathlib import Path

__all__ = ["set_aside"]


def set_aside(file: Path, error: Exception) -> tuple[str, str]:
    """Rename `x.json` to `x.bad.json`. Returns why it is bad, and its new name ("" when that failed)."""
    aside = file.with_name(f"{file.stem}.bad{file.suffix}")
    why = "it is no JSON text" if isinstance(error, json.JSONDecodeError | UnicodeDecodeError) else str(error)
    try:
        os.replace(file, aside)
    except OSError:
        return why, ""
    return why, aside.name
