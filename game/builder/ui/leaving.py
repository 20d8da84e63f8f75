"""What protects unsaved work when the program ends: a question before the end, an offer at the next start."""

from collections.abc import Callable
from typing import Protocol

from game.builder.model.document import Document
from game.builder.ui.ask import Ask, Option
from game.ui.screen import Host
from levels.reading import ScenarioError

__all__ = ["may_leave", "offer_recovered"]


class Workplace(Protocol):
    """What is asked of the page the document is on."""

    title: str

    def placed(self) -> None:
        """Another document is open: show it."""

    def save(self, then: Callable[[], None]) -> None:
        """Save, ask what must be asked, and go on once it is saved."""


def offer_recovered(app: Host, document: Document, page: Workplace) -> None:
    """Ask whether to go on with the work of a session that ended suddenly; it is open by now."""

    def put_away() -> None:
        try:
            path = document.keep_unfinished(document.name)
        except ScenarioError as error:
            app.say(error.problems[0])
            return
        document.new("plain green")
        page.placed()
        app.say(f"It is kept as {path.name} in the folder “unfinished”.")

    name = document.name
    answers: list[Option] = [
        ("Go on with it", lambda: app.say(f"“{name}” is as you left it.")),
        ("Put it away", put_away),
    ]
    app.push(
        Ask(app, "There is work from last time that was not saved.", f"It is “{name}”.", answers, stay="")
    )


def may_leave(app: Host, document: Document, valid: bool, page: Workplace, then: Callable[[], None]) -> bool:
    """Whether the program may end now; if not, it is asked what becomes of the work, and `then` ends it.

    `valid` says whether the draft could be saved as a scenario.
    """
    if not document.dirty:
        document.close()
        return True
    if isinstance(app.screen, Ask):
        return False
    app.open(page.title)

    def discard() -> None:
        document.close()
        then()

    save: Option = ("Save", lambda: page.save(discard))
    answers: list[Option] = [("Keep it for next time", then), ("Discard", discard)]
    words = f"It is “{document.name}”. Kept, it is offered again next time."
    head = "There is work in the Builder that is not saved."
    app.push(Ask(app, head, words, [save, *answers] if valid else answers))
    return False
