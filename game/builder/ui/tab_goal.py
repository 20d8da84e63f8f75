"""The Goal leaf: what counts as done, how often, and what is called before the shot."""

from typing import Any

from game.builder.ui.boxes import Chips, Shares
from game.builder.ui.editing import Making
from game.builder.ui.fields import Turned, choice, number, switch
from game.builder.ui.words import names_in
from game.ui import Heading, Widget
from levels.rules import Loc
from levels.teaching import PREDICTIONS, STRIKES

__all__ = ["goal", "part"]

Lanes = list[list[Widget]]
CALLED = ("where it lands", "where it stops", "the strike")


def goal(m: Making) -> Lanes:
    """What counts as done, and what is called before the shot."""
    d = m.draft
    first: list[Widget] = [
        Heading("What counts"),
        number(m, ("goal", "leave_m"), "Stops within", "m", empty="any", start=1.5,
               tooltip="Farthest from the hole that still counts; empty for anywhere."),
        part(m, ("goal", "land_between_m"), "Has to land in a zone", [3.0, 5.0]),
    ]  # fmt: skip
    if d.at(("goal", "land_between_m")) is not None:
        ends = [number(m, ("goal", "land_between_m", k), w, "m") for k, w in enumerate(("from", "to"))]
        first.append(Shares(ends, (0.5, 0.5), 10.0))
    first.append(part(m, ("goal", "must_clear"), "Has to fly over a place", {"x_m": 2.0, "height_m": 0.5}))
    if d.at(("goal", "must_clear")) is not None:
        first.append(number(m, ("goal", "must_clear", "x_m"), "so far out", "m"))
        first.append(number(m, ("goal", "must_clear", "height_m"), "so high over the ground", "m", step=0.05))
    second: list[Widget] = [
        Heading("The strike"),
        choice(m, ("goal", "strike"), "How the ball is struck", (None, *STRIKES), ("any way", *STRIKES)),
        number(m, ("goal", "match_deg"), "Lean at the ball within", "°", step=0.5, empty="any", start=3.0,
               tooltip="How near the shaft lean at the ball has to be to that at address; empty for any."),
    ]  # fmt: skip
    inside = names_in(d, ("predict",))
    third: list[Widget] = [
        Heading("How often"),
        number(m, ("goal", "shots"), "Latest shots that count", "", whole=True, empty="1", start=1),
        number(m, ("goal", "successes"), "Good ones among them", "", whole=True, empty="1", start=1),
        switch(m, ("goal", "in_a_row"), "One after another"),
        Chips("The player calls first", PREDICTIONS, CALLED, inside,
              lambda now: m.set("change what is called", ("predict",), now)),
    ]  # fmt: skip
    return [first, second, third]


def part(m: Making, loc: Loc, label: str, begin: Any) -> Turned:
    """A switch for a whole part of the goal."""
    return Turned(
        label, lambda: m.draft.at(loc) is not None,
        lambda on: m.set(f"turn {label.lower()} {'on' if on else 'off'}", loc, begin if on else None),
    )  # fmt: skip
