"""The course from the side, alive: what stands still is drawn once, the ball and the golfer every frame."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, isfinite

import numpy as np
import pygame

from game.scene.figure import figure
from game.scene.patch import ZOOM, Kept, patch, rail_of, sprite
from game.scene.stance import Stance, read, stance_at, table
from game.ui import Theme, paint
from game.view import course as view
from game.view import path
from game.view.camera import Camera, Rect
from game.view.page import Mark
from game.view.palette import Palette
from game.view.pen import Pen
from physics.address import Setup
from physics.course import Course, Tree, Wall
from physics.equipment import BALL, FLAGSTICK
from physics.results import Outcome, Run, Shot

__all__ = ["LIT", "Scene", "Stage", "ball_at", "marks_of"]

YARD = 0.9144  # m, exact by definition
BEHIND = 1.5  # m shown behind the ball, the golfer's room
AROUND, TALL, LOW = 1.35, 2.0, 0.15  # m about the ball that golfer and club may fill
STEP = 4.0  # m by which the view grows when a ball runs out of it
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
    marks: tuple[Mark, ...] = ()  # label, x, height (m)
    lit: str = ""
    together: Shot | None = None  # a second shot that plays along, drawn as the ghost with its own ball
    apart: float = 0.0  # s on the second shot's line less those on the first's


def ball_at(run: Run, time: float) -> tuple[float, float]:
    """Centre of the ball (m) at a time (s)."""
    x, y = read(table(run, lambda: (run.t, run.x, run.y)), time)
    return x, y


def far(value: float, yards: bool) -> str:
    """A distance on the ground."""
    text = f"{value / YARD:.1f} yd" if yards else f"{value:.1f} m"
    return text.replace("-", "\N{MINUS SIGN}")


def marks_of(course: Course, shot: Shot | None, stops: Sequence[float] = (), yards: bool = False) -> tuple[
    Mark, ...
]:  # fmt: skip
    """Places named along the foot of the course, the most telling first."""
    out: list[tuple[str, float]] = []
    run = shot.run if shot else None
    if run and run.outcome in (Outcome.REST, Outcome.HOLED):
        word = "stopped" if run.outcome is Outcome.REST else "holed"
        out.append((f"{word} {far(run.rest, yards)}", run.rest))
    elif run and run.outcome is not Outcome.MISSED:
        out.append((run.outcome.value, run.x[-1]))
    if run and path.landing_at(run) is not None and isfinite(run.carry):
        out.append((f"landed {far(run.carry, yards)}", run.carry))
    if course.hole and not (run and run.outcome is Outcome.HOLED):
        out.append((f"hole {far(course.hole.x, yards)}", course.hole.x))
    if len(stops) > 1:
        out.append(("likely stops", float(np.quantile(stops, 0.1))))
    return tuple((text, x, view.ground_at(course, x)) for text, x in out)


class Stage:
    """Draws a Scene in a box at true scale. Holds its view until a ball runs out of it."""

    def __init__(self) -> None:
        self._seen: Course | None = None
        self._reach = (0.0, 0.0, 0.0)  # m: least x, most x, most y of anything shown
        self._still = Kept[pygame.Surface]()
        self._ground = Kept[pygame.Surface]()
        self._way = Kept[pygame.Surface]()
        self._ghost = Kept[pygame.Surface]()
        self._figure = Kept[pygame.Surface]()
        self.camera = Camera(1.0, 0.0, 0.0)

    # ---- the view

    def _look(self, scene: Scene) -> None:
        """Widen what must be seen by everything in the scene, in steps, never back on the same course."""
        course = scene.course
        if course != self._seen:
            hole = course.hole.x if course.hole else 6.0
            tops = [2.05]
            if course.hole:
                tops.append(view.ground_at(course, hole) + FLAGSTICK.height + 0.1)
            for h in course.hazards:
                if isinstance(h, Tree | Wall) and -2.0 <= h.x <= hole + 2.0:
                    tall = h.trunk + h.radius if isinstance(h, Tree) else h.height
                    tops.append(view.ground_at(course, h.x) + tall)
            self._seen = course
            self._reach = (-BEHIND, hole + max(1.5, 0.15 * hole), max(tops))
        left, right, top = self._reach
        for run in (s.run for s in (scene.shot, scene.ghost, scene.together) if s):
            if max(run.x) > right - 0.4:
                right = STEP * ceil((max(run.x) + 0.6) / STEP)
            if min(run.x) < left + 0.4:
                left = -STEP * ceil((0.6 - min(run.x)) / STEP)
            if max(run.y) > top - 0.1:
                top = ceil(2.0 * (max(run.y) + 0.2)) / 2.0
        self._reach = (left, right, top)

    def _aim(self, scene: Scene, box: Rect, earth: float) -> Camera:
        """The camera that holds what must be seen, over so many px of earth."""
        self._look(scene)
        left, right, top = self._reach
        inside = [
            y for x, y in zip(scene.course.ground.x, scene.course.ground.y, strict=True) if left < x < right
        ]
        low = min([*inside, view.ground_at(scene.course, left), view.ground_at(scene.course, right)])
        scale = min(box.w / (right - left), max(box.h - earth - 8.0, 20.0) / (top - low))
        x0 = box.w / 2 - 0.5 * (left + right) * scale
        return Camera(scale, x0, box.h - earth + low * scale)

    # ---- drawing

    def draw(self, surface: pygame.Surface, rect: Rect, theme: Theme, scene: Scene) -> None:
        """Draw the scene in the rect."""
        at = paint.pixels(rect)
        box = Rect(at.x, at.y, at.w, at.h)
        unit = min(max(box.w / 1600, 0.75), 1.3)
        line = theme.type.line("small")
        self.camera = camera = self._aim(scene, box, line + 22 * unit)
        with paint.clipped(surface, box):
            surface.blit(self._back(scene, camera, theme.palette, at.size, unit), at)
            self._ways(surface, at, scene, camera, theme.palette, unit)
            self._moving(surface, box, scene, theme.palette, unit)
            self._labels(surface, box, scene, theme, unit)

    def _back(
        self, scene: Scene, camera: Camera, palette: Palette, size: tuple[int, int], unit: float
    ) -> pygame.Surface:  # fmt: skip
        """Everything that stands still, with the band of likely stops."""
        key = (scene.course, camera, palette, size, unit)

        def still() -> pygame.Surface:
            fine = view.layer(scene.course, camera, palette, *size, unit, ZOOM)
            return pygame.transform.smoothscale(fine, size)

        base = self._still.get(key, still)

        def banded() -> pygame.Surface:
            sheet = base.copy()
            if len(scene.stops) > 1:
                ground = scene.course.ground
                ys = camera.y0 - camera.scale * np.interp(scene.stops, ground.x, ground.y)
                left, right = (camera.at(x, 0)[0] for x in (min(scene.stops), max(scene.stops)))
                spare = 3.0 * camera.scale * float(np.std(scene.stops)) + 10.0
                band = Rect(
                    left - spare, float(ys.min()) - 24 * unit, right - left + 2 * spare,
                    float(np.ptp(ys)) + 30 * unit,
                )  # fmt: skip
                with patch(sheet, band) as (pen, x, y):
                    moved = Camera(camera.scale, camera.x0 - x, camera.y0 - y)
                    path.stops(pen, moved, palette, scene.course, scene.stops, unit)
            return sheet

        return self._ground.get((*key, scene.stops), banded)

    def _ways(
        self, surface: pygame.Surface, at: pygame.Rect, scene: Scene, camera: Camera, palette: Palette,
        unit: float,
    ) -> None:  # fmt: skip
        """Path of the ghost, and that of the shot as far as the ball has come."""
        key = (camera, palette, at.size, unit)
        other = scene.together or scene.ghost
        if other:

            def shade() -> pygame.Surface:
                with sprite(*at.size, palette.ghost) as (pen, out):
                    path.ghost(pen, camera, palette, other.run, scene.course, unit)
                return out

            surface.blit(self._ghost.get((other, *key), shade), at)
        shot = scene.shot
        if shot is None or scene.time <= shot.run.t[0]:
            return

        def way() -> pygame.Surface:
            with sprite(*at.size, palette.path) as (pen, out):
                path.path(pen, camera, palette, shot.run, unit)
                path.landing(pen, camera, palette, shot.run, unit)
            return out

        sheet = self._way.get((shot, *key), way)
        run = shot.run
        rows = table(run, lambda: (run.t, run.x, run.y))
        gone = rows[1, : int(np.searchsorted(rows[0], scene.time, side="right"))]
        now = ball_at(run, scene.time)[0]
        far_left, far_right = min(float(gone.min()), now), max(float(gone.max()), now)
        left, right = camera.at(far_left, 0)[0], camera.at(far_right, 0)[0]
        done = scene.time >= shot.run.t[-1]
        spare = 12 * unit if done else 0.0
        cut = pygame.Rect(int(left - 12 * unit), 0, ceil(right - left + 12 * unit + spare), at.h)
        surface.blit(sheet, (at.x + cut.x, at.y), cut.clip(sheet.get_rect()) if cut.x >= 0 else cut)

    def _moving(
        self, surface: pygame.Surface, box: Rect, scene: Scene, palette: Palette, unit: float
    ) -> None:  # fmt: skip
        camera, shot = self.camera, scene.shot
        stance = stance_at(shot, scene.address, scene.time) if shot else scene.address
        size = (round(2 * AROUND * camera.scale), round((TALL + LOW) * camera.scale))

        def golfer() -> pygame.Surface:
            moved = Camera(camera.scale, AROUND * camera.scale, TALL * camera.scale)
            with sprite(*size, palette.field) as (pen, out):
                figure(pen, moved, palette, scene.setup, stance, unit)
            return out

        sheet = self._figure.get((scene.setup, stance, camera.scale, palette, unit), golfer)
        px, py = camera.at(-AROUND, TALL)
        surface.blit(sheet, (box.x + px, box.y + py))
        if scene.together:
            self._ball(surface, box, scene, scene.together, scene.time + scene.apart, palette, unit, True)
        self._ball(surface, box, scene, shot, scene.time, palette, unit, False)

    def _ball(
        self, surface: pygame.Surface, box: Rect, scene: Scene, shot: Shot | None, time: float,
        palette: Palette, unit: float, hollow: bool,
    ) -> None:  # fmt: skip
        x, y = 0.0, view.ground_at(scene.course, 0.0)
        if shot:
            lying = (Outcome.REST, Outcome.MISSED, Outcome.STUCK)
            if time >= shot.run.t[-1] and shot.run.outcome not in lying:
                return
            x, y = ball_at(shot.run, max(time, shot.run.t[0]))
            y -= BALL.radius
        px, py = self.camera.at(x, y)
        around = Rect(box.x + px - 16 * unit, box.y + py - 26 * unit, 32 * unit, 32 * unit)
        with patch(surface, around) as (pen, left, top):
            moved = Camera(self.camera.scale, self.camera.x0 + box.x - left, self.camera.y0 + box.y - top)
            path.ball(pen, moved, palette, x, y, unit, hollow)

    # ---- words along the foot

    def _labels(
        self, surface: pygame.Surface, box: Rect, scene: Scene, theme: Theme, unit: float
    ) -> None:  # fmt: skip
        type_, line, camera = theme.type, theme.type.line("small"), self.camera
        top = box.h - line - 1
        items = tuple((text, camera.at(x, 0)[0], "ink") for text, x, _ in scene.marks)
        words = rail_of(type_, items, Rect(theme.gap, top, box.w - 2 * theme.gap, line), "small")
        places = {text: (x, y) for text, x, y in scene.marks}
        for word in words:
            x, foot = camera.at(*places[word.text])
            under = min(max(x, word.box.x + 5), word.box.right - 5)
            points = [(box.x + x, box.y + foot + 12 * unit), (box.x + under, box.y + top)]
            if points[0][1] < points[1][1]:
                pygame.draw.aaline(surface, theme.palette.ink, points[0], points[1])
            plate = Rect(box.x + word.box.x - 4, box.y + top, word.box.w + 8, line)
            paint.box(surface, plate, theme.palette.paper, None, theme.radius)
            paint.text(surface, theme, word.text, "small", box.x + word.box.x, box.y + top)
        self._light(surface, box, scene, theme, unit)

    def _light(
        self, surface: pygame.Surface, box: Rect, scene: Scene, theme: Theme, unit: float
    ) -> None:  # fmt: skip
        """A ring about the place a phrase speaks of."""
        place = self._place(scene)
        if place is None:
            return
        x, y = self.camera.at(*place)
        with patch(surface, Rect(box.x + x - 30, box.y + y - 30, 60, 60)) as (pen, left, top):
            ring(pen, (box.x + x - left, box.y + y - top), 20 * unit, theme.palette, unit)

    def _place(self, scene: Scene) -> tuple[float, float] | None:
        shot, course = scene.shot, scene.course
        if scene.lit == "hands":
            return (stance_at(shot, scene.address, scene.time) if shot else scene.address).hands
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


def ring(pen: Pen, at: tuple[float, float], radius: float, palette: Palette, unit: float) -> None:
    """An open ring in the landing colour on a light rim."""
    turn = np.linspace(0.0, 2.0 * np.pi, 41)
    line = [(at[0] + radius * float(np.cos(a)), at[1] + radius * float(np.sin(a))) for a in turn]
    pen.line(line, 5.0 * unit, palette.halo)
    pen.line(line, 2.6 * unit, palette.landing)
