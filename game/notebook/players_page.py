"""Who plays on this machine: choose one, add one. Nobody is ever taken away."""

from collections.abc import Callable
from functools import partial

from game.draw.camera import Rect
from game.library.notebook.pages import attempts_count
from game.own_player import own_player
from game.ui import Button, Column, Heading, Row, TextBlock, Theme, Widget
from game.ui.screen import Host
from game.ui.textfield import TextField

__all__ = ["PlayersPage"]

MEASURE = 84.0  # steps of the rhythm the page is wide at most
ABOUT = "Every player has a history, a map and a plan of their own. A nickname is enough."


class PlayersPage:
    """The names; the current one is marked."""

    def __init__(self, app: Host, on_change: Callable[[], None]) -> None:
        self.app, self.on_change = app, on_change
        self._name = TextField("Add a player", "", lambda _: self._well(), most=60, empty="name or nickname",
                               tooltip="A name or nickname; Enter adds it.", on_done=self.add)  # fmt: skip
        self._column = Column([])

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._column,)

    def fill(self) -> None:
        """The names as they are now."""
        app = self.app
        names = app.book.players or (app.player,)
        items: list[Widget] = [Heading("Who plays now?"), TextBlock(ABOUT, "label", "muted")]
        for name in names:
            count = attempts_count(app.book, name)
            shots = f"{count} shot{'' if count == 1 else 's'}"
            plays = name == app.player
            items.append(Row([Button(
                name, partial(self.choose, name), kind="main" if plays else "plain", group="players",
                hint=f"{shots}, plays now" if plays else shots,
                tooltip=f"The notebook takes down {name}'s shots from now on.",
            )]))  # fmt: skip
        own = Button("Your own player", lambda: app.push(own_player(app)),
                     tooltip="Ten measured balls, your spread, and which shots to seek.")  # fmt: skip
        self._column = Column([*items, self._name, Row([Button("Add", self.add)]), Row([own])], 1.0)

    def choose(self, name: str) -> None:
        """This one plays from now on."""
        self.app.change(player=name)
        self.app.keep()
        self.app.say(f"{name} plays now: the next shots are {name}'s.")
        self.on_change()

    def add(self) -> None:
        """Add the name that is written, and let them play."""
        try:
            name = self.app.book.add_player(self._name.text)
        except ValueError as error:
            self._name.problem = str(error)
            self.on_change()
            return
        self._name.show("")
        self._well()
        self.choose(name)

    def _well(self) -> None:
        self._name.problem = ""

    def layout(self, box: Rect, theme: Theme) -> None:
        """One column."""
        self._column.place(Rect(box.x, box.y, min(box.w, MEASURE * theme.gap), box.h), theme)

    def update(self) -> None:
        """Nothing moves by itself."""
