"""The open document: a scenario's draft, its file and its history, kept so that no work is lost.

A `.toml` file it saves is always a valid scenario; a draft that is not yet one is kept for recovery
and, on request, under `unfinished/`, from where it is not offered for play.
"""

import re
from pathlib import Path

from game.builder.model import recent
from game.builder.model.history import History
from game.builder.model.recovery import Keeper, Snapshot, take_stale
from game.builder.model.starts import new_draft
from levels.draft import Draft, library_text
from levels.files import parse_scenario
from levels.reading import ScenarioError, file_name, read_text
from levels.retain import text_with
from levels.whole_file import replace_file

__all__ = ["Document"]

UNFINISHED = "unfinished"
_TITLE = 80  # characters of a title


class Document:
    """One open document. Methods that can fail raise ScenarioError with one sentence for each thing wrong
    and leave the document as it was."""

    path: Path | None  # None: never saved
    history: History
    saved: Draft  # as the file has it
    keeping: str  # why unsaved work could not be kept or read, "" when all is well

    def __init__(self, home: Path, kind: str = "plain green") -> None:
        self.home = home
        self._keeper = Keeper(home)
        self._place(None, "", new_draft(kind))

    @property
    def draft(self) -> Draft:
        """The draft as it stands."""
        return self.history.draft

    @property
    def dirty(self) -> bool:
        """Whether there is work no file holds."""
        return self.draft != self.saved

    @property
    def name(self) -> str:
        """The file's name, or the title of what has none."""
        return file_name(self.path) if self.path else str(self.draft.at(("title",), "untitled"))

    # documents

    def new(self, kind: str) -> None:
        """Begin a new one; `kind` is one of edits.STARTS (KeyError for any other)."""
        self._place(None, "", new_draft(kind))
        self.autosave()

    def open(self, path: Path) -> None:
        """Open a file, also one that breaks rules."""
        text = read_text(path)
        self._place(path, text, Draft.parse(text, file_name(path)))
        recent.remember_file(self.home, path)
        self.autosave()

    def load_builtin(self, name: str) -> None:
        """A built-in scenario as a new document."""
        text = library_text(name)
        self._place(None, text, Draft.parse(text, name))
        self.autosave()

    def duplicate(self) -> None:
        """Go on with a copy that has no file yet; what the file holds stays as last saved."""
        draft, base = self.draft, self.saved
        title = f"{str(draft.at(('title',), ''))[: _TITLE - 7]} (copy)"
        self._place(None, self._text, base)
        self.history = History(draft.put(("title",), title))
        self.autosave()

    def save(self) -> None:
        """Write the document into its file."""
        if self.path is None:
            raise ScenarioError(["This scenario has no file yet; allowed: save as, with a name."])
        self._write(self.path)

    def save_as(self, path: Path) -> Path:
        """Write the document into that file, which is its own from now on; a missing `.toml` is added."""
        path = path if path.suffix == ".toml" else path.with_name(path.name + ".toml")
        self._write(path)
        return path

    def keep_unfinished(self, name: str) -> Path:
        """Put the draft, right or not, under `unfinished/`; no file there is ever written over."""
        text, folder = text_with(self._text, self.draft.data), self.home / UNFINISHED
        stem = re.sub(r"[^\w-]+", "-", name).strip("-")[:60] or "scenario"
        try:
            folder.mkdir(parents=True, exist_ok=True)
            path, n = folder / f"{stem}.toml", 1
            while path.exists():
                n += 1
                path = folder / f"{stem}-{n}.toml"
            replace_file(path, text)
        except OSError as error:
            raise ScenarioError([f"{stem}.toml: cannot be written: {error.strerror or error}."]) from None
        return path

    def changed_outside(self) -> bool:
        """Whether the document's file no longer holds what this document read from it or wrote into it."""
        if self.path is None:
            return False
        try:
            return read_text(self.path) != self._text
        except ScenarioError:
            return True

    def recent(self) -> list[Path]:
        """Files opened or saved last, newest first."""
        return recent.recent_files(self.home)

    # recovery

    def autosave(self) -> None:
        """Keep what no file holds, so that a sudden end costs nothing; to be called after every action.

        A disk that refuses stops nobody: `keeping` tells of it.
        """
        self.keeping = ""
        try:
            if self.dirty:
                self._keeper.keep(Snapshot(self.path, self._text, self.draft))
            else:
                self._keeper.clear()
        except OSError as error:
            self.keeping = f"Unsaved work cannot be kept: {error.strerror or error}."

    def recover(self) -> Draft | None:
        """Take over the newest work a dead session left behind; None when there is none.

        One step back is the document as last saved. `keeping` tells of a file that could not be read.
        """
        try:
            kept, told = take_stale(self.home, self._keeper)
        except OSError as error:
            kept, told = None, f"Unsaved work cannot be read: {error.strerror or error}."
        if kept is not None:
            self._resume(kept)
        self.keeping = told
        return None if kept is None else self.draft

    def close(self) -> None:
        """End; what is still unsaved is given up."""
        self._keeper.close()

    def _resume(self, kept: Snapshot) -> None:
        """Go on where the dead session was."""
        text = _text_of(kept.path) or kept.text
        if text and Draft.parse(text, "saved text") == kept.draft:  # it died just behind a save
            self._place(kept.path, text, kept.draft)
            self.autosave()
        elif kept.text:
            self._place(kept.path, kept.text, Draft.parse(kept.text, "saved text"))
            self.history.do("recover", kept.draft)
        else:
            self._place(None, "", kept.draft)
            self.saved = Draft({})  # no file holds anything of it

    def _place(self, path: Path | None, text: str, draft: Draft) -> None:
        self.path, self._text, self.saved = path, text, draft
        self.history = History(draft)
        self.keeping = ""

    def _write(self, path: Path) -> None:
        draft = self.draft
        if found := draft.problems():
            raise ScenarioError([one.told for one in found])
        text = text_with(self._text, draft.data)
        parse_scenario(text, file_name(path))
        try:
            replace_file(path, text)
        except (OSError, ValueError) as error:
            why = getattr(error, "strerror", None) or error
            raise ScenarioError([f"{file_name(path)}: cannot be written: {why}."]) from None
        self.path, self._text, self.saved = path, text, draft
        self.history.settle()
        recent.remember_file(self.home, path)
        self.autosave()


def _text_of(path: Path | None) -> str:
    """The text of a file that holds a draft, "" for any other."""
    try:
        text = read_text(path) if path else ""
        Draft.parse(text)
    except ScenarioError:
        return ""
    return text
