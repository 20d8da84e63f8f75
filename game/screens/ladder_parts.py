"""What the ladder shows: the fan of flights, the row of strikes, and the balls at the feet."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import ceil, sin

import numpy as np
import pygame

from game.ladder_model import Ladder, Played, Rung, asked
from game.scene.patch import ZOOM, Kept, patch, sprite
from game.scene.stance import intend
from game.scene.turf_window import TurfWindow
from game.ui import Theme, Widget, paint
from game.view import course as view
from game.view import fan
from game.view.camera import Camera, Rect
from game.view.pen import Pen
from game.view.type import rail
from physics.course import Course
from physics.equipment import BALL
from physics.results import Outcome, Run

__all__ = ["Fan", "Feet", "Row", "Strikes"]

BEHIND, BEYOND = 0.9, 1.2  # m shown behind the ball and past the hole
SHOE, TOES = 0.095, 0.030  # m, breadth of a shoe and how much of it shows
NEAR, GROUND = 2.4, 0.72  # how much closer a small window looks, and where in it the ground lies
APART = 0.038  # m between the two files the balls lie in, so that none hides another


@dataclass(frozen=True)
class Row:
    """What there is to draw. `clock` is the time (s) since each moving ball was struck."""

    ladder: Ladder
    chosen: int
    played: Mapping[int, Played]
    clock: Mapping[int, float]
    mirrored: bool = False

    @property
    def count(self) -> int:
        return len(self.ladder.rungs)

    def current(self, at: int) -> bool:
        """Whether that ball was played as it is now set."""
        return at in self.played and self.played[at].rung == self.ladder.rungs[at]


class Fan(Widget):
    """The course from the side with every ball's flight; the chosen one is strongest."""

    focusable = False

    def __init__(self, row: Callable[[], Row]) -> None:
        super().__init__("Flights")
        self.row = row
        self._still = Kept[pygame.Surface]()
        self._ways: dict[int, Kept[pygame.Surface]] = {}
        self._reach = (0.0, 0.0)

    def camera(self, row: Row, w: float, h: float, earth: float) -> Camera:
        """True scale; holds everything played so far, and never narrows on the same ground."""
        course = row.ladder.course
        hole = course.hole.x if course.hole else 6.0
        runs = [p.shot.run for p in row.played.values()]
        right = max([hole + BEYOND, *(max(r.x) + 0.4 for r in runs)])
        top = max([1.2, *(max(r.y) + 0.3 for r in runs)])
        right, top = max(ceil(right), self._reach[0]), max(ceil(2 * top) / 2, self._reach[1])
        self._reach = (right, top)
        inside = [y for x, y in zip(course.ground.x, course.ground.y, strict=True) if -BEHIND < x < right]
        low = min([0.0, *inside])
        scale = min(w / (right + BEHIND), max(h - earth - 6, 20) / (top - low))
        return Camera(scale, w / 2 - 0.5 * (right - BEHIND) * scale, h - earth + low * scale)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        row, at = self.row(), paint.pixels(self.rect)
        unit, palette, course = min(max(at.w / 1600, 0.8), 1.3), theme.palette, row.ladder.course
        line = theme.type.line("small")
        camera = self.camera(row, at.w, at.h, line + 20 * unit)
        key = (course, camera, palette, at.size, unit)

        def still() -> pygame.Surface:
            fine = view.layer(course, camera, palette, *at.size, unit, ZOOM)
            return pygame.transform.smoothscale(fine, at.size)

        with paint.clipped(surface, self.rect):
            surface.blit(self._still.get(key, still), at)
            order = [i for i in sorted(row.played) if i != row.chosen]
            for i in [*order, row.chosen] if row.chosen in row.played else order:
                self._way(surface, at, row, i, camera, theme, unit)
            self._labels(surface, at, row, camera, theme)

    def _way(
        self, surface: pygame.Surface, at: pygame.Rect, row: Row, i: int, camera: Camera, theme: Theme,
        unit: float,
    ) -> None:  # fmt: skip
        """The flight of one ball as far as it has come, and the ball."""
        run, palette = row.played[i].shot.run, theme.palette
        strong, old = i == row.chosen, not row.current(i)

        def way() -> pygame.Surface:
            with sprite(*at.size, fan.colour_of(palette, i, row.count)) as (pen, out):
                fan.flight(pen, camera, palette, run, i, row.count, unit, strong, old)
            return out

        key = (row.played[i].shot, camera, palette, at.size, unit, strong, old, row.count)
        sheet = self._ways.setdefault(i, Kept[pygame.Surface]()).get(key, way)
        time = run.t[0] + row.clock[i] if i in row.clock else run.t[-1]
        x, y = _place(run, time)
        gone = [px for t, px in zip(run.t, run.x, strict=True) if t <= time]
        edge = camera.at(max([*gone, x]), 0)[0] + (12 * unit if i not in row.clock else 0)
        surface.blit(sheet, at, pygame.Rect(0, 0, min(max(ceil(edge), 0), at.w), at.h))
        if i not in row.clock and run.outcome not in (Outcome.REST, Outcome.MISSED, Outcome.STUCK):
            return
        px, py = camera.at(x, y - BALL.radius)
        with patch(surface, Rect(at.x + px - 14, at.y + py - 24, 28, 30)) as (pen, left, top):
            moved = Camera(camera.scale, camera.x0 + at.x - left, camera.y0 + at.y - top)
            fan.stop(pen, moved, palette, x, y - BALL.radius, i, row.count, unit)

    def _labels(
        self, surface: pygame.Surface, at: pygame.Rect, row: Row, camera: Camera, theme: Theme
    ) -> None:  # fmt: skip
        """Numbers under the places where the balls ended; the chosen one first, so that it always fits."""
        type_, line = theme.type, theme.type.line("small")
        still = [i for i in row.played if i not in row.clock]
        still.sort(key=lambda i: i != row.chosen)
        items = tuple((f"{i + 1}", camera.at(row.played[i].shot.run.x[-1], 0)[0], "ink") for i in still)
        top = at.h - line - 1
        words = rail(type_, items, Rect(theme.gap, top, at.w - 2 * theme.gap, line), "small")
        for word in words:
            i = int(word.text) - 1
            x, end = camera.at(_end(row, i), view.ground_at(row.ladder.course, _end(row, i)))
            middle, tone = word.box.x + word.box.w / 2, fan.colour_of(theme.palette, i, row.count)
            pygame.draw.aaline(surface, tone, (at.x + x, at.y + end + 3), (at.x + middle, at.y + top))
            plate = Rect(at.x + word.box.x - 4, at.y + top, word.box.w + 8, line)
            paint.box(surface, plate, theme.palette.paper, tone, theme.radius, theme.line)
            paint.text(surface, theme, word.text, "small", at.x + word.box.x, at.y + top)
        if not row.played:
            text = "Play a ball and its flight is drawn here."
            paint.text(surface, theme, text, "small", at.x + at.w / 2, at.y + theme.gap, "ink", 0.5)


