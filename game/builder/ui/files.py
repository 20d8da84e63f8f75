"""What is done with files: every way a scenario is opened and written, with no unsaved work lost on any."""

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from game.builder.ui.ask import Ask
from game.builder.ui.chooser import Chooser
from game.builder.ui.editing import Editing
from game.library.shelf import SCENARIOS, Shelf, is_pack, plain_name
from game.ui.screen import Host
from levels.reading import ScenarioError, file_name

__all__ = ["Files"]

Then = Callable[[], None]


class FilePage(Protocol):
    """What files ask of the page the document is on."""

    def placed(self) -> None:
        """Another document is open: show it."""

    def saved(self) -> None:
        """The document is in a file now: show so."""

    def next_problem(self) -> None:
        """To the next thing that breaks a rule."""


class Files:
    """What the tab of the file, its keys and a dropped file do. `home`: the folder of the reader's files."""

    def __init__(self, app: Host, editing: Editing, home: Path, page: FilePage) -> None:
        self.app, self.editing, self.home, self.page = app, editing, home, page
        self.document = editing.document

    # ---- nothing is lost

    def safely(self, then: Then) -> None:
        """Do it once the work in hand is safe: saved, kept unfinished, or given up on purpose."""
        document = self.document
        self.editing.settle()
        if not document.dirty:
            then()
            return

        def keep() -> None:
            try:
                path = document.keep_unfinished(document.name)
            except ScenarioError as error:
                self.app.say(error.problems[0])
                return
            self.app.say(f"Kept unfinished as {path.name}.")
            then()

        answers = [("Save", lambda: self.save(then)), ("Keep unfinished", keep), ("Discard", then)]
        if self.editing.problems:
            answers = [answers[1], answers[2]]
        words = "It has changes that no file holds."
        if self.editing.problems:
            words += f" It cannot be saved as a scenario yet: there {_counted(len(self.editing.problems))}."
        words += " Kept unfinished, it lies in the folder “unfinished” and can be opened again."
        self.app.push(Ask(self.app, f"What becomes of “{_short(document.name)}”?", words, answers))

    def _try(self, act: Callable[[], object]) -> bool:
        """Do it, or say why not; whether it was done."""
        try:
            act()
        except ScenarioError as error:
            more = len(error.problems) - 1
            self.app.say(error.problems[0] + (f" And {more} more." if more else ""))
            return False
        return True

    # ---- opened

    def new(self, kind: str) -> None:
        """Begin anew from a starting point."""
        self.safely(lambda: self._placed(lambda: self.document.new(kind), f"A new scenario: {kind}."))

    def builtin(self, name: str) -> None:
        """A copy of a built-in scenario."""
        self.safely(
            lambda: self._placed(
                lambda: self.document.load_builtin(name),
                "A copy of a built-in scenario; saving asks for a name.",
            )
        )

    def open(self) -> None:
        """Choose a file to open."""
        self.safely(
            lambda: self.app.push(
                Chooser(
                    self.app,
                    "Open a scenario or a pack",
                    self._folder(),
                    self._take,
                    places=self._places(),
                )
            )
        )

    def open_path(self, path: Path) -> None:
        """Open this file, once the work in hand is safe. A pack goes into the library."""
        if is_pack(path):
            self._take(path)
        else:
            self.safely(lambda: self._take(path))

    def _take(self, path: Path) -> None:
        if is_pack(path):
            taken = Shelf(self.home).take(path)
            self.app.say(taken.sentence)
            return
        self._placed(lambda: self.document.open(path), f"{file_name(path)} is open.")

    def _placed(self, act: Callable[[], object], told: str) -> None:
        if self._try(act):
            self.page.placed()
            count = len(self.editing.problems)
            self.app.say(told if not count else f"{told} There {_counted(count)}; F8 goes there.")

    # ---- written

    def save(self, then: Then = lambda: None) -> None:
        """Into its own file; without one, ask for a name."""
        document = self.document
        self.editing.settle()
        if self.editing.problems:
            self._unsound()
        elif document.path is None:
            self.save_as(then)
        elif document.changed_outside():
            self.app.push(Ask(self.app,
                f"“{_short(document.name)}” was changed by something else.",
                "Saving would put this version in its place.",
                [("Save as another file", lambda: self.save_as(then)),
                 ("Replace it", lambda: self._saved(then))],
            ))  # fmt: skip
        else:
            self._saved(then)

    def _saved(self, then: Then) -> None:
        document = self.document
        if self._try(document.save):
            self.app.say(f"Saved as {document.name}.")
            self.page.saved()
            then()

    def save_as(self, then: Then = lambda: None) -> None:
        """Ask for a name and save there."""
        document = self.document
        self.editing.settle()
        if self.editing.problems:
            self._unsound()
            return
        name = (
            document.path.name
            if document.path
            else f"{plain_name(str(document.name)).lower() or 'scenario'}.toml"
        )
        folder = document.path.parent if document.path else self._folder()
        self.app.push(Chooser(self.app, "Save the scenario", folder, lambda p: self._name(p, then),
                              saving=True, name=name, places=self._places(), verb="Save"))  # fmt: skip

    def _name(self, path: Path, then: Then) -> None:
        document = self.document
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
                self.app.say(f"Saved as {path.name}.")
                self.page.saved()
                then()

        if path.exists() and path != document.path:
            self.app.push(Ask(self.app,
                f"Replace “{_short(path.name)}”?",
                "There is a file of that name; what it holds would be gone.",
                [("Another name", lambda: self.save_as(then)), ("Replace it", write)],
            ))  # fmt: skip
        else:
            write()

    def _unsound(self) -> None:
        count = len(self.editing.problems)

        def keep() -> None:
            def make() -> None:
                path = self.document.keep_unfinished(self.document.name)
                self.app.say(f"Kept unfinished as {path.name}; the desk still holds it, too.")

            self._try(make)

        self.app.push(Ask(self.app,
            "It cannot be saved as a scenario yet.", f"There {_counted(count)}; F8 goes there. "
            "Kept unfinished, it lies in the folder “unfinished” and can be opened again.",
            [("Show me", self.page.next_problem), ("Keep unfinished", keep)],
        ))  # fmt: skip

    def duplicate(self) -> None:
        """Go on with a copy that has no file yet."""
        if self.document.dirty and self.document.path is not None:
            self.safely(self._copied)
        else:
            self._copied()

    def _copied(self) -> None:
        self._placed(self.document.duplicate, "This is a copy now; saving asks for a name.")

    # ---- places

    def _folder(self) -> Path:
        document, own = self.document, self.home / SCENARIOS
        if document.path is not None:
            return document.path.parent
        own.mkdir(parents=True, exist_ok=True)
        return own

    def _places(self) -> list[tuple[str, Path]]:
        home = self.home
        named = [
            ("Your library", home / SCENARIOS),
            ("Unfinished", home / "unfinished"),
            ("Home", Path.home()),
        ]
        return [(word, place) for word, place in named if place.is_dir()]


def _counted(count: int) -> str:
    return "is one problem to fix" if count == 1 else f"are {count} problems to fix"


def _short(name: str) -> str:
    return name if len(name) <= 48 else f"{name[:47]}\N{HORIZONTAL ELLIPSIS}"
