"""The course from the side, alive: what stands still is kept, the ball and the golfer drawn every frame."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from math import ceil, inf

import numpy as np
import pygame

from game.draw import course as view
from game.draw import flag, path
from game.draw.camera import Camera, Rect
from game.draw.course import course_unit
from game.draw.palette import Palette
from game.draw.pen import Pen
from game.draw.scar import far_scars
from game.draw.turf import Edge
from game.shot_view.dot_rows import DotRow, DotRows
from game.shot_view.figure import figure_room, moving_figure, posed
from game.shot_view.paths import Ways, ball_at
from game.shot_view.reaction import fall_time, manner_at, settled
from game.shot_view.scars import NO_SCARS
from game.shot_view.sight import BEHIND, Sight, sight_of, sights_ahead
from game.shot_view.splash import draw_sand, draw_splash, stick_lean, stirred
from game.shot_view.spray import Track
from game.shot_view.spray_look import Spray
from game.shot_view.stance import Stance, stance_at
from game.shot_view.turf_ground import AskGround
from game.text.mark import Mark, mark_words
from game.text.units import METRIC, UnitSystem
from game.ui import Theme, paint
from game.ui.supersample import Cached, rail_of, sprite, supersampled
from physics.address import Setup
from physics.course import Course
from physics.equipment import BALL, HOLE_RADIUS
from physics.results import Outcome, Shot

__all__ = ["LIT", "Scene", "Stage", "ball_at", "leader_parts", "same_view"]

HEAD_ROOM = 0.12  # m of sky kept over the highest place of the club
SWAYS = 0.12  # of the flagstick's height it may sway to either side
SPRAYED, DROPS = 1.1, 0.9  # m about a place that sand and water may reach, and over it
NEAR = 120.0  # px a metre from which a thumb's breadth of thrown turf can be seen
Piece = tuple[pygame.Surface, tuple[float, float]]  # a picture and its corner from the box's (px)
LIT = ("flight", "landing", "roll", "hole", "ball", "hands")  # places of phrases that lie on the stage


@dataclass(frozen=True)
class Scene:
    """What stands on the stage now. `address` is the golfer before the swing, `shot` what was played."""

    course: Course
    setup: Setup
    address: Stance
    shot: Shot | None = None
    time: float = 0.0  # s on the shot's line
    ghost: Shot | None = None
    stops: tuple[float, ...] = ()  # m
    marks: tuple[Mark, ...] = ()
    lit: str = ""
    together: Shot | None = None  # a second shot that plays along, drawn as the ghost with its own ball
    apart: float = 0.0  # s on the second shot's line less those on the first's
    units: UnitSystem = METRIC  # of the marks
    numbers: bool = True  # whether the marks tell their distances
    rows: tuple[DotRow, ...] = ()  # strokes as dots, along the foot
    later: tuple[DotRow, ...] = ()  # those that will stand there once the shot lies


class Stage:
    """Draws a Scene in a box at true scale. Holds its view until a ball runs out of it; then it goes back a
    step (`sight`), so that before the strike nothing tells how far the ball will go.

    Set from outside: `note` is said small along the foot; `spray` is the turf that the shot throws, shown
    where the view is near enough, `scars` what earlier strokes took. With `still` (reduced motion) all is
    shown as it comes to rest, and the golfer does not react. `left_handed` stands beyond the ball and is
    seen from behind: the target stays where it is. `ask` has views that a shot will need drawn beside the
    frames; with None its first frame waits for them.
    """

    def __init__(self, whose: str = "") -> None:
        self._whose = whose
        self.ask: AskGround | None = None
        self._end = Cached[Camera]()  # how the course will be seen once the shot lies
        self._seen: Course | None = None
        self._sight = Sight(-BEHIND, 0.0, 0.0)
        self._ahead = Cached[tuple[tuple[float, Sight], ...]]()
        self.note = ""
        self.spray: Track | None = None
        self.scars, self._floors = NO_SCARS, Cached[tuple[Edge, ...]]()
        self.still = self.left_handed = False
        self._ways, self._thrown = Ways(), Cached[Spray]()
        self._figure, self._flag = Cached[Piece](), Cached[Piece]()
        self._rows = DotRows()
        self.camera = Camera(1.0, 0.0, 0.0)

    # ---- the view

    def _look(self, scene: Scene) -> tuple[Sight, ...]:
        """Widen what must be seen by everything that has been seen, never back on the same course. Returns
        the sights a new shot will need, all but the first still to come."""
        course = scene.course
        if course != self._seen:
            self._seen, self._sight = course, sight_of(course)
        if scene.ghost:
            self._sight = self._sight.holding(scene.ghost.run)
        if scene.shot:
            high = max(scene.shot.swing.head[1]) + view.ground_at(course, 0.0) + HEAD_ROOM
            self._sight = self._sight.with_top(high)
        runs = tuple((s.run, late) for s, late in ((scene.shot, 0.0), (scene.together, scene.apart)) if s)
        new: tuple[Sight, ...] = ()

        def ahead() -> tuple[tuple[float, Sight], ...]:
            nonlocal new
            found = sights_ahead(self._sight, runs)
            new = tuple(sight for _, sight in found)
            return found

        for time, sight in self._ahead.get((course, runs), ahead):
            if time <= scene.time:
                self._sight = self._sight.joined(sight)
        return new

    def _aim(self, sight: Sight, course: Course, box: Rect, earth: float) -> Camera:
        """The camera that holds a sight, over so many px of earth."""
        left, right, top = sight.left, sight.right, sight.top
        inside = [y for x, y in zip(course.ground.x, course.ground.y, strict=True) if left < x < right]
        low = min([*inside, view.ground_at(course, left), view.ground_at(course, right)])
        scale = min(box.w / (right - left), max(box.h - earth - 8.0, 20.0) / (top - low))
        x0 = box.w / 2 - 0.5 * (left + right) * scale
        return Camera(scale, x0, box.h - earth + low * scale)

    # ---- drawing

    def draw(self, surface: pygame.Surface, rect: Rect, theme: Theme, scene: Scene) -> None:
        """Draw the scene in the rect."""
        at = paint.pixels(rect)
        box, type_, palette = Rect(at.x, at.y, at.w, at.h), theme.type, theme.palette
        unit = course_unit(box.w)
        mark = unit * theme.scale**0.5  # marks grow too, though less than the text
        note = type_.wrap(self.note, "small", box.w - 2 * theme.gap)
        foot = type_.line("small") * len(note)
        strokes, course = self._rows.height(theme, scene.rows, box.h), scene.course

        def aim(sight: Sight, strokes: float) -> Camera:
            return self._aim(sight, course, box, type_.line("small") + foot + strokes + 22 * mark)

        def still(camera: Camera) -> pygame.Surface:
            return view.still(course, camera, palette, *at.size, unit, flag=False)

        new = self._look(scene)
        for k, sight in enumerate(new):
            self._draw_ahead(f"view {k}", still, aim(sight, strokes))
        if scene.shot and scene.later and self.ask:
            last = aim(new[-1] if new else self._sight, self._rows.height(theme, scene.later, box.h))
            key = (scene.shot, course, palette, at.size)
            self._end.get(key, lambda: self._draw_ahead("view of the end", still, last))
        self.camera = camera = aim(self._sight, strokes)
        with paint.clipped(surface, box):
            surface.blit(still(camera), at)
            far_scars(surface, (box.x, box.y), scene.course, camera, palette, self._scars(scene), mark)
            self._flagstick(surface, box, scene, palette, unit)
            self._gone(surface, at, scene, palette, mark)
            self._moving(surface, box, scene, palette, mark)
            self._stir(surface, box, scene, palette, mark)
            self._fly(surface, at, scene, palette)
            under = Rect(box.x, box.bottom - foot - type_.line("small") - 2 - strokes, box.w, strokes)
            self._rows.draw(surface, theme, under, scene.rows, camera, box.h)
            told = self._rows.captions(theme, scene.rows, box.h)
            clear = tuple((under.y + a, under.y + b) for a, b in told)
            self._labels(surface, Rect(box.x, box.y, box.w, box.h - foot), scene, theme, mark, clear)
            self._light(surface, box, scene, theme, mark)
            paint.lines(surface, theme, note, "small", box.x + theme.gap, box.bottom - foot - 1, "muted")

    def _draw_ahead(self, name: str, still: Callable[[Camera], pygame.Surface], camera: Camera) -> Camera:
        """Have the course drawn as a camera will see it, before any frame waits for it."""
        job = partial(still, camera)
        if self.ask:
            self.ask(f"{self._whose}{name}", job, lambda _: None)  # it is kept where it is drawn
        else:
            job()
        return camera

    def _gone(
        self, surface: pygame.Surface, at: pygame.Rect, scene: Scene, palette: Palette, unit: float
    ) -> None:  # fmt: skip
        """Likely stops, the other shot's path, and this one's as far as its ball has come."""
        ways, other = self._ways, scene.together or scene.ghost
        ways.look(at, self.camera)
        ways.likely(surface, scene.course, scene.stops, palette, unit)
        if other:
            ways.ghost(surface, scene.course, other, palette, unit)
        if scene.shot:
            ways.gone(surface, scene.shot, scene.time, palette, unit)

    def _scars(self, scene: Scene) -> tuple[Edge, ...]:
        """What this ground has lost, to the stroke on show too once its head has gone through."""
        shot = scene.shot
        through = bool(shot and shot.strike.sole.t and scene.time >= shot.strike.sole.t[-1])
        old = self.scars.on(scene.course, shot)
        return self._floors.get(
            (old, shot if through else None), (old.after(shot) if shot and through else old).floors
        )

    def _fly(self, surface: pygame.Surface, at: pygame.Rect, scene: Scene, palette: Palette) -> None:
        """Thrown turf and sand."""
        track, camera = self.spray, self.camera
        if scene.shot is None or track is None or not track.pieces or camera.scale < NEAR:
            return
        name = scene.course.lie.surface or view.surface_at(scene.course, 0.0)
        spray = self._thrown.get((track, palette, name), lambda: Spray(track, palette, name))
        moved = Camera(camera.scale, camera.x0 + at.x, camera.y0 + at.y)
        spray.draw(surface, moved, scene.time, self.still)

    def _stance(self, scene: Scene) -> Stance:
        """Golfer and club now."""
        if scene.shot is None:
            return scene.address
        stance = stance_at(scene.shot, scene.address, scene.time)
        return settled(stance, scene.address, scene.shot, scene.time, not self.still)

    def _moving(
        self, surface: pygame.Surface, box: Rect, scene: Scene, palette: Palette, unit: float
    ) -> None:  # fmt: skip
        camera, shot, stance = self.camera, scene.shot, self._stance(scene)
        manner = manner_at(shot, stance.hub, scene.time, not self.still)

        def golfer() -> Piece:
            body = posed(scene.setup, stance, manner, self.left_handed)
            room, s = figure_room(body, stance), camera.scale
            moved = Camera(s, -room.x * s, room.bottom * s)
            with sprite(ceil(room.w * s), ceil(room.h * s), palette.field) as (pen, out):
                moving_figure(pen, moved, palette, body, stance, unit)
            return out, camera.at(room.x, room.bottom)

        key = (scene.setup, stance, manner, self.left_handed, camera, palette, unit)
        sheet, (px, py) = self._figure.get(key, golfer)
        surface.blit(sheet, (box.x + px, box.y + py))
        if scene.together:
            self._ball(surface, box, scene, scene.together, scene.time + scene.apart, palette, unit, True)
        self._ball(surface, box, scene, shot, scene.time, palette, unit, False)

    def _flagstick(
        self, surface: pygame.Surface, box: Rect, scene: Scene, palette: Palette, unit: float
    ) -> None:
        """Flagstick and flag, swaying while a ball has just struck it."""
        hole, camera = scene.course.hole, self.camera
        if hole is None or not hole.flagstick:
            return
        low = view.ground_at(scene.course, hole.x)
        lean = 0.0 if self.still else stick_lean(scene.shot, scene.time)

        def stick() -> Piece:
            at = Rect(0.0, 0.0, box.w, box.h)
            x, foot = camera.at(hole.x, low - flag.CUP_DEPTH)
            top = flag.stick_top(at, low, camera, unit) - 8 * unit
            half = SWAYS * (foot - top) + 12 * unit
            wide = max(0.6 * camera.scale + half, 2.0 * half)
            around = Rect(x - half, top, half + wide, foot - top + 4 * unit)
            moved = Camera(camera.scale, camera.x0 - around.x, camera.y0 - around.y)
            inner = Rect(0.0, at.y - around.y, around.w, at.h)
            with sprite(ceil(around.w), ceil(around.h), palette.outline) as (pen, out):
                flag.draw_flagstick(pen, inner, hole, low, moved, palette, unit, lean)
            return out, (around.x, around.y)

        key = (hole, low, camera, box.w, box.h, palette, unit, lean)
        sheet, (px, py) = self._flag.get(key, stick)
        surface.blit(sheet, (box.x + round(px), box.y + round(py)))

    def _stir(
        self, surface: pygame.Surface, box: Rect, scene: Scene, palette: Palette, unit: float
    ) -> None:  # fmt: skip
        """Sand that landings threw, and the splash of a ball in water."""
        shot, time, camera = scene.shot, scene.time, self.camera
        if shot is None:
            return
        sprays, wet = stirred(shot, time)
        places = [(s.x, s.y) for s in sprays] + ([(shot.run.x[-1], shot.run.y[-1])] if wet else [])
        if not places:
            return
        left, right = min(x for x, _ in places) - SPRAYED, max(x for x, _ in places) + SPRAYED
        low, high = min(y for _, y in places) - 0.3, max(y for _, y in places) + DROPS
        (x, y), s = camera.at(left, high), camera.scale
        with supersampled(surface, Rect(box.x + x, box.y + y, (right - left) * s, (high - low) * s)) as (
            pen, from_x, from_y,
        ):  # fmt: skip
            moved = Camera(s, camera.x0 + box.x - from_x, camera.y0 + box.y - from_y)
            for spray in sprays:
                age = inf if self.still else time - spray.time
                draw_sand(pen, moved, palette, shot, spray, age, unit)
            if wet and not self.still:
                draw_splash(pen, moved, palette, shot, time - shot.run.t[-1], unit)

    def _ball(
        self, surface: pygame.Surface, box: Rect, scene: Scene, shot: Shot | None, time: float,
        palette: Palette, unit: float, hollow: bool,
    ) -> None:  # fmt: skip
        x, y = 0.0, view.ground_at(scene.course, 0.0)
        if shot:
            lying = (Outcome.REST, Outcome.MISSED, Outcome.STUCK)
            if shot.run.outcome is Outcome.HOLED and time >= fall_time(shot):
                self._in_cup(surface, box, scene.course, ball_at(shot.run, time), palette, unit)
                return
            if time >= shot.run.t[-1] and shot.run.outcome not in lying:
                return
            x, y = ball_at(shot.run, max(time, shot.run.t[0]))
            y -= BALL.radius
        px, py = self.camera.at(x, y)
        around = Rect(box.x + px - 16 * unit, box.y + py - 26 * unit, 32 * unit, 32 * unit)
        with supersampled(surface, around) as (pen, left, top):
            moved = Camera(self.camera.scale, self.camera.x0 + box.x - left, self.camera.y0 + box.y - top)
            path.draw_ball(pen, moved, palette, x, y, unit, hollow)

    def _in_cup(
        self, surface: pygame.Surface, box: Rect, course: Course, at: tuple[float, float], palette: Palette,
        unit: float,
    ) -> None:  # fmt: skip
        """A ball in the hole, smaller the deeper it has fallen: at the bottom as large as the cup lets it."""
        hole, s = course.hole, self.camera.scale
        assert hole
        rim = view.ground_at(course, hole.x)
        share = min(max((rim - at[1]) / (flag.CUP_DEPTH - BALL.radius), 0.0), 1.0)
        least, most = (
            max(BALL.radius * s, min(2.2 * unit, 0.5 * HOLE_RADIUS * s)),
            max(BALL.radius * s, 5 * unit),
        )
        r = most + (least - most) * share
        x, foot = self.camera.at(min(max(at[0], hole.x - 0.03), hole.x + 0.03), at[1] - BALL.radius)
        around = Rect(box.x + x - 12 * unit, box.y + foot - 24 * unit, 24 * unit, 28 * unit)
        with supersampled(surface, around) as (pen, left, top):
            centre = (box.x + x - left, box.y + foot - r - top)
            pen.disc(centre, r + 1.0 * unit, palette.outline)
            pen.disc(centre, r, palette.ball)

    # ---- words along the foot

    def _labels(
        self, surface: pygame.Surface, box: Rect, scene: Scene, theme: Theme, unit: float,
        clear: tuple[tuple[float, float], ...] = (),
    ) -> None:  # fmt: skip
        """Words with a hair to their place; no hair through the heights (px) of `clear`."""
        type_, line, camera = theme.type, theme.type.line("small"), self.camera
        top = box.h - line - 1
        items = tuple(
            (mark_words(m, scene.units, scene.numbers), camera.at(m.x, 0)[0], "ink") for m in scene.marks
        )
        words = rail_of(type_, items, Rect(theme.gap, top, box.w - 2 * theme.gap, line), "small")
        for word in words:
            place = scene.marks[word.item].x
            x, foot = camera.at(place, view.ground_at(scene.course, place))
            under = min(max(x, word.box.x + 5), word.box.right - 5)
            points = [(box.x + x, box.y + foot + 12 * unit), (box.x + under, box.y + top)]
            for a, b in leader_parts(points[0], points[1], clear):
                pygame.draw.aaline(surface, theme.palette.ink, a, b)
            plate = Rect(box.x + word.box.x - 4, box.y + top, word.box.w + 8, line)
            paint.box(surface, plate, theme.palette.paper, None, theme.radius)
            paint.text(surface, theme, word.text, "small", box.x + word.box.x, box.y + top)

    def _light(
        self, surface: pygame.Surface, box: Rect, scene: Scene, theme: Theme, unit: float
    ) -> None:  # fmt: skip
        """A ring about the place a phrase speaks of."""
        place = self._place(scene)
        if place is None:
            return
        x, y = self.camera.at(*place)
        half = 24 * unit + 6
        around = Rect(box.x + x - half, box.y + y - half, 2 * half, 2 * half)
        with supersampled(surface, around) as (pen, left, top):
            ring(pen, (box.x + x - left, box.y + y - top), 20 * unit, theme.palette, unit)

    def _place(self, scene: Scene) -> tuple[float, float] | None:
        shot, course = scene.shot, scene.course
        if scene.lit == "hands":
            return self._stance(scene).hands
        if shot is None or shot.launch is None:
            return None
        run = shot.run
        land = path.landing_at(run)
        if scene.lit == "flight":
            k = int(np.argmax(run.y[: land + 1])) if land is not None else 0
            return run.x[k], run.y[k]
        if scene.lit == "landing" and land is not None:
            return run.x[land], run.y[land] - BALL.radius
        if scene.lit == "roll":
            return 0.5 * (run.carry + run.rest), view.ground_at(course, 0.5 * (run.carry + run.rest))
        if scene.lit == "hole" and course.hole:
            return course.hole.x, view.ground_at(course, course.hole.x)
        return None


def leader_parts(
    start: tuple[float, float], end: tuple[float, float], clear: tuple[tuple[float, float], ...]
) -> list[tuple[tuple[float, float], tuple[float, float]]]:  # fmt: skip
    """A line downward (px) without what of it lies in the heights of `clear`, top and bottom of each."""
    (x, y), (to_x, low) = start, end
    if y >= low:
        return []

    def at(height: float) -> tuple[float, float]:
        return x + (to_x - x) * (height - y) / (low - y), height

    edges = [y, *(min(max(edge, y), low) for span in sorted(clear) for edge in span), low]
    return [(at(a), at(b)) for a, b in zip(edges[::2], edges[1::2], strict=True) if b > a]


def same_view(stages: tuple[Stage, Stage], scenes: tuple[Scene, Scene]) -> None:
    """Two stages of one course see the same stretch of it, wide enough for both scenes."""
    for stage, scene in zip(stages, scenes, strict=True):
        stage._look(scene)
    both = stages[0]._sight.joined(stages[1]._sight)
    for stage in stages:
        stage._sight = both


def ring(pen: Pen, at: tuple[float, float], radius: float, palette: Palette, unit: float) -> None:
    """An open ring in the landing colour on a light rim."""
    turn = np.linspace(0.0, 2.0 * np.pi, 41)
    line = [(at[0] + radius * float(np.cos(a)), at[1] + radius * float(np.sin(a))) for a in turn]
    pen.line(line, 5.0 * unit, palette.halo)
    pen.line(line, 2.6 * unit, palette.landing)
