"""`fringework recap`: two strokes with the same small mistake on one page to take home, PDF and picture."""

import re
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Callable
from datetime import date
from pathlib import Path

from game.commands.common import UsageError, WriteError
from game.commands.options import describe
from game.commands.pair import TwoStrokes, add_pair, pair_of, pair_shots
from game.commands.progress import counted, preparing
from game.commands.report import PRESETS, SIDE_VIEW, print_story, say
from game.commands.shot import add_units
from game.commands.values import name_of, whole
from game.draw.printed import PAPERS
from game.text.recap import LATEST_RETEST, Recap, recap_cause, recap_rows, side_names
from game.text.units import UNIT_SYSTEMS
from levels.lessons import COUNTED

__all__ = ["add_options", "pair_recap", "run"]

NAME = Path("fringework-recap")
LONGEST = 40  # letters of a name
LONGEST_WHEN = 60


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    add_pair(parser)
    add_units(parser)
    group = parser.add_argument_group("page")
    group.add_argument(
        "--out", metavar="FILE", type=Path, default=NAME,
        help=f"file to write: .pdf, .png, or without either ending both; default {NAME}.pdf and {NAME}.png",
    )  # fmt: skip
    group.add_argument(
        "--paper",
        metavar="|".join(PAPERS),
        type=name_of(PAPERS),
        default="A4",
        help="size of paper; default A4",
    )
    group.add_argument("--junior", action="store_true", help="few short words in large type")
    group.add_argument(
        "--pupil", metavar="NAME", type=_line(LONGEST), default="",
        help=f"for whom it is, up to {LONGEST} letters; default a line to write on",
    )  # fmt: skip
    group.add_argument(
        "--when", metavar="WORDS", type=_line(LONGEST_WHEN), default="",
        help="completes 'If ..., then I do this drill'; default a line to write on",
    )  # fmt: skip
    group.add_argument(
        "--date", metavar="YYYY-MM-DD", type=_day, default=None, help="its date; default today"
    )
    group.add_argument(
        "--retest-days", metavar="DAYS", type=whole(1, LATEST_RETEST), default=LATEST_RETEST,
        help=f"days until it is asked again, 1 to {LATEST_RETEST}; default {LATEST_RETEST}",
    )  # fmt: skip


def _day(text: str) -> date:
    """Type of a date."""
    try:
        if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            day = date.fromisoformat(text)
            if 2000 <= day.year <= 2999:
                return day
    except ValueError:
        pass
    raise ArgumentTypeError(f"must be a date between 2000-01-01 and 2999-12-31, not '{text}'")


def _line(longest: int) -> Callable[[str], str]:
    """Type of one line of words."""

    def read(text: str) -> str:
        words = " ".join(text.split())
        if len(words) > longest or not words.isprintable():
            raise ArgumentTypeError(f"must be one line of up to {longest} letters, not '{text[:60]}'")
        return words

    return read


def run(args: Namespace) -> int:
    """Play, count, write, tell. Returns the exit code."""
    from game.handout import HandoutError, LetterError, check_letters, hold, write_page

    pair = pair_of(args)
    try:
        hold(args.out)
        check_letters(args.pupil, args.when)
        recap = pair_recap(pair, args)
        files = write_page(recap, args.out, args.paper)
    except LetterError as error:
        raise UsageError(str(error)) from None
    except HandoutError as error:
        raise WriteError(str(error)) from None
    _print(recap, pair, args)
    for file in files:
        say(str(file))
    say(PRESETS)
    say(SIDE_VIEW)
    return 0


def pair_recap(pair: TwoStrokes, args: Namespace) -> Recap:
    """The recap of two strokes, each counted."""
    from game.handout import recap_of
    from physics.cloud import cloud

    order = pair.order
    with preparing("cloud"):
        a, b = pair_shots(pair)
        clouds = [
            cloud(order.course, *stroke, order.spread, order.seed, COUNTED)
            for stroke in counted((pair.first, pair.second), 2, "Strokes")
        ]
    return recap_of(
        a, b, (clouds[0], clouds[1]), args.date or date.today(), pupil=args.pupil, when=args.when,
        retest_days=args.retest_days, junior=args.junior, units=UNIT_SYSTEMS[args.units],
    )  # fmt: skip


def _print(recap: Recap, pair: TwoStrokes, args: Namespace) -> None:
    from game.commands.report import print_grid

    print_story([recap_cause(recap)])
    say(describe(pair.order, UNIT_SYSTEMS[args.units]))
    print()
    print_grid(["", *side_names(recap)], [list(row) for row in recap_rows(recap)])
    print()
