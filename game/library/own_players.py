"""Fitted players of this machine: one readable file for each name in the notebook."""

from hashlib import blake2b
from pathlib import Path

from game.library.safe_names import plain_name, stamp
from levels.player_file import PlayerFile, read_player, write_player
from levels.reading import ScenarioError

__all__ = ["keep_own_player", "kept_own_player", "own_player_path"]

FOLDER = "players"
_read: dict[Path, tuple[tuple[int, ...], tuple[PlayerFile | None, str]]] = {}


def own_player_path(home: Path, name: str, ending: str = ".toml") -> Path:
    """Where what belongs to that name lies. Names that look alike on a disk keep apart."""
    key = blake2b(name.casefold().encode(), digest_size=3).hexdigest()
    return home / FOLDER / f"{plain_name(name).lower() or 'player'}-{key}{ending}"


def kept_own_player(home: Path | None, name: str) -> tuple[PlayerFile | None, str]:
    """The fitted player of that name, and one sentence when the file could not be used. (None, "") without
    one. A file that has not changed is not read again."""
    if home is None:
        return None, ""
    file = own_player_path(home, name)
    now = stamp(file)
    if not now:
        return None, ""
    if file not in _read or _read[file][0] != now:
        try:
            found: tuple[PlayerFile | None, str] = read_player(file), ""
        except ScenarioError as error:
            first = str(error).splitlines()[0]
            found = None, f"The player's file cannot be used: {first}"
        _read[file] = now, found
    return _read[file][1]


def keep_own_player(home: Path | None, name: str, player: PlayerFile) -> str:
    """Write the file whole or leave the old one; one sentence when it cannot be kept."""
    if home is None:
        return "There is no folder here to keep a player in."
    file = own_player_path(home, name)
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        write_player(file, player)
    except OSError as error:
        return f"The player could not be kept: {error.strerror or error}."
    return ""
