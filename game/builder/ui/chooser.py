"""A file chooser of our own: a path that narrows the folder's list, and a few places to begin from."""

import os
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

import pygame

from game.builder.ui.boxes import ListLine
from game.draw.camera import Rect
from game.library.file_uri import path_of_name
from game.library.safe_names import misnamed
from game.ui import Button, Column, Heading, Row, TextBlock, Theme, Widget, layout
from game.ui.screen import Host, Keys, Screen
from game.ui.textfield import TextField

__all__ = ["Chooser", "folder_entries", "full_path"]

MOST_ENTRIES = 300  # entries shown, assumed
PATH = "A name in this folder, or a whole path; ~ is your home folder."


def full_path(text: str, folder: Path) -> Path:
    """The path a text means: from the home folder after ~, a file URI's, else from the folder shown."""
    path = Path(os.path.expanduser(path_of_name(text.strip())))
    return path if path.is_absolute() else folder / path


def folder_entries(folder: Path, begin: str = "") -> tuple[list[Path], str]:
    """Folders, then scenario files, whose names begin so; and a sentence where they cannot be seen."""
    try:
        names = sorted(os.scandir(folder), key=lambda e: e.name.lower())
        found = [e for e in names if not e.name.startswith(".") and e.name.lower().startswith(begin.lower())]
        folders = [Path(e.path) for e in found if e.is_dir()]
        files = [Path(e.path) for e in found if e.name.lower().endswith(".toml") and not e.is_dir()]
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        return [], f"{folder}: cannot be looked into: {why}."
    return (folders + files)[:MOST_ENTRIES], ""


class Chooser(Screen):
    """`on_choose` hears a file once one is chosen; `saving` also takes names of files to be."""

    keys: Keys = (
        ("Enter", "take the path, or open the folder"),
        ("Down, Up", "into the list, and through it"),
        ("Esc", "back, nothing chosen"),
    )

    def __init__(
        self, app: Host, head: str, folder: Path, on_choose: Callable[[Path], None], *, saving: bool = False,
        name: str = "", places: Sequence[tuple[str, Path]] = (), verb: str = "Open",
    ) -> None:  # fmt: skip
        super().__init__(app)
        self.title, self.folder, self.on_choose, self.saving = head, folder, on_choose, saving
        self._head = Heading(head)
        self._path = TextField("File", name, self._typed, on_done=self.take, most=1000, tooltip=PATH)
        self._go = Button(verb, self.take, kind="main", hint="Enter")
        self._back = Button("Back", lambda: self.app.pop(), hint="Esc")
        self._acts = Row([self._go, self._back])
        self._places = Row([Button(word, partial(self.look, p), group="places") for word, p in places])
        self._where = TextBlock(str(folder), "small", "muted")
        self._list = Column([])

    @property
    def widgets(self) -> Sequence[Widget]:
        return (self._path, self._list, self._acts, self._places)

    def enter(self) -> None:
        self._fill()

    # ---- the list

    def _fill(self) -> None:
        text = self._path.text
        begin = "" if self.saving or os.sep in text else text
        found, told = folder_entries(self.folder, begin)
        if not found and begin:
            found, told = folder_entries(self.folder)
        rows: list[Widget] = [ListLine(".. (one folder up)", self.up, group="files")]
        for path in found:
            mark = f"{path.name}{os.sep}" if path.is_dir() else path.name
            rows.append(ListLine(mark, partial(self.pick, path), group="files"))
        if told or not found:
            rows.append(TextBlock(told or "No folders and no scenario files here.", "label", "muted"))
        self._list = Column(rows, 0.0)
        self._where.label = str(self.folder)

    def _typed(self, _: str) -> None:
        self._again()

    def _again(self) -> None:
        self._fill()
        self.app.arrange()

    def look(self, folder: Path) -> None:
        """Show another folder."""
        self.folder = folder
        if not self.saving:
            self._path.show("")
        self._again()

    def up(self) -> None:
        """The folder around this one."""
        self.look(self.folder.parent)
        self._to_list()

    def pick(self, path: Path) -> None:
        """Press an entry: into a folder, or take the file."""
        if path.is_dir():
            self.look(path)
            self._to_list()
        elif self.saving:
            self._path.show(path.name)
            self.app.focus.set(self._path)
        else:
            self._chosen(path)

    def _to_list(self) -> None:
        self.app.focus.set(next((w for w in self._list.items if w.focusable), self._path))

    def take(self) -> None:
        """Take what the path says."""
        if not self._path.text.strip():
            self.app.say("Type a name, or choose one from the list.")
            return
        path = full_path(self._path.text, self.folder)
        try:
            if path.is_dir():
                self.look(path)
                self._path.show("")
                return
            there = path.is_file() or self.saving
        except (OSError, ValueError) as error:
            self.app.say(f"{path.name}: cannot be used: {error}.")
            return
        if self.saving and (bad := misnamed(path)):
            self.app.say(bad)
            return
        if not there and path.suffix != ".toml" and path.with_name(path.name + ".toml").is_file():
            path, there = path.with_name(path.name + ".toml"), True
        if not there:
            self.app.say(f"{path.name}: there is no such file in {path.parent}.")
            return
        self._chosen(path)

    def _chosen(self, path: Path) -> None:
        self.app.pop()
        self.on_choose(path)

    # ---- placing and keys

    def layout(self, box: Rect, theme: Theme) -> None:
        gap = theme.gap
        inner = Rect(box.x + 2 * gap, box.y + gap, box.w - 4 * gap, box.h - 2 * gap)
        y = inner.y
        for widget in (self._head, self._places, self._where, self._path):
            tall = widget.height(theme, inner.w)
            widget.place(Rect(inner.x, y, inner.w, tall), theme)
            y += tall + gap
        foot = self._acts.height(theme, inner.w)
        _, body, low = layout.take(Rect(inner.x, y, inner.w, inner.bottom - y), bottom=foot, gap=gap)
        self._list.place(body, theme)
        self._acts.place(low, theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_DOWN and self.app.focus.widget is self._path:
            self._to_list()
            return True
        if event.key == pygame.K_ESCAPE:
            self.app.pop()
            return True
        return self._list.handle(event)

    def draw(self, surface: pygame.Surface) -> None:
        for widget in (self._head, self._places, self._where, self._path, self._list, self._acts):
            widget.draw(surface, self.app.theme)
