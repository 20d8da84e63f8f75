"""The tab of the goal: what counts as done, how often, and what is called before the shot."""

from typing import Any

from game.builder.ui.boxes import Chips, Shares
from game.builder.ui.describe import names_at
from game.builder.ui.editing import Editing
from game.builder.ui.fields import LiveToggle, choice_field, number_field, switch_field
from game.builder.ui.tabs import Columns
from game.ui import Heading, Widget
from levels.rules import Loc
from levels.teaching import PREDICTIONS, STRIKES

__all__ = ["goal_tab", "optional_part"]

CALLED = ("where it lands", "where it stops", "the strike")


def goal_tab(e: Editing) -> Columns:
    """What counts as done, and what is called before the shot."""
    d = e.draft
    first: list[Widget] = [
        Heading("What counts"),
        number_field(
            e,
            ("goal", "leave_m"),
            "Stops within",
            "m",
            empty="any",
            start=1.5,
            tooltip="Farthest from the hole that still counts; empty for anywhere.",
        ),
        optional_part(e, ("goal", "land_between_m"), "Has to land in a zone", [3.0, 5.0]),
    ]
    if d.at(("goal", "land_between_m")) is not None:
        ends = [number_field(e, ("goal", "land_between_m", k), w, "m") for k, w in enumerate(("from", "to"))]
        first.append(Shares(ends, (0.5, 0.5), 10.0))
    first.append(
        optional_part(e, ("goal", "must_clear"), "Has to fly over a place", {"x_m": 2.0, "height_m": 0.5})
    )
    if d.at(("goal", "must_clear")) is not None:
        first.append(number_field(e, ("goal", "must_clear", "x_m"), "so far out", "m"))
        first.append(
            number_field(e, ("goal", "must_clear", "height_m"), "so high over the ground", "m", step=0.05)
        )
    first.append(
        number_field(e, ("goal", "ceiling_m"), "Stays below", "m", empty="any", start=1.0,
                     tooltip="Greatest height of the ball over where it lay; empty for any.")
    )  # fmt: skip
    second: list[Widget] = [
        Heading("The strike"),
        choice_field(
            e, ("goal", "strike"), "How the ball is struck", (None, *STRIKES), ("any way", *STRIKES)
        ),
        number_field(
            e,
            ("goal", "match_deg"),
            "Lean at impact within",
            "°",
            step=0.5,
            empty="any",
            start=3.0,
            tooltip="How near the shaft lean at impact has to be to that at address; empty for any.",
        ),
    ]
    inside = names_at(d, ("predict",))
    third: list[Widget] = [
        Heading("How often"),
        number_field(e, ("goal", "shots"), "Latest shots that count", "", whole=True, empty="1", start=1),
        number_field(e, ("goal", "successes"), "Good ones among them", "", whole=True, empty="1", start=1),
        switch_field(e, ("goal", "in_a_row"), "One after another"),
        Chips(
            "The player calls first",
            PREDICTIONS,
            CALLED,
            inside,
            lambda now: e.set("change what is called", ("predict",), now),
        ),
    ]
    return [first, second, third]


def optional_part(e: Editing, loc: Loc, label: str, begin: Any) -> LiveToggle:
    """A switch for a whole part of the goal."""
    return LiveToggle(
        label,
        lambda: e.draft.at(loc) is not None,
        lambda on: e.set(f"turn {label.lower()} {'on' if on else 'off'}", loc, begin if on else None),
    )
