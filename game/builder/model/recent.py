"""The scenario files opened or saved last, newest first."""

import json
from contextlib import suppress
from pathlib import Path

from game.library.set_aside import set_aside
from levels.whole_file import replace_file

__all__ = ["recent_files", "remember_file"]

FILE, _MOST = "recent.json", 10


def recent_files(home: Path) -> list[Path]:
    """Those that are still there. A list that cannot be read is set aside and begins anew."""
    file = home / FILE
    try:
        names = json.loads(file.read_text(encoding="utf-8"))
        if not isinstance(names, list) or not all(isinstance(name, str) for name in names):
            raise ValueError("it holds no list of files")
    except OSError:
        return []
    except (ValueError, RecursionError) as error:
        set_aside(file, error)
        return []
    return [Path(name) for name in names[:_MOST] if _there(Path(name))]


def remember_file(home: Path, path: Path) -> None:
    """Put the file first. A disk that refuses costs the list, not the work."""
    first = path.absolute()
    names = [str(first), *(str(p) for p in recent_files(home) if p != first)][:_MOST]
    with suppress(OSError, UnicodeEncodeError):
        home.mkdir(parents=True, exist_ok=True)
        replace_file(home / FILE, json.dumps(names, indent=1) + "\n")


def _there(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False
