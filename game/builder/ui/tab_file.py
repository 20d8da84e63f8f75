"""The tab of the file: save and open, new, recent files, copies of the built-in ones."""

from collections.abc import Callable
from functools import partial

from game.builder.model.document import Document
from game.builder.model.edits import STARTS
from game.builder.ui.boxes import ListLine, quiet_line, short_title
from game.builder.ui.editing import Editing
from game.builder.ui.files import Files
from game.builder.ui.tabs import Columns
from game.ui import Button, Heading, Row, TextBlock, Widget
from levels.chapters import builtin_chapters

__all__ = ["file_tab"]

Then = Callable[[], None]


def file_tab(editing: Editing, files: Files, play: Then, share: Then, guide: Then) -> Columns:
    """Three columns: this file; new and recent ones; the built-in ones."""
    return [_this_one(editing, files, play, share, guide), _others(editing.document, files), _copies(files)]


def _state(document: Document) -> str:
    """The file and whether it holds the draft as it stands."""
    where = str(document.path) if document.path else "no file yet"
    if not document.path and not document.dirty:
        return where
    return f"{where}, {'with changes that are not saved' if document.dirty else 'saved'}"


def _this_one(editing: Editing, files: Files, play: Then, share: Then, guide: Then) -> list[Widget]:
    return [
        Heading("This scenario"), TextBlock(_state(editing.document), "small", "muted"),
        Row([Button("Save", files.save, hint="Ctrl+S", group="file"),
             Button("Save as", files.save_as, hint="Ctrl+Shift+S", group="file"),
             Button("Open", files.open, hint="Ctrl+O", group="file"),
             Button("Go on with a copy", files.duplicate, group="file"),
             Button("Share", share, group="file",
                    tooltip="Put scenarios into a pack, one file to give to players, with a plan.")]),
        Row([Button("Undo", editing.undo, hint="Ctrl+Z", group="steps"),
             Button("Redo", editing.redo, hint="Ctrl+Y", group="steps"),
             Button("Play it", play, hint="P", group="steps"),
             Button("Guide to the files", guide, hint="F1", group="steps",
                    tooltip="Every key of a scenario and a pack, for those who write them by hand.")]),
    ]  # fmt: skip


def _others(document: Document, files: Files) -> list[Widget]:
    starts = Row([
        Button(kind[:1].upper() + kind[1:], partial(files.new, kind), group="starts") for kind in STARTS
    ])  # fmt: skip
    recent: list[Widget] = [
        ListLine(p.name, partial(files.open_path, p), group="recent", tooltip=str(p))
        for p in document.recent()
    ]
    none = quiet_line("No file was opened or saved yet.")
    return [Heading("New"), starts, Heading("Open again"), *(recent or [none])]


def _copies(files: Files) -> list[Widget]:
    lines = [
        ListLine(short_title(e.scenario.title), partial(files.builtin, e.name), group="copies",
                 tooltip=c.title)
        for c in builtin_chapters() for e in c.entries
    ]  # fmt: skip
    return [Heading("A copy of a built-in one"), *lines]
