"""The golfer face-on, with handles: ball, grip, feet and face are moved where they are."""

from collections.abc import Callable
from functools import lru_cache
from math import atan2

import pygame

from game.draw.body import ADDRESS, Body
from game.draw.camera import Camera, Rect
from game.draw.palette import Palette
from game.draw.path import draw_ball
from game.draw.pen import Pen
from game.shot_view import strobe
from game.shot_view.figure import figure_room, ghost_club, moving_figure, posed
from game.shot_view.intended_swing import swing_path_of
from game.shot_view.reaction import manner_at, settled
from game.shot_view.stage import ring
from game.shot_view.stance import Intent, Stance
from game.text.quantity import decimal, with_unit
from game.ui import Theme, Widget, paint
from game.ui.supersample import Cached, sprite
from physics.address import CONTROLS, Motion, Setup
from physics.equipment import Club
from physics.results import Shot

__all__ = ["GolferPanel", "Handle"]

TALL, WIDE = 1.84, 0.65  # m over the ground and either side of the stance the view must hold
SPARE = 0.10  # m kept beyond the meant way of the club: blade, and what a stroke strays
RIM = 26.0  # px of a line of weight 1 that ball, marks and rings reach beyond the golfer's room
FOOT = 0.06  # m from the middle of a foot to the knob beside it
SWUNG, APART = 0.62, 0.11  # m either side of the ball where the strobe shows, and between two heads
OPENING = 0.30  # rad of face for 10 cm of drag
STEPS = {"ball_position": 0.005, "shaft_lean": 0.0174533, "stance_width": 0.01, "face_open": 0.0174533}
WORDS = {
    "ball_position": "ball", "shaft_lean": "handle", "stance_width": "feet", "face_open": "face",
}  # fmt: skip

Change = Callable[[str, float], None]
BACK, ON = (pygame.K_LEFT, pygame.K_DOWN), (pygame.K_RIGHT, pygame.K_UP)


class Handle(Widget):
    """A knob on one control: dragged, or moved by arrows (Shift finer, Page keys coarser)."""

    def __init__(self, name: str, on_change: Change, value: Callable[[], float], pull: Callable[
        [tuple[float, float]], float
    ]) -> None:  # fmt: skip
        control = CONTROLS[name]
        super().__init__(control.label.capitalize(), tooltip=control.plain)
        self.name, self.on_change, self.value, self.pull = name, on_change, value, pull
        self.numbers = True  # its plate says the value, too
        self.flip = False  # a mirrored golfer moves against the arrow keys' x

    @property
    def caption(self) -> str:
        control = CONTROLS[self.name]
        if not self.numbers:
            return WORDS[self.name]
        return f"{WORDS[self.name]} {with_unit(decimal(self.value() * control.scale, 1), control.unit)}"

    def set(self, value: float) -> None:
        """Take a value, held to the control's limits."""
        control = CONTROLS[self.name]
        self.on_change(self.name, min(max(value, control.low), control.high))

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEBUTTONDOWN:
            return True
        if event.type == pygame.MOUSEMOTION and event.buttons[0]:
            self.set(self.pull(event.pos))
            return True
        if event.type != pygame.KEYDOWN or event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        step = STEPS[self.name] * (0.2 if event.mod & pygame.KMOD_SHIFT else 1.0)
        side = -1 if self.flip and event.key in (pygame.K_LEFT, pygame.K_RIGHT) else 1
        if event.key in BACK or event.key in ON:
            self.set(self.value() + side * (step if event.key in ON else -step))
        elif event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            self.set(self.value() + (4 * step if event.key == pygame.K_PAGEUP else -4 * step))
        else:
            return False
        return True

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r = self.rect
        x, y, size = r.x + r.w / 2, r.y + r.h / 2, 0.36 * r.w
        ground = theme.hover if self.hovered else theme.palette.paper
        paint.disc(surface, x, y, size, ground, theme.accent, 2 * theme.line)
        if self.name == "face_open":
            for to in (-1, 1):
                points = [(x - 4, y + to * 2), (x, y + to * 6), (x + 4, y + to * 2)]
                pygame.draw.aalines(surface, theme.accent, False, points)
        else:
            for to in (-1, 1):
                paint.chevron(surface, x + to * 0.42 * size, y, 0.36 * size, to, theme.accent, theme.line)
        self.draw_focus(surface, theme, r.inset(0.1 * r.w))

    def draw_word(self, surface: pygame.Surface, theme: Theme, within: Rect) -> None:
        """What it moves, on a plate beside it, while it is pointed at or focused."""
        if not (self.hovered or self.focused):
            return
        text, line = self.caption, theme.type.line("small")
        w = theme.type.width(text, "small") + 8
        x = min(max(self.rect.x + self.rect.w / 2 - w / 2, within.x), within.right - w)
        y = max(self.rect.y - line - 4, within.y)
        paint.box(surface, Rect(x, y, w, line), theme.palette.paper, theme.edge, theme.radius)
        paint.text(surface, theme, text, "small", x + 4, y)


