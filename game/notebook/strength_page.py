"""The strengths map: a strip of ground for each lie, near to far, with an arc for every kind of shot."""

import pygame

from game.draw.camera import Rect
from game.draw.course import top_colour
from game.library.notebook.pages import map_of
from game.notebook.strength_field import StrengthField, draw_turf_strip
from game.text.notebook import EMPTY_MAP, MAP_LEGEND, NOT_SKILL
from game.text.units import UNIT_SYSTEMS
from game.ui import Column, TextBlock, Theme, Widget, layout, paint
from game.ui.screen import Host
from levels.families import FAMILIES
from levels.strengths import BANDS, strengths
from physics.surfaces import SURFACES

__all__ = ["StrengthPage"]

ROW = 15.0  # steps of the rhythm: height of a lie's strip


class _Strips(Widget):
    """The strips of all lies, each field at its place."""

    focusable = False

    def __init__(self, fields: tuple[StrengthField, ...]) -> None:
        super().__init__()
        self.fields = fields
        self.lies = tuple(dict.fromkeys(f.field.place.lie for f in sorted(fields, key=_lie_order)))
        self.bands = tuple(b for b in BANDS if any(f.field.place.band == b for f in fields))
        self._rows: dict[str, Rect] = {}

    @property
    def parts(self) -> tuple[Widget, ...]:
        return self.fields

    def height(self, theme: Theme, width: float) -> float:
        return (ROW * theme.gap + theme.type.line("strong")) * len(self.lies)

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        tall = self.height(theme, rect.w) / max(len(self.lies), 1)
        line = theme.type.line("strong")
        for i, lie in enumerate(self.lies):
            row = Rect(rect.x, rect.y + i * tall + line, rect.w, tall - line)
            self._rows[lie] = row
            for band, part in zip(
                self.bands, layout.split(row, (1,) * len(self.bands), 3 * theme.gap), strict=True
            ):
                self._place_band(lie, band, part, theme)

    def _place_band(self, lie: str, band: tuple[float, float], part: Rect, theme: Theme) -> None:
        cells = layout.split(part, (1,) * len(FAMILIES))
        for field in self.fields:
            place = field.field.place
            if (place.lie, place.band) == (lie, band):
                field.place(cells[FAMILIES.index(place.family)], theme)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        for lie, row in self._rows.items():
            known = SURFACES.get(lie)
            label = known.label if known else lie
            paint.text(
                surface,
                theme,
                label[:1].upper() + label[1:],
                "strong",
                row.x,
                row.y - theme.type.line("strong"),
            )
            for band, part in zip(
                self.bands, layout.split(row, (1,) * len(self.bands), 3 * theme.gap), strict=True
            ):
                turf = top_colour(theme.palette, lie if known else "fairway")
                draw_turf_strip(surface, theme, part, turf)
                words = f"{band[0]:.0f} to {band[1]:.0f} m" if band[1] < 100.0 else f"over {band[0]:.0f} m"
                paint.text(
                    surface, theme, words, "small", part.right, row.y - theme.type.line("small"), "muted", 1.0
                )
        for field in self.fields:
            field.draw(surface, theme)


def _lie_order(field: StrengthField) -> int:
    names = list(SURFACES)
    lie = field.field.place.lie
    return names.index(lie) if lie in names else len(names)


class StrengthPage:
    """What the attempts say by lie, height and distance; the words of the field in focus stand below."""

    def __init__(self, app: Host) -> None:
        self.app = app
        self._column, self._told = Column([]), TextBlock("")
        self._fields: tuple[StrengthField, ...] = ()

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._column, self._told)

    def fill(self) -> None:
        """Work the map out anew."""
        app = self.app
        units = UNIT_SYSTEMS[app.settings.units]
        self._fields = tuple(StrengthField(f, units) for f in strengths(map_of(app.book, app.player)))
        if not self._fields:
            self._column, self._told = Column([TextBlock(EMPTY_MAP, "body", "muted")]), TextBlock("")
            return
        legend = [TextBlock(MAP_LEGEND, "small", "muted"), TextBlock(NOT_SKILL, "small", "muted")]
        self._column = Column([_Strips(self._fields), *legend], 1.0)
        self._told = TextBlock(self._words(), "label")

    def _words(self) -> str:
        """What is told now: the field in focus, else what stands out."""
        focused = self.app.focus.widget
        if isinstance(focused, StrengthField) and focused in self._fields:
            return f"{focused.label}: {focused.words}"
        seek = [f.label for f in self._fields if f.field.advice == "seek"]
        care = [f.label for f in self._fields if f.field.advice == "careful"]
        lead = (
            f"To seek: {'; '.join(seek)}." if seek else "",
            f"Careful with: {'; '.join(care)}." if care else "",
        )
        told = " ".join(filter(None, lead)) or "Nothing stands out yet."
        return f"{told} The arrows go over the map."

    def layout(self, box: Rect, theme: Theme) -> None:
        """The map over the words."""
        wide = box.w - 2 * theme.gap
        lines = 3 * theme.type.line("label") if self._fields else 0.0
        _, land, foot = layout.take(box, bottom=lines, gap=theme.gap if lines else 0.0)
        self._column.place(land, theme)
        self._told.place(Rect(foot.x + theme.gap, foot.y, wide, lines), theme)

    def update(self) -> None:
        """The words follow the focus."""
        if self._fields:
            self._told.label = self._words()
