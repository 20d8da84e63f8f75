"""The strengths map, and beside it in words what the arc in focus says."""

from game.draw.camera import Rect
from game.library.notebook.pages import map_of
from game.notebook.strength_ground import StrengthGround
from game.shot_view.sheet import Sheet
from game.text.notebook import (
    EMPTY_MAP,
    MAP_LEGEND,
    MAP_LEGEND_JUNIOR,
    NOT_SKILL,
    field_title,
    map_words,
    strength_words,
)
from game.text.units import UNIT_SYSTEMS
from game.ui import Heading, TextBlock, Theme, Widget, layout
from game.ui.screen import Host
from levels.strengths import strengths

__all__ = ["StrengthPage"]

ROOMY = 104.0  # steps of the rhythm from which the words stand beside the map


class StrengthPage:
    """What the attempts say by lie, height and distance. Numbers of a model."""

    def __init__(self, app: Host) -> None:
        self.app = app
        self.ground = StrengthGround(self._chosen)
        self._head, self._words, self._all = Heading(""), TextBlock(""), TextBlock("")
        self._legend, self._model = TextBlock("", "small", "muted"), TextBlock(NOT_SKILL, "strong")
        self._empty = TextBlock(EMPTY_MAP, "body", "muted")
        self.column = Sheet([])

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self.ground, self.column) if self.ground.fields else (self.column,)

    @property
    def _numbers(self) -> bool:
        return self.app.settings.detail != "junior"

    def fill(self) -> None:
        """Work the map out anew."""
        app = self.app
        fields = strengths(map_of(app.book, app.player))
        self.ground.fill(fields, UNIT_SYSTEMS[app.settings.units], self._numbers)
        self._tell()

    def _chosen(self) -> None:
        """Another arc is in focus."""
        self._tell()
        self.app.arrange()

    def _tell(self) -> None:
        one, units = self.ground.field, UNIT_SYSTEMS[self.app.settings.units]
        if one is None:
            self.column.items = (self._empty,)
            return
        self._head.label = field_title(one, units)
        self._words.label = strength_words(one, units, self._numbers)
        self._all.label = map_words(self.ground.fields, units)
        self._legend.label = MAP_LEGEND if self._numbers else MAP_LEGEND_JUNIOR
        self.column.items = (
            self._head, self._words, self._model, Heading("The whole map"), self._all, self._legend,
        )  # fmt: skip

    def layout(self, box: Rect, theme: Theme) -> None:
        """The map with its words beside it, or below where it is narrow."""
        if not self.ground.fields:
            self.column.place(box, theme)
            return
        if box.w >= ROOMY * theme.gap:
            ground, words = layout.split(box, (0.68, 0.32), 2 * theme.gap)
        else:
            ground, words = layout.split(box, (0.56, 0.44), theme.gap, down=True)
        self.ground.place(ground, theme)
        self.column.place(words, theme)

    def update(self) -> None:
        """Nothing moves by itself."""
