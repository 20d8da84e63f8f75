"""The data folder: where settings, progress, library and log of one reader lie."""

import os
from pathlib import Path

__all__ = ["VARIABLE", "data_home"]

VARIABLE = "FRINGEWORK_HOME"


def data_home(given: str | os.PathLike[str] | None = None) -> Path:
    """Where the reader's files are kept: as given, else FRINGEWORK_HOME, else the user's config folder."""
    if chosen := given or os.environ.get(VARIABLE):
        return Path(chosen).expanduser()
    from platformdirs import user_config_path

    return user_config_path("fringework")
