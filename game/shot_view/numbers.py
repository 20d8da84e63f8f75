"""The numbers of a Shot in two columns, on request; the same as text for the clipboard."""

from collections.abc import Callable
from math import hypot, isnan

import pygame

from game.text.quantity import angle_words, decimal, rpm
from game.text.units import UNIT_SYSTEMS
from game.ui import Theme, Widget, paint
from physics.results import Shot

__all__ = ["NumberTable", "rows_of"]

Rows = tuple[tuple[str, str], ...]


def rows_of(shot: Shot, units: str = "m") -> Rows:
    """Label and value with its unit; stages that did not happen are left out."""
    u, k, run = UNIT_SYSTEMS[units], shot.strike, shot.run
    measured: list[tuple[str, float, Callable[[float], str]]] = [
        ("head speed", k.speed_before, u.speed), ("lean at impact", k.lean, _angle),
        ("loft at impact", k.loft, _angle), ("bounce at impact", k.bounce, _angle),
        ("attack", k.attack, _angle), ("turf before the ball", k.lead, u.small),
        ("depth of the mark", k.depth, u.small), ("depth of the edge", k.edge_depth, u.small),
        ("low point", shot.swing.low_point, u.small),
    ]  # fmt: skip
    if shot.launch:
        measured += [
            ("ball speed", shot.launch.speed, u.speed), ("launch", shot.launch.angle, _angle),
            ("backspin", rpm(shot.launch.spin), lambda turns: f"{decimal(turns)} rpm"),
            ("carry", run.carry, u.far), ("apex", run.apex, u.near),
            ("landing angle", run.landing_angle, _angle), ("roll", run.rest - run.carry, u.far),
        ]  # fmt: skip
        if shot.course.hole:
            leave = hypot(run.rest - shot.course.hole.x, shot.lateral)
            measured.append(("from the hole", leave, u.near))
    told = tuple((label, words(value)) for label, value, words in measured if not isnan(value))
    return (("contact", k.contact.value), ("turf", k.turf.value), *told)


def _angle(radians: float) -> str:
    return angle_words(radians, 1)


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
