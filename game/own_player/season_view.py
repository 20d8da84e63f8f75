"""The drawn map of the season with one place in focus, and that place in words beside it."""

from collections.abc import Callable

import pygame

from game.draw.camera import Rect
from game.draw.season import SeasonPlan, draw_season, plan_season
from game.text.choice import season_place_words
from game.text.units import UnitSystem
from game.ui import Column, Theme, Widget, paint
from game.ui.supersample import Cached
from levels.season import SeasonCell, SeasonMap

__all__ = ["MapColumn", "SeasonView"]

SIDES = {pygame.K_LEFT: (0, -1), pygame.K_RIGHT: (0, 1), pygame.K_UP: (-1, 0), pygame.K_DOWN: (1, 0)}


class MapColumn(Column):
    """Scrolls the map so far that the place in focus is in sight."""

    def reveal(self, part: Widget) -> None:
        if not isinstance(part, SeasonView):
            super().reveal(part)
            return
        box, pad = part.focus_box, self._theme.gap
        if box.y - pad < self.rect.y:
            self.scroll(box.y - pad - self.rect.y)
        elif box.bottom + pad > self.rect.bottom:
            self.scroll(box.bottom + pad - self.rect.bottom)


class SeasonView(Widget):
    """Arrows go from place to place, a click chooses one; `on_place` hears which."""

    def __init__(self, made: SeasonMap, units: UnitSystem, on_place: Callable[[SeasonCell], None]) -> None:
        super().__init__("Map", tooltip="Arrows: from place to place.")
        self.made, self.units, self.on_place, self.at = made, units, on_place, 0
        self._plan, self._sheet = Cached[SeasonPlan](), Cached[pygame.Surface]()
        self._theme = Theme()

    @property
    def cell(self) -> SeasonCell:
        """The place in focus."""
        return self.plan(self._theme, max(self.rect.w, 320.0)).places[self.at][0]

    @property
    def caption(self) -> str:
        return season_place_words(self.cell, self.units)

    def plan(self, theme: Theme, width: float) -> SeasonPlan:
        """Where everything stands at this width."""
        key = (self.made, round(width), theme.scale, self.units)
        wide = round(width)
        return self._plan.get(key, lambda: plan_season(self.made, wide, theme.scale, self.units, bare=True))

    def height(self, theme: Theme, width: float) -> float:
        return float(self.plan(theme, width).height)

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self._theme = theme

    @property
    def focus_box(self) -> Rect:
        """The box (px) of the place in focus."""
        box = self.plan(self._theme, self.rect.w).places[self.at][1]
        return Rect(self.rect.x + box.x, self.rect.y + box.y, box.w, box.h)

    def _to(self, index: int) -> None:
        self.at = index
        self.on_place(self.cell)

    def handle(self, event: pygame.event.Event) -> bool:
        places = self.plan(self._theme, self.rect.w).places
        if event.type == pygame.MOUSEBUTTONDOWN:
            x, y = event.pos[0] - self.rect.x, event.pos[1] - self.rect.y
            hit = (i for i, (_, b) in enumerate(places) if b.x <= x < b.right and b.y <= y < b.bottom)
            if (found := next(hit, None)) is not None:
                self._to(found)
            return True
        if event.type != pygame.KEYDOWN or event.key not in SIDES:
            return False
        down, along = SIDES[event.key]
        each = sum((c.lie, c.room) == (places[0][0].lie, places[0][0].room) for c, _ in places)
        row, column = divmod(self.at, each)
        row, column = row + down, column + along
        if 0 <= column < each and 0 <= row * each + column < len(places):
            self._to(row * each + column)
        return True

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        plan = self.plan(theme, self.rect.w)
        sheet = self._sheet.get((plan, theme.palette), lambda: draw_season(plan, theme.palette))
        surface.blit(sheet, (round(self.rect.x), round(self.rect.y)))
        box = self.focus_box
        edge = theme.accent if self.focused else theme.edge
        paint.box(surface, box.inset(-theme.gap / 2), None, edge, theme.radius, 2 * theme.line)
