"""`fringework log`: what the notebook holds, as a short table, CSV or JSON."""

import csv
import json
import os
import sys
from argparse import SUPPRESS, ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Iterable, Iterator
from datetime import date
from typing import Any

from game.commands.report import print_grid, say
from game.commands.values import whole

__all__ = ["LOG_FORMAT", "add_options", "attempt_data", "iso_day", "run"]

LOG_FORMAT = 1
NEWEST_SHOWN = 20
NOTE = "Simulated shots; no measure of skill."


def iso_day(text: str) -> date:
    """Type of a day like 2025-11-30."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise ArgumentTypeError(f"must be a date like 2025-11-30, not '{text}'") from None


def _words(text: str) -> str:
    """Type of a name in UTF-8, whatever the terminal says its signs are."""
    return os.fsencode(text).decode("utf-8", "replace")


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--csv", action="store_true", help="print CSV with a head line: one attempt a line")
    form.add_argument(
        "--json", action="store_true", help="print JSON: SI, units stand in the keys, null for what was not"
    )
    parser.add_argument(
        "--player",
        metavar="NAME",
        type=_words,
        help="only this player's attempts; by default everybody's",
    )
    parser.add_argument("--scenario", metavar="NAME", type=_words, help="only attempts at this scenario")
    parser.add_argument(
        "--since", metavar="DATE", type=iso_day, help="only attempts from that day on, like 2025-11-30"
    )
    parser.add_argument(
        "--last", metavar="N", type=whole(1, 1_000_000),
        help=f"only the newest N attempts; the table shows {NEWEST_SHOWN} unless told otherwise",
    )  # fmt: skip
    parser.add_argument(
        "--data-dir", metavar="FOLDER", default=SUPPRESS,
        help="where your notebook is kept; by default with your settings",
    )  # fmt: skip


def run(args: Namespace) -> int:
    """Print the log. Returns the exit code: 3 when the notebook cannot be used whole."""
    from collections import deque

    from game.library.home import data_home
    from game.library.notebook.doors import to_read
    from game.library.notebook.pages import attempts_of

    with to_read(data_home(args.data_dir)) as book:
        found: Iterable[Any] = attempts_of(book, args.player, scenario=args.scenario, since=args.since)
        last = args.last or (None if args.csv or args.json else NEWEST_SHOWN)
        rows = map(attempt_data, deque(found, maxlen=last) if last else found)
        if args.csv:
            _print_csv(rows)
        elif args.json:
            _print_json(rows)
        else:
            _print_table(list(rows))
        whole = book.readable and book.state not in ("damaged", "newer")
        problem = book.new_problem()
    if not whole:
        print(problem, file=sys.stderr)
        return 3
    return 0


def attempt_data(one: Any) -> dict[str, Any]:
    """One attempt, flat: SI with the unit in the key, None for what did not happen or was not asked."""
    from levels.answers import SI_KEYS

    result, call, meant = one.result, one.call, one.intention
    return {
        "id": one.uid,
        "player": one.player,
        "time": one.when.isoformat(),
        "day": one.day.isoformat(),
        "scenario": one.task.name,
        "title": one.task.title,
        "digest": one.task.digest,
        "part": one.part,
        "assignment": one.assignment,
        "lie": one.lie,
        "family": one.family,
        "distance_m": one.distance,
        "club": meant.setup.club.name,
        **{key: meant.value(name) for name, key in SI_KEYS.items()},
        "spread": one.spread.name,
        "seed": one.seed,
        "hints": one.hints,
        "call_landing_m": call.landing if call else None,
        "call_stop_m": call.stop if call else None,
        "call_strike": call.strike if call else None,
        "strike": result.strike,
        "contact": result.contact,
        "outcome": result.outcome,
        "holed": result.holed,
        "solid": result.solid,
        "as_set": result.as_set,
        "handle_return_rad": result.handle_return,
        "carry_m": result.carry,
        "rest_m": result.rest,
        "leave_m": result.leave,
        "stop_gap_m": one.stop_gap,
        "strokes": result.strokes,
        "reference_strokes": result.reference_strokes,
        "met": result.met,
        "passed": one.passed,
        "cause_chosen": one.cause.chosen if one.cause else None,
        "cause_true": one.cause.true if one.cause else None,
    }


def _print_csv(rows: Iterator[dict[str, Any]]) -> None:
    writer = csv.writer(sys.stdout, lineterminator="\n")
    for i, row in enumerate(rows):
        if not i:
            writer.writerow(row)
        writer.writerow(_cell(value) for value in row.values())


def _cell(value: Any) -> Any:
    """true and false as JSON has them; a text that a spreadsheet would run as a formula behind a quote."""
    if isinstance(value, bool):
        return str(value).lower()
    return f"'{value}" if isinstance(value, str) and value[:1] in tuple("=+-@\t\r") and value else value


def _print_json(rows: Iterator[dict[str, Any]]) -> None:
    """One object, an attempt a line: the whole of a long log is never held at once."""
    print(f'{{\n  "format": {LOG_FORMAT},\n  "notes": {json.dumps([NOTE])},\n  "attempts": [', end="")
    for i, row in enumerate(rows):
        print(
            ",\n    " if i else "\n    ", json.dumps(row, allow_nan=False, ensure_ascii=False), sep="", end=""
        )
    print("\n  ]\n}")


def _print_table(rows: list[dict[str, Any]]) -> None:
    if not rows:
        say("The notebook holds no such attempt.")
        return
    head = ("day", "player", "scenario", "club", "strike", "leave m", "strokes", "goal")
    print_grid(head, [
        (
            row["day"], row["player"], row["scenario"] or "bench", row["club"], row["strike"],
            _shown(row["leave_m"]), _shown(row["strokes"]),
            {None: "-", True: "met", False: "not met"}[row["met"]],
        )
        for row in rows
    ])  # fmt: skip
    say(NOTE)


def _shown(value: float | None) -> str:
    return "-" if value is None else f"{value:.2f}"