def _end(row: Row, i: int) -> float:
    return row.played[i].shot.run.x[-1]


def _place(run: Run, time: float) -> tuple[float, float]:
    return float(np.interp(time, run.t, run.x)), float(np.interp(time, run.t, run.y))


class Strikes(Widget):
    """One small turf window a ball: how it was struck, or before that the club as it is meant to come.

    A click chooses its ball. With the balls at the feet it is one stop of the Tab key.
    """

    def __init__(self, row: Callable[[], Row], choose: Callable[[int], None]) -> None:
        super().__init__("Strikes", group="balls")
        self.row, self.choose = row, choose
        self._windows: list[TurfWindow] = []
        self._kept: list[Kept[pygame.Surface]] = []
        self.boxes: tuple[Rect, ...] = ()

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        n, gap = self.row().count, 0.5 * theme.gap
        wide, foot = (rect.w - gap * (n - 1)) / n, theme.type.line("small")
        self.boxes = tuple(Rect(rect.x + i * (wide + gap), rect.y, wide, rect.h - foot) for i in range(n))
        while len(self._windows) < n:
            self._windows.append(TurfWindow())
            self._kept.append(Kept[pygame.Surface]())

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEBUTTONDOWN:
            for i, box in enumerate(self.boxes):
                if box.x <= event.pos[0] < box.right:
                    self.choose(i)
            return True
        return _step(self.row(), event, self.choose)

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
                word = f"{i + 1} {k.contact.value if not k.playable else k.turf.value}"
                text = word if theme.type.width(word, "small") <= box.w else text
            paint.text(surface, theme, text, "small", box.x + box.w / 2, box.bottom, "ink", 0.5)
        self.draw_focus(surface, theme)

    def _picture(self, row: Row, i: int, box: Rect, theme: Theme) -> pygame.Surface:
        size, rung = (round(box.w), round(box.h)), row.ladder.rungs[i]
        large = (round(NEAR * box.w), round(NEAR * box.w))
        shot = row.played[i].shot if row.current(i) else None

        def make() -> pygame.Surface:
            whole, time = pygame.Surface(large, 0, 32), 0.0
            if shot and shot.strike.sole.t:
                time = shot.strike.time if shot.launch else shot.strike.sole.t[-1]
            window, plain = self._windows[i], Theme(theme.palette, 1.0)
            window.draw(
                whole, Rect(0, 0, *large), plain, row.ladder.course, intend(*asked(row.ladder, rung)),
                shot=shot, time=time,
            )  # fmt: skip
            x, y = window.camera.at(0.0, view.ground_at(row.ladder.course, 0.0))
            out = pygame.Surface(size, 0, 32)
            out.blit(whole, (round(size[0] / 2 - x), round(GROUND * size[1] - y)))
            return out

        return self._kept[i].get((rung, shot, size, theme.palette, row.ladder.motion), make)


