"""The golfer in any stance: the body that holds the club there, moved."""

from collections.abc import Callable

from game.draw.body import ADDRESS, Body, Manner, body_of, reach_of
from game.draw.camera import Camera, Rect
from game.draw.clothes import draw_body
from game.draw.golfer import golfer_club
from game.draw.palette import Palette
from game.draw.pen import Pen
from game.shot_view.stance import Stance
from game.ui.supersample import dashed
from physics.address import Setup

__all__ = ["figure_room", "ghost_club", "moving_figure", "posed"]

CLOTHES = 0.13  # m that clothes, cap, blade and butt reach beyond joints and club


def posed(setup: Setup, stance: Stance, manner: Manner = ADDRESS, from_behind: bool = False) -> Body:
    """The body that holds the club so."""
    return body_of(setup, stance.hub, stance.hands, stance.edge, manner, from_behind)


def figure_room(body: Body, stance: Stance) -> Rect:
    """What golfer and club fill (m): x and y of the least corner, width and height, y up."""
    left, low, right, high = reach_of(body)
    left, right = min(left, stance.edge[0]) - CLOTHES, max(right, stance.edge[0]) + CLOTHES
    low, high = min(low, stance.edge[1]) - CLOTHES, max(high, stance.edge[1], stance.hands[1]) + CLOTHES
    return Rect(left, low, right - left, high - low)


def moving_figure(
    pen: Pen, camera: Camera, palette: Palette, body: Body, stance: Stance, unit: float,
    between: Callable[[], None] | None = None,
) -> None:  # fmt: skip
    """Golfer and club at true scale. `between` draws what stands before the body and behind the club."""
    edge = (stance.edge[0], max(stance.edge[1], 0.002))

    def club() -> None:
        golfer_club(pen, camera, palette, stance.hands, edge, stance.tilt, unit)

    draw_body(pen, camera, palette, body, club, between)


def ghost_club(pen: Pen, camera: Camera, palette: Palette, stance: Stance, unit: float) -> None:
    """Arms and shaft of another setting, as dashed lines."""
    line = [camera.at(*p) for p in (stance.hub, stance.hands, stance.edge)]
    dashed(pen, line, 2.6 * unit, palette.halo, 11 * unit)
    dashed(pen, line, 1.5 * unit, palette.ghost, 11 * unit)
    pen.disc(camera.at(*stance.hands), 3.5 * unit, palette.ghost)
