"""`fringework pack`: scenarios to share in one readable file, with a practice plan if one is given."""

import sys
from argparse import SUPPRESS, ArgumentParser, ArgumentTypeError, Namespace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from game.commands.common import CommandError, UsageError, WriteError, can_hold
from game.commands.report import say
from game.commands.values import file_ending, whole

__all__ = ["RefusedError", "add_options", "run"]

ENDING = ".pack.toml"
MOST_PLANNED, LATEST = 200, 14  # as in levels.plan, whose import the help can do without
PLAN = ("focus", "drill", "shots", "passed", "retest")


class RefusedError(CommandError):
    """A file that was given has problems."""

    code = 1


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise ArgumentTypeError(f"must be a date like 2025-11-30, not '{text}'") from None


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    parser.add_argument(
        "out", metavar="OUT.pack.toml", type=file_ending(ENDING), help="the pack; an older one is replaced"
    )
    parser.add_argument(
        "files", metavar="FILE", nargs="+",
        help="scenario files or names of built-in scenarios, in playing order",
    )  # fmt: skip
    parser.add_argument("--title", metavar="TEXT", required=True, help="name of the pack")
    parser.add_argument("--from", metavar="TEXT", dest="words", default="", help="your words to the player")
    parser.add_argument(
        "--focus", metavar="TEXT", action="append",
        help="a point to think of; once or twice. With it go --drill, --shots, --pass and --retest",
    )  # fmt: skip
    parser.add_argument("--drill", metavar="TEXT", help="the one drill")
    parser.add_argument("--shots", metavar="N", type=whole(1, MOST_PLANNED), help="shots of the drill")
    parser.add_argument(
        "--pass", metavar="N", dest="passed", type=whole(1, MOST_PLANNED),
        help="how many of them have to come off",
    )  # fmt: skip
    parser.add_argument(
        "--retest", metavar="DATE", type=_day, help=f"day of the test, within {LATEST} days, like 2025-11-30"
    )
    parser.add_argument(
        "--assign", action="store_true",
        help="make it an assignment: pupils can answer it, and `fringework review` reads their answers",
    )  # fmt: skip
    parser.add_argument(
        "--data-dir", metavar="FOLDER", default=SUPPRESS,
        help="where copies of assignments are kept for their answers; by default with your settings",
    )  # fmt: skip
    parser.add_argument("--caution", metavar="TEXT", help="what to take care of besides the usual")


def run(args: Namespace) -> int:
    """Write the pack. Returns the exit code."""
    from game.library.home import data_home
    from game.library.shelf import Shelf, first, hand_out
    from levels.packs import PackError
    from levels.proof_words import before_sharing

    can_hold(args.out)
    home = data_home(args.data_dir)
    if Shelf(home).contains(args.out):
        raise WriteError(f"'{args.out}' is in your own library; write it to another folder.")
    plan = _plan(args)
    try:
        pack = hand_out(
            args.files, plan, args.out, title=args.title, words=args.words, assignment=_new_id(args)
        )
    except PackError as error:
        raise RefusedError(first(error.problems)) from None
    except OSError as error:
        raise WriteError(f"'{args.out}' cannot be written: {error.strerror or error}.") from None
    untold = _keep(home, pack) if args.assign else ""
    count = len(pack.members)
    say(f"{args.out}: {count} {'scenario' if count == 1 else 'scenarios'}{', with a plan' if plan else ''}.")
    for member in pack.members:
        for sentence in before_sharing(member.scenario):
            print(f"Look at this: {member.name}: {sentence}", file=sys.stderr)
    if untold:
        print(untold, file=sys.stderr)
    return 0


def _keep(home: Path, pack: Any) -> str:
    """Keep a copy, by which answers find the pack, as the window does; a sentence where that fails."""
    from game.library.assignments import keep_assignment

    try:
        keep_assignment(home, pack)
    except OSError as error:
        return f"No copy could be kept for the answers ({error.strerror or error}): keep the pack."
    return ""


def _new_id(args: Namespace) -> str:
    """An id nobody else has; "" for a pack that asks for no answer."""
    from game.library.assignments import new_assignment_id

    return new_assignment_id() if args.assign else ""


def _plan(args: Namespace) -> Any:
    """The practice plan of the options; None when none of them is given."""
    given = [name for name in PLAN if getattr(args, name) is not None]
    if not given:
        if args.caution:
            raise UsageError("--caution belongs to a plan; give --focus, --drill, --shots, --pass, --retest.")
        return None
    for name in PLAN:
        if name not in given:
            raise UsageError(f"--{_option(name)} is missing; a plan needs all of {_all_options()}.")
    return _checked_plan({
        "made": date.today(), "focus": args.focus, "drill": args.drill, "shots": args.shots,
        "successes": args.passed, "retest": args.retest, "caution": args.caution or None,
    })  # fmt: skip


def _checked_plan(data: dict[str, Any]) -> Any:
    from levels.plan import checked_plan

    last = data["made"] + timedelta(days=LATEST)
    if not data["made"] < data["retest"] <= last:
        raise UsageError(f"--retest must be after today and not after {last}, not {data['retest']}.")
    plan, found = checked_plan(data)
    for key, what in found.items():
        raise UsageError(f"--{'pass' if key == 'successes' else key}: {what}.")
    return plan


def _option(name: str) -> str:
    return "pass" if name == "passed" else name


def _all_options() -> str:
    return ", ".join(f"--{_option(name)}" for name in PLAN)
