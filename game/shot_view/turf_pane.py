"""The turf window filling its screen: what opens and closes it, and what looks closer."""

from collections.abc import Callable, Sequence
from functools import partial

import pygame

from game.draw.camera import Rect
from game.shot_view.turf_frame import WHOLE, Closer
from game.shot_view.turf_window import TurfWindow
from game.text.quantity import MINUS
from game.ui import Button, Row, Theme, Widget
from game.ui.screen import Keys

__all__ = ["FILL_KEYS", "FillTurf", "TurfPane"]

FILL_KEYS: Keys = (
    ("Z", "the turf fills the screen; again, or Esc: back"),
    ("+ and -, wheel", "look closer at the turf, or less close; 0: the whole head again"),
    ("Shift+arrows, drag", "move what is looked at, while the turf fills the screen"),
)
CLOSER = (pygame.K_PLUS, pygame.K_EQUALS, pygame.K_KP_PLUS)
FURTHER = (pygame.K_MINUS, pygame.K_KP_MINUS)
WHOLE_KEYS = (pygame.K_0, pygame.K_KP_0)
MOVES = {
    pygame.K_LEFT: (-1.0, 0.0), pygame.K_RIGHT: (1.0, 0.0),
    pygame.K_UP: (0.0, 1.0), pygame.K_DOWN: (0.0, -1.0),
}  # fmt: skip
STRIDE = 60.0  # px one arrow moves, assumed
OTHER = pygame.KMOD_CTRL | pygame.KMOD_ALT | pygame.KMOD_META


class TurfPane(Widget):
    """The ground a pointer works on: the wheel looks closer at its place, a drag moves. `windows` share one
    look, so that two set-ups stay at the same scale."""

    def __init__(self, windows: Sequence[TurfWindow]) -> None:
        super().__init__("Turf", tooltip="Wheel, + and -: closer. Drag or Shift+arrows: move. 0: all of it.")
        self.windows = windows
        self._held: tuple[float, float] | None = None
        self._pointer = (0.0, 0.0)

    @property
    def closer(self) -> Closer:
        return self.windows[0].closer

    @property
    def ahead(self) -> float:
        """+1 where the target is on the right, -1 for a left-hander."""
        return -1.0 if self.windows[0].mirrored else 1.0

    def look(self, closer: Closer) -> None:
        """All windows look so."""
        for window in self.windows:
            window.closer = closer

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEWHEEL:
            self.look(self.closer.by(event.y, self._from_middle(pygame.mouse.get_pos())))
        elif event.type == pygame.MOUSEBUTTONDOWN:
            self._held = event.pos
        elif event.type == pygame.MOUSEMOTION and self._held:
            scale = self.windows[0].camera.scale
            dx, dy = event.pos[0] - self._held[0], event.pos[1] - self._held[1]
            self._held = event.pos
            self.look(self.closer.moved(-self.ahead * dx / scale, dy / scale))
        elif event.type == pygame.MOUSEBUTTONUP:
            self._held = None
        else:
            return False
        return True

    def _from_middle(self, at: tuple[float, float]) -> tuple[float, float]:
        """A pixel's place (m) from the middle of the picture."""
        r, scale = self.rect, max(self.windows[0].camera.scale, 1.0)
        return self.ahead * (at[0] - r.x - 0.5 * r.w) / scale, (r.y + 0.5 * r.h - at[1]) / scale

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        self.draw_focus(surface, theme, self.rect.inset(3 * theme.ring))


class FillTurf:
    """Whether the turf fills the screen, its pane and its buttons. `changed` hears when it opens or closes,
    so that the screen lays itself out and moves the focus; `more` stands before the buttons."""

    def __init__(
        self, windows: Sequence[TurfWindow], changed: Callable[[], None], *more: Widget
    ) -> None:  # fmt: skip
        self.on, self.windows, self._changed = False, windows, changed
        self.pane = TurfPane(windows)
        act = partial(Button, group="turf")
        self.opener = Button("Large turf", self.toggle, hint="Z", group="acts",
                             tooltip="The turf fills the screen, with its angles.")  # fmt: skip
        self.row = Row([
            *more,
            act("Back", self.toggle, hint="Z", tooltip="The turf as large as it was."),
            act("+", partial(self.step, 1), tooltip="Look closer: wheel, or +."),
            act(MINUS, partial(self.step, -1), tooltip="Look less close: wheel, or -."),
            act("Whole", self.whole, hint="0", tooltip="All of head, ball and divot."),
        ])  # fmt: skip

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self.pane, self.row)

    def toggle(self) -> None:
        """Open or close; either way the whole head is seen first."""
        self.on = not self.on
        self.whole()
        for window in self.windows:
            window.large = self.on
        self._changed()

    def step(self, by: float) -> None:
        """Closer (+) or less close (-)."""
        self.pane.look(self.pane.closer.by(by))

    def whole(self) -> None:
        """All of head, ball and divot."""
        self.pane.look(WHOLE)

    def handle(self, event: pygame.event.Event) -> bool:
        """A key of the turf window; True when it was used up."""
        if event.type != pygame.KEYDOWN or event.mod & OTHER:
            return False
        shift = bool(event.mod & pygame.KMOD_SHIFT)
        if (event.key == pygame.K_z and not shift) or (self.on and event.key == pygame.K_ESCAPE):
            self.toggle()
        elif event.key in CLOSER or event.unicode == "+":
            self.step(1)
        elif event.key in FURTHER:
            self.step(-1)
        elif event.key in WHOLE_KEYS:
            self.whole()
        elif self.on and shift and event.key in MOVES:
            (dx, dy), scale = MOVES[event.key], self.windows[0].camera.scale
            self.pane.look(self.pane.closer.moved(self.pane.ahead * dx * STRIDE / scale, dy * STRIDE / scale))
        else:
            return False
        return True

    def places(self, box: Rect, theme: Theme, ribbon: float, pair: bool) -> tuple[Rect, Rect | None, Rect]:
        """Boxes of the turf, of B's beside it and of the ribbon; the row is placed at the foot."""
        gap = theme.gap
        wide = box.w - 2 * gap
        tall = self.row.height(theme, wide)
        self.row.place(Rect(box.x + gap, box.bottom - tall, wide, tall), theme)
        line = Rect(box.x + gap, box.bottom - tall - ribbon - gap / 2, wide, ribbon)
        whole = Rect(box.x, box.y, box.w, line.y - gap / 2 - box.y)
        self.pane.place(whole, theme)
        if not pair:
            return whole, None, line
        half = (whole.w - gap) / 2
        first = Rect(whole.x, whole.y, half, whole.h)
        return first, Rect(first.right + gap, whole.y, half, whole.h), line
