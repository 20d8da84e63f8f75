"""The turf window, alive: ground before and after are drawn once, the head goes through every frame."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from typing import Any

import numpy as np
import pygame

from game.draw import clubhead, turf
from game.draw.camera import Camera, Rect
from game.draw.course import surface_at
from game.draw.palette import Palette
from game.draw.pen import Pen
from game.draw.slope import Tilted, on_slope
from game.shot_view import strobe
from game.shot_view import turf_marks as marks
from game.shot_view.back_row import back_row_theme, back_row_unit
from game.shot_view.head_angles import HeadAngles, angle_asks, angles_at, angles_meant, draw_angles
from game.shot_view.scars import NO_SCARS, Scars
from game.shot_view.spots import Named, name_points
from game.shot_view.spray import Track
from game.shot_view.spray_look import Spray
from game.shot_view.stage import ball_at, ring
from game.shot_view.stance import Intent, head_at, table
from game.shot_view.turf_frame import WHOLE, frame_turf
from game.shot_view.turf_ground import AskGround, DrawnGround, Sharpened
from game.shot_view.turf_passed import PassedHeads
from game.shot_view.turf_words import Said, beside, draw_words, said
from game.ui import Theme, paint
from game.ui.supersample import ZOOM, Cached, supersampled
from physics.address import Setup
from physics.course import Course
from physics.equipment import BALL
from physics.results import Shot
from physics.surfaces import SURFACES

__all__ = ["PLACES", "TurfWindow", "lie_height"]

PLACES = ("sole", "edge", "turf", "ball", "face", "hands")  # places of phrases that this window lights
FINEST = 2.6  # px a unit at most, in the turf of a window 4000 px wide
ROWS = 1.6  # lines kept at the foot for labels
BEHIND, BEFORE, BELOW = 0.09, 0.10, 0.06  # m about an edge that a head is drawn in
MARK = 0.01  # m about the low point
ARROWS = [(-0.024, -0.012), (0.004, -0.012)]  # m of the head, under its sole: there pressure is drawn
BALL_GONE = 1.2  # m from its place at which the ball is out of any window
STROBE_FADES = 0.4  # s after the ball in which the last flash has faded
APART = 0.07  # m between the heads of the strobe, at least
Point = tuple[float, float]


def lie_height(course: Course) -> float:
    """Height (m) of the bottom of the ball at rest in its lie, over the ground at the ball."""
    surface = SURFACES[course.lie.surface or surface_at(course, 0.0)]
    return surface.ball_raise + course.lie.lift


@dataclass
class _Shown:
    """How often the same has been shown; kept from the second time on."""

    times: int = 0
    sheet: pygame.Surface | None = None


def _of(key: tuple[Any, ...], course: Course, palette: Palette, mirrored: bool) -> bool:
    """Whether a ground with this key is of this course, in these colours and this way round."""
    return key[:2] == (course, course.lie) and key[3] == palette and key[7] is mirrored


def _apart(boxes: Iterable[Rect]) -> list[Rect]:
    """The boxes (px) with those that meet, over or under each other too, made one: what lies between far
    ones need not be drawn finely."""
    out: list[Rect] = []
    for box in sorted(boxes, key=lambda b: b.x):
        if out and box.x <= out[-1].right:
            one = out.pop()
            y = min(one.y, box.y)
            wide, high = max(one.right, box.right) - one.x, max(one.bottom, box.bottom) - y
            out.append(Rect(one.x, y, wide, high))
        else:
            out.append(box)
    return out


class TurfWindow:
    """Draws the strike at a time, or what a setting intends. True scale: head, ball and divot.

    Set from outside: `strobe` shows the club at equal times; `still` lets nothing fly; `spray` is the
    track of the shot shown, None: nothing is thrown; `scars` are earlier strokes from this ground. With
    `large` the head carries its angles, and all is sized for the back of a room; `closer` looks closer,
    `mirrored` shows it as a left-hander swings. `ask` has ground drawn beside the frames; with None each
    frame waits for it.
    """

    def __init__(self, whose: str = "") -> None:
        self._whole, self._cut = Sharpened(f"{whose}turf"), Sharpened(f"{whose}cut in the turf")
        self._cut_by: Shot | None = None
        self._showing = Cached[_Shown]()
        self._flashes, self._sprites = Cached[tuple[strobe.Flash, ...]](), Cached[strobe.Sprites]()
        self._passed, self._dashes = PassedHeads(), Cached[list[tuple[Point, Point]]]()
        self._spray, self._quiet = Cached[Spray](), Cached[float]()
        self.camera = Camera(1.0, 0.0, 0.0)
        self.slope = Tilted(1.0, 0.0, 0.0)
        self.said = Said(())
        self.strobe = self.still = self.large = self.mirrored = False
        self.closer, self.scars = WHOLE, NO_SCARS
        self.named: tuple[Named, ...] = ()  # labels of the angles as last placed
        self.spray: Track | None = None
        self.ask: AskGround | None = None

    def draw(
        self, surface: pygame.Surface, rect: Rect, theme: Theme, course: Course, intent: Intent,
        *, shot: Shot | None = None, time: float = 0.0, old: Intent | None = None,
        ghost: Shot | None = None, apart: float = 0.0, lit: str = "",
        numbers: bool = True,
    ) -> None:  # fmt: skip
        """Draw in the rect. `shot` is drawn at `time` when given, else the intended club; `old` is the
        setting before, `ghost` a second shot, `apart` seconds off."""
        at = paint.pixels(rect)
        box, palette = Rect(at.x, at.y, at.w, at.h), theme.palette
        high = surface.get_height()  # of what is projected: the window, of which this is a part
        unit = back_row_unit(high) if self.large else min(max(box.w / 640, 0.6), FINEST)
        theme = back_row_theme(theme, high) if self.large else theme
        rows = ROWS * theme.type.line("small")
        own = Rect(0, 0, box.w, box.h)
        self.camera = frame_turf(own, course, rows, self.closer, self.mirrored)
        self.slope = on_slope(self.camera, course)
        scars = self.scars.on(course, shot)
        if shot and ghost is None:
            time = min(time, self._quiet.get((shot, self.spray), lambda: self._over(shot)))
        key = (course, course.lie, at.size, palette, unit, rows, self.closer, self.mirrored, scars)

        def onto(out: pygame.Surface) -> pygame.Surface:
            self._earth(out, shot, time, course, key, palette, unit)
            self._strobe(out, palette, shot, time, unit)
            self._live(out, palette, course, intent, shot, time, old, ghost, apart, lit, unit)
            self._fly(out, palette, course, shot, time)
            self._words(out, theme, intent, shot, time, numbers, round(unit) if self.large else 1)
            if self.large:
                self._angles(out, theme, intent, shot, time, numbers, rows, unit)
            if lit == "hands":
                self._light_hands(out, theme, intent, shot, time, unit)
            return out

        now = (
            intent, shot, time, old, ghost, apart, lit, numbers, theme, self.spray, self.strobe, self.still,
            self.large, self._whole.drawn, self._cut.drawn, *key,
        )  # fmt: skip
        shown = self._showing.get(now, _Shown)
        shown.times += 1
        if shown.times == 1 and at == at.clip(surface.get_clip()):
            onto(surface.subsurface(at))  # what moves is drawn but once, in its place
            return
        if shown.sheet is None:
            shown.sheet = onto(pygame.Surface(at.size, 0, 32))
        surface.blit(shown.sheet, at)

    def _over(self, shot: Shot) -> float:
        """When nothing moves here any more (s): head and ball are out of sight, and all that flew lies."""
        run, track, sole = shot.run, self.spray, shot.strike.sole
        last = [sole.t[-1] if sole.t else shot.swing.t[-1], STROBE_FADES]
        out = next((t for t, x in zip(run.t, run.x, strict=True) if abs(x) > BALL_GONE), run.t[-1])
        back = any(t > out and abs(x) < BALL_GONE for t, x in zip(run.t, run.x, strict=True))
        last.append(run.t[-1] if back else out)
        if track:
            last += [float(b) + track.landed(k) for k, b in enumerate(track.born)]
        return max(last) + 0.01

    # ---- thrown turf and sand

    def _fly(
        self, surface: pygame.Surface, palette: Palette, course: Course, shot: Shot | None, time: float
    ) -> None:  # fmt: skip
        track = self.spray
        if shot is None or track is None or not track.pieces:
            return
        name = course.lie.surface or surface_at(course, 0.0)
        spray = self._spray.get((track, palette, name), lambda: Spray(track, palette, name))
        spray.draw(surface, self.camera, time, self.still)

    # ---- the club at equal times

    def _strobe(
        self, surface: pygame.Surface, palette: Palette, shot: Shot | None, time: float, unit: float
    ) -> None:  # fmt: skip
        if shot is None or not self.strobe:
            return
        row = self._row(shot)
        key = (shot, self.slope, palette, unit, surface.get_size())
        sprites = self._sprites.get(
            key,
            lambda: strobe.club_sprites(row, shot.setup, self.slope, palette, unit, surface.get_size()),
        )
        strobe.show(surface, sprites, time)

    def _row(self, shot: Shot) -> tuple[strobe.Flash, ...]:
        return self._flashes.get((shot,), lambda: strobe.flashes(shot, 0.6 * turf.WIDE, APART))

    # ---- the ground

    def _earth(
        self, out: pygame.Surface, shot: Shot | None, time: float, course: Course, key: tuple[Any, ...],
        palette: Palette, unit: float,
    ) -> None:  # fmt: skip
        """The ground, cut as far as the edge has come."""
        size, camera, scars = out.get_size(), self.camera, key[-1]
        own = Rect(0, 0, *size)

        def drawn(
            kept: Sharpened, key: tuple[Any, ...], cut: Shot | None, instead: DrawnGround | None
        ) -> pygame.Surface:
            model = marks.like(Setup(), course, cut)
            draw = partial(marks.ground, own, model, camera, palette, unit, scars)
            return kept.get(key, camera, size, draw, instead, self.ask)

        whole = drawn(self._whole, key, None, self._stand_in(course, palette, scars))
        if shot is None or not shot.strike.divot[0]:
            out.blit(whole, (0, 0))
            return
        old = self._cut.drawn if self._cut_by is shot else None
        cut = drawn(self._cut, (shot, *key), shot, old or self._whole.drawn)  # before the club comes
        self._cut_by = shot
        reach = min(max(round(self.slope.at(*self._front(shot, time))[0]), 0), size[0])
        if self._front(shot, time)[0] <= -turf.WIDE:
            reach = size[0] if self.mirrored else 0
        left, right = pygame.Rect(0, 0, reach, size[1]), pygame.Rect(reach, 0, size[0] - reach, size[1])
        first, second = (whole, cut) if self.mirrored else (cut, whole)
        out.blit(first, left, left)
        out.blit(second, right, right)

    def _stand_in(self, course: Course, palette: Palette, scars: Scars) -> DrawnGround | None:
        """What shows this ground, if not so near or without its newest scar: the cut of the stroke before,
        where that is a scar by now."""
        cut, whole = self._cut.drawn, self._whole.drawn
        if cut and self._cut_by in scars.shots and _of(cut.key[1:], course, palette, self.mirrored):
            return cut
        return whole if whole and _of(whole.key, course, palette, self.mirrored) else None

    @staticmethod
    def _front(shot: Shot, time: float) -> Point:
        """The furthest (m) the edge has come."""
        sole = shot.strike.sole
        rows = table(sole, lambda: (sole.t, *sole.edge, sole.lean))
        k = int(np.searchsorted(rows[0], time, side="right"))
        if not k:
            return -1.0, 0.0
        far = int(rows[1, :k].argmax())
        return float(rows[1, far]), float(rows[2, far])

    @staticmethod
    def _gone(shot: Shot, time: float) -> bool:
        """Whether the head has gone through: then the window keeps where it was."""
        sole = shot.strike.sole
        return bool(sole.t) and (time >= sole.t[-1] or head_at(shot, time)[0] > 0.5 * turf.WIDE)

    def _struck(self, shot: Shot | None, time: float) -> Shot | None:
        """The shot once its head has gone through."""
        return shot if shot is not None and self._gone(shot, time) else None

    # ---- what moves

    def _live(
        self, surface: pygame.Surface, palette: Palette, course: Course, intent: Intent, shot: Shot | None,
        time: float, old: Intent | None, ghost: Shot | None, apart: float, lit: str, unit: float,
    ) -> None:  # fmt: skip
        """Ways of the edge straight on the window; heads and ball finely, only where they are."""
        slope, struck, large = self.slope, self._struck(shot, time), self.large
        trail = marks.path_of(intent, struck)
        dashes = self._dashes.get((trail, slope), lambda: marks.way_dashes(slope, trail))
        marks.way(surface, dashes, palette, unit)
        pose = marks.pose_of(intent.ball)
        ghosts: list[tuple[Setup, clubhead.Pose]] = []
        stands = False  # whether the head stands where it met the ball
        if shot is None:
            ghosts += [(old.setup, marks.pose_of(old.ball))] if old else []
        else:
            pose = clubhead.Pose("now", marks.nearest_row(shot, time), *head_at(shot, time))
            self._path(surface, palette, shot, time, unit)
            kept = self._kept(shot, surface.get_width()) if large or not self.strobe else []
            self._passed.plan(
                shot, kept[:1] if self.strobe else kept, slope, palette, unit, surface.get_size()
            )  # fmt: skip
            if kept and struck:
                stands, pose = True, kept[0]
            else:
                self._passed.ahead()
        if ghost:
            ghosts.append((ghost.setup, clubhead.Pose("ghost", 0, *head_at(ghost, time + apart))))
        ball, low = self._ball_at(course, shot, time), marks.low_place(intent, struck)
        if stands:
            self._passed.under(surface)
        heads = [] if stands else [pose]
        near = [self._about_low(low, unit)]
        near += [self._about_head(p, unit) for p in (*heads, *(g[1] for g in ghosts)) if abs(p.x) < turf.WIDE]
        if -40 < ball[0] < surface.get_width() + 40:
            half = 1.5 * BALL.radius * self.camera.scale
            near.append(Rect(ball[0] - half, ball[1] - half, 2 * half, 2 * half))
        for around in _apart(near):
            with supersampled(surface, around, 1 if large else ZOOM) as (pen, dx, dy):
                moved = slope.moved(-dx, -dy)
                marks.low_point(pen, moved.at(*low), palette, unit)
                self._heads(
                    pen, moved, palette, course, intent, shot, time, heads, ghosts,
                    (ball[0] - dx, ball[1] - dy), unit,
                )  # fmt: skip
        if stands:
            self._passed.over(surface)
        self._light(surface, palette, course, pose, lit, unit)

    def _about_head(self, pose: clubhead.Pose, unit: float) -> Rect:
        """What a head, its shaft and the arrows under it fill (px), up to the top of the window."""
        ends = [self.slope.at(x, pose.y - BELOW) for x in (pose.x - BEHIND, pose.x + BEFORE)]
        left, right = sorted(x for x, _ in ends)
        return Rect(left, 0, right - left, max(y for _, y in ends) + 6 * unit)

    def _about_low(self, low: Point, unit: float) -> Rect:
        """What the mark of the low point fills (px)."""
        (x, y), half = self.slope.at(*low), MARK * self.slope.scale
        return Rect(x - half, y - 4 * unit, 2 * half, 16 * unit)

    def _kept(self, shot: Shot, wide: int) -> list[clubhead.Pose]:
        """Where the head went through, as it met the ball first; those that stand in sight."""
        poses = list(turf.poses(shot))
        poses.sort(key=lambda p: p.name != "ball")
        off = 0.02 * self.slope.scale
        return [p for p in poses if off < self.slope.at(p.x, p.y)[0] < wide - off]

    def _path(
        self, surface: pygame.Surface, palette: Palette, shot: Shot, time: float, unit: float
    ) -> None:  # fmt: skip
        """The way of the edge so far, light rim first."""
        sole = shot.strike.sole
        n = int(np.searchsorted(np.asarray(sole.t), time, side="right"))
        line = self.slope.line(sole.edge[0][:n:2], sole.edge[1][:n:2])
        for wide, colour in ((round(4.6 * unit), palette.halo), (max(round(2.4 * unit), 1), palette.path)):
            for a, b in pairwise(line):
                pygame.draw.aaline(surface, colour, a, b, wide)

    def _angles(
        self, surface: pygame.Surface, theme: Theme, intent: Intent, shot: Shot | None, time: float,
        numbers: bool, rows: float, unit: float,
    ) -> None:  # fmt: skip
        """Loft, bounce and lean on the head, with labels that keep clear of all other words."""
        self.named = ()
        angles = angles_at(shot, time, self._gone(shot, time)) if shot else angles_meant(intent)
        wide, high = surface.get_size()
        if angles is None or not 0.0 <= self.slope.at(*angles.edge)[0] <= wide:
            return
        room = Rect(theme.gap, 3, wide - 2 * theme.gap, high - rows - 3)
        seen = room.h / self.slope.scale
        draw_angles(surface, self.slope, theme, angles, seen, unit)
        asks = angle_asks(self.slope, angles, seen, numbers)
        shapes = self._shapes(intent, shot, angles)
        self.named = name_points(theme.type, asks, room, [w.box for w in self.said.words], shapes)
        draw_words(surface, theme, Said(tuple(n.word for n in self.named)))

    def _shapes(self, intent: Intent, shot: Shot | None, angles: HeadAngles) -> list[list[Point]]:
        """Head, shaft and the lines of the angles (px)."""
        pose = clubhead.Pose("now", 0, *angles.edge, angles.lean)
        shape, _ = clubhead.head_shape((shot or intent).setup.club, (shot or intent).setup.face_open)
        parts = (shape, [clubhead.HOSEL[0], clubhead.SHAFT[1]], ARROWS)
        lines = [[self.slope.at(*p) for p in clubhead.turned(part, pose)] for part in parts]
        return [*lines, *([end, (end[0], word.box.y)] for word, end in self.said.leaders)]

    def _heads(
        self, pen: Pen, camera: Camera, palette: Palette, course: Course, intent: Intent, shot: Shot | None,
        time: float, poses: list[clubhead.Pose], ghosts: list[tuple[Setup, clubhead.Pose]],
        at: Point, unit: float,
    ) -> None:  # fmt: skip
        """Ghosts, ball, head, and what the turf pushes with."""
        model = shot or marks.like(intent.setup, course)
        for setup, pose in ghosts:
            marks.outline(pen, camera, palette, setup, pose, unit)
        for pose in poses:
            clubhead.shaft(pen, camera, palette, pose, unit)
        marks.turf_ball(pen, at, BALL.radius * camera.scale, palette, unit)
        for pose in poses:
            clubhead.draw_club(pen, camera, palette, model, pose, True, unit)
            if shot and self._inside(shot, time):
                clubhead.pressure(pen, camera, palette, shot, pose, unit)

    @staticmethod
    def _inside(shot: Shot, time: float) -> bool:
        t = shot.strike.sole.t
        return bool(t) and t[0] <= time <= t[-1]

    def _ball_at(self, course: Course, shot: Shot | None, time: float) -> Point:
        """Middle of the ball (px): on the slope while it lies there."""
        if shot and shot.launch and time > shot.run.t[0]:
            return self.camera.at(*ball_at(shot.run, time))
        return self.slope.at(0.0, lie_height(course) + BALL.radius)

    def _light(
        self, surface: pygame.Surface, palette: Palette, course: Course, pose: clubhead.Pose, lit: str,
        unit: float,
    ) -> None:  # fmt: skip
        """A ring about the place a phrase speaks of."""
        places = {
            "edge": (pose.x, pose.y), "sole": clubhead.turned([(-0.012, -0.001)], pose)[0],
            "face": clubhead.turned([(-0.012, 0.018)], pose)[0],
            "ball": (0.0, lie_height(course) + BALL.radius),
            "turf": (0.06, -0.006),
        }  # fmt: skip
        if lit in places:
            (x, y), half = self.slope.at(*places[lit]), 28 * unit
            with supersampled(surface, Rect(x - half, y - half, 2 * half, 2 * half)) as (pen, dx, dy):
                ring(pen, (x - dx, y - dy), 22 * unit, palette, unit)

    def _light_hands(
        self, surface: pygame.Surface, theme: Theme, intent: Intent, shot: Shot | None, time: float,
        unit: float,
    ) -> None:  # fmt: skip
        """The hands are above the window: an arrow up the shaft toward them, and their name."""
        wide = surface.get_width()
        hands = strobe.hands_at(shot, time) if shot else intent.ball.hands
        edge = head_at(shot, time)[:2] if shot else intent.ball.edge
        (ax, ay), (bx, by) = self.slope.at(*edge), self.slope.at(*hands)
        lean = (bx - ax) / max(ay - by, 1.0)  # px sideways for each px up
        x = min(max(ax + (ay - 5.0) * lean, 40 * unit), wide - 40 * unit)
        long = 46 * unit
        with supersampled(surface, Rect(x - 60 * unit, 0, 120 * unit, 70 * unit)) as (pen, dx, dy):
            tip, tail = (x - dx, 6 - dy), (x - lean * long - dx, 6 + long - dy)
            clubhead.rimmed_arrow(pen, tail, tip, 3.4 * unit, theme.palette.landing, theme.palette.halo)
        word = beside(theme, "hands", (x, 4.0), 16 * unit, wide, self.said, self.heads(intent, shot, time))
        draw_words(surface, theme, Said((word,)))

    def heads(self, intent: Intent, shot: Shot | None, time: float) -> list[list[Point]]:
        """Head and shaft (px) that words keep clear of."""
        pose = clubhead.Pose("now", 0, *head_at(shot, time)) if shot else marks.pose_of(intent.ball)
        shape, _ = clubhead.head_shape(intent.setup.club, intent.setup.face_open)
        line = [clubhead.HOSEL[0], clubhead.SHAFT[1]]
        return [[self.slope.at(*p) for p in clubhead.turned(part, pose)] for part in (shape, line)]

    def _words(
        self, surface: pygame.Surface, theme: Theme, intent: Intent, shot: Shot | None, time: float,
        numbers: bool, thick: int,
    ) -> None:  # fmt: skip
        """Labels at the foot and in the corners; before the swing those of the intention."""
        struck = self._struck(shot, time)
        heads, every = self.heads(intent, shot, time), 0.0
        if struck and self.strobe and len(row := self._row(struck)) > 1:
            every = row[1].time - row[0].time
        self.said = said(
            theme, surface.get_size(), self.slope, intent, struck, numbers, heads, every,
            marks.low_place(intent, struck), not self.large,
        )  # fmt: skip
        draw_words(surface, theme, self.said, thick)
