"""A strip of ground for each lie, the kinds of shot as arcs over it, and what they cost in the earth below.

An arc spans its distances; its line is as thick as there are tries. Under the grass lies what the shot costs
to hole out, from one stroke at the left of its distances to four at their right, with its range.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import log2

import pygame

from game.draw.camera import Rect
from game.draw.course import lie_colour
from game.draw.palette import Colour, mix
from game.draw.pen import Pen
from game.text.notebook import EMPTY_MAP, field_title, lie_words, strength_words
from game.text.units import METRIC, UnitSystem
from game.ui import Theme, Widget, paint
from game.ui.supersample import Cached, dashed, sprite
from levels.families import FAMILIES
from levels.strengths import BANDS, Strength
from physics.surfaces import SURFACES

__all__ = ["StrengthGround"]

END = 30.0  # m shown of the ground; the last band goes on beyond
HEIGHTS = {"low": 0.30, "standard": 0.62, "high": 0.96}  # of the room over the ground
SKY, TURF, EARTH = 7.0, 0.9, 4.2  # steps of the rhythm
LARGEST = 1.8  # how much larger than usual the strips may be drawn to fill a large window, assumed
LEAST, MOST = 1.0, 4.0  # strokes at the ends of a band


@dataclass(frozen=True)
class _Spot:
    """Where a field lies in the map (px from its corner): ends of its arc and its crown."""

    left: float
    right: float
    ground: float
    crown: float

    @property
    def middle(self) -> float:
        return (self.left + self.right) / 2


class StrengthGround(Widget):
    """Arrows go from arc to arc, a click chooses the nearest; the wheel scrolls where lies are many."""

    def __init__(self, on_choose: Callable[[], None]) -> None:
        super().__init__("Strengths")
        self.on_choose = on_choose
        self.fields: tuple[Strength, ...] = ()
        self.chosen, self.offset = 0, 0.0
        self.units: UnitSystem = METRIC
        self.numbers = True
        self._spots: tuple[_Spot, ...] = ()
        self._theme, self._step = Theme(), 8.0
        self._kept = Cached[pygame.Surface]()

    @property
    def field(self) -> Strength | None:
        """The one in focus."""
        return self.fields[self.chosen] if self.fields else None

    @property
    def caption(self) -> str:
        one = self.field
        if one is None:
            return EMPTY_MAP
        return f"{field_title(one, self.units)}. {strength_words(one, self.units, self.numbers)}"

    @property
    def lies(self) -> tuple[str, ...]:
        """The strips from top to foot."""
        names = list(SURFACES)
        found = {one.place.lie for one in self.fields}
        return tuple(sorted(found, key=lambda lie: (names.index(lie) if lie in names else len(names), lie)))

    def fill(self, fields: tuple[Strength, ...], units: UnitSystem, numbers: bool) -> None:
        """Other fields; the one in focus stays if it is still there."""
        before = self.field.place if self.field else None
        places = [one.place for one in fields]
        self.fields, self.units, self.numbers = fields, units, numbers
        most = max(range(len(fields)), key=lambda i: fields[i].tries, default=0)
        self.chosen = places.index(before) if before in places else most

    # ---- places

    def _fit(self, theme: Theme) -> float:
        """Step (px) with which all lies fill the box, within bounds; one lie always fits whole."""
        small, usual = theme.type.line("small"), theme.gap / theme.scale**0.5
        each = self._land.h / max(len(self.lies), 1)
        whole, one = ((tall - small) / self._steps for tall in (each, self._land.h))
        return float(min(max(whole, min(usual, one), 2.0), LARGEST * usual))

    @property
    def _steps(self) -> float:
        return SKY + TURF + (EARTH if self.numbers else 0.0) + 1.5

    def _lane(self, theme: Theme) -> float:
        return self._steps * self._step + theme.type.line("small")

    @property
    def _whole(self) -> float:
        return self._lane(self._theme) * len(self.lies)

    @property
    def _land(self) -> Rect:
        """The box without the line of distances at its foot."""
        r = self.rect
        return Rect(r.x, r.y, r.w, max(r.h - self._theme.type.line("small"), 1.0))

    def _x(self, metres: float) -> float:
        wide = self.rect.w - 3.0 * self._theme.gap
        return self._theme.gap + wide * min(metres, END) / END

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self._theme = theme
        self._step = step = self._fit(theme)
        lane, lies = self._lane(theme), self.lies
        out = []
        for one in self.fields:
            low, high = one.place.band
            top = lies.index(one.place.lie) * lane + theme.type.line("small")
            ground = top + SKY * step
            out.append(
                _Spot(self._x(low), self._x(high), ground, ground - HEIGHTS[one.place.family] * SKY * step)
            )
        self._spots = tuple(out)
        self._into_sight()

    def _into_sight(self) -> None:
        if not self.fields:
            return
        lane = self._lane(self._theme)
        top = self.lies.index(self.fields[self.chosen].place.lie) * lane
        self.offset = min(max(self.offset, top + lane - self._land.h), top)
        self.offset = min(max(self.offset, 0.0), max(self._whole - self._land.h, 0.0))

    # ---- events

    def _choose(self, at: int) -> None:
        self.chosen = at
        self._into_sight()
        self.on_choose()

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEWHEEL:
            before = self.offset
            self.offset -= event.y * 6 * self._theme.gap
            self.offset = min(max(self.offset, 0.0), max(self._whole - self._land.h, 0.0))
            return self.offset != before
        if event.type == pygame.MOUSEBUTTONDOWN and self.fields:
            x, y = event.pos[0] - self.rect.x, event.pos[1] - self.rect.y + self.offset
            near = range(len(self.fields))
            self._choose(min(near, key=lambda i: _apart(self._spots[i], x, y)))
            return True
        ways = {
            pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, -1), pygame.K_DOWN: (0, 1),
        }  # fmt: skip
        if event.type != pygame.KEYDOWN or event.key not in ways or not self.fields:
            return False
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        self._go(*ways[event.key])
        return True

    def _go(self, dx: int, dy: int) -> None:
        """To the nearest arc that way: Left and Right stay on the strip, Up and Down at the distance."""
        here, own = self._spots[self.chosen], self.fields[self.chosen].place
        found: list[tuple[float, int]] = []
        for i, spot in enumerate(self._spots):
            x, y = spot.middle - here.middle, spot.crown - here.crown
            if dx and self.fields[i].place.lie == own.lie and x * dx > 1.0:
                found.append((abs(x) + 0.1 * abs(y), i))
            if dy and y * dy > 1.0:
                found.append((abs(y) + 4.0 * abs(x), i))
        if found:
            self._choose(min(found)[1])

    # ---- drawing

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r = self.rect
        if not self.fields:
            return
        at = paint.pixels(r)
        sheet = self._kept.get(
            (self.fields, self.chosen, theme, at.size, self.numbers, self.units), self._sheet
        )
        with paint.clipped(surface, self._land):
            surface.blit(sheet, (at.x, round(at.y - self.offset)))
        self._axis(surface, theme)
        self.draw_focus(surface, theme, r.inset(2 * theme.ring))

    def _sheet(self) -> pygame.Surface:
        theme = self._theme
        w, h = round(self.rect.w), round(max(self._whole, 1.0))
        with sprite(w, h, theme.palette.paper) as (pen, out):
            for lie in self.lies:
                self._ground(pen, theme, lie)
            for i, (one, spot) in enumerate(zip(self.fields, self._spots, strict=True)):
                self._arc(pen, theme, one, spot, i == self.chosen)
                if self.numbers:
                    self._cost(pen, theme, one, spot, i == self.chosen)
        self._names(out, theme)
        return out

    def _ground(self, pen: Pen, theme: Theme, lie: str) -> None:
        p, step = theme.palette, self._step
        ground = self.lies.index(lie) * self._lane(theme) + theme.type.line("small") + SKY * step
        left, right = 0.0, self.rect.w - 1.5 * theme.gap
        sky = mix(p.paper, p.sky_high, 0.30)
        air, turf = ground - SKY * step, ground + TURF * step
        pen.fill([(left, air), (right, air), (right, ground), (left, ground)], sky)
        cover = lie_colour(p, lie)
        pen.fill([(left, ground), (right, ground), (right, turf), (left, turf)], cover)
        if not self.numbers:
            return
        foot = turf + EARTH * step
        pen.fill([(left, turf), (right, turf), (right, foot), (left, foot)], p.deep)
        for low, high in BANDS:
            a, b = self._x(low), self._x(high)
            for strokes in (2.0, 3.0):
                x = a + (b - a) * (strokes - LEAST) / (MOST - LEAST)
                pen.line([(x, turf), (x, foot)], 0.8 * theme.line, mix(p.deep, p.ink, 0.22))
            if low:
                pen.line([(a, ground), (a, foot)], 1.4 * theme.line, mix(p.deep, p.ink, 0.55))

    def _arc(self, pen: Pen, theme: Theme, one: Strength, spot: _Spot, chosen: bool) -> None:
        tall, colour = spot.ground - spot.crown, _colour(theme, one)
        points = [
            (spot.left + (spot.right - spot.left) * s, spot.ground - 4.0 * tall * s * (1.0 - s))
            for s in (i / 32 for i in range(33))
        ]
        thick = (0.8 + 0.55 * log2(1 + one.tries)) * theme.scale**0.5
        if chosen:
            pen.line(points, thick + 5.0 * theme.line, mix(theme.palette.paper, theme.accent, 0.35))
        if one.advice == "too little":
            dashed(pen, points, thick, colour, 9.0 * theme.line)
        else:
            pen.line(points, thick, colour)
        x, y, r = spot.middle, spot.crown, 0.75 * theme.gap / theme.scale**0.5 + 0.3 * thick
        if one.advice == "seek":
            pen.fill([(x - r, y), (x, y - r), (x + r, y), (x, y + r)], colour)
        elif one.advice == "careful":
            pen.fill([(x - r, y + 0.8 * r), (x + r, y + 0.8 * r), (x, y - r)], colour)

    def _cost(self, pen: Pen, theme: Theme, one: Strength, spot: _Spot, chosen: bool) -> None:
        """Expected strokes and their range in the earth, high shots on top."""
        if one.strokes is None:
            return
        step, wide = self._step, spot.right - spot.left
        row = FAMILIES[::-1].index(one.place.family)
        y = spot.ground + (TURF + EARTH * (row + 0.5) / 3.0) * step

        def at(strokes: float) -> float:
            share = (strokes - LEAST) / (MOST - LEAST)
            return spot.left + wide * min(max(share, 0.02), 0.98)

        colour, s = _colour(theme, one), one.strokes
        colour = mix(theme.palette.deep, theme.palette.ink, 0.75) if one.advice == "too little" else colour
        pen.line([(at(s.low), y), (at(s.high), y)], (3.4 if chosen else 2.0) * theme.line, colour)
        pen.disc((at(s.value), y), (4.6 if chosen else 3.4) * theme.line, colour)

    def _names(self, out: pygame.Surface, theme: Theme) -> None:
        lane = self._lane(theme)
        for i, lie in enumerate(self.lies):
            name = lie_words(lie)
            paint.text(out, theme, name[:1].upper() + name[1:], "small", theme.gap, i * lane)

    def _axis(self, surface: pygame.Surface, theme: Theme) -> None:
        """The distances along the foot, whatever strip is in sight."""
        y = min(self._land.bottom, self.rect.y + self._whole)
        for metres in (0.0, *(high for _, high in BANDS[:-1]), END):
            words = self.units.far(metres).replace(".0 ", " ")
            align = 0.0 if metres == 0.0 else 1.0 if metres == END else 0.5
            text = f"{words} and on" if metres == END else words
            x = self.rect.x + self._x(metres) + (1.2 * theme.gap if metres == END else 0.0)
            paint.text(surface, theme, text, "small", x, y, "muted", align)


def _apart(spot: _Spot, x: float, y: float) -> float:
    """How far (px) a point lies from an arc, about."""
    share = (x - spot.left) / max(spot.right - spot.left, 1.0)
    inside = min(max(share, 0.0), 1.0)
    arc = spot.ground - 4.0 * (spot.ground - spot.crown) * inside * (1.0 - inside)
    return abs(y - arc) + abs(share - inside) * (spot.right - spot.left)


def _colour(theme: Theme, one: Strength) -> Colour:
    p = theme.palette
    if one.advice == "too little":
        return mix(p.paper, p.ink, 0.55)
    return {"seek": p.path, "careful": p.landing}.get(one.advice, mix(p.paper, p.ink, 0.85))
