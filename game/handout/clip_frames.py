"""The frames of a clip: one turf window, or two in step at the ball, slow at the strike; captions."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite

import numpy as np
import pygame

from game.draw.camera import Rect
from game.draw.palette import LIGHT
from game.shot_view.spray import Track, throw
from game.shot_view.stance import intend
from game.shot_view.turf_window import TurfWindow
from game.text.clip import ClipWords, Film, clip_words
from game.ui import Theme, layout, paint
from physics.results import Shot

__all__ = ["CLIP_SIZE", "FRAMES_A_SECOND", "ClipFrames", "ball_met"]

CLIP_SIZE = (1280, 720)
FRAMES_A_SECOND = 15
# seconds of the clip, and seconds from the meeting of club and ball that it shows then
SHOWN_AT = (0.0, 0.6, 1.4, 3.4, 4.9, 6.0, 7.0)
FROM_BALL = (-0.45, -0.10, -0.018, 0.0, 0.0, 0.012, 0.60)
HELD = 3  # which of them the ball is met at; it stands until the next
TOP, UNDER = 50.0, 150.0  # px over and under the windows
MARGIN, BETWEEN = 8.0, 6.0


def ball_met(shot: Shot) -> float:
    """When the ball is met (s of the shot); when the edge is deepest where it never is."""
    sole = shot.strike.sole
    if isfinite(shot.strike.time) or not sole.t:
        return shot.strike.time if isfinite(shot.strike.time) else 0.0
    return sole.t[int(np.argmin(sole.edge[1]))]


@dataclass(frozen=True)
class _Side:
    """One stroke on show."""

    shot: Shot
    track: Track
    met: float


class ClipFrames:
    """Draws the clip frame by frame on one surface of CLIP_SIZE; needs no display.

    `times[k]` is what frame k shows, in seconds from the meeting of club and ball, the same for all strokes.
    """

    def __init__(self, film: Film) -> None:
        self.words: ClipWords = clip_words(film)
        self._sides = [_Side(s.shot, throw(s.shot), ball_met(s.shot)) for s in film.sides]
        self._windows = [TurfWindow() for _ in self._sides]
        self._theme = Theme(LIGHT, 1.25)
        self._numbers = not film.junior
        self.surface = pygame.Surface(CLIP_SIZE, 0, 32)
        seconds = np.arange(round(SHOWN_AT[-1] * FRAMES_A_SECOND)) / FRAMES_A_SECOND
        self.seconds: tuple[float, ...] = tuple(seconds.tolist())
        self.times: tuple[float, ...] = tuple(np.interp(seconds, SHOWN_AT, FROM_BALL).tolist())

    @property
    def windows(self) -> tuple[Rect, ...]:
        """Where the windows are: together two thirds of the frame at least."""
        room = Rect(MARGIN, TOP, CLIP_SIZE[0] - 2 * MARGIN, CLIP_SIZE[1] - TOP - UNDER)
        return layout.split(room, [1.0] * len(self._sides), BETWEEN)

    def __len__(self) -> int:
        return len(self.times)

    def __iter__(self) -> Iterator[pygame.Surface]:
        """Every frame in turn, each drawn over the one before."""
        for k in range(len(self)):
            self.draw(k)
            yield self.surface

    @property
    def at_strike(self) -> tuple[int, ...]:
        """Frames in which every stroke is at its ball."""
        return tuple(k for k, time in enumerate(self.times) if time == 0.0)

    def draw(self, k: int) -> None:
        """Draw frame k."""
        surface, theme, second = self.surface, self._theme, self.seconds[k]
        surface.fill(theme.palette.paper)
        for side, window, box in zip(self._sides, self._windows, self.windows, strict=True):
            shot = side.shot
            window.spray = side.track
            window.draw(
                surface, box, theme, shot.course, intend(shot.setup, shot.motion), shot=shot,
                time=side.met + self.times[k], numbers=self._numbers,
            )  # fmt: skip
        self._captions(second)

    def _captions(self, second: float) -> None:
        theme, words = self._theme, self.words
        line, small = theme.type.line("body"), theme.type.line("small")
        for box, name, at_ball, did in zip(self.windows, words.names, words.at_ball, words.did, strict=True):
            paint.text(self.surface, theme, name, "lead", box.x + 4, TOP - theme.type.line("lead") - 4)
            told = "" if second < SHOWN_AT[HELD] else at_ball if second < SHOWN_AT[HELD + 1] else did
            lines = theme.type.wrap(told, "body", box.w - 8)[:2]
            paint.lines(self.surface, theme, lines, "body", box.x + 4, box.bottom + 4)
        low = CLIP_SIZE[1] - UNDER + 2 * line + 8
        said = words.title if second < SHOWN_AT[HELD] else words.cause
        said = words.focus if second >= SHOWN_AT[HELD + 2] else said
        paint.lines(
            self.surface, theme, theme.type.wrap(said, "strong", CLIP_SIZE[0] - 24)[:2], "strong", 12, low
        )
        paint.text(
            self.surface, theme, words.note, "small", 12, CLIP_SIZE[1] - small - 2, "muted"
        )  # fmt: skip
