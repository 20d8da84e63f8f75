"""Plain words and quiet tables on stdout: styled on a terminal, bare text in a pipe."""

import json
import sys
from collections.abc import Sequence
from math import exp, hypot, isnan
from typing import Any

from game.text.quantity import angle_plain, percent, revolutions
from game.text.units import UnitSystem
from physics.results import Contact, Outcome, Shot

__all__ = [
    "PRESETS",
    "SIDE_VIEW",
    "ReportSection",
    "as_json",
    "lean_rows",
    "leave_of",
    "print_grid",
    "print_story",
    "print_table",
    "report_sections",
    "say",
]

SIDE_VIEW = "Side view: height and distance, not left and right."
PRESETS = "Player presets are illustrative."
ReportSection = tuple[str, tuple[tuple[str, str], ...]]


def _styled(text: str, style: str) -> None:
    if not sys.stdout.isatty():
        print(text)
        return
    from rich.console import Console
    from rich.text import Text

    Console(highlight=False).print(Text(text, style=style))


def print_story(sentences: Sequence[str]) -> None:
    """The story, the first sentence strongest."""
    for i, sentence in enumerate(sentences):
        _styled(sentence, "bold" if i == 0 else "")


def say(text: str) -> None:
    """A quiet line."""
    _styled(text, "dim")


def print_table(sections: Sequence[ReportSection]) -> None:
    """Two columns, a heading a section."""
    wide = max(len(label) for _, rows in sections for label, _ in rows)
    for heading, rows in sections:
        print()
        _styled(heading, "bold")
        for label, value in rows:
            print(f"  {label:<{wide}}  {value}")


def print_grid(head: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
    """A table of numbers: every column right-aligned under its head."""
    wide = [max(len(row[k]) for row in (head, *rows)) for k in range(len(head))]
    _styled("  ".join(f"{text:>{w}}" for text, w in zip(head, wide, strict=True)), "bold")
    for row in rows:
        print("  ".join(f"{text:>{w}}" for text, w in zip(row, wide, strict=True)))


def as_json(data: Any) -> str:
    """JSON text with null for what did not happen (nan)."""
    return json.dumps(_clean(data), indent=2, allow_nan=False, ensure_ascii=False)


def _clean(data: Any) -> Any:
    if isinstance(data, dict):
        return {key: _clean(value) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [_clean(value) for value in data]
    return None if isinstance(data, float) and isnan(data) else data


def leave_of(shot: Shot) -> float:
    """Distance (m) left to the hole; nan without a hole or a ball in play."""
    hole = shot.course.hole
    if shot.run.outcome is Outcome.HOLED:
        return 0.0
    if hole is None or shot.run.outcome in (Outcome.WATER, Outcome.OUT, Outcome.LOST):
        return float("nan")
    return hypot(hole.x - shot.run.rest, shot.lateral)


def report_sections(shot: Shot, units: UnitSystem) -> tuple[ReportSection, ...]:
    """Lean, strike, launch and run of a shot as labels and values."""
    strike, launch, run = shot.strike, shot.launch, shot.run
    turf = [("turf", strike.turf.value)]
    if strike.length > 0.0:
        turf += [
            ("depth", units.small(strike.depth)),
            ("depth of the edge", units.small(strike.edge_depth)),
            ("length", units.small(strike.length)),
            ("before the ball", units.small(strike.lead)),
        ]
    contact = strike.contact.value
    if strike.double_hit and strike.contact is not Contact.TWICE:
        contact += ", hit twice"
    strike_rows = [("contact", contact), *turf, ("head speed", units.speed(strike.speed_before))]
    lean = ("Lean", lean_rows(shot))
    if launch is None:
        return (lean, ("Strike", tuple(strike_rows)), ("Run", (("outcome", run.outcome.value),)))
    strike_rows[1:1] = [
        ("distance as struck", f"{percent(exp(strike.struck_gap))} of the same stroke unspoilt"),
        ("distance as set", f"{percent(exp(strike.set_gap))} of what was set"),
        ("as set", "yes" if strike.as_set else "no"),
    ]
    strike_rows += [
        ("  at impact", units.speed(strike.speed_at_ball)),
        ("  after", units.speed(strike.speed_after)),
        ("loft at impact", angle_plain(strike.loft)),
        ("bounce at impact", angle_plain(strike.bounce)),
        ("attack", angle_plain(strike.attack)),
    ]
    launch_rows = (
        ("ball speed", units.speed(launch.speed)),
        ("angle", angle_plain(launch.angle)),
        ("spin", revolutions(launch.spin)),
    )
    return (
        lean,
        ("Strike", tuple(strike_rows)),
        ("Launch", launch_rows),
        ("Run", _run_rows(shot, units)),
    )


def lean_rows(shot: Shot) -> tuple[tuple[str, str], ...]:
    """The lean that was set and the one that came back, and what each part gave."""
    swing, met = shot.swing, shot.launch is not None
    rows = [
        ("set", angle_plain(swing.promised)),
        ("the motion brings", angle_plain(swing.by_motion)),
        ("with habit and stray", angle_plain(swing.delivered)),
    ]
    return (*rows, ("at impact", angle_plain(shot.strike.lean))) if met else tuple(rows)


def _run_rows(shot: Shot, units: UnitSystem) -> tuple[tuple[str, str], ...]:
    run, hole, leave = shot.run, shot.course.hole, leave_of(shot)
    rows = [
        ("carry", units.far(run.carry)),
        ("height", units.near(run.apex)),
        ("comes down at", angle_plain(run.landing_angle)),
        ("stops", units.far(run.rest)),
        ("outcome", run.outcome.value),
    ]
    if hole is not None and run.outcome is Outcome.REST:
        side = "past the hole" if run.rest > hole.x else "short of the hole"
        rows.append(("leaves", f"{units.near(leave)} {side}"))
    return tuple(rows)
