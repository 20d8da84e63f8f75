"""The pictures of the Bench: course, turf and golfer of one set-up, or of two, at one time."""

from dataclasses import dataclass, replace

import pygame

from game.bench.compare import draw_key, draw_letter, seconds_apart
from game.bench.model import Setting, State
from game.draw.camera import Rect
from game.shot_view import GolferPanel, Intent, Stage, Stance, TurfWindow, intend, stance_at
from game.shot_view.intended_swing import IntendedSwing, swing_path_of
from game.shot_view.leans import LeanMark
from game.shot_view.spray import Track
from game.shot_view.stage import Scene
from game.text.mark import Mark
from game.text.units import UnitSystem
from game.ui import Theme, paint
from physics.results import Shot

__all__ = ["Look", "Pictures"]


@dataclass(frozen=True)
class Look:
    """What the pictures show now."""

    state: State
    live: bool  # a shot is shown at `time`; else the address
    time: float  # s on A's line
    stops: tuple[float, ...]  # m
    marks: tuple[Mark, ...]
    marks_b: tuple[Mark, ...]
    units: UnitSystem
    lit: str
    numbers: bool
    beside: bool  # A and B in pictures of their own
    strobe: bool
    names: tuple[str, ...]  # controls with knobs
    left_handed: bool
    still: bool = False  # nothing flies: reduced motion
    tracks: tuple[Track | None, Track | None] = (None, None)  # turf thrown by A and by B

    @property
    def shot(self) -> Shot | None:
        return self.state.shot if self.live else None

    @property
    def second(self) -> Shot | None:
        """B's shot while it plays along."""
        return self.state.second_shot if self.live and self.state.comparing else None

    @property
    def apart(self) -> float:
        return seconds_apart(self.shot, self.second)

    @property
    def older(self) -> Setting | None:
        """The setting to draw as a ghost at address: B, else the one before the change."""
        if self.live:
            return None
        return self.state.second or (self.state.settled if self.state.changed else None)


def _intent(setting: Setting) -> Intent:
    return intend(setting.setup, setting.motion)


class Pictures:
    """Keeps what stands still; A and B have a stage and a turf window each."""

    def __init__(self, golfer: GolferPanel) -> None:
        self.golfer, self.meant, self.leans = golfer, IntendedSwing(), LeanMark()
        self.stages, self.turfs = (Stage(), Stage()), (TurfWindow(), TurfWindow())

    def scene(self, look: Look) -> Scene:
        """What stands on A's stage."""
        s = look.state
        together = None if look.beside else look.second
        apart = look.apart if together else 0.0
        return Scene(
            s.course, s.now.setup, _intent(s.now).address, look.shot, look.time, self._ghost(look),
            look.stops, look.marks, look.lit, together, apart, look.units, look.numbers,
        )  # fmt: skip

    @staticmethod
    def _ghost(look: Look) -> Shot | None:
        """The shot before; while comparing B's, so that what is dashed is always B."""
        s = look.state
        if not s.comparing:
            return s.ghost if look.live else s.shot
        return s.second_shot or (s.shot if not look.live and s.settled == s.second else None)

    def scene_b(self, look: Look) -> Scene:
        """What stands on B's stage, at the same time from its ball; A's path is the dashed one here."""
        s = look.state
        assert s.second
        return replace(
            self.scene(look), setup=s.second.setup, address=_intent(s.second).address, shot=look.second,
            time=look.time + look.apart, ghost=s.shot, stops=(), marks=look.marks_b,
        )  # fmt: skip

    def draw_course(
        self, surface: pygame.Surface, theme: Theme, rect: Rect, look: Look, second: Rect | None
    ) -> None:  # fmt: skip
        """The course, or both of them."""
        for stage, track, shot in zip(self.stages, look.tracks, (look.shot, look.second), strict=True):
            stage.still, stage.left_handed = look.still, look.left_handed
            stage.spray = track if shot else None
        self.stages[0].draw(surface, rect, theme, self.scene(look))
        if second:
            self.stages[1].draw(surface, second, theme, self.scene_b(look))
            for letter, box in zip("AB", (rect, second), strict=True):
                draw_letter(surface, theme, box, letter)
        elif look.state.comparing:
            draw_key(surface, theme, rect)

    def draw_turf(
        self, surface: pygame.Surface, theme: Theme, rect: Rect, look: Look, second: Rect | None
    ) -> None:  # fmt: skip
        """The turf, or both cuts through it."""
        s, apart = look.state, look.apart
        ghost = None if look.beside else look.second
        older = look.older if not (look.beside and s.comparing) else s.settled if s.changed else None
        old = _intent(older) if older and not look.live else None
        self._turf(0, surface, theme, rect, look, s.now, look.shot, look.time, old, ghost, apart)
        if second and s.second:
            self._turf(
                1, surface, theme, second, look, s.second, look.second, look.time + apart, None, None, 0.0
            )
            for letter, box in zip("AB", (rect, second), strict=True):
                draw_letter(surface, theme, box, letter)
        elif s.comparing:
            draw_key(surface, theme, rect)

    def _turf(
        self, k: int, surface: pygame.Surface, theme: Theme, rect: Rect, look: Look, setting: Setting,
        shot: Shot | None, time: float, old: Intent | None, ghost: Shot | None, apart: float,
    ) -> None:  # fmt: skip
        turf = self.turfs[k]
        turf.strobe, turf.still, turf.spray = look.strobe, look.still, look.tracks[k] if shot else None
        turf.draw(
            surface, rect, theme, look.state.course, _intent(setting), shot=shot, time=time, old=old,
            ghost=ghost, apart=apart, lit=look.lit, numbers=look.numbers,
        )  # fmt: skip

    def draw_golfer(self, surface: pygame.Surface, theme: Theme, rect: Rect, look: Look) -> None:
        """The golfer; at address with the whole swing as it is meant."""
        s, golfer = look.state, self.golfer
        golfer.still = look.still
        golfer.show(_intent(s.now), look.left_handed, look.names, not look.live, theme)
        if look.shot is None:
            older = look.older
            old = _intent(older).address if older and older != s.second else None
            other = _intent(s.second).address if s.second else None
            golfer.draw(surface, theme, None, old, other)
            way = swing_path_of(older.setup, older.motion) if older else None
            with paint.clipped(surface, rect):
                now, intent = swing_path_of(s.now.setup, s.now.motion), _intent(s.now)
                self.meant.draw(surface, rect, theme, golfer.camera, now, way)
                knobs = [knob.rect for knob in golfer.parts]
                ways = (now, way) if way else (now,)
                self.leans.draw(surface, rect, theme, golfer.camera, intent, ways, look.numbers, knobs)
                for knob in golfer.parts:
                    knob.draw(surface, theme)
            if s.comparing:
                draw_key(surface, theme, rect)
            return
        stance = stance_at(look.shot, _intent(s.now).address, look.time)
        golfer.strobe = look.strobe
        golfer.draw(
            surface, theme, stance, None, self._stance_b(look), shot=look.shot, time=look.time, lit=look.lit
        )

    @staticmethod
    def _stance_b(look: Look) -> Stance | None:
        """B's golfer at the same time from its ball."""
        if look.second is None or look.state.second is None:
            return None
        return stance_at(look.second, _intent(look.state.second).address, look.time + look.apart)
