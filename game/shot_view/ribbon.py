"""The time ribbon: owns the playhead; plays, scrubs, and jumps from moment to moment."""

import pygame

from game.draw.camera import Rect
from game.shot_view.timeline import Timeline, timeline
from game.ui import Theme, Widget, paint
from game.ui.supersample import rail_of
from physics.results import Shot

__all__ = ["TimeRibbon"]

QUARTER, HUNDREDTH = 0.25, 0.01


class TimeRibbon(Widget):
    """Space plays and pauses, arrows scrub, Page keys and `jump` go to the next moment.

    `speed` None shows a new shot slowly through swing and strike; else it is the share of real time.
    """

    def __init__(self) -> None:
        super().__init__(
            "Time", tooltip="Arrows move through the shot, Page keys go from moment to moment, Space plays."
        )
        self.line: Timeline | None = None
        self.time, self.before = 0.0, 0.0
        self.playing, self.speed = False, 1.0
        self.first = False  # the first showing of this shot: slow where it is quick
        self._track = self.rect

    # ---- the playhead

    def load(self, shot: Shot, *, slow: bool, at_end: bool) -> None:
        """Take a new shot: from its start, playing, or at once at its end."""
        self.line = timeline(shot)
        self.first, self.playing = slow, not at_end
        self.time = self.before = self.line.end if at_end else self.line.start

    def clear(self) -> None:
        """No shot: the golfer stands at address."""
        self.line, self.playing, self.time, self.before = None, False, 0.0, 0.0

    @property
    def at_end(self) -> bool:
        return self.line is not None and self.time >= self.line.end

    def update(self, dt: float) -> tuple[float, float]:
        """Let time pass; the playhead before and now (s)."""
        self.before = self.time
        if self.line and self.playing:
            if self.first:
                self.time = self.line.advance(self.time, dt)
            else:
                self.time = min(self.time + self.speed * dt, self.line.end)
            if self.at_end:
                self.playing = self.first = False
        return self.before, self.time

    def toggle(self) -> None:
        """Play or pause; from the end, from the start."""
        if self.line is None:
            return
        if self.at_end:
            self.time = self.before = self.line.start
        self.playing = not self.playing

    def pace(self, speed: float) -> None:
        """Play at that share of real time from now on; the same again goes back to real time."""
        self.first = False
        self.speed = 1.0 if self.speed == speed else speed

    def seek(self, time: float) -> None:
        """Stop at a time, held to the line."""
        if self.line:
            self.playing, self.first = False, False
            self.time = self.before = min(max(time, self.line.start), self.line.end)

    def jump(self, by: int) -> str:
        """To the next or previous moment; its name."""
        if self.line is None:
            return ""
        moment = self.line.next(self.time, by)
        self.seek(moment.time)
        return moment.name

    def step(self, by: float) -> None:
        """By a share of the line."""
        if self.line:
            self.seek(self.line.time(self.line.share(self.time) + by))

    @property
    def pace_words(self) -> str:
        """The speed in words."""
        if self.first:
            return "slow"
        return {QUARTER: "a quarter", HUNDREDTH: "a hundredth"}.get(self.speed, "")

    # ---- the widget

    @property
    def caption(self) -> str:
        return f"Time, {self.time:.2f} s"

    def height(self, theme: Theme, width: float) -> float:
        return max(3 * theme.gap, 24.0) + theme.type.line("small")

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        self._track = Rect(rect.x + theme.gap, rect.y, rect.w - 2 * theme.gap, max(3 * theme.gap, 24.0))

    def handle(self, event: pygame.event.Event) -> bool:
        if self.line is None:
            return False
        dragged = event.type == pygame.MOUSEMOTION and event.buttons[0]
        if event.type == pygame.MOUSEBUTTONDOWN or dragged:
            self.seek(self.line.time((event.pos[0] - self._track.x) / max(self._track.w, 1.0)))
            return True
        if event.type != pygame.KEYDOWN or event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        by = 0.002 if event.mod & pygame.KMOD_SHIFT else 0.01
        if event.key in (pygame.K_LEFT, pygame.K_RIGHT):
            self.step(by if event.key == pygame.K_RIGHT else -by)
        elif event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            self.jump(1 if event.key == pygame.K_PAGEDOWN else -1)
        elif event.key in (pygame.K_HOME, pygame.K_END):
            self.seek(self.line.start if event.key == pygame.K_HOME else self.line.end)
        elif event.key == pygame.K_SPACE:
            self.toggle()
        else:
            return False
        return True

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        t, thick = self._track, 0.75 * theme.gap
        mid = t.y + t.h / 2
        paint.box(surface, Rect(t.x, mid - thick / 2, t.w, thick), theme.hover, theme.edge, thick / 2)
        if self.line is None:
            text = "Play a shot, then move through it here."
            paint.text(surface, theme, text, "small", t.x, t.bottom, "muted")
            self.draw_focus(surface, theme)
            return
        names = []
        bounds = [*self.line.shares[1:-1]]
        for share in bounds:
            x = t.x + share * t.w
            paint.box(surface, Rect(x, mid - thick / 2, theme.line, thick), theme.edge)
        for moment in self.line.moments:
            x = t.x + self.line.share(moment.time) * t.w
            names.append((moment.name, x, "muted"))
            tall = 1.1 * theme.gap
            paint.box(surface, Rect(x - theme.line, mid - tall, 2 * theme.line, 2 * tall), theme.edge)
        x = t.x + self.line.share(self.time) * t.w
        paint.box(surface, Rect(t.x, mid - thick / 2, x - t.x, thick), theme.accent, None, thick / 2)
        paint.disc(surface, x, mid, theme.gap, theme.palette.paper, theme.accent, 2.5 * theme.line)
        strip = Rect(t.x, t.bottom, t.w, theme.type.line("small"))
        order = sorted(names, key=lambda n: n[0] not in ("ball", "landing", "rest"))
        for word in rail_of(theme.type, tuple(order), strip, "small"):
            paint.text(surface, theme, word.text, "small", word.box.x, word.box.y, word.tone)
        self.draw_focus(surface, theme)
