"""Names that are safe on every system, and files that come into a folder without taking a place."""

import os
import re
import unicodedata
from collections.abc import Iterator
from pathlib import Path

from levels.packs import LARGEST_PACK
from levels.reading import ScenarioError, read_text
from levels.whole_file import replace_file

__all__ = ["holds", "misnamed", "moved", "numbered", "placed", "plain_name", "same_name", "stamp", "text_of"]

LONGEST = 60  # characters of a name
FORBIDDEN = '<>:"/\\|?*'  # in names on Windows (Microsoft, Naming Files, Paths, and Namespaces)
RESERVED_NAMES = {"CON", "PRN", "AUX", "NUL", *(f"{k}{n}" for k in ("COM", "LPT") for n in range(1, 10))}


def plain_name(name: str) -> str:
    """A file's name without ending, in letters, digits and hyphens: safe on every system. May be empty."""
    stem = re.sub(r"(\.pack)?\.toml\Z", "", name, flags=re.IGNORECASE)
    ascii_only = unicodedata.normalize("NFKD", stem[:1000]).encode("ascii", "ignore").decode()
    return re.sub(r"[^A-Za-z0-9]+", "-", ascii_only).strip("-")[:LONGEST].rstrip("-")


def misnamed(path: Path) -> str:
    """Why a new file cannot have that name everywhere, or its folder is not there; "" when all is well. A
    file that is handed out has to arrive on every system."""
    odd = sorted({c for c in path.name if c in FORBIDDEN or not c.isprintable()})
    if odd:
        shown = " ".join(odd) if all(c.isprintable() for c in odd) else "unprintable letters"
        return f"A file's name cannot have {shown} in it on every system; use letters, digits, - and _."
    if path.name.endswith((".", " ")) or path.name.split(".")[0].upper() in RESERVED_NAMES:
        return f"{path.name}: is no file's name on every system; choose another."
    return "" if path.parent.is_dir() else f"{path.parent}: there is no such folder."


def numbered(stem: str) -> Iterator[str]:
    """The name itself, then with 2, 3, ... behind it, never longer than allowed."""
    yield stem
    number = 2
    while True:
        end = f"-{number}"
        yield stem[: LONGEST - len(end)] + end
        number += 1


def same_name(folder: Path, name: str) -> Path | None:
    """What has that name already, in small or capital letters: some systems do not tell them apart."""
    return next((folder / one for one in os.listdir(folder) if one.lower() == name.lower()), None)


def text_of(path: Path) -> str | None:
    """The text of a plain file that is no link; None otherwise."""
    try:
        return None if path.is_symlink() else read_text(path, LARGEST_PACK)
    except ScenarioError:
        return None


def holds(folder: Path, files: dict[str, str]) -> bool:
    """Whether the folder holds exactly these texts."""
    if folder.is_symlink() or not folder.is_dir() or set(os.listdir(folder)) != set(files):
        return False
    return all(text_of(folder / name) == text for name, text in files.items())


def placed(target: Path, text: str) -> bool:
    """Put the file there in one step; False when something has that name by now."""
    part = target.with_name(f".{target.name}.{os.getpid()}.new")
    try:
        replace_file(part, text)
        try:
            os.link(part, target)  # takes nothing's place
        except FileExistsError:
            return False
        except OSError:  # a disk without links
            if os.path.lexists(target):
                return False
            os.rename(part, target)
        return True
    finally:
        part.unlink(missing_ok=True)


def moved(part: Path, target: Path) -> bool:
    """Give the finished folder its name; False when something has that name by now."""
    try:
        os.rename(part, target)
    except OSError:
        if os.path.lexists(target):
            return False
        raise
    return True


def stamp(path: Path) -> tuple[int, ...]:
    """What changes when the file does; nothing where it cannot be asked, for reading then says why."""
    try:
        found = os.stat(path)
    except OSError:
        return ()
    return found.st_mtime_ns, found.st_size, found.st_ino
