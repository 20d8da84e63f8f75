"""The numbers of a Shot in two columns, on request; the same as text for the clipboard."""

from math import hypot

import pygame

from game.commands.units import UNITS, angle
from game.ui import Theme, Widget, paint
from physics.results import Shot

__all__ = ["NumberTable", "rows_of"]

Rows = tuple[tuple[str, str], ...]


def rows_of(shot: Shot, units: str = "m") -> Rows:
    """Label and value with its unit; stages that did not happen are left out."""
    u, k, run = UNITS[units], shot.strike, shot.run
    rows = [
        ("contact", k.contact.value), ("turf", k.turf.value), ("head speed", u.speed(k.speed_before)),
        ("lean at the ball", angle(k.lean)), ("loft at the ball", angle(k.loft)),
        ("bounce at the ball", angle(k.bounce)), ("attack", angle(k.attack)),
        ("turf before the ball", u.small(k.lead)), ("depth", u.small(k.depth)),
        ("low point", u.small(shot.swing.low_point)),
    ]  # fmt: skip
    if shot.launch:
        turn = shot.launch.spin * 9.549296585513721  # rad/s to rev/min: 60 / 2 pi
        rows += [
            ("ball speed", u.speed(shot.launch.speed)), ("launch", angle(shot.launch.angle)),
            ("backspin", f"{turn:.0f} rpm"), ("carry", u.far(run.carry)),
            ("apex", u.near(run.apex)), ("landing angle", angle(run.landing_angle)),
            ("roll", u.far(run.rest - run.carry)),
        ]  # fmt: skip
        if shot.course.hole:
            leave = hypot(run.rest - shot.course.hole.x, shot.lateral)
            rows.append(("from the hole", u.near(leave)))
    return tuple((label, value) for label, value in rows if "nan" not in value and value != "-")


class NumberTable(Widget):
    """Two columns: what, how much."""

    focusable = False

    def __init__(self) -> None:
        super().__init__("Numbers")
        self.rows: Rows = ()

    @property
    def text(self) -> str:
        """Tab-separated, for the clipboard."""
        return "\n".join(f"{label}\t{value}" for label, value in self.rows)

    def height(self, theme: Theme, width: float) -> float:
        return max(len(self.rows), 1) * theme.type.line("label")

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        line, r = theme.type.line("label"), self.rect
        if not self.rows:
            paint.text(surface, theme, "No shot yet.", "label", r.x, r.y, "muted")
        for i, (label, value) in enumerate(self.rows):
            y = r.y + i * line
            paint.text(surface, theme, label, "label", r.x, y, "muted")
            paint.text(surface, theme, value, "strong", r.right, y, "ink", 1.0)
