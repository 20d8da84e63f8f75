"""Where what is taken home goes: the user's folder of pictures, under a name that nothing has yet."""

from pathlib import Path

from platformdirs import user_pictures_path

from game.handout.whole import HandoutError

__all__ = ["free_name", "pictures_folder"]


def pictures_folder() -> Path:
    """The user's folder of pictures, made where there is none. HandoutError when it cannot be."""
    folder = user_pictures_path()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise HandoutError(f"'{folder}' cannot be made: {error.strerror or error}.") from None
    return folder


def free_name(folder: Path, stem: str, endings: tuple[str, ...]) -> Path:
    """A name without ending that no file there has yet: nothing is written over."""
    k, name = 1, stem
    while any((folder / (name + ending)).exists() for ending in endings):
        k, name = k + 1, f"{stem}-{k + 1}"
    return folder / name