class GolferPanel(Widget):
    """Draws the golfer of an Intent at a stance. `on_change` hears (name of the control, SI value)."""

    focusable = False

    def __init__(self, on_change: Change) -> None:
        super().__init__("Golfer")
        self.on_change = on_change
        self.intent: Intent | None = None
        self.names: tuple[str, ...] = ()
        self.live = True  # handles show and can be moved
        self.mirrored = False
        self._share = 0.5  # of the width at which the middle of the stance stands
        self.strobe = False  # show hands and club at equal times through the strike
        self.still = False  # reduced motion: the finish, and no reaction to the shot
        self._sheet, self._flashes = Cached[pygame.Surface](), Cached[tuple[strobe.Flash, ...]]()
        self.camera = Camera(1.0, 0.0, 0.0)
        pulls = {
            "ball_position": self._pull_ball, "shaft_lean": self._pull_grip,
            "stance_width": self._pull_feet, "face_open": self._pull_face,
        }  # fmt: skip
        self._handles = {
            name: Handle(name, self._tell, lambda name=name: self._value(name), pull)  # type: ignore[misc]
            for name, pull in pulls.items()
        }

    def numbered(self, numbers: bool) -> None:
        """Knobs that say their values, or only what they move."""
        for handle in self._handles.values():
            handle.numbers = numbers

    @property
    def parts(self) -> tuple[Widget, ...]:
        return tuple(self._handles[n] for n in self._handles if n in self.names) if self.live else ()

    def _tell(self, name: str, value: float) -> None:
        if value != self._value(name):
            self.on_change(name, value)

    @property
    def _setup(self) -> Setup:
        return self.intent.setup if self.intent else Setup()

    def _value(self, name: str) -> float:
        return float(getattr(self._setup, name))

    # ---- from the pointer to a value

    def _pull_ball(self, at: tuple[float, float]) -> float:
        """The middle of the stance keeps its place on the screen."""
        side = -1.0 if self.mirrored else 1.0
        return side * (at[0] - self._middle) / self.camera.scale

    def _pull_grip(self, at: tuple[float, float]) -> float:
        assert self.intent
        foot = self.intent.address.edge
        x, _ = self.camera.world(*at)
        return atan2(x - foot[0], self.intent.address.hands[1] - foot[1])

    def _pull_feet(self, at: tuple[float, float]) -> float:
        x, _ = self.camera.world(*at)
        return 2.0 * (x - 2.0 * FOOT + self._setup.ball_position)

    def _pull_face(self, at: tuple[float, float]) -> float:
        _, y = self.camera.world(*at)
        return (y - 0.10) / 0.10 * OPENING

    # ---- placing and drawing

    @property
    def _middle(self) -> float:
        return self.rect.x + self._share * self.rect.w

    def show(self, intent: Intent, mirrored: bool, names: tuple[str, ...], live: bool, theme: Theme) -> None:
        """Stand like this; `names` are the controls that may be moved here."""
        self.intent, self.mirrored, self.names, self.live = intent, mirrored, names, live
        r, below = self.rect, 2.6 * theme.gap
        back, on, tall = _swing_room(intent.setup.club, intent.motion)
        scale = max(min((r.h - below) / tall, r.w / (back + on)), 10.0)
        spare = 0.5 * max(r.w / scale - back - on, 0.0)  # m on either side
        self._share = (spare + (on if mirrored else back)) * scale / max(r.w, 1.0)
        side = -1.0 if mirrored else 1.0
        x0 = self._middle + side * intent.setup.ball_position * scale
        self.camera = Camera(scale, x0, r.bottom - below, mirrored)
        for name, handle in self._handles.items():
            size = max(3.2 * theme.gap, 26.0)
            handle.flip = mirrored
            x, y = self.camera.at(*self._knob(name, intent, below))
            x = min(max(x, r.x + size / 2), r.right - size / 2)
            handle.rect = Rect(x - size / 2, min(y - size / 2, r.bottom - size), size, size)

    def _knob(self, name: str, intent: Intent, below: float) -> tuple[float, float]:
        """Where a knob stands (m)."""
        setup, drop = intent.setup, -0.55 * below / self.camera.scale
        if name == "ball_position":
            return 0.0, drop
        if name == "shaft_lean":
            return intent.address.hands
        if name == "stance_width":
            return -setup.ball_position + setup.stance_width / 2 + 2.0 * FOOT, 0.02
        return intent.address.edge[0] - 0.26, 0.10 + setup.face_open / OPENING * 0.10

    def draw(
        self, surface: pygame.Surface, theme: Theme, stance: Stance | None = None,
        old: Stance | None = None, other: Stance | None = None,
        *, shot: Shot | None = None, time: float = 0.0, lit: str = "",
    ) -> None:  # fmt: skip
        """Draw at a stance (the address when None), with the club of another setting behind it. With the
        shot and its time the club goes as it really went, and leaves its strobe; `lit` "hands" rings
        the hands."""
        intent, r = self.intent, self.rect
        if intent is None or r.w < 8 or r.h < 8:
            return
        unit = max(0.8, min(r.h / 320, 1.4))
        row: tuple[strobe.Flash, ...] = ()
        manner = ADDRESS
        if shot and stance:
            stance = strobe.as_struck(shot, intent.address, time)
            stance = settled(stance, intent.address, shot, time, not self.still)
            manner = manner_at(shot, stance.hub, time, not self.still)
            if self.strobe:
                row = self._flashes.get((shot,), lambda: strobe.flashes(shot, SWUNG, APART))
        past = tuple(f for f in row if f.time <= time)
        c = Camera(self.camera.scale, self.camera.x0 - r.x, self.camera.y0 - r.y, self.mirrored)

        def sheet() -> pygame.Surface:
            held = stance or intent.address
            body = posed(intent.setup, held, manner)
            bare = not (old or other or past)  # nothing but golfer and floor
            parts = self._drawn_on(c, figure_room(body, held), r, unit) if bare else ()
            with sprite(round(r.w), round(r.h), theme.palette.paper, parts) as (pen, out):
                self._figure(pen, c, theme.palette, intent, stance, body, old, other, past, unit)
                if lit == "hands":
                    ring(pen, c.at(*held.hands), 16 * unit, theme.palette, unit)
            return out

        key = (intent, stance, manner, old, other, past, lit, c, theme.palette, r.w, r.h)
        with paint.clipped(surface, r):
            surface.blit(self._sheet.get(key, sheet), (round(r.x), round(r.y)))
            for handle in self.parts:
                handle.draw(surface, theme)
            for handle in self.parts:
                assert isinstance(handle, Handle)
                handle.draw_word(surface, theme, r)

    @staticmethod
    def _drawn_on(c: Camera, room: Rect, r: Rect, unit: float) -> tuple[Rect, Rect]:
        """What a golfer who fills so much room (m) leaves paint on (px of the panel), and the floor."""
        (ax, top), (bx, foot) = c.at(room.x, room.bottom), c.at(room.right, room.y)
        spare = RIM * unit
        around = Rect(min(ax, bx) - spare, top - spare, abs(bx - ax) + 2 * spare, foot - top + 2 * spare)
        return around, Rect(0, c.y0 - spare, r.w, 2 * spare)

    @staticmethod
    def _figure(
        pen: Pen, c: Camera, palette: Palette, intent: Intent, stance: Stance | None, body: Body,
        old: Stance | None, other: Stance | None, past: tuple[strobe.Flash, ...], unit: float,
    ) -> None:  # fmt: skip
        """Floor, golfer, strobe, the clubs of other settings, the ball while it lies there."""
        floor, wide = c.y0, pen.surface.get_width() / pen.zoom
        pen.line([(0, floor), (wide, floor)], 2.0 * unit, palette.fairway)
        if old:
            ghost_club(pen, c, palette, old, unit)
        held = stance or intent.address
        moving_figure(
            pen, c, palette, body, held, unit,
            lambda: strobe.swung(pen, c, palette, past, unit),
        )  # fmt: skip
        if other:
            ghost_club(pen, c, palette, other, unit)
        if stance is None:
            draw_ball(pen, c, palette, 0.0, 0.0, unit)
        middle = c.at(-intent.setup.ball_position, 0)[0]
        pen.line([(middle, floor + 3), (middle, floor + 9)], 1.6, palette.muted)


@lru_cache(32)
def _swing_room(club: Club, motion: Motion) -> tuple[float, float, float]:
    """How far back, how far on and how high (m) a motion's swing reaches about the stance: a swing that goes
    further one way than the other leaves the golfer larger. Whatever is set at address moves it by less than
    what is spared, so a knob never moves the view it is dragged in."""
    way = swing_path_of(Setup(club=club), motion)
    middle = -Setup().ball_position
    places = (*way.hands, *way.heads)
    back, on = max(middle - x for x, _ in places), max(x - middle for x, _ in places)
    high = max(y for _, y in places)
    return max(WIDE, back + SPARE), max(WIDE, on + SPARE), max(TALL, high + SPARE)
