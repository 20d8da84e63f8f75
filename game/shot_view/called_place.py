"""A place one calls on the course strip: unset until a key or a click on the course puts it there."""

from collections.abc import Callable

import pygame

from game.draw.camera import Rect
from game.draw.course import ground_at
from game.shot_view.stage import Stage
from game.shot_view.strip_marks import ROWS, plate, pole
from game.text.units import system_of
from game.ui import Theme, Widget, paint
from physics.course import Course

__all__ = ["CalledPlace"]

NAMES = {"landing": "lands", "stop": "stops"}
STEP, FINE, COARSE = 0.5, 0.1, 2.0  # m a key moves a mark: arrows, with Shift, PageUp and PageDown
NEAR = 14.0  # px of a pole that can be taken hold of
FARTHEST = 150.0  # m, the end of any course


class CalledPlace(Widget):
    """Arrows move it from the ball outward (Shift finer, Page keys coarser), Home to the ball, End to the
    hole, a click or drag on the course to where the pointer is. `x` is None until then."""

    def __init__(
        self, what: str, x: float | None, stage: Stage, course: Course, on_move: Callable[[float], None], *,
        far: float, numbers: bool = True, yards: bool = False,
    ) -> None:  # fmt: skip
        where = f"{NAMES[what]}{' first' if what == 'landing' else ''}"
        tooltip = f"Click on the course where the ball {where}, or use the arrows; End is the hole."
        super().__init__(f"The ball {NAMES[what]} here", tooltip=tooltip)
        self.what, self.x, self.stage, self.course = what, x, stage, course
        self.on_move, self.far, self.numbers, self.yards = on_move, far, numbers, yards
        self.others: tuple[CalledPlace, ...] = ()
        self.box = Rect(0, 0, 1, 1)  # of the strip
        self._pole = 0.0
        self._held: float | None = None  # px between pointer and pole

    @property
    def words(self) -> str:
        """What its plate says."""
        if self.x is None:
            return f"{NAMES[self.what]}: not set"
        return f"{NAMES[self.what]} {self._far}" if self.numbers else NAMES[self.what]

    @property
    def caption(self) -> str:
        if self.x is None:
            return f"{self.label}, not set"
        return f"{self.label}, {self._far}" if self.numbers else self.label

    @property
    def _far(self) -> str:
        return system_of(self.yards).far(self.x or 0.0)

    @property
    def _calls_the_strip(self) -> bool:
        """Whether a click anywhere on the course is for this one: first unset, a focused one before others;
        once all are set, it has the focus."""
        unset = [m for m in (self, *self.others) if m.x is None]
        if not unset:
            return self.focused
        return min(unset, key=lambda m: (not m.focused, ROWS[m.what])) is self

    def move(self, x: float) -> None:
        """To a place (m), held between the ball and what the strip shows."""
        most = min(self.stage.camera.world(self.box.w - 6, 0)[0], FARTHEST)
        held = round(min(max(x, 0.0), most), 2)
        if held != self.x:
            self.x = held
            self.on_move(held)

    def settle(self, box: Rect, theme: Theme) -> None:
        """Put plate and pole where the strip's camera sees the place."""
        self.box = box
        self._pole = box.x + self.stage.camera.at(self.x or 0.0, 0)[0]
        wide = theme.type.width(self.words, "small") + 2 * theme.gap
        self.rect = plate(theme, box, ROWS[self.what], wide, self._pole)

    def _own(self, at: tuple[float, float]) -> bool:
        on_pole = abs(at[0] - self._pole) <= NEAR and self.rect.y <= at[1] < self.box.bottom
        return super().hit(at) or (self.x is not None and on_pole)

    def hit(self, at: tuple[float, float]) -> bool:
        if self._own(at):
            return True
        inside = self.box.x <= at[0] < self.box.right and self.box.y <= at[1] < self.box.bottom
        return inside and self._calls_the_strip and not any(m._own(at) for m in self.others)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEBUTTONDOWN:
            self._held = self._pole - event.pos[0]
            if not self._own(event.pos):
                self._held = 0.0
                self.move(self._under(event.pos[0]))
            return True
        if event.type == pygame.MOUSEMOTION and self._held is not None:
            self.move(self._under(event.pos[0] + self._held))
            return True
        if event.type == pygame.MOUSEBUTTONUP:
            self._held = None
            return True
        return event.type == pygame.KEYDOWN and self._key(event)

    def _under(self, x: float) -> float:
        """Place (m) under that pixel column."""
        return self.stage.camera.world(x - self.box.x, 0)[0]

    def _key(self, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        step = FINE if event.mod & pygame.KMOD_SHIFT else STEP
        by = {
            pygame.K_RIGHT: step, pygame.K_UP: step, pygame.K_LEFT: -step, pygame.K_DOWN: -step,
            pygame.K_PAGEUP: COARSE, pygame.K_PAGEDOWN: -COARSE,
        }.get(event.key)  # fmt: skip
        to = {pygame.K_HOME: 0.0, pygame.K_END: self.far}.get(event.key)
        if by is None and to is None:
            return False
        self.move(to if by is None and to is not None else (self.x or 0.0) + (by or 0.0))
        return True

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        if self.x is not None:
            foot = self.stage.camera.at(self.x, ground_at(self.course, self.x))[1] + self.box.y
            pole(surface, theme, self._pole, self.rect.bottom, foot, self.what, hollow=True)
        over = self.hovered and self._held is None and self.x is None
        ground = theme.hover if over or self._held is not None else theme.palette.paper
        edge = theme.edge if self.x is None else theme.palette.ink
        paint.box(surface, self.rect, ground, edge, theme.radius, theme.line)
        y = self.rect.y + (self.rect.h - theme.type.line("small")) / 2
        paint.text(surface, theme, self.words, "small", self.rect.x + self.rect.w / 2, y, "ink", 0.5)
        self.draw_focus(surface, theme)
