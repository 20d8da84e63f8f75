"""When the next frame is due: sixty a second while something moves, none while nothing does."""

from dataclasses import dataclass

__all__ = ["FRAME", "Pace"]

FRAME = 1.0 / 60.0  # s
AWAKE = 1.0  # s of frames after anything has happened: what shows or settles after a rest has done so by then
LONGEST = 60.0  # s asleep at most: a look at the clock, should the system lose an event
AWAY = 0.1  # s between updates while the window is hidden and something moves; nothing is drawn


@dataclass
class Pace:
    """Asked before each frame how long to wait for an event.

    `hidden`: the window cannot be seen, so that nothing need be drawn.
    """

    left: float = AWAKE  # s of frames still to come
    hidden: bool = False

    def stir(self) -> None:
        """Something has happened: frames for a while."""
        self.left = AWAKE

    def pass_time(self, dt: float) -> None:
        """`dt` seconds have gone by."""
        self.left = max(self.left - dt, 0.0)

    @property
    def step(self) -> float:
        """Seconds between looks for an event while waiting."""
        return AWAY if self.hidden else FRAME

    def wait(self, moving: bool, due: float) -> float:
        """Seconds to wait for an event before the next frame; `due`: when words are to go, inf for never."""
        if self.hidden:
            return AWAY if moving else LONGEST
        if moving or self.left > 0.0:
            return 0.0
        return min(max(due, FRAME), LONGEST)
