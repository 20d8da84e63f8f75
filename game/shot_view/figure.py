"""The golfer in any stance: the figure of the still page, moved."""

from collections.abc import Callable

from game.draw import golfer
from game.draw.camera import Camera
from game.draw.palette import Palette
from game.draw.pen import Pen
from game.shot_view.stance import Stance
from game.ui.supersample import dashed
from physics.address import Setup

__all__ = ["ghost_club", "moving_figure"]

HIP = 0.86  # m, as the still page draws it


def moving_figure(
    pen: Pen, camera: Camera, palette: Palette, setup: Setup, stance: Stance, unit: float,
    between: Callable[[], None] | None = None,
) -> None:  # fmt: skip
    """Golfer and club at true scale; the hip stands still over the weight. `between` draws what stands
    before the body and behind the club."""
    shift = (setup.lead_weight - 0.5) * (setup.stance_width + 0.10)
    hip = (-setup.ball_position + shift, HIP)
    golfer.legs(pen, camera, palette, setup, hip)
    golfer.torso(pen, camera, palette, stance.hub, hip)
    golfer.head(pen, camera, palette, stance.hub)
    if between:
        between()
    edge = (stance.edge[0], max(stance.edge[1], 0.002))
    golfer.golfer_club(pen, camera, palette, stance.hands, edge, stance.tilt, unit)
    golfer.arms(pen, camera, palette, stance.hub, stance.hands)
    pen.disc(camera.at(*stance.hands), 0.047 * camera.scale, palette.skin)


def ghost_club(pen: Pen, camera: Camera, palette: Palette, stance: Stance, unit: float) -> None:
    """Arms and shaft of another setting, as dashed lines."""
    line = [camera.at(*p) for p in (stance.hub, stance.hands, stance.edge)]
    dashed(pen, line, 2.6 * unit, palette.halo, 11 * unit)
    dashed(pen, line, 1.5 * unit, palette.ghost, 11 * unit)
    pen.disc(camera.at(*stance.hands), 3.5 * unit, palette.ghost)
