"""What a tool is given on the course: a press, a stretch or a line, by hand or by a cross moved with keys."""

from collections.abc import Callable

import pygame

from game.builder.model.edits import (
    add_bunker,
    add_hazard,
    draw_ground,
    insert_point,
    move_ball,
    move_hole,
    move_point,
    paint,
    set_value,
    smooth,
)
from game.builder.model.profile import clamp, mm, profile
from game.builder.ui.describe import list_at, surface_label
from game.builder.ui.editing import Editing
from game.builder.ui.grip import ARROWS, CENTIMETRE
from game.builder.ui.tools import tool
from game.builder.ui.viewport import Viewport
from levels.draft import Draft
from levels.rules import Loc

__all__ = ["Gesture"]

Place = tuple[float, float]
BUNKER, SHORT = 2.2, 0.3  # m: width of a bunker that was only pressed; what counts as only pressed; assumed
DEEP = 0.3  # depth of a new bunker over its width, assumed
PRESS = (pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE)
ENDS = {
    "hole": ("hole",),
    "ball": ("ball",),
    "clear": ("goal", "must_clear"),
    "land": ("goal", "land_between_m"),
}
STAYS = ("point", "draw", "surface", "even")  # tools that stay in hand


class Gesture:
    """`cross` is where the keys stand (m); `start` where a stretch began; `line` what is being drawn.

    `on_made` hears of an object that a tool has put on the course.
    """

    def __init__(self, editing: Editing, viewport: Viewport, on_made: Callable[[Loc], None]) -> None:
        self.editing, self.viewport, self.on_made = editing, viewport, on_made
        self.cross: Place | None = None
        self.start: Place | None = None
        self.end: Place | None = None
        self.line: list[Place] = []
        self.by_hand = True  # the pointer was used last, not the keys

    def begin(self, *, by_hand: bool) -> None:
        """Another tool is in hand, taken by the pointer or by a key."""
        self.cancel()
        self.cross, self.by_hand = None, by_hand

    def cancel(self) -> bool:
        """Give up what was begun; True when something was."""
        begun = self.start is not None or bool(self.line)
        self.start, self.end, self.line = None, None, []
        return begun

    # ---- by hand

    def mouse(self, event: pygame.event.Event) -> bool:
        """Press, drag, let go."""
        takes = tool(self.editing.tool).takes
        if event.type == pygame.MOUSEBUTTONDOWN:
            at = self.viewport.snapped(event.pos)
            self.cross, self.by_hand = None, True
            self.start = self.end = at
            self.line = [self.viewport.world(event.pos)]
        elif event.type == pygame.MOUSEMOTION and self.start is not None:
            self.end = self.viewport.snapped(event.pos)
            if takes == "line":
                self.line.append(self.viewport.world(event.pos))
        elif event.type == pygame.MOUSEBUTTONUP and self.start is not None:
            self._done(self.viewport.snapped(event.pos))
        else:
            return False
        return True

    # ---- by keys

    def key(self, event: pygame.event.Event) -> bool:
        """Arrows move the cross, Enter or Space presses there."""
        if not tool(self.editing.tool).takes or event.mod & pygame.KMOD_CTRL:
            return False
        self.by_hand = self.by_hand and event.key not in (*ARROWS, *PRESS)
        if event.key in ARROWS:
            step = self.viewport.step * (10 if event.mod & pygame.KMOD_SHIFT else 1)
            if event.mod & pygame.KMOD_ALT:
                step = CENTIMETRE
            dx, dy = ARROWS[event.key]
            x, y = self.place_cross()
            self._to(mm(x + dx * step), mm(y + dy * step))
        elif event.key in PRESS:
            self._press(self.place_cross())
        else:
            return False
        return True

    def place_cross(self) -> Place:
        """Where the keys stand; first on the ground in the middle of the picture."""
        if self.cross is None:
            picked = self.editing.picked
            handle = self.editing.handle_of(picked) if picked else None
            x = handle.x if handle else self.viewport.eye.x
            step = self.viewport.step
            x = mm(round(x / step) * step)
            self.cross = (x, mm(self.viewport.ground_y(x)))
        return self.cross

    def _to(self, x: float, y: float) -> None:
        self.cross = (x, y)
        if self.start is not None:
            self.end = self.cross
        self.viewport.reveal(self.viewport.pixel(x, y), 20.0)

    def _press(self, at: Place) -> None:
        takes = tool(self.editing.tool).takes
        if takes == "place":
            self.start = at
            self._done(at)
        elif takes == "stretch":
            if self.start is None:
                self.start = self.end = at
                self.editing.say("From here; move the cross and press Enter again.")
            else:
                self._done(at)
        elif self.line and self.line[-1] == at:
            self._done(at)
        else:
            self.start = self.start or at
            self.line.append(at)
            self.editing.say("Move the cross and press Enter for the next point; Enter twice ends.")

    # ---- the edits

    def _done(self, end: Place) -> None:
        editing = self.editing
        start, line, name = self.start or end, self.line, editing.tool
        self.cancel()
        before = editing.draft
        after, what, loc = self._edit(name, start, end, line)
        editing.settle()
        if not editing.do(what, after):
            if after is before or after == before:
                editing.say(self._why(name))
            return
        editing.picked = loc
        if name not in STAYS:
            editing.tool = "move"
            self.cross = None
        editing.changed()
        if loc is not None and name not in STAYS:
            self.on_made(loc)

    def _edit(self, name: str, a: Place, b: Place, line: list[Place]) -> tuple[Draft, str, Loc | None]:
        """The draft after it, its name as a step, and the object to pick then."""
        d, editing = self.editing.draft, self.editing
        left, right = sorted((a[0], b[0]))
        match name:
            case "point":
                return _point(d, *b)
            case "draw":
                return draw_ground(d, line), "draw the ground", None
            case "surface":
                return paint(d, left, right, editing.surface), f"lay {surface_label(editing.surface)}", None
            case "even":
                return smooth(d, left, right), "smooth the ground", None
            case "bunker":
                return _bunker(d, left, right)
            case "hole":
                return move_hole(d, b[0]), "put the hole", ENDS[name]
            case "ball":
                return move_ball(d, b[0]), "put the ball", ENDS[name]
            case "clear":
                x = clamp(mm(b[0]), 0.2, 100.0)
                high = clamp(mm(b[1] - self.viewport.ground_y(x)), 0.02, 20.0)
                mark = {"x_m": x, "height_m": high}
                return set_value(d, ("goal", "must_clear"), mark), "set a place to clear", ENDS[name]
            case "land":
                near = clamp(mm(left), 0.0, 99.0)
                far = clamp(mm(max(right, near + 0.5)), near + 0.1, 100.0)
                zone = set_value(d, ("goal", "land_between_m"), [near, far])
                return zone, "set the landing zone", ENDS[name]
        count = len(list_at(d, ("hazards",)))
        word = "out of bounds" if name == "out_of_bounds" else f"a {name}" if name != "water" else name
        return add_hazard(d, name, b[0]), f"put {word}", ("hazards", count)

    @staticmethod
    def _why(name: str) -> str:
        """Why nothing came of it."""
        return {
            "point": "There is a point already, or no ground: press beside it.",
            "draw": "Draw a longer line along the ground.",
            "surface": "Nothing changed: drag along ground that has another surface.",
            "even": "Nothing changed: drag over ground with corners.",
            "bunker": "There is no room for a bunker: drag at least 0.2 m inside the ground.",
        }.get(name, "Nothing changed there.")


def _point(d: Draft, x: float, y: float) -> tuple[Draft, str, Loc | None]:
    """A new point, put where the hand is."""
    after = insert_point(d, x)
    if after is d:
        return d, "", None
    i = min(range(len(ground := profile(after))), key=lambda k: abs(ground[k].x - x))
    return move_point(after, i, ground[i].x, y), "put a point", ("ground", i)


def _bunker(d: Draft, left: float, right: float) -> tuple[Draft, str, Loc | None]:
    if right - left < SHORT:
        left, right = left - BUNKER / 2, left + BUNKER / 2
    after = add_bunker(d, left, right, clamp(DEEP * (right - left), 0.1, 1.2))
    loc = None
    if after is not d:
        ground = profile(after)
        loc = ("ground", min(range(len(ground)), key=lambda k: abs(ground[k].x - left)))
    return after, "dig a bunker", loc
