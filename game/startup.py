"""What must be right before the laws are imported: whose packages these are, and which compiled laws fit.

numba stores compiled laws beside a source file and looks at that one file to see whether they are
stale, so an edit in a law called from another file would go unnoticed. Here each state of the
sources gets a folder of its own.
"""

import atexit
import contextlib
import os
import shutil
import sys
import tempfile
import time
from functools import cache
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, version
from importlib.util import find_spec
from pathlib import Path

__all__ = ["StartupError", "fingerprint", "first_time", "mark_done", "prepare"]

SIBLINGS = ("assets", "levels", "physics")
VARIABLE = "NUMBA_CACHE_DIR"
KEEP = 30 * 24 * 3600.0  # s a folder of compiled laws is kept after its last use, assumed


class StartupError(Exception):
    """The installation cannot work; one sentence."""


def prepare() -> Path:
    """Check the packages and give numba its folder; call before physics is imported. StartupError."""
    home = Path(__file__).resolve().parent.parent
    check_siblings(home)
    os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")  # stdout is for results
    given = os.environ.get(VARIABLE)
    if given:
        return Path(given)
    folder = _folder(f"laws-{fingerprint(home / 'physics')}")
    os.environ[VARIABLE] = str(folder)
    return folder


def check_siblings(home: Path, names: tuple[str, ...] = SIBLINGS) -> None:
    """StartupError when one of our packages is missing or would be imported from elsewhere than `home`."""
    for name in names:
        spec = find_spec(name)
        places = list(spec.submodule_search_locations or ()) if spec else []
        if not places:
            raise StartupError(
                f"The package '{name}' is missing beside 'game' in {home}: install fringework again."
            )
        if (found := Path(places[0]).resolve().parent) != home:
            raise StartupError(
                f"The package '{name}' comes from {found}, not from fringework's own {home}: "
                "another distribution of that name is in the way."
            )


def fingerprint(sources: Path) -> str:
    """What compiled laws depend on: every source under `sources`, numba and Python; 16 hex digits."""
    digest = sha256()
    for file in sorted(sources.rglob("*.py")):
        digest.update(f"{file.relative_to(sources).as_posix()}\0".encode())
        digest.update(file.read_bytes() + b"\0")
    try:
        numba = version("numba")
    except PackageNotFoundError:
        numba = "none"
    digest.update(f"{numba}\0{sys.version}".encode())
    return digest.hexdigest()[:16]


def _folder(name: str) -> Path:
    """That folder in the user's cache; where there is none to write in, one that goes with the program."""
    from platformdirs import user_cache_path

    root = user_cache_path("fringework")
    try:
        folder = root / name
        folder.mkdir(parents=True, exist_ok=True)
        os.utime(folder)
        if os.access(folder, os.W_OK):
            forget_old(root)
            return folder
    except OSError:
        pass
    folder = Path(tempfile.mkdtemp(prefix="fringework-laws-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


def forget_old(root: Path, now: float | None = None) -> None:
    """Remove compiled laws of sources that nobody has run for a month."""
    limit = (time.time() if now is None else now) - KEEP
    for folder in root.glob("laws-*"):
        with contextlib.suppress(OSError):
            if folder.stat().st_mtime < limit:
                shutil.rmtree(folder, ignore_errors=True)


@cache
def _mark(part: str) -> Path:
    sources = Path(__file__).resolve().parent.parent / "physics"
    return prepare() / f"ready-{part}-{fingerprint(sources)}"


def first_time(part: str) -> bool:
    """Whether these laws have never been compiled for `part` (a word: shot, cloud)."""
    return not _mark(part).exists()


def mark_done(part: str) -> None:
    """Remember that the laws for `part` are compiled."""
    with contextlib.suppress(OSError):  # a full disk only costs the memory of it
        _mark(part).touch()
