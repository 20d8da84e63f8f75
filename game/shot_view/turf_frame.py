"""What the turf window looks at: head, ball and divot at true scale; closer, and moved, as somebody asks."""

from dataclasses import dataclass, replace

from game.draw.camera import Camera, Rect
from game.draw.course import ground_at
from physics.course import Course

__all__ = ["CLOSEST", "WHOLE", "Closer", "frame_turf"]

# The frame depends on the box alone, never on the shot, so that it cannot jump while one plays.
OVER = 0.088  # m over the ground: the blade to its top line (49 mm) and the hosel, with a leaning shaft
UNDER = 0.034  # m under it: the deepest divots a wedge cuts (25 mm), and room for the marks below, assumed
ACROSS = 0.20  # m of ground at least: head, ball (43 mm) and a divot of some 10 cm
MIDDLE = -0.006  # m from the ball to the middle of the frame: the head at the ball lies behind it
CLOSEST = 6.0  # times the whole frame, assumed: a ball then fills the picture
WHEEL_STEP = 1.25  # of one turn of the wheel or one key, common practice
MOST_OFF = 0.22  # m the middle may be moved to either side, no further than the strike reaches


@dataclass(frozen=True)
class Closer:
    """How much closer than the whole frame, and how far (m) the middle is moved, along and up."""

    times: float = 1.0
    x: float = 0.0
    y: float = 0.0

    def by(self, steps: float, at: tuple[float, float] = (0.0, 0.0)) -> "Closer":
        """Closer by so many steps (+) or further off (-); `at`, m from the middle, keeps its place."""
        times = min(max(self.times * WHEEL_STEP**steps, 1.0), CLOSEST)
        kept = 1.0 - self.times / times
        return replace(self, times=times).moved(at[0] * kept, at[1] * kept)

    def moved(self, dx: float, dy: float) -> "Closer":
        """The middle so far (m) along and up; whole frames stand where they are up and down."""
        high = (OVER + UNDER) * (1.0 - 1.0 / self.times) / 2
        x, y = self.x + dx, self.y + dy
        return replace(self, x=min(max(x, -MOST_OFF), MOST_OFF), y=min(max(y, -high), high))


WHOLE = Closer()


def frame_turf(
    box: Rect, course: Course, rows: float, closer: Closer = WHOLE, mirrored: bool = False
) -> Camera:  # fmt: skip
    """The camera for a box (px) of which `rows` at the foot are kept for labels; `mirrored` as a left-hander
    swings, the target on the left."""
    free = max(box.h - rows, 40.0)
    scale = min(free / (OVER + UNDER), box.w / ACROSS) * closer.times
    low = ground_at(course, 0.0)
    middle = low + closer.y + (OVER - UNDER) / 2  # height in the middle of what is free
    off = (MIDDLE + closer.x) * scale * (-1.0 if mirrored else 1.0)
    return Camera(scale, box.x + 0.5 * box.w - off, box.y + 0.5 * free + middle * scale, mirrored)
