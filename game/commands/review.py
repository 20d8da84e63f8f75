"""`fringework review`: a pupil's answer to an assignment, read in two minutes."""

import sys
from argparse import SUPPRESS, ArgumentParser, Namespace
from collections.abc import Iterator
from typing import Any

from game.commands.common import BadFileError
from game.commands.report import as_json, print_story, print_table, say

__all__ = ["REVIEW_FORMAT", "add_options", "review_data", "run"]

REVIEW_FORMAT = 1
NOTE = "Simulated shots, no measure of skill. Drills outside are as the pupil tells them."


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    parser.add_argument("file", metavar="FILE", help="the answer, as the pupil sent it")
    parser.add_argument(
        "--pack", metavar="FILE", help="the assignment it answers; by default looked for in your library"
    )
    parser.add_argument(
        "--json", action="store_true", help="print JSON (units stand in its keys) and nothing else"
    )
    parser.add_argument(
        "--data-dir", metavar="FOLDER", default=SUPPRESS,
        help="where your library is kept; by default with your settings",
    )  # fmt: skip


def run(args: Namespace) -> int:
    """Read, compare, tell. Returns the exit code."""
    from levels.answers import AnswerError, read_answer
    from levels.packs import PackError
    from levels.review import review

    try:
        answer = read_answer(args.file)
        found = review(_assignment(args, answer.assignment), answer)
    except (AnswerError, PackError) as error:
        from game.library.shelf import first

        raise BadFileError(first(error.problems)) from None
    except ValueError as error:
        raise BadFileError(f"'{args.file}' does not fit: {error}.") from None
    data = review_data(found)
    if args.json:
        print(as_json(data))
        return 0
    _print(found, data)
    return 0


def _assignment(args: Namespace, wanted: str) -> Any:
    """The pack that is answered. BadFileError where it is not at hand."""
    from game.library.assignments import assignment_of
    from game.library.home import data_home
    from levels.packs import read_pack

    if args.pack:
        return read_pack(args.pack)
    if (pack := assignment_of(data_home(args.data_dir), wanted)) is None:
        raise BadFileError(f"The assignment {wanted} is not in your library; give its file with --pack.")
    return pack


def review_data(found: Any) -> dict[str, Any]:
    """The review as plain data: m, shares, days; null for what there is too little to say about."""
    return {
        "format": REVIEW_FORMAT,
        "assignment": found.assignment,
        "pupil": found.pupil,
        "words": found.words,
        "days": [day.isoformat() for day in found.days],
        "shots_planned": found.shots_planned,
        "shots_done": found.shots_done,
        "full_drills": found.drill_days,
        "retest_planned": found.retest_planned and found.retest_planned.isoformat(),
        "retest_done": found.retest_done and found.retest_done.isoformat(),
        "outside": [
            {"day": day.isoformat(), "shots": shots, "came_off": came_off}
            for day, shots, came_off in found.outside
        ],
        "tasks": [_task_data(task) for task in found.tasks],
        "unknown_tasks": list(found.strangers),
        "repeat": list(found.proposal.repeat),
        "next": list(found.proposal.next),
        "notes": [NOTE],
    }


def _task_data(task: Any) -> dict[str, Any]:
    error = task.error and {
        "control": task.error.control, "way": "too much" if task.error.way > 0 else "too little",
        "count": task.error.count, "missed": task.error.missed, "attempt": task.error.line,
    }  # fmt: skip
    return {
        "name": task.name,
        "title": task.title,
        "tries": task.tries,
        "days": task.days,
        "met": _estimate(task.met),
        "passed": task.passed,
        "first_gap_m": task.first_gap,
        "last_gap_m": task.last_gap,
        "causes_right": task.causes_right,
        "causes_asked": task.causes_asked,
        "setup_error": error,
        "first_test": _estimate(task.first_test),
        "retest": _estimate(task.retest),
        "flag": task.flag,
        "changed": task.changed,
    }


def _estimate(found: Any) -> dict[str, Any] | None:
    """A share with its 95 % interval."""
    return found and {"share": found.value, "low": found.low, "high": found.high, "count": found.count}


# ---- for people


def _print(found: Any, data: dict[str, Any]) -> None:
    days = len(found.days)
    print_story([
        f"{found.pupil}: {found.shots_done} shots on {days} {'day' if days == 1 else 'days'}."
    ])  # fmt: skip
    if found.words:
        print(found.words)
    rows = [("practised on", ", ".join(data["days"]) or "no day")]
    if found.shots_planned is not None:
        rows.append(
            ("drill", f"{found.shots_planned} shots planned; {found.drill_days} times that many in a day")
        )
        rows.append(("retest", f"planned {found.retest_planned}, done {found.retest_done or 'not yet'}"))
    outside = [f"{day}: {good} of {shots}" for day, shots, good in found.outside]
    rows.append(("outside, self-reported", "; ".join(outside) or "nothing told"))
    sections = [("The assignment", tuple(rows))]
    sections += [(task.title, tuple(_task_rows(task))) for task in found.tasks]
    proposal = [("repeat", ", ".join(found.proposal.repeat) or "nothing")]
    proposal.append(("next", ", ".join(found.proposal.next) or "nothing built in follows"))
    print_table([*sections, ("Proposed", tuple(proposal))])
    print()
    for name in found.strangers:
        print(f"The answer has '{name}', which this assignment does not have.", file=sys.stderr)
    say(NOTE)


def _task_rows(task: Any) -> Iterator[tuple[str, str]]:
    from physics.address import CONTROLS

    if not task.tries:
        yield "tries", "none"
        return
    yield "tries", f"{task.tries} on {task.days} {'day' if task.days == 1 else 'days'}{_flagged(task)}"
    yield "goal met", _share(task.met)
    yield "passed", "yes" if task.passed else "not yet"
    if task.first_gap is not None:
        yield (
            "gap to the call",
            f"{task.first_gap:.2f} m in the first five, {task.last_gap:.2f} m in the last",
        )
    if task.causes_asked:
        yield "cause named right", f"{task.causes_right} of {task.causes_asked}"
    if task.error:
        way = "more" if task.error.way > 0 else "less"
        label = CONTROLS[task.error.control].label
        yield (
            "in the set-up",
            (
                f"{way} {label} than the reference in {task.error.count} of {task.error.missed} misses; "
                f"attempt {task.error.line + 1} shows it"
            ),
        )
    if task.first_test:
        yield "first test", _share(task.first_test)
    if task.retest:
        yield "retest", _share(task.retest)
    if task.changed:
        yield "mind", "some attempts were at another version of this scenario"


def _flagged(task: Any) -> str:
    return f"; looks {task.flag}" if task.flag else ""


def _share(found: Any) -> str:
    """A share as people read it, with what it may truly be."""
    good = round(found.value * found.count)
    return f"{good} of {found.count} (truly {100 * found.low:.0f} to {100 * found.high:.0f} %)"
