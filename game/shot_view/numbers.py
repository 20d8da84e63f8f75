"""The numbers of a Shot in two columns, on request; the same as text for the clipboard."""

from math import degrees, hypot, isnan

import pygame

from game.text.units import UNITS
from game.ui import Theme, Widget, paint
from game.ui.number import shown
from physics.results import Shot

__all__ = ["NumberTable", "rows_of"]

Rows = tuple[tuple[str, str], ...]


def rows_of(shot: Shot, units: str = "m") -> Rows:
    """Label and value with its unit; stages that did not happen are left out."""
    u, k, run = UNITS[units], shot.strike, shot.run
    rows = [
        ("contact", k.contact.value), ("turf", k.turf.value), ("head speed", u.speed(k.speed_before)),
        ("lean at the ball", _angle(k.lean)), ("loft at the ball", _angle(k.loft)),
        ("bounce at the ball", _angle(k.bounce)), ("attack", _angle(k.attack)),
        ("turf before the ball", u.small(k.lead)), ("depth", u.small(k.depth)),
        ("low point", u.small(shot.swing.low_point)),
    ]  # fmt: skip
    if shot.launch:
        turn = shot.launch.spin * 9.549296585513721  # rad/s to rev/min: 60 / 2 pi
        rows += [
            ("ball speed", u.speed(shot.launch.speed)), ("launch", _angle(shot.launch.angle)),
            ("backspin", f"{turn:.0f} rpm"), ("carry", u.far(run.carry)),
            ("apex", u.near(run.apex)), ("landing angle", _angle(run.landing_angle)),
            ("roll", u.far(run.rest - run.carry)),
        ]  # fmt: skip
        if shot.course.hole:
            leave = hypot(run.rest - shot.course.hole.x, shot.lateral)
            rows.append(("from the hole", u.near(leave)))
    told = ((label, value) for label, value in rows if "nan" not in value and value not in ("", "-"))
    return tuple((label, value.replace("-", "\N{MINUS SIGN}")) for label, value in told)


def _angle(radians: float) -> str:
    return "" if isnan(radians) else f"{shown(degrees(radians), 1)}\N{DEGREE SIGN}"


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
