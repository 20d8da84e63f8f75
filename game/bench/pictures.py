"""The pictures of the Bench: course, turf and golfer of one set-up, or of two, at one time."""

from dataclasses import dataclass, replace

import pygame

from game.bench.compare import draw_key, draw_letter, seconds_apart
from game.bench.model import Setting, State
from game.draw.camera import Rect
from game.shot_view import GolferPanel, Intent, Stage, Stance, TurfWindow, intend, stance_at
from game.shot_view.dot_rows import DotRow
from game.shot_view.intended_swing import IntendedSwing, swing_path_of
from game.shot_view.leans import LeanMark
from game.shot_view.scars import NO_SCARS, Scars
from game.shot_view.spray import Track
from game.shot_view.stage import Scene, same_view
from game.shot_view.turf_ground import AskGround
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
    time: float  # s on the line of the shot, B's while comparing
    rows: tuple[DotRow, ...]  # strokes as dots; with two pictures those of B
    rows_a: tuple[DotRow, ...]
    marks: tuple[Mark, ...]
    marks_a: tuple[Mark, ...]
    units: UnitSystem
    lit: str
    numbers: bool
    beside: bool  # A and B in pictures of their own
    strobe: bool
    names: tuple[str, ...]  # controls with knobs
    left_handed: bool
    still: bool = False  # nothing flies: reduced motion
    tracks: tuple[Track | None, Track | None] = (None, None)  # turf thrown by the shot, and by A
    scars: tuple[Scars, ...] = (NO_SCARS, NO_SCARS)  # of earlier strokes of the set-up, and of A

    @property
    def shot(self) -> Shot | None:
        return self.state.shot if self.live else None

    @property
    def kept(self) -> Shot | None:
        """A's shot while it plays along."""
        return self.state.kept_shot if self.live and self.state.comparing else None

    @property
    def apart(self) -> float:
        return seconds_apart(self.shot, self.kept)

    @property
    def older(self) -> Setting | None:
        """The setting to draw as a ghost at address: A, else the one before the change."""
        if self.live:
            return None
        return self.state.kept or (self.state.settled if self.state.changed else None)


def _intent(setting: Setting) -> Intent:
    return intend(setting.setup, setting.motion)


class Pictures:
    """Keeps what stands still. The set-up being changed has the first stage and turf window, A the second."""

    def __init__(self, golfer: GolferPanel, ask: AskGround | None = None) -> None:
        """`ask` has ground drawn beside the frames."""
        self.golfer, self.meant, self.leans = golfer, IntendedSwing(), LeanMark()
        self.stages, self.turfs = (Stage(), Stage("A's ")), (TurfWindow(), TurfWindow("A's "))
        for one in (*self.stages, *self.turfs):
            one.ask = ask

    def scene(self, look: Look) -> Scene:
        """What stands on the stage of the set-up being changed: on B's while comparing."""
        s = look.state
        together = None if look.beside else look.kept
        apart = look.apart if together else 0.0
        return Scene(
            s.course, s.now.setup, _intent(s.now).address, look.shot, look.time, self._ghost(look),
            (), look.marks, look.lit, together, apart, look.units, look.numbers, look.rows,
        )  # fmt: skip

    @staticmethod
    def _ghost(look: Look) -> Shot | None:
        """The shot before; while comparing A's, so that what is dashed is always A, and none where each has a
        picture of its own."""
        s = look.state
        if not s.comparing:
            return s.ghost if look.live else s.shot
        return None if look.beside else s.kept_shot

    def scene_a(self, look: Look) -> Scene:
        """What stands on A's stage, at the same time from its ball."""
        s = look.state
        assert s.kept
        return replace(
            self.scene(look), setup=s.kept.setup, address=_intent(s.kept).address, shot=look.kept,
            time=look.time + look.apart, ghost=None, marks=look.marks_a, rows=look.rows_a,
        )  # fmt: skip

    def draw_course(
        self, surface: pygame.Surface, theme: Theme, rect: Rect, look: Look, second: Rect | None
    ) -> None:  # fmt: skip
        """The course; with a second rect A's in the first and B's in the second, at one scale."""
        both = zip(self.stages, look.tracks, (look.shot, look.kept), look.scars, strict=True)
        for stage, track, shot, scars in both:
            stage.left_handed = look.left_handed
            stage.still, stage.spray, stage.scars = look.still, track if shot else None, scars
        scene = self.scene(look)
        if second and look.state.kept:
            scenes = scene, self.scene_a(look)
            same_view(self.stages, scenes)
            for stage, box, shown in zip(self.stages, (second, rect), scenes, strict=True):
                stage.draw(surface, box, theme, shown)
            for letter, box in zip("AB", (rect, second), strict=True):
                draw_letter(surface, theme, box, letter)
            return
        self.stages[0].draw(surface, rect, theme, scene)
        if look.state.comparing:
            draw_key(surface, theme, rect)

    def draw_turf(
        self, surface: pygame.Surface, theme: Theme, rect: Rect, look: Look, second: Rect | None
    ) -> None:  # fmt: skip
        """The turf, or both cuts through it: A's in the first rect."""
        s, apart = look.state, look.apart
        if second and s.kept:
            self._turf(0, surface, theme, second, look, s.now, look.shot, look.time, None, None, 0.0)
            self._turf(1, surface, theme, rect, look, s.kept, look.kept, look.time + apart, None, None, 0.0)
            for letter, box in zip("AB", (rect, second), strict=True):
                draw_letter(surface, theme, box, letter)
            return
        old = _intent(look.older) if look.older and not look.live else None
        self._turf(0, surface, theme, rect, look, s.now, look.shot, look.time, old, look.kept, apart)
        if s.comparing:
            draw_key(surface, theme, rect)

    def _turf(
        self, k: int, surface: pygame.Surface, theme: Theme, rect: Rect, look: Look, setting: Setting,
        shot: Shot | None, time: float, old: Intent | None, ghost: Shot | None, apart: float,
    ) -> None:  # fmt: skip
        turf = self.turfs[k]
        turf.strobe, turf.still, turf.spray = look.strobe, look.still, look.tracks[k] if shot else None
        turf.scars, turf.mirrored = look.scars[k], look.left_handed
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
            old = _intent(older).address if older and older != s.kept else None
            other = _intent(s.kept).address if s.kept else None
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
            surface, theme, stance, None, self._stance_a(look), shot=look.shot, time=look.time, lit=look.lit
        )

    @staticmethod
    def _stance_a(look: Look) -> Stance | None:
        """A's golfer at the same time from its ball."""
        if look.kept is None or look.state.kept is None:
            return None
        return stance_at(look.kept, _intent(look.state.kept).address, look.time + look.apart)
