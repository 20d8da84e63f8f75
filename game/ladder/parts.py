"""What the ladder's pictures draw, and the row of strikes: one small turf window a ball."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import pygame

from game.draw import course as view
from game.draw import fan
from game.draw.camera import Rect
from game.ladder.model import Ladder, Played, asked
from game.shot_view.stance import intend
from game.shot_view.turf_window import TurfWindow
from game.ui import Theme, Widget, paint
from game.ui.supersample import Cached

__all__ = ["LadderRow", "Strikes", "step"]

NEAR, GROUND = 2.1, 0.72  # how much closer a small window looks, and where in it the ground lies


@dataclass(frozen=True)
class LadderRow:
    """What there is to draw. `clock` is the time (s) since each moving ball was struck."""

    ladder: Ladder
    chosen: int
    played: Mapping[int, Played]
    clock: Mapping[int, float]
    mirrored: bool = False
    still: bool = False  # loosened turf lies where it comes to rest

    @property
    def count(self) -> int:
        return len(self.ladder.rungs)

    def current(self, at: int) -> bool:
        """Whether that ball was played as it is now set."""
        return at in self.played and self.played[at].rung == self.ladder.rungs[at]


class Strikes(Widget):
    """One small turf window a ball: how it was struck, or before that the club as it is meant to come.

    A click chooses its ball. With the balls at the feet it is one stop of the Tab key.
    """

    def __init__(self, row: Callable[[], LadderRow], choose: Callable[[int], None]) -> None:
        super().__init__("Strikes", group="balls")
        self.row, self.choose = row, choose
        self._windows: list[TurfWindow] = []
        self._kept: list[Cached[pygame.Surface]] = []
        self.boxes: tuple[Rect, ...] = ()

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        if rect.h <= 0.0:
            self.boxes = ()
            return
        n, gap = self.row().count, 0.5 * theme.gap
        wide, foot = (rect.w - gap * (n - 1)) / n, theme.type.line("small")
        self.boxes = tuple(Rect(rect.x + i * (wide + gap), rect.y, wide, rect.h - foot) for i in range(n))
        while len(self._windows) < n:
            self._windows.append(TurfWindow())
            self._kept.append(Cached[pygame.Surface]())

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEBUTTONDOWN:
            for i, box in enumerate(self.boxes):
                if box.x <= event.pos[0] < box.right:
                    self.choose(i)
            return True
        return step(self.row(), event, self.choose)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        row = self.row()
        for i, box in enumerate(self.boxes):
            tone = fan.colour_of(theme.palette, i, row.count)
            surface.blit(self._picture(row, i, box, theme), (round(box.x), round(box.y)))
            chosen = i == row.chosen
            edge, thick = (tone, 3) if chosen else (theme.palette.rule, 1)
            paint.box(surface, box, None, edge, 0, thick * theme.line)
            text = f"{i + 1}"
            if row.current(i):
                k = row.played[i].shot.strike
                word = f"{i + 1} {k.contact.value if not k.solid else k.turf.value}"
                text = word if theme.type.width(word, "small") <= box.w else text
            paint.text(surface, theme, text, "small", box.x + box.w / 2, box.bottom, "ink", 0.5)
        self.draw_focus(surface, theme)

    def _picture(self, row: LadderRow, i: int, box: Rect, theme: Theme) -> pygame.Surface:
        size, rung = (round(box.w), round(box.h)), row.ladder.rungs[i]
        large = (round(NEAR * box.w), round(NEAR * box.w))
        shot = row.played[i].shot if row.current(i) else None

        def make() -> pygame.Surface:
            whole, time = pygame.Surface(large, 0, 32), 0.0
            if shot and shot.strike.sole.t:
                time = shot.strike.time if shot.launch else shot.strike.sole.t[-1]
            window, plain = self._windows[i], Theme(theme.palette, 1.0)
            window.spray, window.still = row.played[i].spray if shot else None, row.still
            window.draw(
                whole, Rect(0, 0, *large), plain, row.ladder.course, intend(*asked(row.ladder, rung)),
                shot=shot, time=time,
            )  # fmt: skip
            x, y = window.camera.at(0.0, view.ground_at(row.ladder.course, 0.0))
            out = pygame.Surface(size, 0, 32)
            wished = (size[0] / 2 - x, GROUND * size[1] - y)  # held where the whole fills the window
            corner = [
                round(min(max(at, w - big), 0.0)) for at, w, big in zip(wished, size, large, strict=True)
            ]
            out.blit(whole, corner)
            return out

        return self._kept[i].get((rung, shot, size, theme.palette, row.ladder.motion), make)


def step(
    row: LadderRow, event: pygame.event.Event, choose: Callable[[int], None], mirrored: bool = False
) -> bool:
    """Left and right go to the neighbour as it is seen, Home and End to the ends of the row."""
    if event.type != pygame.KEYDOWN or event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
        return False
    way = {pygame.K_LEFT: -1, pygame.K_RIGHT: 1}.get(event.key, 0) * (-1 if mirrored else 1)
    ends = {pygame.K_HOME: 0, pygame.K_END: row.count - 1}
    if not way and event.key not in ends:
        return False
    choose(ends.get(event.key, min(max(row.chosen + way, 0), row.count - 1)))
    return True
