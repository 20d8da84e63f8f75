"""Files of the builder: every way a scenario comes onto the desk and tabs it, and nothing lost on any."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from game.builder.model.edits import STARTS
from game.builder.ui.ask import Ask
from game.builder.ui.boxes import ListLine, quiet_line
from game.builder.ui.chooser import Chooser
from game.builder.ui.tabs import Columns
from game.library.shelf import SCENARIOS, Shelf, hand_out, plain_name
from game.ui import Button, Heading, Row, TextBlock, Widget
from levels.chapters import builtin_chapters
from levels.packs import LARGEST_PACK
from levels.reading import ScenarioError, file_name, read_text, tables

if TYPE_CHECKING:
    from game.builder.ui.screen import Builder

__all__ = ["Files"]

Then = Callable[[], None]


class Files:
    """What the File tab, its keys and a dropped file do."""

    def __init__(self, builder: Builder) -> None:
        self.builder = builder

    # ---- the tab

    @property
    def state(self) -> str:
        """The file and whether it holds what is on the desk."""
        document = self.builder.editing.document
        where = str(document.path) if document.path else "no file yet"
        return f"{where}, {'with changes that are not saved' if document.dirty else 'saved'}" if (
            document.path or document.dirty
        ) else where  # fmt: skip

    def columns(self) -> Columns:
        """Save and open; begin anew and recent files; the built-in ones."""
        b, document = self.builder, self.builder.editing.document
        here: list[Widget] = [
            Heading("This scenario"), TextBlock(self.state, "small", "muted"),
            Row([Button("Save", self.save, hint="Ctrl+S", group="file"),
                 Button("Save as", self.save_as, hint="Ctrl+Shift+S", group="file"),
                 Button("Open", self.open, hint="Ctrl+O", group="file"),
                 Button("Go on with a copy", self.duplicate, group="file"),
                 Button("Hand out", self.hand_out, group="file",
                        tooltip="Write it as a pack, one file to give to players.")]),
            Row([Button("Undo", b.editing.undo, hint="Ctrl+Z", group="steps"),
                 Button("Redo", b.editing.redo, hint="Ctrl+Y", group="steps"),
                 Button("Play it", b.play, hint="P", group="steps")]),
        ]  # fmt: skip
        begin: list[Widget] = [Heading("Begin anew"), Row([
            Button(kind[:1].upper() + kind[1:], partial(self.new, kind), group="starts") for kind in STARTS
        ])]  # fmt: skip
        recent = document.recent()
        begin.append(Heading("Open again"))
        begin += [
            ListLine(p.name, partial(self.open_path, p), group="recent", tooltip=str(p)) for p in recent
        ] or [quiet_line("No file was opened or saved yet.")]
        copies: list[Widget] = [Heading("A copy of a built-in one")]
        copies += [
            ListLine(_bare(e.scenario.title), partial(self.builtin, e.name), group="copies", tooltip=c.title)
            for c in builtin_chapters() for e in c.entries
        ]  # fmt: skip
        return [here, begin, copies]

    # ---- nothing is lost

    def safely(self, then: Then, leaving: bool = False) -> None:
        """Do it once the work on the desk is safe: saved, kept unfinished, or given up on purpose."""
        b, document = self.builder, self.builder.editing.document
        b.editing.settle()
        if not document.dirty:
            then()
            return

        def keep() -> None:
            try:
                path = document.keep_unfinished(document.name)
            except ScenarioError as error:
                b.app.say(error.problems[0])
                return
            b.app.say(f"Kept unfinished as {path.name}.")
            then()

        answers = [("Save", lambda: self.save(then)), ("Keep unfinished", keep), ("Discard", then)]
        if b.editing.problems:
            answers = [answers[1], answers[2]]
        words = "It has changes that no file holds."
        if b.editing.problems:
            words += f" It cannot be saved as a scenario yet: there {_counted(len(b.editing.problems))}."
        words += " Kept unfinished, it lies in the folder “unfinished” and can be opened again."
        b.app.push(Ask(self.builder.app, f"What becomes of “{_short(document.name)}”?", words, answers))

    def _try(self, act: Callable[[], object]) -> bool:
        """Do it and show what is on the desk now, or say why not."""
        try:
            act()
        except ScenarioError as error:
            more = len(error.problems) - 1
            self.builder.app.say(error.problems[0] + (f" And {more} more." if more else ""))
            return False
        return True

    # ---- onto the desk

    def new(self, kind: str) -> None:
        """Begin anew from a starting point."""
        self.safely(
            lambda: self._placed(lambda: self.builder.editing.document.new(kind), f"A new scenario: {kind}.")
        )

    def builtin(self, name: str) -> None:
        """A copy of a built-in scenario."""
        self.safely(
            lambda: self._placed(
                lambda: self.builder.editing.document.load_builtin(name),
                "A copy of a built-in scenario; saving asks for a name.",
            )
        )

    def open(self) -> None:
        """Choose a file to open."""
        self.safely(
            lambda: self.builder.app.push(
                Chooser(
                    self.builder.app,
                    "Open a scenario or a pack",
                    self._folder(),
                    self._take,
                    places=self._places(),
                )
            )
        )

    def open_path(self, path: Path) -> None:
        """Open this file, once the work on the desk is safe. A pack goes into the library."""
        if self._is_pack(path):
            self._take(path)
        else:
            self.safely(lambda: self._take(path))

    def _take(self, path: Path) -> None:
        if self._is_pack(path):
            taken = Shelf(self.builder.home).take(path)
            self.builder.app.say(taken.sentence)
            return
        self._placed(lambda: self.builder.editing.document.open(path), f"{file_name(path)} is open.")

    @staticmethod
    def _is_pack(path: Path) -> bool:
        try:
            return "pack" in tables(read_text(path, LARGEST_PACK), file_name(path), LARGEST_PACK)
        except ScenarioError:
            return False

    def _placed(self, act: Callable[[], object], told: str) -> None:
        if self._try(act):
            self.builder.placed()
            count = len(self.builder.editing.problems)
            self.builder.app.say(told if not count else f"{told} There {_counted(count)}; F8 goes there.")

    # ---- off the desk

    def save(self, then: Then = lambda: None) -> None:
        """Into its own file; without one, ask for a name."""
        b, document = self.builder, self.builder.editing.document
        b.editing.settle()
        if b.editing.problems:
            self._unsound()
        elif document.path is None:
            self.save_as(then)
        elif document.changed_outside():
            b.app.push(Ask(self.builder.app,
                f"“{_short(document.name)}” was changed by something else.",
                "Saving would put this version in its place.",
                [("Save as another file", lambda: self.save_as(then)),
                 ("Replace it", lambda: self._saved(then))],
            ))  # fmt: skip
        else:
            self._saved(then)

    def _saved(self, then: Then) -> None:
        document = self.builder.editing.document
        if self._try(document.save):
            self.builder.app.say(f"Saved as {document.name}.")
            self.builder.panel.rebuild()
            then()

    def save_as(self, then: Then = lambda: None) -> None:
        """Ask for a name and save there."""
        b, document = self.builder, self.builder.editing.document
        b.editing.settle()
        if b.editing.problems:
            self._unsound()
            return
        name = (
            document.path.name
            if document.path
            else f"{plain_name(str(document.name)).lower() or 'scenario'}.toml"
        )
        folder = document.path.parent if document.path else self._folder()
        b.app.push(Chooser(b.app, "Save the scenario", folder, lambda p: self._name(p, then), saving=True,
                           name=name, places=self._places(), verb="Save"))  # fmt: skip

    def _name(self, path: Path, then: Then) -> None:
        document = self.builder.editing.document
        path = path if path.suffix == ".toml" else path.with_name(path.name + ".toml")

        def write() -> None:
            def make() -> None:
                try:
                    path.parent.mkdir(parents=True, exist_ok=True)
                except OSError as error:
                    raise ScenarioError(
                        [f"{path.parent}: cannot be made: {error.strerror or error}."]
                    ) from None
                document.save_as(path)

            if self._try(make):
                self.builder.app.say(f"Saved as {path.name}.")
                self.builder.panel.rebuild()
                then()

        if path.exists() and path != document.path:
            self.builder.app.push(Ask(self.builder.app,
                f"Replace “{_short(path.name)}”?",
                "There is a file of that name; what it holds would be gone.",
                [("Another name", lambda: self.save_as(then)), ("Replace it", write)],
            ))  # fmt: skip
        else:
            write()

    def _unsound(self) -> None:
        b = self.builder
        count = len(b.editing.problems)

        def keep() -> None:
            def make() -> None:
                path = b.editing.document.keep_unfinished(b.editing.document.name)
                b.app.say(f"Kept unfinished as {path.name}; the desk still holds it, too.")

            self._try(make)

        b.app.push(Ask(self.builder.app,
            "It cannot be saved as a scenario yet.", f"There {_counted(count)}; F8 goes there. "
            "Kept unfinished, it lies in the folder “unfinished” and can be opened again.",
            [("Show me", b.next_problem), ("Keep unfinished", keep)],
        ))  # fmt: skip

    def duplicate(self) -> None:
        """Go on with a copy that has no file yet."""
        b = self.builder
        if b.editing.document.dirty and b.editing.document.path is not None:
            self.safely(self._copied)
        else:
            self._copied()

    def _copied(self) -> None:
        self._placed(self.builder.editing.document.duplicate, "This is a copy now; saving asks for a name.")

    def hand_out(self) -> None:
        """Write what is on the desk as a pack of one."""
        b, document = self.builder, self.builder.editing.document
        if document.dirty or document.path is None:
            b.app.say("Save it first: a pack is made of saved files.")
            return
        path = document.path

        def write(out: Path) -> None:
            out = out if out.suffix == ".toml" else out.with_name(out.name + ".toml")
            try:
                hand_out([path], None, out, title=str(b.editing.draft.at(("title",), "")))
            except ScenarioError as error:
                b.app.say(error.problems[0])
            except OSError as error:
                b.app.say(f"{out.name}: cannot be written: {error.strerror or error}.")
            else:
                b.app.say(f"{out.name} can be handed out: players drop it on the window.")

        b.app.push(Chooser(b.app, "Hand out as a pack", path.parent, write, saving=True, verb="Write",
                           name=f"{path.stem}-pack.toml", places=self._places()))  # fmt: skip

    # ---- places

    def _folder(self) -> Path:
        document, own = self.builder.editing.document, self.builder.home / SCENARIOS
        if document.path is not None:
            return document.path.parent
        own.mkdir(parents=True, exist_ok=True)
        return own

    def _places(self) -> list[tuple[str, Path]]:
        home = self.builder.home
        named = [
            ("Your library", home / SCENARIOS),
            ("Unfinished", home / "unfinished"),
            ("Home", Path.home()),
        ]
        return [(word, place) for word, place in named if place.is_dir()]


def _counted(count: int) -> str:
    return "is one thing to mend" if count == 1 else f"are {count} things to mend"


def _bare(title: str) -> str:
    """A title of the library without the club, which every one begins with."""
    words = title.removeprefix("Harrow Fen: ")
    return f"{words[:1].upper()}{words[1:]}"


def _short(name: str) -> str:
    return name if len(name) <= 48 else f"{name[:47]}\N{HORIZONTAL ELLIPSIS}"
