"""No work is lost: what a sudden end left behind is offered, and the end asks for what is not saved."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from game.builder.ui.ask import Ask, Option
from levels.reading import ScenarioError

if TYPE_CHECKING:
    from game.builder.ui.screen import Builder

__all__ = ["Safety"]


class Safety:
    """At the beginning and at the end."""

    def __init__(self, builder: Builder) -> None:
        self.builder = builder

    def recovered(self) -> Ask | None:
        """The question about work that was not saved, which is on the desk by now; None without any."""
        b, document = self.builder, self.builder.editing.document
        found = document.recover()
        if document.keeping:
            b.app.say(document.keeping)
        if found is None:
            return None
        b.placed()
        name = document.name
        answers: list[Option] = [
            ("Go on with it", lambda: b.app.say(f"“{name}” is as you left it.")),
            ("Put it away", self._put_away),
        ]
        return Ask(
            self.builder.app,
            "There is work from last time that was not saved.",
            f"It is “{name}”.",
            answers,
            stay="",
        )

    def _put_away(self) -> None:
        b, document = self.builder, self.builder.editing.document
        try:
            path = document.keep_unfinished(document.name)
        except ScenarioError as error:
            b.app.say(error.problems[0])
            return
        document.new("plain green")
        b.placed()
        b.app.say(f"It is kept as {path.name} in the folder “unfinished”.")

    def may_leave(self, then: Callable[[], None]) -> bool:
        """Whether the program may end now; if not, it is asked what becomes of the work."""
        b, document = self.builder, self.builder.editing.document
        b.editing.settle()
        if not document.dirty:
            document.close()
            return True
        if isinstance(b.app.screen, Ask):
            return False
        b.app.open("Builder")

        def discard() -> None:
            document.close()
            then()

        save: Option = ("Save", lambda: b.files.save(discard))
        answers: list[Option] = [("Keep it for next time", then), ("Discard", discard)]
        words = f"It is “{document.name}”. Kept, it is offered again next time."
        b.app.push(Ask(self.builder.app, "There is work in the Builder that is not saved.", words,
                       answers if b.editing.problems else [save, *answers]))  # fmt: skip
        return False