class Feet(Widget):
    """The balls from back to front of the stance, seen from above; the lines are the shafts as they lean.

    A click or the arrow keys choose a ball.
    """

    def __init__(self, row: Callable[[], Row], choose: Callable[[int], None]) -> None:
        super().__init__("Balls", tooltip="Choose a ball: arrows, a click, or its number.", group="balls")
        self.row, self.choose = row, choose
        self._kept = Kept[pygame.Surface]()
        self._theme = Theme()

    @property
    def caption(self) -> str:
        return f"Ball {self.row().chosen + 1}"

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self._theme = theme

    def handle(self, event: pygame.event.Event) -> bool:
        row = self.row()
        if event.type == pygame.MOUSEBUTTONDOWN:
            near = min(range(row.count), key=lambda i: _gap(self.spot(row, i), event.pos))
            if _gap(self.spot(row, near), event.pos) <= max(1.6 * self._radius(row), 24.0):
                self.choose(near)
            return True
        return _step(row, event, self.choose, row.mirrored)

    # ---- where things lie

    def _scale(self, row: Row) -> float:
        """px a metre."""
        half = max(row.ladder.setup.stance_width / 2 + SHOE / 2, abs(row.ladder.rungs[0].ball) + BALL.radius)
        deep = TOES + 0.012 + APART + 2 * BALL.radius + 0.008
        tall = self.rect.h - self._theme.type.line("small") - self._theme.gap
        return max(min(self.rect.w / (2 * half + 0.04), tall / deep), 1.0)

    def _radius(self, row: Row) -> float:
        return BALL.radius * self._scale(row)

    def spot(self, row: Row, i: int) -> tuple[float, float]:
        """Middle of ball i (px): two files, so that none hides another."""
        s, side = self._scale(row), -1.0 if row.mirrored else 1.0
        y = TOES + 0.012 + BALL.radius + (APART if i % 2 != row.ladder.middle % 2 else 0.0)
        return self.rect.x + self.rect.w / 2 + side * row.ladder.rungs[i].ball * s, self.rect.y + y * s

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        row, at = self.row(), paint.pixels(self.rect)
        key = (row.ladder, row.chosen, tuple(row.current(i) for i in range(row.count)), row.mirrored,
               theme, at.size)  # fmt: skip
        surface.blit(self._kept.get(key, lambda: self._picture(row, theme, at)), at)
        self.draw_focus(surface, theme, self.rect.inset(2 * theme.ring))

    def _picture(self, row: Row, theme: Theme, at: pygame.Rect) -> pygame.Surface:
        large = pygame.Surface((at.w * ZOOM, at.h * ZOOM), 0, 32)
        large.fill(view.top_colour(theme.palette, _lie(row.ladder.course)))
        pen = Pen(large, ZOOM)
        self._shoes(pen, row, theme, at)
        for i, rung in enumerate(row.ladder.rungs):
            self._shaft(pen, row, i, rung, theme, at)
        for i in range(row.count):
            self._ball(pen, row, i, theme, at)
        out = pygame.transform.smoothscale(large, at.size)
        for i in range(row.count):
            x, y = self.spot(row, i)
            role = "strong" if theme.type.line("strong") < 1.8 * self._radius(row) else "small"
            top = y - at.y - theme.type.line(role) / 2
            paint.text(out, Theme(scale=theme.scale), str(i + 1), role, x - at.x, top, "ink", 0.5)
        self._words(out, row, theme)
        return out

    def _shoes(self, pen: Pen, row: Row, theme: Theme, at: pygame.Rect) -> None:
        s, middle = self._scale(row), at.w / 2
        for side in (-1.0, 1.0):
            x, half = middle + side * row.ladder.setup.stance_width / 2 * s, SHOE / 2 * s
            turn = np.linspace(0.0, np.pi, 17)
            toes = [(x + half * float(np.cos(a)), (TOES - 0.02) * s + 0.02 * s * sin(a)) for a in turn]
            pen.fill([(x + half, -4), *toes, (x - half, -4)], theme.palette.shoe)

    def _shaft(self, pen: Pen, row: Row, i: int, rung: Rung, theme: Theme, at: pygame.Rect) -> None:
        """The shaft from the ball toward the hands, under its lean as seen face-on."""
        x, y = self.spot(row, i)
        x, y, side = x - at.x, y - at.y, -1.0 if row.mirrored else 1.0
        top = (x + side * (y + 4) * np.tan(rung.shaft_lean), -4.0)
        wide = (4.0 if i == row.chosen else 2.0) * theme.scale
        pen.line([(x, y), top], wide + 2.0, theme.palette.halo)
        pen.line([(x, y), top], wide, fan.colour_of(theme.palette, i, row.count))

    def _ball(self, pen: Pen, row: Row, i: int, theme: Theme, at: pygame.Rect) -> None:
        """White ball, rim of its colour; a second rim when it is chosen, its mark once it was played."""
        x, y = self.spot(row, i)
        point, r = (x - at.x, y - at.y), self._radius(row)
        tone = fan.colour_of(theme.palette, i, row.count)
        if i == row.chosen:
            pen.disc(point, r, theme.palette.ink)
            pen.disc(point, r * 0.94, theme.palette.paper)
        pen.disc(point, r * 0.88, tone)
        pen.disc(point, r * 0.76, theme.palette.ball)
        if row.current(i):
            fan.shape(pen, theme.palette, i, row.count, (point[0], point[1] + 0.6 * r), 0.16 * r)

    def _words(self, out: pygame.Surface, row: Row, theme: Theme) -> None:
        """Which end is which, on paper at the foot."""
        line, w = theme.type.line("small"), out.get_width()
        foot = Rect(0, out.get_height() - line, w, line)
        paint.box(out, foot, theme.palette.paper)
        ends = ("back", "to the target \N{RIGHTWARDS ARROW}")
        if row.mirrored:
            ends = ("\N{LEFTWARDS ARROW} to the target", "back")
        for text, x, align in ((ends[0], theme.gap, 0.0), (ends[1], w - theme.gap, 1.0)):
            paint.text(out, theme, text, "small", x, foot.y, "muted", align)


def _step(row: Row, event: pygame.event.Event, choose: Callable[[int], None], mirrored: bool = False) -> bool:
    """Left and right go to the neighbour as it is seen, Home and End to the ends of the row."""
    if event.type != pygame.KEYDOWN or event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
        return False
    way = {pygame.K_LEFT: -1, pygame.K_RIGHT: 1}.get(event.key, 0) * (-1 if mirrored else 1)
    ends = {pygame.K_HOME: 0, pygame.K_END: row.count - 1}
    if not way and event.key not in ends:
        return False
    choose(ends.get(event.key, min(max(row.chosen + way, 0), row.count - 1)))
    return True


def _gap(a: tuple[float, float], b: tuple[float, float]) -> float:
    return float(np.hypot(a[0] - b[0], a[1] - b[1]))


def _lie(course: Course) -> str:
    return course.lie.surface or view.surface_at(course, 0.0)
