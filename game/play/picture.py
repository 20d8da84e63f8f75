"""The pictures of one scenario: course with goal and gaps above, turf and golfer below."""

from collections.abc import Callable
from dataclasses import dataclass

import pygame

from game.draw.camera import Rect
from game.play.layout import PlayPlaces
from game.shot_view.golfer_panel import GolferPanel
from game.shot_view.spray import Track
from game.shot_view.stage import Scene, Stage
from game.shot_view.stance import Intent, stance_at
from game.shot_view.strip_marks import Bracket, draw_bracket, draw_goal
from game.shot_view.turf_window import TurfWindow
from game.ui import Theme, paint
from game.ui.supersample import Cached
from levels.scenario import Scenario

__all__ = ["Picture", "Seen"]

LEAST_ROWS = 4.2  # lines a strip must be high to hold the plates of the gaps


@dataclass(frozen=True)
class Seen:
    """What is to be seen now. `old` is the try before, `live` says whether the golfer can be moved."""

    scene: Scene
    intent: Intent
    old: Intent | None = None
    gaps: tuple[Bracket, ...] = ()
    live: bool = False
    numbers: bool = True
    left_handed: bool = False
    still: bool = False  # reduced motion: nothing flies, nobody reacts


class Picture:
    """Draws a Seen where the Places say. What stands still is drawn once."""

    def __init__(self, scenario: Scenario, on_set: Callable[[str, float], None]) -> None:
        self.scenario, self.course = scenario, scenario.course()
        self.stage, self.turf, self.golfer = Stage(), TurfWindow(), GolferPanel(on_set)
        self._still = Cached[pygame.Surface]()

    def numbered(self, numbers: bool) -> None:
        """Knobs with or without numbers."""
        self.golfer.numbered(numbers)

    def spray(self, track: Track) -> None:
        """The turf that the shot on show loosens."""
        self.turf.spray = self.stage.spray = track

    def draw(self, surface: pygame.Surface, theme: Theme, at: PlayPlaces, seen: Seen, moving: bool) -> None:
        """Everything but the card; `moving` while a shot runs."""
        self.stage.still = self.turf.still = self.golfer.still = seen.still
        self.stage.left_handed = seen.left_handed
        if moving:
            self._draw(surface, theme, at, seen)
            return
        knobs = tuple((w.hovered, w.focused) for w in self.golfer.parts)
        area = surface.get_clip()

        def make() -> pygame.Surface:
            self._draw(surface, theme, at, seen)
            return surface.subsurface(area).copy()

        surface.blit(self._still.get((seen, theme, at, tuple(area), knobs, self.turf.strobe), make), area)

    def _draw(self, surface: pygame.Surface, theme: Theme, at: PlayPlaces, seen: Seen) -> None:
        if at.strip.h > 0.0:
            self.stage.draw(surface, at.strip, theme, seen.scene)
            draw_goal(surface, theme, at.strip, self.stage, self.scenario, self.course)
            if at.strip.h >= LEAST_ROWS * theme.type.line("small"):
                for gap in seen.gaps:
                    draw_bracket(surface, theme, at.strip, self.stage, self.course, gap)
            line = Rect(at.strip.x, at.strip.bottom, at.strip.w, theme.line)
            paint.box(surface, line, theme.palette.rule)
        if at.opened:
            self._lower(surface, theme, at, seen)

    def _lower(self, surface: pygame.Surface, theme: Theme, at: PlayPlaces, seen: Seen) -> None:
        scene, old = seen.scene, seen.old
        self.turf.draw(
            surface, at.window, theme, self.course, seen.intent, shot=scene.shot, time=scene.time, old=old,
            lit=scene.lit, numbers=seen.numbers,
        )  # fmt: skip
        paint.box(surface, at.window, None, theme.palette.rule, 0.0, theme.line)
        if not at.paired:
            return
        self.golfer.show(seen.intent, seen.left_handed, self.scenario.open_controls, seen.live, theme)
        stance = stance_at(scene.shot, seen.intent.address, scene.time) if scene.shot else None
        self.golfer.draw(
            surface,
            theme,
            stance,
            old.address if old else None,
            shot=scene.shot,
            time=scene.time,
            lit=scene.lit,
        )
