"""Where what is taken home lies: the reader's folder of pictures, and names there that no file has yet."""

from pathlib import Path

from platformdirs import user_pictures_path

from game.handout.whole import HandoutError
from game.library.safe_names import numbered, placed

__all__ = ["free_name", "pictures_folder", "put_new"]


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


def put_new(stem: str, ending: str, text: str) -> Path:
    """Write a text into that folder under a name that no file there has; the file. HandoutError otherwise."""
    folder = pictures_folder()
    try:
        return next(
            folder / f"{name}{ending}" for name in numbered(stem) if placed(folder / f"{name}{ending}", text)
        )
    except OSError as error:
        raise HandoutError(f"'{folder}' cannot be written: {error.strerror or error}.") from None
