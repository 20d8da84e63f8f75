"""A place on the section of the chapter page: one scenario, its number and title, and ticks once solved."""

from collections.abc import Callable, Sequence

import pygame

from game.chapters.section import places_on
from game.draw.camera import Rect
from game.ui import Theme, Widget, paint
from game.ui.button import pressed
from game.ui.supersample import supersampled
from levels.scenario import Scenario

__all__ = ["CLUB", "Station", "place_stations"]

LINES = 4  # lines of a title under its place; longer ones stand in the card alone
TICKS = 5  # ticks drawn at most, the fifth across the four
CLUB = "Harrow Fen: "  # every title of the library begins with it; on its own ground it goes without saying


class Station(Widget):
    """One scenario on the section. Enter, Space or a click opens it; arrows go along the ground."""

    def __init__(self, key: str, scenario: Scenario, number: int, on_open: Callable[[], None]) -> None:
        words = f"{scenario.title}: Enter opens it, the arrows go along the ground."
        super().__init__(scenario.title, tooltip=words, group="ground")
        self.key, self.scenario, self.number, self.on_open = key, scenario, number, on_open
        self.done, self.chosen = False, False
        self.title: tuple[str, ...] = ()
        self.plate = Rect(0.0, 0.0, 1.0, 1.0)

    @property
    def caption(self) -> str:
        return f"{self.label}, {'done' if self.done else 'open'}"

    def handle(self, event: pygame.event.Event) -> bool:
        return pressed(self, event, self.on_open)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        p, plate, pad = theme.palette, self.plate, 0.75 * theme.gap
        marked = self.chosen or self.hovered
        edge, wide = (theme.accent, 3 * theme.line) if marked else (theme.edge, theme.line)
        paint.box(surface, plate, p.paper, edge, theme.radius, wide)
        x, y, line = plate.x + pad, plate.y + 0.5 * pad, theme.type.line("strong")
        paint.text(surface, theme, f"{self.number}", "strong", x, y)
        if self.done:
            self._ticks(surface, theme, plate.right - pad, y, line)
        if self.title:
            paint.lines(surface, theme, self.title, "small", x, y + line, "ink")
        self.draw_focus(surface, theme)

    def _ticks(self, surface: pygame.Surface, theme: Theme, right: float, y: float, high: float) -> None:
        """As many strokes as the goal asked for, counted as on a card, the fifth across."""
        count = min(self.scenario.goal.successes, TICKS)
        step, wide = 5.0 * theme.scale, 2.2 * theme.scale
        upright = min(count, 4)
        room = (upright + 1) * step
        with supersampled(surface, Rect(right - room - step, y, room + 2 * step, high)) as (pen, left, top):
            ink, foot, head = theme.palette.ink, y + 0.80 * high - top, y + 0.22 * high - top
            for k in range(upright):
                x = right - (upright - k) * step - left + 0.5 * step
                pen.line([(x, foot), (x + 0.25 * step, head)], wide, ink)
            if count == TICKS:
                a, b = right - room - left + 0.6 * step, right - left
                pen.line([(a, foot - 0.15 * high), (b, head + 0.15 * high)], wide, ink)


def place_stations(stations: Sequence[Station], land: Rect, theme: Theme) -> None:
    """Each on its stretch of the ground: the whole stretch can be pressed; titles only if all fit."""
    if not stations:
        return
    places = places_on(tuple(s.scenario.course() for s in stations), land)
    pad, small, strong = 0.75 * theme.gap, theme.type.line("small"), theme.type.line("strong")
    top = max(max(p.ball[1], p.hole[1]) for p in places) + 2.5 * theme.gap
    room = land.bottom - top - theme.gap
    wide = [p.right - p.left - theme.gap for p in places]
    titles = [
        theme.type.wrap(_short(s.label), "small", w - 2 * pad) for s, w in zip(stations, wide, strict=True)
    ]
    fits = all(
        len(t) <= LINES and strong + len(t) * small + pad <= room
        and max(theme.type.width(line, "small") for line in t) <= w - 2 * pad
        for t, w in zip(titles, wide, strict=True)
    )  # fmt: skip
    high = strong + (max(len(t) for t in titles) * small if fits else 0.0) + pad
    top = max(min(top, land.bottom - high - 0.5 * theme.gap), land.y)
    for station, place, title, w in zip(stations, places, titles, wide, strict=True):
        station.title = title if fits else ()
        station.plate = Rect(place.left + 0.5 * theme.gap, top, w, high)
        left = place.left + 0.25 * theme.gap
        station.place(Rect(left, land.y + 2, place.right - place.left - 0.5 * theme.gap, land.h - 4), theme)


def _short(title: str) -> str:
    """A title on its own ground, where the club goes without saying."""
    name = title.removeprefix(CLUB)
    return name[:1].upper() + name[1:]
