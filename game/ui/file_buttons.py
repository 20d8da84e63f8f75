"""What is done with a file that was just written: its name copied, its folder opened beside this window."""

import os
import subprocess
import sys
from pathlib import Path
from shutil import which

from game.ui.button import Button
from game.ui.clipboard import copy
from game.ui.screen import Host

__all__ = ["file_buttons", "open_folder"]

NO_OPENER = "Nothing here opens folders; the file is in {folder}"


def file_buttons(app: Host, file: Path) -> list[Button]:
    """Two buttons about that file."""

    def copied() -> None:
        copy(str(file))
        app.say(f"Copied: {file}")

    def opened() -> None:
        if not open_folder(file.parent):
            app.say(NO_OPENER.format(folder=file.parent))

    return [
        Button("Copy its name", copied, tooltip="The whole name, to paste where a file is asked for."),
        Button("Open its folder", opened, tooltip="The folder in the system's own window."),
    ]  # fmt: skip


def open_folder(folder: Path) -> bool:
    """Have the system show a folder; whether it could be asked to."""
    if sys.platform == "win32":
        try:
            os.startfile(folder)
        except OSError:
            return False
        return True
    opener = which("open" if sys.platform == "darwin" else "xdg-open")
    if opener is None:
        return False
    try:  # on its own: it goes on when this window is closed, and writes nothing into our terminal
        subprocess.Popen(
            [opener, str(folder)], stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL, start_new_session=True,
        )  # fmt: skip
    except OSError:
        return False
    return True
