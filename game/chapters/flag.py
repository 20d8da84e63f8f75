"""A flag on the path of the chapter page: one scenario, done or open, with its title where there is room."""

from collections.abc import Callable, Sequence
from itertools import pairwise

import pygame

from game.chapters.landscape import draw_flag, flag_places
from game.draw.camera import Rect
from game.ui import Theme, Widget, paint
from game.ui.button import PRESS
from levels.scenario import Scenario

__all__ = ["CLUB", "Flag", "place_flags"]

TALL = 9.0  # steps of the rhythm a flag stands high
SHARE = 0.14  # share of the picture's height a flag stands at least, where there is room
LINES = 3  # lines of a title under its flag; longer ones stand in the card alone
CLUB = "Harrow Fen: "  # every title of the library begins with it; on the fen it goes without saying


class Flag(Widget):
    """One scenario on the path. Enter, Space or a click opens it; arrows go along the path."""

    def __init__(self, key: str, scenario: Scenario, on_open: Callable[[], None]) -> None:
        words = f"{scenario.title}: Enter opens it, the arrows walk along the path."
        super().__init__(scenario.title, tooltip=words, group="path")
        self.key, self.scenario, self.on_open = key, scenario, on_open
        self.done, self.chosen = False, False
        self.foot, self.tall = (0.0, 0.0), 1.0
        self.title: tuple[str, ...] = ()
        self.land = Rect(0.0, 0.0, 1.0, 1.0)  # the picture its title stays inside

    @property
    def caption(self) -> str:
        return f"{self.label}, {'done' if self.done else 'open'}"

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.KEYDOWN and event.key in PRESS:
            self.on_open()
            return True
        if event.type == pygame.MOUSEBUTTONUP and self.hit(event.pos):
            self.on_open()
            return True
        return event.type == pygame.MOUSEBUTTONDOWN

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        tall = self.tall
        draw_flag(surface, theme, self.foot, tall, self.done, self.chosen or self.hovered)
        if self.title:
            self._draw_title(surface, theme)
        self.draw_focus(surface, theme)

    def _draw_title(self, surface: pygame.Surface, theme: Theme) -> None:
        line, pad = theme.type.line("small"), 0.6 * theme.gap
        wide = max(theme.type.width(t, "small") for t in self.title) + 2 * pad
        y = self.foot[1] + 0.2 * self.tall + 0.5 * theme.gap
        edge_room = wide / 2 + 2.0
        x = min(max(self.foot[0], self.land.x + edge_room), self.land.right - edge_room)
        chip = Rect(x - wide / 2, y, wide, len(self.title) * line + pad)
        edge = theme.accent if self.chosen else theme.palette.rule
        paint.box(surface, chip, theme.palette.paper, edge, theme.radius, theme.line)
        paint.lines(surface, theme, self.title, "small", x, y + pad / 2, "ink", 0.5)


def place_flags(flags: Sequence[Flag], land: Rect, theme: Theme) -> None:
    """Stand the flags along the path, all as tall as the highest place allows; titles only if all fit."""
    if not flags:
        return
    feet = flag_places(land, len(flags))
    most = (min(y for _, y in feet) - land.y) / 1.15  # the highest flag stays inside the picture
    tall = max(min(max(TALL * theme.gap, SHARE * land.h), most), 24.0)
    slot = land.w / len(flags) - theme.gap
    apart = min((b[0] - a[0] for a, b in pairwise(feet)), default=land.w)
    titles = [theme.type.wrap(f.label.removeprefix(CLUB), "small", slot) for f in flags]
    room = land.bottom - max(y for _, y in feet) - 0.2 * tall - 1.5 * theme.gap
    fits = all(
        len(t) <= LINES and len(t) * theme.type.line("small") <= room
        and max(theme.type.width(line, "small") for line in t) <= slot
        for t in titles
    )  # fmt: skip
    for flag, foot, title in zip(flags, feet, titles, strict=True):
        flag.foot, flag.tall, flag.title, flag.land = foot, tall, title if fits else (), land
        wide = min(1.1 * tall, apart - 2.0)
        flag.place(Rect(foot[0] - 0.4 * wide, foot[1] - 1.12 * tall, wide, 1.2 * tall), theme)
