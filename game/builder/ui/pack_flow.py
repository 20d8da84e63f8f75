"""Sharing from the filled-in page to the written pack: warnings, the place of its file, the writing."""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

from game.builder.model.sharing import Offer, Sharing, file_offer
from game.builder.ui.ask import Ask
from game.builder.ui.chooser import Chooser
from game.builder.ui.share_page import SharePage
from game.builder.ui.share_warnings import ShareWarnings
from game.library.assignments import keep_assignment, new_assignment_id
from game.library.shelf import Shelf, first, hand_out, is_pack
from game.ui.screen import Host
from levels.packs import Pack
from levels.reading import ScenarioError, file_name

__all__ = ["PackFlow", "is_same_file"]

DESKTOP = ("Desktop", "Documents", "Downloads")  # folders of the home folder that are offered where they are
OWN = "That is inside your own library, where Play would find it; choose another folder."
ANSWERED = " Drop their answer here to read it."


class PackFlow:
    """`sharing` is kept, so that going back loses nothing. `on_written` hears where the file is."""

    def __init__(self, app: Host, home: Path, on_written: Callable[[Path], None] = lambda _: None) -> None:
        self.app, self.home, self.on_written = app, home, on_written
        self.sharing = Sharing()
        self.near: Path | None = None  # where files to add are looked for first
        self._page: SharePage | None = None
        self._folder: Path | None = None  # where the last pack went

    def show(self, own: Sequence[Offer], builtin: Sequence[Offer], note: str = "") -> None:
        """The page on which it is filled in; `note` says what to know about these scenarios."""
        self._page = SharePage(self.app, self, own, builtin, note)
        self.app.push(self._page)

    def add_shared(self) -> None:
        """Choose one more file."""

        def add(path: Path) -> None:
            if is_pack(path):
                self.app.say(f"{path.name}: is a pack already; only scenarios can be put into a pack.")
                return
            try:
                offer = file_offer(path)
            except ScenarioError as error:
                self.app.say(first(error.problems))
                return
            if self._page:
                self._page.added(offer)

        folder = self.near or Path.home()
        self.app.push(Chooser(self.app, "Add a scenario", folder, add, places=self._places(), verb="Add"))

    def write_shared(self) -> None:
        """Warn of what should be looked at, then ask where."""
        if cautions := self.sharing.cautions:
            self.app.push(ShareWarnings(self.app, cautions, self._where))
        else:
            self._where()

    # ---- the file

    def _where(self) -> None:
        folder = self._folder or next((p for _, p in self._places()), Path.home())
        self.app.push(Chooser(
            self.app, "Where shall the pack be written?", folder, self._named, saving=True, verb="Write",
            name=self.sharing.file_name, places=self._places(),
        ))  # fmt: skip

    def _places(self) -> list[tuple[str, Path]]:
        named = [*((word, Path.home() / word) for word in DESKTOP), ("Home", Path.home())]
        return [(word, place) for word, place in named if place.is_dir()]

    def _named(self, path: Path) -> None:
        path = path if path.suffix.lower() == ".toml" else path.with_name(f"{path.name}.pack.toml")
        if Shelf(self.home).contains(path):
            self.app.say(OWN)
        elif any(is_same_file(o.source, path) for o in self.sharing.chosen):
            self.app.say(f"{path.name} is one of these scenarios; give the pack another name.")
        elif path.exists():
            self.app.push(Ask(self.app, "Replace that file?",
                f"There is a file of the name {file_name(path)}; what it holds would be gone.",
                [("Another name", self._where), ("Replace it", lambda: self._write(path))]))  # fmt: skip
        else:
            self._write(path)

    def _write(self, path: Path) -> None:
        made = self.sharing
        plan = made.plan.checked(date.today())[0] if made.planned else None
        own = new_assignment_id() if made.asked else ""
        try:
            pack = hand_out(
                [o.source for o in made.chosen], plan, path, title=made.name, words=made.words, assignment=own
            )
        except ScenarioError as error:
            self.app.say(first(error.problems))
            return
        except OSError as error:
            self.app.say(f"{file_name(path)}: cannot be written: {error.strerror or error}.")
            return
        answered = self._answered(pack) if own else ""
        self._folder = path.parent
        self.sharing = Sharing()
        self.app.pop()
        count = len(pack.members)
        what = "scenario" if count == 1 else "scenarios"
        self.app.say(f"{file_name(path)} in {path.parent} holds {count} {what}"
                     f"{' and the plan' if plan else ''}. "
                     f"Players drop it on their window.{answered}")  # fmt: skip
        self.on_written(path)

    def _answered(self, pack: Pack) -> str:
        """Keep a copy, by which answers find the pack; what is then said of them."""
        try:
            keep_assignment(self.home, pack)
        except OSError:
            return " Keep the file: no copy of it could be made, and their answers need it."
        return ANSWERED


def is_same_file(source: object, path: Path) -> bool:
    """Whether what is shared is the file at that path."""
    return isinstance(source, Path) and source.resolve() == path.resolve()
